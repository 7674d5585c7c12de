package dev.splicebook.calculation.trade;

import static dev.splicebook.calculation.Worksheet.given;

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
import dev.splicebook.electrics.LeadAcidBattery;
import dev.splicebook.electrics.Peukert;
import dev.splicebook.guard.Guard;
import dev.splicebook.guard.Invalid;
import dev.splicebook.web.Fact;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** How long a battery bears a load, from two points of its discharge. */
@AutoService(Calculation.class)
@AboutCalculation(
        name = "battery-reserve",
        purpose =
                "How many minutes a battery bears a load, from its reserve capacity and its 20-hour rate, or from any two"
                        + " discharge points.",
        method =
                "Peukert's law, I1^k · t1 = I2^k · t2, through two points. The reserve capacity is a point at 25 A, the 20-hour"
                        + " rate one of 1200 min. It holds for a charged battery at rated temperature and down to the same end"
                        + " voltage, 10.5 V; cold, age and the pulses of cranking are left out.",
        sources = {
            "SAE J537: reserve capacity is minutes at 25 A to 10.5 V at 27 °C",
            "Peukert's law, and the exponents of 1.05 to 1.6 that starter batteries have: from memory"
        },
        cautions = Cautions.BATTERY)
public final class BatteryReserveCalculation
        extends Worked<
                BatteryReserveCalculation.BatteryReserveQuestion, BatteryReserveCalculation.BatteryReserveAnswer> {

    private static final double TWENTY_HOURS_MINUTES = 1200;

    /** Exponents above this are rare enough to doubt the figures; from memory. */
    private static final double DOUBTFUL_EXPONENT = 1.6;

    /** Beyond the points by this factor the law is stretched: common practice, no source. */
    private static final double STRETCHED_TIMES = 2;

    public BatteryReserveCalculation() {
        super(BatteryReserveQuestion.class, BatteryReserveAnswer.class);
    }

    /** Two points of a discharge, and the load. */
    public record BatteryReserveQuestion(
            @Fact(value = "reserve capacity: minutes at 25 A", unit = "min", least = 1, most = 2000) @Nullable
            Double reserveMinutes,

            @Fact(value = "capacity at the 20-hour rate", unit = "Ah", least = 0.5, most = 2000) @Nullable
            Double ampereHours20,

            @Fact(value = "discharge points, in place of one or both of these", mostEntries = 2)
            List<DischargePoint> points,

            @Fact(value = "steady load to be borne", unit = "A", least = 0.01, most = 2000) @Nullable
            Double loadAmps) {

        public BatteryReserveQuestion {
            points = List.copyOf(points);
            int count = points.size() + (reserveMinutes == null ? 0 : 1) + (ampereHours20 == null ? 0 : 1);
            String missing = reserveMinutes == null && points.isEmpty() ? "reserveMinutes" : "ampereHours20";
            new Guard()
                    .refuseIf(
                            count < 2,
                            missing,
                            "missing-field",
                            () -> missing
                                    + " is missing; reserveMinutes with ampereHours20, or two points in all, are given")
                    .refuseIf(
                            count > 2,
                            "points",
                            "either-or",
                            () -> "points and the capacities make " + count + " points; two are given")
                    .check();
        }
    }

    /** A current, and how long the charged battery bears it. */
    public record DischargePoint(
            @Fact(value = "steady current", unit = "A", least = 0.01, most = 2000)
            double amps,

            @Fact(value = "time to the end voltage", unit = "min", least = 0.1, most = 100_000)
            double minutes) {}

    /** The exponent and what follows. */
    public record BatteryReserveAnswer(
            @Fact("Peukert's exponent; 1 would be a battery without losses")
            double exponent,

            @Fact(value = "minutes at the load", unit = "min") @Nullable
            Double loadMinutes,

            @Fact(value = "ampere-hours that the load gets", unit = "Ah") @Nullable
            Double loadAmpereHours,

            @Fact(value = "minutes at 25 A, given or by the law", unit = "min")
            double reserveMinutes,

            @Fact(value = "ampere-hours that 25 A get", unit = "Ah")
            double reserveAmpereHours,

            @Fact(value = "capacity at the 20-hour rate, given or by the law", unit = "Ah")
            double ampereHours20,

            List<Assumption> assumptions,
            List<Step> working,
            List<String> sources,
            List<String> cautions)
            implements Answer {}

    /** A point, and where in the question it stands. */
    private record Placed(double amps, double minutes, String pointer) {}

    @Override
    protected BatteryReserveAnswer work(BatteryReserveQuestion asked, Worksheet sheet) {
        List<Placed> points = points(asked, sheet);
        Placed one = points.get(0);
        Placed other = points.get(1);
        double exponent = exponent(one, other, sheet);
        double reserve = asked.reserveMinutes() != null
                ? asked.reserveMinutes()
                : minutes(LeadAcidBattery.RESERVE_AMPS, one, exponent, "minutes at 25 A by the same law", "tr", sheet);
        double reserveAmpereHours = sheet.step(
                "ampere-hours at 25 A are amperes times hours",
                "Cr = 25 × tr / 60",
                LeadAcidBattery.ampereHours(LeadAcidBattery.RESERVE_AMPS, reserve),
                "Ah",
                given("tr", reserve, "min"));
        double ampereHours20 = asked.ampereHours20() != null
                ? asked.ampereHours20()
                : sheet.step(
                        "the 20-hour rate is the current that lasts 1200 min, times 20 h",
                        "C20 = 20 × I1 × (t1 / 1200)^(1 / k)",
                        Peukert.ampereHours20(one.amps(), one.minutes(), exponent),
                        "Ah",
                        given("I1", one.amps(), "A"),
                        given("t1", one.minutes(), "min"),
                        given("k", exponent, ""));
        @Nullable Double loadMinutes = null;
        @Nullable Double loadAmpereHours = null;
        @Nullable Double loadAmps = asked.loadAmps();
        if (loadAmps != null) {
            double minutes = minutes(loadAmps, one, exponent, "minutes at the load by the same law", "t", sheet);
            loadMinutes = minutes;
            loadAmpereHours = sheet.step(
                    "ampere-hours at the load are amperes times hours",
                    "C = I × t / 60",
                    LeadAcidBattery.ampereHours(loadAmps, minutes),
                    "Ah",
                    given("I", loadAmps, "A"),
                    given("t", minutes, "min"));
            if (loadAmps > STRETCHED_TIMES * Math.max(one.amps(), other.amps())
                    || loadAmps * STRETCHED_TIMES < Math.min(one.amps(), other.amps())) {
                sheet.caution("The load lies far outside the two points, where the law is only a guide.");
            }
        }
        if (exponent > DOUBTFUL_EXPONENT) {
            sheet.caution("An exponent above 1.6 is rare: a worn battery, or figures of two different ones.");
        }
        return new BatteryReserveAnswer(
                exponent,
                loadMinutes,
                loadAmpereHours,
                reserve,
                reserveAmpereHours,
                ampereHours20,
                sheet.assumptions(),
                sheet.working(),
                sheet.sources(),
                sheet.cautions());
    }

    private static List<Placed> points(BatteryReserveQuestion asked, Worksheet sheet) {
        List<Placed> points = new ArrayList<>();
        if (asked.reserveMinutes() != null) {
            points.add(new Placed(LeadAcidBattery.RESERVE_AMPS, asked.reserveMinutes(), "/reserveMinutes"));
        }
        if (asked.ampereHours20() != null) {
            double amps = sheet.step(
                    "the 20-hour rate is a current for 20 h",
                    "I20 = C20 / 20",
                    asked.ampereHours20() / 20,
                    "A",
                    given("C20", asked.ampereHours20(), "Ah"));
            points.add(new Placed(amps, TWENTY_HOURS_MINUTES, "/ampereHours20"));
        }
        for (int index = 0; index < asked.points().size(); index++) {
            DischargePoint point = asked.points().get(index);
            points.add(new Placed(point.amps(), point.minutes(), "/points/" + index));
        }
        return points;
    }

    private static double exponent(Placed one, Placed other, Worksheet sheet) {
        if (one.amps() == other.amps()) {
            throw none(
                    "Both points are at " + figure(one.amps()) + " A, which tells nothing of other currents.",
                    one,
                    other);
        }
        double exponent = Peukert.exponent(one.amps(), one.minutes(), other.amps(), other.minutes());
        if (!Peukert.isPossible(exponent)) {
            throw none(
                    "The two points give an exponent of " + figure(exponent)
                            + "; a battery has at least 1, giving no more the harder it is drawn upon, and at most "
                            + figure(Peukert.MOST_EXPONENT) + ".",
                    one,
                    other);
        }
        return sheet.step(
                "the exponent by which time falls as the current rises",
                "k = ln(t2 / t1) / ln(I1 / I2)",
                exponent,
                "",
                given("t1", one.minutes(), "min"),
                given("t2", other.minutes(), "min"),
                given("I1", one.amps(), "A"),
                given("I2", other.amps(), "A"));
    }

    private static double minutes(
            double amps, Placed point, double exponent, String words, String symbol, Worksheet sheet) {
        return sheet.step(
                words,
                symbol + " = t1 × (I1 / I)^k",
                Peukert.minutes(amps, point.amps(), point.minutes(), exponent),
                "min",
                given("t1", point.minutes(), "min"),
                given("I1", point.amps(), "A"),
                given("I", amps, "A"),
                given("k", exponent, ""));
    }

    private static NoAnswerException none(String why, Placed... points) {
        List<Invalid> figures = new ArrayList<>();
        for (Placed point : points) {
            figures.add(new Invalid(
                    point.pointer(),
                    "no-such-battery",
                    figure(point.amps()) + " A for " + figure(point.minutes()) + " min are "
                            + figure(LeadAcidBattery.ampereHours(point.amps(), point.minutes())) + " Ah"));
        }
        return new NoAnswerException(why, figures);
    }

    private static String figure(double value) {
        return String.format(Locale.ROOT, "%.4g", value);
    }
}
