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
import dev.splicebook.electrics.FuseResistance;
import dev.splicebook.electrics.LeadAcidBattery;
import dev.splicebook.electrics.ParasiticDraw;
import dev.splicebook.electrics.ParasiticDraw.DrawVerdict;
import dev.splicebook.guard.Guard;
import dev.splicebook.web.Fact;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** What a vehicle asleep draws, and how long it may stand. */
@AutoService(Calculation.class)
@AboutCalculation(
        name = "parasitic-draw",
        purpose =
                "What a vehicle draws asleep, how many days it may stand before it does not start, and which entry is out of"
                        + " the ordinary.",
        method =
                "The entries are summed; a drop across a fuse is turned into its current by the fuse's cold resistance. The"
                        + " charge falls by the draw and by self-discharge until what may be taken is gone; cold leaves less to take."
                        + " An entry is out of the ordinary above 1.5 times its usual draw and by more than 1 mA, or above 25 mA where"
                        + " no usual draw is known. Reserve minutes count as ampere-hours at 25 A, fewer than at a slow draw.",
        sources = {
            "service literature: 25 to 50 mA are usual once the modules sleep",
            "blade fuse cold resistance, 7.70 mΩ at 10 A and 3.38 mΩ at 20 A: a secondary copy of a maker's table",
            "SAE J537: reserve capacity is minutes at 25 A",
            "self-discharge, its doubling per 10 K, 0.8 % of capacity per kelvin of cold: from memory"
        },
        cautions = {Cautions.BATTERY, Cautions.AIRBAG})
