package dev.splicebook.hookup.net;

import dev.splicebook.function.FunctionId;
import dev.splicebook.hookup.Circuit;
import dev.splicebook.hookup.Condition;
import dev.splicebook.hookup.Connection;
import dev.splicebook.hookup.Device;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Hookup;
import dev.splicebook.hookup.Names;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.Unused;
import dev.splicebook.hookup.Vehicle;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** A hookup as nodes and links, with its nets by conduction and its solution in every scenario. */
public final class Network {

    /** What is for the battery itself. */
    public static final FunctionId BATTERY = new FunctionId("power.battery");

    private static final Electrical PASSIVE = new Electrical.Passive();

    /** What the amplifier in an antenna or its feeder takes at most; common practice, no source. */
    private static final double MOST_SCREEN_AMPS = 0.5;

    private final Hookup hookup;
    private final String[] unplugged;
    private final List<Node> nodes = new ArrayList<>();
    private final Map<String, Node> byRef = new HashMap<>();
    private final List<Link> links = new ArrayList<>();
    private final List<List<Link>> linksOf = new ArrayList<>();
    private final List<Coil> coils = new ArrayList<>();
    private final List<Coupling> couplings = new ArrayList<>();
    /** The other conductor of a coupling's end by each; null where couplings share one and so do not tell. */
    private final Map<Node, @Nullable Node> coupled = new HashMap<>();

    private final Map<String, List<Node>> byOwner = new LinkedHashMap<>();
    private final List<Node> sources = new ArrayList<>();
    /** Nodes of the connectors that are mated. */
    private final Map<String, List<Node>> byConnector = new HashMap<>();

    private final List<List<Node>> nets = new ArrayList<>();
    private final List<Scenario> scenarios = new ArrayList<>();
    private final BitSet unused = new BitSet();
    private final BitSet usedAllTheSame = new BitSet();
    private final BitSet unknown = new BitSet();
    private final BitSet connected = new BitSet();
    private int relays;
    private @Nullable Boolean contactsMoveSignals;

    public Network(Hookup hookup) {
        this.hookup = hookup;
        unplugged = hookup.unplugged().toArray(String[]::new);
        addVehicle();
        for (String part : hookup.devices().keySet()) {
            addPart(part, hookup.devices().get(part));
        }
        hookup.document().connections().forEach(this::addConnection);
        hookup.document()
                .plugs()
                .forEach(plug -> plug.forEach(connector -> byConnector.put(connector, new ArrayList<>())));
        addConnectors();
        hookup.document().plugs().forEach(plug -> addPlug(plug.get(0), plug.get(1)));
        for (Link link : links) {
            linksOf.get(link.from().index).add(link);
            linksOf.get(link.to().index).add(link);
            if (link.kind() == Link.Kind.CONNECTION || link.kind() == Link.Kind.PLUG) {
                connected.set(link.from().index);
                connected.set(link.to().index);
            }
        }
        for (String terminal : hookup.document().unused().keySet()) {
            Node node = byRef.get(terminal);
            if (node != null && isWired(node)) {
                usedAllTheSame.set(node.index);
            } else if (node != null) {
                unused.set(node.index);
            }
        }
        for (Coupling coupling : couplings) {
            for (List<Node> end : List.of(coupling.from(), coupling.to())) {
                couple(end.get(0), end.get(1));
                couple(end.get(1), end.get(0));
            }
        }
        nodes.stream().filter(this::workOutWhetherUnknown).forEach(node -> unknown.set(node.index));
        joinNets();
        Scenarios.solve(this, scenarios);
    }

    public Hookup hookup() {
        return hookup;
    }

    public List<Node> nodes() {
        return nodes;
    }

    public List<Link> links() {
        return links;
    }

    public List<Coil> coils() {
        return coils;
    }

    /** The coil that moves a contact. */
    public Coil coilOf(Link contact) {
        return coils.get(contact.relay());
    }

    public List<Coupling> couplings() {
        return couplings;
    }

    /**
     * The other side of one side of a signal, where a coupling tells: of a bridged output the minus that goes with a plus.
     * Null where none does, or where several share a conductor.
     */
    public @Nullable Node coupledWith(Node side) {
        return coupled.get(side);
    }

    private void couple(Node one, Node other) {
        boolean isNew = !coupled.containsKey(one);
        coupled.put(one, isNew || other.equals(coupled.get(one)) ? other : null);
    }

