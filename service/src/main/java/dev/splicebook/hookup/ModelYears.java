package dev.splicebook.hookup;

import dev.splicebook.guard.Guard;
import org.jspecify.annotations.Nullable;

/**
 * The model years a map holds for, both included.
 *
 * @param from 1950 to 2100
 * @param to 1950 to 2100, not before {@code from}; absent for the one year {@code from}
 */
public record ModelYears(int from, @Nullable Integer to) {

    public ModelYears {
        new Guard()
                .between("from", from, 1950, 2100)
                .between("to", to, 1950, 2100)
                .refuseIf(
                        to != null && to < from,
                        "to",
                        "inconsistent",
                        () -> "model years end in " + to + ", before they start in " + from)
                .check();
    }
}
