package dev.splicebook.electrics;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.function.Consumer;
import java.util.stream.IntStream;

/**
 * Every distinct wiring of some coils in series and parallel, each once. The order of parts does not count, a group never
 * stands in one of its own kind, and coils of one class are interchangeable. With all coils of one class these are the
 * series-parallel networks without labels, with each of its own class those with labels.
 *
 * <p>A group is a multiset of parts. It is built with parts that never rise: by the coils they take, as a number whose
 * digits count each class, and among equals by their place in the list of such parts. So each multiset comes up once.
 */
final class Wirings {

    /** Parts of up to so many coils are kept; larger ones, of which a group has at most one, are made as they go by. */
    private static final int MOST_KEPT_COILS = 5;

    private final double[] classOhms;
    private final int[] weights;

    /** By the number of some coils: how many they are. */
    private final int[] sizes;

    /** By the number of some coils: the numbers of all parts of them, falling. */
    private final int[][] within;

    private final List<List<Pattern>> keptSeries;
    private final List<List<Pattern>> keptParallel;

    private Wirings(int[] classCounts, double[] classOhms) {
        this.classOhms = classOhms.clone();
        this.weights = new int[classCounts.length];
        int numbers = 1;
        for (int each = 0; each < classCounts.length; each++) {
            weights[each] = numbers;
            numbers *= classCounts[each] + 1;
        }
        this.sizes = new int[numbers];
        this.within = new int[numbers][];
        for (int number = 0; number < numbers; number++) {
            int whole = number;
            sizes[number] = IntStream.range(0, weights.length)
                    .map(each -> digit(whole, each))
                    .sum();
            within[number] = IntStream.iterate(number, part -> part > 0, part -> part - 1)
                    .filter(part -> isWithin(part, whole))
                    .toArray();
        }
        this.keptSeries = new ArrayList<>(Collections.nCopies(numbers, List.of()));
        this.keptParallel = new ArrayList<>(Collections.nCopies(numbers, List.of()));
    }

    /**
     * A coil of a class, or a group.
     *
     * @param coilClass of a coil; −1 of a group
     * @param parts none of a coil
     */
    record Pattern(int coilClass, boolean series, List<Pattern> parts, double ohms) {

        boolean isCoil() {
            return coilClass >= 0;
        }
    }

    /**
     * Hands over every wiring, in an order that depends on nothing but the arguments.
     *
     * @param classCounts coils of each class, at least one each and at most {@link SpeakerDriver#MOST_COILS} in all
     * @param classOhms ohms of a coil of each class
     */
    static void forEach(int[] classCounts, double[] classOhms, Consumer<Pattern> taker) {
        Wirings wirings = new Wirings(classCounts, classOhms);
        int all = wirings.sizes.length - 1;
        if (wirings.sizes[all] == 1) {
            taker.accept(wirings.coil(all));
            return;
        }
        // of two that are as good, the one with drivers side by side is usual, since the amplifier damps each
        wirings.forEachGroup(false, all, taker);
        wirings.forEachGroup(true, all, taker);
    }

    private Pattern coil(int number) {
        int coilClass = lastClass(number);
        return new Pattern(coilClass, false, List.of(), classOhms[coilClass]);
    }

    private void forEachGroup(boolean series, int number, Consumer<Pattern> taker) {
        addParts(series, number, number - 1, Integer.MAX_VALUE, new ArrayList<>(), taker);
    }

    private void addParts(
            boolean series, int left, int mostNumber, int mostPlace, List<Pattern> parts, Consumer<Pattern> taker) {
        if (left == 0) {
            taker.accept(group(series, parts));
            return;
        }
        // a coil of the last class left can only be in the next part, for those after it have lower numbers
        int leastNumber = weights[lastClass(left)];
        for (int number : within[left]) {
            if (number > mostNumber) {
                continue;
            }
            if (number < leastNumber) {
                return;
            }
            int rest = left - number;
            if (sizes[number] > MOST_KEPT_COILS) {
                forEachGroup(!series, number, part -> {
                    parts.add(part);
                    addParts(series, rest, number - 1, Integer.MAX_VALUE, parts, taker);
                    parts.remove(parts.size() - 1);
                });
                continue;
            }
            List<Pattern> choices = kept(!series, number);
            int places = number == mostNumber ? Math.min(mostPlace, choices.size() - 1) : choices.size() - 1;
            for (int place = 0; place <= places; place++) {
                parts.add(choices.get(place));
                addParts(series, rest, number, place, parts, taker);
                parts.remove(parts.size() - 1);
            }
        }
    }

    private List<Pattern> kept(boolean series, int number) {
        List<List<Pattern>> kept = series ? keptSeries : keptParallel;
        if (kept.get(number).isEmpty()) {
            List<Pattern> made = new ArrayList<>();
            if (sizes[number] == 1) {
                made.add(coil(number));
            } else {
                forEachGroup(series, number, made::add);
            }
            kept.set(number, made);
        }
        return kept.get(number);
    }

    private static Pattern group(boolean series, List<Pattern> parts) {
        double sum = 0;
        for (Pattern part : parts) {
            sum += series ? part.ohms() : 1 / part.ohms();
        }
        return new Pattern(-1, series, List.copyOf(parts), series ? sum : 1 / sum);
    }

    private int digit(int number, int coilClass) {
        int above = coilClass + 1 < weights.length ? number % weights[coilClass + 1] : number;
        return above / weights[coilClass];
    }

    private boolean isWithin(int part, int whole) {
        return IntStream.range(0, weights.length).allMatch(each -> digit(part, each) <= digit(whole, each));
    }

    private int lastClass(int number) {
        int last = weights.length - 1;
        while (weights[last] > number) {
            last--;
        }
        return last;
    }
}
