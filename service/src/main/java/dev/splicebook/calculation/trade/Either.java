package dev.splicebook.calculation.trade;

import dev.splicebook.guard.Guard;
import org.jspecify.annotations.Nullable;

/** Faults of inputs that stand for one another or belong together, told at one of them. */
final class Either {

    private Either() {}

    /** Refuses neither, at the first, and both, at the second. */
    static void one(Guard guard, String first, @Nullable Object one, String second, @Nullable Object other) {
        guard.refuseIf(
                one == null && other == null,
                first,
                "missing-field",
                () -> first + " is missing; either " + first + " or " + second + " is given");
        atMostOne(guard, first, one, second, other);
    }

    /** Refuses both, at the second. */
    static void atMostOne(Guard guard, String first, @Nullable Object one, String second, @Nullable Object other) {
        guard.refuseIf(
                one != null && other != null,
                second,
                "either-or",
                () -> second + " stands beside " + first + "; one of the two is given");
    }

    /** Refuses the lack of one that the other needs. */
    static void needs(Guard guard, String name, @Nullable Object given, String needed, @Nullable Object other) {
        guard.refuseIf(
                given != null && other == null,
                needed,
                "missing-field",
                () -> needed + " is missing; " + name + " needs it");
    }
}
