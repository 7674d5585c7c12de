package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Active;
import dev.splicebook.hookup.Drive;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.Side;
import dev.splicebook.hookup.net.Coupling;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Scenario;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/** Two driven outputs stand on one net. */
@AutoService(Rule.class)
@About(
        code = "outputs-tied",
        severity = Severity.ERROR,
        since = "0.1",
        condition = "Two driven outputs stand on one net.",
        checks =
                "Every net in every state: speaker, line, video and control outputs, and a supply beside any of them. Minus"
                        + " sides that are ground anyway, returns, outputs that switch to ground, and resistive keys may meet.",
        why =
                "One output drives the other. Speaker outputs fail within seconds; a turn-on output that meets a live feed is"
                        + " fed backwards.",
        mend =
                "Take one of them off. Where either may turn a thing on, put a diode in each; where two sources share an input,"
                        + " use a switch or relay that picks one.",
        source = "Common practice, no source.",
        fails = """
                {"vehicle": {"inline": {"circuits": {"C1-11": {"whenPlugged":
                   {"kind": "speaker-out", "channel": "front-left", "side": "plus", "drive": "floating", "maxVolts": 9}}}}},
                 "parts": {"HU": {"inline": {"terminals": {"front-left-plus": {"electrical":
                   {"kind": "speaker-out", "channel": "front-left", "side": "plus", "drive": "floating", "maxVolts": 9}}}}}},
                 "connections": {"W1": {"ends": ["CAR.C1-11", "HU.front-left-plus"]}}}
                """,
        passes = """
                {"vehicle": {"inline": {"circuits": {"C1-11": {
                     "whenPlugged": {"kind": "speaker-out", "channel": "front-left", "side": "plus", "drive": "floating", "maxVolts": 9},
                     "whenUnplugged": {"kind": "speaker-in", "channel": "front-left", "side": "plus", "ohms": 4}}}},
                   "unplugged": ["C1"]},
                 "parts": {"HU": {"inline": {"terminals": {"front-left-plus": {"electrical":
                   {"kind": "speaker-out", "channel": "front-left", "side": "plus", "drive": "floating", "maxVolts": 9}}}}}},
                 "connections": {"W1": {"ends": ["CAR.C1-11", "HU.front-left-plus"]}}}
                """,
        rank = Rank.OUTPUTS_TIED)
public final class OutputsTied implements Rule {

    @Override
    public void check(Examination examination) {
        Set<Set<Node>> told = new LinkedHashSet<>();
        for (Scenario scenario : examination.reading().partitions()) {
            for (int net = 0; net < scenario.netCount(); net++) {
                Set<Node> driven = new LinkedHashSet<>();
                List<Node> minuses = new ArrayList<>();
                boolean output = false;
                for (Node node : scenario.members(net)) {
                    if (node.facts() instanceof Electrical.Supply) {
                        driven.add(node);
                    } else if (isDriven(node)) {
                        examination.applies();
                        output = true;
                        driven.add(node);
                        if (isMinusOfUnknownDrive(node)) {
                            minuses.add(node);
                        }
                    }
                }
                checkOwnSides(scenario, net, told, examination);
                if (!output || driven.size() < 2) {
                    continue;
                }
                if (minuses.size() == driven.size()) {
                    minuses.forEach(node -> examination.missing(node, "drive"));
                } else if (told.add(driven)) {
                    examination
                            .report(
                                    Say.names(driven) + " are outputs on one net",
                                    "take one of them off; outputs that must share a lead need a diode each, or a relay that"
                                            + " picks one.")
                            .at(driven)
                            .through(examination.reading().connectionsOn(scenario, net))
                            .claims(scenario, net);
                }
            }
        }
    }

    /** The two sides of one output, a coupling's among them: joined, they are a short across it. */
    private static void checkOwnSides(Scenario scenario, int net, Set<Set<Node>> told, Examination examination) {
        for (Node node : scenario.members(net)) {
            if (node.facts() instanceof Electrical.LineOut out && out.side() == Side.SIGNAL) {
                for (Node other : examination.reading().counterparts(node)) {
                    if (scenario.netOf(other) == net) {
                        reportShort(node, other, told, examination);
                    }
                }
            }
            for (Coupling coupling : examination.network().couplings()) {
                if (coupling.to().get(0) == node && scenario.netOf(coupling.to().get(1)) == net) {
                    reportShort(node, coupling.to().get(1), told, examination);
                }
            }
        }
    }

    private static void reportShort(Node one, Node other, Set<Set<Node>> told, Examination examination) {
        if (told.add(Set.of(one, other))) {
            examination
                    .report(
                            Say.names(List.of(one, other)) + " are the two sides of one output and stand on one net",
                            "take one of the two off; each goes to its own side of the input.")
                    .at(one, other)
                    .through(examination.reading().connectionsAt(List.of(one, other)));
        }
    }

    private static boolean isDriven(Node node) {
        if (node.facts() instanceof Electrical.SpeakerOut out) {
            return !(out.side() == Side.MINUS && out.drive() == Drive.COMMON_GROUND);
        }
        if (node.facts() instanceof Electrical.LineOut out) {
            return out.side() != Side.RETURN;
        }
        if (node.facts() instanceof Electrical.VideoOut out) {
            return out.side() != Side.RETURN;
        }
        return node.facts() instanceof Electrical.ControlOut out
                && (out.active() == Active.TWELVE_VOLTS || out.active() == Active.PULSE || out.active() == Active.PWM);
    }

    private static boolean isMinusOfUnknownDrive(Node node) {
        return node.facts() instanceof Electrical.SpeakerOut out && out.side() == Side.MINUS && out.drive() == null;
    }
}
