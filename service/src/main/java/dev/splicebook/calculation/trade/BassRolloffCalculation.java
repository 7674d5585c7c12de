package dev.splicebook.calculation.trade;

import static dev.splicebook.calculation.Worksheet.given;

import com.google.auto.service.AutoService;
import dev.splicebook.calculation.AboutCalculation;
import dev.splicebook.calculation.Answer;
import dev.splicebook.calculation.Assumption;
import dev.splicebook.calculation.Calculation;
import dev.splicebook.calculation.Cautions;
import dev.splicebook.calculation.Step;
import dev.splicebook.calculation.Worked;
import dev.splicebook.calculation.Worksheet;
import dev.splicebook.electrics.BassRolloff;
import dev.splicebook.guard.Guard;
import dev.splicebook.web.Fact;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** Whether a factory system takes bass away as its volume rises. */
@AutoService(Calculation.class)
@AboutCalculation(
        name = "bass-rolloff",
        purpose = "Whether the factory system takes bass away as it gets louder, from where on, and how much.",
        method =
                "Play a bass tone and a reference tone of the same recorded level and read both at several volume steps. The"
                        + " bass relative to the reference is fitted, by least squares, with a line that is level up to a knee and"
                        + " falls straight after it.",
        sources = {
            "Decibels are 20·log10 of a ratio of volts, a definition",
            "Least squares, a method of any handbook of statistics",
            "0.5 dB as the scatter of readings and 3 dB as a heard fade: common practice, no source"
        },
        cautions = Cautions.HEARING)
