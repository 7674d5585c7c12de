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
import dev.splicebook.electrics.LevelMatch;
import dev.splicebook.electrics.LevelMatch.Divider;
import dev.splicebook.electrics.LevelMatch.Input;
import dev.splicebook.electrics.LevelMatch.LevelFit;
import dev.splicebook.electrics.LevelMatch.LevelObstacle;
import dev.splicebook.electrics.LevelMatch.LineInputReturn;
import dev.splicebook.electrics.LevelMatch.Match;
import dev.splicebook.electrics.LevelMatch.Source;
import dev.splicebook.electrics.Levels;
import dev.splicebook.guard.Guard;
import dev.splicebook.web.Fact;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/** Whether what a source gives suits an input. */
@AutoService(Calculation.class)
@AboutCalculation(
        name = "level-match",
        purpose = "Whether a source can be wired straight to an input, or what must stand between the two.",
        method =
                "Level, return, bias and common mode of the source against what the input takes, loaded by it; and a divider"
                        + " of E24 resistors for the level. Sine, effective values. Noise and ground loops are left out.",
        sources = {
            "Ohm's law and the division of voltage, laws",
            "E24 values: IEC 60063, from memory",
            "Both sides of a bridged output carry half of the supply and neither may meet the chassis: common practice, no"
                    + " source",
            "An input of ten times the source impedance, and resistors used to half of their rating: common practice, no source"
        },
        cautions = Cautions.SPEAKER_OUTPUT)
