package dev.splicebook.electrics;

import dev.splicebook.guard.Guard;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.function.DoubleUnaryOperator;
import org.jspecify.annotations.Nullable;

/**
 * A passive crossover filter: a ladder between a source of voltage and one driver, which counts as a resistance.
 *
 * <p>The ladder is developed from the denominator D of the transfer function by continued fraction: with m and n its even
 * and odd parts, the shorted-input admittance seen from the load is m/n for an even order and n/m is the impedance for an
 * odd one (Darlington's singly terminated synthesis; from memory). Butterworth and Linkwitz-Riley polynomials are exact,
 * Bessel's are the reverse Bessel polynomials, scaled to −3 dB at the corner. A high-pass is the low-pass with s → 1/s.
 *
 * @param order 1 to 4; even for Linkwitz-Riley
 * @param alignment of the response
 * @param ohms of the driver, 0.5 to 1000
 * @param hertz of the corner, 1 to 100 000: −3 dB, or −6 dB for Linkwitz-Riley
 * @param side which the driver is to reproduce
 */
public record Crossover(int order, CrossoverAlignment alignment, double ohms, double hertz, CrossoverSide side) {

    public Crossover {
        new Guard()
                .between("order", order, 1, 4)
                .between("ohms", ohms, 0.5, 1000)
                .between("hertz", hertz, 1, 100_000)
                .refuseIf(
                        alignment == CrossoverAlignment.LINKWITZ_RILEY && order % 2 != 0,
                        "order",
                        "inconsistent",
                        () -> "order is " + order + ", and Linkwitz-Riley has even orders only")
                .check();
    }

    /** The shape of the response around its corner. */
    public enum CrossoverAlignment {
        BUTTERWORTH,
        LINKWITZ_RILEY,
        BESSEL;

        /** The gain at the corner: 1/√2, or 1/2 for Linkwitz-Riley. */
        public double cornerGain() {
            return this == LINKWITZ_RILEY ? 0.5 : Math.sqrt(0.5);
        }

        @Override
        public String toString() {
            return name().toLowerCase(Locale.ROOT).replace('_', '-');
        }
    }

    /** Which side of the corner passes. */
    public enum CrossoverSide {
        LOW_PASS,
        HIGH_PASS;

        @Override
        public String toString() {
            return name().toLowerCase(Locale.ROOT).replace('_', '-');
        }
    }

    /** What a component is. */
    public enum CrossoverKind {
        CAPACITOR,
        INDUCTOR
    }

    /** Where it stands: in the lead, or across what follows. */
    public enum CrossoverPlace {
        SERIES,
        SHUNT
    }

    /**
     * One component of the ladder.
     *
     * @param microfarads of a capacitor, else absent
     * @param millihenries of an inductor, else absent
     */
    public record Component(
            CrossoverKind kind,
            CrossoverPlace place,
            @Nullable Double microfarads,
            @Nullable Double millihenries) {

        public Component {
            new Guard()
                    .refuseIf(
                            (kind == CrossoverKind.CAPACITOR) != (microfarads != null)
                                    || (kind == CrossoverKind.INDUCTOR) != (millihenries != null),
                            "",
                            "inconsistent",
                            () -> "a capacitor has microfarads and an inductor millihenries")
                    .positive("microfarads", microfarads, 1e9)
                    .positive("millihenries", millihenries, 1e9)
                    .check();
        }

        static Component capacitor(CrossoverPlace place, double microfarads) {
            return new Component(CrossoverKind.CAPACITOR, place, microfarads, null);
        }

        static Component inductor(CrossoverPlace place, double millihenries) {
            return new Component(CrossoverKind.INDUCTOR, place, null, millihenries);
        }

        /** The same component in the nearest value that can be bought. */
        public Component rounded(PreferredValues series) {
            return new Component(
                    kind,
                    place,
                    microfarads == null ? null : series.nearest(microfarads),
                    millihenries == null ? null : series.nearest(millihenries));
        }

        /** Ohms of reactance: ωL above zero, −1/(ωC) below. */
        double reactanceOhms(double radiansPerSecond) {
            if (microfarads != null) {
                return -1e6 / (radiansPerSecond * microfarads);
            }
            return millihenries == null ? 0 : radiansPerSecond * millihenries / 1e3;
        }
    }

    /** Henries and farads in turn of the low-pass for 1 Ω and 1 rad/s, in order from the source. */
    public List<Double> prototype() {
        return Arrays.stream(prototype(polynomial(alignment, order))).boxed().toList();
    }

    /** The components in order from the source, with the values that theory gives. */
    public List<Component> components() {
        double omega = 2 * Math.PI * hertz;
        List<Component> components = new ArrayList<>();
        for (double value : prototype()) {
            // a source of voltage is followed by a component in the lead, and they take turns
            boolean series = components.size() % 2 == 0;
            CrossoverPlace place = series ? CrossoverPlace.SERIES : CrossoverPlace.SHUNT;
            if (side == CrossoverSide.LOW_PASS) {
                components.add(
                        series
                                ? Component.inductor(place, value * ohms / omega * 1e3)
                                : Component.capacitor(place, value / (omega * ohms) * 1e6));
            } else {
                components.add(
                        series
                                ? Component.capacitor(place, 1 / (value * omega * ohms) * 1e6)
                                : Component.inductor(place, ohms / (value * omega) * 1e3));
            }
        }
        return List.copyOf(components);
    }

    /** The components in the nearest values of a series. */
    public List<Component> components(PreferredValues series) {
        return components().stream().map(each -> each.rounded(series)).toList();
    }

