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
        new Guard().positive("value", value, MOST_METRES / unit.metres()).check();
    }

    /** The same length in metres. */
    public double metres() {
        return value * unit.metres();
    }

    @Override
    public String toString() {
        String figure = value == Math.rint(value) ? Long.toString((long) value) : Double.toString(value);
        return figure + " " + unit.name().toLowerCase(Locale.ROOT);
    }
}
