package dev.splicebook.electrics;

import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** Two resistors across a supply, tapped between them: r1 from the supply to the tap, r2 from the tap to ground. */
public final class VoltageDivider {

    private VoltageDivider() {}

    /**
     * Two resistors of a series.
     *
     * @param r1Ohms from the supply to the tap
     * @param r2Ohms from the tap to ground
     * @param ratio that they give with the load, output over supply
     * @param errorShare how far the ratio is off, as a share of the one wanted; positive if above
     */
    public record Pair(double r1Ohms, double r2Ohms, double ratio, double errorShare) {}

    /** Two resistances side by side. */
    public static double parallelOhms(double oneOhms, double otherOhms) {
        return oneOhms * otherOhms / (oneOhms + otherOhms);
    }

    /** What stands between tap and ground: r2, beside the load where there is one. */
    public static double lowerOhms(double r2Ohms, @Nullable Double loadOhms) {
        return loadOhms == null ? r2Ohms : parallelOhms(r2Ohms, loadOhms);
    }

    /** Output over supply: lower / (r1 + lower). */
    public static double ratio(double r1Ohms, double r2Ohms, @Nullable Double loadOhms) {
        double lower = lowerOhms(r2Ohms, loadOhms);
        return lower / (r1Ohms + lower);
    }

    /** Impedance that the load sees: r1 and r2 side by side, the supply having none. */
    public static double sourceOhms(double r1Ohms, double r2Ohms) {
        return parallelOhms(r1Ohms, r2Ohms);
    }

    /** Heat in a resistor: V²/R, in watts. */
    public static double watts(double volts, double ohms) {
        return volts * volts / ohms;
    }

    /** The ratio with both resistors off by their tolerance, r1 up and r2 down: the least there can be. */
    public static double leastRatio(double r1Ohms, double r2Ohms, @Nullable Double loadOhms, double toleranceShare) {
        return ratio(r1Ohms * (1 + toleranceShare), r2Ohms * (1 - toleranceShare), loadOhms);
    }

    /** The ratio with both resistors off by their tolerance, r1 down and r2 up: the most there can be. */
    public static double mostRatio(double r1Ohms, double r2Ohms, @Nullable Double loadOhms, double toleranceShare) {
        return ratio(r1Ohms * (1 - toleranceShare), r2Ohms * (1 + toleranceShare), loadOhms);
    }

    /**
     * The pair of a series that comes nearest to a ratio, r1 + r2 being within bounds; of equally near ones that whose sum
     * is nearest to the middle of the bounds on a logarithmic scale. Every pair is tried.
     *
     * @param ratio wanted of output over supply, with the load; above 0, below 1
     * @param leastTotalOhms above 0
     * @param mostTotalOhms at least {@code leastTotalOhms}
     * @return empty if the bounds hold no pair
     */
    public static Optional<Pair> nearestPair(
            double ratio,
            double leastTotalOhms,
            double mostTotalOhms,
            PreferredValues series,
            @Nullable Double loadOhms) {
        // neither resistor of a fair pair is smaller than this: r1 drops its share of the sum, or of a load below r2
        double least = loadOhms == null ? leastTotalOhms : Math.min(leastTotalOhms, loadOhms);
        List<Double> values = series.between(least * Math.min(ratio, 1 - ratio) / 10, mostTotalOhms);
        double middleOhms = Math.sqrt(leastTotalOhms * mostTotalOhms);
        @Nullable Pair best = null;
        double bestAway = Double.POSITIVE_INFINITY;
        for (double r1 : values) {
            for (double r2 : values) {
                double total = r1 + r2;
                if (total < leastTotalOhms || total > mostTotalOhms) {
                    continue;
                }
                double given = ratio(r1, r2, loadOhms);
                double error = given / ratio - 1;
                double away = Math.abs(Math.log(total / middleOhms));
                double gain = best == null ? 1 : Math.abs(best.errorShare()) - Math.abs(error);
                if (gain > 1e-12 || (gain > -1e-12 && away < bestAway)) {
                    best = new Pair(r1, r2, given, error);
                    bestAway = away;
                }
            }
        }
        return Optional.ofNullable(best);
    }
}
