package dev.splicebook.calculation.trade;

import static dev.splicebook.calculation.Worksheet.given;

import com.google.auto.service.AutoService;
import dev.splicebook.calculation.AboutCalculation;
import dev.splicebook.calculation.Answer;
import dev.splicebook.calculation.Assumption;
import dev.splicebook.calculation.Calculation;
import dev.splicebook.calculation.NoAnswerException;
import dev.splicebook.calculation.Step;
import dev.splicebook.calculation.Worked;
import dev.splicebook.calculation.Worksheet;
import dev.splicebook.electrics.PreferredValues;
import dev.splicebook.electrics.VoltageDivider;
import dev.splicebook.guard.Guard;
import dev.splicebook.web.Fact;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** Two resistors that divide a voltage, or the pair that divides it as wanted. */
@AutoService(Calculation.class)
@AboutCalculation(
        name = "divider",
        purpose =
                "What two resistors make of a voltage with a load on them, or which two of a series come nearest to what is"
                        + " wanted.",
        method =
                "The load stands beside the lower resistor. Least and most volts have both resistors off by their tolerance"
                        + " in opposite ways. A wanted ratio is sought among all pairs whose sum lies within bounds; of equally near"
                        + " ones the pair in the middle of the bounds is taken. A divider is for signals, not for feeding a load that"
                        + " varies.",
        sources = {"Ohm's law", "preferred values E12, E24 and E96 after IEC 60063, from memory"})
