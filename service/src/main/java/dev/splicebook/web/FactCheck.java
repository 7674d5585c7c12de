package dev.splicebook.web;

import java.util.Collection;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** Holds values against what a {@link Fact} says of them. */
final class FactCheck {

    private static final int LONGEST_TEXT = 100;

    private FactCheck() {}

    /** Whether the value is as the fact says; faults are told to the walk, which stands at the value. */
    static boolean passes(Fact fact, Object value, Walk walk) {
        if (value instanceof Number number) {
            return isWithin(fact, number.doubleValue(), walk);
        }
        if (value instanceof String text) {
            return isProper(text, walk);
        }
        if (value instanceof List<?> list) {
            boolean passes = hasFittingCount(fact, list, walk);
            for (int i = 0; i < list.size(); i++) {
                passes &= passesEach(fact, i, list.get(i), walk);
            }
            return passes;
        }
        if (value instanceof Map<?, ?> map) {
            boolean passes = hasFittingCount(fact, map.keySet(), walk);
            for (Map.Entry<?, ?> entry : map.entrySet()) {
                passes &= passesEach(fact, entry.getKey(), entry.getValue(), walk);
            }
            return passes;
        }
        return true;
    }

    private static boolean passesEach(Fact fact, Object token, @Nullable Object value, Walk walk) {
        if (!(value instanceof Number) && !(value instanceof String)) {
            return true;
        }
        walk.enter(token);
        boolean passes = passes(fact, value, walk);
        walk.leave();
        return passes;
    }

    private static boolean isWithin(Fact fact, double value, Walk walk) {
        boolean within = (fact.aboveLeast() ? value > fact.least() : value >= fact.least()) && value <= fact.most();
        if (!within) {
            walk.fault("out-of-range", () -> walk.here() + " is " + Words.figure(value) + ", outside " + range(fact));
        }
        return within;
    }

    private static boolean isProper(String text, Walk walk) {
        boolean proper = !text.isBlank() && text.length() <= LONGEST_TEXT;
        if (!proper) {
            walk.fault(
                    "bad-text",
                    () -> walk.here()
                            + (text.isBlank()
                                    ? " is blank"
                                    : " has " + text.length() + " characters, above " + LONGEST_TEXT));
        }
        return proper;
    }

    private static boolean hasFittingCount(Fact fact, Collection<?> entries, Walk walk) {
        if (entries.size() < fact.leastEntries()) {
            walk.fault(
                    "too-few", () -> walk.here() + " has " + entries.size() + " entries, below " + fact.leastEntries());
        } else if (entries.size() > fact.mostEntries()) {
            walk.fault(
                    "too-many", () -> walk.here() + " has " + entries.size() + " entries, above " + fact.mostEntries());
        } else {
            return true;
        }
        return false;
    }

    private static String range(Fact fact) {
        String unit = fact.unit().isEmpty() ? "" : " " + fact.unit();
        if (fact.least() == Double.NEGATIVE_INFINITY) {
            return "up to " + Words.figure(fact.most()) + unit;
        }
        String from = (fact.aboveLeast() ? "above " : "") + Words.figure(fact.least());
        return fact.most() == Double.POSITIVE_INFINITY
                ? from + unit + " and more"
                : from + " to " + Words.figure(fact.most()) + unit;
    }
}
