package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Names;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.Unused;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Scenario;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/** A lead is neither connected nor listed as unused, or it is both. */
@AutoService(Rule.class)
@About(
        code = "lead-unaccounted",
        severity = Severity.WARNING,
        since = "0.1",
        condition = "A lead is neither connected nor listed as unused, or it is both.",
        checks =
                "Every declared terminal of every part, every circuit of an unplugged connector, and both ends of every cut"
                        + " circuit. A pin of a mated connector that meets no pin is left in its plug. Where a"
                        + " lead is listed as unused and a connection ends at it, it is judged as connected.",
        why =
                "A lead that nobody decided about is the one that was forgotten, or the one that touches metal behind the dash.",
        mend = "Connect it, or list it as unused, saying what was done with it and why; not both.",
        source = "Common practice, no source.",
        fails = """
                {"parts": {"HU": {"inline": {"terminals": {"camera-plus": {"function": "video.camera-rear.signal",
                   "electrical": {"kind": "video-in", "side": "signal", "format": "composite"}}}}}}}
                """,
        passes = """
                {"parts": {"HU": {"inline": {"terminals": {"camera-plus": {"function": "video.camera-rear.signal",
                   "electrical": {"kind": "video-in", "side": "signal", "format": "composite"}}}}}},
                 "unused": {"HU.camera-plus": {"as": "capped", "why": "no camera fitted"}}}
                """,
        rank = Rank.BOOKKEEPING)
public final class LeadUnaccounted implements Rule {

    @Override
    public void check(Examination examination) {
        Network network = examination.network();
        for (Node node : network.nodes()) {
            if (network.isUsedAllTheSame(node)) {
                reportBoth(node, examination);
            }
            if (!mustBeAccounted(node, network)) {
                continue;
            }
            examination.applies();
            if (!network.isConnected(node) && !network.isUnused(node)) {
                boolean live =
                        network.scenarios().stream().anyMatch(scenario -> scenario.hasFeed(node) != Scenario.Sure.NO);
                examination
                        .report(
                                Say.name(node)
                                        + (node.function() == null
                                                ? ""
                                                : ", " + node.function().value() + ",")
                                        + " is neither connected nor listed as unused"
                                        + (live ? ", and it can be live" : ""),
                                "connect " + node.ref() + ", or list it as unused with what was done and why.")
                        .at(node)
                        .unlessClaimed(network.netOf(node));
            }
        }
    }

    private static void reportBoth(Node node, Examination examination) {
        Unused listed = examination.network().hookup().document().unused().get(node.ref());
        Set<String> connections = examination.reading().connectionsAt(List.of(node));
        examination.applies();
        examination
                .report(
                        Say.name(node) + " is listed as unused"
                                + (listed == null ? "" : " (" + listed.fate() + ")") + ", and is connected by "
                                + Say.list(new ArrayList<>(connections)) + "; it is judged as connected",
                        "take " + node.ref() + " out of unused, or take its connection out.")
                .at(node)
                .through(connections);
    }

    private static boolean mustBeAccounted(Node node, Network network) {
        return switch (node.role()) {
            case REFERENCE, INSIDE -> false;
            case LEAD -> !network.isMated(node);
            case CUT_END -> !(node.name().endsWith("/unit") && isOff(node, network));
            case CIRCUIT -> isOff(node, network);
        };
    }

    private static boolean isOff(Node node, Network network) {
        return network.hookup().unplugged().contains(Names.connectorOf(node.name()));
    }
}
