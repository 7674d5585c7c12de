package dev.splicebook.hookup.net;

import dev.splicebook.circuit.DcResult;
import dev.splicebook.circuit.Element;
import dev.splicebook.circuit.Solver;
import dev.splicebook.electrics.ConductorMaterial;
import dev.splicebook.electrics.WireConductor;
import dev.splicebook.hookup.Circuit;
import dev.splicebook.hookup.Connection;
import dev.splicebook.hookup.Device;
import dev.splicebook.hookup.Drive;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Side;
import dev.splicebook.hookup.net.OutputLoad.Share;
import dev.splicebook.hookup.net.OutputLoad.VoiceCoil;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;

/**
 * The passive network between the two sides of each speaker output, by the nets of a scenario, solved with one volt: what
 * the output has for a load, and what each voice coil gets of it. An output that meets another one through its load is
 * crossed and stands by itself; one that is short, or stands on a net with another, has no entry: what is wrong there is
 * not its load.
 */
public final class OutputLoads {

    /** Copper's temperature for the wires, which are short and seldom warm. */
    private static final double WIRE_CELSIUS = 20;

    /** What counts as a conductor, and as no path at all: below what anything states. */
    private static final double LEAST_OHMS = 1e-6;

    private static final double LEAST_SIEMENS = 1e-13;

    /** Above this many, networks go to the solver. */
    private static final int FEW_NODES = 24;

    /** Coils of one channel of one part that are told apart by the wiring; more must be declared. */
    private static final int MOST_TOLD_APART = 4;

    private final Network network;
    private final Scenario scenario;
    private final Map<Node, List<Passive>> passives = new HashMap<>();
    private final Set<Node> undeclared = new LinkedHashSet<>();
    private final Set<Node> unpaired = new LinkedHashSet<>();
    private final List<OutputLoad> loads = new ArrayList<>();
    private final List<OutputLoad> crossed = new ArrayList<>();
    private final Set<Node> crossedEnds = new HashSet<>();
    private final Map<Node, OutputLoad> loadOf = new HashMap<>();
    private final Map<Node, Share> shareOf = new HashMap<>();
    private final List<VoiceCoil> shorted = new ArrayList<>();
    private final Set<Node> unknownEnds = new LinkedHashSet<>();
    private final Set<Node> toldApart = new HashSet<>();

    /** What current can pass between two nodes; a wire if it is neither a coil nor a resistor nor an input. */
    private record Passive(
            Node one,
            Node other,
            double ohms,
            @Nullable VoiceCoil coil,
            Device.@Nullable Resistor resistor,
            boolean input) {
        Node across(Node end) {
            return end == one ? other : one;
        }
    }

    public OutputLoads(Network network, Scenario scenario) {
        this.network = network;
        this.scenario = scenario;
        List<Node> outputs = network.nodes().stream()
                .filter(node -> node.facts() instanceof Electrical.SpeakerOut)
                .toList();
        pairCoils();
        if (outputs.isEmpty()) {
            return;
        }
        addResistors();
        Set<Node> done = new HashSet<>();
        for (Node output : outputs) {
            if (output.facts() instanceof Electrical.SpeakerOut facts
                    && facts.side() == Side.PLUS
                    && done.add(output)) {
                read(output, facts);
            }
        }
    }

    /** The outputs that the hookup uses, with what they drive. */
    public List<OutputLoad> all() {
        return loads;
    }

    /** Outputs that meet another one through coils or resistors, with what hangs there as if that other one were silent. */
    public List<OutputLoad> crossed() {
        return crossed;
    }

    /** The coils of a loudspeaker of which neither end is connected, in the order of their terminals. */
    public List<VoiceCoil> idleCoils(String part) {
        return network.nodesOf(part).stream()
                .flatMap(node -> passives.getOrDefault(node, List.of()).stream())
                .map(Passive::coil)
                .filter(Objects::nonNull)
                .filter(coil -> coil.ends().stream().noneMatch(network::isConnected))
                .distinct()
                .toList();
    }

