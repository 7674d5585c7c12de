package dev.splicebook.hookup.pair;

import dev.splicebook.function.FunctionId;
import dev.splicebook.hookup.Circuit;
import dev.splicebook.hookup.Connection;
import dev.splicebook.hookup.Connector;
import dev.splicebook.hookup.Device;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Hookup;
import dev.splicebook.hookup.HookupDocument;
import dev.splicebook.hookup.Names;
import dev.splicebook.hookup.Unused;
import dev.splicebook.hookup.Vehicle;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** Vehicle and parts with their plugs mated and nothing else joined. What it tells depends on facts, and on names only between equals. */
final class Bench {

    private static final FunctionId DIAGNOSTIC = new FunctionId("data.can.diagnostic");

    private static final double OFF_POINTS = 20;
    private static final double LOST_POINTS = 15;

    private final Hookup hookup;
    private final Network network;
    private final Map<String, String> ownerKeys = new HashMap<>();
    private final Map<Node, Node> accesses = new HashMap<>();
    /** What must be left alone, by its connector. */
    private final Map<String, Set<String>> untouchable = new HashMap<>();

    private final Set<String> diagnostic = new HashSet<>();
    private final Set<String> nearby = new HashSet<>();

    private final List<Node> ordered = new ArrayList<>();

    /** By facts, then by what else the owner has, then by name. */
    final Comparator<Node> order =
            Node.BY_FACTS.thenComparing(node -> ownerKey(node.owner())).thenComparing(Node::ref);

    Bench(Hookup hookup) {
        this.hookup = hookup;
        this.network = new Network(withEveryCircuit(hookup));
        network.nodes().stream().sorted(order).forEach(ordered::add);
        hookup.map().circuits().forEach((name, circuit) -> {
            String connector = Names.connectorOf(name);
            if (circuit.mustBeLeftAlone()) {
                untouchable.computeIfAbsent(connector, key -> new TreeSet<>()).add(name);
            }
            if (circuit.function() != null && circuit.function().isAtOrBelow(DIAGNOSTIC)) {
                diagnostic.add(connector);
            }
        });
        for (String connector : hookup.unplugged()) {
            Connector known = hookup.map().connectors().get(connector);
            if (known != null && known.location() != null) {
                nearby.add(known.location());
            }
        }
    }

    /** A network has only the circuits that a hookup speaks of, and here any may be wanted. */
    private static Hookup withEveryCircuit(Hookup hookup) {
        HookupDocument document = hookup.document();
        Map<String, Unused> unused = new TreeMap<>();
        hookup.map().circuits().keySet().forEach(name -> {
            if (!hookup.cuts().contains(name)) {
                unused.put(Names.VEHICLE + "." + name, new Unused(Unused.Fate.CAPPED, null));
            }
        });
        HookupDocument all = new HookupDocument(
                document.vehicle(),
                document.parts(),
                Map.of(),
                document.plugs(),
                unused,
                document.settings(),
                document.wishes());
        return Hookup.resolve(all, hookup.map(), hookup.devices(), List.of());
    }

    Network network() {
        return network;
    }

    Hookup hookup() {
        return hookup;
    }

    /** In order. */
    List<Node> nodes() {
        return ordered;
    }

    @Nullable
    Device device(String owner) {
        return hookup.devices().get(owner);
    }

    /** What an owner is, without names. */
    String ownerKey(String owner) {
        return ownerKeys.computeIfAbsent(
                owner,
                key -> String.valueOf(network.nodesOf(owner).stream()
                        .map(Node::factsText)
                        .sorted()
                        .toList()
                        .hashCode()));
    }

    /** Where a wire can be joined that belongs to this node: a free lead on its net, or else the node itself. */
    Node access(Node node) {
        return accesses.computeIfAbsent(node, this::findAccess);
    }

    private Node findAccess(Node node) {
        if (!node.isVehicle() && !network.isMated(node)) {
            return node;
        }
        return network.netOf(node).stream()
                .filter(other -> !other.isVehicle() && other.role() == Node.Role.LEAD && !network.isMated(other))
                .filter(other -> other.facts() == null || other.facts() instanceof Electrical.Passive)
                .min(Comparator.comparing((Node other) -> !Objects.equals(other.function(), node.function()))
                        .thenComparing(order))
                .orElse(node);
    }

    /** Whether a plug takes its net into a part. */
    boolean isInHarness(Node node) {
        return node.isVehicle() && access(node) != node;
    }

    /** Whether what it is joined to at the factory is gone. */
    boolean isOff(Node node) {
        return node.isVehicle() && hookup.unplugged().contains(Names.connectorOf(node.name()));
    }

