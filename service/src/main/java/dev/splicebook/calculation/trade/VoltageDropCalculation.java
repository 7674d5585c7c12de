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
import dev.splicebook.electrics.Length;
import dev.splicebook.electrics.ReturnPath;
import dev.splicebook.electrics.VoltageDrop;
import dev.splicebook.electrics.VoltageDrop.Run;
import dev.splicebook.electrics.WireConductor;
import dev.splicebook.guard.Guard;
import dev.splicebook.web.Fact;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** What a run of wire takes from the volts of its load. */
@AutoService(Calculation.class)
@AboutCalculation(
        name = "voltage-drop",
        purpose =
                "How many volts a run of wire loses, what is left for the load, and what a short at its end would draw.",
        method =
                "Ohm's law over the whole way of the current, at the temperature given or at the one that the conductor"
                        + " comes to. Terminals and fuses are left out; the short is at 20 °C without the battery's own resistance.",
        sources = {
            "Ohm's law",
            WireSteps.AWG_SOURCE,
            WireSteps.RESISTANCE_SOURCE,
            WireSteps.METRIC_SOURCE,
            WireSteps.AMPACITY_SOURCE,
            WireSteps.HEATING_SOURCE
        },
        cautions = {Cautions.BATTERY, Cautions.HEAT})
