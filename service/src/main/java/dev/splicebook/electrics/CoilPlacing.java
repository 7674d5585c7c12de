package dev.splicebook.electrics;

import dev.splicebook.electrics.SpeakerDriver.Coil;
import dev.splicebook.electrics.SpeakerDriver.Named;
import dev.splicebook.electrics.Wirings.Pattern;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/**
 * Puts named coils into the places of a pattern. Coils with the same ohms and rated watts are one class; among them as many
 * drivers as possible get both coils into places that carry the same amperes, and then like drivers the same watts.
 */
final class CoilPlacing {

    private final List<Named> coils;
    private final List<Coil> classes;
    private final int[] classOfCoil;
    private final List<int[]> pairs = new ArrayList<>();

    /** By coil: the first coil of its driver. */
    private final int[] firstCoil;

    /** By coil that is the first of its driver: the first coil of the first driver with the same coils. */
    private final int[] firstLike;

    CoilPlacing(List<Named> coils) {
        this.coils = coils;
        this.classes = coils.stream().map(Named::coil).distinct().toList();
        this.classOfCoil =
                coils.stream().mapToInt(each -> classes.indexOf(each.coil())).toArray();
        for (int coil = 1; coil < coils.size(); coil++) {
            if (coils.get(coil).driver().equals(coils.get(coil - 1).driver())) {
                pairs.add(new int[] {coil - 1, coil});
            }
        }
        this.firstCoil = new int[coils.size()];
        this.firstLike = new int[coils.size()];
        Map<List<Coil>, Integer> first = new HashMap<>();
        for (int coil = 0; coil < coils.size(); coil++) {
            Named named = coils.get(coil);
            boolean second = coil > 0 && coils.get(coil - 1).driver().equals(named.driver());
            firstCoil[coil] = second ? coil - 1 : coil;
            firstLike[coil] = first.merge(coilsOfDriver(named.driver()), firstCoil[coil], (known, again) -> known);
        }
    }

    private List<Coil> coilsOfDriver(String driver) {
        return coils.stream()
                .filter(each -> each.driver().equals(driver))
                .map(Named::coil)
                .sorted(Comparator.comparingInt(classes::indexOf))
                .toList();
    }

    /** How many coils each class has. */
    int[] counts() {
        int[] counts = new int[classes.size()];
        for (int coilClass : classOfCoil) {
            counts[coilClass]++;
        }
        return counts;
    }

    /** The ohms of a coil of each class. */
    double[] ohms() {
        return classes.stream().mapToDouble(Coil::ohms).toArray();
    }

    /**
     * How a pattern does with its coils in the best places.
     *
     * @param balanced whether the two coils of each driver carry the same amperes
     * @param even whether drivers with the same coils get the same watts
     * @param allowedWatts most watts that no coil's rating forbids, infinite where no rating is known
     */
    record Judged(boolean balanced, boolean even, double allowedWatts) {}

    Judged judge(Pattern pattern) {
        Places places = new Places(pattern);
        Seating seating = new Seating(places);
        double allowedWatts = Double.POSITIVE_INFINITY;
        for (int place = 0; place < coils.size(); place++) {
            Double ratedWatts = classes.get(places.classAt[place]).ratedWatts();
            allowedWatts = Math.min(allowedWatts, SpeakerLoad.allowedWatts(ratedWatts, places.powerShare(place)));
        }
        return new Judged(seating.mostBalanced == pairs.size(), seating.even, allowedWatts);
    }

    /** The pattern with named coils, parts in the order of the coils in them. */
    Wiring wiring(Pattern pattern) {
        int[] coilAt = new Seating(new Places(pattern)).best;
        return named(pattern, Arrays.stream(coilAt).boxed().collect(Collectors.toCollection(ArrayList::new)))
                .wiring();
    }

    private record Led(Wiring wiring, int firstCoil) {}

    private Led named(Pattern pattern, List<Integer> coilsLeft) {
        if (pattern.isCoil()) {
            int index = coilsLeft.remove(0);
            Named named = coils.get(index);
            Coil coil = named.coil();
            return new Led(new Wiring.One(named.name(), named.driver(), coil.ohms(), coil.ratedWatts(), false), index);
        }
        List<Led> parts = new ArrayList<>();
        for (Pattern part : pattern.parts()) {
            parts.add(named(part, coilsLeft));
        }
        parts.sort(Comparator.comparingInt(Led::firstCoil));
        List<Wiring> wirings = parts.stream().map(Led::wiring).toList();
        return new Led(
                pattern.series() ? new Wiring.Series(wirings) : new Wiring.Parallel(wirings),
                parts.get(0).firstCoil());
    }

