package dev.splicebook.electrics;

import dev.splicebook.guard.Guard;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalDouble;

/**
 * Whether an alternator keeps up with its loads, and what that does to the battery.
 *
 * <p>The balance of a phase (idling, cruising, a setpoint of a charging control) is output less mean load. A deficit comes
 * out of the battery in full; of a surplus the battery takes at most what it accepts, and stores the share that its
 * efficiency leaves. It accepts its full amperes up to a charge of 80 %, from there in proportion to what is missing
 * (common practice: constant current, then constant voltage), so that it never gets quite full: 99 % counts as full.
 * Peukert's law, temperature and the lower volts at idle are left out.
 */
public final class ChargingBalance {

    /** Charge from which the battery accepts less and less: common practice, no source. */
    public static final double TAPER_CHARGE = 0.8;

    /** Charge that counts as full. */
    public static final double FULL_CHARGE = 0.99;

    private ChargingBalance() {}

    /**
     * One load of the running vehicle.
     *
     * @param name 1 to 100 characters
     * @param amps while on, 0 to 1000
     * @param duty share of the time that it is on, 0 to 1
     * @param sheddable whether it may be turned off
     * @param priority the higher the longer it is kept, 0 to 1000
     */
    public record Load(String name, double amps, double duty, boolean sheddable, int priority) {
        public Load {
            new Guard()
                    .text("name", name, 100)
                    .between("amps", amps, 0, 1000)
                    .between("duty", duty, 0, 1)
                    .between("priority", priority, 0, 1000)
                    .check();
        }

        /** Amperes over time: amps × duty. */
        public double meanAmps() {
            return amps * duty;
        }
    }

    /**
     * A part of the time with one output.
     *
     * @param balanceAmps output less load
     * @param share of the time, 0 to 1; the shares of all phases make 1
     */
    public record Phase(double balanceAmps, double share) {}

    /**
     * A battery as it charges.
     *
     * @param ampereHours capacity, above 0 to 1000
     * @param acceptanceAmps most that it takes, above 0 to 1000
     * @param efficiency share of the charge put in that it stores, above 0 to 1
     */
    public record Battery(double ampereHours, double acceptanceAmps, double efficiency) {
        public Battery {
            new Guard()
                    .positive("ampereHours", ampereHours, 1000)
                    .positive("acceptanceAmps", acceptanceAmps, 1000)
                    .positive("efficiency", efficiency, 1)
                    .check();
        }

        /** Most amperes that it takes at a charge of 0 to 1. */
        public double acceptedAmps(double charge) {
            return charge <= TAPER_CHARGE
                    ? acceptanceAmps
                    : acceptanceAmps * Math.max(0, 1 - charge) / (1 - TAPER_CHARGE);
        }
    }

    /**
     * Loads to turn off.
     *
     * @param loads least priority first
     * @param reliefAmps their mean amperes together
     * @param remainingAmps deficit that is left, 0 if none
     */
    public record Shedding(List<Load> loads, double reliefAmps, double remainingAmps) {
        public Shedding {
            loads = List.copyOf(loads);
        }
    }

    /** Mean amperes of all loads. */
    public static double loadAmps(List<Load> loads) {
        return loads.stream().mapToDouble(Load::meanAmps).sum();
    }

    /** Surplus, or deficit if negative: output less load. */
    public static double balanceAmps(double outputAmps, double loadAmps) {
        return outputAmps - loadAmps;
    }

    /** The balance over time: Σ share × balance. */
    public static double meanAmps(List<Phase> phases) {
        return phases.stream()
                .mapToDouble(phase -> phase.share() * phase.balanceAmps())
                .sum();
    }

    /** What the battery's charge gains in a phase: all of a deficit, of a surplus what is accepted and stored. */
    public static double storedAmps(double balanceAmps, Battery battery, double charge) {
        return balanceAmps < 0
                ? balanceAmps
                : battery.efficiency() * Math.min(balanceAmps, battery.acceptedAmps(charge));
    }

