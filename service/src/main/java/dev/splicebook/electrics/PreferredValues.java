package dev.splicebook.electrics;

import java.util.ArrayList;
import java.util.List;

/** Series of preferred numbers for resistors, capacitors and inductors, after IEC 60063 (from memory). */
public enum PreferredValues {
    E12(10, 12, 15, 18, 22, 27, 33, 39, 47, 56, 68, 82),
    E24(10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91),
    E96(ninetySix());

    private final int[] figures;
    private final int digits;

    PreferredValues(int... figures) {
        this.figures = figures;
        this.digits = figures[0] == 10 ? 1 : 2;
    }

    /**
     * The value of the series that is nearest by ratio, which is how tolerances count.
     *
     * @param value above 0, in any unit
     * @return in the same unit
     */
    public double nearest(double value) {
        if (!(value > 0) || value > 1e300) {
            throw new IllegalArgumentException("no preferred value is near " + value);
        }
        int decade = (int) Math.floor(Math.log10(value));
        double nearest = at(figures.length - 1, decade - 1);
        for (int each = 0; each <= figures.length; each++) {
            double candidate = each < figures.length ? at(each, decade) : at(0, decade + 1);
            if (Math.abs(Math.log(candidate / value)) < Math.abs(Math.log(nearest / value))) {
                nearest = candidate;
            }
        }
        return nearest;
    }

    /** All values from {@code least} to {@code most}, both included and above 0, rising. */
    public List<Double> between(double least, double most) {
        List<Double> values = new ArrayList<>();
        for (int decade = (int) Math.floor(Math.log10(least)) - 1; Math.pow(10, decade) <= most; decade++) {
            for (int each = 0; each < figures.length; each++) {
                double value = at(each, decade);
                if (value >= least && value <= most) {
                    values.add(value);
                }
            }
        }
        return values;
    }

    private double at(int index, int decade) {
        int shift = decade - digits;
        return shift >= 0 ? figures[index] * Math.pow(10, shift) : figures[index] / Math.pow(10, -shift);
    }

    private static int[] ninetySix() {
        int[] figures = new int[96];
        for (int each = 0; each < figures.length; each++) {
            figures[each] = (int) Math.round(100 * Math.pow(10, each / 96.0));
        }
        return figures;
    }
}
