package dev.splicebook.calculation.trade;

import static dev.splicebook.calculation.Worksheet.given;
import static dev.splicebook.calculation.trade.WireSteps.figure;

import com.google.auto.service.AutoService;
import dev.splicebook.calculation.AboutCalculation;
import dev.splicebook.calculation.Answer;
import dev.splicebook.calculation.Assumption;
import dev.splicebook.calculation.Calculation;
import dev.splicebook.calculation.Cautions;
import dev.splicebook.calculation.NoAnswerException;
import dev.splicebook.calculation.Step;
import dev.splicebook.calculation.Worked;
import dev.splicebook.calculation.Worksheet;
import dev.splicebook.electrics.Ampacity;
import dev.splicebook.electrics.ConductorMaterial;
import dev.splicebook.electrics.ConductorSize;
import dev.splicebook.electrics.Length;
import dev.splicebook.electrics.ReturnPath;
import dev.splicebook.electrics.SizeSeries;
import dev.splicebook.electrics.VoltageDrop.Run;
import dev.splicebook.electrics.WireConductor;
import dev.splicebook.electrics.WireSizing;
import dev.splicebook.electrics.WireSizing.Candidate;
import dev.splicebook.electrics.WireSizing.Choice;
import dev.splicebook.electrics.WireSizing.Governor;
import dev.splicebook.guard.Guard;
import dev.splicebook.guard.Invalid;
import dev.splicebook.web.Fact;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/** The thinnest wire that keeps the drop and stays cool. */
@AutoService(Calculation.class)
@AboutCalculation(
        name = "wire-size",
        purpose = "The thinnest wire that keeps the drop within its limit and bears the current.",
        method =
                "Each size of the series is tried for drop and ampacity, at the temperature that it comes to. Terminals and"
                        + " fuses are left out; whether a fuse fits in front of it is another calculation.",
        sources = {
            "Ohm's law",
            WireSteps.AWG_SOURCE,
            WireSteps.RESISTANCE_SOURCE,
            WireSteps.METRIC_SOURCE,
            WireSteps.AMPACITY_SOURCE,
            WireSteps.HEATING_SOURCE,
            "Which sizes are sold: common practice, no source"
        },
        cautions = {Cautions.BATTERY, Cautions.FUSE, Cautions.HEAT})
