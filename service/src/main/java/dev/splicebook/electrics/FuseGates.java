package dev.splicebook.electrics;

import java.util.List;

/**
 * How long a blade fuse bears a current: the time gates of ISO 8820-3 for 30 to 40 A (secondary copy), taken for all blade
 * ratings. Between two gates nothing is known but what the gates themselves imply: a lesser current is borne no less
 * long. So nothing is interpolated.
 */
public final class FuseGates {

    /**
     * One gate.
     *
     * @param ratio of the current to the rating
     * @param leastSeconds that the fuse holds
     * @param mostSeconds after which it has opened; infinite where it may hold for ever
     */
    public record Gate(double ratio, double leastSeconds, double mostSeconds) {}

    /** What a fuse does in a burst of current. */
    public enum Burst {
        /** Holds by the gates. */
        HOLDS,
        /** The gates leave it open. */
        MAY_OPEN,
        /** Opens by the gates. */
        OPENS
    }

    /** By rising current. */
    public static final List<Gate> GATES = List.of(
            new Gate(1.00, 360_000, Double.POSITIVE_INFINITY),
            new Gate(1.35, 0.75, 600),
            new Gate(2.00, 0.15, 5),
            new Gate(3.50, 0.08, 0.5),
            new Gate(6.00, 0, 0.15));

    private FuseGates() {}

    /** How long a current is borne for certain, s: as long as at the next gate above it; 0 above the last. */
    public static double leastSeconds(double ratio) {
        return GATES.stream()
                .filter(gate -> gate.ratio() >= ratio)
                .mapToDouble(Gate::leastSeconds)
                .findFirst()
                .orElse(0);
    }

    /** When a current has opened the fuse for certain, s: as at the last gate not above it; infinite below 135 %. */
    public static double mostSeconds(double ratio) {
        return GATES.stream()
                .filter(gate -> gate.ratio() <= ratio)
                .mapToDouble(Gate::mostSeconds)
                .min()
                .orElse(Double.POSITIVE_INFINITY);
    }

    /**
     * What a fuse does in a burst that lasts.
     *
     * @param ratio of its current to the rating, re-rated for the heat at the fuse
     * @param body other bodies than blade hold longer (common practice, no source), so that the gates never say they open
     */
    public static Burst burst(double ratio, double seconds, FuseBody body) {
        if (seconds <= leastSeconds(ratio)) {
            return Burst.HOLDS;
        }
        boolean gated = body == FuseBody.MINI || body == FuseBody.REGULAR;
        return gated && seconds > mostSeconds(ratio) ? Burst.OPENS : Burst.MAY_OPEN;
    }
}
