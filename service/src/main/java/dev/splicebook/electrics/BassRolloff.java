package dev.splicebook.electrics;

import dev.splicebook.guard.Guard;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Whether a factory system takes bass away as its volume rises, from the volts of a bass and of a reference tone at
 * several steps of the volume control.
 *
 * <p>A line that is level up to a knee and falls straight after it is fitted by least squares to the bass relative to the
 * reference in decibels. A fall below {@link #NOISE_DECIBELS} is taken for the scatter of the readings, and one of
 * {@link #FADE_DECIBELS} or more, half the power, is heard as a fading subwoofer (both common practice, no source).
 */
public final class BassRolloff {

    /** What two readings of a meter on a tone may differ by without meaning anything. */
    public static final double NOISE_DECIBELS = 0.5;

    /** The fall from which a subwoofer is said to fade. */
    public static final double FADE_DECIBELS = 3;

    private static final double MOST_STEP = 1000;
    private static final double MOST_VOLTS = 200;

    private BassRolloff() {}

    /**
     * Both tones at one volume step.
     *
     * @param step of the volume control, 0 to 1000
     * @param bassVolts rms of the bass tone, above 0 to 200
     * @param referenceVolts rms of the reference tone at the same step and recorded level, above 0 to 200
     */
    public record Reading(double step, double bassVolts, double referenceVolts) {

        public Reading {
            new Guard()
                    .between("step", step, 0, MOST_STEP)
                    .positive("bassVolts", bassVolts, MOST_VOLTS)
                    .positive("referenceVolts", referenceVolts, MOST_VOLTS)
                    .check();
        }

        /** Bass relative to the reference. */
        public double relativeDecibels() {
            return Levels.decibelsOfVolts(bassVolts, referenceVolts);
        }
    }

    /**
     * How the bass goes with the volume.
     *
     * @param kneeStep last step before the fall, between two readings where the fit says so; absent where nothing falls
     * @param slopeDecibelsPerStep below zero beyond the knee; 0 where nothing falls
     * @param totalLossDecibels relative bass at the lowest step less that at the highest; below zero where bass rises
     */
    public record Course(
            List<Reading> readings,
            @Nullable Double kneeStep,
            double slopeDecibelsPerStep,
            double totalLossDecibels,
            boolean fades) {}

    /**
     * Fits the readings.
     *
     * @param readings at least two, at different steps, in any order
     * @throws dev.splicebook.guard.InvalidValueException if they are fewer, or two are at one step
     */
    public static Course course(List<Reading> readings) {
        List<Reading> rising = readings.stream()
                .sorted(Comparator.comparingDouble(Reading::step))
                .toList();
        refuseWhatCannotBeFitted(rising);
        double lossDecibels =
                rising.get(0).relativeDecibels() - rising.get(rising.size() - 1).relativeDecibels();
        Hinge hinge = fit(rising);
        double lastStep = rising.get(rising.size() - 1).step();
        boolean falls = hinge.fallPerStep() * (lastStep - hinge.kneeStep()) > NOISE_DECIBELS;
        return new Course(
                rising,
                falls ? hinge.kneeStep() : null,
                falls ? -hinge.fallPerStep() : 0,
                lossDecibels,
                falls && lossDecibels >= FADE_DECIBELS);
    }

    private static void refuseWhatCannotBeFitted(List<Reading> rising) {
        Guard guard = new Guard()
                .refuseIf(rising.size() < 2, "", "too-few", () -> rising.size() + " readings show no course, 2 do");
        for (int each = 1; each < rising.size(); each++) {
            double step = rising.get(each).step();
            guard.refuseIf(
                    step == rising.get(each - 1).step(), "", "duplicate", () -> "two readings are at step " + step);
        }
        guard.check();
    }

    /** Level until {@code kneeStep}, falling by {@code fallPerStep} decibels from there. */
    private record Hinge(double kneeStep, double fallPerStep, double squaredErrors) {}

    private static Hinge fit(List<Reading> rising) {
        Hinge best = new Hinge(rising.get(0).step(), 0, Double.POSITIVE_INFINITY);
        for (double kneeStep : candidateKnees(rising)) {
            Hinge hinge = hingeAt(kneeStep, rising);
            // an equally good later knee leaves the fall no reading of its own
            if (hinge.squaredErrors() < best.squaredErrors() - 1e-12) {
                best = hinge;
            }
        }
        return best;
    }

    /** Each reading but the last, and where the level of the first ones meets the line through the others. */
    private static List<Double> candidateKnees(List<Reading> rising) {
        List<Double> knees = new ArrayList<>();
        for (int last = 0; last < rising.size() - 1; last++) {
            double stepBefore = rising.get(last).step();
            knees.add(stepBefore);
            List<Reading> falling = rising.subList(last + 1, rising.size());
            if (falling.size() < 2) {
                continue;
            }
            double levelDecibels = meanOf(rising.subList(0, last + 1));
            double meanStep =
                    falling.stream().mapToDouble(Reading::step).average().orElseThrow();
            double meanDecibels = meanOf(falling);
            double slope = slopeOf(falling, meanStep, meanDecibels);
            double meetingStep = meanStep + (levelDecibels - meanDecibels) / slope;
            if (meetingStep > stepBefore && meetingStep < falling.get(0).step()) {
                knees.add(meetingStep);
            }
        }
        return knees;
    }

    private static double meanOf(List<Reading> readings) {
        return readings.stream()
                .mapToDouble(Reading::relativeDecibels)
                .average()
                .orElseThrow();
    }

    private static double slopeOf(List<Reading> readings, double meanStep, double meanDecibels) {
        double products = 0;
        double squares = 0;
        for (Reading reading : readings) {
            products += (reading.step() - meanStep) * (reading.relativeDecibels() - meanDecibels);
            squares += (reading.step() - meanStep) * (reading.step() - meanStep);
        }
        return products / squares;
    }

    private static Hinge hingeAt(double kneeStep, List<Reading> rising) {
        double meanBeyond = rising.stream()
                .mapToDouble(each -> Math.max(0, each.step() - kneeStep))
                .average()
                .orElseThrow();
        double meanDecibels = meanOf(rising);
        double products = 0;
        double squares = 0;
        for (Reading reading : rising) {
            double beyond = Math.max(0, reading.step() - kneeStep) - meanBeyond;
            products += beyond * (reading.relativeDecibels() - meanDecibels);
            squares += beyond * beyond;
        }
        double fallPerStep = Math.max(0, -products / squares);
        double errors = 0;
        for (Reading reading : rising) {
            double beyond = Math.max(0, reading.step() - kneeStep) - meanBeyond;
            double error = reading.relativeDecibels() - meanDecibels + fallPerStep * beyond;
            errors += error * error;
        }
        return new Hinge(kneeStep, fallPerStep, errors);
    }
}
