package dev.splicebook.electrics;

/**
 * Noise that the shield of an audio lead adds to its signal: what flows in the loop of two grounds and the shield drops
 * volts along the shield, and an input that is referred to its own end of it takes them for signal.
 */
public final class GroundNoise {

    private static final double MU_0 = 4e-7 * Math.PI;

    private GroundNoise() {}

    /** Current round a loop that an offset drives: offset by the loop's resistance, in amperes. */
    public static double loopAmps(double offsetVolts, double loopOhms) {
        return offsetVolts / loopOhms;
    }

    /** Noise added to the signal: shield current times shield resistance, in volts. */
    public static double noiseVolts(double shieldAmps, double shieldOhms) {
        return shieldAmps * shieldOhms;
    }

    /** Resistance of a shield by its length, in ohms. */
    public static double shieldOhms(double ohmsPerMetre, double metres) {
        return ohmsPerMetre * metres;
    }

    /** How far noise is below the signal, in decibels: 20 · log10(signal / noise); infinite without noise. */
    public static double belowDecibels(double signalVolts, double noiseVolts) {
        return 20 * Math.log10(signalVolts / noiseVolts);
    }

    /** What is left of a voltage behind a rejection in decibels: V · 10^(−dB/20). */
    public static double rejectedVolts(double volts, double rejectionDecibels) {
        return volts * Math.pow(10, -rejectionDecibels / 20);
    }

    /** Rejection in decibels of what leaves a share of a voltage: −20 · log10(share). */
    public static double rejectionDecibels(double remainingShare) {
        return -20 * Math.log10(remainingShare);
    }

    /** Inductance of a circular loop of round wire, in henries: μ0 · r · (ln(8r/a) − 2), for r well above a. */
    public static double loopHenries(double loopRadiusMetres, double wireRadiusMetres) {
        return MU_0 * loopRadiusMetres * (Math.log(8 * loopRadiusMetres / wireRadiusMetres) - 2);
    }

    /** Frequency above which a loop's inductance holds back its current: R / (2π·L), in hertz. */
    public static double cornerHertz(double ohms, double henries) {
        return ohms / (2 * Math.PI * henries);
    }

    /** Share of the noise that is left at a frequency, where the inductance of the loop is the shield's: 1/√(1 + (f/fc)²). */
    public static double inductiveShare(double hertz, double cornerHertz) {
        return 1 / Math.hypot(1, hertz / cornerHertz);
    }
}
