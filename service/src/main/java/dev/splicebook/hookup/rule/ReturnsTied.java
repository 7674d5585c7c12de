package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.OutputReturn;
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

/** A driven return stands on one net with another return or with ground. */
@AutoService(Rule.class)
@About(
        code = "returns-tied",
        severity = Severity.ERROR,
        since = "0.1",
        condition = "A driven return stands on one net with another return or with ground.",
        checks =
                "Every return of a line output that is driven, in every state and through adapters: no return of another"
                        + " output, no ground of the vehicle and no input return that is ground may stand on its net.",
        why =
                "A driven return carries a signal of its own. Two that meet in the sleeve of one plug look like a short to the"
                        + " source, which mutes or shuts down.",
        mend =
                "Put an isolator between the source and the plug, so that each return ends in its own winding before anything"
                        + " joins them. Behind the common sleeve it is too late.",
        source = "Common practice, no source.",
        fails = """
                {"vehicle": {"inline": {"circuits": {
                   "C2-2": {"electrical": {"kind": "line-out", "channel": "left", "side": "return", "return": "driven"}},
                   "C2-4": {"electrical": {"kind": "line-out", "channel": "right", "side": "return", "return": "driven"}}}}},
                 "parts": {"PLUG": {"inline": {"conducts": [["sleeve", "left-return", "right-return"]]}}},
                 "connections": {"W1": {"ends": ["CAR.C2-2", "PLUG.left-return"]}, "W2": {"ends": ["CAR.C2-4", "PLUG.right-return"]}}}
                """,
        passes = """
                {"vehicle": {"inline": {"circuits": {
                   "C2-1": {"electrical": {"kind": "line-out", "channel": "left", "side": "signal", "return": "driven"}},
                   "C2-2": {"electrical": {"kind": "line-out", "channel": "left", "side": "return", "return": "driven"}},
                   "C2-3": {"electrical": {"kind": "line-out", "channel": "right", "side": "signal", "return": "driven"}},
                   "C2-4": {"electrical": {"kind": "line-out", "channel": "right", "side": "return", "return": "driven"}}}}},
                 "parts": {"PLUG": {"inline": {"conducts": [["sleeve", "left-return", "right-return"]]}},
                   "ISO": {"inline": {"couples": [
                     {"from": ["l", "l-return"], "to": ["lo", "lo-return"]}, {"from": ["r", "r-return"], "to": ["ro", "ro-return"]}]}}},
                 "connections": {
                   "W1": {"ends": ["CAR.C2-1", "ISO.l"]}, "W2": {"ends": ["CAR.C2-2", "ISO.l-return"]},
                   "W3": {"ends": ["CAR.C2-3", "ISO.r"]}, "W4": {"ends": ["CAR.C2-4", "ISO.r-return"]},
                   "W5": {"ends": ["ISO.lo-return", "PLUG.left-return"]}, "W6": {"ends": ["ISO.ro-return", "PLUG.right-return"]}}}
                """,
        rank = Rank.RETURNS_TIED)
public final class ReturnsTied implements Rule {

    @Override
    public void check(Examination examination) {
        Map<Set<Node>, Examination.Draft> told = new HashMap<>();
        for (Scenario scenario : examination.reading().signalWays()) {
            for (int net = 0; net < scenario.netCount(); net++) {
                check(scenario, net, told, examination);
            }
        }
    }

    private static void check(
            Scenario scenario, int net, Map<Set<Node>, Examination.Draft> told, Examination examination) {
        if (!hasOutputReturn(scenario.members(net))) {
            return;
        }
        Set<Node> driven = new LinkedHashSet<>();
        List<Node> unknown = new ArrayList<>();
        Set<Node> others = new LinkedHashSet<>();
        for (Node node : scenario.members(net)) {
            if (node.facts() instanceof Electrical.LineOut out && out.side() == Side.RETURN) {
                examination.applies();
                if (out.returns() == OutputReturn.DRIVEN) {
                    driven.add(node);
                } else {
                    others.add(node);
                    if (out.returns() == null) {
                        unknown.add(node);
                    }
                }
            } else if (node.isReference()
                    || SpeakerMinusGrounded.Returns.isGroundAnyway(node)
                    || (node.facts() instanceof Electrical.VideoOut video && video.side() == Side.RETURN)) {
                others.add(node);
            }
        }
        if (driven.isEmpty() && unknown.isEmpty()) {
            return;
        }
        if (others.stream().noneMatch(Node::isReference) && scenario.isGrounded(net)) {
            scenario.reaches(net).stream()
                    .filter(reach -> reach.hard() && reach.source().isReference())
                    .forEach(reach -> others.add(reach.source()));
        }
        int meeting = driven.size() + others.size();
        if (meeting > 1 && !driven.isEmpty()) {
            Set<Node> all = new LinkedHashSet<>(driven);
            all.addAll(others);
            told.computeIfAbsent(
                            all,
                            key -> examination.report(
                                    (driven.size() > 1
                                                    ? Say.names(driven) + " are driven returns and meet on one net"
                                                    : Say.names(driven) + " is a driven return and stands on one net")
                                            + (others.isEmpty() ? "" : " with " + Say.names(others) + chassis(others)),
                                    "put an isolator between " + Say.names(driven)
                                            + " and whatever joins "
                                            + (driven.size() > 1 ? "them" : "it to another")
                                            + ", on the source's side of it."))
                    .at(driven)
                    .at(others)
                    // a ground net has every ground wire of the vehicle on it, which would hide the one that matters
                    .through(
                            scenario.isGrounded(net)
                                    ? examination.reading().connectionsAt(driven)
                                    : examination.reading().connectionsOn(scenario, net))
                    .in(examination.reading().signalStates(scenario))
                    .claimsUnlessGround(scenario, net);
        } else if (meeting > 1) {
            unknown.forEach(node -> examination.missing(node, "return"));
        } else if (driven.size() == 1) {
            for (Node node : scenario.members(net)) {
                if (SpeakerMinusGrounded.Returns.isInputOfUnknownReturn(node)) {
                    examination.missing(node, "return");
                }
            }
        }
    }

    /** Says of a terminal that stands alone for the chassis that it does. */
    private static String chassis(Set<Node> others) {
        return others.size() == 1 && others.stream().anyMatch(SpeakerMinusGrounded.Returns::isGroundAnyway)
                ? ", which is chassis inside"
                : "";
    }

    private static boolean hasOutputReturn(List<Node> nodes) {
        for (Node node : nodes) {
            if (node.facts() instanceof Electrical.LineOut out && out.side() == Side.RETURN) {
                return true;
            }
        }
        return false;
    }
}