    /** Nodes by part, {@code CAR} for the vehicle's. */
    public Map<String, List<Node>> byOwner() {
        return byOwner;
    }

    public List<Node> nodesOf(String owner) {
        return byOwner.getOrDefault(owner, List.of());
    }

    /** Nodes that are a supply or a control output. */
    public List<Node> sources() {
        return sources;
    }

    /** One for each state, one more for each condition that makes a difference in it, and one where all at once make more. */
    public List<Scenario> scenarios() {
        return scenarios;
    }

    /** The scenario of a state in which no condition holds. */
    public Scenario scenario(State state) {
        for (Scenario scenario : scenarios) {
            if (scenario.state() == state && scenario.conditions().isEmpty()) {
                return scenario;
            }
        }
        throw new IllegalStateException("no scenario for " + state);
    }

    public @Nullable Node findNode(String ref) {
        return byRef.get(ref);
    }

    public List<Link> linksOf(Node node) {
        return linksOf.get(node.index);
    }

    /** The nodes of a net by conduction. */
    public List<Node> netOf(Node node) {
        return nets.get(node.net);
    }

    /**
     * Whether nothing electrical is known of a terminal: a circuit of the vehicle without facts, or a lead without facts
     * of a part that says nothing of what lies behind it either.
     */
    public boolean isUnknown(Node node) {
        return unknown.get(node.index);
    }

    /** Places of the terminals of which {@link #isUnknown nothing is known}. */
    BitSet unknown() {
        return unknown;
    }

    private boolean workOutWhetherUnknown(Node node) {
        return node.facts() == null
                && (node.isVehicle()
                        || (node.role() == Node.Role.LEAD
                                && linksOf(node).stream()
                                        .allMatch(link ->
                                                link.kind() == Link.Kind.CONNECTION || link.kind() == Link.Kind.PLUG)
                                && coils.stream().noneMatch(coil -> coil.one() == node || coil.other() == node)));
    }

    /** Whether a connection or a plug ends here. */
    public boolean isConnected(Node node) {
        return connected.get(node.index);
    }

    /** What the hookup says becomes of the lead, null if it is not listed as unused or a connection ends at it. */
    public @Nullable Unused unused(Node node) {
        return isUnused(node) ? hookup.document().unused().get(node.ref()) : null;
    }

    /** Whether the hookup lists it as unused and no connection ends at it. */
    public boolean isUnused(Node node) {
        return unused.get(node.index);
    }

    /** Whether the hookup lists as unused what a connection ends at; the connection counts. */
    public boolean isUsedAllTheSame(Node node) {
        return usedAllTheSame.get(node.index);
    }

    /** Whether a connection ends here. */
    public boolean isWired(Node node) {
        for (Link link : linksOf(node)) {
            if (link.kind() == Link.Kind.CONNECTION) {
                return true;
            }
        }
        return false;
    }

    /** Whether a part that names no ground and takes next to nothing has an antenna lead, by whose screen it returns. */
    public boolean returnsByScreen(String part) {
        boolean antenna = false;
        for (Node node : nodesOf(part)) {
            if (node.facts() instanceof Electrical.Ground
                    || (node.facts() instanceof Electrical.Load load
                            && (load.maxAmps() == null || load.maxAmps() > MOST_SCREEN_AMPS))) {
                return false;
            }
            antenna |= node.facts() instanceof Electrical.Antenna && isConnected(node);
        }
        return antenna;
    }

    /** Whether a part has feeds and each is listed as unused, and not as left in its plug. */
    public boolean isLeftUnfed(String part) {
        boolean unfed = false;
        for (Node node : nodesOf(part)) {
            if (node.facts() instanceof Electrical.Load) {
                Unused unused = unused(node);
                if (unused == null || unused.fate() == Unused.Fate.LEFT_PLUGGED) {
                    return false;
                }
                unfed = true;
            }
        }
        return unfed;
    }

    /**
     * Whether a contact stands where a signal may flow, whatever lies between. Where none does, the nets of all that takes
     * or gives a signal are the same however contacts stand.
     */
    public boolean mayContactsMoveSignals() {
        if (contactsMoveSignals == null) {
            contactsMoveSignals = !coils.isEmpty() && workOutWhetherContactsMoveSignals();
        }
        return contactsMoveSignals;
    }

