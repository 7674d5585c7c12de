package dev.splicebook.electrics;

/**
 * Allowable continuous current of single conductors, after 33 CFR 183.425 table 5 (30 °C ambient).
 *
 * <p>A size between two rows takes the thinner row. Below 18 AWG, where the table ends, the 18 AWG figure is scaled by
 * area, which keeps its current density and so errs to the safe side. Copper-clad aluminium is scaled for equal heat, by
 * the root of its conductivity. Another ambient is corrected by √((Tc − Ta)/(Tc − 30)), the closed form of the factors
 * in NEC 310.15(B)(1).
 */
public final class Ampacity {

    /** Ambient of the table. */
    public static final double TABLE_AMBIENT_CELSIUS = 30;

    private static final double[] INSULATION_CELSIUS = {60, 75, 80, 90, 105, 125, 200};

    private static final String[] SIZES = {
        "18 AWG", "16 AWG", "14 AWG", "12 AWG", "10 AWG", "8 AWG", "6 AWG", "4 AWG", "3 AWG", "2 AWG", "1 AWG",
        "1/0 AWG", "2/0 AWG", "3/0 AWG", "4/0 AWG"
    };

    private static final double[][] AMPS = {
        {10, 10, 15, 20, 20, 25, 25},
        {15, 15, 20, 25, 25, 30, 35},
        {20, 20, 25, 30, 35, 40, 45},
        {25, 25, 35, 40, 45, 50, 55},
        {40, 40, 50, 55, 60, 70, 70},
        {55, 65, 70, 70, 80, 90, 100},
        {80, 95, 100, 100, 120, 125, 135},
        {105, 125, 130, 135, 160, 170, 180},
        {120, 145, 150, 155, 180, 195, 210},
        {140, 170, 175, 180, 210, 225, 240},
        {165, 195, 210, 210, 245, 265, 280},
        {195, 230, 245, 245, 285, 305, 325},
        {225, 265, 285, 285, 330, 355, 370},
        {260, 310, 330, 330, 385, 410, 430},
        {300, 360, 385, 385, 445, 475, 510}
    };

    private static final double[] AREAS_MM2 = new double[SIZES.length];

    static {
        for (int row = 0; row < SIZES.length; row++) {
            AREAS_MM2[row] = new ConductorSize(SIZES[row]).areaMm2();
        }
    }

    private Ampacity() {}

    /**
     * Allowable amperes.
     *
     * @param insulationCelsius rating of the insulation, 60 to 250 °C; a rating between two columns takes the lower
     * @param ambientCelsius air around the conductor, below the rating
     * @return amperes; 0 where the ambient reaches the rating
     * @throws IllegalArgumentException if the insulation is rated below 60 °C
     */
    public static double allowableAmps(
            ConductorSize size, ConductorMaterial material, double insulationCelsius, double ambientCelsius) {
        int column = column(insulationCelsius);
        double area = size.areaMm2();
        double amps;
        if (area < AREAS_MM2[0] * 0.999) {
            amps = AMPS[0][column] * area / AREAS_MM2[0];
        } else {
            int row = 0;
            while (row + 1 < AREAS_MM2.length && AREAS_MM2[row + 1] <= area * 1.001) {
                row++;
            }
            amps = AMPS[row][column];
        }
        return amps
                * Math.sqrt(material.relativeConductivity())
                * ambientFactor(INSULATION_CELSIUS[column], ambientCelsius);
    }

    /**
     * The column that a rating is taken as, °C.
     *
     * @throws IllegalArgumentException if the insulation is rated below 60 °C
     */
    public static double ratedCelsius(double insulationCelsius) {
        return INSULATION_CELSIUS[column(insulationCelsius)];
    }

    /**
     * Temperature that a conductor comes to. The rise goes by the square of the current, because heat is I²·R:
     * T2 = T1 + (TR − T1)·(I/Imax)². FAA AC 43.13-1B chapter 11 prints the root of I/Imax instead (root from memory) and
     * calls it quite conservative; both agree at no load and at full load, and between them the root says more. The square
     * is what the ambient correction rests on too. That resistance itself grows with temperature is left out.
     *
     * @param ratedCelsius what the conductor comes to at {@code allowableAmps}
     * @param allowableAmps at this ambient, above 0
     * @return °C; above the rating where the current is above what is allowed, an extrapolation
     */
    public static double conductorCelsius(
            double ambientCelsius, double ratedCelsius, double currentAmps, double allowableAmps) {
        double share = currentAmps / allowableAmps;
        return ambientCelsius + (ratedCelsius - ambientCelsius) * share * share;
    }

    /**
     * What a bundle leaves of the ampacity of each conductor in it, after 33 CFR 183.425 note 2 (secondary copy), which the
     * regulation applies from 50 V on only. To use it at 12 V is a choice.
     *
     * @param conductors that carry current, at least 1
     */
    public static double bundleFactor(int conductors) {
        if (conductors < 3) {
            return 1;
        }
        if (conductors == 3) {
            return 0.70;
        }
        if (conductors <= 6) {
            return 0.60;
        }
        return conductors <= 24 ? 0.50 : 0.40;
    }

    static double ambientFactor(double insulationCelsius, double ambientCelsius) {
        if (ambientCelsius >= insulationCelsius) {
            return 0;
        }
        return Math.sqrt((insulationCelsius - ambientCelsius) / (insulationCelsius - TABLE_AMBIENT_CELSIUS));
    }

    private static int column(double insulationCelsius) {
        if (!(insulationCelsius >= INSULATION_CELSIUS[0])) {
            throw new IllegalArgumentException("insulation of " + insulationCelsius + " °C is below the table's 60 °C");
        }
        int column = 0;
        while (column + 1 < INSULATION_CELSIUS.length && INSULATION_CELSIUS[column + 1] <= insulationCelsius) {
            column++;
        }
        return column;
    }
}