public final class WireSizeCalculation
        extends Worked<WireSizeCalculation.WireSizeQuestion, WireSizeCalculation.WireSizeAnswer> {

    public WireSizeCalculation() {
        super(WireSizeQuestion.class, WireSizeAnswer.class);
    }

    /** A current, a way and a limit. */
    public record WireSizeQuestion(
            @Fact(value = "steady current", unit = "A", least = 0.001, most = 2000)
            double currentAmps,

            @Fact("length one way, 1 mm to 1000 m") Length length,

            @Fact("how the current comes back: a like conductor, the vehicle's body, or left out")
            ReturnPath returnPath,

            @Fact(
                    value = "resistance of the body with its bonds",
                    unit = "Ω",
                    least = 0,
                    most = 10,
                    usual = "0, and only with returnPath chassis")
            @Nullable
            Double chassisOhms,

            @Fact(value = "volts at the source", unit = "V", least = 1, most = 60, usual = "12.6") @Nullable
            Double supplyVolts,

            @Fact(value = "most that the run may lose; this or maxDropPercent", unit = "V", least = 0.001, most = 60)
            @Nullable
            Double maxDropVolts,

            @Fact(
                    value = "most that the run may lose, of the supply; this or maxDropVolts",
                    unit = "%",
                    least = 0.01,
                    most = 50)
            @Nullable
            Double maxDropPercent,

            @Fact(value = "rating of the insulation", unit = "°C", least = 60, most = 250, usual = "105") @Nullable
            Double insulationCelsius,

            @Fact(value = "air around the conductor", unit = "°C", least = -60, most = 190, usual = "30") @Nullable
            Double ambientCelsius,

            @Fact(
                    value = "temperature of the conductor, for its resistance",
                    unit = "°C",
                    least = -60,
                    most = 250,
                    usual = "what each size comes to")
            @Nullable
            Double temperatureCelsius,

            @Fact(
                    value = "conductors under load in the same bundle, this one among them",
                    least = 1,
                    most = 100,
                    usual = "1, no bundle")
            @Nullable
            Integer bundledConductors,

            @Fact(value = "which sizes are tried", usual = "awg") @Nullable
            SizeSeries series,

            @Fact(value = "what the wire is made of", usual = "copper") @Nullable
            ConductorMaterial material,

            @Fact(
                    value = "resistivity at 20 °C, where the maker states it",
                    unit = "Ω·mm²/m",
                    least = 0.01,
                    most = 1,
                    usual = "that of the material")
            @Nullable
            Double resistivityOhmMm2PerMetre) {

        public WireSizeQuestion {
            double supply = supplyVolts == null ? WireSteps.SUPPLY_VOLTS : supplyVolts;
            Guard guard = WireSteps.longEnough(new Guard(), "length", length)
                    .refuseIf(
                            maxDropVolts == null && maxDropPercent == null,
                            "maxDropVolts",
                            "missing-field",
                            () -> "maxDropVolts is missing; either maxDropVolts or maxDropPercent is given")
                    .refuseIf(
                            maxDropVolts != null && maxDropPercent != null,
                            "maxDropPercent",
                            "either-or",
                            () -> "maxDropPercent stands beside maxDropVolts; one of the two is given")
                    .refuseIf(
                            maxDropVolts != null && maxDropVolts >= supply,
                            "maxDropVolts",
                            "inconsistent",
                            () -> "maxDropVolts is not below the supply of " + figure(supply) + " V")
                    .refuseIf(
                            chassisOhms != null && returnPath != ReturnPath.CHASSIS,
                            "chassisOhms",
                            "inconsistent",
                            () -> "chassisOhms is given, and the current does not return by the body");
            WireSteps.coolerThanInsulation(guard, "ambientCelsius", ambientCelsius, insulationCelsius)
                    .check();
        }
    }

    /** A size under this load. */
    public record WireSizeCandidate(
            @Fact("size") ConductorSize size,
            @Fact("whether it keeps both limits") boolean passes,
            @Fact(value = "volts that it loses", unit = "V") double dropVolts,

            @Fact(value = "the same of the supply", unit = "%")
            double dropPercent,

            @Fact(value = "what it bears, with ambient and bundle", unit = "A")
            double allowableAmps,

            @Fact(value = "temperature that it comes to", unit = "°C")
            double conductorCelsius,

            @Fact(value = "volts left below the limit; negative above it", unit = "V")
            double dropMarginVolts,

            @Fact(value = "amperes left below what it bears; negative above it", unit = "A")
            double ampacityMarginAmps,

            @Fact(value = "the lesser margin, of its limit", unit = "%")
            double marginPercent) {

        static WireSizeCandidate of(Candidate candidate) {
            return new WireSizeCandidate(
                    candidate.size(),
                    candidate.passes(),
                    candidate.dropVolts(),
                    candidate.dropPercent(),
                    candidate.allowableAmps(),
                    candidate.conductorCelsius(),
                    candidate.dropMarginVolts(),
                    candidate.ampacityMarginAmps(),
                    candidate.marginPercent());
        }
    }

    /** The size and those beside it. */
    public record WireSizeAnswer(
            @Fact("the thinnest size that keeps both limits")
            ConductorSize size,

            @Fact("which limit it is chosen by") Governor governedBy,
            @Fact(value = "volts that it loses", unit = "V") double dropVolts,

            @Fact(value = "the same of the supply", unit = "%")
            double dropPercent,

            @Fact(value = "what it bears, with ambient and bundle", unit = "A")
            double allowableAmps,

            @Fact(value = "temperature that it comes to", unit = "°C")
            double conductorCelsius,

            @Fact(value = "the lesser margin, of its limit", unit = "%")
            double marginPercent,

            @Fact(value = "the limit of the drop", unit = "V")
            double maxDropVolts,

            @Fact("the sizes before, at and after it, thinnest first")
            List<WireSizeCandidate> neighbours,

            List<Assumption> assumptions,
            List<Step> working,
            List<String> sources,
            List<String> cautions)
            implements Answer {}

    @Override
    protected WireSizeAnswer work(WireSizeQuestion asked, Worksheet sheet) {
        double amps = asked.currentAmps();
        double supply = WireSteps.supply(sheet, asked.supplyVolts());
        double chassis = WireSteps.chassis(sheet, asked.returnPath(), asked.chassisOhms());
        double insulation = WireSteps.insulation(sheet, asked.insulationCelsius());
        double ambient = WireSteps.ambient(sheet, asked.ambientCelsius());
        int bundled = (int) sheet.orAssume(
                asked.bundledConductors() == null
                        ? null
                        : asked.bundledConductors().doubleValue(),
                "bundledConductors",
                1,
                "",
                "the wire lies by itself");
        if (bundled >= 3) {
            sheet.assume(
                    "bundleFactor",
                    Ampacity.bundleFactor(bundled),
                    "",
                    "of 33 CFR 183.425 note 2, which it applies from 50 V on; its use at lower volts is a choice");
        }
        SizeSeries series = sheet.orAssume(asked.series(), "series", SizeSeries.AWG, "sizes that are tried");
        ConductorMaterial material =
                sheet.orAssume(asked.material(), "material", ConductorMaterial.COPPER, "what the wire is made of");
        double maxDrop = maxDropVolts(asked, sheet, supply);
        WireConductor like =
                new WireConductor(series.sizes().get(0), material, asked.resistivityOhmMm2PerMetre(), null);
        WireSizing sizing = new WireSizing(
                amps,
                asked.length().metres(),
                asked.returnPath(),
                chassis,
                supply,
                maxDrop,
                insulation,
                ambient,
                asked.temperatureCelsius(),
                bundled,
                series,
                like);
        Choice choice = sizing.choose();
        Candidate chosen = choice.chosen();
        Governor governedBy = choice.governedBy();
        if (chosen == null || governedBy == null) {
            throw noSize(asked, sizing, maxDrop);
        }
        WireConductor conductor = like.withSize(chosen.size());
        WireSteps.allowableAmps(sheet, conductor, insulation, ambient, bundled);
        WireSteps.conductorCelsius(sheet, ambient, insulation, amps, chosen.allowableAmps());
        double celsius = asked.temperatureCelsius() == null ? chosen.conductorCelsius() : asked.temperatureCelsius();
        Run run = new Run(conductor, asked.length().metres(), asked.returnPath(), chassis);
        double ohms = WireSteps.runOhms(sheet, run, celsius);
        sheet.step(
                "the drop of " + chosen.size() + " is the current times the resistance",
                "U = I × R",
                chosen.dropVolts(),
                "V",
                given("I", amps, "A"),
                given("R", ohms, "Ω"));
        sheet.step(
                "the margin is the lesser of what drop and ampacity leave",
                "m = 100 × min(1 − U / Um, 1 − I / Imax)",
                chosen.marginPercent(),
                "%",
                given("U", chosen.dropVolts(), "V"),
                given("Um", maxDrop, "V"),
                given("I", amps, "A"),
                given("Imax", chosen.allowableAmps(), "A"));
        return new WireSizeAnswer(
                chosen.size(),
                governedBy,
                chosen.dropVolts(),
                chosen.dropPercent(),
                chosen.allowableAmps(),
                chosen.conductorCelsius(),
                chosen.marginPercent(),
                maxDrop,
                Stream.of(choice.thinner(), chosen, choice.thicker())
                        .flatMap(Stream::ofNullable)
                        .map(WireSizeCandidate::of)
                        .toList(),
                sheet.assumptions(),
                sheet.working(),
                sheet.sources(),
                sheet.cautions());
    }

    private static double maxDropVolts(WireSizeQuestion asked, Worksheet sheet, double supplyVolts) {
        if (asked.maxDropVolts() != null) {
            return asked.maxDropVolts();
        }
        double percent = Objects.requireNonNull(asked.maxDropPercent());
        return sheet.step(
                "the limit in volts",
                "Um = p / 100 × Us",
                percent / 100 * supplyVolts,
                "V",
                given("p", percent, "%"),
                given("Us", supplyVolts, "V"));
    }

    private static NoAnswerException noSize(WireSizeQuestion asked, WireSizing sizing, double maxDrop) {
        List<Candidate> all = sizing.candidates();
        Candidate largest = all.get(all.size() - 1);
        List<Invalid> figures = new ArrayList<>();
        if (!largest.passesDrop()) {
            figures.add(new Invalid(
                    asked.maxDropVolts() == null ? "/maxDropPercent" : "/maxDropVolts",
                    "no-size-suffices",
                    largest.size() + " loses " + figure(largest.dropVolts()) + " V (" + figure(largest.dropPercent())
                            + " %), above " + figure(maxDrop) + " V"));
        }
        if (!largest.passesAmpacity()) {
            figures.add(new Invalid(
                    "/currentAmps",
                    "no-size-suffices",
                    largest.size() + " bears " + figure(largest.allowableAmps()) + " A, below "
                            + figure(asked.currentAmps()) + " A"));
        }
        return new NoAnswerException(
                "No size of the series suffices: the largest, " + largest.size() + ", loses "
                        + figure(largest.dropVolts()) + " V of " + figure(maxDrop) + " V allowed and bears "
                        + figure(largest.allowableAmps()) + " A of " + figure(asked.currentAmps()) + " A asked.",
                figures);
    }
}
