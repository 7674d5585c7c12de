package dev.splicebook.hookup.mend;

import dev.splicebook.function.FunctionId;
import dev.splicebook.hookup.Circuit;
import dev.splicebook.hookup.Connection;
import dev.splicebook.hookup.Connection.Conductor;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Hookup;
import dev.splicebook.hookup.Names;
import dev.splicebook.hookup.Stock;
import dev.splicebook.hookup.Vehicle;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** A finding in its hookup, as changes look at it. */
public final class Defect {

    static final FunctionId PARKING_BRAKE = new FunctionId("control.parking-brake");
    static final FunctionId AMPLIFIER_ON = new FunctionId("control.amplifier-on");
    private static final FunctionId SAFETY = new FunctionId("safety");

    private final Finding finding;
    private final Network network;
    private final Hookup original;
    private final Stock stock;

    /**
     * @param original hookup that the search for changes began with
     */
    public Defect(Finding finding, Network network, Hookup original, Stock stock) {
        this.finding = finding;
        this.network = network;
        this.original = original;
        this.stock = stock;
    }

    Finding finding() {
        return finding;
    }

    /** Code of the rule that found it. */
    public String rule() {
        return finding.rule();
    }

    Network network() {
        return network;
    }

    /** The hookup that it is in. */
    public Hookup hookup() {
        return network.hookup();
    }

    Edit edit() {
        return new Edit(hookup());
    }

    List<Stock.Item> stock(String kind) {
        return stock.listDevices(kind);
    }

    /** The latest of a device of the catalogue, null if there is none. */
    Stock.@Nullable Item latest(String device) {
        return stock.findDevice(device);
    }

    /** The latest map of a vehicle of the book, null if there is none. */
    Stock.@Nullable StockedMap latestMap(String vehicle) {
        return stock.findMap(vehicle);
    }

    /** Whether a connection ended here before anything was changed. */
    boolean wasConnected(Node node) {
        return original.document().connections().values().stream()
                .anyMatch(connection -> connection.ends().contains(node.ref()));
    }

    /** The terminals that the finding names. */
    List<Node> terminals() {
        return finding.terminals().stream()
                .map(network::findNode)
                .filter(Objects::nonNull)
                .toList();
    }

    /** The connections that the finding names. */
    List<Link> wires() {
        return network.links().stream()
                .filter(link -> link.ref() != null && finding.connections().contains(link.ref()))
                .toList();
    }

    /** The connections at a terminal. */
    List<Link> wiresAt(Node node) {
        return network.linksOf(node).stream().filter(link -> link.ref() != null).toList();
    }

    /** Whether a lead of a part, or a circuit whose connector is off its unit, is connected to nothing and not listed as unused. */
    boolean isLoose(Node node) {
        boolean lead = node.role() == Node.Role.LEAD
                || (node.role() == Node.Role.CIRCUIT && hookup().unplugged().contains(Names.connectorOf(node.name())));
        return lead
                && !network.isConnected(node)
                && !network.isMated(node)
                && !network.isUnused(node)
                && !isParkingBrakeInput(node)
                && isTouchable(node.function(), node.facts());
    }

    /** A loose lead that is one conductor with a terminal, of a part if there is one; null if there is none. */
    @Nullable
    Node looseLeadAt(Node node, @Nullable String part) {
        return network.netOf(node).stream()
                .filter(lead -> lead != node && lead.role() == Node.Role.LEAD && isLoose(lead))
                .filter(lead -> part == null || lead.owner().equals(part))
                .min(Comparator.comparing(Node::ref))
                .orElse(null);
    }

    /** The thickest conductor at any terminal of a part; null if none is known. */
    @Nullable
    Conductor thickestAt(String part) {
        return network.nodesOf(part).stream()
                .flatMap(node -> wiresAt(node).stream())
                .map(Link::connection)
                .filter(Objects::nonNull)
                .map(Connection::conductor)
                .filter(Objects::nonNull)
                .max(Comparator.comparingDouble(conductor -> conductor.size().areaMm2()))
                .orElse(null);
    }

