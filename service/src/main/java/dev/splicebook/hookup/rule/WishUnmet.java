package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Active;
import dev.splicebook.hookup.Circuit;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Names;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.Side;
import dev.splicebook.hookup.Vehicle;
import dev.splicebook.hookup.Wish;
import dev.splicebook.hookup.net.Coupling;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Scenario;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;

/** Something that the customer wants kept or added is not. */
@AutoService(Rule.class)
@About(
        code = "wish-unmet",
        severity = Severity.WARNING,
        since = "0.1",
        condition = "Something that the customer wants kept or added is not.",
        checks =
                "For a wish to keep: every circuit of the vehicle with that function still reaches the factory unit, or a"
                        + " terminal of a part that gives what it takes or takes what it gives, through adapters, contacts,"
                        + " diodes, resistors and couplings; keys that an interface takes, it must pass on. For a wish to add: a terminal of a part with that function reaches another part or the"
                        + " vehicle in the same way.",
        why = "The customer finds out on the drive home.",
        mend = "Connect the circuits of the function; or talk with the customer before the work.",
        source = "Common practice, no source.",
        fails = """
                {"vehicle": {"inline": {"circuits": {"C2-1": {"function": "audio.line.rear-entertainment.left.signal",
                   "electrical": {"kind": "line-out", "channel": "left", "side": "signal", "maxVolts": 1, "return": "isolated"}}}},
                   "unplugged": ["C2"]},
                 "unused": {"CAR.C2-1": {"as": "capped", "why": "no input"}},
                 "wishes": [{"function": "audio.line.rear-entertainment", "want": "keep"}]}
                """,
        passes = """
                {"vehicle": {"inline": {"circuits": {"C2-1": {"function": "audio.line.rear-entertainment.left.signal",
                   "electrical": {"kind": "line-out", "channel": "left", "side": "signal", "maxVolts": 1, "return": "isolated"}}}},
                   "unplugged": ["C2"]},
                 "parts": {"HU": {"inline": {"terminals": {"av-left": {"electrical":
                   {"kind": "line-in", "channel": "left", "side": "signal", "maxVolts": 2}}}}}},
                 "connections": {"W1": {"ends": ["CAR.C2-1", "HU.av-left"]}},
                 "wishes": [{"function": "audio.line.rear-entertainment", "want": "keep"}]}
                """)
public final class WishUnmet implements Rule {

    @Override
    public void check(Examination examination) {
        for (Wish wish : examination.network().hookup().document().wishes()) {
            examination.applies();
            if (wish.want() == Wish.Want.KEEP) {
                checkKept(wish, examination);
            } else {
                checkAdded(wish, examination);
            }
        }
    }

    private static void checkKept(Wish wish, Examination examination) {
        Network network = examination.network();
        List<String> lost = new ArrayList<>();
        List<Node> nodes = new ArrayList<>();
        boolean any = false;
        Map<String, Circuit> circuits = network.hookup().map().circuits();
        for (Map.Entry<String, Circuit> entry : circuits.entrySet()) {
            Circuit circuit = entry.getValue();
            String name = entry.getKey();
            if (circuit.function() == null
                    || !circuit.function().isAtOrBelow(wish.function())
                    || Vehicle.ALWAYS_THERE.containsKey(name)
                    || isReturn(circuit.factsWhen(true))
                    || isReturn(circuit.factsWhen(false))) {
                continue;
            }
            any = true;
            Set<Node> unknown = new LinkedHashSet<>();
            if (!isKept(name, network, unknown)) {
                if (!unknown.isEmpty()) {
                    unknown.forEach(node -> examination.missing(node, "electrical"));
                    continue;
                }
                lost.add(Names.VEHICLE + "." + name);
                for (String end : List.of("", "/unit", "/harness")) {
                    Node node = network.findNode(Names.VEHICLE + "." + name + end);
                    if (node != null) {
                        nodes.add(node);
                    }
                }
            }
        }
        if (!any) {
            examination
                    .report(
                            opening(wish) + ", and the map has no circuit for it",
                            "look for the circuit in the vehicle and add it to the map, or drop the wish.")
                    .about(wish);
        } else if (!lost.isEmpty()) {
            lost.sort(null);
            examination
                    .report(
                            opening(wish) + ", and " + Say.list(lost) + " reach" + (lost.size() == 1 ? "es" : "")
                                    + " nothing that serves it",
                            "connect " + Say.list(lost) + " to what serves "
                                    + wish.function().value() + ".")
                    .about(wish)
                    .at(nodes);
        }
    }

