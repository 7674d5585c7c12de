package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Active;
import dev.splicebook.hookup.Drive;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.OutputReturn;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.Side;
import dev.splicebook.hookup.net.Coupling;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Scenario;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** Two driven outputs stand on one net. */
@AutoService(Rule.class)
@About(
        code = "outputs-tied",
        severity = Severity.ERROR,
        since = "0.1",
        condition = "Two driven outputs stand on one net.",
        checks =
                "Every net in every state: speaker, line, video and control outputs, and a supply beside any of them. Minus"
                        + " sides that are ground anyway, returns, outputs that switch to ground, and resistive keys may meet; a"
                        + " driven return may meet no output. An output against ground may not stand on ground.",
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
        Map<Set<Node>, Examination.Draft> told = new HashMap<>();
        for (Scenario scenario : examination.reading().partitions()) {
            for (int net = 0; net < scenario.netCount(); net++) {
                check(scenario, net, told, examination);
            }
            checkOwnSides(scenario, told, examination);
        }
    }

    /** The two sides of one output, a coupling's among them: joined, they are a short across it. */
    private static void checkOwnSides(
            Scenario scenario, Map<Set<Node>, Examination.Draft> told, Examination examination) {
        for (Node node : examination.network().nodes()) {
            if (node.facts() instanceof Electrical.LineOut out && out.side() == Side.SIGNAL) {
                for (Node other : examination.reading().counterparts(node)) {
                    if (scenario.netOf(other) == scenario.netOf(node)) {
                        reportShort(node, other, scenario, told, examination);
                    }
                }
            }
            if (isAgainstGround(node)) {
                reportGrounded(node, scenario, told, examination);
            }
        }
        for (Coupling coupling : examination.network().couplings()) {
            Node one = coupling.to().get(0);
            Node other = coupling.to().get(1);
            if (scenario.netOf(one) == scenario.netOf(other)) {
                reportShort(one, other, scenario, told, examination);
            }
        }
    }

    private static boolean isAgainstGround(Node node) {
        if (node.facts() instanceof Electrical.SpeakerOut out) {
            return out.side() == Side.PLUS && out.drive() == Drive.COMMON_GROUND;
        }
        // the signal of an isolated output may stand on ground in place of its return
        return (node.facts() instanceof Electrical.LineOut line
                        && line.side() == Side.SIGNAL
                        && line.returns() != null
                        && line.returns() != OutputReturn.ISOLATED)
                || (node.facts() instanceof Electrical.VideoOut video && video.side() == Side.SIGNAL);
    }

    private static void reportShort(
            Node one, Node other, Scenario scenario, Map<Set<Node>, Examination.Draft> told, Examination examination) {
        told.computeIfAbsent(
                        Set.of(one, other),
                        key -> examination.report(
                                Say.names(key) + " are the two sides of one output and stand on one net",
                                "take one of the two off; each goes to its own side of the input."))
                .at(one, other)
                .through(examination.reading().connectionsAt(List.of(one, other)))
                .in(examination.reading().states(scenario));
    }

    /** An output of which the other side is ground: its ground may be its own minus, another's, or the vehicle's. */
    private static void reportGrounded(
            Node plus, Scenario scenario, Map<Set<Node>, Examination.Draft> told, Examination examination) {
        List<Node> grounds = SpeakerMinusGrounded.grounds(scenario, scenario.netOf(plus));
        if (!grounds.isEmpty()) {
            told.computeIfAbsent(
                            Set.of(plus),
                            key -> examination.report(
                                    Say.name(plus) + " is an output against ground and stands on ground at "
                                            + Say.names(grounds),
                                    "take it off ground; it goes to the plus of its loudspeaker or input."))
                    .at(plus)
                    .at(grounds)
                    .through(examination.reading().connectionsAt(List.of(plus)))
                    .in(examination.reading().states(scenario))
                    .claimsUnlessGround(scenario, scenario.netOf(plus));
        }
    }

    private static void check(
            Scenario scenario, int net, Map<Set<Node>, Examination.Draft> told, Examination examination) {
        if (!hasOutput(scenario.members(net))) {
            return;
        }
        Set<Node> driven = new LinkedHashSet<>();
        Set<Object> sources = new LinkedHashSet<>();
        Map<Node, String> unsure = new LinkedHashMap<>();
        boolean output = false;
        for (Node node : scenario.members(net)) {
            boolean supply = node.facts() instanceof Electrical.Supply;
            String lacking = lacking(node);
            if (lacking != null) {
                unsure.put(node, lacking);
            } else if (supply || isDriven(node)) {
                driven.add(node);
                sources.add(isPowerOrControl(node) && node.source() != null ? node.source() : node);
            }
            output |= lacking != null || (!supply && driven.contains(node));
        }
        for (Node node : scenario.members(net)) {
            if (isDrivenReturn(node)
                    && !driven.isEmpty()
                    && examination.reading().counterparts(node).stream().noneMatch(driven::contains)) {
                driven.add(node);
                sources.add(node);
                output = true;
            }
        }
        if (!output) {
            return;
        }
        examination.applies();
        if (sources.size() + unsure.size() < 2) {
            return;
        }
        // whether a minus is driven or is ground, it may not stand beside what is driven
        unsure.keySet().removeIf(node -> !driven.isEmpty() && isMinus(node) && sources.add(node) && driven.add(node));
        if (sources.size() > 1) {
            Examination.Draft draft = told.computeIfAbsent(
                    driven, key -> examination.report(Say.names(driven) + " are outputs on one net", help(driven)));
            draft.at(driven)
                    .through(examination.reading().connectionsOn(scenario, net))
                    .in(examination.reading().states(scenario))
                    .claims(scenario, net);
        } else {
            unsure.forEach(examination::missing);
        }
    }

    private static String help(Set<Node> driven) {
        if (driven.stream().allMatch(Node::givesTwelveVolts)) {
            return "take one of them off; outputs that must share a lead need a diode each, or a relay that picks one.";
        }
        return driven.stream().allMatch(OutputsTied::isMinus)
                ? "keep each to its own pair: put a converter or an isolator into each pair before the returns meet."
                : "take one of them off, or let a relay pick one.";
    }

    /** Whether any terminal is or may be an output; most nets have none, or supplies alone. */
    private static boolean hasOutput(List<Node> nodes) {
        for (Node node : nodes) {
            if (isDriven(node) || isDrivenReturn(node) || lacking(node) != null) {
                return true;
            }
        }
        return false;
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

    /** Driven returns alone are for returns-tied to tell. */
    private static boolean isDrivenReturn(Node node) {
        return node.facts() instanceof Electrical.LineOut out
                && out.side() == Side.RETURN
                && out.returns() == OutputReturn.DRIVEN;
    }

    /** The fact without which an output may be driven or not; null if none lacks. */
    private static @Nullable String lacking(Node node) {
        if (node.facts() instanceof Electrical.SpeakerOut out) {
            return out.side() == Side.MINUS && out.drive() == null
                    ? "drive"
                    : out.side() == null && out.drive() != Drive.FLOATING ? "side" : null;
        }
        if (node.facts() instanceof Electrical.LineOut out) {
            return out.side() == null ? "side" : null;
        }
        if (node.facts() instanceof Electrical.VideoOut out) {
            return out.side() == null ? "side" : null;
        }
        return node.facts() instanceof Electrical.ControlOut out && out.active() == null ? "active" : null;
    }

    private static boolean isMinus(Node node) {
        return node.facts() instanceof Electrical.SpeakerOut out && out.side() == Side.MINUS;
    }

    private static boolean isPowerOrControl(Node node) {
        return node.facts() instanceof Electrical.Supply || node.facts() instanceof Electrical.ControlOut;
    }
}
