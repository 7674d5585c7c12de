package dev.splicebook.hookup.rule;

import dev.splicebook.hookup.Channel;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.OutputLoads;
import dev.splicebook.hookup.net.Scenario;
import dev.splicebook.hookup.net.Signals;
import dev.splicebook.hookup.power.Power;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/** What several rules read of one hookup, worked out once. */
public final class Reading {

    private final Network network;
    private final Map<AudioKey, List<Node>> audio = new HashMap<>();
    private final Set<Node> passedOn = new HashSet<>();
    private final List<Scenario> partitions = new ArrayList<>();
    private final List<Scenario> solutions = new ArrayList<>();
    private @Nullable List<Group> inputs;
    private @Nullable List<Node> sidelessInputs;
    private @Nullable List<Node> unknownTerminals;
    private @Nullable Power power;
    private @Nullable List<Feeds> feeds;
    private @Nullable List<SharedFuse> sharedFuses;
    private final Map<Node, List<Conductors.Exposed>> exposed = new HashMap<>();
    private @Nullable Map<Link, Node> fuseEnds;
    private final Draws draws;
    private final Map<Object, OutputLoads> loads = new HashMap<>();

    public Reading(Network network) {
        this.network = network;
        draws = new Draws(this);
        for (Node node : network.nodes()) {
            if (node.audio() != null && node.audio().side() != null) {
                audio.computeIfAbsent(
                                AudioKey.of(
                                        node, node.audio(), node.audio().side().isPositive()),
                                key -> new ArrayList<>(2))
                        .add(node);
            }
        }
        network.couplings().forEach(coupling -> passedOn.addAll(coupling.from()));
        Map<Object, Boolean> seen = new HashMap<>();
        for (Scenario scenario : network.scenarios()) {
            if (seen.put(scenario.partition(), true) == null) {
                partitions.add(scenario);
            }
            if (seen.put(scenario.solution(), true) == null) {
                solutions.add(scenario);
            }
        }
    }

    /** The power in every state. */
    public Power power() {
        if (power == null) {
            power = Power.of(network);
        }
        return power;
    }

    Draws draws() {
        return draws;
    }

    /** Every load that is meant to be fed. */
    List<Feeds> feeds() {
        if (feeds == null) {
            feeds = Feeds.of(network);
        }
        return feeds;
    }

    /** Fuses upstream of vehicle circuits. */
    List<SharedFuse> sharedFuses() {
        if (sharedFuses == null) {
            sharedFuses = SharedFuse.of(network);
        }
        return sharedFuses;
    }

    /** Every conductor that a supply can push current through, each once, with the weakest protection before it. */
    List<Conductors.Exposed> exposedTo(Node supply) {
        return exposed.computeIfAbsent(supply, key -> Conductors.from(key, network));
    }

    /** The end of each fused conductor that its fuse sits at; those that nothing feeds are absent. */
    Map<Link, Node> fuseEnds() {
        if (fuseEnds == null) {
            fuseEnds = Conductors.fuseEnds(this);
        }
        return fuseEnds;
    }

    Network network() {
        return network;
    }

    /** One scenario for each way in which the contacts stand. */
    public List<Scenario> partitions() {
        return partitions;
    }

    /** One scenario for each way in which signals flow: like {@link #partitions}, but a single one where no contact moves any. */
    public List<Scenario> signalWays() {
        return network.mayContactsMoveSignals() ? partitions : partitions.subList(0, 1);
    }

    /** States in which signals flow as in a scenario; empty if they always do and no contact ever moves. */
    public List<State> signalStates(Scenario scenario) {
        return network.mayContactsMoveSignals() || partitions.size() == 1 ? states(scenario) : List.of(State.values());
    }

    /** One scenario for each solution. */
    List<Scenario> solutions() {
        return solutions;
    }

    Signals signals(Scenario scenario) {
        return Signals.in(scenario);
    }

    /** What the speaker outputs drive by the nets of a scenario. */
    public OutputLoads loads(Scenario scenario) {
        Object alike = network.mayContactsMoveSignals() ? scenario.partition() : network;
        return loads.computeIfAbsent(alike, key -> new OutputLoads(network, scenario));
    }

    /**
     * The terminals of one audio channel of one part: usually a plus and a minus, more where a loudspeaker has two coils.
     *
     * @param channel null where unknown
     */
    record Group(
            String owner,
            boolean speaker,
            boolean output,
            @Nullable Channel channel,
            List<Node> positive,
            List<Node> negative) {

        boolean isPair() {
            return positive.size() == 1 && negative.size() == 1;
        }

        List<Node> nodes() {
            List<Node> nodes = new ArrayList<>(positive);
            nodes.addAll(negative);
            return nodes;
        }
    }

    /** Audio inputs by channel; terminals of which the side is unknown are left out. */
    List<Group> inputs() {
        if (inputs == null) {
            inputs = groups(false);
        }
        return inputs;
    }

    /** Audio inputs of which the side is unknown. */
    List<Node> sidelessInputs() {
        if (sidelessInputs == null) {
            sidelessInputs = network.nodes().stream()
                    .filter(node -> node.audio() != null
                            && !node.audio().isOutput()
                            && node.audio().side() == null)
                    .toList();
        }
        return sidelessInputs;
    }