    private static String opening(Wish wish) {
        return wish.function().value() + (wish.want() == Wish.Want.KEEP ? " is to be kept" : " is to be added");
    }

    /** Whether a finding of this rule is about a wish. */
    public static boolean isAbout(Wish wish, Finding finding) {
        return finding.rule().equals("wish-unmet") && finding.message().startsWith(opening(wish) + ",");
    }

    private static boolean isKept(String circuit, Network network, Set<Node> unknown) {
        if (network.hookup().cuts().contains(circuit)) {
            Node harness = network.findNode(Names.VEHICLE + "." + circuit + "/harness");
            Node unit = network.findNode(Names.VEHICLE + "." + circuit + "/unit");
            if (harness == null || unit == null) {
                return false;
            }
            // what the unit still gives is of no use to a loudspeaker that nothing drives
            return isServed(harness, network, unknown)
                    || (harness.facts() instanceof Electrical.SpeakerIn
                            ? hasOtherLoudspeaker(harness, network, unknown)
                            : isServed(unit, network, unknown))
                    || network.scenarios().stream()
                            .anyMatch(scenario -> scenario.netOf(harness) == scenario.netOf(unit));
        }
        if (!network.hookup().unplugged().contains(Names.connectorOf(circuit))) {
            return true;
        }
        Node node = network.findNode(Names.VEHICLE + "." + circuit);
        return node != null && isServed(node, network, unknown);
    }

    /** Whether a loudspeaker of the job plays in place of one of the vehicle. */
    private static boolean hasOtherLoudspeaker(Node harness, Network network, Set<Node> unknown) {
        return harness.function() != null
                && network.nodes().stream()
                        .anyMatch(node -> !node.isVehicle()
                                && (node.function() == null ? isAlike(node, harness) : node.isFor(harness.function()))
                                && node.facts() instanceof Electrical.SpeakerIn
                                && network.couplings().stream()
                                        .noneMatch(coupling -> coupling.from().contains(node))
                                && isServed(node, network, unknown));
    }

    private static boolean isAlike(Node one, Node other) {
        return one.audio() != null
                && other.audio() != null
                && one.audio().channel() != null
                && one.audio().channel() == other.audio().channel()
                && one.audio().side() == other.audio().side();
    }

    private static void checkAdded(Wish wish, Examination examination) {
        Network network = examination.network();
        List<Node> there = new ArrayList<>();
        Set<Node> unknown = new LinkedHashSet<>();
        for (Node node : network.nodes()) {
            if (!node.isVehicle() && node.isFor(wish.function()) && !isReturn(node.facts())) {
                there.add(node);
                if (isServed(
                        node,
                        network,
                        unknown,
                        member -> !isForAnother(member, wish, network) && !passesOn(member, network))) {
                    return;
                }
            }
        }
        if (!unknown.isEmpty()) {
            unknown.forEach(node -> examination.missing(node, "electrical"));
            return;
        }
        examination
                .report(
                        there.isEmpty()
                                ? opening(wish) + ", and no part has it"
                                : opening(wish) + ", and " + Say.names(there) + " reach"
                                        + (there.size() == 1 ? "es" : "") + " nothing that serves it",
                        there.isEmpty()
                                ? "add a part that has " + wish.function().value() + "."
                                : "connect "
                                        + Say.list(there.stream().map(Node::ref).toList()) + ".")
                .about(wish)
                .at(there);
    }

    private static boolean isReturn(@Nullable Electrical facts) {
        Side side = facts instanceof Electrical.Audio audio
                ? audio.side()
                : facts instanceof Electrical.Video video ? video.side() : null;
        return side != null && !side.isPositive();
    }

    /**
     * Whether a node reaches, in some scenario, a terminal of another owner that gives what it takes or the reverse.
     * Terminals on the way of which nothing is known are added to {@code unknown}.
     */
    private static boolean isServed(Node node, Network network, Set<Node> unknown) {
        return isServed(node, network, unknown, member -> !isDeadEnd(member, network));
    }

    /** Whether an interface takes keys here and passes them on to nothing, though it has a lead for that. */
    private static boolean isDeadEnd(Node node, Network network) {
        if (!(node.facts() instanceof Electrical.ControlIn in) || in.active() != Active.RESISTANCE) {
            return false;
        }
        List<Node> onwards = network.nodesOf(node.owner()).stream()
                .filter(other ->
                        other.facts() instanceof Electrical.ControlOut out && out.active() == Active.RESISTANCE)
                .toList();
        return !onwards.isEmpty() && onwards.stream().noneMatch(network::isConnected);
    }