    private boolean workOutWhetherContactsMoveSignals() {
        int[] parents = new int[nets.size()];
        Arrays.setAll(parents, net -> net);
        for (Link link : links) {
            if (!link.kind().isSolid()) {
                union(parents, link.from().net, link.to().net);
            }
        }
        BitSet moved = new BitSet();
        for (Link link : links) {
            if (link.kind().isContact()) {
                moved.set(find(parents, link.from().net));
            }
        }
        for (Node node : nodes) {
            if (node.isForSignal() && moved.get(find(parents, node.net))) {
                return true;
            }
        }
        for (Coupling coupling : couplings) {
            for (List<Node> ends : List.of(coupling.from(), coupling.to())) {
                for (Node end : ends) {
                    if (moved.get(find(parents, end.net))) {
                        return true;
                    }
                }
            }
        }
        return false;
    }

    /** Whether the connector that a node is a pin of is mated with another, like {@code CAR.C1}. */
    public boolean isMated(Node node) {
        return node.mated;
    }

    int netCount() {
        return nets.size();
    }

    List<Node> net(int net) {
        return nets.get(net);
    }

    /** The conditions that any source of the hookup waits for. */
    Set<Condition> conditions() {
        Set<Condition> conditions = EnumSet.noneOf(Condition.class);
        for (Node source : sources) {
            conditions.addAll(whenOf(source));
        }
        return conditions;
    }

    static List<Condition> whenOf(Node source) {
        if (source.facts() instanceof Electrical.Supply supply) {
            return supply.when();
        }
        return source.facts() instanceof Electrical.ControlOut out ? out.when() : List.of();
    }

    static @Nullable List<State> liveOf(Node source) {
        if (source.facts() instanceof Electrical.Supply supply) {
            return supply.live();
        }
        return source.facts() instanceof Electrical.ControlOut out ? out.live() : null;
    }

    private void addVehicle() {
        Set<String> wanted = new HashSet<>(Vehicle.ALWAYS_THERE.keySet());
        hookup.document()
                .connections()
                .values()
                .forEach(connection -> connection.ends().forEach(end -> want(end, wanted)));
        hookup.document().unused().keySet().forEach(terminal -> want(terminal, wanted));
        for (String name : hookup.map().circuits().keySet()) {
            if (isUnplugged(name)) {
                wanted.add(name);
            }
        }
        addOtherSides(wanted);
        wanted.removeAll(hookup.cuts());
        for (String name : wanted) {
            Circuit circuit = hookup.findCircuit(name);
            if (circuit != null) {
                Node.Role role = Vehicle.ALWAYS_THERE.containsKey(name) ? Node.Role.REFERENCE : Node.Role.CIRCUIT;
                Electrical facts = circuit.factsWhen(!isUnplugged(name));
                Circuit reference = Vehicle.ALWAYS_THERE.get(name);
                if (facts == null && reference != null) {
                    facts = reference.electrical();
                }
                addNode(Names.VEHICLE, name, role, facts, circuit);
            }
        }
        for (String cut : hookup.cuts()) {
            Circuit circuit = hookup.findCircuit(cut);
            if (circuit != null) {
                addNode(Names.VEHICLE, cut + "/unit", Node.Role.CUT_END, unitFacts(cut, circuit), circuit);
                addNode(Names.VEHICLE, cut + "/harness", Node.Role.CUT_END, circuit.factsWhen(false), circuit);
            }
        }
    }

    /**
     * Circuits of sound and pictures that nothing touches count too where others are touched: a pair lacks a side by what
     * it lacks.
     */
    private void addOtherSides(Set<String> wanted) {
        Set<Object> signals = new HashSet<>();
        for (String name : wanted) {
            Object signal = signalOf(name, hookup.findCircuit(name));
            if (signal != null) {
                signals.add(signal);
            }
        }
        if (!signals.isEmpty()) {
            hookup.map().circuits().forEach((name, circuit) -> {
                Object signal = signalOf(name, circuit);
                if (signal != null && signals.contains(signal)) {
                    wanted.add(name);
                }
            });
        }
    }

    /** What the sides of one signal have in common: a channel, or the connector of a picture; null for what is neither. */
    private @Nullable Object signalOf(String name, @Nullable Circuit circuit) {
        Electrical facts = circuit == null ? null : circuit.factsWhen(!isUnplugged(name));
        if (facts instanceof Electrical.Audio audio) {
            return audio.channel() == null ? "unknown channel" : audio.channel();
        }
        return facts instanceof Electrical.Video ? "picture at " + Names.connectorOf(name) : null;
    }

