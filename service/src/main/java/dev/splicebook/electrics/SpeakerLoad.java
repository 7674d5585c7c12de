package dev.splicebook.electrics;

import dev.splicebook.electrics.SpeakerDriver.Named;
import dev.splicebook.electrics.Wirings.Pattern;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.PriorityQueue;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/**
 * The wirings of drivers to one amplifier output: their load, what each coil gets, which are safe and which is best.
 *
 * <p>Coils count as resistances of their rated impedance, as amplifier ratings do (Ohm's law). The lowest impedance of a
 * loudspeaker may be 80 % of its rated one (after IEC 60268-5).
 */
public final class SpeakerLoad {

    /** The least impedance of a loudspeaker by its rated one. */
    public static final double LEAST_IMPEDANCE_SHARE = 0.8;

    private static final double SAME = 1e-9;

    private SpeakerLoad() {}

    /** Why a wiring is not safe at an output. */
    public enum SpeakerHazard {
        /** The load is below the least one of the amplifier. */
        LOAD_TOO_LOW,
        /** The two coils of a driver carry different amperes, so that one runs hot and the cone is driven unevenly. */
        UNBALANCED,
        /** A coil of a driver is left open while the other works. */
        COIL_LEFT_OPEN,
        /** A coil is turned against others. */
        POLARITY,
        /** A coil can get more than its rating. */
        COIL_OVERLOADED
    }

    /**
     * What one coil gets when the amplifier gives the most it may.
     *
     * @param amps rms; absent, as watts are, where the amplifier's watts are unknown
     * @param overloaded whether the watts are above its rating
     */
    public record CoilDrive(
            String coil, @Nullable Double amps, @Nullable Double watts, boolean overloaded) {}

    /**
     * A wiring at one output.
     *
     * @param hazards none where it is safe
     * @param leastWatts what the amplifier surely gives; absent where its watts are unknown
     * @param mostWatts what it may give
     * @param usableWatts the least watts, or what the weakest coil bears of them where that is less
     */
    public record AtOutput(
            List<SpeakerHazard> hazards,
            @Nullable Double leastWatts,
            @Nullable Double mostWatts,
            @Nullable Double usableWatts,
            List<CoilDrive> coils) {

        public AtOutput {
            hazards = List.copyOf(hazards);
            coils = List.copyOf(coils);
        }

        /** Whether nothing speaks against it. */
        public boolean safe() {
            return hazards.isEmpty();
        }
    }

    /**
     * A wiring and all that is known of it.
     *
     * @param minimumOhms what its impedance may fall to at some frequency
     * @param unbalancedDrivers drivers whose two coils carry different amperes
     * @param unevenDrivers drivers that get more or less than another with the same coils does
     * @param unusedCoils coils that it leaves open
     * @param bridged absent where the amplifier has no bridged mode
     */
    public record Assessed(
            Wiring wiring,
            double ohms,
            double minimumOhms,
            List<String> unbalancedDrivers,
            List<String> unevenDrivers,
            List<String> unusedCoils,
            AtOutput single,
            @Nullable AtOutput bridged) {}

    /**
     * The wirings found.
     *
     * @param total how many distinct ones there are
     * @param listed the first of them, best ones ahead
     * @param best the safe one that serves like drivers alike if one does, with most usable watts, then the lowest load; absent where none is safe
     * @param bestBridged the same for the bridged mode
     * @param limited one that gives more than {@code best} or is all there is, if the gain is set so low that no coil
     *     gets more than its rating; absent where there is none
     * @param limitedBridged the same for the bridged mode
     */
    public record Found(
            int total,
            List<Assessed> listed,
            @Nullable Assessed best,
            @Nullable Assessed bestBridged,
            @Nullable Assessed limited,
            @Nullable Assessed limitedBridged) {}

    /**
     * Finds every distinct wiring that uses all coils. Coils with the same ohms and rated watts are interchangeable; where
     * they can be chosen, the two coils of a driver are put where they carry the same amperes.
     *
     * @param drivers with 1 to {@link SpeakerDriver#MOST_COILS} coils in all
     * @param bridged output of the bridged mode; absent where the amplifier has none
     * @param most how many are listed, 1 and above
     * @throws dev.splicebook.guard.InvalidValueException if there are too many coils, or two drivers share a name
     */
    public static Found wirings(
            List<SpeakerDriver> drivers, AmplifierOutput single, @Nullable AmplifierOutput bridged, int most) {
        Search search = new Search(SpeakerDriver.coilsOf(drivers), single, bridged, most);
        Wirings.forEach(search.placing.counts(), search.placing.ohms(), search::take);
        return search.found(drivers);
    }

