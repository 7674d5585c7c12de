package dev.splicebook.electrics;

import dev.splicebook.guard.Guard;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * A conductor with what decides its resistance.
 *
 * @param size AWG or mm²
 * @param material absent for copper
 * @param resistivityOhmMm2PerMetre at 20 °C, 0.01 to 1; absent for that of the material
 * @param strandingPercent what the lay of the strands adds to the resistance of a size that goes by area, 0 to 10; absent
 *     for 0, a solid wire (NEC chapter 9 table 8 has stranded wire about 2 % above solid)
 */
public record WireConductor(
        ConductorSize size,
        @Nullable ConductorMaterial material,
        @Nullable Double resistivityOhmMm2PerMetre,
        @Nullable Double strandingPercent) {

    /** Metres in 1000 feet. */
    static final double METRES_PER_1000_FEET = 304.8;

    /** IEC 60228 class 5, greatest resistance at 20 °C by mm²: Ω/km of plain and of metal-coated wires (secondary copy). */
    private static final Map<Double, double[]> CLASS_5 = Map.ofEntries(
            Map.entry(0.5, new double[] {39.0, 40.1}),
            Map.entry(0.75, new double[] {26.0, 26.7}),
            Map.entry(1.0, new double[] {19.5, 20.0}),
            Map.entry(1.5, new double[] {13.3, 13.7}),
            Map.entry(2.5, new double[] {7.98, 8.21}),
            Map.entry(4.0, new double[] {4.95, 5.09}),
            Map.entry(6.0, new double[] {3.30, 3.39}),
            Map.entry(10.0, new double[] {1.91, 1.95}),
            Map.entry(16.0, new double[] {1.21, 1.24}),
            Map.entry(25.0, new double[] {0.780, 0.795}),
            Map.entry(35.0, new double[] {0.554, 0.565}),
            Map.entry(50.0, new double[] {0.386, 0.393}),
            Map.entry(70.0, new double[] {0.272, 0.277}),
            Map.entry(95.0, new double[] {0.206, 0.210}),
            Map.entry(120.0, new double[] {0.161, 0.164}),
            Map.entry(150.0, new double[] {0.129, 0.132}),
            Map.entry(185.0, new double[] {0.106, 0.108}));

    public WireConductor {
        new Guard()
                .between("resistivityOhmMm2PerMetre", resistivityOhmMm2PerMetre, 0.01, 1)
                .between("strandingPercent", strandingPercent, 0, 10)
                .check();
    }

    /** Where a resistance comes from. */
    public enum Basis {
        /** The resistivity that was given, over the area. */
        OWN_RESISTIVITY,
        /** The maximum of IEC 60228 for flexible conductors. */
        IEC_60228,
        /** The resistivity of the material, over the area. */
        AREA
    }

    /** Solid, of a material. */
    public static WireConductor of(ConductorSize size, ConductorMaterial material) {
        return new WireConductor(size, material, null, null);
    }

    /** The same in another size. */
    public WireConductor withSize(ConductorSize other) {
        return new WireConductor(other, material, resistivityOhmMm2PerMetre, strandingPercent);
    }

    /** The material, copper where none is given. */
    public ConductorMaterial madeOf() {
        return material == null ? ConductorMaterial.COPPER : material;
    }

    /** What {@link #ohmsPerMetre} rests on. */
    public Basis basis() {
        if (resistivityOhmMm2PerMetre != null) {
            return Basis.OWN_RESISTIVITY;
        }
        return class5OhmsPerKm() == null ? Basis.AREA : Basis.IEC_60228;
    }

    /** Ohms of one metre. */
    public double ohmsPerMetre(double celsius) {
        return ohmsPerMetreAt20() * madeOf().resistanceFactor(celsius);
    }

    /** Ohms of 1000 feet. */
    public double ohmsPer1000Feet(double celsius) {
        return ohmsPerMetre(celsius) * METRES_PER_1000_FEET;
    }

    /** Ohms of a length of one conductor. */
    public double ohms(double metres, double celsius) {
        return ohmsPerMetre(celsius) * metres;
    }

    /**
     * Allowable continuous amperes, {@link Ampacity#allowableAmps}; another resistivity counts for equal heat, by the root.
     *
     * @param insulationCelsius 60 to 250
     */
    public double allowableAmps(double insulationCelsius, double ambientCelsius) {
        double amps = Ampacity.allowableAmps(size, madeOf(), insulationCelsius, ambientCelsius);
        return resistivityOhmMm2PerMetre == null
                ? amps
                : amps * Math.sqrt(madeOf().resistivityOhmMm2PerMetre() / resistivityOhmMm2PerMetre);
    }

    static double ohmsPerMetre(double resistivityOhmMm2PerMetre, double areaMm2) {
        return resistivityOhmMm2PerMetre / areaMm2;
    }

    private double ohmsPerMetreAt20() {
        Double class5 = class5OhmsPerKm();
        if (resistivityOhmMm2PerMetre == null && class5 != null) {
            return class5 / 1000;
        }
        double resistivity =
                resistivityOhmMm2PerMetre == null ? madeOf().resistivityOhmMm2PerMetre() : resistivityOhmMm2PerMetre;
        double lay = strandingPercent == null ? 0 : strandingPercent;
        return ohmsPerMetre(resistivity, size.areaMm2()) * (1 + lay / 100);
    }

    private @Nullable Double class5OhmsPerKm() {
        double[] row = size.isGauge() ? null : CLASS_5.get(size.areaMm2());
        if (row == null) {
            return null;
        }
        return switch (madeOf()) {
            case COPPER -> row[0];
            case TINNED_COPPER -> row[1];
            case CCA_10, CCA_15 -> row[0] / madeOf().relativeConductivity();
        };
    }
}