public final class VoltageDropCalculation
        extends Worked<VoltageDropCalculation.VoltageDropQuestion, VoltageDropCalculation.VoltageDropAnswer> {

    /** Aluminium melts here, and no insulation is left; beyond, the figures mean nothing. */
    private static final double BURNS_CELSIUS = 660;

    public VoltageDropCalculation() {
        super(VoltageDropQuestion.class, VoltageDropAnswer.class);
    }

    /** A current in a run. */
    public record VoltageDropQuestion(
            @Fact(value = "steady current", unit = "A", least = 0.001, most = 2000)
            double currentAmps,

            @Fact("the conductor") ConductorInput conductor,
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

            @Fact(
                    value = "temperature of the conductor",
                    unit = "°C",
                    least = -60,
                    most = 250,
                    usual = "what it comes to at ambientCelsius")
            @Nullable
            Double temperatureCelsius,

            @Fact(
                    value = "air around the conductor, instead of temperatureCelsius",
                    unit = "°C",
                    least = -60,
                    most = 190,
                    usual = "30")
            @Nullable
            Double ambientCelsius,

            @Fact(value = "rating of the insulation", unit = "°C", least = 60, most = 250, usual = "105") @Nullable
            Double insulationCelsius) {

        public VoltageDropQuestion {
            Guard guard = WireSteps.longEnough(new Guard(), "length", length)
                    .refuseIf(
                            temperatureCelsius != null && ambientCelsius != null,
                            "ambientCelsius",
                            "either-or",
                            () -> "ambientCelsius stands beside temperatureCelsius; one of the two is given")
                    .refuseIf(
                            chassisOhms != null && returnPath != ReturnPath.CHASSIS,
                            "chassisOhms",
                            "inconsistent",
                            () -> "chassisOhms is given, and the current does not return by the body");
            WireSteps.coolerThanInsulation(guard, "ambientCelsius", ambientCelsius, insulationCelsius)
                    .check();
        }
    }

    /** What is lost and what is left. */
    public record VoltageDropAnswer(
            @Fact(value = "volts lost over the run", unit = "V")
            double dropVolts,

            @Fact(value = "the same of the supply", unit = "%")
            double dropPercent,

            @Fact(value = "volts left for the load", unit = "V")
            double loadVolts,

            @Fact(value = "heat in the run", unit = "W") double lossWatts,

            @Fact(value = "temperature of the conductor that this holds for", unit = "°C")
            double conductorCelsius,

            @Fact(value = "what the conductor bears for good; absent with temperatureCelsius", unit = "A") @Nullable
            Double allowableAmps,

            @Fact(value = "resistance of the run at that temperature", unit = "Ω")
            double runOhms,

            @Fact(value = "current into a short at the end of the run, at 20 °C", unit = "A")
            double shortCircuitAmps,

            List<Assumption> assumptions,
            List<Step> working,
            List<String> sources,
            List<String> cautions)
            implements Answer {}

    @Override
    protected VoltageDropAnswer work(VoltageDropQuestion asked, Worksheet sheet) {
        WireConductor conductor = asked.conductor().resolve(sheet);
        double amps = asked.currentAmps();
        double supply = WireSteps.supply(sheet, asked.supplyVolts());
        double chassis = WireSteps.chassis(sheet, asked.returnPath(), asked.chassisOhms());
        Run run = new Run(conductor, asked.length().metres(), asked.returnPath(), chassis);
        Double allowable = null;
        double celsius;
        if (asked.temperatureCelsius() == null) {
            double ambient = WireSteps.ambient(sheet, asked.ambientCelsius());
            double insulation = WireSteps.insulation(sheet, asked.insulationCelsius());
            allowable = WireSteps.allowableAmps(sheet, conductor, insulation, ambient, 1);
            celsius = WireSteps.conductorCelsius(sheet, ambient, insulation, amps, allowable);
            if (celsius > BURNS_CELSIUS) {
                throw new NoAnswerException(
                        conductor.size() + " bears " + figure(allowable) + " A; " + figure(amps)
                                + " A would take it past 660 °C, which burns any insulation.",
                        "/currentAmps",
                        "overheats",
                        figure(amps) + " A is " + figure(amps / allowable) + " times what " + conductor.size()
                                + " bears");
            }
            if (amps > allowable) {
                sheet.caution(figure(amps) + " A is above the " + figure(allowable) + " A that " + conductor.size()
                        + " bears for good: this conductor is too thin for the load, however short.");
            }
        } else {
            celsius = asked.temperatureCelsius();
        }
        VoltageDrop drop = VoltageDrop.of(run, amps, celsius, supply);
        if (drop.loadVolts() <= 0) {
            throw new NoAnswerException(
                    "The run would take " + figure(drop.dropVolts()) + " V, and the supply has " + figure(supply)
                            + " V.",
                    "/currentAmps",
                    "beyond-supply",
                    "the run of " + figure(drop.runOhms()) + " Ω lets at most " + figure(supply / drop.runOhms())
                            + " A pass");
        }
        double ohms = WireSteps.runOhms(sheet, run, celsius);
        sheet.step(
                "the drop is the current times the resistance",
                "U = I × R",
                drop.dropVolts(),
                "V",
                given("I", amps, "A"),
                given("R", ohms, "Ω"));
        sheet.step(
                "as a share of the supply",
                "p = 100 × U / Us",
                drop.dropPercent(),
                "%",
                given("U", drop.dropVolts(), "V"),
                given("Us", supply, "V"));
        sheet.step(
                "the rest is left for the load",
                "Ul = Us − U",
                drop.loadVolts(),
                "V",
                given("Us", supply, "V"),
                given("U", drop.dropVolts(), "V"));
        sheet.step(
                "the run heats by the square of the current",
                "P = I^2 × R",
                drop.lossWatts(),
                "W",
                given("I", amps, "A"),
                given("R", ohms, "Ω"));
        sheet.step(
                "a short at the end of the cold run draws the supply by its resistance",
                "Is = Us / Rc",
                drop.shortCircuitAmps(),
                "A",
                given("Us", supply, "V"),
                given("Rc", run.ohms(20), "Ω"));
        return new VoltageDropAnswer(
                drop.dropVolts(),
                drop.dropPercent(),
                drop.loadVolts(),
                drop.lossWatts(),
                celsius,
                allowable,
                drop.runOhms(),
                drop.shortCircuitAmps(),
                sheet.assumptions(),
                sheet.working(),
                sheet.sources(),
                sheet.cautions());
    }
}
