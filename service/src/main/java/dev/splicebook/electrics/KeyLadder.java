package dev.splicebook.electrics;

import dev.splicebook.guard.Guard;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.DoubleStream;
import org.jspecify.annotations.Nullable;

/**
 * A resistive ladder of steering-wheel keys, read by a converter through one fixed resistor. The converter's reference is
 * the supply of the ladder, so that only resistances matter.
 *
 * <p>Every closed key adds its contact's resistance, which grows from nothing to {@code contactOhms} as the contact wears.
 * What is read is counted as 2^bits × ratio, rounded, at most 2^bits − 1, and is off by up to one count. Windows meet
 * halfway between neighbours.
 *
 * @param arrangement how the keys stand
 * @param keys 1 to 32, of different names; the order counts in a chain, whose first key is nearest to the reader
 * @param endOhms what stands for good behind the last key of a chain, or beside the keys of a set: 0.1 Ω to 10 MΩ; absent: open
 * @param fixedOhms the pull-up, or the pull-down where the voltage is read across it: 1 Ω to 10 MΩ
 * @param readAcross which of the two the voltage is read across
 * @param contactOhms most that a closed contact has, 0 to 10 000
 * @param toleranceShare of the ladder's resistors, 0 to 0.5
 * @param fixedToleranceShare of the fixed resistor, 0 to 0.5
 * @param spread how values lie within their tolerance
 * @param adcBits 4 to 16
 */
