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
import dev.splicebook.electrics.BusTermination;
import dev.splicebook.electrics.BusTermination.Bus;
import dev.splicebook.electrics.BusTermination.BusLevel;
import dev.splicebook.electrics.BusTermination.BusLine;
import dev.splicebook.electrics.BusTermination.TerminationVerdict;
import dev.splicebook.guard.Guard;
import dev.splicebook.web.Fact;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** What the resistance of a CAN bus tells of its terminators and lines. */
@AutoService(Calculation.class)
@AboutCalculation(
        name = "bus-termination",
        purpose =
                "What is fitted or broken on a CAN bus, by the ohms between its two lines and from each line to ground and"
                        + " battery.",
        method =
                "Two terminators of 120 Ω read 60 Ω side by side. The bands reach from all terminators at the low end of"
                        + " their tolerance, with the nodes' inputs of 10 kΩ beside them, to all at the high end, with 1 Ω of leads."
                        + " Read with the battery's ground cable off and the modules asleep; a powered bus has volts of its own, and"
                        + " ohms read on it mean nothing.",
        sources = {
            "ISO 11898-2: 120 Ω at each end; dominant from 0.9 V, recessive up to 0.5 V between the lines",
            "input resistance of nodes, weak split terminations of 2.6 kΩ: from memory; shorts and leaks of a line: common"
                    + " practice, no source"
        },
        cautions = {Cautions.BATTERY, Cautions.AIRBAG})