    /** Whether a coil with this end hangs among outputs that meet through coils or resistors. */
    public boolean isCrossed(Node end) {
        return crossedEnds.contains(end);
    }

    /** The load that a coil with this end is part of; null if none. */
    public @Nullable OutputLoad findLoad(Node end) {
        return loadOf.get(end);
    }

    /** What the coil with this end gets; null if it is part of no load. */
    public @Nullable Share findShare(Node end) {
        return shareOf.get(end);
    }

    /** Coils whose two ends one conductor joins, whether or not anything drives them. */
    public List<VoiceCoil> shorted() {
        return shorted;
    }

    /** Ends of loudspeakers that hang on an output and of which it is not known which are one coil. */
    public Set<Node> unpaired() {
        return unpaired;
    }

    /** Terminals on the way of which nothing electrical is known. */
    public Set<Node> unknownEnds() {
        return unknownEnds;
    }

    /** Whether the wiring had to tell which ends are one coil, since no facts did, of a load of the hookup. */
    public boolean isToldApartByWiring() {
        return loads.stream()
                .filter(OutputLoad::isOfTheHookup)
                .flatMap(load -> load.shares().stream())
                .anyMatch(share -> toldApart.contains(share.coil().plus()));
    }

    private void pairCoils() {
        Map<List<Object>, List<Node>> groups = new LinkedHashMap<>();
        for (Node node : network.nodes()) {
            Electrical.SpeakerIn in = loudspeaker(node);
            if (in != null && in.side() != null) {
                groups.computeIfAbsent(
                                List.of(
                                        node.owner(),
                                        in.channel() == null ? "" : in.channel(),
                                        in.coil() == null ? "" : in.coil(),
                                        node.facts() instanceof Electrical.SpeakerOut),
                                key -> new ArrayList<>(2))
                        .add(node);
            }
        }
        groups.values().forEach(this::pair);
    }

    /** The facts of a loudspeaker that stands at a node: its own, or those of the factory's behind a circuit that is tapped. */
    private Electrical.@Nullable SpeakerIn loudspeaker(Node node) {
        Electrical facts = node.facts();
        if (facts instanceof Electrical.SpeakerOut && node.role() == Node.Role.CIRCUIT) {
            Circuit circuit = network.hookup().findCircuit(node.name());
            facts = circuit == null ? null : circuit.factsWhen(false);
        }
        return facts instanceof Electrical.SpeakerIn in && in.ohms() != null ? in : null;
    }

    private void pair(List<Node> group) {
        List<Node> pluses = group.stream().filter(this::isPlus).toList();
        List<Node> minuses = group.stream().filter(node -> !isPlus(node)).toList();
        List<Integer> order =
                pluses.size() == minuses.size() && pluses.size() <= MOST_TOLD_APART ? pairing(pluses, minuses) : null;
        if (order == null) {
            undeclared.addAll(group);
            return;
        }
        if (pluses.size() > 1) {
            toldApart.addAll(pluses);
        }
        for (int at = 0; at < pluses.size(); at++) {
            Node plus = pluses.get(at);
            Node minus = minuses.get(order.get(at));
            Electrical.SpeakerIn facts = loudspeaker(plus);
            if (facts != null && facts.ohms() != null) {
                boolean within = plus.facts() instanceof Electrical.SpeakerOut;
                VoiceCoil coil = new VoiceCoil(plus, minus, facts.ohms(), within);
                add(new Passive(plus, minus, coil.ohms(), coil, null, false));
                if (!within && isShorted(coil)) {
                    shorted.add(coil);
                }
            }
        }
    }

    private boolean isPlus(Node node) {
        Electrical.SpeakerIn in = loudspeaker(node);
        return in != null && in.side() == Side.PLUS;
    }

