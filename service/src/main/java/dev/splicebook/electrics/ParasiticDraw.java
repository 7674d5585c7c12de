package dev.splicebook.electrics;

import dev.splicebook.guard.Guard;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What a vehicle asleep takes from its battery, and how long that can last.
 *
 * <p>Service literature: 25 to 50 mA are usual once the modules sleep, which may take more than an hour; above 35 to 50
 * mA the cause is looked for.
 */
public final class ParasiticDraw {

    /** From here on a draw is usual (service literature), in milliamperes. */
    public static final double USUAL_LEAST_MILLIAMPS = 25;

    /** Up to here a draw is usual (service literature), in milliamperes. */
    public static final double USUAL_MOST_MILLIAMPS = 50;

    /** An entry is out of the ordinary above this many times its usual draw: common practice, no source. */
    public static final double OUT_OF_ORDINARY_TIMES = 1.5;

    /** Differences up to this are a meter's, not a load's, in milliamperes: common practice, no source. */
    public static final double METER_MILLIAMPS = 1;

    private static final double HOURS_PER_DAY = 24;
    private static final double DAYS_PER_MONTH = 365.25 / 12;

    private ParasiticDraw() {}

    /** How a total compares with what is usual. */
    public enum DrawVerdict {
        BELOW_USUAL,
        USUAL,
        EXCESSIVE
    }

    /**
     * One load asleep.
     *
     * @param name 1 to 100 characters
     * @param milliamps drawn asleep, 0 to 10 000 000
     * @param usualMilliamps what this load usually draws asleep, 0 to 100 000; absent: unknown
     */
    public record Load(
            String name, double milliamps, @Nullable Double usualMilliamps) {
        public Load {
            new Guard()
                    .text("name", name, 100)
                    .between("milliamps", milliamps, 0, 10_000_000)
                    .between("usualMilliamps", usualMilliamps, 0, 100_000)
                    .check();
        }

        /**
         * Whether the entry is out of the ordinary: above 1.5 times its usual draw by more than 1 mA, or, where no usual
         * draw is known, above 25 mA alone, where whole vehicles begin.
         */
        public boolean isOutOfOrdinary() {
            return usualMilliamps == null
                    ? milliamps > USUAL_LEAST_MILLIAMPS
                    : milliamps > OUT_OF_ORDINARY_TIMES * usualMilliamps
                            && milliamps > usualMilliamps + METER_MILLIAMPS;
        }
    }

    /** Sum of the loads in milliamperes. */
    public static double totalMilliamps(List<Load> loads) {
        return loads.stream().mapToDouble(Load::milliamps).sum();
    }

    /** How a total compares with the usual 25 to 50 mA, both ends included. */
    public static DrawVerdict judge(double milliamps) {
        if (milliamps < USUAL_LEAST_MILLIAMPS) {
            return DrawVerdict.BELOW_USUAL;
        }
        return milliamps <= USUAL_MOST_MILLIAMPS ? DrawVerdict.USUAL : DrawVerdict.EXCESSIVE;
    }

    /** Share of its charge that a battery loses by itself in a day, from the share per month of 30.4 days. */
    public static double selfDischargePerDay(double sharePerMonth) {
        return -Math.log1p(-sharePerMonth) / DAYS_PER_MONTH;
    }

    /** Share of the charge that a draw takes in a day. */
    public static double drawPerDay(double milliamps, double ampereHours) {
        return milliamps / 1000 * HOURS_PER_DAY / ampereHours;
    }

    /**
     * Days until the charge has fallen to a share, under a steady draw and self-discharge in proportion to the charge:
     * from dq/dt = −d − s·q follows t = ln((d + s·q0) / (d + s·q1)) / s, and (q0 − q1)/d without self-discharge.
     *
     * @param startCharge q0, 0 to 1
     * @param endCharge q1, 0 to {@code startCharge}
     * @param drawPerDay d, at least 0, of the capacity
     * @param selfDischargePerDay s, at least 0, of the charge
     * @return days; infinite if nothing is drawn, or if only self-discharge draws and {@code endCharge} is 0
     */
    public static double days(double startCharge, double endCharge, double drawPerDay, double selfDischargePerDay) {
        double fall = startCharge - endCharge;
        double endRate = drawPerDay + selfDischargePerDay * endCharge;
        if (fall <= 0) {
            return 0;
        }
        if (endRate == 0) {
            return Double.POSITIVE_INFINITY;
        }
        double x = selfDischargePerDay * fall / endRate;
        return x < 1e-12 ? fall / endRate : Math.log1p(x) / selfDischargePerDay;
    }
}
