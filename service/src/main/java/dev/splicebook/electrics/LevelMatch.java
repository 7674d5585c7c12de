package dev.splicebook.electrics;

import dev.splicebook.guard.Guard;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * Whether what a source gives suits an input: level, reference and bias, and the divider that would bring the level down.
 *
 * <p>Rules: volts divide by Ohm's law; both sides of a bridged output carry its bias, so that neither may meet the
 * chassis; an output should meet an input of ten times its impedance (common practice, no source).
 */
public final class LevelMatch {

    /** How many times its source impedance an input should be. */
    public static final double BRIDGING_RATIO = 10;

    /** The resistors of a divider are used to at most this part of their rating (common practice, no source). */
    public static final double RESISTOR_LOADING = 0.5;

    private static final double MOST_VOLTS = 200;
    private static final double MOST_OHMS = 1e7;

    private LevelMatch() {}

    /**
     * What gives the signal.
     *
     * @param maxVolts rms at its loudest, with nothing connected, above 0 to 200
     * @param floating whether neither side is the chassis, as with a bridged output
     * @param biasVolts steady volts that each driven side has against the chassis, −60 to 60
     * @param outputOhms its own impedance, 0 to 10 MΩ
     */
    public record Source(double maxVolts, boolean floating, double biasVolts, double outputOhms) {

        public Source {
            new Guard()
                    .positive("maxVolts", maxVolts, MOST_VOLTS)
                    .between("biasVolts", biasVolts, -60, 60)
                    .between("outputOhms", outputOhms, 0, MOST_OHMS)
                    .check();
        }
    }

    /** What the return side of an input is joined to. */
    public enum LineInputReturn {
        CHASSIS,
        ISOLATED,
        DIFFERENTIAL;

        @Override
        public String toString() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    /**
     * What takes the signal.
     *
     * @param minVolts rms that it needs for full output, above 0 to 200; absent where nothing is too little
     * @param maxVolts rms above which it clips, above 0 to 200
     * @param inputOhms 1 Ω to 10 MΩ
     * @param returns what its return side is joined to
     * @param commonModeVolts peak that both sides of a differential input may have in common, above 0 to 200
     * @param dcCoupled whether steady volts pass
     */
    public record Input(
            @Nullable Double minVolts,
            double maxVolts,
            double inputOhms,
            LineInputReturn returns,
            @Nullable Double commonModeVolts,
            boolean dcCoupled) {

        public Input {
            new Guard()
                    .positive("minVolts", minVolts, MOST_VOLTS)
                    .positive("maxVolts", maxVolts, MOST_VOLTS)
                    .notAbove("minVolts", minVolts, "maxVolts", maxVolts)
                    .between("inputOhms", inputOhms, 1, MOST_OHMS)
                    .positive("commonModeVolts", commonModeVolts, MOST_VOLTS)
                    .check();
        }
    }

    /** Where the level lies in the range of the input. */
    public enum LevelFit {
        TOO_LOW,
        FITS,
        TOO_HIGH
    }

    /** Why a source cannot be wired straight to an input. */
    public enum LevelObstacle {
        /** A floating output meets an input whose return is the chassis. */
        FLOATING_INTO_CHASSIS,
        /** Steady volts reach an input that passes them, or a transformer that they would saturate. */
        BIAS_INTO_INPUT,
        /** Both sides of a differential input are lifted further than it bears. */
        COMMON_MODE_TOO_HIGH,
        /** The signal would clip the input. */
        LEVEL_TOO_HIGH
    }

    /**
     * The answer.
     *
     * @param deliveredVolts rms at the input, loaded by it
     * @param ratio delivered volts by the most that the input takes
     * @param ratioDecibels the same in decibels
     * @param clippingMarginDecibels how far below clipping the loudest signal stays; below zero where it clips
     * @param commonModePeakVolts peak that both sides have in common at a differential input; absent at others
     * @param obstacles none where the two can be wired straight
     */
    public record Match(
            double deliveredVolts,
            double ratio,
            double ratioDecibels,
            double clippingMarginDecibels,
            LevelFit level,
            @Nullable Double commonModePeakVolts,
            List<LevelObstacle> obstacles) {

        public Match {
            obstacles = List.copyOf(obstacles);
        }

        /** Whether something must stand between the two. */
        public boolean converterNeeded() {
            return !obstacles.isEmpty();
        }

        /** Whether two resistors are enough, since only the level is wrong. */
        public boolean dividerSuffices() {
            return obstacles.equals(List.of(LevelObstacle.LEVEL_TOO_HIGH));
        }
    }

    /**
     * Two resistors, or three where both leads of a floating source need one.
     *
     * @param seriesOhms in each driven lead
     * @param seriesLeads 1, or 2 for a floating source
     * @param shuntOhms across the input
     * @param deliveredVolts rms at the input, loaded by it
     * @param errorDecibels delivered volts against the wanted ones; never above zero
     * @param sourceOhms impedance that the input sees
     * @param loadOhms that the source sees
     * @param seriesWatts in each series resistor
     * @param shuntWatts in the shunt resistor
     */
    public record Divider(
            double seriesOhms,
            int seriesLeads,
            double shuntOhms,
            double deliveredVolts,
            double errorDecibels,
            double sourceOhms,
            double loadOhms,
            double seriesWatts,
            double shuntWatts) {}

