package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Circuit;
import dev.splicebook.hookup.Names;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import java.util.LinkedHashSet;
import java.util.Set;

/** A connection relies on an entry of the map that nobody is known to have proved on a vehicle. */
@AutoService(Rule.class)
@About(
        code = "entry-unverified",
        severity = Severity.NOTE,
        since = "0.2",
        condition = "A connection relies on an entry of the map that nobody is known to have proved on a vehicle.",
        checks =
                "Every circuit of the map that a connection or a mated lead in use ends at: the map must name the day on which"
                        + " its entry was last proved. One note lists all that lack it.",
        why =
                "Maps are copied, and makers change colours and pins in the middle of a year. A minute with the meter is cheaper"
                        + " than a module.",
        mend =
                "Prove each circuit with the meter before it is cut or tapped, and write the day into the map as verifiedOn.",
        source = "Common practice, no source.",
        fails = """
                {"vehicle": {"inline": {"circuits": {"C1-4": {"function": "ground.chassis", "electrical": {"kind": "ground"}}}}},
                 "parts": {"HU": {"inline": {"terminals": {"ground": {"function": "ground.chassis", "electrical": {"kind": "ground"}}}}}},
                 "connections": {"W1": {"ends": ["CAR.C1-4", "HU.ground"]}}}
                """,
        passes = """
                {"vehicle": {"inline": {"circuits": {"C1-4": {"function": "ground.chassis", "electrical": {"kind": "ground"},
                     "verifiedOn": "2026-03-14"}}}},
                 "parts": {"HU": {"inline": {"terminals": {"ground": {"function": "ground.chassis", "electrical": {"kind": "ground"}}}}}},
                 "connections": {"W1": {"ends": ["CAR.C1-4", "HU.ground"]}}}
                """)
public final class EntryUnverified implements Rule {

    @Override
    public void check(Examination examination) {
        Network network = examination.network();
        Set<Node> unverified = new LinkedHashSet<>();
        for (Node node : network.nodesOf(Names.VEHICLE)) {
            Circuit circuit = network.hookup().map().circuits().get(Names.circuitOf(node.name()));
            if (circuit != null && isUsed(node, network)) {
                examination.applies();
                if (circuit.verifiedOn() == null) {
                    unverified.add(node);
                }
            }
        }
        if (!unverified.isEmpty()) {
            examination
                    .report(
                            Say.names(unverified) + " " + Say.are(unverified)
                                    + " used as the map has " + (unverified.size() == 1 ? "it" : "them")
                                    + ", and nobody is known to have proved "
                                    + (unverified.size() == 1 ? "that entry" : "those entries") + " on a vehicle",
                            "prove " + (unverified.size() == 1 ? "it" : "each")
                                    + " with the meter before it is cut or tapped, and note the day in the map.")
                    .at(unverified);
        }
    }

    /** A pin whose mate leads nowhere is used by nothing. */
    private static boolean isUsed(Node node, Network network) {
        for (Link link : network.linksOf(node)) {
            if (link.kind() == Link.Kind.CONNECTION
                    || (link.kind() == Link.Kind.PLUG && network.netOf(node).size() > 2)) {
                return true;
            }
        }
        return false;
    }
}
