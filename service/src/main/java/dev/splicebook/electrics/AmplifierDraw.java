package dev.splicebook.electrics;

/**
 * What an amplifier takes from the supply.
 *
 * @param outputWatts that it gives on average
 * @param supplyWatts that it draws
 * @param supplyAmps that it draws
 * @param heatWatts that stay in it
 * @param efficiency share of what it draws that it gives
 */
public record AmplifierDraw(
        double outputWatts, double supplyWatts, double supplyAmps, double heatWatts, double efficiency) {

    /**
     * From its class.
     *
     * @param ratedWatts of all channels, above 0
     */
    public static AmplifierDraw of(
            double ratedWatts, Programme programme, AmplifierClass amplifierClass, double supplyVolts) {
        return of(
                ratedWatts * programme.share(), amplifierClass.supplyWatts(ratedWatts, programme.share()), supplyVolts);
    }

    /**
     * From its efficiency with that programme.
     *
     * @param ratedWatts of all channels, above 0
     * @param efficiency above 0, at most 1
     */
    public static AmplifierDraw of(double ratedWatts, Programme programme, double efficiency, double supplyVolts) {
        double output = ratedWatts * programme.share();
        return of(output, output / efficiency, supplyVolts);
    }

    private static AmplifierDraw of(double outputWatts, double supplyWatts, double supplyVolts) {
        return new AmplifierDraw(
                outputWatts,
                supplyWatts,
                supplyWatts / supplyVolts,
                supplyWatts - outputWatts,
                outputWatts / supplyWatts);
    }
}
