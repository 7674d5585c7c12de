package dev.splicebook.electrics;

/**
 * Peukert's law for the discharge of a battery: I1^k · t1 = I2^k · t2, between two points of current and time to the same
 * end voltage. From memory; the law holds between its points and some way beyond, not for minutes of cranking nor for
 * milliamperes.
 */
public final class Peukert {

    /** No battery has more. */
    public static final double MOST_EXPONENT = 3;

    private Peukert() {}

    /**
     * The exponent k through two discharge points, in either order.
     *
     * @param minutes1 above 0, at {@code amps1} above 0; {@code minutes2} at {@code amps2} likewise
     * @return the exponent; not every one belongs to a real battery, see {@link #isPossible}
     * @throws IllegalArgumentException if both currents are equal: they tell nothing about the exponent
     */
    public static double exponent(double amps1, double minutes1, double amps2, double minutes2) {
        if (amps1 == amps2) {
            throw new IllegalArgumentException("two points at the same " + amps1 + " A give no exponent");
        }
        return Math.log(minutes2 / minutes1) / Math.log(amps1 / amps2);
    }

    /**
     * Whether a battery can have this exponent: below 1 it would give more the harder it is drawn upon, and above 3 it would
     * give almost nothing. Starter batteries have 1.05 to 1.6 (from memory).
     */
    public static boolean isPossible(double exponent) {
        // two points of one battery without losses may miss 1 by rounding
        return exponent >= 1 - 1e-9 && exponent <= MOST_EXPONENT;
    }

    /** Ampere-hours at the 20-hour rate, from one discharge point: 20 · I1 · (t1 / 1200 min)^(1/k). */
    public static double ampereHours20(double amps1, double minutes1, double exponent) {
        return 20 * amps1 * Math.pow(minutes1 / 1200, 1 / exponent);
    }

    /** Minutes at a load, from one discharge point and the exponent: t = t1 · (I1 / I)^k. */
    public static double minutes(double loadAmps, double amps1, double minutes1, double exponent) {
        return minutes1 * Math.pow(amps1 / loadAmps, exponent);
    }
}
