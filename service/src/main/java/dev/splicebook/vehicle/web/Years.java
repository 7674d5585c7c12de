package dev.splicebook.vehicle.web;

import dev.splicebook.web.Problems;
import org.jspecify.annotations.Nullable;

/** Model years as parameters of a query. */
final class Years {

    private static final int EARLIEST = 1950;
    private static final int LATEST = 2100;

    private Years() {}

    /** @throws dev.splicebook.web.ProblemException 400 for a year that no map can have */
    static @Nullable Integer inRange(@Nullable Integer year) {
        if (year != null && (year < EARLIEST || year > LATEST)) {
            throw Problems.badParameter(
                    "year", "out-of-range", "year is " + year + ", outside " + EARLIEST + " to " + LATEST);
        }
        return year;
    }
}
