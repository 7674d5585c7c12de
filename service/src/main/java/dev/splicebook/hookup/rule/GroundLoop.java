package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.InputReturn;
import dev.splicebook.hookup.OutputReturn;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.Side;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Reach;
import dev.splicebook.hookup.net.Scenario;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** A signal return joins two parts that are grounded at different points. */
@AutoService(Rule.class)
@About(
        code = "ground-loop",
        severity = Severity.WARNING,
        since = "0.1",
        condition = "A signal return joins two parts that are grounded at different points.",
        checks =
                "Every return that joins a line output whose return is its chassis with a line input whose return is its chassis:"
                        + " where each of the two parts is grounded. One ground point for both makes no loop, nor does a"
                        + " differential or isolated input, nor an isolator between. A factory unit is grounded where its"
                        + " maker did it, which is none of the points of the hookup.",
        why =
                "Between two points of the body a few millivolts stand, from every load of the vehicle. The return carries their"
                        + " current, and the amplifier plays it: alternator whine.",
        mend = "Ground both parts at one point, use a differential input, or put an isolator into the signal.",
        source = "Common practice, no source.",
        fails = """
                {"vehicle": {"inline": {"circuits": {"C1-8": {"electrical": {"kind": "ground"}}}}},
                 "parts": {
                   "HU": {"inline": {"terminals": {
                     "ground": {"electrical": {"kind": "ground"}},
                     "out": {"electrical": {"kind": "line-out", "channel": "subwoofer", "side": "signal", "maxVolts": 4, "return": "chassis"}},
                     "out-return": {"electrical": {"kind": "line-out", "channel": "subwoofer", "side": "return", "maxVolts": 4, "return": "chassis"}}}}},
                   "AMP": {"inline": {"terminals": {
                     "ground": {"electrical": {"kind": "ground"}},
                     "in": {"electrical": {"kind": "line-in", "channel": "subwoofer", "side": "signal", "minVolts": 0.2, "maxVolts": 5, "return": "chassis"}},
                     "in-return": {"electrical": {"kind": "line-in", "channel": "subwoofer", "side": "return", "minVolts": 0.2, "maxVolts": 5, "return": "chassis"}}}}}},
                 "connections": {
                   "W1": {"ends": ["HU.ground", "CAR.C1-8"]}, "W2": {"ends": ["AMP.ground", "CAR.chassis"]},
                   "W3": {"ends": ["HU.out", "AMP.in"]}, "W4": {"ends": ["HU.out-return", "AMP.in-return"]}}}
                """,
        passes = """
                {"vehicle": {"inline": {"circuits": {"C1-8": {"electrical": {"kind": "ground"}}}}},
                 "parts": {
                   "HU": {"inline": {"terminals": {
                     "ground": {"electrical": {"kind": "ground"}},
                     "out": {"electrical": {"kind": "line-out", "channel": "subwoofer", "side": "signal", "maxVolts": 4, "return": "chassis"}},
                     "out-return": {"electrical": {"kind": "line-out", "channel": "subwoofer", "side": "return", "maxVolts": 4, "return": "chassis"}}}}},
                   "AMP": {"inline": {"terminals": {
                     "ground": {"electrical": {"kind": "ground"}},
                     "in": {"electrical": {"kind": "line-in", "channel": "subwoofer", "side": "signal", "minVolts": 0.2, "maxVolts": 5, "return": "differential"}},
                     "in-return": {"electrical": {"kind": "line-in", "channel": "subwoofer", "side": "return", "minVolts": 0.2, "maxVolts": 5, "return": "differential"}}}}}},
                 "connections": {
                   "W1": {"ends": ["HU.ground", "CAR.C1-8"]}, "W2": {"ends": ["AMP.ground", "CAR.chassis"]},
                   "W3": {"ends": ["HU.out", "AMP.in"]}, "W4": {"ends": ["HU.out-return", "AMP.in-return"]}}}
                """)
public final class GroundLoop implements Rule {

    @Override
    public void check(Examination examination) {
        Map<List<String>, Examination.Draft> told = new HashMap<>();
        for (Scenario scenario : examination.reading().partitions()) {
            for (int net = 0; net < scenario.netCount(); net++) {
                for (Node output : scenario.members(net)) {
                    if (output.facts() instanceof Electrical.LineOut out && out.side() == Side.RETURN) {
                        for (Node input : scenario.members(net)) {
                            if (input.facts() instanceof Electrical.LineIn in && in.side() == Side.RETURN) {
                                check(output, out, input, in, scenario, told, examination);
                            }
                        }
                    }
                }
            }
        }
    }

    private static void check(
            Node output,
            Electrical.LineOut out,
            Node input,
            Electrical.LineIn in,
            Scenario scenario,
            Map<List<String>, Examination.Draft> told,
            Examination examination) {
        examination.applies();
        boolean mayLoop = (out.returns() == null || out.returns() == OutputReturn.CHASSIS)
                && (in.returns() == null || in.returns() == InputReturn.CHASSIS);
        if (!mayLoop || output.owner().equals(input.owner())) {
            return;
        }
        Set<Node> one = points(output, scenario, examination);
        Set<Node> other = points(input, scenario, examination);
        boolean apart = (output.isVehicle() || !one.isEmpty())
                && (input.isVehicle() || !other.isEmpty())
                && one.stream().noneMatch(other::contains);
        if (!apart) {
            return;
        }
        if (out.returns() == null || in.returns() == null) {
            if (out.returns() == null) {
                examination.missing(output, "return");
            }
            if (in.returns() == null) {
                examination.missing(input, "return");
            }
            return;
        }
        told.computeIfAbsent(
                        List.of(output.owner(), input.owner()),
                        key -> examination.report(
                                Say.name(output) + " and " + Say.name(input)
                                        + " are returns that are chassis at both ends: "
                                        + output.owner() + " is grounded at " + named(one) + " and " + input.owner()
                                        + " at "
                                        + named(other)
                                        + ", and the volts between the two grounds drive a current through the"
                                        + " return, which is heard as hum",
                                "ground both at one point, or put an isolator into the signal."))
                .at(output, input)
                .besides(one)
                .besides(other)
                .through(examination.reading().connectionsAt(List.of(output, input)))
                .in(examination.reading().states(scenario));
    }

    private static String named(Set<Node> points) {
        return points.isEmpty() ? "the factory unit's own ground" : Say.names(points);
    }

    /** Where a part's own grounds meet the vehicle; none for a circuit of the vehicle, whose unit keeps it to itself. */
    private static Set<Node> points(Node terminal, Scenario scenario, Examination examination) {
        Set<Node> points = new LinkedHashSet<>();
        List<Node> grounds = new ArrayList<>();
        if (!terminal.isVehicle()) {
            for (Node node : examination.network().nodesOf(terminal.owner())) {
                if (node.facts() instanceof Electrical.Ground) {
                    grounds.add(node);
                }
            }
        }
        for (Node ground : grounds) {
            for (Reach reach : scenario.reaches(ground)) {
                if (reach.hard() && reach.source().isReference()) {
                    points.add(reach.source());
                }
            }
        }
        return points;
    }
}
