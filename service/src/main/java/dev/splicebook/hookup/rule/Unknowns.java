package dev.splicebook.hookup.rule;

import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.net.Coil;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Scenario;
import dev.splicebook.hookup.net.Scenario.Sure;
import java.util.ArrayDeque;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/** The terminals whose missing facts leave open whether 12 V or ground stands at a node. */
final class Unknowns {

    private final Network network;
    private final Scenario scenario;
    private final Set<Node> askedForFeed = new HashSet<>();
    private final Set<Node> askedForGround = new HashSet<>();
    private final Set<Coil> askedCoils = new HashSet<>();

    private Unknowns(Network network, Scenario scenario) {
        this.network = network;
        this.scenario = scenario;
    }

    /** Whether any fact is missing that could leave feed or ground open; if not, there is nothing to look for. */
    static boolean arePossible(Network network) {
        return network.nodes().stream()
                .anyMatch(node -> network.isUnknown(node)
                        || (node.facts() instanceof Electrical.Supply supply && supply.live() == null)
                        || (node.facts() instanceof Electrical.ControlOut out
                                && (out.live() == null || out.active() == null)));
    }

    static Set<Node> ofFeed(Node node, Network network, Scenario scenario) {
        return new Unknowns(network, scenario).search(node, false);
    }

    static Set<Node> ofGround(Node node, Network network, Scenario scenario) {
        return new Unknowns(network, scenario).search(node, true);
    }

    /** Names the fact that each lacks. */
    static void tell(Set<Node> lacking, Examination examination) {
        for (Node node : lacking) {
            String fact = node.facts() == null
                    ? "electrical"
                    : node.facts() instanceof Electrical.ControlOut out && out.active() == null ? "active" : "live";
            examination.missing(node, fact);
        }
    }

    private Set<Node> search(Node start, boolean ground) {
        Set<Node> lacking = new LinkedHashSet<>();
        Set<Node> asked = ground ? askedForGround : askedForFeed;
        ArrayDeque<Node> queue = new ArrayDeque<>();
        if (asked.add(start)) {
            queue.add(start);
        }
        while (!queue.isEmpty()) {
            Node at = queue.remove();
            lacking.addAll(lackingAt(at, ground));
            // at ground 12 V has arrived
            if (!ground && at != start && isAtGround(at)) {
                continue;
            }
            for (Link link : network.linksOf(at)) {
                Node next = link.across(at);
                boolean crosses = switch (link.kind()) {
                    case CONNECTION, PLUG, CONDUCTION, FUSE, RESISTOR -> true;
                    case DIODE -> at == (ground ? link.from() : link.to());
                    case OPEN_CONTACT, CLOSED_CONTACT -> scenario.isClosed(link);
                };
                if (!crosses && link.kind().isContact()) {
                    Set<Node> causes = causesOfDoubt(network.coilOf(link));
                    if (!causes.isEmpty() && level(next, ground) != Sure.NO) {
                        lacking.addAll(causes);
                    }
                    crosses = !causes.isEmpty();
                }
                if (crosses && asked.add(next)) {
                    queue.add(next);
                }
            }
        }
        return lacking;
    }

    private boolean isAtGround(Node at) {
        return scenario.members(scenario.netOf(at)).stream().anyMatch(Node::isReference);
    }

    private Set<Node> lackingAt(Node at, boolean ground) {
        if (network.isUnknown(at)) {
            return Set.of(at);
        }
        boolean gives = ground ? at.pullsToGround() : at.givesTwelveVolts();
        boolean mightGive = at.facts() instanceof Electrical.ControlOut out && out.active() == null;
        if ((!gives && !mightGive) || scenario.isLive(at) == Sure.NO || (gives && scenario.isLive(at) == Sure.YES)) {
            return Set.of();
        }
        Set<Node> causes = new LinkedHashSet<>();
        if (!at.isVehicle() && scenario.isFed(at.owner()) == Sure.UNKNOWN) {
            for (Node node : network.nodesOf(at.owner())) {
                if (node.facts() instanceof Electrical.Load && !network.isUnused(node)) {
                    causes.addAll(search(node, false));
                } else if (node.facts() instanceof Electrical.Ground) {
                    causes.addAll(search(node, true));
                }
            }
        }
        return causes.isEmpty() ? Set.of(at) : causes;
    }

    /** The terminals that leave open whether a released coil pulls; none if it surely does not. */
    private Set<Node> causesOfDoubt(Coil coil) {
        if (!askedCoils.add(coil)) {
            return Set.of();
        }
        for (List<Node> way : List.of(List.of(coil.one(), coil.other()), List.of(coil.other(), coil.one()))) {
            Set<Node> causes = search(way.get(0), false);
            boolean fed = level(way.get(0), false) != Sure.NO || !causes.isEmpty();
            Set<Node> returns = search(way.get(1), true);
            boolean grounded = level(way.get(1), true) != Sure.NO || !returns.isEmpty();
            causes.addAll(returns);
            if (fed && grounded && !causes.isEmpty()) {
                return causes;
            }
        }
        return Set.of();
    }

    private Sure level(Node node, boolean ground) {
        return ground ? scenario.hasGround(node) : scenario.hasFeed(node);
    }
}
