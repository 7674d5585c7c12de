package dev.splicebook.electrics;

import java.util.Locale;

/**
 * What a conductor is made of.
 *
 * <p>Annealed copper is 0.017241 Ω·mm²/m at 20 °C, which is 100 % IACS (from memory). Copper-clad aluminium goes by its
 * copper share of volume (ASTM B566 classes: 10 % copper at least 62.9 % IACS, 15 % at least 64.4 %). Tinned copper is as
 * much above copper as IEC 60228 has metal-coated above plain wires at 0.5 mm² (40.1 to 39.0 Ω/km), and is taken as
 * copper for ampacity.
 */
public enum ConductorMaterial {
    COPPER(1, 1, Celsius.COPPER),
    TINNED_COPPER(1, 39.0 / 40.1, Celsius.COPPER),
    CCA_10(0.629, 0.629, Celsius.ALUMINIUM),
    CCA_15(0.644, 0.644, Celsius.ALUMINIUM);

    /** Resistivity of annealed copper at 20 °C, Ω·mm²/m. */
    static final double COPPER_OHM_MM2_PER_METRE = 0.017241;

    private final double relativeConductivity;
    private final double iacsShare;
    private final double zeroOhmCelsius;

    ConductorMaterial(double relativeConductivity, double iacsShare, double zeroOhmCelsius) {
        this.relativeConductivity = relativeConductivity;
        this.iacsShare = iacsShare;
        this.zeroOhmCelsius = zeroOhmCelsius;
    }

    double relativeConductivity() {
        return relativeConductivity;
    }

    /** Resistivity at 20 °C, Ω·mm²/m. */
    public double resistivityOhmMm2PerMetre() {
        return COPPER_OHM_MM2_PER_METRE / iacsShare;
    }

    /** Where the straight line through the resistance meets zero, °C, below zero. */
    public double zeroOhmCelsius() {
        return zeroOhmCelsius;
    }

    /** How the resistance at a temperature compares with that at 20 °C; −100 to 400 °C, linear. */
    public double resistanceFactor(double celsius) {
        return (celsius - zeroOhmCelsius) / (20 - zeroOhmCelsius);
    }

    @Override
    public String toString() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** Where the straight line through the resistance meets zero. */
    private static final class Celsius {
        /** FAA AC 43.13-1B chapter 11. */
        static final double COPPER = -234.5;

        /**
         * IEC 60287-1-1, from memory; FAA AC 43.13-1B chapter 11 has −238.1. Aluminium carries most of the current in
         * copper-clad wire, and this of the three offsets makes a hot conductor worst.
         */
        static final double ALUMINIUM = -228;
    }
}
