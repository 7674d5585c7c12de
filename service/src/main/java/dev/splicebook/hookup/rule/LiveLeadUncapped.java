package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Names;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.Unused;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Reach;
import dev.splicebook.hookup.net.Scenario;
import dev.splicebook.hookup.net.Scenario.Sure;
import java.util.EnumSet;
import java.util.LinkedHashSet;
import java.util.Set;

/** An unused lead that can be live is not capped. */
@AutoService(Rule.class)
@About(
        code = "live-lead-uncapped",
        severity = Severity.ERROR,
        since = "0.1",
        condition = "An unused lead that can be live is not capped.",
        checks =
                "Every lead listed as unused that carries 12 V in some state, or is a speaker output: it must be capped,"
                        + " removed, or left in a plug that is in its socket.",
        why = "Tape comes loose in the heat. A live end then finds the bracket behind the dash.",
        mend = "Cap it with an insulated closed-end connector, and list it as capped.",
        source = "Common practice, no source.",
        fails = """
                {"vehicle": {"inline": {"circuits": {"C1-7": {"function": "power.battery", "electrical":
                   {"kind": "supply", "maxAmps": 10, "fuseAmps": 10,
                    "live": ["asleep", "accessory", "ignition", "cranking", "running", "restarting"]}}}}, "unplugged": ["C1"]},
                 "unused": {"CAR.C1-7": {"as": "taped-back", "why": "fed from elsewhere"}}}
                """,
        passes = """
                {"vehicle": {"inline": {"circuits": {"C1-7": {"function": "power.battery", "electrical":
                   {"kind": "supply", "maxAmps": 10, "fuseAmps": 10,
                    "live": ["asleep", "accessory", "ignition", "cranking", "running", "restarting"]}}}}, "unplugged": ["C1"]},
                 "unused": {"CAR.C1-7": {"as": "capped", "why": "fed from elsewhere"}}}
                """,
        rank = Rank.BOOKKEEPING)
public final class LiveLeadUncapped implements Rule {

    @Override
    public void check(Examination examination) {
        Network network = examination.network();
        for (Node node : network.nodes()) {
            Unused unused = network.unused(node);
            if (unused == null || network.isConnected(node)) {
                continue;
            }
            examination.applies();
            if (isSafe(unused, node, network)) {
                continue;
            }
            Set<State> states = EnumSet.noneOf(State.class);
            Set<Node> unknown = new LinkedHashSet<>();
            for (Scenario scenario : network.scenarios()) {
                if (scenario.hasFeed(node) == Sure.YES) {
                    states.add(scenario.state());
                }
                for (Reach reach : scenario.reaches(node)) {
                    if (reach.source().givesTwelveVolts() && scenario.isLive(reach.source()) == Sure.UNKNOWN) {
                        unknown.add(reach.source());
                    }
                }
            }
            boolean speaker = node.facts() instanceof Electrical.SpeakerOut;
            if (!states.isEmpty() || speaker) {
                examination
                        .report(
                                Say.name(node) + " is " + told(unused, node) + " and "
                                        + (states.isEmpty()
                                                ? "is a speaker output"
                                                : "is live while " + Say.states(states)),
                                "cap " + node.ref() + ".")
                        .at(node)
                        .in(states);
            } else if (node.facts() == null) {
                examination.missing(node, "electrical");
            } else {
                unknown.forEach(source -> lack(source, examination));
            }
        }
    }

    /** An output that states its states waits for the feed of its part, about which something else is unknown. */
    private static void lack(Node source, Examination examination) {
        boolean stated = (source.facts() instanceof Electrical.ControlOut out && out.live() != null)
                || (source.facts() instanceof Electrical.Supply supply && supply.live() != null);
        if (!stated) {
            examination.missing(source, "live");
            return;
        }
        for (Scenario scenario : examination.reading().solutions()) {
            for (Node load : examination.network().nodesOf(source.owner())) {
                if (load.facts() instanceof Electrical.Load) {
                    for (Reach reach : scenario.reaches(load)) {
                        if (scenario.isLive(reach.source()) == Sure.UNKNOWN
                                && !reach.source().owner().equals(source.owner())) {
                            examination.missing(reach.source(), "live");
                        }
                    }
                }
            }
        }
    }

    private static String told(Unused unused, Node node) {
        if (unused.fate() != Unused.Fate.LEFT_PLUGGED) {
            return unused.fate().toString();
        }
        return node.role() == Node.Role.CUT_END
                ? "a cut end that is in no plug"
                : "left in the connector " + node.owner() + "." + Names.connectorOf(node.name())
                        + ", which is in no socket,";
    }

    private static boolean isSafe(Unused unused, Node node, Network network) {
        return switch (unused.fate()) {
            case CAPPED, REMOVED -> true;
            case TAPED_BACK -> false;
            // a circuit of a connector that hangs loose is in no plug, and neither is the end of a cut one
            case LEFT_PLUGGED ->
                node.role() != Node.Role.CUT_END
                        && (!node.isVehicle()
                                || network.isMated(node)
                                || !network.hookup().unplugged().contains(Names.connectorOf(node.name())));
        };
    }
}
