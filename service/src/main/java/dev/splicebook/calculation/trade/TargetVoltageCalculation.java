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
import dev.splicebook.electrics.Levels;
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
        method =
                "Sine tone into a resistance. Give watts for volts, or volts for watts; with a second level, the decibels"
                        + " between the two as well.",
        sources = {
            "P = U²/R of a sine's effective value, a law",
            "0 dBu is the voltage of 1 mW in 600 Ω, 0.7746 V, and 0 dBV is 1 V; after IEC 60268-17, from memory"
        },
        cautions = Cautions.HEARING)
public final class TargetVoltageCalculation
        extends Worked<TargetVoltageCalculation.TargetVoltageQuestion, TargetVoltageCalculation.TargetVoltageAnswer> {

    public TargetVoltageCalculation() {
        super(TargetVoltageQuestion.class, TargetVoltageAnswer.class);
    }

    /** Watts or volts into ohms, and a second level to compare with. */
    public record TargetVoltageQuestion(
            @Fact(value = "power wanted", unit = "W", least = 1e-6, most = 100_000) @Nullable
            Double watts,

            @Fact(value = "effective volts read", unit = "V", least = 1e-6, most = 10_000) @Nullable
            Double rmsVolts,

            @Fact(value = "load, as the amplifier sees it", unit = "Ω", least = 0.1, most = 100_000)
            double ohms,

            @Fact(value = "power to compare with, into the same load", unit = "W", least = 1e-6, most = 100_000)
            @Nullable
            Double referenceWatts,

            @Fact(value = "effective volts to compare with", unit = "V", least = 1e-6, most = 10_000) @Nullable
            Double referenceRmsVolts) {

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
                    .refuseIf(
                            referenceWatts != null && referenceRmsVolts != null,
                            "referenceRmsVolts",
                            "either-or",
                            () -> "referenceRmsVolts stands beside referenceWatts; one of the two is given")
                    .check();
        }
    }

    /** Volts and watts that belong together. */
    public record TargetVoltageAnswer(
            @Fact(value = "effective volts, what a true-rms meter shows", unit = "V")
            double rmsVolts,

            @Fact(value = "peak volts", unit = "V") double peakVolts,

            @Fact(value = "peak-to-peak volts, what an oscilloscope shows", unit = "V")
            double peakToPeakVolts,

            @Fact(value = "power", unit = "W") double watts,
            @Fact(value = "effective current", unit = "A") double rmsAmps,

            @Fact(value = "level above 0.7746 V", unit = "dBu")
            double dbu,

            @Fact(value = "level above 1 V", unit = "dBV") double dbv,

            @Fact(value = "level above the one to compare with; absent where none is given", unit = "dB") @Nullable
            Double decibels,

            List<Assumption> assumptions,
            List<Step> working,
            List<String> sources,
            List<String> cautions)
            implements Answer {}

    @Override
    protected TargetVoltageAnswer work(TargetVoltageQuestion asked, Worksheet sheet) {
        double ohms = asked.ohms();
        Double wanted = asked.watts();
        double rms = wanted == null
                ? Objects.requireNonNull(asked.rmsVolts(), "refused by the question's constructor")
                : rmsVolts(sheet, "U", wanted, ohms);
        double watts = wanted != null
                ? wanted
                : sheet.step(
                        "watts are the square of the volts by the ohms",
                        "P = U^2 / R",
                        Levels.watts(rms, ohms),
                        "W",
                        given("U", rms, "V"),
                        given("R", ohms, "Ω"));
        double peak = sheet.step(
                "a sine's peak is the root of two times its effective value",
                "Up = sqrt(2) × U",
                Levels.peakVolts(rms),
                "V",
                given("U", rms, "V"));
        double peakToPeak = sheet.step(
                "from crest to trough it is twice the peak",
                "Upp = 2 × Up",
                Levels.peakToPeakVolts(rms),
                "V",
                given("Up", peak, "V"));
        double dbu = sheet.step(
                "the level above 0.7746 V",
                "Lu = 20 × log10(U / 0.7745966692)",
                Levels.dbu(rms),
                "dBu",
                given("U", rms, "V"));
        double dbv =
                sheet.step("the level above 1 V", "Lv = 20 × log10(U)", Levels.dbv(rms), "dBV", given("U", rms, "V"));
        Double decibels = decibels(asked, rms, sheet);
        return new TargetVoltageAnswer(
                rms,
                peak,
                peakToPeak,
                watts,
                rms / ohms,
                dbu,
                dbv,
                decibels,
                sheet.assumptions(),
                sheet.working(),
                sheet.sources(),
                sheet.cautions());
    }

    private static @Nullable Double decibels(TargetVoltageQuestion asked, double rms, Worksheet sheet) {
        Double referenceWatts = asked.referenceWatts();
        Double reference = asked.referenceRmsVolts();
        if (referenceWatts != null) {
            reference = rmsVolts(sheet, "Uref", referenceWatts, asked.ohms());
        }
        return reference == null
                ? null
                : sheet.step(
                        "decibels between two voltages are 20 times the logarithm of their ratio",
                        "L = 20 × log10(U / Uref)",
                        Levels.decibelsOfVolts(rms, reference),
                        "dB",
                        given("U", rms, "V"),
                        given("Uref", reference, "V"));
    }

    private static double rmsVolts(Worksheet sheet, String symbol, double watts, double ohms) {
        return sheet.step(
                "effective volts are the root of watts times ohms",
                symbol + " = sqrt(P × R)",
                Levels.rmsVolts(watts, ohms),
                "V",
                given("P", watts, "W"),
                given("R", ohms, "Ω"));
    }
}