    /** Without cutting the name up: this is asked of every circuit of the map. */
    private boolean isUnplugged(String circuit) {
        for (String connector : unplugged) {
            if (circuit.startsWith(connector) && circuit.lastIndexOf('-') == connector.length()) {
                return true;
            }
        }
        return false;
    }

    private static void want(String terminal, Set<String> wanted) {
        String prefix = Names.VEHICLE + ".";
        if (terminal.startsWith(prefix) && !terminal.endsWith("/unit") && !terminal.endsWith("/harness")) {
            wanted.add(terminal.substring(prefix.length()));
        }
    }

    /**
     * What the stub at the factory unit is. Where plugging makes a difference and the plugged circuit gives something,
     * the unit gives it; with the connector off, the stub is dead.
     */
    private @Nullable Electrical unitFacts(String name, Circuit circuit) {
        if (isUnplugged(name)) {
            return PASSIVE;
        }
        Electrical plugged = circuit.whenPlugged();
        boolean gives = plugged instanceof Electrical.Supply
                || plugged instanceof Electrical.ControlOut
                || plugged instanceof Electrical.VideoOut
                || (plugged instanceof Electrical.Audio audio && audio.isOutput());
        return gives && plugged != null && !plugged.equals(circuit.whenUnplugged()) ? plugged : null;
    }

    private void addPart(String part, Device device) {
        Map<String, Node> inside = new HashMap<>();
        hookup.terminalsOf(part).forEach((name, terminal) -> {
            Node node = new Node(
                    nodes.size(),
                    part,
                    name,
                    device.terminals().containsKey(name) ? Node.Role.LEAD : Node.Role.INSIDE,
                    terminal.electrical(),
                    terminal.function(),
                    terminal.colour(),
                    null);
            addNode(node);
            inside.put(name, node);
        });
        for (List<String> group : device.conducts()) {
            for (int member = 1; member < group.size(); member++) {
                link(Link.Kind.CONDUCTION, group.get(0), group.get(member), inside, Double.NaN, -1, null);
            }
        }
        for (Device.Fuse fuse : device.fuses()) {
            link(Link.Kind.FUSE, fuse.between().get(0), fuse.between().get(1), inside, fuse.ratingAmps(), -1, null);
        }
        for (Device.Diode diode : device.diodes()) {
            link(Link.Kind.DIODE, diode.anode(), diode.cathode(), inside, Double.NaN, -1, diode);
        }
        for (Device.Resistor resistor : device.resistors()) {
            link(
                    Link.Kind.RESISTOR,
                    resistor.between().get(0),
                    resistor.between().get(1),
                    inside,
                    Double.NaN,
                    -1,
                    resistor);
        }
        for (Device.Relay relay : device.relays()) {
            int index = relays++;
            coils.add(new Coil(
                    part,
                    index,
                    at(relay.coil().get(0), inside),
                    at(relay.coil().get(1), inside),
                    relay.coilOhms(),
                    relay.coilVolts()));
            if (relay.open() != null) {
                link(Link.Kind.OPEN_CONTACT, relay.common(), relay.open(), inside, Double.NaN, index, relay);
            }
            if (relay.closed() != null) {
                link(Link.Kind.CLOSED_CONTACT, relay.common(), relay.closed(), inside, Double.NaN, index, relay);
            }
        }
        for (Device.Couple couple : hookup.couplesOf(part)) {
            couplings.add(new Coupling(
                    part,
                    List.of(at(couple.from().get(0), inside), at(couple.from().get(1), inside)),
                    List.of(at(couple.to().get(0), inside), at(couple.to().get(1), inside)),
                    couple.gain() == null ? 1 : couple.gain(),
                    couple.inputOhms(),
                    couple.maxVolts()));
        }
    }

    private void addConnection(String ref, Connection connection) {
        double fuseAmps =
                connection.fuse() == null ? Double.NaN : connection.fuse().ratingAmps();
        links.add(new Link(
                Link.Kind.CONNECTION,
                node(connection.ends().get(0)),
                node(connection.ends().get(1)),
                ref,
                connection,
                fuseAmps,
                -1,
                null));
    }