    /** Whether a terminal is there for another wish: what takes its sound does not serve this one. */
    private static boolean isForAnother(Node node, Wish wish, Network network) {
        return !node.isFor(wish.function())
                && network.hookup().document().wishes().stream()
                        .anyMatch(other -> node.isFor(other.function())
                                && !other.function().isAtOrBelow(wish.function())
                                && !wish.function().isAtOrBelow(other.function()));
    }

    /** Whether an isolator or converter without power of its own gives here what comes into it, which is what counts. */
    private static boolean passesOn(Node node, Network network) {
        boolean powered = node.facts() instanceof Electrical.SpeakerOut
                || network.nodesOf(node.owner()).stream().anyMatch(other -> other.facts() instanceof Electrical.Load);
        return !powered
                && network.couplings().stream()
                        .anyMatch(coupling -> coupling.to().contains(node)
                                && coupling.from().stream().anyMatch(network::isConnected));
    }

    /** @param counts terminals that may serve it */
    private static boolean isServed(Node node, Network network, Set<Node> unknown, Predicate<Node> counts) {
        if (!network.isConnected(node)) {
            return false;
        }
        for (Scenario scenario : network.scenarios()) {
            Set<Integer> seen = new HashSet<>();
            ArrayDeque<Integer> queue = new ArrayDeque<>();
            queue.add(scenario.netOf(node));
            while (!queue.isEmpty()) {
                int net = queue.remove();
                if (!seen.add(net)) {
                    continue;
                }
                for (Node member : scenario.members(net)) {
                    if (!member.owner().equals(node.owner())) {
                        if (serves(member, node) && counts.test(member)) {
                            return true;
                        }
                        if (member.facts() == null) {
                            unknown.add(member);
                        }
                    }
                    for (Coupling coupling : network.couplings()) {
                        for (int end = 0; end < 2; end++) {
                            if (coupling.from().get(end) == member) {
                                queue.add(scenario.netOf(coupling.to().get(end)));
                            } else if (coupling.to().get(end) == member) {
                                queue.add(scenario.netOf(coupling.from().get(end)));
                            }
                        }
                    }
                    for (Link link : network.linksOf(member)) {
                        if (link.kind() == Link.Kind.RESISTOR
                                || (link.kind() == Link.Kind.DIODE && passes(link, member, node))) {
                            queue.add(scenario.netOf(link.across(member)));
                        }
                    }
                }
            }
        }
        return false;
    }

    /** Whether a diode lets through what a node gives or takes, seen from one of the diode's ends. */
    private static boolean passes(Link diode, Node end, Node node) {
        Boolean gives = gives(node.facts());
        Active active = node.facts() instanceof Electrical.ControlOut out
                ? out.active()
                : node.facts() instanceof Electrical.ControlIn in ? in.active() : null;
        boolean currentLeaves = Boolean.TRUE.equals(gives) != (active == Active.GROUND);
        return gives == null || (diode.from() == end) == currentLeaves;
    }

    private static boolean serves(Node member, Node node) {
        if (node.facts() instanceof Electrical.Data line) {
            return member.facts() instanceof Electrical.Data other
                    && agree(line.bus(), other.bus())
                    && agree(line.line(), other.line());
        }
        if (node.facts() instanceof Electrical.Antenna) {
            return member.facts() instanceof Electrical.Antenna;
        }
        Boolean gives = gives(member.facts());
        Boolean nodeGives = gives(node.facts());
        if (nodeGives == null) {
            return gives != null;
        }
        return gives != null && !gives.equals(nodeGives);
    }

    private static boolean agree(@Nullable Object one, @Nullable Object other) {
        return one == null || other == null || one.equals(other);
    }

    /** True for what gives, false for what takes, null for neither or both. */
    private static @Nullable Boolean gives(@Nullable Electrical facts) {
        if (facts instanceof Electrical.Audio audio) {
            return audio.isOutput();
        }
        if (facts instanceof Electrical.Supply
                || facts instanceof Electrical.ControlOut
                || facts instanceof Electrical.VideoOut) {
            return true;
        }
        boolean takes = facts instanceof Electrical.Load
                || facts instanceof Electrical.ControlIn
                || facts instanceof Electrical.VideoIn;
        return takes ? false : null;
    }
}