public final class ParasiticDrawCalculation
        extends Worked<ParasiticDrawCalculation.ParasiticDrawQuestion, ParasiticDrawCalculation.ParasiticDrawAnswer> {

    public ParasiticDrawCalculation() {
        super(ParasiticDrawQuestion.class, ParasiticDrawAnswer.class);
    }

    /** Loads or fuses, and the battery. */
    public record ParasiticDrawQuestion(
            @Fact(value = "loads asleep; or fuses", mostEntries = 60)
            List<SleepingLoad> loads,

            @Fact(value = "drops read across fuses; or loads", mostEntries = 60)
            List<FuseDrop> fuses,

            @Fact(
                    value = "reserve capacity of the battery: minutes at 25 A; or ampereHours",
                    unit = "min",
                    least = 1,
                    most = 2000)
            @Nullable
            Double reserveMinutes,

            @Fact(
                    value = "capacity of the battery; or reserveMinutes",
                    unit = "Ah",
                    least = 0.5,
                    most = 2000,
                    usual = "60")
            @Nullable
            Double ampereHours,

            @Fact(
                    value = "share of a full charge that may be gone for a start at 27 °C and above",
                    least = 0.05,
                    most = 1,
                    usual = "0.5")
            @Nullable
            Double allowedDischargeShare,

            @Fact(value = "charge when the vehicle is parked, 1 being full", least = 0, most = 1, usual = "1") @Nullable
            Double startCharge,

            @Fact(
                    value = "share of its charge that the battery loses by itself in a month at 25 °C",
                    least = 0,
                    most = 0.5,
                    usual = "0.05")
            @Nullable
            Double selfDischargePerMonth,

            @Fact(value = "temperature of the battery", unit = "°C", least = -40, most = 70, usual = "25") @Nullable
            Double celsius) {

        public ParasiticDrawQuestion {
            loads = List.copyOf(loads);
            fuses = List.copyOf(fuses);
            Guard guard = new Guard();
            Either.one(guard, "loads", loads.isEmpty() ? null : loads, "fuses", fuses.isEmpty() ? null : fuses);
            Either.atMostOne(guard, "reserveMinutes", reserveMinutes, "ampereHours", ampereHours);
            guard.check();
        }
    }

    /** A load asleep. */
    public record SleepingLoad(
            @Fact("what it is") String name,

            @Fact(value = "drawn asleep", unit = "mA", least = 0, most = 100_000)
            double milliamps,

            @Fact(value = "what it usually draws asleep", unit = "mA", least = 0, most = 100_000) @Nullable
            Double usualMilliamps) {}

    /** A reading across a fuse. */
    public record FuseDrop(
            @Fact(value = "what it feeds, or its place", usual = "its number in the list") @Nullable
            String name,

            @Fact(value = "rating of the fuse", unit = "A", least = 1, most = 100)
            double ratingAmps,

            @Fact(value = "drop across it", unit = "mV", least = 0, most = 100)
            double millivolts,

            @Fact(
                    value = "its cold resistance",
                    unit = "mΩ",
                    least = 0.1,
                    most = 500,
                    usual = "7.70 at 10 A, 3.38 at 20 A, otherwise an estimate")
            @Nullable
            Double milliohms,

            @Fact(value = "what usually flows through it asleep", unit = "mA", least = 0, most = 100_000) @Nullable
            Double usualMilliamps) {}

    /** The draw and how long it may last. */
    public record ParasiticDrawAnswer(
            @Fact(value = "draw in all", unit = "mA") double milliamps,

            @Fact("below-usual, usual (25 to 50 mA) or excessive")
            DrawVerdict verdict,

            @Fact("the entries, in the order given") List<SleepingEntry> entries,

            @Fact("names of the entries that are out of the ordinary")
            List<String> outOfOrdinary,

            @Fact(value = "capacity that was counted with", unit = "Ah")
            double ampereHours,

            @Fact("charge below which the vehicle may not start, 1 being full")
            double leastCharge,

            @Fact(value = "days until then; absent if nothing is drawn", unit = "d") @Nullable
            Double days,

            List<Assumption> assumptions,
            List<Step> working,
            List<String> sources,
            List<String> cautions)
            implements Answer {}

    /** One entry of a draw. */
    public record SleepingEntry(
            @Fact("what it is") String name,
            @Fact(value = "drawn asleep", unit = "mA") double milliamps,
            @Fact("share of the whole") double share,
            @Fact("whether it is out of the ordinary") boolean outOfOrdinary) {}

    @Override
    protected ParasiticDrawAnswer work(ParasiticDrawQuestion asked, Worksheet sheet) {
        List<ParasiticDraw.Load> loads = loads(asked, sheet);
        double milliamps = total(loads, sheet);
        double ampereHours = ampereHours(asked, sheet);
        double celsius = sheet.orAssume(asked.celsius(), "celsius", 25, "°C", "temperature of the battery");
        double allowed = sheet.orAssume(
                asked.allowedDischargeShare(),
                "allowedDischargeShare",
                0.5,
                "",
                "half a charge is left for a start: common practice, no source");
        double startCharge = sheet.orAssume(asked.startCharge(), "startCharge", 1, "", "the vehicle is parked full");
        double monthly = sheet.orAssume(
                asked.selfDischargePerMonth(), "selfDischargePerMonth", 0.05, "", "at 25 °C, from memory");

        double factor = sheet.step(
                "the cold leaves less: 0.8 % for each kelvin below 27 °C, at least 30 % stays",
                "f = max(0.3, min(1, 1 - 0.008 × (27 - T)))",
                LeadAcidBattery.capacityFactor(celsius),
                "",
                given("T", celsius, "°C"));
        double leastCharge = sheet.step(
                "the vehicle may not start once what may be gone is gone",
                "q1 = 1 - a × f",
                1 - allowed * factor,
                "",
                given("a", allowed, ""),
                given("f", factor, ""));
        double drawPerDay = sheet.step(
                "share of the capacity that the draw takes in a day",
                "d = I / 1000 × 24 / C",
                ParasiticDraw.drawPerDay(milliamps, ampereHours),
                "",
                given("I", milliamps, "mA"),
                given("C", ampereHours, "Ah"));
        double selfPerDay = sheet.step(
                "share of its charge that the battery loses by itself in a day, twice as fast for every 10 K",
                "s = -ln(1 - m) / 30.4375 × 2^((T - 25) / 10)",
                ParasiticDraw.selfDischargePerDay(monthly) * LeadAcidBattery.selfDischargeFactor(celsius),
                "",
                given("m", monthly, ""),
                given("T", celsius, "°C"));
        @Nullable Double days = days(startCharge, leastCharge, drawPerDay, selfPerDay, sheet);
        if (ParasiticDraw.judge(milliamps) == DrawVerdict.EXCESSIVE) {
            sheet.caution("Modules may take more than an hour to fall asleep, and wake when a door or a meter's lead is"
                    + " moved: read again before a part is blamed.");
        }
        return new ParasiticDrawAnswer(
                milliamps,
                ParasiticDraw.judge(milliamps),
                loads.stream()
                        .map(load -> new SleepingEntry(
                                load.name(),
                                load.milliamps(),
                                milliamps > 0 ? load.milliamps() / milliamps : 0,
                                load.isOutOfOrdinary()))
                        .toList(),
                loads.stream()
                        .filter(ParasiticDraw.Load::isOutOfOrdinary)
                        .map(ParasiticDraw.Load::name)
                        .toList(),
                ampereHours,
                leastCharge,
                days,
                sheet.assumptions(),
                sheet.working(),
                sheet.sources(),
                sheet.cautions());
    }

    private static List<ParasiticDraw.Load> loads(ParasiticDrawQuestion asked, Worksheet sheet) {
        List<ParasiticDraw.Load> loads = new ArrayList<>();
        for (SleepingLoad load : asked.loads()) {
            loads.add(new ParasiticDraw.Load(load.name(), load.milliamps(), load.usualMilliamps()));
        }
        for (int index = 0; index < asked.fuses().size(); index++) {
            FuseDrop fuse = asked.fuses().get(index);
            String name = fuse.name() == null ? "fuse " + (index + 1) : fuse.name();
            double milliohms = fuse.milliohms() == null ? milliohms(fuse.ratingAmps(), index, sheet) : fuse.milliohms();
            double milliamps = sheet.step(
                    "current through " + name + ": its drop by its resistance",
                    "I" + (index + 1) + " = 1000 × U / R",
                    1000 * FuseResistance.amps(fuse.millivolts(), milliohms),
                    "mA",
                    given("U", fuse.millivolts(), "mV"),
                    given("R", milliohms, "mΩ"));
            if (milliamps > 1000 * fuse.ratingAmps()) {
                sheet.caution(
                        "A drop that means more than a fuse's rating is no reading of a sound fuse: it is blown, or the"
                                + " meter's leads do not touch it.");
            }
            loads.add(new ParasiticDraw.Load(name, milliamps, fuse.usualMilliamps()));
        }
        return loads;
    }

    private static double milliohms(double ratingAmps, int index, Worksheet sheet) {
        boolean published = FuseResistance.isPublished(ratingAmps);
        if (!published) {
            sheet.caution(
                    "The resistance of a fuse that is not 10 or 20 A is an estimate: compare with a clamp meter.");
        }
        return sheet.assume(
                "fuses[" + index + "].milliohms",
                1000 * FuseResistance.coldOhms(ratingAmps),
                "mΩ",
                published
                        ? "published for this rating, in a secondary copy"
                        : "estimated: k / amps^p through the published 10 and 20 A");
    }

    private static double total(List<ParasiticDraw.Load> loads, Worksheet sheet) {
        StringBuilder formula = new StringBuilder("I = ");
        Step.Given[] numbers = new Step.Given[loads.size()];
        for (int index = 0; index < numbers.length; index++) {
            formula.append(index == 0 ? "" : " + ").append('I').append(index + 1);
            numbers[index] = given("I" + (index + 1), loads.get(index).milliamps(), "mA");
        }
        return sheet.step(
                "the draw is the sum of the entries",
                formula.toString(),
                ParasiticDraw.totalMilliamps(loads),
                "mA",
                numbers);
    }

    private static double ampereHours(ParasiticDrawQuestion asked, Worksheet sheet) {
        @Nullable Double reserve = asked.reserveMinutes();
        if (reserve == null) {
            return sheet.orAssume(asked.ampereHours(), "ampereHours", 60, "Ah", "a usual starter battery");
        }
        return sheet.step(
                "ampere-hours of the reserve capacity: 25 A for its minutes",
                "C = 25 × t / 60",
                LeadAcidBattery.ampereHours(LeadAcidBattery.RESERVE_AMPS, reserve),
                "Ah",
                given("t", reserve, "min"));
    }

    private static @Nullable Double days(
            double startCharge, double leastCharge, double drawPerDay, double selfPerDay, Worksheet sheet) {
        double days = ParasiticDraw.days(startCharge, leastCharge, drawPerDay, selfPerDay);
        if (days == 0) {
            sheet.caution("The battery is too low for a start already.");
            return 0.0;
        }
        if (Double.isInfinite(days)) {
            return null;
        }
        // a self-discharge that hardly counts would only show as a difference of rounded figures
        boolean steady = selfPerDay * (startCharge - leastCharge) < 1e-6 * (drawPerDay + selfPerDay * leastCharge);
        return sheet.step(
                steady
                        ? "days until then at a steady rate"
                        : "days until then: draw and self-discharge together, the latter falling with the charge",
                steady ? "t = (q0 - q1) / (d + s × q1)" : "t = ln((d + s × q0) / (d + s × q1)) / s",
                days,
                "d",
                given("q0", startCharge, ""),
                given("q1", leastCharge, ""),
                given("d", drawPerDay, ""),
                given("s", selfPerDay, ""));
    }
}