    /**
     * The minus of each plus, where only one pairing leaves no coil short, none between two outputs and the fewest with a
     * loose end, or where all that do come to the same; null otherwise.
     */
    private @Nullable List<Integer> pairing(List<Node> pluses, List<Node> minuses) {
        if (pluses.size() == 1) {
            return List.of(0);
        }
        List<List<Integer>> best = new ArrayList<>();
        int leastFaults = Integer.MAX_VALUE;
        for (List<Integer> order : permutations(pluses.size())) {
            int faults = 0;
            for (int at = 0; at < order.size(); at++) {
                Node plus = pluses.get(at);
                Node minus = minuses.get(order.get(at));
                faults += scenario.netOf(plus) == scenario.netOf(minus)
                        ? 100
                        : isBetweenOutputs(plus, minus) ? 10 : isLoose(plus) == isLoose(minus) ? 0 : 1;
            }
            if (faults < leastFaults) {
                best.clear();
                leastFaults = faults;
            }
            if (faults == leastFaults) {
                best.add(order);
            }
        }
        if (best.size() == 1) {
            return best.get(0);
        }
        long different = best.stream()
                .map(order -> IntStream.range(0, order.size())
                        .mapToObj(at ->
                                List.of(scenario.netOf(pluses.get(at)), scenario.netOf(minuses.get(order.get(at)))))
                        .sorted(Comparator.<List<Integer>>comparingInt(nets -> nets.get(0))
                                .thenComparingInt(nets -> nets.get(1)))
                        .toList())
                .distinct()
                .count();
        return different == 1 ? best.get(0) : null;
    }

    private boolean isShorted(VoiceCoil coil) {
        return scenario.netOf(coil.plus()) == scenario.netOf(coil.minus());
    }

    private boolean isBetweenOutputs(Node plus, Node minus) {
        Set<Object> one = outputsAt(plus);
        Set<Object> other = outputsAt(minus);
        return !one.isEmpty() && !other.isEmpty() && one.stream().noneMatch(other::contains);
    }

    private Set<Object> outputsAt(Node node) {
        Set<Object> outputs = new HashSet<>();
        for (Node member : scenario.members(scenario.netOf(node))) {
            if (member.facts() instanceof Electrical.SpeakerOut out) {
                outputs.add(outputOf(member, out));
            }
        }
        return outputs;
    }

    private Object outputOf(Node side, Electrical.SpeakerOut facts) {
        Node other = network.coupledWith(side);
        return other == null
                ? List.of(side.owner(), facts.channel() == null ? "" : facts.channel())
                : Set.of(side, other);
    }

    /** Whether sides belong to more than one output, by what couplings drive them, else by part and channel. */
    public boolean areOfSeveralOutputs(Collection<Node> sides) {
        Set<Object> outputs = new HashSet<>();
        for (Node side : sides) {
            if (side.facts() instanceof Electrical.SpeakerOut out) {
                outputs.add(outputOf(side, out));
            }
        }
        return outputs.size() > 1;
    }

    private boolean isLoose(Node node) {
        return scenario.members(scenario.netOf(node)).size() == 1;
    }

    /** All orders, the given one first. */
    private static List<List<Integer>> permutations(int size) {
        List<List<Integer>> all = List.of(List.of());
        for (int next = 0; next < size; next++) {
            List<List<Integer>> longer = new ArrayList<>();
            for (List<Integer> order : all) {
                for (int at = order.size(); at >= 0; at--) {
                    List<Integer> one = new ArrayList<>(order);
                    one.add(at, next);
                    longer.add(one);
                }
            }
            all = longer;
        }
        return all;
    }

    private void addResistors() {
        network.hookup().devices().forEach((part, device) -> {
            for (Device.Resistor resistor : device.resistors()) {
                Node one = network.findNode(part + "." + resistor.between().get(0));
                Node other = network.findNode(part + "." + resistor.between().get(1));
                if (one != null && other != null) {
                    add(new Passive(one, other, resistor.ohms(), null, resistor, false));
                }
            }
        });
        for (Coupling coupling : network.couplings()) {
            Double ohms = coupling.inputOhms();
            if (ohms != null) {
                add(new Passive(coupling.from().get(0), coupling.from().get(1), ohms, null, null, true));
            }
        }
    }

