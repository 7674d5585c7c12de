package dev.splicebook.electrics;

/**
 * The coil of a relay: what it draws, when it pulls in, and what it does when its current is broken.
 *
 * <p>Once the driver opens, the coil's current finds its way through whatever is across it: i falls after
 * L·di/dt = −i·R − v, v being the drop of that clamp.
 */
public final class RelayCoil {

    /** Saturation current of the plain junction that a diode is taken for, in amperes; usual in circuit simulators. */
    public static final double SATURATION_AMPS = 1e-14;

    /** Thermal voltage k·T/q at 27 °C, in volts. */
    public static final double THERMAL_VOLTS = 1.380649e-23 * 300.15 / 1.602176634e-19;

    private static final double COPPER_OFFSET_CELSIUS = 234.5;
    private static final double REFERENCE_CELSIUS = 20;
    private static final int INTERVALS = 2000;

    private RelayCoil() {}

    /** Current of the coil by Ohm's law, in amperes. */
    public static double amps(double volts, double ohms) {
        return volts / ohms;
    }

    /** Resistance of a copper winding away from 20 °C: R · (234.5 + T) / 254.5 (zero-resistance offset of copper). */
    public static double ohmsAt(double ohmsAt20, double celsius) {
        return ohmsAt20 * (COPPER_OFFSET_CELSIUS + celsius) / (COPPER_OFFSET_CELSIUS + REFERENCE_CELSIUS);
    }

    /** Time constant L/R in seconds. */
    public static double tauSeconds(double henries, double ohms) {
        return henries / ohms;
    }

    /**
     * Current {@code seconds} after opening, through a clamp that drops {@code clampVolts} whatever flows:
     * (I + v/R) · e^(−t/τ) − v/R, 0 from where that would be negative. A resistor across the coil is {@code clampVolts} 0
     * with its ohms added to {@code ohms}.
     */
    public static double decayAmps(double startAmps, double ohms, double henries, double clampVolts, double seconds) {
        double x = clampVolts / ohms;
        return Math.max(0, (startAmps + x) * Math.exp(-seconds / tauSeconds(henries, ohms)) - x);
    }

    /**
     * Seconds until the current of {@link #decayAmps} has fallen to {@code endAmps}: τ · ln((I + v/R) / (i + v/R)).
     *
     * @return seconds; 0 if it starts below, infinite for an end of 0 without a clamp's drop
     */
    public static double decaySeconds(
            double startAmps, double endAmps, double ohms, double henries, double clampVolts) {
        if (startAmps <= endAmps) {
            return 0;
        }
        double x = clampVolts / ohms;
        return tauSeconds(henries, ohms) * Math.log((startAmps + x) / (endAmps + x));
    }

    /** Drop of a plain junction diode by its law, n = 1 at 27 °C: Vt · ln(1 + i/Is). */
    public static double junctionVolts(double amps) {
        return THERMAL_VOLTS * Math.log1p(amps / SATURATION_AMPS);
    }

    /**
     * Seconds until the current through a plain junction diode across the coil has fallen to {@code endAmps}: the integral
     * of L·di / (i·R + v(i)), by Simpson's rule over ln i.
     *
     * @param startAmps above 0
     * @param endAmps above 0
     * @return seconds; 0 if it starts below
     */
    public static double junctionDecaySeconds(double startAmps, double endAmps, double ohms, double henries) {
        if (startAmps <= endAmps) {
            return 0;
        }
        double step = Math.log(startAmps / endAmps) / INTERVALS;
        double sum = 0;
        for (int point = 0; point <= INTERVALS; point++) {
            double amps = endAmps * Math.exp(point * step);
            double weight = point == 0 || point == INTERVALS ? 1 : point % 2 == 1 ? 4 : 2;
            sum += weight * amps / (amps * ohms + junctionVolts(amps));
        }
        return henries * sum * step / 3;
    }

    /** Current {@code seconds} after opening, through a plain junction diode: {@link #junctionDecaySeconds} reversed. */
    public static double junctionDecayAmps(double startAmps, double ohms, double henries, double seconds) {
        double low = startAmps * 1e-9;
        double high = startAmps;
        if (junctionDecaySeconds(startAmps, low, ohms, henries) <= seconds) {
            return 0;
        }
        for (int halving = 0; halving < 60; halving++) {
            double middle = (low + high) / 2;
            if (junctionDecaySeconds(startAmps, middle, ohms, henries) > seconds) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return (low + high) / 2;
    }

    /**
     * Highest volts across a coil that nothing clamps, if all of its energy goes into its stray capacity: I · √(L/C). What
     * breaks down first ends it below that. Published: 1000 to 1500 V for a 12 V coil.
     */
    public static double unclampedVolts(double amps, double henries, double strayFarads) {
        return amps * Math.sqrt(henries / strayFarads);
    }

    /** Seconds in which the current of an unclamped coil is gone: a quarter of a swing, π/2 · √(L·C). */
    public static double unclampedSeconds(double henries, double strayFarads) {
        return Math.PI / 2 * Math.sqrt(henries * strayFarads);
    }

    /** Volts across the open driver: the supply and the clamp's drop on top of it. */
    public static double driverVolts(double supplyVolts, double clampVolts) {
        return supplyVolts + clampVolts;
    }
}