    boolean isTouchable(Node node) {
        return !(node.facts() instanceof Electrical.Untouchable)
                && !(node.isVehicle() && untouchable.containsKey(Names.connectorOf(node.name())));
    }

    /** Whether a part drives loudspeakers with what it is given. */
    boolean isAmplifier(String part) {
        return network.couplings().stream()
                .anyMatch(coupling ->
                        coupling.part().equals(part) && coupling.to().get(0).facts() instanceof Electrical.SpeakerOut);
    }

    /** Why a circuit stays as it is, null where it may be touched. */
    @Nullable
    String whyUntouchable(Node node) {
        Set<String> beside = node.isVehicle() ? untouchable.get(Names.connectorOf(node.name())) : null;
        if (beside == null) {
            return null;
        }
        return beside.contains(Names.circuitOf(node.name()))
                ? "it is left alone; connector " + Names.connectorOf(node.name()) + " belongs back in its socket"
                : beside.stream().map(name -> Names.VEHICLE + "." + name).collect(Collectors.joining(" and "))
                        + " in the same connector must be left alone";
    }

    /** Like {@code ; what is in connector R1 is not touched, for CAR.R1-14 stands there}, empty where all may be touched. */
    String leftAlone() {
        return untouchable.keySet().stream()
                .sorted()
                .filter(connector -> network.hookup().unplugged().contains(connector))
                .map(connector -> "; what is in connector " + connector + " is not touched, for "
                        + untouchable.getOrDefault(connector, Set.of()).stream()
                                .map(name -> Names.VEHICLE + "." + name)
                                .collect(Collectors.joining(" and "))
                        + " stands there")
                .collect(Collectors.joining());
    }

    /** What it takes to get at a source or sink of the vehicle; 0 for a lead of a part. */
    Term reach(Node node) {
        return reach(node, Set.of());
    }

    /** As {@link #reach(Node)}, with further places at which there is work to do. */
    Term reach(Node node, Set<String> places) {
        if (!node.isVehicle()) {
            return new Term(0, "it is a lead of a part");
        }
        if (node.role() == Node.Role.REFERENCE && node.name().equals(Vehicle.CHASSIS)) {
            return new Term(5, "the body is near", "it takes a lead to the body");
        }
        if (node.role() == Node.Role.REFERENCE) {
            return new Term(24, "it takes a wire from the battery");
        }
        if (isInHarness(node)) {
            return new Term(0, "the harness brings it");
        }
        String connector = Names.connectorOf(node.name());
        if (diagnostic.contains(connector)) {
            return new Term(80, "it sits in the diagnostic socket, which must stay free");
        }
        if (isOff(node)) {
            return new Term(
                    4, "its connector " + connector + " is off already", "it takes a splice at connector " + connector);
        }
        Connector known = hookup.map().connectors().get(connector);
        return known != null
                        && known.location() != null
                        && (nearby.contains(known.location()) || places.contains(known.location()))
                ? new Term(
                        9,
                        "connector " + connector + " is where the work is",
                        "it takes a tap at connector " + connector)
                : new Term(14, "it takes a tap at connector " + connector);
    }

    /** Whether nothing but conductors lies between two nodes before any wire is drawn. */
    boolean areJoined(Node one, Node other) {
        return one.net() == other.net();
    }

    /** Every node on the net that is not passive. */
    boolean isBlank(Node node) {
        return network.netOf(node).stream()
                .allMatch(other -> other.facts() == null || other.facts() instanceof Electrical.Passive);
    }

    /** What it costs to take connectors off: the work, and what is lost with each circuit that then goes nowhere. */
    double lostPoints(Collection<Connection> connections) {
        Set<String> ends = new HashSet<>();
        connections.forEach(connection -> ends.addAll(connection.ends()));
        double points = 0;
        for (String connector : hookup.unplugged()) {
            points += OFF_POINTS;
            for (Node node : network.nodesOf(Names.VEHICLE)) {
                Circuit circuit = hookup.findCircuit(node.name());
                boolean served =
                        ends.contains(node.ref()) || ends.contains(access(node).ref());
                if (Names.connectorOf(node.name()).equals(connector)
                        && circuit != null
                        && !circuit.carries().isEmpty()
                        && !served) {
                    points += LOST_POINTS;
                }
            }
        }
        return points;
    }

    /** Where the connector of a circuit is, null where unknown. */
    @Nullable
    String place(Node node) {
        Connector known = node.isVehicle() ? hookup.map().connectors().get(Names.connectorOf(node.name())) : null;
        return known == null ? null : known.location();
    }

    Set<String> owners() {
        return hookup.devices().keySet();
    }
}
