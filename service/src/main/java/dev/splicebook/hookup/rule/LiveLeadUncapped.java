package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.Unused;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Scenario;
import dev.splicebook.hookup.net.Scenario.Sure;
import java.util.EnumSet;
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
                        + " removed, or left in a plug that is mated.",
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
            boolean unknown = false;
            for (Scenario scenario : network.scenarios()) {
                Sure live = scenario.hasFeed(node);
                if (live == Sure.YES) {
                    states.add(scenario.state());
                }
                unknown |= live == Sure.UNKNOWN;
            }
            boolean speaker = node.facts() instanceof Electrical.SpeakerOut;
            if (!states.isEmpty() || speaker) {
                examination
                        .report(
                                Say.name(node) + " is " + unused.fate() + " and "
                                        + (states.isEmpty()
                                                ? "is a speaker output"
                                                : "is live while " + Say.states(states)),
                                "cap " + node.ref() + ".")
                        .at(node)
                        .in(states);
            } else if (unknown) {
                examination.missing(node, "live");
            }
        }
    }

    private static boolean isSafe(Unused unused, Node node, Network network) {
        return switch (unused.fate()) {
            case CAPPED, REMOVED -> true;
            case TAPED_BACK -> false;
            // a circuit of a connector that hangs loose is in no plug
            case LEFT_PLUGGED ->
                !node.isVehicle()
                        || network.isMated(node)
                        || !network.hookup().unplugged().contains(dev.splicebook.hookup.Names.connectorOf(node.name()));
        };
    }
}
