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
import dev.splicebook.electrics.ChargingBalance;
import dev.splicebook.electrics.ChargingBalance.Battery;
import dev.splicebook.electrics.ChargingBalance.Load;
import dev.splicebook.electrics.ChargingBalance.Phase;
import dev.splicebook.electrics.ChargingBalance.Piece;
import dev.splicebook.electrics.ChargingBalance.Shedding;
import dev.splicebook.electrics.LeadAcidBattery;
import dev.splicebook.guard.Guard;
import dev.splicebook.web.Fact;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** Whether an alternator keeps up with its loads. */
@AutoService(Calculation.class)
@AboutCalculation(
        name = "charging-balance",
        purpose =
                "Whether the alternator keeps up with the loads at idle, cruising and on the whole, how fast the battery"
                        + " charges or drains, and what to shed.",
        method =
                "Balance is output less the loads by their duty. A deficit comes out of the battery in full; of a surplus it"
                        + " takes what it accepts, all of it up to 80 % of charge and from there in proportion to what is missing, and"
                        + " stores its efficiency's share. 99 % counts as full. Loads are shed by priority, the least first, and none in"
                        + " vain. Battery temperature and the current's own effect on capacity are left out.",
        sources = {
            "charge is current over time: a law",
            "open-circuit volts by charge, 11.90 to 12.70 V, and the battery's acceptance: common practice, no source"
        },
        cautions = Cautions.BATTERY)