    /** Says of each terminal of which nothing is known that a signal reaches it, so that nobody can tell what it does. */
    void tellUnknownEnds(Signals signals, Examination examination) {
        if (unknownTerminals == null) {
            unknownTerminals = network.nodes().stream()
                    .filter(node -> node.facts() == null)
                    .toList();
        }
        for (Node node : unknownTerminals) {
            if (!signals.arrivals(node).isEmpty()) {
                examination.missing(node, "electrical");
            }
        }
    }

    /** States in which contacts stand as in a scenario; empty if they always do. */
    public List<State> states(Scenario scenario) {
        return partitions.size() == 1
                ? List.of()
                : network.scenarios().stream()
                        .filter(other -> other.partition() == scenario.partition())
                        .map(Scenario::state)
                        .distinct()
                        .toList();
    }

    private List<Group> groups(boolean output) {
        Map<List<Object>, Group> groups = new LinkedHashMap<>();
        for (Node node : network.nodes()) {
            Electrical.Audio audio = node.audio();
            if (audio == null || audio.isOutput() != output || audio.side() == null) {
                continue;
            }
            boolean speaker = isSpeaker(audio);
            Channel channel = audio.channel();
            Object key = channel == null ? "unknown" : channel;
            Group group = groups.computeIfAbsent(
                    List.of(node.owner(), speaker, key),
                    ignored -> new Group(node.owner(), speaker, output, channel, new ArrayList<>(), new ArrayList<>()));
            (audio.side().isPositive() ? group.positive() : group.negative()).add(node);
        }
        return new ArrayList<>(groups.values());
    }

    static boolean isSpeaker(Electrical.Audio audio) {
        return audio instanceof Electrical.SpeakerOut || audio instanceof Electrical.SpeakerIn;
    }

    /** One side of one channel of one kind at one part. */
    private record AudioKey(
            String owner,
            boolean output,
            boolean speaker,
            @Nullable Channel channel,
            boolean positive) {
        static AudioKey of(Node node, Electrical.Audio audio, boolean positive) {
            return new AudioKey(node.owner(), audio.isOutput(), isSpeaker(audio), audio.channel(), positive);
        }
    }

    /** The other side of an output: what a coupling drives with it, else what is of the same part, kind and channel. */
    List<Node> counterparts(Node output) {
        Electrical.Audio facts = output.audio();
        if (facts == null || facts.side() == null) {
            return List.of();
        }
        Node coupled = network.coupledWith(output);
        if (coupled != null && coupled.audio() != null) {
            return List.of(coupled);
        }
        return audio.getOrDefault(AudioKey.of(output, facts, !facts.side().isPositive()), List.of());
    }

    /** An output with its other side. */
    List<Node> pairOf(Node output) {
        List<Node> pair = new ArrayList<>(counterparts(output));
        pair.add(output);
        return pair;
    }

    /** Whether an input passes its signal on inside its part, so that what leaves there tells more. */
    boolean isPassedOn(Node input) {
        return passedOn.contains(input);
    }

    /** Whether a node is one conductor with another of its part, inside the part. */
    boolean isJoinedInside(Node node) {
        return network.linksOf(node).stream()
                .anyMatch(link -> link.kind() == Link.Kind.CONDUCTION || link.kind() == Link.Kind.FUSE);
    }

    /** Refs of the connections that end at any of the nodes. */
    Set<String> connectionsAt(Iterable<Node> nodes) {
        Set<String> refs = new TreeSet<>();
        for (Node node : nodes) {
            for (Link link : network.linksOf(node)) {
                if (link.ref() != null) {
                    refs.add(link.ref());
                }
            }
        }
        return refs;
    }

    /** Refs of the connections that make up a net. */
    Set<String> connectionsOn(Scenario scenario, int net) {
        return connectionsAt(scenario.members(net));
    }

    /**
     * Refs of the connections of a net that lie between some of its nodes, so that what else hangs on it is none of them.
     * What comes in by a diode comes from one more.
     */
    Set<String> connectionsBetween(Collection<Node> ends, Scenario scenario, int net) {
        Map<Node, Set<Link>> linksOf = new LinkedHashMap<>();
        Set<Node> kept = new HashSet<>(ends);
        for (Node node : scenario.members(net)) {
            Set<Link> links = new LinkedHashSet<>();
            for (Link link : network.linksOf(node)) {
                if (link.kind().isContact()
                        ? scenario.isClosed(link)
                        : link.kind().isSolid()) {
                    links.add(link);
                } else if (link.kind() == Link.Kind.DIODE) {
                    kept.add(node);
                }
            }
            linksOf.put(node, links);
        }
        ArrayDeque<Node> queue = new ArrayDeque<>(linksOf.keySet());
        while (!queue.isEmpty()) {
            Node node = queue.remove();
            Set<Link> links = linksOf.getOrDefault(node, Set.of());
            if (links.size() == 1 && !kept.contains(node)) {
                Link last = links.iterator().next();
                links.clear();
                linksOf.getOrDefault(last.across(node), new HashSet<>()).remove(last);
                queue.add(last.across(node));
            }
        }
        Set<String> refs = new TreeSet<>();
        linksOf.values()
                .forEach(links ->
                        links.stream().map(Link::ref).filter(Objects::nonNull).forEach(refs::add));
        return refs;
    }
}