    /**
     * Where given components in place of the ideal ones put the corner.
     *
     * @param components in order from the source, within a factor of four of the ideal ones
     * @return Hz at which the gain last crosses that of the corner on its way into the stop band
     */
    public double cornerHertz(List<Component> components) {
        return cornerHertz(hertz, side, alignment.cornerGain(), at -> gain(components, ohms, at));
    }

    /**
     * |V(load)/V(source)| of a ladder.
     *
     * @param components in order from the source
     * @return 0 and above; 1 far inside the pass band
     */
    public static double gain(List<Component> components, double loadOhms, double hertz) {
        double omega = 2 * Math.PI * hertz;
        // from the load, 1 V across it, towards the source: each component is met by the volts and amps behind it
        double voltsReal = 1;
        double voltsImaginary = 0;
        double ampsReal = 1 / loadOhms;
        double ampsImaginary = 0;
        for (int each = components.size() - 1; each >= 0; each--) {
            Component component = components.get(each);
            double reactanceOhms = component.reactanceOhms(omega);
            if (component.place() == CrossoverPlace.SERIES) {
                voltsReal -= reactanceOhms * ampsImaginary;
                voltsImaginary += reactanceOhms * ampsReal;
            } else {
                ampsReal += voltsImaginary / reactanceOhms;
                ampsImaginary -= voltsReal / reactanceOhms;
            }
        }
        return 1 / Math.hypot(voltsReal, voltsImaginary);
    }

    /**
     * The denominator of the low-pass with its corner at 1 rad/s.
     *
     * @return coefficients of s⁰, s¹, … with the first 1
     */
    static double[] polynomial(CrossoverAlignment alignment, int order) {
        return switch (alignment) {
            case BUTTERWORTH -> butterworth(order);
            case LINKWITZ_RILEY -> times(butterworth(order / 2), butterworth(order / 2));
            case BESSEL -> bessel(order);
        };
    }

    /** ∏(s² + 2·sin((2k−1)π/2n)·s + 1), with s + 1 for an odd order. */
    private static double[] butterworth(int order) {
        double[] product = order % 2 == 0 ? new double[] {1} : new double[] {1, 1};
        for (int pair = 1; pair <= order / 2; pair++) {
            double damping = 2 * Math.sin((2 * pair - 1) * Math.PI / (2 * order));
            product = times(product, new double[] {1, damping, 1});
        }
        return product;
    }

    /** Σ (2n−k)!/(2^(n−k)·k!·(n−k)!)·s^k, scaled to −3 dB at 1 rad/s. */
    private static double[] bessel(int order) {
        double[] polynomial = new double[order + 1];
        for (int power = 0; power <= order; power++) {
            polynomial[power] = factorial(2 * order - power)
                    / (Math.pow(2, order - power) * factorial(power) * factorial(order - power));
        }
        double first = polynomial[0];
        double corner = cornerHertz(1, CrossoverSide.LOW_PASS, Math.sqrt(0.5), at -> first / magnitude(polynomial, at));
        for (int power = 0; power <= order; power++) {
            polynomial[power] *= Math.pow(corner, power) / first;
        }
        return polynomial;
    }

    /** |D(jω)|. */
    static double magnitude(double[] polynomial, double omega) {
        double real = 0;
        double imaginary = 0;
        for (int power = polynomial.length - 1; power >= 0; power--) {
            double before = real;
            real = polynomial[power] - imaginary * omega;
            imaginary = before * omega;
        }
        return Math.hypot(real, imaginary);
    }

    /**
     * The low-pass ladder for 1 Ω and 1 rad/s, by continued fraction.
     *
     * @return henries and farads in turn, from the source; the first in series
     */
    static double[] prototype(double[] polynomial) {
        int order = polynomial.length - 1;
        double[] upper = partOf(polynomial, order % 2);
        double[] lower = partOf(polynomial, 1 - order % 2);
        double[] values = new double[order];
        for (int degree = order; degree > 0; degree--) {
            double quotient = upper[degree] / lower[degree - 1];
            // the development begins at the load
            values[degree - 1] = quotient;
            for (int power = 0; power < degree; power++) {
                upper[power + 1] -= quotient * lower[power];
            }
            double[] rest = upper;
            upper = lower;
            lower = rest;
        }
        return values;
    }

    private static double[] partOf(double[] polynomial, int parity) {
        double[] part = new double[polynomial.length];
        for (int power = parity; power < polynomial.length; power += 2) {
            part[power] = polynomial[power];
        }
        return part;
    }

    private static double cornerHertz(
            double nearHertz, CrossoverSide side, double cornerGain, DoubleUnaryOperator gain) {
        double inwards = side == CrossoverSide.LOW_PASS ? 1 / 1.02 : 1.02;
        // the gain of rounded components may ripple, and only beyond its last crossing is it the stop band
        double outer = side == CrossoverSide.LOW_PASS ? nearHertz * 8 : nearHertz / 8;
        double inner = outer * inwards;
        while (gain.applyAsDouble(inner) < cornerGain) {
            outer = inner;
            inner *= inwards;
        }
        for (int halving = 0; halving < 60; halving++) {
            double middle = Math.sqrt(outer * inner);
            if (gain.applyAsDouble(middle) < cornerGain) {
                outer = middle;
            } else {
                inner = middle;
            }
        }
        return inner;
    }

    private static double[] times(double[] one, double[] other) {
        double[] product = new double[one.length + other.length - 1];
        for (int each = 0; each < one.length; each++) {
            for (int by = 0; by < other.length; by++) {
                product[each + by] += one[each] * other[by];
            }
        }
        return product;
    }

    private static double factorial(int number) {
        double product = 1;
        for (int factor = 2; factor <= number; factor++) {
            product *= factor;
        }
        return product;
    }
}