    private void add(Passive passive) {
        passives.computeIfAbsent(passive.one(), node -> new ArrayList<>(1)).add(passive);
        passives.computeIfAbsent(passive.other(), node -> new ArrayList<>(1)).add(passive);
    }

    /** Everything that current from one side of an output can reach before it comes to ground. */
    private final class Surroundings {

        final Map<Node, Node> parents = new HashMap<>();
        final Set<Passive> between = new LinkedHashSet<>();
        final Set<Node> outputs = new LinkedHashSet<>();
        final Set<Node> seen = new LinkedHashSet<>();

        @Nullable
        Node ground;

        Surroundings(List<Node> starts) {
            ArrayDeque<Node> queue = new ArrayDeque<>(starts);
            seen.addAll(starts);
            while (!queue.isEmpty()) {
                Node node = queue.remove();
                if (isGround(node)) {
                    ground = ground == null ? node : ground;
                    union(ground, node);
                    continue;
                }
                if (node.facts() instanceof Electrical.SpeakerOut) {
                    outputs.add(node);
                }
                for (Link link : network.linksOf(node)) {
                    if (link.kind().isSolid() || (link.kind().isContact() && scenario.isClosed(link))) {
                        Double ohms = wireOhms(link);
                        if (ohms == null) {
                            union(node, link.across(node));
                        } else {
                            between.add(new Passive(link.from(), link.to(), ohms, null, null, false));
                        }
                        visit(link.across(node), queue);
                    }
                }
                for (Passive passive : passives.getOrDefault(node, List.of())) {
                    between.add(passive);
                    if (!passive.input()) {
                        visit(passive.across(node), queue);
                    }
                }
            }
        }

        private void visit(Node node, ArrayDeque<Node> queue) {
            if (seen.add(node)) {
                queue.add(node);
            }
        }

        private void union(Node one, Node other) {
            Node root = root(one);
            Node second = root(other);
            if (root != second) {
                parents.put(second, root);
            }
        }

        Node root(Node node) {
            Node at = node;
            for (Node up = parents.get(at); up != null; up = parents.get(at)) {
                at = up;
            }
            return at;
        }
    }

    private boolean isGround(Node node) {
        return (node.facts() instanceof Electrical.SpeakerOut out
                        && out.side() == Side.MINUS
                        && out.drive() == Drive.COMMON_GROUND)
                || scenario.isGrounded(node);
    }

    private static @Nullable Double wireOhms(Link link) {
        Connection connection = link.connection();
        if (connection == null || connection.conductor() == null || connection.length() == null) {
            return null;
        }
        Connection.Conductor conductor = connection.conductor();
        ConductorMaterial material = conductor.material() == null ? ConductorMaterial.COPPER : conductor.material();
        double ohms = WireConductor.of(conductor.size(), material)
                .ohms(connection.length().metres(), WIRE_CELSIUS);
        return ohms > LEAST_OHMS ? ohms : null;
    }

