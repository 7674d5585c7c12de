package dev.splicebook.electrics;

import java.util.Collections;
import java.util.List;

/**
 * Delays that let the sound of several loudspeakers arrive together.
 *
 * <p>Speed of sound in dry air, 331.3 m/s at 0 °C and by the root of the absolute temperature (ideal gas; from memory).
 */
public final class ArrivalDelay {

    private static final double METRES_PER_SECOND_AT_ZERO = 331.3;
    private static final double ZERO_CELSIUS_KELVIN = 273.15;

    private ArrivalDelay() {}

    /** c = 331.3·√(1 + T/273.15) m/s, for air from −60 to 100 °C. */
    public static double soundMetresPerSecond(double airCelsius) {
        return METRES_PER_SECOND_AT_ZERO * Math.sqrt(1 + airCelsius / ZERO_CELSIUS_KELVIN);
    }

    /** How long sound is under way, in ms. */
    public static double travelMilliseconds(double metres, double airCelsius) {
        return metres / soundMetresPerSecond(airCelsius) * 1000;
    }

    /** Samples in a delay, with their fraction. */
    public static double samples(double milliseconds, double samplesPerSecond) {
        return milliseconds / 1000 * samplesPerSecond;
    }

    /**
     * What to delay each loudspeaker by so that all arrive with the farthest.
     *
     * @param metres from each to the listener, at least one
     * @return ms in the same order; 0 for the farthest
     */
    public static List<Double> delaysMilliseconds(List<Double> metres, double airCelsius) {
        double farthestMetres = Collections.max(metres);
        return metres.stream()
                .map(each -> travelMilliseconds(farthestMetres - each, airCelsius))
                .toList();
    }
}
