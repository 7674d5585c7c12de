package dev.splicebook.electrics;

import dev.splicebook.guard.Guard;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
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
     * A stretch of charge over which the rate is straight.
     *
     * @param fromCharge where it begins
     * @param toCharge where it ends, above or below
     * @param fromAmps stored at its beginning, negative where the battery discharges
     * @param toAmps stored at its end
     * @param minutes that it takes: 60 · Δq · Ah · ln(a/b) / (a − b) at rates a and b
     */
    public record Piece(double fromCharge, double toCharge, double fromAmps, double toAmps, double minutes) {}

    /**
     * How a battery gets from one charge to another, piece by piece: a new one begins where acceptance begins to fall, and
     * where a phase begins to be held back by it.
     *
     * @param fromCharge 0 to 1
     * @param toCharge 0 to 1, above or below
     * @return the pieces in order, none if the two are equal; empty if the charge moves the other way, or comes to rest
     *     before
     */
    public static Optional<List<Piece>> pieces(
            List<Phase> phases, Battery battery, double fromCharge, double toCharge) {
        double sign = Math.signum(toCharge - fromCharge);
        // the rate never rises with the charge, so that both ends tell of all between
        if (sign != 0
                && (sign * storedAmps(phases, battery, toCharge) <= 0
                        || sign * storedAmps(phases, battery, fromCharge) <= 0)) {
            return Optional.empty();
        }
        List<Double> charges = breaks(phases, battery, fromCharge, toCharge);
        List<Piece> pieces = new ArrayList<>();
        for (int next = 1; next < charges.size(); next++) {
            double from = charges.get(next - 1);
            double to = charges.get(next);
            double fromAmps = storedAmps(phases, battery, from);
            double toAmps = storedAmps(phases, battery, to);
            pieces.add(new Piece(
                    from,
                    to,
                    fromAmps,
                    toAmps,
                    60 * (to - from) * battery.ampereHours() / logarithmicMean(fromAmps, toAmps)));
        }
        return Optional.of(pieces);
    }

    /**
     * The charge at which a battery comes to rest, gaining in one part of the time what it loses in the other: 0 if it only
     * loses, 1 if it only gains.
     */
    public static double restingCharge(List<Phase> phases, Battery battery) {
        double low = 0;
        double high = 1;
        for (int halving = 0; halving < 60; halving++) {
            double middle = (low + high) / 2;
            if (storedAmps(phases, battery, middle) > 0) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return low == 0 ? 0 : high;
    }

    /** Minutes from one charge to another, as {@link #pieces} has them. */
    public static OptionalDouble minutes(List<Phase> phases, Battery battery, double fromCharge, double toCharge) {
        return pieces(phases, battery, fromCharge, toCharge)
                .map(pieces -> OptionalDouble.of(
                        pieces.stream().mapToDouble(Piece::minutes).sum()))
                .orElse(OptionalDouble.empty());
    }

    /** The charges, in order, between which the rate is straight. */
    private static List<Double> breaks(List<Phase> phases, Battery battery, double oneCharge, double otherCharge) {
        double least = Math.min(oneCharge, otherCharge);
        double most = Math.max(oneCharge, otherCharge);
        List<Double> charges = new ArrayList<>(List.of(least, TAPER_CHARGE, most));
        for (Phase phase : phases) {
            charges.add(1 - (1 - TAPER_CHARGE) * phase.balanceAmps() / battery.acceptanceAmps());
        }
        return charges.stream()
                .filter(charge -> charge >= least && charge <= most)
                .sorted(oneCharge <= otherCharge ? Comparator.naturalOrder() : Comparator.reverseOrder())
                .distinct()
                .toList();
    }

    /** (a − b) / ln(a / b), and a where both are the same; both of one sign. */
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
                        .thenComparing(
                                Comparator.comparingDouble(Load::meanAmps).reversed()))
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