    private void addConnectors() {
        Set<String> mating = new LinkedHashSet<>();
        byConnector.keySet().forEach(connector -> mating.add(connector.substring(0, connector.indexOf('.'))));
        for (String owner : mating) {
            for (Node node : nodesOf(owner)) {
                List<Node> pins = node.role() == Node.Role.REFERENCE ? null : byConnector.get(node.connector());
                if (pins != null) {
                    pins.add(node);
                    node.mated = true;
                }
            }
        }
    }

    private void addPlug(String one, String other) {
        Map<String, Node> pins = pinsOf(other);
        pinsOf(one).forEach((pin, node) -> {
            Node mate = pins.get(pin);
            if (mate != null) {
                links.add(new Link(Link.Kind.PLUG, node, mate, null, null, Double.NaN, -1, null));
            }
        });
    }

    private Map<String, Node> pinsOf(String connector) {
        Map<String, Node> pins = new LinkedHashMap<>();
        for (Node node : byConnector.getOrDefault(connector, List.of())) {
            if (node.role() != Node.Role.CUT_END) {
                pins.put(Names.pinOf(node.name()), node);
            } else if (node.name().endsWith("/unit") && isUnplugged(Names.circuitOf(node.name()))) {
                // with the connector off the unit, its pin is the stub that the cut left in it, and that is dead
                pins.put(Names.pinOf(Names.circuitOf(node.name())), node);
            }
        }
        return pins;
    }

    private void link(
            Link.Kind kind,
            String from,
            String to,
            Map<String, Node> inside,
            double fuseAmps,
            int relay,
            @Nullable Record component) {
        links.add(new Link(kind, at(from, inside), at(to, inside), null, null, fuseAmps, relay, component));
    }

    private static Node at(String name, Map<String, Node> inside) {
        Node node = inside.get(name);
        if (node == null) {
            throw new IllegalStateException("a resolved device knows " + name);
        }
        return node;
    }

    private void addNode(String owner, String name, Node.Role role, @Nullable Electrical facts, Circuit circuit) {
        addNode(new Node(
                nodes.size(), owner, name, role, facts, circuit.function(), circuit.colour(), circuit.source()));
    }

    private void addNode(Node node) {
        nodes.add(node);
        byRef.put(node.ref(), node);
        linksOf.add(new ArrayList<>(2));
        byOwner.computeIfAbsent(node.owner(), owner -> new ArrayList<>()).add(node);
        if (node.facts() instanceof Electrical.Supply || node.facts() instanceof Electrical.ControlOut) {
            node.sourceIndex = sources.size();
            sources.add(node);
        }
    }

    private Node node(String ref) {
        Node node = byRef.get(ref);
        if (node == null) {
            throw new IllegalStateException("a resolved hookup knows " + ref);
        }
        return node;
    }

    private void joinNets() {
        int[] parents = new int[nodes.size()];
        for (int node = 0; node < parents.length; node++) {
            parents[node] = node;
        }
        for (Link link : links) {
            if (link.kind().isSolid()) {
                union(parents, link.from().index, link.to().index);
            }
        }
        int[] netOf = new int[parents.length];
        Arrays.fill(netOf, -1);
        for (Node node : nodes) {
            int root = find(parents, node.index);
            if (netOf[root] < 0) {
                netOf[root] = nets.size();
                nets.add(new ArrayList<>(4));
            }
            node.net = netOf[root];
            nets.get(node.net).add(node);
        }
        nets.replaceAll(List::copyOf);
    }

    static int find(int[] parents, int at) {
        int root = at;
        while (parents[root] != root) {
            root = parents[root];
        }
        while (parents[at] != root) {
            int next = parents[at];
            parents[at] = root;
            at = next;
        }
        return root;
    }

    static void union(int[] parents, int one, int other) {
        parents[find(parents, one)] = find(parents, other);
    }

    /**
     * Whether a supply is a battery: the vehicle's, or one of a part that gives 12 V in every state and takes none from
     * anything, or says that it is one.
     */
    public boolean isBattery(Node supply) {
        if (supply.role() == Node.Role.REFERENCE) {
            return supply.facts() instanceof Electrical.Supply;
        }
        if (supply.isVehicle()
                || !(supply.facts() instanceof Electrical.Supply facts)
                || Boolean.TRUE.equals(facts.limited())
                || !facts.when().isEmpty()
                || (facts.live() != null && facts.live().size() < State.values().length)) {
            return false;
        }
        return supply.isFor(BATTERY)
                || nodesOf(supply.owner()).stream().noneMatch(node -> node.facts() instanceof Electrical.Load);
    }
}