    /** Judges one wiring, which may leave coils open and turn some round. */
    public static Assessed assess(
            Wiring wiring, List<SpeakerDriver> drivers, AmplifierOutput single, @Nullable AmplifierOutput bridged) {
        List<Wiring.Share> shares = wiring.shares();
        Set<String> used = new HashSet<>();
        shares.forEach(each -> used.add(each.coil().coil()));
        List<String> unused = SpeakerDriver.coilsOf(drivers).stream()
                .map(Named::name)
                .filter(each -> !used.contains(each))
                .toList();
        List<String> unbalanced = unbalancedDrivers(shares);
        boolean halfOpen = drivers.stream()
                .filter(each -> each.coils().size() == 2)
                .anyMatch(each -> unused.contains(each.name() + ".1") != unused.contains(each.name() + ".2"));
        List<SpeakerHazard> hazards = new ArrayList<>();
        if (!unbalanced.isEmpty()) {
            hazards.add(SpeakerHazard.UNBALANCED);
        }
        if (halfOpen) {
            hazards.add(SpeakerHazard.COIL_LEFT_OPEN);
        }
        if (!wiring.polarityFaults().isEmpty()) {
            hazards.add(SpeakerHazard.POLARITY);
        }
        double ohms = wiring.ohms();
        return new Assessed(
                wiring,
                ohms,
                ohms * LEAST_IMPEDANCE_SHARE,
                unbalanced,
                unevenDrivers(shares, drivers),
                unused,
                atOutput(shares, ohms, hazards, single),
                bridged == null ? null : atOutput(shares, ohms, hazards, bridged));
    }

    /**
     * The most watts that a coil's rating allows the whole wiring.
     *
     * @return watts; infinite where the rating is unknown
     */
    static double allowedWatts(@Nullable Double ratedWatts, double powerShare) {
        return ratedWatts == null ? Double.POSITIVE_INFINITY : ratedWatts / powerShare;
    }

    private static List<String> unbalancedDrivers(List<Wiring.Share> shares) {
        Set<String> unbalanced = new TreeSet<>();
        for (Wiring.Share one : shares) {
            for (Wiring.Share other : shares) {
                if (one.coil().driver().equals(other.coil().driver())
                        && !isSame(one.currentShare(), other.currentShare())) {
                    unbalanced.add(one.coil().driver());
                }
            }
        }
        return List.copyOf(unbalanced);
    }

    private static List<String> unevenDrivers(List<Wiring.Share> shares, List<SpeakerDriver> drivers) {
        Map<String, Double> shareByDriver = new HashMap<>();
        shares.forEach(each -> shareByDriver.merge(each.coil().driver(), each.powerShare(), Double::sum));
        Set<String> uneven = new TreeSet<>();
        for (SpeakerDriver one : drivers) {
            for (SpeakerDriver other : drivers) {
                double oneShare = shareByDriver.getOrDefault(one.name(), 0.0);
                double otherShare = shareByDriver.getOrDefault(other.name(), 0.0);
                if (one.hasTheCoilsOf(other) && !isSame(oneShare, otherShare)) {
                    uneven.add(one.name());
                }
            }
        }
        return List.copyOf(uneven);
    }

    private static AtOutput atOutput(
            List<Wiring.Share> shares, double ohms, List<SpeakerHazard> ofTheWiring, AmplifierOutput output) {
        Double leastWatts = output.leastWatts(ohms);
        Double mostWatts = output.mostWatts(ohms);
        double allowedWatts = shares.stream()
                .mapToDouble(each -> allowedWatts(each.coil().ratedWatts(), each.powerShare()))
                .min()
                .orElseThrow();
        List<CoilDrive> coils =
                shares.stream().map(each -> drive(each, ohms, mostWatts)).toList();
        List<SpeakerHazard> hazards = new ArrayList<>();
        if (!output.bears(ohms)) {
            hazards.add(SpeakerHazard.LOAD_TOO_LOW);
        }
        hazards.addAll(ofTheWiring);
        if (coils.stream().anyMatch(CoilDrive::overloaded)) {
            hazards.add(SpeakerHazard.COIL_OVERLOADED);
        }
        return new AtOutput(
                hazards, leastWatts, mostWatts, leastWatts == null ? null : Math.min(leastWatts, allowedWatts), coils);
    }

    private static CoilDrive drive(Wiring.Share share, double ohms, @Nullable Double mostWatts) {
        String name = share.coil().coil();
        if (mostWatts == null) {
            return new CoilDrive(name, null, null, false);
        }
        double watts = mostWatts * share.powerShare();
        double amps = Levels.rmsAmps(mostWatts, ohms) * share.currentShare();
        return new CoilDrive(name, amps, watts, isOverloaded(watts, share.coil().ratedWatts()));
    }

    private static boolean isOverloaded(double watts, @Nullable Double ratedWatts) {
        return ratedWatts != null && watts > ratedWatts * (1 + SAME);
    }

    static boolean isSame(double one, double other) {
        return Math.abs(one - other) <= SAME * Math.max(one, other);
    }

    /** Ranks every wiring as it comes, and keeps the best. */
    private static final class Search {

