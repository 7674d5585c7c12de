package dev.splicebook.hookup.rule;

import dev.splicebook.guard.Guard;

/**
 * A figure that a rule compares with. A rule reads it by {@link Examination#value}, so that a shop's own figure takes its
 * place.
 *
 * @param value where a shop says nothing
 * @param unit empty for a ratio
 * @param least that a shop may set
 * @param most that a shop may set
 * @param reason why this figure, with its source
 */
public record Threshold(String name, double value, String unit, double least, double most, String reason) {

    public Threshold {
        new Guard()
                .between("value", value, least, most)
                .refuseIf(!(least < most), "most", "inconsistent", () -> "most is not above least")
                .check();
    }

    /** One that a shop may set from half to twice its value. */
    public Threshold(String name, double value, String unit, String reason) {
        this(name, value, unit, value / 2, value * 2, reason);
    }
}