    /** The shortest way between two terminals, contacts and diodes included; empty if there is none. */
    List<Link> way(Node from, Node to) {
        Map<Node, Link> by = new HashMap<>();
        Set<Node> seen = new LinkedHashSet<>(Set.of(from));
        ArrayDeque<Node> queue = new ArrayDeque<>(seen);
        while (!queue.isEmpty() && !seen.contains(to)) {
            Node at = queue.remove();
            for (Link link : network.linksOf(at)) {
                Node next = link.across(at);
                // what meets in the battery or the chassis meets nowhere nearer
                if ((next == to || next.role() != Node.Role.REFERENCE) && seen.add(next)) {
                    by.put(next, link);
                    queue.add(next);
                }
            }
        }
        List<Link> way = new ArrayList<>();
        Node at = to;
        for (Link link = by.get(at); link != null; link = by.get(at)) {
            way.add(0, link);
            at = link.across(at);
        }
        return way;
    }

    /** A connection, with its end on the side of where it was looked for from. */
    record Lead(Link wire, Node near) {
        Node far() {
            return wire.across(near);
        }

        String ref() {
            return String.valueOf(wire.ref());
        }
    }

    /** The first connection on the way from one terminal to another; null if there is none. */
    @Nullable
    Lead firstLead(Node from, Node to) {
        Node at = from;
        for (Link link : way(from, to)) {
            if (link.ref() != null) {
                return new Lead(link, at);
            }
            at = link.across(at);
        }
        return null;
    }

    /** The relays by whose contacts something reaches a terminal of the finding, whatever stands between. */
    Set<String> relaysAhead() {
        Set<String> relays = new HashSet<>();
        Set<Node> seen = new HashSet<>();
        ArrayDeque<Node> queue = new ArrayDeque<>(terminals());
        wires().forEach(wire -> {
            queue.add(wire.from());
            queue.add(wire.to());
        });
        while (!queue.isEmpty()) {
            Node at = queue.remove();
            boolean source = at.isVehicle() && at.role() != Node.Role.CUT_END;
            if (source || !seen.add(at)) {
                continue;
            }
            for (Link link : network.linksOf(at)) {
                if (link.kind().isContact()) {
                    relays.add(at.owner());
                }
                if (link.kind() != Link.Kind.RESISTOR) {
                    queue.add(link.across(at));
                }
            }
        }
        return relays;
    }

    /** The connections that are met first from a terminal, in every direction. */
    List<Lead> leads(Node from) {
        List<Lead> leads = new ArrayList<>();
        Set<Node> seen = new LinkedHashSet<>(Set.of(from));
        ArrayDeque<Node> queue = new ArrayDeque<>(seen);
        while (!queue.isEmpty()) {
            Node at = queue.remove();
            for (Link link : network.linksOf(at)) {
                if (link.ref() != null) {
                    leads.add(new Lead(link, at));
                } else if (link.kind().isSolid() && seen.add(link.across(at))) {
                    queue.add(link.across(at));
                }
            }
        }
        return leads;
    }

    /** Terminals that are one conductor with another if a connection is taken off. */
    Set<Node> joinedWithout(Node start, Link without) {
        Set<Node> seen = new LinkedHashSet<>(Set.of(start));
        ArrayDeque<Node> queue = new ArrayDeque<>(seen);
        while (!queue.isEmpty()) {
            Node at = queue.remove();
            for (Link link : network.linksOf(at)) {
                if (link != without && link.kind().isSolid() && seen.add(link.across(at))) {
                    queue.add(link.across(at));
                }
            }
        }
        return seen;
    }

