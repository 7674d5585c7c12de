package dev.splicebook.hookup.rule;

import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Need;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Reach;
import dev.splicebook.hookup.net.Scenario;
import dev.splicebook.hookup.net.Scenario.Sure;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** In which states a load is fed. */
final class Feeds {

    private final Node node;
    private final Electrical.Load load;
    private final Set<State> surely = EnumSet.noneOf(State.class);
    private final Set<State> perhaps = EnumSet.noneOf(State.class);
    private final Set<State> atTimes = EnumSet.noneOf(State.class);
    private final Set<State> lost = EnumSet.noneOf(State.class);
    private final Set<Node> awake = new LinkedHashSet<>();
    private final Set<Node> sources = new LinkedHashSet<>();
    private final Set<Node> unknown = new LinkedHashSet<>();
    /** Parts that are never fed, on whose outputs it hangs. */
    private final Set<String> idleParts = new HashSet<>();

    private boolean idle;

    private Feeds(Node node, Electrical.Load load) {
        this.node = node;
        this.load = load;
    }

    /** Every load that is meant to be fed: those of parts, and those of the vehicle that something is connected to. */
    static List<Feeds> of(Network network) {
        List<Feeds> all = new ArrayList<>();
        boolean open = Unknowns.arePossible(network);
        for (Node node : network.nodes()) {
            if (node.facts() instanceof Electrical.Load load
                    && !network.isUnused(node)
                    && (!node.isVehicle() || network.isConnected(node))) {
                all.add(read(node, load, open, network));
            }
        }
        Map<String, Set<String>> waitingFor = new HashMap<>();
        for (Feeds feeds : all) {
            if (feeds.idle) {
                waitingFor
                        .computeIfAbsent(feeds.node.owner(), part -> new HashSet<>())
                        .addAll(feeds.idleParts);
            }
        }
        if (!waitingFor.isEmpty()) {
            // parts that wait for one another in a circle would never be told
            all.forEach(feeds -> feeds.idle &= !isInCircle(feeds.node.owner(), waitingFor));
        }
        return all;
    }

    private static boolean isInCircle(String part, Map<String, Set<String>> waitingFor) {
        Set<String> seen = new HashSet<>();
        ArrayDeque<String> queue = new ArrayDeque<>(waitingFor.getOrDefault(part, Set.of()));
        while (!queue.isEmpty()) {
            String at = queue.remove();
            if (at.equals(part)) {
                return true;
            }
            if (seen.add(at)) {
                queue.addAll(waitingFor.getOrDefault(at, Set.of()));
            }
        }
        return false;
    }

    private static Feeds read(Node node, Electrical.Load load, boolean open, Network network) {
        Feeds feeds = new Feeds(node, load);
        for (Scenario scenario : network.scenarios()) {
            Sure feed = scenario.hasFeed(node);
            for (Reach reach : scenario.reaches(node)) {
                if (reach.source().givesTwelveVolts()) {
                    feeds.sources.add(reach.source());
                    if (scenario.state() == State.ASLEEP
                            && scenario.conditions().isEmpty()
                            && scenario.isLive(reach.source()) == Sure.YES) {
                        feeds.awake.add(reach.source());
                    }
                    if (isIdlePart(reach.source(), network)) {
                        feeds.idleParts.add(reach.source().owner());
                    }
                }
            }
            if (open && feed != Sure.YES) {
                Set<Node> lacking = Unknowns.ofFeed(node, network, scenario);
                feeds.unknown.addAll(lacking);
                feed = lacking.isEmpty() ? feed : Sure.UNKNOWN;
            }
            feeds.add(scenario, feed);
        }
        feeds.idle = !feeds.idleParts.isEmpty() && feeds.perhaps.isEmpty();
        return feeds;
    }

    private void add(Scenario scenario, Sure feed) {
        if (feed == Sure.YES) {
            atTimes.add(scenario.state());
        }
        if (feed != Sure.NO) {
            perhaps.add(scenario.state());
        }
        if (scenario.conditions().isEmpty()) {
            if (feed == Sure.YES) {
                surely.add(scenario.state());
            } else if (feed == Sure.NO) {
                lost.add(scenario.state());
            }
        }
    }

    /** A part that is never fed tells that about itself; what hangs on its outputs is no second cause. */
    static boolean isIdlePart(Node source, Network network) {
        if (source.isVehicle()) {
            return false;
        }
        for (Scenario scenario : network.scenarios()) {
            if (scenario.isFed(source.owner()) != Sure.NO) {
                return false;
            }
        }
        return true;
    }

    /** The load and the ground lead of a part that stand where the other belongs; null if they do not. */
    static @Nullable Reversal findReversal(String part, Examination examination) {
        Scenario scenario = examination.network().scenarios().get(0);
        Node load = null;
        Node ground = null;
        for (Node node : examination.network().nodesOf(part)) {
            if (load == null && node.facts() instanceof Electrical.Load && scenario.isGrounded(node)) {
                load = node;
            } else if (ground == null
                    && node.facts() instanceof Electrical.Ground
                    && !scenario.isGrounded(node)
                    && hardSource(node, scenario) != null) {
                ground = node;
            }
        }
        Node source = ground == null ? null : hardSource(ground, scenario);
        return load == null || ground == null || source == null ? null : new Reversal(load, ground, source);
    }

    private static @Nullable Node hardSource(Node node, Scenario scenario) {
        return scenario.reaches(node).stream()
                .filter(Reach::hard)
                .map(Reach::source)
                .filter(Node::givesTwelveVolts)
                .min(Say.BY_FACTS)
                .orElse(null);
    }

    /**
     * A part whose feed and return are mixed up.
     *
     * @param load that stands on the vehicle's ground
     * @param ground of the part that stands on a supply
     * @param source the supply
     */
    record Reversal(Node load, Node ground, Node source) {}

    Node node() {
        return node;
    }

    @Nullable
    Need needs() {
        return load.needs();
    }

    /** States in which it is fed whatever conditions hold. */
    Set<State> surely() {
        return surely;
    }

    /** States in which it is fed, or may be. */
    Set<State> perhaps() {
        return perhaps;
    }

    /** States in which it is surely not fed while no condition holds. */
    Set<State> lost() {
        return lost;
    }

    /** States in which it is fed, if need be only under a condition. */
    Set<State> atTimes() {
        return atTimes;
    }

    /** Supplies and outputs that reach it, live or not. */
    Set<Node> sources() {
        return sources;
    }

    /** Supplies and outputs that feed it while the vehicle is asleep and no condition holds. */
    Set<Node> sourcesAsleep() {
        return awake;
    }

    /** Whether it waits for an output of a part that itself is never fed. */
    boolean waitsForIdlePart() {
        return idle;
    }

    /** Whether all of some sources are outputs of other parts among those that are told already. */
    boolean isConsequence(Set<Node> of, Set<String> told) {
        return !of.isEmpty()
                && of.stream()
                        .allMatch(source -> !source.isVehicle()
                                && !source.owner().equals(node.owner())
                                && told.contains(source.owner()));
    }

    void lackFacts(Examination examination) {
        Unknowns.tell(unknown, examination);
    }
}
