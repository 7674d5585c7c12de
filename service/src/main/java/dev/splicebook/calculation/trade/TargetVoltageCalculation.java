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
import dev.splicebook.guard.Guard;
import dev.splicebook.web.Fact;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/** The volts of a tone at which an amplifier gives the watts it is set for. */
@AutoService(Calculation.class)
@AboutCalculation(
        name = "target-voltage",
        purpose = "Which volts a meter shows at the speaker terminals when the gain is set right, and the reverse.",
        method = "Sine tone into a resistance. Give watts for volts, or volts for watts.",
        sources = "P = V²/R of a sine's effective value, a law; dBu and dBV after IEC 60027-3, from memory",
        cautions = Cautions.HEARING)
public final class TargetVoltageCalculation
        extends Worked<TargetVoltageCalculation.TargetVoltageQuestion, TargetVoltageCalculation.TargetVoltageAnswer> {

    public TargetVoltageCalculation() {
        super(TargetVoltageQuestion.class, TargetVoltageAnswer.class);
    }

    /** Watts or volts into ohms. */
    public record TargetVoltageQuestion(
            @Fact(value = "power wanted", unit = "W", least = 0, aboveLeast = true, most = 100_000) @Nullable
            Double watts,

            @Fact(value = "effective volts read", unit = "V", least = 0, aboveLeast = true, most = 10_000) @Nullable
            Double rmsVolts,

            @Fact(value = "load, as the amplifier sees it", unit = "Ω", least = 0.1, most = 100_000)
            double ohms) {

        public TargetVoltageQuestion {
            new Guard()
                    .refuseIf(
                            watts == null && rmsVolts == null,
                            "watts",
                            "missing-field",
                            () -> "watts is missing; either watts or rmsVolts is given")
                    .refuseIf(
                            watts != null && rmsVolts != null,
                            "rmsVolts",
                            "either-or",
                            () -> "rmsVolts stands beside watts; one of the two is given")
                    .check();
        }
    }

    /** Volts and watts that belong together. */
    public record TargetVoltageAnswer(
            @Fact(value = "effective volts", unit = "V") double rmsVolts,
            @Fact(value = "peak volts", unit = "V") double peakVolts,
            @Fact(value = "peak-to-peak volts", unit = "V") double peakToPeakVolts,
            @Fact(value = "power", unit = "W") double watts,
            List<Assumption> assumptions,
            List<Step> working,
            List<String> sources,
            List<String> cautions)
            implements Answer {}

    @Override
    protected TargetVoltageAnswer work(TargetVoltageQuestion asked, Worksheet sheet) {
        double rms;
        double watts;
        Double wanted = asked.watts();
        Double read = asked.rmsVolts();
        if (wanted != null) {
            watts = wanted;
            rms = sheet.step(
                    "effective volts are the root of watts times ohms",
                    "U = sqrt(P × R)",
                    Math.sqrt(watts * asked.ohms()),
                    "V",
                    given("P", watts, "W"),
                    given("R", asked.ohms(), "Ω"));
        } else {
            rms = Objects.requireNonNull(read, "refused by the question's constructor");
            watts = sheet.step(
                    "watts are the square of the volts by the ohms",
                    "P = U^2 / R",
                    rms * rms / asked.ohms(),
                    "W",
                    given("U", rms, "V"),
                    given("R", asked.ohms(), "Ω"));
        }
        double peak = sheet.step(
                "a sine's peak is the root of two times its effective value",
                "Up = sqrt(2) × U",
                Math.sqrt(2) * rms,
                "V",
                given("U", rms, "V"));
        return new TargetVoltageAnswer(
                rms, peak, 2 * peak, watts, sheet.assumptions(), sheet.working(), sheet.sources(), sheet.cautions());
    }
}