public record KeyLadder(
        LadderArrangement arrangement,
        List<Key> keys,
        @Nullable Double endOhms,
        double fixedOhms,
        LadderReadAcross readAcross,
        double contactOhms,
        double toleranceShare,
        double fixedToleranceShare,
        LadderSpread spread,
        int adcBits) {

    /** The name of the reading with no key pressed. */
    public static final String NONE = "none";

    /** Probabilities below this are not told. */
    public static final double LEAST_PROBABILITY = 1e-9;

    /** A reading may be off by this many counts. */
    public static final double ADC_COUNTS = 1;

    /** A tolerance is three standard deviations where values spread normally. */
    private static final double SIGMAS = 3;

    /** How the keys stand. */
    public enum LadderArrangement {
        /** Resistors in a row; a key shorts the row to the return behind its own resistor. */
        SERIES,
        /** Each key with its own resistor, all side by side. */
        PARALLEL
    }

    /** What the voltage is read across. */
    public enum LadderReadAcross {
        /** The keys, the fixed resistor being the pull-up. */
        KEYS,
        /** The fixed resistor, being a pull-down; the keys stand on the supply's side. */
        FIXED
    }

    /** How values lie within their tolerance. */
    public enum LadderSpread {
        /** Anywhere within it, evenly. */
        UNIFORM,
        /** Normally, the tolerance being three standard deviations. */
        NORMAL
    }

    /**
     * One key.
     *
     * @param name 1 to 60 characters, not {@code none}
     * @param ohms its own resistor; in a chain the one between the key before it and itself: 0 to 10 MΩ
     */
    public record Key(String name, double ohms) {
        public Key {
            new Guard()
                    .text("name", name, 60)
                    .refuseIf(NONE.equals(name), "name", "reserved", () -> "\"none\" is the name of no key pressed")
                    .between("ohms", ohms, 0, 1e7)
                    .check();
        }
    }

    /**
     * What one key, or none, reads.
     *
     * @param key its name, {@link #NONE} for none
     * @param ohms seen at the ladder, contact included; infinite if open
     * @param ratio of what is read to the supply, 0 to 1
     * @param counts of the converter
     * @param leastCounts least that tolerances, contact and converter allow, not rounded
     * @param mostCounts most that they allow, not rounded
     * @param windowFromCounts first count that is taken for this key
     * @param windowToCounts last count that is taken for this key; below the first if the converter cannot tell it apart
     */
    public record Level(
            String key,
            double ohms,
            double ratio,
            int counts,
            double leastCounts,
            double mostCounts,
            int windowFromCounts,
            int windowToCounts) {}

    /**
     * One key taken for another.
     *
     * @param pressed the key
     * @param readAs the other
     * @param probability 0 to 1, over ladders made within tolerance and contacts of any wear
     * @param withinTolerance whether tolerances alone can bring it about; normal spread has tails beyond them
     */
    public record Confusion(String pressed, String readAs, double probability, boolean withinTolerance) {}

    /**
     * Which key a reading is.
     *
     * @param keys all whose tolerances allow the reading, in order of nearness; several are ambiguous, none fits none
     * @param nearest the key that reads nearest to it
     */
    public record Identified(List<String> keys, String nearest) {
        public Identified {
            keys = List.copyOf(keys);
        }
    }

    public KeyLadder {
        keys = List.copyOf(keys);
        Guard guard = new Guard()
                .refuseIf(keys.isEmpty(), "keys", "too-few", () -> "keys has no entry")
                .atMost("keys", keys, 32)
                .between("endOhms", endOhms, 0.1, 1e7)
                .between("fixedOhms", fixedOhms, 1, 1e7)
                .between("contactOhms", contactOhms, 0, 10_000)
                .between("toleranceShare", toleranceShare, 0, 0.5)
                .between("fixedToleranceShare", fixedToleranceShare, 0, 0.5)
                .between("adcBits", adcBits, 4, 16);
        Set<String> names = new HashSet<>();
        for (int index = 0; index < keys.size(); index++) {
            String name = keys.get(index).name();
            guard.refuseIf(
                    !names.add(name),
                    "keys/" + index + "/name",
                    "duplicate",
                    () -> "\"" + name + "\" is the name of another key");
        }
        guard.check();
    }

    /** Share of the supply across {@code ohms} fed through {@code fixedOhms}: R / (R + Rf); 1 where open. */
    public static double ratio(double ohms, double fixedOhms) {
        return Double.isInfinite(ohms) ? 1 : ohms / (ohms + fixedOhms);
    }

    /** What a converter makes of a ratio: 2^bits × ratio, rounded, at most 2^bits − 1. */
    public static int counts(double ratio, int adcBits) {
        int steps = 1 << adcBits;
        return (int) Math.min(steps - 1, Math.floor(ratio * steps + 0.5));
    }

    /** What each key reads, and none, by ascending reading. */
    public List<Level> levels() {
        List<Point> points = points();
        double steps = steps();
        List<Level> levels = new ArrayList<>();
        for (int index = 0; index < points.size(); index++) {
            Point point = points.get(index);
            int from = index == 0 ? 0 : (int) Math.floor(thresholdRatio(points, index) * steps) + 1;
            int to = index == points.size() - 1
                    ? (int) steps - 1
                    : (int) Math.min(steps - 1, Math.floor(thresholdRatio(points, index + 1) * steps));
            levels.add(new Level(
                    point.name(),
                    point.ohms(),
                    point.ratio(),
                    counts(point.ratio(), adcBits),
                    Math.max(0, point.leastRatio() * steps - ADC_COUNTS),
                    Math.min(steps, point.mostRatio() * steps + ADC_COUNTS),
                    from,
                    to));
        }
        return levels;
    }

    /**
     * Least counts between what a key may read at the extremes and the end of its window, over all keys; negative where a
     * window is overrun.
     */
    public double leastMarginCounts() {
        List<Point> points = points();
        double slack = ADC_COUNTS / steps();
        double least = Double.POSITIVE_INFINITY;
        for (int upper = 1; upper < points.size(); upper++) {
            double theta = thresholdRatio(points, upper);
            least = Math.min(least, points.get(upper).leastRatio() - slack - theta);
            least = Math.min(least, theta - points.get(upper - 1).mostRatio() - slack);
        }
        return least * steps();
    }

    /**
     * Every key that can be taken for another, the most probable first.
     *
     * <p>A key is taken for another when its reading falls into the other's window. Whether Rk − κ·Rf lies above nothing, at
     * the threshold κ/(1 + κ), is a sum of independent parts, one for each resistor, the contact and the converter; it is
     * linear but for an end resistor beside a set, which is taken to first order. Its distribution is computed, not drawn.
     */
    public List<Confusion> confusions() {
        List<Point> points = points();
        List<Confusion> confusions = new ArrayList<>();
        for (int pressed = 0; pressed < points.size(); pressed++) {
            double[] beyond = beyond(points, pressed);
            for (int other = 0; other < points.size(); other++) {
                if (other != pressed) {
                    // upwards a window begins at its own threshold, downwards at that of the level above it
                    double probability =
                            other > pressed ? beyond[other] - beyond[other + 1] : beyond[other + 1] - beyond[other];
                    boolean within = overlaps(points, pressed, other);
                    if (within || probability >= LEAST_PROBABILITY) {
                        confusions.add(new Confusion(
                                points.get(pressed).name(),
                                points.get(other).name(),
                                Math.max(0, Math.min(1, probability)),
                                within));
                    }
                }
            }
        }
        confusions.sort(Comparator.comparingDouble(Confusion::probability).reversed());
        return confusions;
    }

    /**
     * The probability that a pressed key reads beyond each threshold, seen from its own window: above those above it, below
     * the others. Each tail is computed as such, so that small ones keep their figures, and outwards until nothing is left.
     */
    private double[] beyond(List<Point> points, int pressed) {
        double[] beyond = new double[points.size() + 1];
        for (int threshold = pressed + 1; threshold < points.size(); threshold++) {
            beyond[threshold] = tailProbability(points.get(pressed), thresholdRatio(points, threshold), true);
            if (beyond[threshold] < LEAST_PROBABILITY / 1000) {
                break;
            }
        }
        for (int threshold = pressed; threshold > 0; threshold--) {
            beyond[threshold] = tailProbability(points.get(pressed), thresholdRatio(points, threshold), false);
            if (beyond[threshold] < LEAST_PROBABILITY / 1000) {
                break;
            }
        }
        return beyond;
    }

    /**
     * Which key a reading belongs to.
     *
     * @param ratio of what is read to the supply, 0 to 1: volts by the supply's volts, or counts by 2^bits
     */
    public Identified identify(double ratio) {
        double slack = ADC_COUNTS / steps();
        return identified(points().stream()
                .map(point -> new Fit(
                        point.name(),
                        Math.abs(point.ratio() - ratio),
                        ratio >= point.leastRatio() - slack && ratio <= point.mostRatio() + slack))
                .toList());
    }

    /**
     * Which key a resistance belongs to that was read at the ladder, unplugged from its reader.
     *
     * @param ohms at least 0; infinite for a meter that shows an open circuit
     */
    public Identified identifyOhms(double ohms) {
        double ratio = ratio(ohms, fixedOhms);
        return identified(points().stream()
                .map(point -> new Fit(
                        point.name(),
                        Math.abs(ratio(point.ohms(), fixedOhms) - ratio),
                        ohms >= point.leastOhms() * (1 - 1e-12) && ohms <= point.mostOhms() * (1 + 1e-12)))
                .toList());
    }

    private static Identified identified(List<Fit> fits) {
        List<Fit> byNearness =
                fits.stream().sorted(Comparator.comparingDouble(Fit::away)).toList();
        return new Identified(
                byNearness.stream().filter(Fit::allowed).map(Fit::name).toList(),
                byNearness.get(0).name());
    }

    private record Fit(String name, double away, boolean allowed) {}

    /** A key or none, as it is seen at the ladder and as it reads. */
    private record Point(
            String name,
            double ohms,
            double leastOhms,
            double mostOhms,
            double ratio,
            double leastRatio,
            double mostRatio,
            boolean closed,
            List<Double> parts) {}

    /** Every key, then none, by ascending reading. */
    private List<Point> points() {
        List<Point> points = new ArrayList<>();
        for (int key = 0; key < keys.size(); key++) {
            points.add(point(keys.get(key).name(), resistors(key), true));
        }
        points.add(point(NONE, resistors(keys.size()), false));
        points.sort(Comparator.comparingDouble(Point::ratio));
        return points;
    }

    /** The resistors in a row with the pressed key; all of a chain if none is. */
    private double[] resistors(int key) {
        if (arrangement == LadderArrangement.PARALLEL) {
            return key < keys.size() ? new double[] {keys.get(key).ohms()} : new double[0];
        }
        DoubleStream chain = keys.stream().limit(key + 1L).mapToDouble(Key::ohms);
        if (key < keys.size()) {
            return chain.toArray();
        }
        return endOhms == null
                ? new double[0]
                : DoubleStream.concat(chain, DoubleStream.of(endOhms)).toArray();
    }

    private Point point(String name, double[] row, boolean closed) {
        boolean beside = arrangement == LadderArrangement.PARALLEL && endOhms != null;
        double sum = DoubleStream.of(row).sum();
        double least = 1 - toleranceShare;
        double most = 1 + toleranceShare;
        double worn = closed ? contactOhms : 0;
        boolean open = !closed && row.length == 0;
        double inRow = open ? Double.POSITIVE_INFINITY : sum + worn;
        double ohms = besideEnd(inRow, 1, beside);
        double leastOhms = besideEnd(open ? inRow : sum * least, least, beside);
        double mostOhms = besideEnd(open ? inRow : sum * most + worn, most, beside);
        double ratio = ratio(ohms, fixedOhms);
        double low = ratio(leastOhms, fixedOhms * (1 + fixedToleranceShare));
        double high = ratio(mostOhms, fixedOhms * (1 - fixedToleranceShare));
        boolean turned = readAcross == LadderReadAcross.FIXED;
        return new Point(
                name,
                ohms,
                leastOhms,
                mostOhms,
                turned ? 1 - ratio : ratio,
                turned ? 1 - high : low,
                turned ? 1 - low : high,
                closed,
                DoubleStream.of(row).boxed().toList());
    }

    private double besideEnd(double inRowOhms, double factor, boolean beside) {
        if (!beside || endOhms == null) {
            return inRowOhms;
        }
        double end = endOhms * factor;
        return Double.isInfinite(inRowOhms) ? end : inRowOhms * end / (inRowOhms + end);
    }

    /** Half-way between a level and the one below it. */
    private static double thresholdRatio(List<Point> points, int index) {
        return (points.get(index - 1).ratio() + points.get(index).ratio()) / 2;
    }

    /** Whether a key's reading can lie within another's window. */
    private boolean overlaps(List<Point> points, int pressed, int other) {
        double slack = ADC_COUNTS / steps();
        Point point = points.get(pressed);
        return other > pressed
                ? point.mostRatio() + slack > thresholdRatio(points, other)
                : point.leastRatio() - slack < thresholdRatio(points, other + 1);
    }

    /** Probability that a key reads above, or below, a ratio. */
    private double tailProbability(Point point, double theta, boolean above) {
        // across the fixed resistor all is mirrored
        boolean turned = readAcross == LadderReadAcross.FIXED;
        double limit = turned ? 1 - theta : theta;
        boolean higher = above != turned;
        double halfCount = ADC_COUNTS / steps();
        if (Double.isInfinite(point.ohms())) {
            double part = Math.max(0, Math.min(1, (limit - 1 + halfCount) / (2 * halfCount)));
            return higher ? 1 - part : part;
        }
        if (limit >= 1) {
            return higher ? 0 : 1;
        }
        double kappa = limit / (1 - limit);
        boolean beside = arrangement == LadderArrangement.PARALLEL && endOhms != null;
        double middleContact = point.closed() ? contactOhms / 2 : 0;
        double inRow = point.closed() || !point.parts().isEmpty()
                ? point.parts().stream().mapToDouble(part -> part).sum() + middleContact
                : Double.POSITIVE_INFINITY;
        double ohms = besideEnd(inRow, 1, beside);
        // how far the whole moves with what stands in the row, and with the end beside it: 1 and 0 without an end
        double endShare = !beside || endOhms == null ? 0 : ratio(inRow, endOhms);
        double rowGain = Math.pow(1 - endShare, 2);
        double endGain = Math.pow(endShare, 2);
        DoubleStream.Builder resistors = DoubleStream.builder();
        for (double part : point.parts()) {
            resistors.add(part * toleranceShare * rowGain);
        }
        if (endOhms != null) {
            resistors.add(endOhms * toleranceShare * endGain);
        }
        resistors.add(kappa * fixedOhms * fixedToleranceShare);
        double[] halfWidths = resistors.build().toArray();
        double[] always = {middleContact * rowGain, halfCount * fixedOhms / Math.pow(1 - limit, 2)};
        double margin = ohms - kappa * fixedOhms;
        SpreadSum sum = spread == LadderSpread.NORMAL
                ? SpreadSum.of(
                        Math.sqrt(DoubleStream.of(halfWidths)
                                .map(width -> Math.pow(width / SIGMAS, 2))
                                .sum()),
                        always)
                : SpreadSum.of(
                        0,
                        DoubleStream.concat(DoubleStream.of(halfWidths), DoubleStream.of(always))
                                .toArray());
        // the sum is even about 0, so that P(margin + sum > 0) = P(sum < margin)
        return sum.below(higher ? margin : -margin);
    }

    private double steps() {
        return 1 << adcBits;
    }
}
