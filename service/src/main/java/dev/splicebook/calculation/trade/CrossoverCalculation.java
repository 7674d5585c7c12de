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
import dev.splicebook.electrics.Crossover;
import dev.splicebook.electrics.Crossover.Component;
import dev.splicebook.electrics.Crossover.CrossoverAlignment;
import dev.splicebook.electrics.Crossover.CrossoverKind;
import dev.splicebook.electrics.Crossover.CrossoverPlace;
import dev.splicebook.electrics.Crossover.CrossoverSide;
import dev.splicebook.electrics.LPad;
import dev.splicebook.electrics.Levels;
import dev.splicebook.electrics.PreferredValues;
import dev.splicebook.guard.Guard;
import dev.splicebook.web.Fact;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** A passive crossover's components. */
@AutoService(Calculation.class)
@AboutCalculation(
        name = "crossover",
        purpose =
                "Capacitors and inductors of a passive crossover filter, what can be bought for them, and the corner that"
                        + " this really gives.",
        method =
                "Ladder between a source of voltage and one driver, which counts as a resistance: measure its impedance at the"
                        + " corner, or level it, before parts are bought. Resistance of inductors is left out. The corner is at −3 dB,"
                        + " or −6 dB for Linkwitz-Riley.",
        sources = {
            "Butterworth, Linkwitz-Riley and Bessel polynomials, and Darlington's continued fraction for a ladder without source"
                    + " resistance; handbooks of filter design, from memory, against published crossover tables",
            "E12 and E24 values: IEC 60063, from memory"
        },
        cautions = Cautions.SPEAKER_OUTPUT)