    /** What the battery's charge gains over time: Σ share × stored. Falls, or stays, as the charge rises. */
    public static double storedAmps(List<Phase> phases, Battery battery, double charge) {
        return phases.stream()
                .mapToDouble(phase -> phase.share() * storedAmps(phase.balanceAmps(), battery, charge))
                .sum();
    }

    /**
     * Minutes from one charge to another. Between the charges at which a phase begins to be held back by acceptance, the
     * rate is straight in the charge, so that each piece takes Δq · Ah · ln(a/b) / (a − b) hours at rates a and b.
     *
     * @param fromCharge 0 to 1
     * @param toCharge 0 to 1, above or below
     * @return minutes; empty if the charge moves the other way, or comes to rest before
     */
    public static OptionalDouble minutes(List<Phase> phases, Battery battery, double fromCharge, double toCharge) {
        if (fromCharge == toCharge) {
            return OptionalDouble.of(0);
        }
        double sign = Math.signum(toCharge - fromCharge);
        // the rate never rises with the charge, so that it is least towards the target
        if (sign * storedAmps(phases, battery, toCharge) <= 0 || sign * storedAmps(phases, battery, fromCharge) <= 0) {
            return OptionalDouble.empty();
        }
        List<Double> charges = breaks(phases, battery, fromCharge, toCharge);
        double hours = 0;
        for (int next = 1; next < charges.size(); next++) {
            double lower = charges.get(next - 1);
            double upper = charges.get(next);
            hours += (upper - lower)
                    * battery.ampereHours()
                    / logarithmicMean(
                            Math.abs(storedAmps(phases, battery, lower)), Math.abs(storedAmps(phases, battery, upper)));
        }
        return OptionalDouble.of(hours * 60);
    }

    /** The charges, ascending, between which the rate is straight. */
    private static List<Double> breaks(List<Phase> phases, Battery battery, double oneCharge, double otherCharge) {
        double least = Math.min(oneCharge, otherCharge);
        double most = Math.max(oneCharge, otherCharge);
        List<Double> charges = new ArrayList<>(List.of(least, TAPER_CHARGE, most));
        for (Phase phase : phases) {
            charges.add(1 - (1 - TAPER_CHARGE) * phase.balanceAmps() / battery.acceptanceAmps());
        }
        return charges.stream()
                .filter(charge -> charge >= least && charge <= most)
                .sorted()
                .distinct()
                .toList();
    }

    /** (a − b) / ln(a / b), and a where both are the same; both above 0. */
    static double logarithmicMean(double a, double b) {
        double x = (b - a) / a;
        return Math.abs(x) < 1e-9 ? a * (1 + x / 2) : (b - a) / Math.log1p(x);
    }

    /**
     * The loads to turn off so that a deficit closes. Sheddable loads go by priority, the least first and within one
     * priority the largest first, until the deficit is closed; then those are kept after all, the most important first,
     * without which it stays closed. So nothing more important is shed than must be, and nothing in vain.
     *
     * @param deficitAmps above 0; otherwise nothing is shed
     */
    public static Shedding shed(List<Load> loads, double deficitAmps) {
        // a thousand millionth of an ampere is rounding, not deficit
        double needed = deficitAmps - 1e-9;
        List<Load> shed = new ArrayList<>();
        double relief = 0;
        List<Load> candidates = loads.stream()
                .filter(load -> load.sheddable() && load.meanAmps() > 0)
                .sorted(Comparator.comparingInt(Load::priority)
                        .thenComparing(Comparator.comparingDouble(Load::meanAmps)
                                .reversed()))
                .toList();
        for (Load load : candidates) {
            if (relief >= needed) {
                break;
            }
            shed.add(load);
            relief += load.meanAmps();
        }
        for (int last = shed.size() - 1; last >= 0; last--) {
            double without = relief - shed.get(last).meanAmps();
            if (without >= needed) {
                shed.remove(last);
                relief = without;
            }
        }
        return new Shedding(shed, relief, relief >= needed ? 0 : deficitAmps - relief);
    }
}