public final class LevelMatchCalculation
        extends Worked<LevelMatchCalculation.LevelMatchQuestion, LevelMatchCalculation.LevelMatchAnswer> {

    private static final double RESISTOR_WATTS = 0.25;

    public LevelMatchCalculation() {
        super(LevelMatchQuestion.class, LevelMatchAnswer.class);
    }

    /** What gives and what takes. */
    public record LevelMatchQuestion(
            @Fact("what gives the signal") LevelMatchSource source,
            @Fact("what takes it") LevelMatchInput input,

            @Fact(
                    value = "effective volts wanted at the input at full level, at most what it takes",
                    unit = "V",
                    least = 0.001,
                    most = 200,
                    usual = "what the input takes")
            @Nullable
            Double targetVolts,

            @Fact(value = "rating of each resistor", unit = "W", least = 0.05, most = 100, usual = "0.25") @Nullable
            Double resistorWatts) {

        public LevelMatchQuestion {
            new Guard()
                    .notAbove("targetVolts", targetVolts, "what the input takes", input.maxVolts())
                    .check();
        }
    }

    /** The source. */
    public record LevelMatchSource(
            @Fact(value = "effective volts at full level, nothing connected", unit = "V", least = 0.001, most = 200)
            @Nullable
            Double volts,

            @Fact(value = "or its power at full level", unit = "W", least = 0.001, most = 10_000) @Nullable
            Double watts,

            @Fact(value = "into this load", unit = "Ω", least = 0.5, most = 1000) @Nullable
            Double ohms,

            @Fact(
                    value = "whether neither side is the chassis, as with a bridged output",
                    usual = "true for a power output, false for volts")
            @Nullable
            Boolean floating,

            @Fact(
                    value = "steady volts of each driven side against the chassis",
                    unit = "V",
                    least = -60,
                    most = 60,
                    usual = "0")
            @Nullable
            Double biasVolts,

            @Fact(value = "its own impedance", unit = "Ω", least = 0, most = 100_000, usual = "0") @Nullable
            Double outputOhms) {

        public LevelMatchSource {
            new Guard()
                    .refuseIf(
                            volts == null && watts == null,
                            "volts",
                            "missing-field",
                            () -> "volts is missing; either volts or watts into ohms are given")
                    .refuseIf(
                            volts != null && watts != null,
                            "watts",
                            "either-or",
                            () -> "watts stands beside volts; one of the two is given")
                    .refuseIf(
                            watts != null && ohms == null,
                            "ohms",
                            "missing-field",
                            () -> "ohms is missing; watts are given into ohms")
                    .refuseIf(
                            volts != null && ohms != null,
                            "ohms",
                            "either-or",
                            () -> "ohms stands beside volts; it belongs to watts")
                    .refuseIf(
                            watts != null && ohms != null && watts * ohms > 40_000,
                            "watts",
                            "out-of-range",
                            () -> "watts into ohms are above 200 V")
                    .check();
        }
    }

    /** The input. */
    public record LevelMatchInput(
            @Fact(value = "effective volts that it needs for full output", unit = "V", least = 0.001, most = 200)
            @Nullable
            Double minVolts,

            @Fact(value = "effective volts above which it clips", unit = "V", least = 0.001, most = 200)
            double maxVolts,

            @Fact(value = "its impedance", unit = "Ω", least = 1, most = 10_000_000, usual = "10000") @Nullable
            Double inputOhms,

            @Fact(value = "what its return side is joined to", usual = "chassis, the common one and the worst case")
            @Nullable
            LineInputReturn returnSide,

            @Fact(
                    value = "peak volts that both sides of a differential input may have in common",
                    unit = "V",
                    least = 0.001,
                    most = 200)
            @Nullable
            Double commonModeVolts,

            @Fact(value = "whether it passes steady volts", usual = "false") @Nullable
            Boolean dcCoupled) {

        public LevelMatchInput {
            new Guard().notAbove("minVolts", minVolts, "maxVolts", maxVolts).check();
        }
    }

    /** Whether they suit each other. */
    public record LevelMatchAnswer(
            @Fact(value = "effective volts of the source at full level", unit = "V")
            double sourceVolts,

            @Fact(value = "effective volts at the input, loaded by it", unit = "V")
            double deliveredVolts,

            @Fact("those by what the input takes") double ratio,

            @Fact(value = "the same in decibels", unit = "dB")
            double ratioDecibels,

            @Fact(value = "how far below clipping the loudest signal stays; below zero where it clips", unit = "dB")
            double clippingMarginDecibels,

            @Fact("where the level lies in the range of the input")
            LevelFit level,

            @Fact(
                    value = "peak volts that both sides have in common at a differential input; absent at others",
                    unit = "V")
            @Nullable
            Double commonModePeakVolts,

            @Fact("whether something must stand between the two")
            boolean converterNeeded,

            @Fact("why, by kind") List<LevelObstacle> obstacles,
            @Fact("why, in sentences") List<String> reasons,

            @Fact("whether two resistors are enough, since only the level is wrong")
            boolean dividerSuffices,

            @Fact(
                    "the divider for the level, ahead of a converter where one is needed for other reasons; absent where there is"
                            + " nothing to divide or no divider suits")
            @Nullable
            LevelMatchDivider divider,

            @Fact("the answer in a sentence") String verdict,
            List<Assumption> assumptions,
            List<Step> working,
            List<String> sources,
            List<String> cautions)
            implements Answer {}

    /** A divider of E24 resistors. */
    public record LevelMatchDivider(
            @Fact(value = "resistor in each driven lead", unit = "Ω")
            double seriesOhms,

            @Fact("leads that have one: both of a floating source")
            int seriesLeads,

            @Fact(value = "resistor across the input", unit = "Ω")
            double shuntOhms,

            @Fact(value = "effective volts at the input, loaded by it", unit = "V")
            double deliveredVolts,

            @Fact(value = "those against the wanted ones", unit = "dB")
            double errorDecibels,

            @Fact(value = "impedance that the input sees", unit = "Ω")
            double sourceOhms,

            @Fact(value = "load that the source sees", unit = "Ω")
            double loadOhms,

            @Fact(value = "heat in each series resistor", unit = "W")
            double seriesWatts,

            @Fact(value = "heat in the shunt resistor", unit = "W")
            double shuntWatts) {

        static LevelMatchDivider of(Divider divider) {
            return new LevelMatchDivider(
                    divider.seriesOhms(),
                    divider.seriesLeads(),
                    divider.shuntOhms(),
                    divider.deliveredVolts(),
                    divider.errorDecibels(),
                    divider.sourceOhms(),
                    divider.loadOhms(),
                    divider.seriesWatts(),
                    divider.shuntWatts());
        }
    }

    @Override
    protected LevelMatchAnswer work(LevelMatchQuestion asked, Worksheet sheet) {
        Source source = source(asked.source(), sheet);
        Input input = input(asked.input(), sheet);
        Match match = LevelMatch.match(source, input);
        sheet.step(
                "the input loads the source",
                "Ui = Us × Ri / (Ro + Ri)",
                match.deliveredVolts(),
                "V",
                given("Us", source.maxVolts(), "V"),
                given("Ri", input.inputOhms(), "Ω"),
                given("Ro", source.outputOhms(), "Ω"));
        sheet.step(
                "the margin to clipping",
                "M = 20 × log10(Umax / Ui)",
                match.clippingMarginDecibels(),
                "dB",
                given("Umax", input.maxVolts(), "V"),
                given("Ui", match.deliveredVolts(), "V"));
        Double common = match.commonModePeakVolts();
        if (common != null && input.commonModeVolts() == null && common > 0) {
            sheet.assume("commonModeVolts", "enough", "what the input bears is not given, so it is not judged");
        }
        Divider divider = divider(asked, source, input, sheet);
        return new LevelMatchAnswer(
                source.maxVolts(),
                match.deliveredVolts(),
                match.ratio(),
                match.ratioDecibels(),
                match.clippingMarginDecibels(),
                match.level(),
                common,
                match.converterNeeded(),
                match.obstacles(),
                match.obstacles().stream()
                        .map(each -> reason(each, source, input, match))
                        .toList(),
                match.dividerSuffices() && divider != null,
                divider == null ? null : LevelMatchDivider.of(divider),
                verdict(match, divider != null),
                sheet.assumptions(),
                sheet.working(),
                sheet.sources(),
                sheet.cautions());
    }

    private static Source source(LevelMatchSource asked, Worksheet sheet) {
        Double watts = asked.watts();
        double volts;
        if (watts == null) {
            volts = Objects.requireNonNull(asked.volts(), "refused by the question's constructor");
        } else {
            double ohms = Objects.requireNonNull(asked.ohms(), "refused by the question's constructor");
            volts = sheet.step(
                    "effective volts are the root of watts times ohms",
                    "Us = sqrt(P × R)",
                    Levels.rmsVolts(watts, ohms),
                    "V",
                    given("P", watts, "W"),
                    given("R", ohms, "Ω"));
        }
        Boolean floating = asked.floating();
        return new Source(
                volts,
                sheet.orAssume(
                        floating,
                        "floating",
                        watts != null,
                        "power outputs of vehicles are mostly bridged, line outputs mostly not: common practice, no source"),
                sheet.orAssume(asked.biasVolts(), "biasVolts", 0, "V", "steady volts at the source"),
                sheet.orAssume(asked.outputOhms(), "outputOhms", 0, "Ω", "the source's own impedance"));
    }

    private static Input input(LevelMatchInput asked, Worksheet sheet) {
        return new Input(
                asked.minVolts(),
                asked.maxVolts(),
                sheet.orAssume(
                        asked.inputOhms(),
                        "inputOhms",
                        10_000,
                        "Ω",
                        "a usual impedance of line inputs: common practice, no source"),
                sheet.orAssume(asked.returnSide(), "returnSide", LineInputReturn.CHASSIS, "the worst case"),
                asked.commonModeVolts(),
                sheet.orAssume(
                        asked.dcCoupled(),
                        "dcCoupled",
                        false,
                        "audio inputs mostly have a capacitor: common practice, no source"));
    }

    private static @Nullable Divider divider(LevelMatchQuestion asked, Source source, Input input, Worksheet sheet) {
        double targetVolts = sheet.orAssume(
                asked.targetVolts(), "targetVolts", input.maxVolts(), "V", "the most that the input takes");
        double resistorWatts = sheet.orAssume(
                asked.resistorWatts(), "resistorWatts", RESISTOR_WATTS, "W", "the divider's resistors are small ones");
        Divider divider = LevelMatch.divider(source, input, targetVolts, resistorWatts);
        if (divider != null) {
            sheet.step(
                    "the divider brings the level down, loaded by the input",
                    "Ud = Us / (1 + (Ro + n × R1) × (1 / R2 + 1 / Ri))",
                    divider.deliveredVolts(),
                    "V",
                    given("Us", source.maxVolts(), "V"),
                    given("Ro", source.outputOhms(), "Ω"),
                    given("n", divider.seriesLeads(), ""),
                    given("R1", divider.seriesOhms(), "Ω"),
                    given("R2", divider.shuntOhms(), "Ω"),
                    given("Ri", input.inputOhms(), "Ω"));
            sheet.step(
                    "heat in the shunt resistor",
                    "P2 = Ud^2 / R2",
                    divider.shuntWatts(),
                    "W",
                    given("Ud", divider.deliveredVolts(), "V"),
                    given("R2", divider.shuntOhms(), "Ω"));
        }
        return divider;
    }

    private static String reason(LevelObstacle obstacle, Source source, Input input, Match match) {
        return switch (obstacle) {
            case FLOATING_INTO_CHASSIS ->
                "The source floats and the input's return is the chassis: joined, one side of the"
                        + " output is shorted to ground.";
            case BIAS_INTO_INPUT ->
                say("%.2f V of bias reach an input that passes steady volts.", Math.abs(source.biasVolts()));
            case COMMON_MODE_TOO_HIGH ->
                say(
                        "Both sides have %.2f V in common, above the %.2f V that the input bears.",
                        LevelMatch.commonModePeakVolts(source),
                        Objects.requireNonNullElse(input.commonModeVolts(), 0.0));
            case LEVEL_TOO_HIGH ->
                say(
                        "%.3f V reach an input that clips above %.3f V, %.1f dB too much.",
                        match.deliveredVolts(), input.maxVolts(), match.ratioDecibels());
        };
    }

    private static String verdict(Match match, boolean divides) {
        List<String> kinds = new ArrayList<>();
        if (match.dividerSuffices()) {
            return divides
                    ? "Too loud: a divider or a line-output converter must stand between the two."
                    : "Too loud, and no divider of such resistors suits: a line-output converter must stand between the two.";
        }
        if (match.converterNeeded()) {
            for (LevelObstacle each : match.obstacles()) {
                kinds.add(each.name().toLowerCase(Locale.ROOT).replace('_', ' '));
            }
            return "Not straight: a converter that isolates, by transformer or differential input, must stand between the two ("
                    + String.join(", ", kinds) + ").";
        }
        return match.level() == LevelFit.TOO_LOW
                ? "Nothing speaks against it, but the level is too low for full output: a line driver helps."
                : "Both can be wired straight.";
    }

    private static String say(String format, Object... figures) {
        return String.format(Locale.ROOT, format, figures);
    }
}
