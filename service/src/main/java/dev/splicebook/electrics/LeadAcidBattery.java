package dev.splicebook.electrics;

/**
 * Common figures of a 12 V lead-acid starter battery. What is marked so is from memory or common practice; a maker's own
 * figures are better.
 */
public final class LeadAcidBattery {

    /** Current of the reserve-capacity test of SAE J537, in amperes. */
    public static final double RESERVE_AMPS = 25;

    /** Temperature at which capacities are rated in SAE J537, in °C. */
    public static final double RATED_CELSIUS = 27;

    /** Loss of usable capacity per kelvin below {@link #RATED_CELSIUS}, as a share; from memory. */
    public static final double COLD_LOSS_PER_KELVIN = 0.008;

    /** Temperature to which the usual self-discharge figure belongs, in °C; from memory. */
    public static final double SELF_DISCHARGE_CELSIUS = 25;

    private static final double LEAST_CAPACITY_FACTOR = 0.3;

    /** Rested open-circuit volts at charges of 0, 25, 50, 75 and 100 %: common practice, no source. */
    private static final double[] OPEN_CIRCUIT_VOLTS = {11.90, 12.06, 12.24, 12.45, 12.70};

    private LeadAcidBattery() {}

    /**
     * Open-circuit volts of a rested battery, straight between the common figures 11.90, 12.06, 12.24, 12.45 and 12.70 V
     * for each quarter of charge (common practice, no source).
     *
     * @param charge 0 to 1; beyond, the nearer end
     */
    public static double openCircuitVolts(double charge) {
        double quarters = Math.max(0, Math.min(1, charge)) * (OPEN_CIRCUIT_VOLTS.length - 1);
        int below = Math.min((int) quarters, OPEN_CIRCUIT_VOLTS.length - 2);
        return OPEN_CIRCUIT_VOLTS[below]
                + (quarters - below) * (OPEN_CIRCUIT_VOLTS[below + 1] - OPEN_CIRCUIT_VOLTS[below]);
    }

    /** Charge, 0 to 1, of a rested battery by its open-circuit volts: the reverse of {@link #openCircuitVolts}. */
    public static double chargeAt(double openCircuitVolts) {
        int last = OPEN_CIRCUIT_VOLTS.length - 1;
        if (openCircuitVolts <= OPEN_CIRCUIT_VOLTS[0]) {
            return 0;
        }
        for (int upper = 1; upper <= last; upper++) {
            if (openCircuitVolts < OPEN_CIRCUIT_VOLTS[upper]) {
                double part = (openCircuitVolts - OPEN_CIRCUIT_VOLTS[upper - 1])
                        / (OPEN_CIRCUIT_VOLTS[upper] - OPEN_CIRCUIT_VOLTS[upper - 1]);
                return (upper - 1 + part) / last;
            }
        }
        return 1;
    }

    /** Ampere-hours that flow at {@code amps} in {@code minutes}. */
    public static double ampereHours(double amps, double minutes) {
        return amps * minutes / 60;
    }

    /**
     * Share of the rated capacity that can be used at a temperature: 0.8 % less for each kelvin below 27 °C, no more above,
     * at least 30 % (from memory).
     */
    public static double capacityFactor(double celsius) {
        double factor = 1 - COLD_LOSS_PER_KELVIN * (RATED_CELSIUS - celsius);
        return Math.max(LEAST_CAPACITY_FACTOR, Math.min(1, factor));
    }

    /** How much faster self-discharge runs than at 25 °C: double for every 10 K more (rule of thumb, from memory). */
    public static double selfDischargeFactor(double celsius) {
        return Math.pow(2, (celsius - SELF_DISCHARGE_CELSIUS) / 10);
    }
}
