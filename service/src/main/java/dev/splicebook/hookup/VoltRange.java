package dev.splicebook.hookup;

import dev.splicebook.guard.Guard;

/**
 * A range of volts.
 *
 * @param min above 0
 * @param max not below {@code min}, at most 60
 */
public record VoltRange(double min, double max) {

    public VoltRange {
        new Guard()
                .positive("min", min, 60)
                .positive("max", max, 60)
                .notAbove("min", min, "max", max)
                .check();
    }
}
