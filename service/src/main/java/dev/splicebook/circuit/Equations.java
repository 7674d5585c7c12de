package dev.splicebook.circuit;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * A network as equations, after C.-W. Ho, A. E. Ruehli and P. A. Brennan, "The modified nodal approach to network
 * analysis", IEEE Trans. Circuits Syst. 22 (1975) (from memory): the unknowns are the volts of all nodes but ground, and
 * the amps of what has no admittance; for each node there is Kirchhoff's current law, for each unknown current its
 * element's law.
 *
 * <p>Amps are an unknown below {@link #LEAST_OHMS} too, because the difference of two nodes' volts, each rounded, divided
 * by little, says nothing of them any more.
 */
final class Equations {

    private static final double LEAST_OHMS = 1;

    /** So that elements that take the same whatever the volts do not make a solvable network singular on the way. */
    private static final double LEAST_SIEMENS = 1e-12;

    private static final int MOST_CAREFUL = 2000;

    /** What rounding may leave of amps and volts, beside the largest of the network. */
    private static final double ROUNDING_SHARE = 1e-6;

    private final Map<String, Integer> numbers = new LinkedHashMap<>();
    private final List<String> nodes = new ArrayList<>();
    private final List<Edge> edges = new ArrayList<>();
    /** Real numbers to one unknown: 1 at DC, 2 at AC. */
    private final int parts;

    /** Volts of all nodes but ground, then unknown amps. */
    private int unknowns;

    private final boolean linear;
    private final boolean loaded;

    private Easing easing = Easing.NONE;
    private final double[] biasVolts;

    private final double[] amps;
    private final double[] nodeAmps;

    /**
     * @param hertz null at DC
     * @param slopes siemens of each element that is not linear, in the network's order; unread at DC
     */
    private Equations(Network network, @Nullable Double hertz, double[] slopes) {
        parts = hertz == null ? 1 : 2;
        for (Element element : network.elements()) {
            for (String node : element.ends()) {
                count(node, network.ground());
            }
        }
        unknowns = nodes.size();
        List<Element> elements = network.elements();
        for (int at = 0; at < elements.size(); at++) {
            edges.add(hertz == null ? dcEdge(elements.get(at)) : acEdge(elements.get(at), hertz, slopes[at]));
        }
        loaded = edges.stream().anyMatch(Edge::takesPower);
        linear = edges.stream().allMatch(edge -> edge.law() == null);
        biasVolts = new double[edges.size()];
        amps = new double[edges.size() * parts];
        nodeAmps = new double[nodes.size()];
    }

    static Equations dc(Network network) {
        return new Equations(network, null, new double[0]);
    }

    /** @param slopes siemens of each element that is not linear, in the network's order; of others unread */
    static Equations ac(Network network, double hertz, double[] slopes) {
        return new Equations(network, hertz, slopes);
    }

    private void count(String node, String ground) {
        if (numbers.putIfAbsent(node, node.equals(ground) ? Edge.NONE : nodes.size()) == null && !node.equals(ground)) {
            nodes.add(node);
        }
    }

    private Edge dcEdge(Element element) {
        if (element instanceof Element.Resistor resistor) {
            return impedance(element, resistor.ohms(), 0);
        }
        if (element instanceof Element.VoltageSource source) {
            return edge(element, unknowns++, 0, 0, source.volts(), 0, null, null);
        }
        if (element instanceof Element.CurrentSource source) {
            return edge(element, Edge.NONE, 0, 0, source.amps(), 0, null, null);
        }
        if (element instanceof Element.Capacitor) {
            return edge(element, Edge.NONE, 0, 0, 0, 0, null, null);
        }
        if (element instanceof Element.Inductor) {
            return impedance(element, 0, 0);
        }
        if (element instanceof Element.IdealTransformer transformer) {
            return transformer(transformer);
        }
        return edge(element, Edge.NONE, 0, 0, 0, 0, Law.of(element), null);
    }

    private Edge acEdge(Element element, double hertz, double slope) {
        double radiansPerSecond = 2 * Math.PI * hertz;
        if (element instanceof Element.Resistor resistor) {
            return impedance(element, resistor.ohms(), 0);
        }
        if (element instanceof Element.VoltageSource source) {
            double radians = Math.toRadians(source.acPhaseDegrees());
            return edge(
                    element,
                    unknowns++,
                    0,
                    0,
                    source.acVolts() * Math.cos(radians),
                    source.acVolts() * Math.sin(radians),
                    null,
                    null);
        }
        if (element instanceof Element.CurrentSource source) {
            double radians = Math.toRadians(source.acPhaseDegrees());
            return edge(
                    element,
                    Edge.NONE,
                    0,
                    0,
                    source.acAmps() * Math.cos(radians),
                    source.acAmps() * Math.sin(radians),
                    null,
                    null);
        }
        if (element instanceof Element.Capacitor capacitor) {
            return impedance(element, 0, -1 / (radiansPerSecond * capacitor.farads()));
        }
        if (element instanceof Element.Inductor inductor) {
            return impedance(element, 0, radiansPerSecond * inductor.henries());
        }
        if (element instanceof Element.IdealTransformer transformer) {
            return transformer(transformer);
        }
        return edge(element, Edge.NONE, Math.abs(slope) < LEAST_SIEMENS ? 0 : slope, 0, 0, 0, null, null);
    }

    private Edge impedance(Element element, double ohms, double reactiveOhms) {
        double squared = ohms * ohms + reactiveOhms * reactiveOhms;
        return squared < LEAST_OHMS * LEAST_OHMS
                ? edge(element, unknowns++, ohms, reactiveOhms, 0, 0, null, null)
                : edge(element, Edge.NONE, ohms / squared, -reactiveOhms / squared, 0, 0, null, null);
    }

    private Edge transformer(Element.IdealTransformer element) {
        Edge.Winding secondary =
                new Edge.Winding(number(element.secondaryFrom()), number(element.secondaryTo()), element.ratio());
        return edge(element, unknowns++, 0, 0, 0, 0, null, secondary);
    }

    private Edge edge(
            Element element,
            int current,
            double re,
            double im,
            double sourceRe,
            double sourceIm,
            @Nullable Law law,
            Edge.@Nullable Winding winding) {
        return new Edge(
                element,
                number(element.from()),
                number(element.to()),
                current,
                re,
                im,
                sourceRe,
                sourceIm,
                law,
                winding);
    }

    private int number(String node) {
        return Named.get(numbers, node);
    }

    /** The change of the equations with their unknowns. */
    Jacobian jacobian(boolean careful) {
        return new Jacobian(nodes.size(), edges, unknowns, parts, careful);
    }

    /** Siemens of each element that is not linear, at the bias; zero of the others. */
    double[] slopes() {
        double[] slopes = new double[edges.size()];
        for (int at = 0; at < slopes.length; at++) {
            Law law = edges.get(at).law();
            if (law != null) {
                slopes[at] = slope(law, biasVolts[at]);
            }
        }
        return slopes;
    }

    private double slope(Law law, double volts) {
        double slope = law.slope(volts, easing);
        return Math.abs(slope) < LEAST_SIEMENS && law.conducts() ? LEAST_SIEMENS : slope;
    }

    void ease(Easing easing) {
        this.easing = easing;
    }

    /** Linearises at the very volts of {@code x}. */
    void bias(double[] x) {
        for (int at = 0; at < edges.size(); at++) {
            if (edges.get(at).law() != null) {
                biasVolts[at] = volts(x, edges.get(at), 0);
            }
        }
    }

    /** Linearises at the volts of {@code x}, or on the way from the last bias to there where that is far. */
    void limitBias(double[] x) {
        for (int at = 0; at < edges.size(); at++) {
            Law law = edges.get(at).law();
            if (law != null) {
                biasVolts[at] = law.limited(biasVolts[at], volts(x, edges.get(at), 0), easing);
            }
        }
    }

    /** By how much {@code x} misses the equations, linearised at the bias, into {@code missing}. */
    void linearMiss(double[] x, double[] missing) {
        flow(x, true);
        miss(x, missing);
    }

    /**
     * By how much {@code x} misses the equations, into {@code missing}.
     *
     * @return the largest of it, relative: amps to the sum of all amounts at the node and a millionth of the largest amps of
     *     the network and of what its largest volts would drive through the node's admittances; volts to the sum of all
     *     amounts in the element and a millionth of the largest volts of the network
     */
    double residual(double[] x, double[] missing) {
        flow(x, false);
        miss(x, missing);
        return relative(x, missing);
    }

    private double relative(double[] x, double[] missing) {
        double mostVolts = 0;
        double mostAmps = 0;
        for (int node = 0; node < nodes.size(); node++) {
            mostVolts = Math.max(mostVolts, size(x, node));
        }
        for (int at = 0; at < edges.size(); at++) {
            mostAmps = Math.max(mostAmps, size(amps, at));
            mostVolts = Math.max(mostVolts, dropVolts(edges.get(at), at));
        }
        Arrays.fill(nodeAmps, ROUNDING_SHARE * mostAmps);
        double worst = 0;
        for (int at = 0; at < edges.size(); at++) {
            Edge edge = edges.get(at);
            double flow = size(amps, at);
            if (edge.hasCurrent()) {
                double volts =
                        size(x, edge.from()) + size(x, edge.to()) + dropVolts(edge, at) + ROUNDING_SHARE * mostVolts;
                Edge.Winding winding = edge.winding();
                if (winding != null) {
                    volts += winding.ratio()
                            * (size(x, winding.from()) + size(x, winding.to()) + ROUNDING_SHARE * mostVolts);
                    addTo(winding.from(), winding.ratio() * flow);
                    addTo(winding.to(), winding.ratio() * flow);
                }
                worst = worse(worst, size(missing, edge.current()), volts);
            } else {
                Law law = edge.law();
                double siemens = law == null
                        ? Math.abs(edge.re()) + Math.abs(edge.im())
                        : Math.abs(law.slope(volts(x, edge, 0), easing));
                flow += ROUNDING_SHARE * mostVolts * siemens;
            }
            addTo(edge.from(), flow);
            addTo(edge.to(), flow);
        }
        for (int node = 0; node < nodes.size(); node++) {
            worst = worse(worst, size(missing, node), nodeAmps[node]);
        }
        return worst;
    }

    /** NaN counts as infinite, and nothing of nothing as zero. */
    private static double worse(double worst, double missing, double of) {
        double relative = missing == 0 ? 0 : missing / of;
        return relative <= worst ? worst : relative < Double.POSITIVE_INFINITY ? relative : Double.POSITIVE_INFINITY;
    }

    private void addTo(int node, double flow) {
        if (node != Edge.NONE) {
            nodeAmps[node] += flow;
        }
    }

    /** What an element with an unknown current keeps between its ends, by amount. */
    private double dropVolts(Edge edge, int at) {
        return edge.hasCurrent()
                ? (Math.abs(edge.re()) + Math.abs(edge.im())) * size(amps, at)
                        + easing.drive() * (Math.abs(edge.sourceRe()) + Math.abs(edge.sourceIm()))
                : 0;
    }

    /** Amount of a complex number: the sum of its parts' amounts, which is within a root of two of its magnitude. */
    private double size(double[] of, int at) {
        if (at == Edge.NONE) {
            return 0;
        }
        return parts == 1 ? Math.abs(of[at]) : Math.abs(of[2 * at]) + Math.abs(of[2 * at + 1]);
    }

    /** Amps of each element into {@link #amps}. */
    private void flow(double[] x, boolean linearised) {
        for (int at = 0; at < edges.size(); at++) {
            Edge edge = edges.get(at);
            Law law = edge.law();
            if (edge.hasCurrent()) {
                System.arraycopy(x, parts * edge.current(), amps, parts * at, parts);
            } else if (law != null) {
                double volts = volts(x, edge, 0);
                amps[at] = linearised
                        ? law.amps(biasVolts[at], easing) + slope(law, biasVolts[at]) * (volts - biasVolts[at])
                        : law.amps(volts, easing);
            } else if (parts == 1) {
                amps[at] = edge.re() * volts(x, edge, 0) + easing.drive() * edge.sourceRe();
            } else {
                double re = volts(x, edge, 0);
                double im = volts(x, edge, 1);
                amps[2 * at] = edge.re() * re - edge.im() * im + easing.drive() * edge.sourceRe();
                amps[2 * at + 1] = edge.re() * im + edge.im() * re + easing.drive() * edge.sourceIm();
            }
        }
    }

    private void miss(double[] x, double[] missing) {
        Arrays.fill(missing, 0);
        for (int at = 0; at < edges.size(); at++) {
            Edge edge = edges.get(at);
            Edge.Winding winding = edge.winding();
            for (int part = 0; part < parts; part++) {
                double flow = amps[parts * at + part];
                leave(missing, edge.from(), part, flow);
                leave(missing, edge.to(), part, -flow);
                if (winding != null) {
                    leave(missing, winding.from(), part, -winding.ratio() * flow);
                    leave(missing, winding.to(), part, winding.ratio() * flow);
                }
                if (edge.hasCurrent()) {
                    double others = winding == null
                            ? ownVolts(x, edge, at, part)
                            : winding.ratio() * volts(x, winding.from(), winding.to(), part);
                    missing[parts * edge.current() + part] = volts(x, edge, part) - others;
                }
            }
        }
    }

    /**
     * One part of the volts that, times its amps, are what an element takes. Where amps are an unknown, they follow from
     * these, for the difference of its nodes' volts may have few digits; a transformer takes nothing.
     */
    double ownVolts(double[] x, Edge edge, int at, int part) {
        if (!edge.hasCurrent()) {
            return volts(x, edge, part);
        }
        double other = parts == 1 ? 0 : amps[2 * at + 1 - part];
        return edge.re() * amps[parts * at + part]
                + (part == 0 ? -edge.im() : edge.im()) * other
                + easing.drive() * (part == 0 ? edge.sourceRe() : edge.sourceIm());
    }

    private void leave(double[] missing, int node, int part, double flow) {
        if (node != Edge.NONE) {
            missing[parts * node + part] += flow;
        }
    }

    private double volts(double[] x, Edge edge, int part) {
        return volts(x, edge.from(), edge.to(), part);
    }

    /** One part of the volts between two nodes. */
    double volts(double[] x, int from, int to, int part) {
        return (from == Edge.NONE ? 0 : x[parts * from + part]) - (to == Edge.NONE ? 0 : x[parts * to + part]);
    }

    /** What leaves each node more if constant-power loads took all of their watts more. */
    double[] growth(double[] x) {
        double[] growth = new double[length()];
        for (Edge edge : edges) {
            if (edge.law() instanceof Law.SteadyPower law && edge.takesPower()) {
                double flow = law.watts() / volts(x, edge, 0);
                leave(growth, edge.from(), 0, flow);
                leave(growth, edge.to(), 0, -flow);
            }
        }
        return growth;
    }

    int length() {
        return parts * unknowns;
    }

    boolean linear() {
        return linear;
    }

    /** Whether a careful {@link Jacobian} is another, and not too dear. */
    boolean rewardsCare() {
        long ohms = edges.stream().filter(Edge::hasOhms).count();
        return ohms > 0 && ohms <= MOST_CAREFUL;
    }

    /** Whether a constant-power load takes anything. */
    boolean loaded() {
        return loaded;
    }

    /** Whether these are the equations of the network as it is. */
    boolean whole() {
        return easing.drive() == 1 && (easing.share() == 1 || !loaded);
    }

    List<String> nodes() {
        return nodes;
    }

    List<Edge> edges() {
        return edges;
    }

    /** Numbers of all nodes by their names, in the network's order; {@link Edge#NONE} for ground. */
    Map<String, Integer> numbers() {
        return numbers;
    }

    /** Amps of each element, part by part, where {@link #residual} was last asked for. */
    double[] amps() {
        return amps;
    }

    /** Volts across an element at DC. */
    double voltsAcross(double[] x, Edge edge) {
        return volts(x, edge, 0);
    }
}