public final class DividerCalculation
        extends Worked<DividerCalculation.DividerQuestion, DividerCalculation.DividerAnswer> {

    /** The usual small resistor's rating, in watts. */
    private static final double SMALL_WATTS = 0.25;

    public DividerCalculation() {
        super(DividerQuestion.class, DividerAnswer.class);
    }

    /** A supply, and two resistors or what they should make of it. */
    public record DividerQuestion(
            @Fact(value = "supply", unit = "V", least = 0.001, most = 1000)
            double supplyVolts,

            @Fact(value = "resistor from the supply to the tap", unit = "Ω", least = 0.1, most = 1e8) @Nullable
            Double r1Ohms,

            @Fact(value = "resistor from the tap to ground", unit = "Ω", least = 0.1, most = 1e8) @Nullable
            Double r2Ohms,

            @Fact(
                    value = "wanted of output over supply, with the load; in place of r1Ohms and r2Ohms",
                    least = 0.001,
                    most = 0.999)
            @Nullable
            Double wantedRatio,

            @Fact(
                    value = "wanted output, with the load; in place of r1Ohms and r2Ohms",
                    unit = "V",
                    least = 0.000_001,
                    most = 1000)
            @Nullable
            Double wantedVolts,

            @Fact(value = "series to choose from", usual = "e24") @Nullable
            PreferredValues series,

            @Fact(value = "least sum of the two to be chosen", unit = "Ω", least = 1, most = 1e7, usual = "10 000")
            @Nullable
            Double leastTotalOhms,

            @Fact(
                    value = "greatest sum of the two to be chosen",
                    unit = "Ω",
                    least = 1,
                    most = 1e7,
                    usual = "ten times the least")
            @Nullable
            Double mostTotalOhms,

            @Fact(value = "load on the tap", unit = "Ω", least = 0.1, most = 1e9, usual = "none") @Nullable
            Double loadOhms,

            @Fact(
                    value = "tolerance of the resistors, as a share",
                    least = 0,
                    most = 0.2,
                    usual = "0.01 of e96, 0.1 of e12, otherwise 0.05")
            @Nullable
            Double toleranceShare) {

        public DividerQuestion {
            Guard guard = new Guard();
            @Nullable Object pair = r1Ohms == null ? r2Ohms : r1Ohms;
            @Nullable Object wanted = wantedRatio == null ? wantedVolts : wantedRatio;
            Either.one(guard, "r1Ohms", pair, wantedRatio == null ? "wantedVolts" : "wantedRatio", wanted);
            Either.needs(guard, "r1Ohms", r1Ohms, "r2Ohms", r2Ohms);
            Either.needs(guard, "r2Ohms", r2Ohms, "r1Ohms", r1Ohms);
            Either.atMostOne(guard, "wantedRatio", wantedRatio, "wantedVolts", wantedVolts);
            guard.notAbove("leastTotalOhms", leastTotalOhms, "mostTotalOhms", mostTotalOhms);
            guard.check();
        }
    }

    /** A divider. */
    public record DividerAnswer(
            @Fact(value = "resistor from the supply to the tap, given or chosen", unit = "Ω")
            double r1Ohms,

            @Fact(value = "resistor from the tap to ground, given or chosen", unit = "Ω")
            double r2Ohms,

            @Fact(value = "output", unit = "V") double outVolts,
            @Fact("output over supply") double ratio,

            @Fact("how far the ratio is off from the one wanted, as a share of it") @Nullable
            Double errorShare,

            @Fact(value = "least output by tolerance", unit = "V")
            double leastOutVolts,

            @Fact(value = "greatest output by tolerance", unit = "V")
            double mostOutVolts,

            @Fact(value = "drawn from the supply", unit = "A")
            double supplyAmps,

            @Fact(value = "heat in the upper resistor", unit = "W")
            double r1Watts,

            @Fact(value = "heat in the lower resistor", unit = "W")
            double r2Watts,

            @Fact(value = "power in the load", unit = "W") @Nullable
            Double loadWatts,

            @Fact(value = "impedance that the load sees", unit = "Ω")
            double sourceOhms,

            List<Assumption> assumptions,
            List<Step> working,
            List<String> sources,
            List<String> cautions)
            implements Answer {}

    @Override
    protected DividerAnswer work(DividerQuestion asked, Worksheet sheet) {
        double supply = asked.supplyVolts();
        @Nullable Double load = asked.loadOhms();
        @Nullable Double r1 = asked.r1Ohms();
        @Nullable Double r2 = asked.r2Ohms();
        VoltageDivider.Pair pair = r1 != null && r2 != null
                ? new VoltageDivider.Pair(r1, r2, VoltageDivider.ratio(r1, r2, load), 0)
                : chosen(asked, sheet);
        PreferredValues series = asked.series() == null ? PreferredValues.E24 : asked.series();
        double tolerance = sheet.orAssume(
                asked.toleranceShare(),
                "toleranceShare",
                usualTolerance(series),
                "",
                "usual for resistors of the series");
        double upper = pair.r1Ohms();
        double lower = load == null
                ? pair.r2Ohms()
                : sheet.step(
                        "the load stands beside the lower resistor",
                        "Rl = R2 × R / (R2 + R)",
                        VoltageDivider.lowerOhms(pair.r2Ohms(), load),
                        "Ω",
                        given("R2", pair.r2Ohms(), "Ω"),
                        given("R", load, "Ω"));
        double out = sheet.step(
                "the output is the supply's share across the lower part",
                "Uo = U × Rl / (R1 + Rl)",
                supply * pair.ratio(),
                "V",
                given("U", supply, "V"),
                given("Rl", lower, "Ω"),
                given("R1", upper, "Ω"));
        double amps = sheet.step(
                "the supply gives",
                "I = U / (R1 + Rl)",
                supply / (upper + lower),
                "A",
                given("U", supply, "V"),
                given("R1", upper, "Ω"),
                given("Rl", lower, "Ω"));
        double r1Watts = sheet.step(
                "heat in the upper resistor",
                "P1 = I^2 × R1",
                VoltageDivider.watts(amps * upper, upper),
                "W",
                given("I", amps, "A"),
                given("R1", upper, "Ω"));
        double r2Watts = sheet.step(
                "heat in the lower resistor",
                "P2 = Uo^2 / R2",
                VoltageDivider.watts(out, pair.r2Ohms()),
                "W",
                given("Uo", out, "V"),
                given("R2", pair.r2Ohms(), "Ω"));
        double source = sheet.step(
                "the load sees the two side by side",
                "Rs = R1 × R2 / (R1 + R2)",
                VoltageDivider.sourceOhms(upper, pair.r2Ohms()),
                "Ω",
                given("R1", upper, "Ω"),
                given("R2", pair.r2Ohms(), "Ω"));
        if (Math.max(r1Watts, r2Watts) > SMALL_WATTS) {
            sheet.caution("A resistor here takes more than the quarter watt of a usual small one, and gets hot.");
        }
        return new DividerAnswer(
                upper,
                pair.r2Ohms(),
                out,
                pair.ratio(),
                r1 == null ? Double.valueOf(pair.errorShare()) : null,
                supply * VoltageDivider.leastRatio(upper, pair.r2Ohms(), load, tolerance),
                supply * VoltageDivider.mostRatio(upper, pair.r2Ohms(), load, tolerance),
                amps,
                r1Watts,
                r2Watts,
                load == null ? null : Double.valueOf(VoltageDivider.watts(out, load)),
                source,
                sheet.assumptions(),
                sheet.working(),
                sheet.sources(),
                sheet.cautions());
    }

    private static VoltageDivider.Pair chosen(DividerQuestion asked, Worksheet sheet) {
        double ratio = wantedRatio(asked);
        PreferredValues series =
                sheet.orAssume(asked.series(), "series", PreferredValues.E24, "the usual drawer of resistors");
        @Nullable Double givenMost = asked.mostTotalOhms();
        double usualLeast = givenMost == null ? 10_000 : Math.min(10_000, Math.max(1, givenMost / 10));
        double least = sheet.orAssume(
                asked.leastTotalOhms(),
                "leastTotalOhms",
                usualLeast,
                "Ω",
                "little current: common practice, no source");
        double most = sheet.orAssume(givenMost, "mostTotalOhms", 10 * least, "Ω", "ten times the least");
        return VoltageDivider.nearestPair(ratio, least, most, series, asked.loadOhms())
                .orElseThrow(() -> new NoAnswerException(
                        String.format(
                                Locale.ROOT,
                                "No two resistors of %s have a sum from %.6g to %.6g Ω.",
                                series.name(),
                                least,
                                most),
                        "/leastTotalOhms",
                        "no-pair",
                        String.format(Locale.ROOT, "no pair from %.6g to %.6g Ω", least, most)));
    }

    private static double wantedRatio(DividerQuestion asked) {
        @Nullable Double ratio = asked.wantedRatio();
        @Nullable Double volts = asked.wantedVolts();
        double wanted = ratio != null ? ratio : volts != null ? volts / asked.supplyVolts() : Double.NaN;
        if (!(wanted >= 0.001 && wanted <= 0.999)) {
            throw new NoAnswerException(
                    String.format(
                            Locale.ROOT,
                            "A divider of %.6g V gives less than that and, with resistors that can be had, from %.6g to %.6g V.",
                            asked.supplyVolts(),
                            0.001 * asked.supplyVolts(),
                            0.999 * asked.supplyVolts()),
                    "/wantedVolts",
                    "outside-supply",
                    String.format(Locale.ROOT, "%.6g V are %.6g of the supply, outside 0.001 to 0.999", volts, wanted));
        }
        return wanted;
    }

    private static double usualTolerance(PreferredValues series) {
        return switch (series) {
            case E12 -> 0.1;
            case E24 -> 0.05;
            case E96 -> 0.01;
        };
    }
}