public final class CrossoverCalculation
        extends Worked<CrossoverCalculation.CrossoverQuestion, CrossoverCalculation.CrossoverAnswer> {

    private static final String USUAL_ALIGNMENT = "the usual one, flat in the pass band";

    public CrossoverCalculation() {
        super(CrossoverQuestion.class, CrossoverAnswer.class);
    }

    /** The filter of one driver. */
    public record CrossoverQuestion(
            @Fact(value = "order, 6 dB an octave each", least = 1, most = 4)
            int order,

            @Fact(value = "shape of the response; linkwitz-riley for orders 2 and 4 only", usual = "butterworth")
            @Nullable
            CrossoverAlignment alignment,

            @Fact(value = "impedance of the driver at the corner", unit = "Ω", least = 0.5, most = 1000)
            double ohms,

            @Fact(value = "corner", unit = "Hz", least = 1, most = 100_000)
            double hertz,

            @Fact("low-pass for a woofer, high-pass for a tweeter")
            CrossoverSide side,

            @Fact(
                    value = "corner of a single capacitor ahead of the driver that keeps bass out",
                    unit = "Hz",
                    least = 1,
                    most = 100_000)
            @Nullable
            Double bassBlockHertz,

            @Fact(value = "how much quieter two resistors are to make the driver", unit = "dB", least = 0.1, most = 60)
            @Nullable
            Double lPadDecibels) {

        public CrossoverQuestion {
            new Guard()
                    .refuseIf(
                            alignment == CrossoverAlignment.LINKWITZ_RILEY && order % 2 != 0,
                            "order",
                            "inconsistent",
                            () -> "order is " + order + ", and linkwitz-riley has orders 2 and 4 only")
                    .check();
        }
    }

    /** What to buy. */
    public record CrossoverAnswer(
            @Fact("in order from the amplifier") List<CrossoverComponent> components,

            @Fact(value = "gain at the corner", unit = "dB") double cornerDecibels,
            @Fact("what the nearest E12 values give") CrossoverRounded e12,
            @Fact("what the nearest E24 values give") CrossoverRounded e24,

            @Fact("how to connect two drivers that meet at this corner")
            String polarity,

            @Fact("the single capacitor; absent where none is asked for") @Nullable
            CrossoverBassBlock bassBlock,

            @Fact("the two resistors; absent where none are asked for") @Nullable
            CrossoverPad lPad,

            List<Assumption> assumptions,
            List<Step> working,
            List<String> sources,
            List<String> cautions)
            implements Answer {}

    /** One component: a capacitor has microfarads, an inductor millihenries. */
    public record CrossoverComponent(
            @Fact("what it is") CrossoverKind kind,
            @Fact("in the lead, or across what follows") CrossoverPlace place,

            @Fact(value = "ideal value", unit = "µF") @Nullable
            Double microfarads,

            @Fact(value = "nearest E12 value", unit = "µF") @Nullable
            Double e12Microfarads,

            @Fact(value = "nearest E24 value", unit = "µF") @Nullable
            Double e24Microfarads,

            @Fact(value = "ideal value", unit = "mH") @Nullable
            Double millihenries,

            @Fact(value = "nearest E12 value", unit = "mH") @Nullable
            Double e12Millihenries,

            @Fact(value = "nearest E24 value", unit = "mH") @Nullable
            Double e24Millihenries) {}

    /** The corner of components that can be bought. */
    public record CrossoverRounded(
            @Fact(value = "the corner they really give", unit = "Hz")
            double cornerHertz,

            @Fact(value = "by how much that is off", unit = "%")
            double cornerErrorPercent) {}

    /** A single capacitor. */
    public record CrossoverBassBlock(
            @Fact(value = "ideal value", unit = "µF") double microfarads,
            @Fact(value = "nearest E12 value", unit = "µF") double e12Microfarads,
            @Fact(value = "corner of that", unit = "Hz") double e12CornerHertz,
            @Fact(value = "nearest E24 value", unit = "µF") double e24Microfarads,
            @Fact(value = "corner of that", unit = "Hz") double e24CornerHertz) {}

    /** Two resistors that make a driver quieter. */
    public record CrossoverPad(
            @Fact(value = "ideal resistor in the lead", unit = "Ω")
            double seriesOhms,

            @Fact(value = "ideal resistor across the driver", unit = "Ω")
            double shuntOhms,

            @Fact(value = "nearest E24 value", unit = "Ω") double e24SeriesOhms,
            @Fact(value = "nearest E24 value", unit = "Ω") double e24ShuntOhms,

            @Fact(value = "what those take away", unit = "dB")
            double e24Decibels,

            @Fact(value = "load that those and the driver are", unit = "Ω")
            double e24LoadOhms,

            @Fact(value = "part of the power that heats the first", unit = "%")
            double seriesPowerPercent,

            @Fact(value = "part of the power that heats the second", unit = "%")
            double shuntPowerPercent,

            @Fact(value = "part of the power that reaches the driver", unit = "%")
            double driverPowerPercent) {}

    @Override
    protected CrossoverAnswer work(CrossoverQuestion asked, Worksheet sheet) {
        CrossoverAlignment alignment =
                sheet.orAssume(asked.alignment(), "alignment", CrossoverAlignment.BUTTERWORTH, USUAL_ALIGNMENT);
        Crossover crossover = new Crossover(asked.order(), alignment, asked.ohms(), asked.hertz(), asked.side());
        sheet.assume(
                "driver", "resistance", "the driver is taken as a resistance of the given ohms at all frequencies");
        List<CrossoverComponent> components = new ArrayList<>();
        for (int each = 0; each < asked.order(); each++) {
            Component component = crossover.components().get(each);
            show(component, crossover.prototype().get(each), each + 1, crossover, sheet);
            components.add(component(component));
        }
        Double blockHertz = asked.bassBlockHertz();
        Double padDecibels = asked.lPadDecibels();
        return new CrossoverAnswer(
                List.copyOf(components),
                Levels.decibelsOfVolts(alignment.cornerGain(), 1),
                rounded(crossover, PreferredValues.E12, sheet),
                rounded(crossover, PreferredValues.E24, sheet),
                polarity(asked.order(), alignment),
                blockHertz == null ? null : bassBlock(asked.ohms(), blockHertz, sheet),
                padDecibels == null ? null : pad(new LPad(asked.ohms(), padDecibels), sheet),
                sheet.assumptions(),
                sheet.working(),
                sheet.sources(),
                sheet.cautions());
    }

    private static void show(Component component, double prototype, int number, Crossover crossover, Worksheet sheet) {
        boolean low = crossover.side() == CrossoverSide.LOW_PASS;
        String words = String.format(
                Locale.ROOT,
                "%s %d from the amplifier, %s, by the value g of the low-pass for 1 Ω and 1 rad/s",
                component.kind() == CrossoverKind.CAPACITOR ? "capacitor" : "inductor",
                number,
                component.place() == CrossoverPlace.SERIES ? "in the lead" : "across");
        Step.Given[] numbers = {
            given("g", prototype, ""), given("R", crossover.ohms(), "Ω"), given("f", crossover.hertz(), "Hz")
        };
        Double microfarads = component.microfarads();
        Double millihenries = component.millihenries();
        if (microfarads != null) {
            sheet.step(
                    words,
                    low ? "C = g / (2 × π × f × R) × 1e6" : "C = 1 / (2 × π × f × R × g) × 1e6",
                    microfarads,
                    "µF",
                    numbers);
        } else if (millihenries != null) {
            sheet.step(
                    words,
                    low ? "L = g × R / (2 × π × f) × 1000" : "L = R / (2 × π × f × g) × 1000",
                    millihenries,
                    "mH",
                    numbers);
        }
    }

    private static CrossoverComponent component(Component ideal) {
        Component e12 = ideal.rounded(PreferredValues.E12);
        Component e24 = ideal.rounded(PreferredValues.E24);
        return new CrossoverComponent(
                ideal.kind(),
                ideal.place(),
                ideal.microfarads(),
                e12.microfarads(),
                e24.microfarads(),
                ideal.millihenries(),
                e12.millihenries(),
                e24.millihenries());
    }

    private static CrossoverRounded rounded(Crossover crossover, PreferredValues series, Worksheet sheet) {
        double hertz = crossover.cornerHertz(crossover.components(series));
        double errorPercent = sheet.step(
                "the corner of the nearest " + series + " values, found where their gain is that of the corner, is off",
                "e = (f1 / f − 1) × 100",
                (hertz / crossover.hertz() - 1) * 100,
                "%",
                given("f1", hertz, "Hz"),
                given("f", crossover.hertz(), "Hz"));
        return new CrossoverRounded(hertz, errorPercent);
    }

    /** Butterworth and Linkwitz-Riley sides are order times 90 degrees apart at every frequency, Bessel sides are not. */
    private static String polarity(int order, CrossoverAlignment alignment) {
        if (alignment == CrossoverAlignment.BESSEL && order > 1) {
            return "The phase between Bessel sides changes with frequency: try both polarities and keep what sounds fuller.";
        }
        return switch (order) {
            case 2 ->
                "Low-pass and high-pass are half a turn apart: turn one of the two drivers round, plus for minus.";
            case 4 -> "Low-pass and high-pass are in step: connect both drivers the same way round.";
            default ->
                "Low-pass and high-pass are a quarter of a turn apart either way: try both polarities and keep what sounds"
                        + " fuller.";
        };
    }

    private static CrossoverBassBlock bassBlock(double ohms, double hertz, Worksheet sheet) {
        Crossover block = new Crossover(1, CrossoverAlignment.BUTTERWORTH, ohms, hertz, CrossoverSide.HIGH_PASS);
        List<Component> e12 = block.components(PreferredValues.E12);
        List<Component> e24 = block.components(PreferredValues.E24);
        double microfarads = sheet.step(
                "a single capacitor keeps bass out at 6 dB an octave",
                "C = 1 / (2 × π × f × R) × 1e6",
                microfarads(block.components()),
                "µF",
                given("f", hertz, "Hz"),
                given("R", ohms, "Ω"));
        return new CrossoverBassBlock(
                microfarads, microfarads(e12), block.cornerHertz(e12), microfarads(e24), block.cornerHertz(e24));
    }

    private static double microfarads(List<Component> single) {
        Double microfarads = single.get(0).microfarads();
        return microfarads == null ? 0 : microfarads;
    }

    private static CrossoverPad pad(LPad pad, Worksheet sheet) {
        double ratio = sheet.step(
                "the ratio of volts that the decibels are",
                "k = 10^(−a / 20)",
                Levels.voltRatio(-pad.decibels()),
                "",
                given("a", pad.decibels(), "dB"));
        double seriesOhms = sheet.step(
                "the resistor in the lead",
                "R1 = Z × (1 − k)",
                pad.seriesOhms(),
                "Ω",
                given("Z", pad.ohms(), "Ω"),
                given("k", ratio, ""));
        double shuntOhms = sheet.step(
                "the resistor across the driver",
                "R2 = Z × k / (1 − k)",
                pad.shuntOhms(),
                "Ω",
                given("Z", pad.ohms(), "Ω"),
                given("k", ratio, ""));
        sheet.step(
                "the part of the power that heats the first",
                "p1 = (1 − k) × 100",
                pad.seriesPowerShare() * 100,
                "%",
                given("k", ratio, ""));
        double e24Series = PreferredValues.E24.nearest(seriesOhms);
        double e24Shunt = PreferredValues.E24.nearest(shuntOhms);
        return new CrossoverPad(
                seriesOhms,
                shuntOhms,
                e24Series,
                e24Shunt,
                pad.decibelsWith(e24Series, e24Shunt),
                pad.loadOhmsWith(e24Series, e24Shunt),
                pad.seriesPowerShare() * 100,
                pad.shuntPowerShare() * 100,
                pad.driverPowerShare() * 100);
    }
}
