package dev.splicebook.electrics;

import java.util.stream.DoubleStream;

/**
 * The distribution of a sum of independent parts about 0: at most one normal and any number of uniform ones. Its cumulative
 * probabilities stand on an even grid; each uniform part averages them over its width. Good for about 1e-6.
 */
final class SpreadSum {

    private static final int POINTS = 2049;

    /** Beyond so many standard deviations nothing is left that a double could tell. */
    private static final double MOST_SIGMAS = 8.5;

    private final double reach;
    private final double[] below;

    private SpreadSum(double reach, double[] below) {
        this.reach = reach;
        this.below = below;
    }

    /**
     * The sum of a normal part and uniform ones, at least one of which is not 0.
     *
     * @param sigma standard deviation of the normal part, 0 for none
     * @param halfWidths of the uniform parts, each at least 0
     */
    static SpreadSum of(double sigma, double[] halfWidths) {
        // the widest first, so that where nothing is normal the grid begins with a ramp, not with a step
        double[] widths =
                DoubleStream.of(halfWidths).filter(width -> width > 0).sorted().toArray();
        double reach = MOST_SIGMAS * sigma + DoubleStream.of(widths).sum();
        if (!(reach > 0)) {
            throw new IllegalArgumentException("nothing spreads");
        }
        double step = 2 * reach / (POINTS - 1);
        double[] below = new double[POINTS];
        int next = widths.length - 1;
        for (int point = 0; point < POINTS; point++) {
            double x = -reach + point * step;
            below[point] = sigma > 0 ? normalBelow(x / sigma) : ramp(x, widths[next]);
        }
        if (!(sigma > 0)) {
            next--;
        }
        for (; next >= 0; next--) {
            below = averaged(below, step, widths[next]);
        }
        return new SpreadSum(reach, below);
    }

    /** Probability that the sum is below {@code x}. */
    double below(double x) {
        if (x <= -reach) {
            return 0;
        }
        return x >= reach ? 1 : at(below, (x + reach) / (2 * reach) * (POINTS - 1));
    }

    private static double ramp(double x, double halfWidth) {
        return Math.max(0, Math.min(1, (x + halfWidth) / (2 * halfWidth)));
    }

    private static double[] averaged(double[] below, double step, double halfWidth) {
        double[] area = new double[POINTS];
        for (int point = 1; point < POINTS; point++) {
            area[point] = area[point - 1] + (below[point - 1] + below[point]) / 2;
        }
        double cells = halfWidth / step;
        double[] averaged = new double[POINTS];
        for (int point = 0; point < POINTS; point++) {
            averaged[point] = (areaTo(area, below, point + cells) - areaTo(area, below, point - cells)) / (2 * cells);
        }
        return averaged;
    }

    /** Area under the probabilities up to a place on the grid, or beyond it, where they are 0 and 1. */
    private static double areaTo(double[] area, double[] below, double place) {
        int last = POINTS - 1;
        if (place <= 0) {
            return 0;
        }
        if (place >= last) {
            return area[last] + place - last;
        }
        int cell = (int) place;
        double part = place - cell;
        return area[cell] + part * below[cell] + part * part / 2 * (below[cell + 1] - below[cell]);
    }

    private static double at(double[] below, double place) {
        int cell = Math.min((int) place, POINTS - 2);
        return below[cell] + (place - cell) * (below[cell + 1] - below[cell]);
    }

    /** The normal distribution, by the complementary error function in Chebyshev form; 1.2e-7 relative (from memory). */
    static double normalBelow(double sigmas) {
        double z = Math.abs(sigmas) / Math.sqrt(2);
        double t = 1 / (1 + z / 2);
        double[] coefficients = {
            -1.26551223,
            1.00002368,
            0.37409196,
            0.09678418,
            -0.18628806,
            0.27886807,
            -1.13520398,
            1.48851587,
            -0.82215223,
            0.17087277
        };
        double sum = 0;
        for (int power = coefficients.length - 1; power >= 0; power--) {
            sum = sum * t + coefficients[power];
        }
        double tail = t * Math.exp(-z * z + sum) / 2;
        return sigmas < 0 ? tail : 1 - tail;
    }
}
