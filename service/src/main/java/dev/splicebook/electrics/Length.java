package dev.splicebook.electrics;

import dev.splicebook.guard.Guard;
import java.util.Locale;

/**
 * A length as it was measured.
 *
 * @param value above 0, at most 1000 metres in its unit
 * @param unit of the value
 */
public record Length(double value, LengthUnit unit) {

    /** The longest that is taken, in metres. */
    public static final double MOST_METRES = 1000;

    public Length {
        double metres = value * unit.metres();
        new Guard()
                .refuseIf(
                        !(metres > 0 && metres <= MOST_METRES),
                        "value",
                        "out-of-range",
                        () -> "value is " + figure(value) + " " + symbol(unit) + ", outside above 0 to 1000 m")
                .check();
    }

    /** The same length in metres. */
    public double metres() {
        return value * unit.metres();
    }

    @Override
    public String toString() {
        return figure(value) + " " + symbol(unit);
    }

    private static String figure(double value) {
        return value == Math.rint(value) && Math.abs(value) < 1e15
                ? Long.toString((long) value)
                : Double.toString(value);
    }

    private static String symbol(LengthUnit unit) {
        return unit.name().toLowerCase(Locale.ROOT);
    }
}