public final class BusTerminationCalculation
        extends Worked<
                BusTerminationCalculation.BusTerminationQuestion, BusTerminationCalculation.BusTerminationAnswer> {

    public BusTerminationCalculation() {
        super(BusTerminationQuestion.class, BusTerminationAnswer.class);
    }

    /** What a meter reads. */
    public record BusTerminationQuestion(
            @Fact(value = "between the lines; or overRange", unit = "Ω", least = 0, most = 1e9) @Nullable
            Double ohms,

            @Fact(value = "whether the meter shows an open circuit; or ohms") @Nullable
            Boolean overRange,

            @Fact(value = "CAN-H to ground", unit = "Ω", least = 0, most = 1e9) @Nullable
            Double highToGroundOhms,

            @Fact(value = "CAN-L to ground", unit = "Ω", least = 0, most = 1e9) @Nullable
            Double lowToGroundOhms,

            @Fact(value = "CAN-H to battery plus", unit = "Ω", least = 0, most = 1e9) @Nullable
            Double highToBatteryOhms,

            @Fact(value = "CAN-L to battery plus", unit = "Ω", least = 0, most = 1e9) @Nullable
            Double lowToBatteryOhms,

            @Fact(value = "whether the battery was connected while ohms were read", usual = "false") @Nullable
            Boolean supplyOn,

            @Fact(value = "tolerance of the terminators, as a share", least = 0, most = 0.1, usual = "0.05") @Nullable
            Double toleranceShare,

            @Fact(value = "nodes on the bus", least = 0, most = 40, usual = "10") @Nullable
            Integer nodes,

            @Fact(value = "CAN-H to ground with the bus at work; needs canLowVolts", unit = "V", least = -40, most = 40)
            @Nullable
            Double canHighVolts,

            @Fact(
                    value = "CAN-L to ground with the bus at work; needs canHighVolts",
                    unit = "V",
                    least = -40,
                    most = 40)
            @Nullable
            Double canLowVolts) {

        public BusTerminationQuestion {
            Guard guard = new Guard();
            Either.one(guard, "ohms", ohms, "overRange", overRange);
            guard.refuseIf(
                    ohms == null && Boolean.FALSE.equals(overRange),
                    "ohms",
                    "missing-field",
                    () -> "ohms is missing; a meter that is not over its range reads some");
            Either.needs(guard, "canHighVolts", canHighVolts, "canLowVolts", canLowVolts);
            Either.needs(guard, "canLowVolts", canLowVolts, "canHighVolts", canHighVolts);
            guard.check();
        }
    }

    /** What the readings tell. */
    public record BusTerminationAnswer(
            @Fact(
                    "shorted, too-many-terminators, three-terminators, both-fitted, one-terminator, no-terminator, open or"
                            + " between-bands")
            TerminationVerdict verdict,

            @Fact("what that means, and what it may come from")
            String meaning,

            @Fact("whether the reading can be relied on: taken with the supply off")
            boolean valid,

            @Fact("how many terminators of 120 Ω would read this; absent for a short or an open bus") @Nullable
            Double equivalentTerminators,

            @Fact("what one, two and three terminators read")
            List<TerminationBand> bands,

            @Fact("each line that was read") List<LineReading> lines,

            @Fact("what the volts of the bus at work are: recessive, dominant or undefined") @Nullable
            BusLevel level,

            List<Assumption> assumptions,
            List<Step> working,
            List<String> sources,
            List<String> cautions)
            implements Answer {}

    /** What a number of terminators reads. */
    public record TerminationBand(
            @Fact("how many") int terminators,

            @Fact(value = "without nodes and tolerance", unit = "Ω")
            double idealOhms,

            @Fact(value = "least", unit = "Ω") double leastOhms,
            @Fact(value = "most", unit = "Ω") double mostOhms) {}

    /** What a line is to something. */
    public record LineReading(
            @Fact("CAN-H to ground, CAN-L to battery plus and so on")
            String between,

            @Fact(value = "what was read", unit = "Ω") double ohms,
            @Fact("shorted, leaking or sound") BusLine state,
            @Fact("what that means") String meaning) {}

    @Override
    protected BusTerminationAnswer work(BusTerminationQuestion asked, Worksheet sheet) {
        double tolerance = sheet.orAssume(
                asked.toleranceShare(),
                "toleranceShare",
                0.05,
                "",
                "terminators of 1 to 5 %: common practice, no source");
        int nodes = (int) sheet.orAssume(
                asked.nodes() == null ? null : Double.valueOf(asked.nodes()), "nodes", 10, "", "a bus of usual size");
        sheet.assume("input resistance of a node", BusTermination.NODE_OHMS, "Ω", "the least allowed, from memory");
        sheet.assume("resistance of the leads", BusTermination.LEAD_OHMS, "Ω", "common practice, no source");
        Bus bus = new Bus(tolerance, nodes);
        @Nullable Double read = asked.ohms();
        double ohms = read == null ? Double.POSITIVE_INFINITY : read;
        TerminationVerdict verdict = bus.judge(ohms);
        boolean countable = ohms > 0 && ohms < BusTermination.OPEN_OHMS;
        @Nullable
        Double equivalent = !countable
                ? null
                : Double.valueOf(sheet.step(
                        "as many terminators would read this",
                        "n = 120 / R",
                        BusTermination.equivalentTerminators(ohms),
                        "",
                        given("R", ohms, "Ω")));
        List<TerminationBand> bands = bands(bus, sheet);
        boolean valid = !Boolean.TRUE.equals(asked.supplyOn());
        if (!valid) {
            sheet.caution("Ohms read on a powered bus mean nothing: take the battery's ground cable off, wait until the"
                    + " modules are down, and read again.");
        } else if (asked.supplyOn() == null) {
            sheet.assume("supplyOn", "false", "ohms were read with the supply off");
        }
        return new BusTerminationAnswer(
                verdict,
                meaning(verdict, ohms),
                valid,
                equivalent,
                bands,
                lines(asked),
                level(asked),
                sheet.assumptions(),
                sheet.working(),
                sheet.sources(),
                sheet.cautions());
    }

    private static List<TerminationBand> bands(Bus bus, Worksheet sheet) {
        List<TerminationBand> bands = new ArrayList<>();
        for (BusTermination.Band band : bus.bands()) {
            bands.add(new TerminationBand(
                    band.terminators(),
                    sheet.step(
                            "equal terminators side by side",
                            "R = 120 / n",
                            BusTermination.terminatedOhms(band.terminators(), BusTermination.TERMINATOR_OHMS),
                            "Ω",
                            given("n", band.terminators(), "")),
                    sheet.step(
                            "least: low tolerance, with the nodes beside",
                            "Rl = 1 / (n / (120 × (1 - t)) + k / 10000)",
                            band.leastOhms(),
                            "Ω",
                            given("n", band.terminators(), ""),
                            given("t", bus.toleranceShare(), ""),
                            given("k", bus.nodes(), "")),
                    sheet.step(
                            "most: high tolerance, with the leads",
                            "Rm = 120 × (1 + t) / n + 1",
                            band.mostOhms(),
                            "Ω",
                            given("t", bus.toleranceShare(), ""),
                            given("n", band.terminators(), ""))));
        }
        return bands;
    }

    private static String meaning(TerminationVerdict verdict, double ohms) {
        return switch (verdict) {
            case SHORTED ->
                "The two lines touch: a pinched harness, a bent pin, or a failed node. Unplug nodes one by one"
                        + " until the reading rises.";
            case TOO_MANY_TERMINATORS ->
                "Four or more terminators, or something else across the lines: a node or adapter with"
                        + " a terminator of its own, or a line partly shorted.";
            case THREE_TERMINATORS ->
                "Three terminators: one too many, often in an added interface. Turn its terminator off.";
            case BOTH_FITTED -> "Both terminators are there and both lines are whole between them.";
            case ONE_TERMINATOR ->
                "One terminator: the other is missing or unplugged, or a line is broken between them.";
            case NO_TERMINATOR ->
                String.format(
                        Locale.ROOT,
                        "No terminator of 120 Ω: only inputs or weak split terminations are seen, of which %.3g of 2.6 kΩ would"
                                + " read this. Low-speed and single-wire buses have none between the lines.",
                        BusTermination.WEAK_SPLIT_OHMS / ohms);
            case OPEN -> "Nothing is between the lines: both are broken near the meter, or its leads do not touch.";
            case BETWEEN_BANDS ->
                "Between what whole numbers of terminators read: a bad joint in a line, a terminator of"
                        + " another value, a leak between the lines, or modules not yet asleep.";
        };
    }

    private static List<LineReading> lines(BusTerminationQuestion asked) {
        List<LineReading> lines = new ArrayList<>();
        add(lines, "CAN-H to ground", asked.highToGroundOhms(), asked.lowToGroundOhms());
        add(lines, "CAN-L to ground", asked.lowToGroundOhms(), asked.highToGroundOhms());
        add(lines, "CAN-H to battery plus", asked.highToBatteryOhms(), asked.lowToBatteryOhms());
        add(lines, "CAN-L to battery plus", asked.lowToBatteryOhms(), asked.highToBatteryOhms());
        return lines;
    }

    private static void add(
            List<LineReading> lines, String between, @Nullable Double ohms, @Nullable Double otherLineOhms) {
        if (ohms == null) {
            return;
        }
        BusLine state = BusTermination.line(ohms);
        String meaning = switch (state) {
            case SHORTED ->
                "The line touches, or the other does and is seen through the terminators: the lower"
                        + " reading is the line at fault.";
            case LEAKING ->
                "Less than the nodes make: the other line is shorted and seen through the terminators, or"
                        + " a joint is wet.";
            case SOUND ->
                otherLineOhms != null
                                && (ohms > BusTermination.UNLIKE_TIMES * otherLineOhms
                                        || otherLineOhms > BusTermination.UNLIKE_TIMES * ohms)
                        ? "Sound alone, but the two lines differ: a damaged input pulls one of them."
                        : "As the inputs of the nodes make it.";
        };
        lines.add(new LineReading(between, ohms, state, meaning));
    }

    private static @Nullable BusLevel level(BusTerminationQuestion asked) {
        @Nullable Double high = asked.canHighVolts();
        @Nullable Double low = asked.canLowVolts();
        return high == null || low == null ? null : BusTermination.level(high, low);
    }
}
