package dev.splicebook.electrics;

import dev.splicebook.guard.Guard;
import java.util.Comparator;
import java.util.List;
import java.util.function.DoubleBinaryOperator;
import org.jspecify.annotations.Nullable;

/**
 * What an amplifier's output bears and gives: one channel, or two bridged, which bear less.
 *
 * <p>Between the loads that its maker states watts for, an amplifier is taken as a source of voltage, limited to the volts
 * of the next load below or above: the lesser of the two counts for what it surely gives, the greater for what a coil must
 * bear. Below the least stated load the stated amperes count for the former.
 *
 * @param minOhms least load, 0.1 to 1000
 * @param wattsByLoad continuous watts by load, at most 10, in any order; none where unknown
 */
public record AmplifierOutput(double minOhms, List<LoadWatts> wattsByLoad) {

    /** Into one load. */
    public static final double MOST_WATTS = 100_000;

    public AmplifierOutput {
        wattsByLoad = wattsByLoad.stream()
                .sorted(Comparator.comparingDouble(LoadWatts::ohms))
                .toList();
        long loads =
                wattsByLoad.stream().mapToDouble(LoadWatts::ohms).distinct().count();
        List<LoadWatts> stated = wattsByLoad;
        new Guard()
                .between("minOhms", minOhms, 0.1, 1000)
                .atMost("wattsByLoad", stated, 10)
                .refuseIf(loads < stated.size(), "wattsByLoad", "duplicate", () -> "watts are given twice for one load")
                .check();
    }

    /**
     * Watts into a load.
     *
     * @param ohms 0.1 to 1000
     * @param watts above 0 to 100 000
     */
    public record LoadWatts(double ohms, double watts) {

        public LoadWatts {
            new Guard()
                    .between("ohms", ohms, 0.1, 1000)
                    .positive("watts", watts, MOST_WATTS)
                    .check();
        }

        /** Watts into another load at the same volts. */
        private double wattsAtSameVolts(double otherOhms) {
            return watts * ohms / otherOhms;
        }

        /** Watts into another load at the same amperes. */
        private double wattsAtSameAmps(double otherOhms) {
            return watts * otherOhms / ohms;
        }
    }

    /** Whether a load is not below the least one. */
    public boolean bears(double loadOhms) {
        return loadOhms >= minOhms * (1 - 1e-9);
    }

    /** Watts that it surely gives into a load; absent where none are stated. */
    public @Nullable Double leastWatts(double loadOhms) {
        if (wattsByLoad.isEmpty()) {
            return null;
        }
        LoadWatts lowest = wattsByLoad.get(0);
        return loadOhms < lowest.ohms() && !isSame(lowest.ohms(), loadOhms)
                ? Double.valueOf(lowest.wattsAtSameAmps(loadOhms))
                : Double.valueOf(neighboursWatts(loadOhms, Math::min));
    }

    /** Watts that it may give into a load; absent where none are stated. */
    public @Nullable Double mostWatts(double loadOhms) {
        return wattsByLoad.isEmpty() ? null : Double.valueOf(neighboursWatts(loadOhms, Math::max));
    }

    private double neighboursWatts(double loadOhms, DoubleBinaryOperator choice) {
        double belowWatts = Double.NaN;
        for (LoadWatts each : wattsByLoad) {
            if (isSame(each.ohms(), loadOhms)) {
                return each.watts();
            }
            double watts = each.wattsAtSameVolts(loadOhms);
            if (each.ohms() > loadOhms) {
                return Double.isNaN(belowWatts) ? watts : choice.applyAsDouble(belowWatts, watts);
            }
            belowWatts = watts;
        }
        return belowWatts;
    }

    private static boolean isSame(double statedOhms, double loadOhms) {
        return Math.abs(statedOhms / loadOhms - 1) < 1e-9;
    }
}
