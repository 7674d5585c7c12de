package dev.splicebook.hookup;

import dev.splicebook.guard.Guard;

/**
 * A range of volts.
 *
 * @param min above 0
 * @param max not below {@code min}, at most 60
 */
public record VoltRange(double min, double max) {

    /** Between the most that charges a battery for 12 V and the least that one for 24 V is worth. */
    private static final double LEAST_OF_24 = 19;

    public VoltRange {
        new Guard()
                .positive("min", min, 60)
                .positive("max", max, 60)
                .notAbove("min", min, "max", max)
                .check();
    }

    /** Whether it is of a vehicle with two batteries for 12 V in series. */
    public boolean isOf24Volts() {
        return min + max > 2 * LEAST_OF_24;
    }
}