    /**
     * The other side of an audio terminal: what is coupled with it, else what is of the same part, kind and channel; the
     * likeliest if there are several, null if there is none.
     */
    @Nullable
    Node otherSide(Node node) {
        Electrical.Audio audio = node.audio();
        if (audio == null || audio.side() == null) {
            return null;
        }
        Node coupled = network.coupledWith(node);
        if (coupled != null && coupled.audio() != null) {
            return coupled;
        }
        List<Node> found = network.nodesOf(node.owner()).stream()
                .filter(other -> other.audio() != null
                        && other.audio().getClass() == audio.getClass()
                        && Objects.equals(other.audio().channel(), audio.channel())
                        && other.audio().side() != null
                        && other.audio().side().isPositive() != audio.side().isPositive())
                .toList();
        return found.stream()
                .min(Comparator.comparing((Node other) -> !stem(other).equals(stem(node)))
                        .thenComparing(other -> !Names.connectorOf(other.name()).equals(Names.connectorOf(node.name())))
                        .thenComparing(other -> -sharedBeginning(other.name(), node.name()))
                        .thenComparing(other -> !network.isConnected(other))
                        .thenComparing(Node::ref))
                .orElse(null);
    }

    /** How many characters two names begin with alike. */
    private static int sharedBeginning(String one, String other) {
        int shared = 0;
        while (shared < Math.min(one.length(), other.length()) && one.charAt(shared) == other.charAt(shared)) {
            shared++;
        }
        return shared;
    }

    /** The function without its side. */
    private static String stem(Node node) {
        String function = node.function() == null ? "" : node.function().value();
        return function.substring(0, Math.max(0, function.lastIndexOf('.')));
    }

    static boolean isParkingBrakeInput(Node node) {
        return !node.isVehicle() && node.isFor(PARKING_BRAKE);
    }

    /** Whether a part stays off for good where nothing drives this input. */
    static boolean isTurnOnInput(Node node) {
        return !node.isVehicle() && node.facts() instanceof Electrical.ControlIn && node.isFor(AMPLIFIER_ON);
    }

    /** Whether a change may connect anything to a terminal of the vehicle or a part. */
    static boolean isTouchable(@Nullable FunctionId function, @Nullable Electrical facts) {
        return !(facts instanceof Electrical.Untouchable) && (function == null || !function.isAtOrBelow(SAFETY));
    }

    /** A terminal that something may be connected to, whether or not anything is. */
    record Place(
            String ref,
            @Nullable Electrical facts,
            @Nullable FunctionId function,
            boolean used) {
        boolean isVehicle() {
            return ref.startsWith(Names.VEHICLE + ".");
        }

        String connector() {
            return Names.connectorOf(ref);
        }
    }

    /** Every terminal of the vehicle and of the parts that may be touched, in the order of their names. */
    List<Place> places() {
        Map<String, Place> places = new LinkedHashMap<>();
        hookup().map().circuits().keySet().stream()
                .filter(name -> !hookup().cuts().contains(name) && !Vehicle.ALWAYS_THERE.containsKey(name))
                .forEach(name -> addCircuit(name, places));
        Vehicle.ALWAYS_THERE.keySet().stream().sorted().forEach(name -> addCircuit(name, places));
        network.nodes().stream()
                .filter(node -> node.role() == Node.Role.LEAD)
                .forEach(node -> places.put(
                        node.ref(), new Place(node.ref(), node.facts(), node.function(), network.isConnected(node))));
        return places.values().stream()
                .filter(place -> isTouchable(place.function(), place.facts()))
                .toList();
    }

    private void addCircuit(String name, Map<String, Place> places) {
        Circuit circuit = hookup().findCircuit(name);
        String ref = Names.VEHICLE + "." + name;
        Node node = network.findNode(ref);
        if (circuit != null) {
            Electrical facts = circuit.factsWhen(!hookup().unplugged().contains(Names.connectorOf(name)));
            Circuit reference = Vehicle.ALWAYS_THERE.get(name);
            places.put(
                    ref,
                    new Place(
                            ref,
                            facts == null && reference != null ? reference.electrical() : facts,
                            circuit.function(),
                            node != null && network.isConnected(node)));
        }
    }
}