    private void read(Node plus, Electrical.SpeakerOut facts) {
        if (!network.isConnected(plus)) {
            return;
        }
        boolean grounded = facts.drive() == Drive.COMMON_GROUND;
        Node own = minusOf(plus, facts, network.nodesOf(plus.owner()));
        Surroundings around = new Surroundings(own == null || grounded ? List.of(plus) : List.of(plus, own));
        // a bridged part has several of one channel; where no coupling does, the load tells which two belong together
        Node minus = own == null ? minusOf(plus, facts, around.outputs) : own;
        Node end = grounded ? around.ground : minus;
        Set<Node> others = new HashSet<>(around.outputs);
        others.remove(plus);
        others.remove(minus);
        if ((end != null && scenario.netOf(plus) == scenario.netOf(end))
                || others.stream().anyMatch(other -> isOnNetOf(other, plus) || isOnNetOf(other, minus))) {
            return;
        }
        List<Node> inDoubt = undeclared.stream().filter(around.seen::contains).toList();
        if (!inDoubt.isEmpty()) {
            boolean ofTheHookup = around.between.stream().anyMatch(passive -> passive.coil() != null)
                    || !inDoubt.stream().allMatch(node -> node.facts() instanceof Electrical.SpeakerOut);
            unpaired.addAll(ofTheHookup ? inDoubt : List.of());
            return;
        }
        around.seen.stream().filter(node -> node.facts() == null).forEach(unknownEnds::add);
        OutputLoad load = solve(plus, minus, end, around);
        if (load != null && !others.isEmpty()) {
            crossed.add(load);
            load.shares().forEach(share -> crossedEnds.addAll(share.coil().ends()));
        } else if (load != null) {
            loads.add(load);
            load.shares()
                    .forEach(share -> share.coil().ends().forEach(node -> {
                        loadOf.put(node, load);
                        shareOf.put(node, share);
                    }));
        }
    }

    private boolean isOnNetOf(Node one, @Nullable Node other) {
        return other != null && scenario.netOf(one) == scenario.netOf(other);
    }

    /**
     * What is driven together with a plus, else the one minus of the same channel of the same part, at the same end where it
     * is cut; null if there is none or more than one.
     */
    private @Nullable Node minusOf(Node plus, Electrical.SpeakerOut facts, Collection<Node> among) {
        Node driven = network.coupledWith(plus);
        if (driven != null && driven.facts() instanceof Electrical.SpeakerOut) {
            return driven;
        }
        List<Node> minuses = among.stream()
                .filter(node -> node.owner().equals(plus.owner())
                        && node.facts() instanceof Electrical.SpeakerOut other
                        && other.side() == Side.MINUS
                        && other.channel() == facts.channel()
                        && endOf(node).equals(endOf(plus)))
                .toList();
        return minuses.size() == 1 ? minuses.get(0) : null;
    }

    /** Which end of a circuit that is cut; empty for anything else. */
    private static String endOf(Node node) {
        return node.role() == Node.Role.CUT_END
                ? node.name().substring(node.name().indexOf('/'))
                : "";
    }

    private @Nullable OutputLoad solve(Node plus, @Nullable Node minus, @Nullable Node end, Surroundings around) {
        Node top = around.root(plus);
        Node bottom = end == null ? null : around.root(end);
        List<Passive> working = new ArrayList<>();
        double inputSiemens = 0;
        for (Passive passive : around.between) {
            Node one = around.root(passive.one());
            Node other = around.root(passive.other());
            if (!passive.input()) {
                if (one != other) {
                    working.add(passive);
                }
            } else if ((one == top && other == bottom) || (one == bottom && other == top)) {
                inputSiemens += 1 / passive.ohms();
            }
        }
        Map<Node, Double> volts = new HashMap<>();
        Double siemens = bottom == null ? Double.valueOf(0) : siemens(top, bottom, working, around, volts);
        if (siemens == null) {
            return null;
        }
        List<Share> shares = new ArrayList<>();
        List<OutputLoad.ResistorShare> resistors = new ArrayList<>();
        for (Passive passive : around.between) {
            VoiceCoil coil = passive.coil();
            Device.Resistor resistor = passive.resistor();
            if (resistor != null) {
                double across = across(passive.one(), passive.other(), around, volts);
                resistors.add(new OutputLoad.ResistorShare(passive.one(), passive.other(), resistor, across));
            }
            if (coil != null) {
                double across = across(coil.plus(), coil.minus(), around, volts);
                shares.add(new Share(coil, across, across / coil.ohms(), isShorted(coil)));
            }
        }
        return new OutputLoad(plus, minus, 1 / siemens, 1 / (siemens + inputSiemens), shares, resistors);
    }

