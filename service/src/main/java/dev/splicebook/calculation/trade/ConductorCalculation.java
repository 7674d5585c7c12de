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
import dev.splicebook.electrics.ConductorSize;
import dev.splicebook.electrics.Length;
import dev.splicebook.electrics.WireConductor;
import dev.splicebook.web.Fact;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** How thick a conductor is and what it resists. */
@AutoService(Calculation.class)
@AboutCalculation(
        name = "conductor",
        purpose = "How thick a conductor of a size is, and how many ohms it has.",
        method = "AWG sizes by the law of the gauge, metric sizes by the most that the standard allows, both at the"
                + " temperature given. Wire sold as a gauge may be thinner: automotive wire by up to 15 %.",
        sources = {WireSteps.AWG_SOURCE, WireSteps.RESISTANCE_SOURCE, WireSteps.METRIC_SOURCE},
        cautions = Cautions.HEAT)
public final class ConductorCalculation
        extends Worked<ConductorCalculation.ConductorQuestion, ConductorCalculation.ConductorAnswer> {

    public ConductorCalculation() {
        super(ConductorQuestion.class, ConductorAnswer.class);
    }

    /** A conductor at a temperature. */
    public record ConductorQuestion(
            @Fact("the conductor") ConductorInput conductor,

            @Fact(value = "its length, for its ohms", usual = "none, ohms are left out") @Nullable
            Length length,

            @Fact(value = "its temperature", unit = "°C", least = -60, most = 250)
            double temperatureCelsius) {}

    /** What it measures. */
    public record ConductorAnswer(
            @Fact(value = "cross-section", unit = "mm²") double areaMm2,

            @Fact(value = "diameter of a solid wire of that cross-section", unit = "mm")
            double diameterMm,

            @Fact(value = "resistance of a metre", unit = "Ω/m")
            double ohmsPerMetre,

            @Fact(value = "resistance of 1000 feet", unit = "Ω/1000 ft")
            double ohmsPer1000Feet,

            @Fact(value = "resistance of the length, one way", unit = "Ω") @Nullable
            Double ohms,

            List<Assumption> assumptions,
            List<Step> working,
            List<String> sources,
            List<String> cautions)
            implements Answer {}

    @Override
    protected ConductorAnswer work(ConductorQuestion asked, Worksheet sheet) {
        WireConductor conductor = asked.conductor().resolve(sheet);
        ConductorSize size = conductor.size();
        if (size.isGauge()) {
            sheet.step(
                    "each gauge is thinner than the one before by the 39th root of 92; 1/0 to 4/0 count as 0 to −3",
                    "d = 0.127 × 92^((36 − n) / 39)",
                    size.diameterMm(),
                    "mm",
                    given("n", size.gauge(), ""));
            sheet.step(
                    "the cross-section of a round wire",
                    "A = π / 4 × d^2",
                    size.areaMm2(),
                    "mm²",
                    given("d", size.diameterMm(), "mm"));
        } else {
            sheet.step(
                    "the diameter of a round wire of that cross-section",
                    "d = sqrt(4 / π × A)",
                    size.diameterMm(),
                    "mm",
                    given("A", size.areaMm2(), "mm²"));
        }
        double celsius = asked.temperatureCelsius();
        double perMetre = WireSteps.ohmsPerMetre(sheet, conductor, celsius);
        double per1000Feet = sheet.step(
                "1000 feet are 304.8 m",
                "r_ft = r × 304.8",
                conductor.ohmsPer1000Feet(celsius),
                "Ω",
                given("r", perMetre, "Ω/m"));
        Double ohms = null;
        if (asked.length() != null) {
            double metres = asked.length().metres();
            ohms = sheet.step(
                    "the whole length, one way",
                    "R = r × L",
                    conductor.ohms(metres, celsius),
                    "Ω",
                    given("r", perMetre, "Ω/m"),
                    given("L", metres, "m"));
        }
        return new ConductorAnswer(
                size.areaMm2(),
                size.diameterMm(),
                perMetre,
                per1000Feet,
                ohms,
                sheet.assumptions(),
                sheet.working(),
                sheet.sources(),
                sheet.cautions());
    }
}
