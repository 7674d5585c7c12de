package dev.splicebook.circuit;

import dev.splicebook.guard.Guard;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * Solves networks, and tells honestly where that cannot be done.
 *
 * <p>Every answer is put back into Kirchhoff's laws, with amps from each element's own law: at each node, what the amps do
 * not add up to zero by, over the sum of their amounts; in each element whose amps are an unknown, what its volts are
 * missed by, over the sum of the amounts that make them. The largest of these is the residual, and an answer has at most
 * {@value #MOST_RESIDUAL}. So that rounding alone cannot exceed it where nothing flows, a millionth of the largest amps of
 * the network, and of what its largest volts would drive through the node's elements, is added to the amounts.
 *
 * <p>A node that hangs on less than some 1e-14 of the largest admittance around it is beyond what doubles tell, and may
 * count as hanging on nothing.
 */
public final class Solver {

    /** Residual, relative, above which a solution is none. */
    public static final double MOST_RESIDUAL = 1e-9;

    /** Highest frequency. */
    public static final double MOST_HERTZ = 1e12;

    private static final int MOST_ITERATIONS = 10_000;

    /** Parts of a null vector below this, beside the largest, are rounding. */
    private static final double LEAST_NULL_PART = 1e-9;

    /** Volts across a load below this, beside the largest, are leaks and rounding, and feed nothing. */
    private static final double LEAST_FEED_SHARE = 1e-9;

    private Solver() {}

    /** The DC solution: capacitors open, inductors perfect conductors. */
    public static DcResult dc(Network network) {
        return dc(network, MOST_ITERATIONS);
    }

    static DcResult dc(Network network, int mostIterations) {
        Equations equations = Equations.dc(network);
        Singular fault = Topology.fault(equations.nodes(), equations.edges());
        if (fault != null) {
            return fault;
        }
        DcResult result = dc(equations, false, mostIterations);
        return equations.rewardsCare() && isDoubtful(result) ? dc(equations, true, mostIterations) : result;
    }

    /** Whether digits that were lost might have made this of a network that has a solution. */
    private static boolean isDoubtful(Object result) {
        return result instanceof IterationLimit || result instanceof Singular;
    }

    private static DcResult dc(Equations equations, boolean careful, int mostIterations) {
        Newton newton = new Newton(equations, careful, mostIterations);
        if (!newton.settleUnloaded()) {
            return newton.singular()
                    ? dependent(equations, newton)
                    : new IterationLimit(newton.iterations(), newton.leastResidual());
        }
        if (equations.loaded()) {
            NoOperatingPoint unfed = unfed(equations, newton.unknowns());
            if (unfed != null) {
                return unfed;
            }
            if (!newton.settleLoaded()) {
                NoOperatingPoint turn = newton.turn();
                return turn != null ? turn : new IterationLimit(newton.iterations(), newton.leastResidual());
            }
        }
        return solved(equations, newton);
    }

    /**
     * The AC solution in the steady state at one frequency, of sources' AC parts alone. Diodes, constant-power and
     * constant-current loads are their slopes at the network's DC operating point, for swings too small to leave it.
     *
     * @param hertz above 0, to {@value #MOST_HERTZ}
     * @throws dev.splicebook.guard.InvalidValueException if the frequency is outside
     */
    public static AcResult ac(Network network, double hertz) {
        new Guard().positive("hertz", hertz, MOST_HERTZ).check();
        List<Element> elements = network.elements();
        double[] slopes = new double[elements.size()];
        if (elements.stream().anyMatch(element -> Law.of(element) != null)) {
            DcResult dc = dc(network);
            if (!(dc instanceof DcResult.Solved biased)) {
                return new AcResult.NotBiased(dc);
            }
            for (int at = 0; at < slopes.length; at++) {
                Element element = elements.get(at);
                Law law = Law.of(element);
                if (law != null) {
                    slopes[at] =
                            law.slope(biased.getVolts(element.from()) - biased.getVolts(element.to()), Easing.NONE);
                }
            }
        }
        Equations equations = Equations.ac(network, hertz, slopes);
        Singular fault = Topology.fault(equations.nodes(), equations.edges());
        if (fault != null) {
            return fault;
        }
        AcResult result = ac(equations, hertz, false);
        return equations.rewardsCare() && isDoubtful(result) ? ac(equations, hertz, true) : result;
    }

    private static AcResult ac(Equations equations, double hertz, boolean careful) {
        Newton newton = new Newton(equations, careful, MOST_ITERATIONS);
        if (!newton.settleUnloaded()) {
            return newton.singular()
                    ? dependent(equations, newton)
                    : new IterationLimit(newton.iterations(), newton.leastResidual());
        }
        return solved(equations, newton, hertz);
    }

    /** A load that has next to no volts even while none takes anything. */
    private static @Nullable NoOperatingPoint unfed(Equations equations, double[] x) {
        double mostVolts = 0;
        for (int node = 0; node < equations.nodes().size(); node++) {
            mostVolts = Math.max(mostVolts, Math.abs(x[node]));
        }
        for (Edge edge : equations.edges()) {
            double volts = equations.voltsAcross(x, edge);
            if (edge.takesPower() && Math.abs(volts) <= LEAST_FEED_SHARE * mostVolts) {
                return new NoOperatingPoint(edge.element().name(), 0, volts);
            }
        }
        return null;
    }

    private static Singular dependent(Equations equations, Newton newton) {
        double[] vector = newton.nullVector();
        double least = LEAST_NULL_PART * Arrays.stream(vector).max().orElse(0);
        List<String> nodes = new ArrayList<>();
        for (int node = 0; node < equations.nodes().size(); node++) {
            if (vector[node] > least) {
                nodes.add(equations.nodes().get(node));
            }
        }
        List<String> elements = new ArrayList<>();
        for (Edge edge : equations.edges()) {
            if (edge.hasCurrent() && vector[edge.current()] > least) {
                elements.add(edge.element().name());
            }
        }
        return new Singular(Singular.Cause.DEPENDENT, nodes, elements);
    }

    private static DcResult solved(Equations equations, Newton newton) {
        double[] x = newton.unknowns();
        double residual = equations.residual(x, new double[x.length]);
        double[] amps = equations.amps();
        Map<String, DcResult.Branch> branches = new LinkedHashMap<>();
        List<Edge> edges = equations.edges();
        for (int at = 0; at < edges.size(); at++) {
            Edge edge = edges.get(at);
            branches.put(
                    edge.element().name(),
                    new DcResult.Branch(amps[at], equations.ownVolts(x, edge, at, 0) * amps[at]));
        }
        Map<String, Double> volts = new LinkedHashMap<>();
        equations.numbers().forEach((node, number) -> volts.put(node, number == Edge.NONE ? 0 : x[number]));
        return new DcResult.Solved(
                Collections.unmodifiableMap(volts),
                Collections.unmodifiableMap(branches),
                residual,
                newton.iterations());
    }

    private static AcResult solved(Equations equations, Newton newton, double hertz) {
        double[] x = newton.unknowns();
        double residual = equations.residual(x, new double[x.length]);
        double[] amps = equations.amps();
        Map<String, AcResult.Branch> branches = new LinkedHashMap<>();
        List<Edge> edges = equations.edges();
        for (int at = 0; at < edges.size(); at++) {
            Edge edge = edges.get(at);
            double voltsRe = equations.ownVolts(x, edge, at, 0);
            double voltsIm = equations.ownVolts(x, edge, at, 1);
            Phasor flow = new Phasor(amps[2 * at], amps[2 * at + 1]);
            branches.put(
                    edge.element().name(),
                    new AcResult.Branch(
                            flow,
                            voltsRe * flow.real() + voltsIm * flow.imaginary(),
                            voltsIm * flow.real() - voltsRe * flow.imaginary()));
        }
        Map<String, Phasor> volts = new LinkedHashMap<>();
        equations
                .numbers()
                .forEach((node, number) -> volts.put(
                        node, number == Edge.NONE ? new Phasor(0, 0) : new Phasor(x[2 * number], x[2 * number + 1])));
        return new AcResult.Solved(
                hertz, Collections.unmodifiableMap(volts), Collections.unmodifiableMap(branches), residual);
    }
}
