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
        /** Metres. */
        M,
        /** Centimetres. */
        CM,
        /** Millimetres. */
        MM,
        /** Feet. */
        FT,
        /** Inches. */
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

    /** A length in metres, above 0. */
    public static Length metres(double value) {
        return new Length(value, Unit.M);
    }

    /** A length in centimetres, above 0. */
    public static Length centimetres(double value) {
        return new Length(value, Unit.CM);
    }

    /** A length in millimetres, above 0. */
    public static Length millimetres(double value) {
        return new Length(value, Unit.MM);
    }

    /** A length in feet, above 0. */
    public static Length feet(double value) {
        return new Length(value, Unit.FT);
    }

    /** A length in inches, above 0. */
    public static Length inches(double value) {
        return new Length(value, Unit.IN);
    }

    @Override
    public String toString() {
        String figure = value == Math.rint(value) ? Long.toString((long) value) : Double.toString(value);
        return figure + " " + unit;
    }
}
