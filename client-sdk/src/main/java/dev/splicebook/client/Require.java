package dev.splicebook.client;

import java.time.Duration;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** What arguments and answers must hold. Null comes from callers without null checks, and from answers with a gap. */
final class Require {

    private Require() {}

    static String text(String name, @Nullable String value) {
        if (value == null || value.isBlank()) {
            throw new IllegalArgumentException(name + " is missing");
        }
        return value;
    }

    static <T> T present(String name, @Nullable T value) {
        if (value == null) {
            throw new IllegalArgumentException(name + " is missing");
        }
        return value;
    }

    static <T> List<T> listOrEmpty(@Nullable List<T> list) {
        return list == null ? List.of() : List.copyOf(list);
    }

    static <K, V> Map<K, V> mapOrEmpty(@Nullable Map<K, V> map) {
        return map == null ? Map.of() : Map.copyOf(map);
    }

    static int atLeastOne(String name, int value) {
        if (value < 1) {
            throw new IllegalArgumentException(name + " is " + value + ", below 1");
        }
        return value;
    }

    static int notNegative(String name, int value) {
        if (value < 0) {
            throw new IllegalArgumentException(name + " is " + value + ", below 0");
        }
        return value;
    }

    static Duration above0(String name, Duration value) {
        if (value.isZero() || value.isNegative()) {
            throw new IllegalArgumentException("the " + name + " is " + value + ", not above 0");
        }
        return value;
    }

    static double positive(String name, double value) {
        if (!(value > 0) || Double.isInfinite(value)) {
            throw new IllegalArgumentException(name + " is " + value + ", not above 0");
        }
        return value;
    }
}