    /** The places of a pattern, each with its class and its share of the amperes. */
    private final class Places {

        private final double allOhms;
        private final int[] classAt = new int[coils.size()];
        private final double[] currentShare = new double[coils.size()];
        private int filled;

        Places(Pattern pattern) {
            this.allOhms = pattern.ohms();
            fill(pattern, 1);
        }

        private void fill(Pattern pattern, double share) {
            if (pattern.isCoil()) {
                classAt[filled] = pattern.coilClass();
                currentShare[filled] = share;
                filled++;
                return;
            }
            for (Pattern part : pattern.parts()) {
                fill(part, pattern.series() ? share : share * pattern.ohms() / part.ohms());
            }
        }

        double powerShare(int place) {
            return currentShare[place]
                    * currentShare[place]
                    * classes.get(classAt[place]).ohms()
                    / allOhms;
        }

        boolean carryTheSame(int one, int other) {
            return SpeakerLoad.isSame(currentShare[one], currentShare[other]);
        }
    }

    /**
     * A search with return for the seating that balances most drivers, and among those is even if one is. There are at
     * most four drivers with two coils.
     */
    private final class Seating {

        private static final int NOBODY = -1;

        private final Places places;
        private final int[] seats = new int[coils.size()];
        private int[] best = seats;
        private int mostBalanced = -1;
        private boolean even;

        Seating(Places places) {
            this.places = places;
            Arrays.fill(seats, NOBODY);
            seatPair(0, 0);
        }

        private void seatPair(int pair, int balanced) {
            int within = balanced + pairs.size() - pair;
            if (within < mostBalanced || (within == mostBalanced && even)) {
                return;
            }
            if (pair == pairs.size()) {
                int[] full = withOthers();
                boolean fullEven = isEven(full);
                if (balanced > mostBalanced || fullEven) {
                    mostBalanced = balanced;
                    even = fullEven;
                    best = full;
                }
                return;
            }
            int one = pairs.get(pair)[0];
            int other = pairs.get(pair)[1];
            for (int first = 0; first < seats.length; first++) {
                int second = isFree(first, one) && !isAsGoodBefore(first, one) ? partnerOf(first, other) : NOBODY;
                if (second != NOBODY) {
                    seats[first] = one;
                    seats[second] = other;
                    seatPair(pair + 1, balanced + 1);
                    seats[first] = NOBODY;
                    seats[second] = NOBODY;
                }
            }
            seatPair(pair + 1, balanced);
        }

        private int partnerOf(int first, int coil) {
            for (int second = 0; second < seats.length; second++) {
                if (second != first && isFree(second, coil) && places.carryTheSame(first, second)) {
                    return second;
                }
            }
            return NOBODY;
        }

        private boolean isAsGoodBefore(int place, int coil) {
            for (int before = 0; before < place; before++) {
                if (isFree(before, coil) && places.carryTheSame(before, place)) {
                    return true;
                }
            }
            return false;
        }

        private boolean isFree(int place, int coil) {
            return seats[place] == NOBODY && places.classAt[place] == classOfCoil[coil];
        }

        /** The seats with all coils that have none yet in the first that is left for each. */
        private int[] withOthers() {
            int[] full = seats.clone();
            boolean[] seated = new boolean[full.length];
            for (int coil : full) {
                if (coil != NOBODY) {
                    seated[coil] = true;
                }
            }
            for (int coil = 0; coil < full.length; coil++) {
                int place = 0;
                while (!seated[coil]) {
                    if (full[place] == NOBODY && places.classAt[place] == classOfCoil[coil]) {
                        full[place] = coil;
                        seated[coil] = true;
                    }
                    place++;
                }
            }
            return full;
        }

        private boolean isEven(int[] full) {
            double[] driverShare = new double[full.length];
            for (int place = 0; place < full.length; place++) {
                driverShare[firstCoil[full[place]]] += places.powerShare(place);
            }
            for (int coil = 0; coil < full.length; coil++) {
                int like = firstLike[coil];
                if (firstCoil[coil] == coil && !SpeakerLoad.isSame(driverShare[coil], driverShare[like])) {
                    return false;
                }
            }
            return true;
        }
    }
}
