package dev.splicebook.electrics;

/**
 * Sine levels: watts, volts and decibels. Volts are rms where nothing else is said, watts and ohms are above zero.
 *
 * <p>Sources: Ohm's law; 0 dBu is the voltage of 1 mW in 600 Ω, √0.6 V, and 0 dBV is 1 V (IEC 60268-17 and AES use, from
 * memory).
 */
public final class Levels {

    /** The voltage of 0 dBu. */
    public static final double DBU_REFERENCE_VOLTS = Math.sqrt(0.6);

    private Levels() {}

    /** V = √(P·R), the reading of a true-rms meter on a sine that gives the watts. */
    public static double rmsVolts(double watts, double ohms) {
        return Math.sqrt(watts * ohms);
    }

    /** P = V²/R. */
    public static double watts(double rmsVolts, double ohms) {
        return rmsVolts * rmsVolts / ohms;
    }

    /** I = √(P/R). */
    public static double rmsAmps(double watts, double ohms) {
        return Math.sqrt(watts / ohms);
    }

    /** √2 times the rms value of a sine. */
    public static double peakVolts(double rmsVolts) {
        return Math.sqrt(2) * rmsVolts;
    }

    /** 2·√2 times the rms value of a sine, what an oscilloscope shows from crest to trough. */
    public static double peakToPeakVolts(double rmsVolts) {
        return 2 * peakVolts(rmsVolts);
    }

    /** 20·log₁₀(V/V₀), above zero where {@code volts} is more than {@code referenceVolts}. */
    public static double decibelsOfVolts(double volts, double referenceVolts) {
        return 20 * Math.log10(volts / referenceVolts);
    }

    /** 10·log₁₀(P/P₀), above zero where {@code watts} is more than {@code referenceWatts}. */
    public static double decibelsOfWatts(double watts, double referenceWatts) {
        return 10 * Math.log10(watts / referenceWatts);
    }

    /** The ratio of volts that so many decibels are. */
    public static double voltRatio(double decibels) {
        return Math.pow(10, decibels / 20);
    }

    /** Decibels above 0.7746 V. */
    public static double dbu(double rmsVolts) {
        return decibelsOfVolts(rmsVolts, DBU_REFERENCE_VOLTS);
    }

    /** The reverse of {@link #dbu}. */
    public static double dbuVolts(double dbu) {
        return DBU_REFERENCE_VOLTS * voltRatio(dbu);
    }

    /** Decibels above 1 V. */
    public static double dbv(double rmsVolts) {
        return decibelsOfVolts(rmsVolts, 1);
    }

    /** The reverse of {@link #dbv}. */
    public static double dbvVolts(double dbv) {
        return voltRatio(dbv);
    }

    /** Two resistances side by side. */
    static double parallelOhms(double oneOhms, double otherOhms) {
        return oneOhms * otherOhms / (oneOhms + otherOhms);
    }
}
