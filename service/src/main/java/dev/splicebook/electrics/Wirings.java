package dev.splicebook.electrics;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;

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
    private final Map<Integer, List<Pattern>> keptSeries = new HashMap<>();
    private final Map<Integer, List<Pattern>> keptParallel = new HashMap<>();

    private Wirings(int[] classCounts, double[] classOhms) {
        this.classOhms = classOhms.clone();
        this.weights = new int[classCounts.length];
        int weight = 1;
        for (int each = 0; each < classCounts.length; each++) {
            weights[each] = weight;
            weight *= classCounts[each] + 1;
        }
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
        int[] counts = classCounts.clone();
        if (Arrays.stream(counts).sum() == 1) {
            taker.accept(wirings.coil(0));
            return;
        }
        wirings.forEachGroup(true, counts, taker);
        wirings.forEachGroup(false, counts, taker);
    }

    private Pattern coil(int coilClass) {
        return new Pattern(coilClass, false, List.of(), classOhms[coilClass]);
    }

    private void forEachGroup(boolean series, int[] counts, Consumer<Pattern> taker) {
        int code = code(counts);
        addParts(series, counts.clone(), code - 1, Integer.MAX_VALUE, new ArrayList<>(), taker);
    }

    private void addParts(
            boolean series, int[] left, int mostCode, int mostPlace, List<Pattern> parts, Consumer<Pattern> taker) {
        int leftCode = code(left);
        if (leftCode == 0) {
            taker.accept(group(series, parts));
            return;
        }
        // a coil of the last class left can only be in the next part, for those after it have lower codes
        int leastCode = weights[lastClass(left)];
        for (int code = Math.min(mostCode, leftCode); code >= leastCode; code--) {
            int[] taken = counts(code);
            if (!isWithin(taken, left)) {
                continue;
            }
            int[] rest = minus(left, taken);
            if (Arrays.stream(taken).sum() > MOST_KEPT_COILS) {
                int restMostCode = code - 1;
                forEachGroup(!series, taken, part -> {
                    parts.add(part);
                    addParts(series, rest, restMostCode, Integer.MAX_VALUE, parts, taker);
                    parts.remove(parts.size() - 1);
                });
                continue;
            }
            List<Pattern> choices = kept(!series, code, taken);
            int places = code == mostCode ? Math.min(mostPlace, choices.size() - 1) : choices.size() - 1;
            for (int place = 0; place <= places; place++) {
                parts.add(choices.get(place));
                addParts(series, rest, code, place, parts, taker);
                parts.remove(parts.size() - 1);
            }
        }
    }

    private List<Pattern> kept(boolean series, int code, int[] counts) {
        Map<Integer, List<Pattern>> kept = series ? keptSeries : keptParallel;
        List<Pattern> found = kept.get(code);
        if (found == null) {
            List<Pattern> made = new ArrayList<>();
            if (Arrays.stream(counts).sum() == 1) {
                made.add(coil(lastClass(counts)));
            } else {
                forEachGroup(series, counts, made::add);
            }
            kept.put(code, made);
            found = made;
        }
        return found;
    }

    private static Pattern group(boolean series, List<Pattern> parts) {
        double sum = 0;
        for (Pattern part : parts) {
            sum += series ? part.ohms() : 1 / part.ohms();
        }
        return new Pattern(-1, series, List.copyOf(parts), series ? sum : 1 / sum);
    }

    private int code(int[] counts) {
        int code = 0;
        for (int each = 0; each < counts.length; each++) {
            code += counts[each] * weights[each];
        }
        return code;
    }

    private int[] counts(int code) {
        int[] counts = new int[weights.length];
        int rest = code;
        for (int each = weights.length - 1; each >= 0; each--) {
            counts[each] = rest / weights[each];
            rest %= weights[each];
        }
        return counts;
    }

    private static int lastClass(int[] counts) {
        int last = counts.length - 1;
        while (counts[last] == 0) {
            last--;
        }
        return last;
    }

    private static boolean isWithin(int[] taken, int[] left) {
        for (int each = 0; each < taken.length; each++) {
            if (taken[each] > left[each]) {
                return false;
            }
        }
        return true;
    }

    private static int[] minus(int[] left, int[] taken) {
        int[] rest = left.clone();
        for (int each = 0; each < rest.length; each++) {
            rest[each] -= taken[each];
        }
        return rest;
    }
}