public final class BassRolloffCalculation
        extends Worked<BassRolloffCalculation.BassRolloffQuestion, BassRolloffCalculation.BassRolloffAnswer> {

    public BassRolloffCalculation() {
        super(BassRolloffQuestion.class, BassRolloffAnswer.class);
    }

    /** What was read. */
    public record BassRolloffQuestion(
            @Fact(
                    value = "both tones at one volume step each, at different steps, in any order",
                    leastEntries = 2,
                    mostEntries = 100)
            List<BassRolloffReading> readings) {

        public BassRolloffQuestion {
            readings = List.copyOf(readings);
            Guard guard = new Guard();
            Set<Double> steps = new HashSet<>();
            for (int each = 0; each < readings.size(); each++) {
                double step = readings.get(each).step();
                guard.refuseIf(
                        !steps.add(step),
                        "readings/" + each + "/step",
                        "duplicate",
                        () -> "step " + step + " is read twice");
            }
            guard.check();
        }
    }

    /** One step. */
    public record BassRolloffReading(
            @Fact(value = "step of the volume control", least = 0, most = 1000)
            double step,

            @Fact(value = "effective volts of the bass tone, like 40 Hz", unit = "V", least = 0.0001, most = 200)
            double bassVolts,

            @Fact(value = "effective volts of the reference tone, like 1 kHz", unit = "V", least = 0.0001, most = 200)
            double referenceVolts) {}

    /** How the bass goes. */
    public record BassRolloffAnswer(
            @Fact("bass by step, rising") List<BassRolloffStep> steps,

            @Fact(
                    "last step before the bass falls, between two readings where the fit says so; absent where it does not")
            @Nullable
            Double kneeStep,

            @Fact(
                    value = "what the bass changes by with each step beyond the knee; 0 where nothing falls",
                    unit = "dB/step")
            double slopeDecibelsPerStep,

            @Fact(value = "relative bass at the lowest step less that at the highest", unit = "dB")
            double totalLossDecibels,

            @Fact("whether a subwoofer fed from here fades") boolean subwooferFades,
            @Fact("the answer in a sentence") String verdict,
            @Fact("what helps; nothing where nothing falls") List<String> remedies,
            List<Assumption> assumptions,
            List<Step> working,
            List<String> sources,
            List<String> cautions)
            implements Answer {}

    /** Bass at one step. */
    public record BassRolloffStep(
            @Fact("step of the volume control") double step,

            @Fact(value = "bass relative to the reference", unit = "dB")
            double relativeDecibels,

            @Fact(value = "the same less that at the lowest step", unit = "dB")
            double changeDecibels) {}

    @Override
    protected BassRolloffAnswer work(BassRolloffQuestion asked, Worksheet sheet) {
        sheet.assume(
                "noiseDecibels",
                BassRolloff.NOISE_DECIBELS,
                "dB",
                "a fall below this is taken for the scatter of the readings; common practice, no source");
        sheet.assume(
                "fadeDecibels",
                BassRolloff.FADE_DECIBELS,
                "dB",
                "a fall from this on, half the power, is heard as a fading subwoofer; common practice, no source");
        BassRolloff.Course course = BassRolloff.course(asked.readings().stream()
                .map(each -> new BassRolloff.Reading(each.step(), each.bassVolts(), each.referenceVolts()))
                .toList());
        List<BassRolloff.Reading> rising = course.readings();
        for (BassRolloff.Reading each : rising) {
            sheet.step(
                    "bass relative to the reference at step " + figure(each.step()),
                    "L = 20 × log10(Ub / Ur)",
                    each.relativeDecibels(),
                    "dB",
                    given("Ub", each.bassVolts(), "V"),
                    given("Ur", each.referenceVolts(), "V"));
        }
        double lowest = rising.get(0).relativeDecibels();
        double loss = sheet.step(
                "the loss from the lowest step to the highest",
                "D = L1 − L2",
                course.totalLossDecibels(),
                "dB",
                given("L1", lowest, "dB"),
                given("L2", rising.get(rising.size() - 1).relativeDecibels(), "dB"));
        Double knee = course.kneeStep();
        if (knee != null) {
            double last = rising.get(rising.size() - 1).step();
            sheet.step(
                    "the fitted fall from the knee to the highest step, by the slope",
                    "F = −s × (n − k)",
                    -course.slopeDecibelsPerStep() * (last - knee),
                    "dB",
                    given("s", course.slopeDecibelsPerStep(), "dB/step"),
                    given("n", last, "step"),
                    given("k", knee, "step"));
        }
        return new BassRolloffAnswer(
                rising.stream()
                        .map(each -> new BassRolloffStep(
                                each.step(), each.relativeDecibels(), each.relativeDecibels() - lowest))
                        .toList(),
                knee,
                course.slopeDecibelsPerStep(),
                loss,
                course.fades(),
                verdict(course),
                knee == null ? List.of() : remedies(knee, rising.get(0).step()),
                sheet.assumptions(),
                sheet.working(),
                sheet.sources(),
                sheet.cautions());
    }

    private static String verdict(BassRolloff.Course course) {
        Double knee = course.kneeStep();
        if (knee == null) {
            return "The bass does not fall: a subwoofer fed from here keeps up with the volume.";
        }
        String fall = String.format(
                Locale.ROOT,
                "From step %s on the bass falls by %.2f dB a step, %.1f dB in all: a subwoofer fed from here ",
                figure(knee),
                -course.slopeDecibelsPerStep(),
                course.totalLossDecibels());
        return fall + (course.fades() ? "fades as the volume rises." : "loses a little, which few will hear.");
    }

    private static List<String> remedies(double knee, double lowestStep) {
        String gain = knee > lowestStep
                ? "Set the subwoofer's gain at step " + figure(Math.floor(knee)) + ", the loudest with full bass."
                : "Read lower steps too: the bass falls from the lowest one read.";
        return List.of(
                "Take the signal ahead of the factory system's processing, where there is such a place.",
                "Fit a processor that restores bass, or one that reads the digital signal, and set it with these figures.",
                "Read the other outputs: rear or subwoofer outputs may not be cut.",
                gain);
    }

    private static String figure(double number) {
        return number == Math.rint(number) ? Long.toString((long) number) : String.format(Locale.ROOT, "%.1f", number);
    }
}
