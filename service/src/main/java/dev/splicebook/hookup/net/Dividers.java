package dev.splicebook.hookup.net;

import dev.splicebook.circuit.DcResult;
import dev.splicebook.circuit.Element;
import dev.splicebook.circuit.Solver;
import dev.splicebook.hookup.Device;
import dev.splicebook.hookup.Drive;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.InputReturn;
import dev.splicebook.hookup.OutputReturn;
import dev.splicebook.hookup.Side;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/**
 * What resistors between an output and an input do to its signal, as couplings whose gain is solved: each source drives the
 * network alone while the others stand still, as superposition has it, and inputs load it that state their impedance.
 */
final class Dividers {

    /** All nets that are the vehicle's ground count as one. */
    private static final int GROUND = -1;

    private static final double NOTHING = 1e-9;

    private final Partition partition;
    private final Network network;
    private final Map<Integer, Boolean> grounded = new HashMap<>();
    private final List<Branch> branches = new ArrayList<>();
    private final Map<Integer, List<Branch>> branchesOf = new HashMap<>();

    /** What current can pass between two nets. */
    private record Branch(int one, int other, double ohms) {}

    /** Two terminals that belong together, and what stands between or behind them; 0 where unknown. */
    private record Pair(Node first, @Nullable Node second, double ohms) {}

    private Dividers(Network network, Partition partition) {
        this.network = network;
        this.partition = partition;
    }

    static List<Coupling> of(Network network, Partition partition) {
        boolean none = network.links().stream().noneMatch(link -> link.kind() == Link.Kind.RESISTOR);
        return none ? List.of() : new Dividers(network, partition).couplings();
    }

    private List<Coupling> couplings() {
        network.hookup().devices().forEach((part, device) -> {
            for (Device.Resistor resistor : device.resistors()) {
                Node one = network.findNode(part + "." + resistor.between().get(0));
                Node other = network.findNode(part + "." + resistor.between().get(1));
                if (one != null && other != null) {
                    add(new Branch(net(one), net(other), resistor.ohms()));
                }
            }
        });
        List<Pair> sources = pairs(true);
        List<Pair> inputs = pairs(false);
        List<Coupling> couplings = new ArrayList<>();
        for (Pair source : sources) {
            Set<Integer> reached = reached(source);
            if (reached.size() < 3) {
                continue;
            }
            List<Pair> listening = new ArrayList<>();
            for (Pair input : inputs) {
                if (isThere(input, reached) && isBehindResistors(input, source)) {
                    listening.add(input);
                }
            }
            if (!listening.isEmpty()) {
                Map<Integer, Double> volts = solve(source, sources, inputs, reached);
                for (Pair input : listening) {
                    double gain =
                            volts.getOrDefault(net(input.first()), 0.0) - volts.getOrDefault(net(input.second()), 0.0);
                    Node back = input.second() == null ? input.first() : input.second();
                    if (Math.abs(gain) > NOTHING) {
                        couplings.add(new Coupling(
                                input.first().owner(),
                                List.of(source.first(), source.second() == null ? source.first() : source.second()),
                                List.of(input.first(), back),
                                gain,
                                null,
                                null));
                    }
                }
            }
        }
        return couplings;
    }

    private void add(Branch branch) {
        if (branch.one() != branch.other()) {
            branches.add(branch);
            branchesOf.computeIfAbsent(branch.one(), net -> new ArrayList<>(2)).add(branch);
            branchesOf
                    .computeIfAbsent(branch.other(), net -> new ArrayList<>(2))
                    .add(branch);
        }
    }

    /** The net of a terminal; a terminal that is not there is at ground. */
    private int net(@Nullable Node node) {
        if (node == null) {
            return GROUND;
        }
        int net = partition.netOf(node);
        return grounded.computeIfAbsent(
                        net,
                        at -> partition.reaches(at).stream()
                                        .anyMatch(reach ->
                                                reach.hard() && reach.source().isReference())
                                || partition.members(at).stream().anyMatch(Dividers::isGround))
                ? GROUND
                : net;
    }

    private static boolean isGround(Node node) {
        Electrical facts = node.facts();
        return (facts instanceof Electrical.LineOut out
                        && out.side() == Side.RETURN
                        && out.returns() == OutputReturn.CHASSIS)
                || (facts instanceof Electrical.LineIn in
                        && in.side() == Side.RETURN
                        && in.returns() == InputReturn.CHASSIS)
                || (facts instanceof Electrical.SpeakerOut speaker
                        && speaker.side() == Side.MINUS
                        && speaker.drive() == Drive.COMMON_GROUND);
    }

