package dev.splicebook.electrics;

/**
 * What a run of wire takes from the voltage, by Ohm's law.
 *
 * @param runOhms of all that the current passes, at the conductor's temperature
 * @param dropVolts across the run
 * @param dropPercent of the supply
 * @param loadVolts left for the load; negative where the run cannot carry the current at all
 * @param lossWatts turned to heat in the run
 * @param conductorCelsius the temperature that this holds for
 * @param shortCircuitAmps what the supply would push through the run at 20 °C with its far ends joined; the resistance of
 *     the battery itself is left out, so that a real fault is less
 */
public record VoltageDrop(
        double runOhms,
        double dropVolts,
        double dropPercent,
        double loadVolts,
        double lossWatts,
        double conductorCelsius,
        double shortCircuitAmps) {

    private static final double COLD_CELSIUS = 20;

    /**
     * The way of a current.
     *
     * @param lengthMetres one way, above 0
     * @param chassisOhms of the body and its bonds, at least 0; counts with {@link ReturnPath#CHASSIS} only
     */
    public record Run(WireConductor conductor, double lengthMetres, ReturnPath returnPath, double chassisOhms) {

        /** Metres of conductor that the current passes. */
        public double wireMetres() {
            return returnPath == ReturnPath.CONDUCTOR ? 2 * lengthMetres : lengthMetres;
        }

        /** Ohms of all that the current passes; the body is taken as it is, whatever the temperature. */
        public double ohms(double celsius) {
            return conductor.ohms(wireMetres(), celsius) + (returnPath == ReturnPath.CHASSIS ? chassisOhms : 0);
        }
    }

    /** The drop of a current in a run whose conductor has a temperature. */
    public static VoltageDrop of(Run run, double currentAmps, double conductorCelsius, double supplyVolts) {
        double ohms = run.ohms(conductorCelsius);
        double drop = dropVolts(currentAmps, ohms);
        return new VoltageDrop(
                ohms,
                drop,
                dropPercent(drop, supplyVolts),
                supplyVolts - drop,
                lossWatts(currentAmps, ohms),
                conductorCelsius,
                supplyVolts / run.ohms(COLD_CELSIUS));
    }

    /** V = I·R. */
    public static double dropVolts(double currentAmps, double ohms) {
        return currentAmps * ohms;
    }

    static double dropPercent(double dropVolts, double supplyVolts) {
        return 100 * dropVolts / supplyVolts;
    }

    static double lossWatts(double currentAmps, double ohms) {
        return currentAmps * currentAmps * ohms;
    }
}
