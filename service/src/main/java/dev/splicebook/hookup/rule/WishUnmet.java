package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Circuit;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Names;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.Side;
import dev.splicebook.hookup.Vehicle;
import dev.splicebook.hookup.Wish;
import dev.splicebook.hookup.net.Coupling;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Scenario;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
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
                        + " terminal of a part that gives what it takes or takes what it gives, through adapters, contacts and"
                        + " couplings. For a wish to add: a terminal of a part with that function reaches another part or the"
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
            if (!isKept(name, network)) {
                lost.add(Names.VEHICLE + "." + name);
                Node node = network.findNode(Names.VEHICLE + "." + name);
                if (node != null) {
                    nodes.add(node);
                }
            }
        }
        if (!any) {
            examination.report(
                    wish.function().value() + " is wanted kept, and the map has no circuit for it",
                    "look for the circuit in the vehicle and add it to the map, or drop the wish.");
        } else if (!lost.isEmpty()) {
            lost.sort(null);
            examination
                    .report(
                            wish.function().value() + " is wanted kept, and " + Say.list(lost) + " reach"
                                    + (lost.size() == 1 ? "es" : "") + " nothing that serves it",
                            "connect " + Say.list(lost) + " to what serves "
                                    + wish.function().value() + ".")
                    .at(nodes);
        }
    }

    private static boolean isKept(String circuit, Network network) {
        if (network.hookup().cuts().contains(circuit)) {
            Node harness = network.findNode(Names.VEHICLE + "." + circuit + "/harness");
            Node unit = network.findNode(Names.VEHICLE + "." + circuit + "/unit");
            if (harness == null || unit == null) {
                return false;
            }
            return isServed(harness, network)
                    || isServed(unit, network)
                    || network.scenarios().get(0).netOf(harness)
                            == network.scenarios().get(0).netOf(unit);
        }
        if (!network.hookup().unplugged().contains(Names.connectorOf(circuit))) {
            return true;
        }
        Node node = network.findNode(Names.VEHICLE + "." + circuit);
        return node != null && isServed(node, network);
    }

    private static void checkAdded(Wish wish, Examination examination) {
        Network network = examination.network();
        List<Node> there = new ArrayList<>();
        for (Node node : network.nodes()) {
            if (!node.isVehicle() && node.isFor(wish.function()) && !isReturn(node.facts())) {
                there.add(node);
                if (isServed(node, network)) {
                    return;
                }
            }
        }
        examination
                .report(
                        there.isEmpty()
                                ? wish.function().value() + " is wanted, and no part has it"
                                : wish.function().value() + " is wanted, and " + Say.names(there) + " reach"
                                        + (there.size() == 1 ? "es" : "") + " nothing that serves it",
                        there.isEmpty()
                                ? "add a part that has " + wish.function().value() + "."
                                : "connect "
                                        + Say.list(there.stream().map(Node::ref).toList()) + ".")
                .at(there);
    }

    private static boolean isReturn(@Nullable Electrical facts) {
        Side side = facts instanceof Electrical.Audio audio
                ? audio.side()
                : facts instanceof Electrical.VideoOut out
                        ? out.side()
                        : facts instanceof Electrical.VideoIn in ? in.side() : null;
        return side != null && !side.isPositive();
    }

    /** Whether a node reaches, in some scenario, a terminal of another owner that gives what it takes or the reverse. */
    private static boolean isServed(Node node, Network network) {
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
                    if (!member.owner().equals(node.owner()) && serves(member, node)) {
                        return true;
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
                }
            }
        }
        return false;
    }

    private static boolean serves(Node member, Node node) {
        if (node.facts() instanceof Electrical.Data || node.facts() instanceof Electrical.Antenna) {
            return member.facts() != null
                    && member.facts().getClass() == node.facts().getClass();
        }
        Boolean gives = gives(member.facts());
        Boolean nodeGives = gives(node.facts());
        if (nodeGives == null) {
            return gives != null;
        }
        return gives != null && !gives.equals(nodeGives);
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