    /** Outputs or inputs with both their sides, those of couplings among them; one of a single lead has ground beside it. */
    private List<Pair> pairs(boolean outputs) {
        Map<List<Object>, List<Node>> groups = new LinkedHashMap<>();
        for (Node node : network.nodes()) {
            Electrical.Audio audio = node.audio();
            boolean coil = audio instanceof Electrical.SpeakerIn in && in.ohms() != null;
            if (audio != null && audio.isOutput() == outputs && audio.side() != null && !coil) {
                Object channel = audio.channel() == null ? "" : audio.channel();
                groups.computeIfAbsent(List.of(node.owner(), audio.getClass(), channel), key -> new ArrayList<>(2))
                        .add(node);
            }
        }
        List<Pair> pairs = new ArrayList<>();
        Set<Node> paired = new LinkedHashSet<>();
        for (List<Node> group : groups.values()) {
            List<Node> positive = group.stream().filter(Dividers::isPositive).toList();
            List<Node> negative =
                    group.stream().filter(node -> !isPositive(node)).toList();
            if (positive.size() == 1 && negative.size() <= 1) {
                Node first = positive.get(0);
                pairs.add(new Pair(first, negative.isEmpty() ? null : negative.get(0), ohms(first)));
                paired.addAll(group);
            }
        }
        for (Coupling coupling : network.couplings()) {
            List<Node> ends = outputs ? coupling.to() : coupling.from();
            if (!paired.contains(ends.get(0)) && !paired.contains(ends.get(1))) {
                Double ohms = outputs ? null : coupling.inputOhms();
                pairs.add(new Pair(ends.get(0), ends.get(1), ohms == null ? 0 : ohms));
            }
        }
        return pairs;
    }

    private static boolean isPositive(Node node) {
        return node.audio() != null
                && node.audio().side() != null
                && node.audio().side().isPositive();
    }

    private static double ohms(Node node) {
        Double ohms = node.facts() instanceof Electrical.LineOut out
                ? out.outputOhms()
                : node.facts() instanceof Electrical.LineIn in ? in.inputOhms() : null;
        return ohms == null ? 0 : ohms;
    }

    /** The nets that resistors join with a source, its own among them; not what lies behind ground. */
    private Set<Integer> reached(Pair source) {
        Set<Integer> reached = new TreeSet<>(List.of(net(source.first()), net(source.second())));
        ArrayDeque<Integer> queue = new ArrayDeque<>(reached);
        while (!queue.isEmpty()) {
            int net = queue.remove();
            for (Branch branch : net == GROUND ? List.<Branch>of() : branchesOf.getOrDefault(net, List.of())) {
                int next = branch.one() == net ? branch.other() : branch.one();
                if (reached.add(next)) {
                    queue.add(next);
                }
            }
        }
        return reached;
    }

    private boolean isThere(Pair input, Set<Integer> reached) {
        return reached.contains(net(input.first())) && reached.contains(net(input.second()));
    }

    private boolean isBehindResistors(Pair input, Pair source) {
        Set<Integer> own = Set.copyOf(List.of(net(source.first()), net(source.second())));
        return !own.contains(net(input.first())) || !own.contains(net(input.second()));
    }

    private Map<Integer, Double> solve(Pair source, List<Pair> sources, List<Pair> inputs, Set<Integer> reached) {
        List<Element> elements = new ArrayList<>();
        int base = net(source.second());
        addSource(source, 1, elements);
        for (Pair other : sources) {
            // the source itself is among them
            boolean sameNets = net(other.first()) == net(source.first()) || net(other.first()) == net(other.second());
            if (!sameNets && isThere(other, reached)) {
                addSource(other, 0, elements);
            }
        }
        for (Branch branch : branches) {
            if (reached.contains(branch.one()) && reached.contains(branch.other())) {
                add(branch.one(), branch.other(), branch.ohms(), elements);
            }
        }
        for (Pair input : inputs) {
            if (input.ohms() > 0 && isThere(input, reached) && net(input.first()) != net(input.second())) {
                add(net(input.first()), net(input.second()), input.ohms(), elements);
            }
        }
        Map<Integer, Double> volts = new HashMap<>();
        if (net(source.first()) != base
                && Solver.dc(new dev.splicebook.circuit.Network(elements, name(base)))
                        instanceof DcResult.Solved solved) {
            for (Integer net : reached) {
                volts.put(net, solved.volts().getOrDefault(name(net), 0.0));
            }
        }
        return volts;
    }

    private void addSource(Pair source, double volts, List<Element> elements) {
        String at = name(net(source.first()));
        String driven = source.ohms() > NOTHING ? "behind " + elements.size() : at;
        elements.add(new Element.VoltageSource("source " + elements.size(), driven, name(net(source.second())), volts));
        if (source.ohms() > NOTHING) {
            elements.add(new Element.Resistor("own " + elements.size(), driven, at, source.ohms()));
        }
    }

    private static void add(int one, int other, double ohms, List<Element> elements) {
        elements.add(new Element.Resistor("r" + elements.size(), name(one), name(other), Math.max(ohms, NOTHING)));
    }

    private static String name(int net) {
        return "n" + net;
    }
}