public final class ChargingBalanceCalculation
        extends Worked<
                ChargingBalanceCalculation.ChargingBalanceQuestion, ChargingBalanceCalculation.ChargingBalanceAnswer> {

    /** A setpoint below this hardly charges a lead-acid battery: common practice, no source. */
    private static final double LEAST_CHARGING_VOLTS = 13.2;

    /** Charge at which a starter battery may no longer start: common practice, no source. */
    private static final double LOW_CHARGE = 0.5;

    public ChargingBalanceCalculation() {
        super(ChargingBalanceQuestion.class, ChargingBalanceAnswer.class);
    }

    /** Output, loads and battery. */
    public record ChargingBalanceQuestion(
            @Fact(value = "alternator output at idle, hot", unit = "A", least = 0, most = 1000) @Nullable
            Double idleAmps,

            @Fact(value = "alternator output while cruising", unit = "A", least = 0, most = 1000) @Nullable
            Double cruiseAmps,

            @Fact("in place of these: what a charging control varies between") @Nullable
            SmartChargingRange smartCharging,

            @Fact(value = "loads of the running vehicle", leastEntries = 1, mostEntries = 60)
            List<RunningLoad> loads,

            @Fact(value = "share of the time spent idling", least = 0, most = 1, usual = "0.3") @Nullable
            Double idlingShare,

            @Fact(value = "capacity of the battery", unit = "Ah", least = 1, most = 1000, usual = "60") @Nullable
            Double batteryAmpereHours,

            @Fact(value = "charge of the battery, 1 being full", least = 0, most = 1, usual = "0.8") @Nullable
            Double charge,

            @Fact(
                    value = "most that the battery accepts",
                    unit = "A",
                    least = 0.1,
                    most = 1000,
                    usual = "a quarter of its ampere-hours")
            @Nullable
            Double acceptanceAmps,

            @Fact(value = "share of the charge put in that the battery stores", least = 0.3, most = 1, usual = "0.85")
            @Nullable
            Double chargeEfficiency,

            @Fact(
                    value = "charge to be reached, above or below; or targetVolts",
                    least = 0,
                    most = 1,
                    usual = "0.99, which counts as full, in surplus; 0.5 in deficit")
            @Nullable
            Double targetCharge,

            @Fact(
                    value = "rested open-circuit volts to be reached; or targetCharge",
                    unit = "V",
                    least = 11.9,
                    most = 12.7)
            @Nullable
            Double targetVolts) {

        public ChargingBalanceQuestion {
            loads = List.copyOf(loads);
            Guard guard = new Guard();
            Either.one(guard, "idleAmps", idleAmps == null ? cruiseAmps : idleAmps, "smartCharging", smartCharging);
            Either.needs(guard, "cruiseAmps", cruiseAmps, "idleAmps", idleAmps);
            Either.needs(guard, "idleAmps", idleAmps, "cruiseAmps", cruiseAmps);
            Either.atMostOne(guard, "smartCharging", smartCharging, "idlingShare", idlingShare);
            Either.atMostOne(guard, "targetCharge", targetCharge, "targetVolts", targetVolts);
            guard.check();
        }
    }

    /** What a charging control varies between, at its lowest and its highest setpoint. */
    public record SmartChargingRange(
            @Fact(value = "output at the lowest setpoint", unit = "A", least = 0, most = 1000)
            double leastAmps,

            @Fact(value = "output at the highest setpoint", unit = "A", least = 0, most = 1000)
            double mostAmps,

            @Fact(value = "lowest setpoint", unit = "V", least = 10, most = 18)
            double leastVolts,

            @Fact(value = "highest setpoint", unit = "V", least = 10, most = 18)
            double mostVolts,

            @Fact(value = "share of the time at the highest setpoint", least = 0, most = 1, usual = "0.5") @Nullable
            Double shareAtMost) {

        public SmartChargingRange {
            new Guard()
                    .notAbove("leastAmps", leastAmps, "mostAmps", mostAmps)
                    .notAbove("leastVolts", leastVolts, "mostVolts", mostVolts)
                    .check();
        }
    }

    /** A load of the running vehicle. */
    public record RunningLoad(
            @Fact("what it is") String name,

            @Fact(value = "current while on", unit = "A", least = 0, most = 1000)
            double amps,

            @Fact(value = "share of the time that it is on", least = 0, most = 1, usual = "1") @Nullable
            Double duty,

            @Fact(value = "whether it may be turned off", usual = "true where a priority is given") @Nullable
            Boolean sheddable,

            @Fact(value = "the higher the longer it is kept", least = 0, most = 1000, usual = "0") @Nullable
            Integer priority) {}

    /** How charge and loads stand. */
    public enum ChargeVerdict {
        SURPLUS,
        DEFICIT_AT_IDLE,
        DEFICIT
    }

    /** Balances, times, and what to shed. */
    public record ChargingBalanceAnswer(
            @Fact("surplus in every part of the time, deficit-at-idle (made good on the whole), or deficit")
            ChargeVerdict verdict,

            @Fact(value = "loads by their duty", unit = "A") double loadAmps,

            @Fact(value = "surplus at idle, a deficit if negative", unit = "A") @Nullable
            Double idleBalanceAmps,

            @Fact(value = "surplus while cruising, a deficit if negative", unit = "A") @Nullable
            Double cruiseBalanceAmps,

            @Fact(value = "surplus at the lowest setpoint, a deficit if negative", unit = "A") @Nullable
            Double leastBalanceAmps,

            @Fact(value = "surplus at the highest setpoint, a deficit if negative", unit = "A") @Nullable
            Double mostBalanceAmps,

            @Fact(value = "surplus on the whole, a deficit if negative", unit = "A")
            double meanBalanceAmps,

            @Fact(value = "what the battery's charge gains at present, a loss if negative", unit = "A")
            double storedAmps,

            @Fact("charge at which gains and losses meet in the long run: 0 if it only loses, 1 if it only gains")
            double restingCharge,

            @Fact("charge to be reached, 1 being full") double targetCharge,

            @Fact(value = "open-circuit volts of the rested battery at that charge", unit = "V")
            double targetVolts,

            @Fact(value = "minutes until it is reached; absent if it is not", unit = "min") @Nullable
            Double minutes,

            @Fact(
                    value = "minutes of idling alone until the charge asked for, else until full or, in deficit, half"
                            + " full; absent if that is not reached",
                    unit = "min")
            @Nullable
            Double idlingMinutes,

            @Fact(value = "the same of cruising alone", unit = "min") @Nullable
            Double cruisingMinutes,

            @Fact("loads to turn off so that the whole is no deficit, the least important first")
            List<LoadToShed> shed,

            @Fact(value = "deficit on the whole that is left then", unit = "A")
            double remainingDeficitAmps,

            @Fact("loads to turn off so that idling, or the lowest setpoint, is no deficit")
            List<LoadToShed> shedAtIdle,

            @Fact(value = "deficit at idle, or at the lowest setpoint, that is left then", unit = "A")
            double remainingIdleDeficitAmps,

            List<Assumption> assumptions,
            List<Step> working,
            List<String> sources,
            List<String> cautions)
            implements Answer {}

    /** A load to turn off. */
    public record LoadToShed(
            @Fact("which") String name,
            @Fact(value = "what that brings", unit = "A") double meanAmps,
            @Fact("its priority") int priority) {

        static List<LoadToShed> of(Shedding shedding) {
            return shedding.loads().stream()
                    .map(load -> new LoadToShed(load.name(), load.meanAmps(), load.priority()))
                    .toList();
        }
    }

    @Override
    protected ChargingBalanceAnswer work(ChargingBalanceQuestion asked, Worksheet sheet) {
        List<Load> loads = loads(asked, sheet);
        double load = loadAmps(loads, sheet);
        @Nullable SmartChargingRange smart = asked.smartCharging();
        boolean varies = smart != null;
        double lowOutput = smart == null ? output(asked.idleAmps()) : smart.leastAmps();
        double highOutput = smart == null ? output(asked.cruiseAmps()) : smart.mostAmps();
        double lowShare = smart == null
                ? sheet.orAssume(
                        asked.idlingShare(),
                        "idlingShare",
                        0.3,
                        "",
                        "town and country mixed: common practice, no source")
                : 1 - sheet.orAssume(smart.shareAtMost(), "smartCharging.shareAtMost", 0.5, "", "half of the time");
        double low = balance(varies ? "at the lowest setpoint" : "at idle", "B1", lowOutput, load, sheet);
        double high = balance(varies ? "at the highest setpoint" : "while cruising", "B2", highOutput, load, sheet);
        List<Phase> phases = List.of(new Phase(low, lowShare), new Phase(high, 1 - lowShare));
        double mean = sheet.step(
                "balance on the whole: each by its share of the time",
                "B = p × B1 + (1 - p) × B2",
                ChargingBalance.meanAmps(phases),
                "A",
                given("p", lowShare, ""),
                given("B1", low, "A"),
                given("B2", high, "A"));

        Battery battery = battery(asked, sheet);
        double charge =
                sheet.orAssume(asked.charge(), "charge", 0.8, "", "a battery in use: common practice, no source");
        double stored = ChargingBalance.storedAmps(phases, battery, charge);
        double target = target(asked, stored, sheet);
        Optional<List<Piece>> pieces = ChargingBalance.pieces(phases, battery, charge, target);
        pieces.ifPresent(all -> show(all, battery, sheet));

        boolean drains = ChargingBalance.storedAmps(phases, battery, 0) < -1e-9;
        if (drains && mean >= 0) {
            sheet.caution(
                    "There is output enough on the whole, but the battery does not take it fast enough to make good what"
                            + " idling takes.");
        }
        if (smart != null && smart.leastVolts() < LEAST_CHARGING_VOLTS) {
            sheet.caution(
                    "At its lowest setpoint the control lets the battery drain on purpose: added equipment must bear"
                            + " that voltage, and its ground belongs on the vehicle's side of the battery sensor.");
        }
        Shedding shedding = ChargingBalance.shed(loads, -mean);
        Shedding atIdle = ChargingBalance.shed(loads, -low);
        return new ChargingBalanceAnswer(
                drains || mean < -1e-9
                        ? ChargeVerdict.DEFICIT
                        : Math.min(low, high) < -1e-9 ? ChargeVerdict.DEFICIT_AT_IDLE : ChargeVerdict.SURPLUS,
                load,
                varies ? null : low,
                varies ? null : high,
                varies ? low : null,
                varies ? high : null,
                mean,
                stored,
                ChargingBalance.restingCharge(phases, battery),
                target,
                LeadAcidBattery.openCircuitVolts(target),
                pieces.map(ChargingBalanceCalculation::minutes).orElse(null),
                varies ? null : alone(low, asked, battery, charge),
                varies ? null : alone(high, asked, battery, charge),
                LoadToShed.of(shedding),
                shedding.remainingAmps(),
                LoadToShed.of(atIdle),
                atIdle.remainingAmps(),
                sheet.assumptions(),
                sheet.working(),
                sheet.sources(),
                sheet.cautions());
    }

    /** The question guards that an output is there where no control is. */
    private static double output(@Nullable Double amps) {
        return amps == null ? 0 : amps;
    }

    private static List<Load> loads(ChargingBalanceQuestion asked, Worksheet sheet) {
        if (asked.loads().stream().anyMatch(load -> load.duty() == null)) {
            sheet.assume("loads[].duty", 1, "", "a load without a duty is on all the time");
        }
        if (asked.loads().stream().anyMatch(load -> load.sheddable() == null)) {
            sheet.assume("loads[].sheddable", "by priority", "a load may be turned off where it has a priority");
        }
        return asked.loads().stream()
                .map(load -> new Load(
                        load.name(),
                        load.amps(),
                        load.duty() == null ? 1 : load.duty(),
                        load.sheddable() == null ? load.priority() != null : load.sheddable(),
                        load.priority() == null ? 0 : load.priority()))
                .toList();
    }

    private static double loadAmps(List<Load> loads, Worksheet sheet) {
        StringBuilder formula = new StringBuilder("I = ");
        List<Step.Given> numbers = new ArrayList<>();
        for (int index = 0; index < loads.size(); index++) {
            String number = Integer.toString(index + 1);
            formula.append(index == 0 ? "" : " + ").append("I" + number + " × d" + number);
            numbers.add(given("I" + number, loads.get(index).amps(), "A"));
            numbers.add(given("d" + number, loads.get(index).duty(), ""));
        }
        return sheet.step(
                "the loads, each by its duty",
                formula.toString(),
                ChargingBalance.loadAmps(loads),
                "A",
                numbers.toArray(Step.Given[]::new));
    }

    private static double balance(String when, String symbol, double output, double load, Worksheet sheet) {
        return sheet.step(
                "balance " + when + ": output less loads",
                symbol + " = G - I",
                ChargingBalance.balanceAmps(output, load),
                "A",
                given("G", output, "A"),
                given("I", load, "A"));
    }

    private static Battery battery(ChargingBalanceQuestion asked, Worksheet sheet) {
        double ampereHours =
                sheet.orAssume(asked.batteryAmpereHours(), "batteryAmpereHours", 60, "Ah", "a usual starter battery");
        return new Battery(
                ampereHours,
                sheet.orAssume(
                        asked.acceptanceAmps(),
                        "acceptanceAmps",
                        ampereHours / 4,
                        "A",
                        "a quarter of its ampere-hours: common practice, no source"),
                sheet.orAssume(
                        asked.chargeEfficiency(), "chargeEfficiency", 0.85, "", "of lead-acid batteries, from memory"));
    }

    private static double target(ChargingBalanceQuestion asked, double stored, Worksheet sheet) {
        @Nullable Double wanted = wanted(asked);
        if (wanted != null && wanted > ChargingBalance.FULL_CHARGE) {
            return sheet.assume(
                    "targetCharge",
                    ChargingBalance.FULL_CHARGE,
                    "",
                    "counts as full: a battery never gets quite there");
        }
        return stored < 0
                ? sheet.orAssume(
                        wanted,
                        "targetCharge",
                        LOW_CHARGE,
                        "",
                        "the vehicle may not start below: common practice, no source")
                : sheet.orAssume(wanted, "targetCharge", ChargingBalance.FULL_CHARGE, "", "counts as full");
    }

    private static @Nullable Double wanted(ChargingBalanceQuestion asked) {
        @Nullable Double volts = asked.targetVolts();
        return volts == null ? asked.targetCharge() : Double.valueOf(LeadAcidBattery.chargeAt(volts));
    }

    private static void show(List<Piece> pieces, Battery battery, Worksheet sheet) {
        for (int index = 0; index < pieces.size(); index++) {
            Piece piece = pieces.get(index);
            // rates that are nearly the same would only show as a difference of rounded figures
            boolean steady = Math.abs(piece.fromAmps() - piece.toAmps()) < 1e-4 * Math.abs(piece.fromAmps());
            sheet.step(
                    "minutes from charge q1 to q2, the battery gaining a at the beginning and b at the end",
                    "t" + (index + 1)
                            + (steady
                                    ? " = 60 × C × (q2 - q1) / ((a + b) / 2)"
                                    : " = 60 × C × (q2 - q1) × ln(a / b) / (a - b)"),
                    piece.minutes(),
                    "min",
                    given("C", battery.ampereHours(), "Ah"),
                    given("q1", piece.fromCharge(), ""),
                    given("q2", piece.toCharge(), ""),
                    given("a", piece.fromAmps(), "A"),
                    given("b", piece.toAmps(), "A"));
        }
    }

    private static double minutes(List<Piece> pieces) {
        return pieces.stream().mapToDouble(Piece::minutes).sum();
    }

    /** Minutes in one part of the time alone; without a target until full, or in deficit until half a charge is left. */
    private static @Nullable Double alone(
            double balanceAmps, ChargingBalanceQuestion asked, Battery battery, double charge) {
        @Nullable Double wanted = wanted(asked);
        double usual = balanceAmps < 0 ? LOW_CHARGE : ChargingBalance.FULL_CHARGE;
        double target = wanted == null ? usual : Math.min(wanted, ChargingBalance.FULL_CHARGE);
        return ChargingBalance.pieces(List.of(new Phase(balanceAmps, 1)), battery, charge, target)
                .map(ChargingBalanceCalculation::minutes)
                .orElse(null);
    }
}