        private final CoilPlacing placing;
        private final AmplifierOutput single;
        private final @Nullable AmplifierOutput bridged;
        private final int most;
        private final PriorityQueue<Candidate> kept;
        private final Leader leader = new Leader();
        private final Leader leaderBridged = new Leader();
        private int total;

        Search(List<Named> coils, AmplifierOutput single, @Nullable AmplifierOutput bridged, int most) {
            this.placing = new CoilPlacing(coils);
            this.single = single;
            this.bridged = bridged;
            this.most = most;
            this.kept = new PriorityQueue<>(Collections.reverseOrder(Candidate.BEST_FIRST));
        }

        void take(Pattern pattern) {
            CoilPlacing.Judged judged = placing.judge(pattern);
            Rank rank = rank(pattern, judged, single);
            leader.offer(rank, pattern, total);
            if (bridged != null) {
                Rank rankBridged = rank(pattern, judged, bridged);
                leaderBridged.offer(rankBridged, pattern, total);
                rank = rankBridged.compareTo(rank) < 0 ? rankBridged : rank;
            }
            if (kept.size() < most || rank.compareTo(kept.element().rank()) < 0) {
                kept.add(new Candidate(rank, total, pattern));
            }
            if (kept.size() > most) {
                kept.remove();
            }
            total++;
        }

        private static Rank rank(Pattern pattern, CoilPlacing.Judged judged, AmplifierOutput output) {
            double ohms = pattern.ohms();
            Double leastWatts = output.leastWatts(ohms);
            Double mostWatts = output.mostWatts(ohms);
            boolean overloaded = mostWatts != null && isOverloaded(mostWatts, judged.allowedWatts());
            boolean fits = output.bears(ohms) && judged.balanced();
            double usableWatts = leastWatts == null ? 0 : Math.min(leastWatts, judged.allowedWatts());
            return Rank.of(fits && !overloaded, fits, judged.even(), usableWatts, ohms);
        }

        Found found(List<SpeakerDriver> drivers) {
            List<Assessed> listed = kept.stream()
                    .sorted(Candidate.BEST_FIRST)
                    .map(each -> assessedOf(each, drivers))
                    .toList();
            return new Found(
                    total,
                    listed,
                    assessed(leader.safe, drivers),
                    assessed(leaderBridged.safe, drivers),
                    assessed(leader.limited(), drivers),
                    assessed(leaderBridged.limited(), drivers));
        }

        private @Nullable Assessed assessed(@Nullable Candidate candidate, List<SpeakerDriver> drivers) {
            return candidate == null ? null : assessedOf(candidate, drivers);
        }

        private Assessed assessedOf(Candidate candidate, List<SpeakerDriver> drivers) {
            return assess(placing.wiring(candidate.pattern()), drivers, single, bridged);
        }
    }

    /** The best wiring so far, and the best if the gain may be turned down. */
    private static final class Leader {

        private @Nullable Candidate safe;
        private @Nullable Candidate fitting;

        void offer(Rank rank, Pattern pattern, int number) {
            if (rank.safe() && (safe == null || rank.compareTo(safe.rank()) < 0)) {
                safe = new Candidate(rank, number, pattern);
            }
            if (rank.fits() && (fitting == null || rank.compareIfTurnedDown(fitting.rank()) < 0)) {
                fitting = new Candidate(rank, number, pattern);
            }
        }

        @Nullable
        Candidate limited() {
            boolean better = fitting != null
                    && !fitting.rank().safe()
                    && (safe == null || fitting.rank().compareIfTurnedDown(safe.rank()) < 0);
            return better ? fitting : null;
        }
    }

    /**
     * How good a wiring is at one output; the best comes first.
     *
     * @param fits safe but for a coil that could be overloaded
     * @param even whether like drivers get the same
     * @param usableKey rises with the usable watts, and is the same for those that differ by rounding only
     */
    private record Rank(boolean safe, boolean fits, boolean even, double usableKey, double ohms)
            implements Comparable<Rank> {

        static Rank of(boolean safe, boolean fits, boolean even, double usableWatts, double ohms) {
            double key = usableWatts > 0 ? Math.rint(Math.log(usableWatts) / SAME) : Double.NEGATIVE_INFINITY;
            return new Rank(safe, fits, even, key, ohms);
        }

        @Override
        public int compareTo(Rank other) {
            if (safe != other.safe) {
                return safe ? -1 : 1;
            }
            if (fits != other.fits) {
                return fits ? -1 : 1;
            }
            return compareIfTurnedDown(other);
        }

        /** The order where the gain keeps every coil within its rating. */
        int compareIfTurnedDown(Rank other) {
            if (even != other.even) {
                return even ? -1 : 1;
            }
            int byWatts = Double.compare(other.usableKey, usableKey);
            return byWatts != 0 ? byWatts : Double.compare(ohms, other.ohms);
        }
    }

    private record Candidate(Rank rank, int number, Pattern pattern) {

        static final Comparator<Candidate> BEST_FIRST =
                Comparator.comparing(Candidate::rank).thenComparingInt(Candidate::number);
    }
}