    private static double across(Node one, Node other, Surroundings around, Map<Node, Double> volts) {
        return volts.getOrDefault(around.root(one), 0.0) - volts.getOrDefault(around.root(other), 0.0);
    }

    /** Siemens between two nodes, whose volts it works out with all others'; null if that cannot be done. */
    private static @Nullable Double siemens(
            Node top, Node bottom, List<Passive> working, Surroundings around, Map<Node, Double> volts) {
        volts.put(top, 1.0);
        volts.put(bottom, 0.0);
        Double few = starMesh(top, bottom, working, around, volts);
        if (few != null) {
            return few;
        }
        Map<Node, String> names = new LinkedHashMap<>();
        List<Element> elements = new ArrayList<>();
        names.put(top, "top");
        names.put(bottom, "bottom");
        elements.add(new Element.VoltageSource("source", "top", "bottom", 1));
        for (Passive passive : working) {
            Node one = around.root(passive.one());
            Node other = around.root(passive.other());
            names.putIfAbsent(one, "n" + names.size());
            names.putIfAbsent(other, "n" + names.size());
            elements.add(new Element.Resistor(
                    "r" + elements.size(),
                    names.getOrDefault(one, ""),
                    names.getOrDefault(other, ""),
                    Math.max(passive.ohms(), LEAST_OHMS)));
        }
        DcResult result = Solver.dc(new dev.splicebook.circuit.Network(elements, "bottom"));
        if (!(result instanceof DcResult.Solved solved)) {
            return null;
        }
        names.forEach((node, name) -> volts.put(node, solved.volts().getOrDefault(name, 0.0)));
        DcResult.Branch source = solved.branches().get("source");
        double amps = source == null ? 0 : -source.amps();
        return amps > LEAST_SIEMENS ? amps : 0.0;
    }

    /**
     * The same for few nodes, by taking one node after another away and putting in its place what it was between its
     * neighbours; nothing is subtracted, so that wires of milliohms beside inputs of megohms lose no digits. Null if there
     * are too many nodes.
     */
    private static @Nullable Double starMesh(
            Node top, Node bottom, List<Passive> working, Surroundings around, Map<Node, Double> volts) {
        List<Node> nodes = new ArrayList<>(List.of(top, bottom));
        int[] ends = new int[2 * working.size()];
        for (int at = 0; at < ends.length; at++) {
            Passive passive = working.get(at / 2);
            Node node = around.root(at % 2 == 0 ? passive.one() : passive.other());
            int place = nodes.indexOf(node);
            if (place < 0) {
                place = nodes.size();
                nodes.add(node);
            }
            if (place == FEW_NODES) {
                return null;
            }
            ends[at] = place;
        }
        int count = nodes.size();
        double[][] siemens = new double[count][count];
        for (int at = 0; at < ends.length; at += 2) {
            double each = 1 / Math.max(working.get(at / 2).ohms(), LEAST_OHMS);
            siemens[ends[at]][ends[at + 1]] += each;
            siemens[ends[at + 1]][ends[at]] += each;
        }
        double[] sums = new double[count];
        for (int gone = count - 1; gone > 1; gone--) {
            for (int other = 0; other < gone; other++) {
                sums[gone] += siemens[gone][other];
            }
            for (int one = 0; one < gone; one++) {
                for (int other = 0; other < gone; other++) {
                    if (one != other && siemens[gone][one] > 0 && siemens[gone][other] > 0) {
                        siemens[one][other] += siemens[gone][one] * siemens[gone][other] / sums[gone];
                    }
                }
            }
        }
        double[] found = new double[count];
        found[0] = 1;
        for (int node = 2; node < count; node++) {
            for (int other = 0; other < node && sums[node] > 0; other++) {
                found[node] += siemens[node][other] / sums[node] * found[other];
            }
            volts.put(nodes.get(node), found[node]);
        }
        return siemens[0][1] > LEAST_SIEMENS ? siemens[0][1] : 0.0;
    }
}