    /** Volts at an input, by the division between it and the source's own impedance. */
    public static double deliveredVolts(double volts, double outputOhms, double inputOhms) {
        return volts * inputOhms / (outputOhms + inputOhms);
    }

    /**
     * Peak that both sides of a differential input have in common: the bias of a floating source, and half of bias and
     * signal where one side is the chassis.
     */
    public static double commonModePeakVolts(Source source) {
        double biasVolts = Math.abs(source.biasVolts());
        return source.floating() ? biasVolts : (biasVolts + Levels.peakVolts(source.maxVolts())) / 2;
    }

    /** Judges the two wired straight to each other. */
    public static Match match(Source source, Input input) {
        double deliveredVolts = deliveredVolts(source.maxVolts(), source.outputOhms(), input.inputOhms());
        double decibels = Levels.decibelsOfVolts(deliveredVolts, input.maxVolts());
        boolean differential = input.returns() == LineInputReturn.DIFFERENTIAL;
        boolean tooHigh = deliveredVolts > input.maxVolts() * (1 + 1e-9);
        boolean tooLow = input.minVolts() != null && deliveredVolts < input.minVolts() * (1 - 1e-9);
        double commonVolts = commonModePeakVolts(source);
        List<LevelObstacle> obstacles = new ArrayList<>();
        if (source.floating() && input.returns() == LineInputReturn.CHASSIS) {
            obstacles.add(LevelObstacle.FLOATING_INTO_CHASSIS);
        }
        // the sides of a floating source share their bias, and between them nothing steady is left
        boolean steady = source.biasVolts() != 0 && (!source.floating() || input.returns() == LineInputReturn.CHASSIS);
        if (steady && (input.dcCoupled() || input.returns() == LineInputReturn.ISOLATED)) {
            obstacles.add(LevelObstacle.BIAS_INTO_INPUT);
        }
        if (differential && input.commonModeVolts() != null && commonVolts > input.commonModeVolts()) {
            obstacles.add(LevelObstacle.COMMON_MODE_TOO_HIGH);
        }
        if (tooHigh) {
            obstacles.add(LevelObstacle.LEVEL_TOO_HIGH);
        }
        return new Match(
                deliveredVolts,
                deliveredVolts / input.maxVolts(),
                decibels,
                -decibels,
                tooHigh ? LevelFit.TOO_HIGH : tooLow ? LevelFit.TOO_LOW : LevelFit.FITS,
                differential ? commonVolts : null,
                obstacles);
    }

    /**
     * The divider of E24 values that comes nearest to the wanted volts without exceeding them, whose source impedance the
     * input bridges tenfold and whose resistors stay at half of their rating; the lower impedance among equals.
     *
     * @param wantedVolts rms at the input, above 0
     * @param resistorWatts rating of each resistor, above 0
     * @return null where there is nothing to divide, or no such divider exists, as for an input of very few ohms
     */
    public static @Nullable Divider divider(Source source, Input input, double wantedVolts, double resistorWatts) {
        if (deliveredVolts(source.maxVolts(), source.outputOhms(), input.inputOhms()) <= wantedVolts) {
            return null;
        }
        int leads = source.floating() ? 2 : 1;
        List<Double> values = PreferredValues.E24.between(1, MOST_OHMS);
        Divider best = null;
        for (double shuntOhms : values) {
            for (double seriesOhms : values) {
                Divider divider = dividerOf(source, input, wantedVolts, leads, seriesOhms, shuntOhms);
                double leastDecibels = best == null ? Double.NEGATIVE_INFINITY : best.errorDecibels() + 1e-9;
                if (divider.errorDecibels() <= leastDecibels) {
                    // a larger resistor only takes more away
                    break;
                }
                if (divider.errorDecibels() <= 1e-9 && suits(divider, input, resistorWatts)) {
                    best = divider;
                    break;
                }
            }
        }
        return best;
    }

    private static boolean suits(Divider divider, Input input, double resistorWatts) {
        double mostWatts = resistorWatts * RESISTOR_LOADING;
        return divider.sourceOhms() * BRIDGING_RATIO <= input.inputOhms()
                && divider.seriesWatts() <= mostWatts
                && divider.shuntWatts() <= mostWatts;
    }

    static Divider dividerOf(
            Source source, Input input, double wantedVolts, int leads, double seriesOhms, double shuntOhms) {
        double behindOhms = Levels.parallelOhms(shuntOhms, input.inputOhms());
        double aheadOhms = leads * seriesOhms + source.outputOhms();
        double amps = source.maxVolts() / (aheadOhms + behindOhms);
        double deliveredVolts = amps * behindOhms;
        return new Divider(
                seriesOhms,
                leads,
                shuntOhms,
                deliveredVolts,
                Levels.decibelsOfVolts(deliveredVolts, wantedVolts),
                Levels.parallelOhms(shuntOhms, aheadOhms),
                leads * seriesOhms + behindOhms,
                amps * amps * seriesOhms,
                Levels.watts(deliveredVolts, shuntOhms));
    }
}
