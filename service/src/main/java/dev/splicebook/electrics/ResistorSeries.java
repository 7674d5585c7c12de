package dev.splicebook.electrics;

import java.util.Locale;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;

/** Series of preferred resistor values, after IEC 60063 (from memory). */
public enum ResistorSeries {
    E24(0.05, new double[] {
        1.0, 1.1, 1.2, 1.3, 1.5, 1.6, 1.8, 2.0, 2.2, 2.4, 2.7, 3.0, 3.3, 3.6, 3.9, 4.3, 4.7, 5.1, 5.6, 6.2, 6.8, 7.5,
        8.2, 9.1
    }),
    // the values of E96 are those of its law, 10^(n/96), rounded to three figures
    E96(
            0.01,
            IntStream.range(0, 96)
                    .mapToDouble(n -> Math.rint(Math.pow(10, n / 96.0) * 100) / 100)
                    .toArray());

    private final double toleranceShare;
    private final double[] mantissas;

    ResistorSeries(double toleranceShare, double[] mantissas) {
        this.toleranceShare = toleranceShare;
        this.mantissas = mantissas;
    }

    /** Tolerance that such resistors usually have, as a share. */
    public double toleranceShare() {
        return toleranceShare;
    }

    /** All values of the series from {@code leastOhms} to {@code mostOhms}, both included, ascending. */
    public double[] ohmsBetween(double leastOhms, double mostOhms) {
        int first = (int) Math.floor(Math.log10(leastOhms)) - 1;
        int last = (int) Math.ceil(Math.log10(mostOhms)) + 1;
        return IntStream.rangeClosed(first, last)
                .boxed()
                .flatMapToDouble(decade -> DoubleStream.of(mantissas).map(mantissa -> ohms(mantissa, decade)))
                .filter(ohms -> ohms >= leastOhms && ohms <= mostOhms)
                .toArray();
    }

    /** Whole hundredths times or through a power of ten, so that the value is the double nearest to its decimal form. */
    private static double ohms(double mantissa, int decade) {
        double hundredths = Math.rint(mantissa * 100);
        return decade >= 2 ? hundredths * Math.pow(10, decade - 2) : hundredths / Math.pow(10, 2 - decade);
    }

    @Override
    public String toString() {
        return name().toLowerCase(Locale.ROOT);
    }
}
