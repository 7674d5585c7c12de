package dev.splicebook.electrics;

import dev.splicebook.electrics.FuseGates.Burst;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What a fuse is sized for: large enough that the load does not tire it, small enough that the conductor stays cool.
 *
 * @param continuousAmps of the load, above 0
 * @param peakAmps that the load draws for longer than a burst, at least {@code continuousAmps}
 * @param conductor that it protects
 * @param insulationCelsius 60 to 250
 * @param conductorCelsius air around the conductor
 * @param bundledConductors that carry current in the bundle, itself among them, at least 1
 * @param fuseCelsius air around the fuse
 * @param body that its holder takes
 * @param burst of the load as it starts; null for none
 * @param reratingPercentPerKelvin what the fuse bears less for each kelvin above 25 °C, 0 to 0.9
 * @param regulationLimit whether it may be rated at 150 % of the ampacity, as 33 CFR 183.455 allows below 50 V, and not only
 *     at 100 %
 */
public record FuseSizing(
        double continuousAmps,
        double peakAmps,
        WireConductor conductor,
        double insulationCelsius,
        double conductorCelsius,
        int bundledConductors,
        double fuseCelsius,
        FuseBody body,
        @Nullable Inrush burst,
        double reratingPercentPerKelvin,
        boolean regulationLimit) {

    /** Share of its rating that a fuse carries for good at 25 °C. */
    public static final double CONTINUOUS_SHARE = 0.75;

    /** Where the ratings hold. */
    public static final double RATED_CELSIUS = 25;

    /** What blade fuses bear less for each kelvin above 25 °C: from memory; makers' sheets give 0.1 to 0.2. */
    public static final double RERATING_PERCENT_PER_KELVIN = 0.15;

    /** 33 CFR 183.455, below 50 V. */
    public static final double REGULATION_SHARE = 1.5;

    /** 33 CFR 183.455: how far from the source a conductor may go unprotected. */
    public static final Length REGULATION_BARE = new Length(7, LengthUnit.IN);

    /** 33 CFR 183.455: the same for one that is sheathed or enclosed throughout. */
    public static final Length REGULATION_SHEATHED = new Length(40, LengthUnit.IN);

    /** From the battery in vehicles: common practice, no source. */
    public static final Length VEHICLE_PRACTICE = new Length(18, LengthUnit.IN);

    /**
     * What a load draws as it starts.
     *
     * @param amps above 0
     * @param seconds above 0
     */
    public record Inrush(double amps, double seconds) {}

    /** Why no fuse fits. */
    public enum Obstacle {
        /** The load needs a larger fuse than the conductor allows. */
        WINDOW_EMPTY,
        /** The body has no rating between load and conductor. */
        NO_SUCH_RATING,
        /** No rating between load and conductor is sure to bear the burst. */
        BURST
    }

    /**
     * A rating between load and conductor.
     *
     * @param colour null where none is known
     * @param carriesAmps for good, at the heat around the fuse
     * @param burst what it does as the load starts; null without a burst
     */
    public record Option(
            double ratingAmps,
            @Nullable String colour,
            double carriesAmps,
            @Nullable Burst burst) {}

    /**
     * The choice.
     *
     * @param chosen the least rating in the window that bears the burst; null if none does
     * @param obstacle null if there is a choice
     * @param options every rating of the body in the window, least first
     */
    public record Choice(@Nullable Option chosen, @Nullable Obstacle obstacle, List<Option> options) {}

    /** What a fuse bears at its heat, of what it bears at 25 °C: never above 1, and not below 0.05. */
    public static double rerating(double fuseCelsius, double percentPerKelvin) {
        return Math.max(0.05, 1 - percentPerKelvin / 100 * Math.max(0, fuseCelsius - RATED_CELSIUS));
    }

    /** See {@link #rerating(double, double)}. */
    public double rerating() {
        return rerating(fuseCelsius, reratingPercentPerKelvin);
    }

    /** The least rating that carries a load: 75 % of it for good, all of it for a while, both at the heat of the fuse. */
    public static double leastAmps(double continuousAmps, double peakAmps, double rerating) {
        return Math.max(continuousAmps / CONTINUOUS_SHARE, peakAmps) / rerating;
    }

    /** See {@link #leastAmps(double, double, double)}. */
    public double leastAmps() {
        return leastAmps(continuousAmps, peakAmps, rerating());
    }

    /** Ampacity of the conductor, corrected for ambient and bundle. */
    public double allowableAmps() {
        return conductor.allowableAmps(insulationCelsius, conductorCelsius) * Ampacity.bundleFactor(bundledConductors);
    }

    /** The greatest rating that the conductor allows. */
    public double mostAmps() {
        return allowableAmps() * (regulationLimit ? REGULATION_SHARE : 1);
    }

    /** The least rating that fits, or what stands in the way. */
    public Choice choose() {
        double least = leastAmps();
        double most = mostAmps();
        List<Option> options = body.ratingsAmps().stream()
                .filter(rating -> rating >= least && rating <= most)
                .map(this::option)
                .toList();
        Option chosen = options.stream()
                .filter(option -> option.burst() == null || option.burst() == Burst.HOLDS)
                .findFirst()
                .orElse(null);
        if (chosen != null) {
            return new Choice(chosen, null, options);
        }
        Obstacle obstacle =
                least > most ? Obstacle.WINDOW_EMPTY : options.isEmpty() ? Obstacle.NO_SUCH_RATING : Obstacle.BURST;
        return new Choice(null, obstacle, options);
    }

    private Option option(double ratingAmps) {
        return new Option(
                ratingAmps,
                body.colour(ratingAmps),
                ratingAmps * CONTINUOUS_SHARE * rerating(),
                burst == null
                        ? null
                        : FuseGates.burst(burst.amps() / (ratingAmps * rerating()), burst.seconds(), body));
    }

    /** As {@link #thickerThatFits(FuseBody)}, of this body. */
    public @Nullable ConductorSize thickerThatFits() {
        return thickerThatFits(body);
    }

    /** The thinnest size of the conductor's own series, thicker than it, with which a fuse of a body fits; null if none. */
    public @Nullable ConductorSize thickerThatFits(FuseBody otherBody) {
        return SizeSeries.of(conductor.size()).sizes().stream()
                .filter(size -> size.areaMm2() > conductor.size().areaMm2() * 1.001)
                .filter(size ->
                        with(conductor.withSize(size), otherBody).choose().chosen() != null)
                .findFirst()
                .orElse(null);
    }

    /** The other bodies that have a fuse for this conductor and load. */
    public List<FuseBody> otherBodiesThatFit() {
        return Arrays.stream(FuseBody.values())
                .filter(other -> other != body)
                .filter(other -> with(conductor, other).choose().chosen() != null)
                .toList();
    }

    /**
     * The greatest continuous load, without a higher peak, that a fuse of this body carries in front of this conductor; null
     * if no rating is small enough or none bears the burst.
     */
    public @Nullable Double mostContinuousAmps() {
        double most = mostAmps();
        return body.ratingsAmps().stream()
                .filter(rating -> rating <= most)
                .map(this::option)
                .filter(option -> option.burst() == null || option.burst() == Burst.HOLDS)
                .map(Option::carriesAmps)
                .max(Double::compare)
                .orElse(null);
    }

    private FuseSizing with(WireConductor other, FuseBody otherBody) {
        return new FuseSizing(
                continuousAmps,
                peakAmps,
                other,
                insulationCelsius,
                conductorCelsius,
                bundledConductors,
                fuseCelsius,
                otherBody,
                burst,
                reratingPercentPerKelvin,
                regulationLimit);
    }
}
