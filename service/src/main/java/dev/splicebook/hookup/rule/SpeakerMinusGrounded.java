package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Drive;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.InputReturn;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.Side;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Scenario;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** A side of a floating speaker output stands on ground. */
@AutoService(Rule.class)
@About(
        code = "speaker-minus-grounded",
        severity = Severity.ERROR,
        since = "0.1",
        condition = "A side of a floating speaker output stands on ground.",
        checks =
                "Both sides of every floating speaker output, in every state and through adapters: neither may reach the"
                        + " vehicle's ground, nor the return of a line input or the minus of an output that is the vehicle's"
                        + " ground.",
        why =
                "Both sides of a floating output are driven. Grounded, one half of it works into a short and fails or shuts"
                        + " down.",
        mend = "Take both sides to an input that floats: a converter or a differential input.",
        source = "Common practice, no source.",
        fails = """
                {"vehicle": {"inline": {"circuits": {"A2-2": {"electrical":
                   {"kind": "speaker-out", "channel": "front-left", "side": "minus", "drive": "floating", "maxVolts": 17}}}}},
                 "connections": {"W1": {"ends": ["CAR.A2-2", "CAR.chassis"]}}}
                """,
        passes = """
                {"vehicle": {"inline": {"circuits": {
                   "A2-1": {"electrical": {"kind": "speaker-out", "channel": "front-left", "side": "plus", "drive": "floating", "maxVolts": 17}},
                   "A2-2": {"electrical": {"kind": "speaker-out", "channel": "front-left", "side": "minus", "drive": "floating", "maxVolts": 17}}}}},
                 "parts": {"LOC": {"inline": {"terminals": {
                   "in-plus": {"electrical": {"kind": "speaker-in", "channel": "left", "side": "plus", "maxVolts": 20}},
                   "in-minus": {"electrical": {"kind": "speaker-in", "channel": "left", "side": "minus", "maxVolts": 20}}}}}},
                 "connections": {"W1": {"ends": ["CAR.A2-1", "LOC.in-plus"]}, "W2": {"ends": ["CAR.A2-2", "LOC.in-minus"]}}}
                """,
        rank = Rank.SPEAKER_GROUNDED)
public final class SpeakerMinusGrounded implements Rule {

    @Override
    public void check(Examination examination) {
        Map<Set<Node>, Examination.Draft> told = new HashMap<>();
        for (Scenario scenario : examination.reading().signalWays()) {
            for (int net = 0; net < scenario.netCount(); net++) {
                List<Node> outputs = new ArrayList<>();
                for (Node node : scenario.members(net)) {
                    if (node.facts() instanceof Electrical.SpeakerOut) {
                        examination.applies();
                        outputs.add(node);
                    }
                }
                if (outputs.isEmpty()) {
                    continue;
                }
                List<Node> grounds = grounds(scenario, net);
                if (grounds.isEmpty()) {
                    lackReturns(outputs, scenario, net, examination);
                    continue;
                }
                Set<Node> floating = new LinkedHashSet<>();
                for (Node output : outputs) {
                    if (output.facts() instanceof Electrical.SpeakerOut facts) {
                        if (facts.drive() == null) {
                            examination.missing(output, "drive");
                        } else if (facts.drive() == Drive.FLOATING) {
                            floating.add(output);
                        }
                    }
                }
                if (!floating.isEmpty()) {
                    told.computeIfAbsent(
                                    floating,
                                    key -> examination.report(
                                            Say.names(floating)
                                                    + (floating.size() > 1
                                                            ? " are sides of floating outputs and stand on ground at "
                                                            : " is a side of a floating output and stands on ground at ")
                                                    + Say.names(grounds),
                                            "take both sides to a converter or a differential input, and neither to"
                                                    + " ground."))
                            .at(floating)
                            .at(grounds)
                            .through(examination.reading().connectionsAt(floating))
                            .in(examination.reading().signalStates(scenario))
                            .claimsUnlessGround(scenario, net);
                }
            }
        }
    }

    /** A return that may be the vehicle's ground, or may float. */
    private static void lackReturns(List<Node> outputs, Scenario scenario, int net, Examination examination) {
        boolean floating = outputs.stream()
                .anyMatch(output ->
                        output.facts() instanceof Electrical.SpeakerOut facts && facts.drive() == Drive.FLOATING);
        if (floating) {
            for (Node node : scenario.members(net)) {
                if (Returns.isInputOfUnknownReturn(node)) {
                    examination.missing(node, "return");
                }
            }
        }
    }

    /** What makes a net ground; empty if it is not. */
    static List<Node> grounds(Scenario scenario, int net) {
        List<Node> grounds = new ArrayList<>();
        for (Node node : scenario.members(net)) {
            if (node.isReference() || Returns.isGroundAnyway(node)) {
                grounds.add(node);
            }
        }
        if (grounds.isEmpty() && scenario.isGrounded(net)) {
            scenario.reaches(net).stream()
                    .filter(reach -> reach.hard() && reach.source().isReference())
                    .forEach(reach -> grounds.add(reach.source()));
        }
        return grounds;
    }

    /** What is said of returns in more than one rule. */
    static final class Returns {
        private Returns() {}

        /** A line input's return that is the vehicle's ground, or the minus of an output that is. */
        static boolean isGroundAnyway(Node node) {
            return (node.facts() instanceof Electrical.LineIn in
                            && in.side() == Side.RETURN
                            && in.returns() == InputReturn.CHASSIS)
                    || (node.facts() instanceof Electrical.SpeakerOut out
                            && out.side() == Side.MINUS
                            && out.drive() == Drive.COMMON_GROUND);
        }

        static boolean isInputOfUnknownReturn(Node node) {
            return node.facts() instanceof Electrical.LineIn in && in.side() == Side.RETURN && in.returns() == null;
        }
    }
}
