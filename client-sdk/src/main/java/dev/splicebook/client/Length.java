package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Locale;

/**
 * A length as it was measured.
 *
 * @param value above 0
 * @param unit of the value
 */
public record Length(double value, Unit unit) {

    /** A unit of length, by its usual symbol. */
    public enum Unit {
        M,
        CM,
        MM,
        FT,
        IN;

        /** The name in JSON and prose. */
        @Override
        @JsonValue
        public String toString() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    public Length {
        Require.positive("value", value);
        Require.present("unit", unit);
    }

    public static Length metres(double value) {
        return new Length(value, Unit.M);
    }

    public static Length centimetres(double value) {
        return new Length(value, Unit.CM);
    }

    public static Length millimetres(double value) {
        return new Length(value, Unit.MM);
    }

    public static Length feet(double value) {
        return new Length(value, Unit.FT);
    }

    public static Length inches(double value) {
        return new Length(value, Unit.IN);
    }

    @Override
    public String toString() {
        String figure = value == Math.rint(value) ? Long.toString((long) value) : Double.toString(value);
        return figure + " " + unit;
    }
}
