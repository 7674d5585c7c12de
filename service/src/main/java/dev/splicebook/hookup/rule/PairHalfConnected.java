package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Drive;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.OutputReturn;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.net.Coupling;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Scenario;
import dev.splicebook.hookup.net.Signals;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/** One conductor of a signal pair arrives and the other does not. */
@AutoService(Rule.class)
@About(
        code = "pair-half-connected",
        severity = Severity.ERROR,
        since = "0.1",
        condition = "One conductor of a signal pair arrives and the other does not.",
        checks =
                "Every audio input with a plus and a minus, or a signal and a return, and every coupling: both conductors must"
                        + " come from the two sides of the same output. A side that is ground anyway may come from ground.",
        why = "A loudspeaker on one conductor is silent, or plays thin through some other path; a line input hums.",
        mend = "Connect the missing conductor to the other side of the same output.",
        source = "Common practice, no source.",
        fails = """
                {"vehicle": {"inline": {"circuits": {
                   "A2-1": {"electrical": {"kind": "speaker-out", "channel": "front-left", "side": "plus", "drive": "floating", "maxVolts": 17}},
                   "A2-2": {"electrical": {"kind": "speaker-out", "channel": "front-left", "side": "minus", "drive": "floating", "maxVolts": 17}}}}},
                 "parts": {"LOC": {"inline": {"terminals": {
                   "in-plus": {"electrical": {"kind": "speaker-in", "channel": "left", "side": "plus", "maxVolts": 20}},
                   "in-minus": {"electrical": {"kind": "speaker-in", "channel": "left", "side": "minus", "maxVolts": 20}}}}}},
                 "connections": {"W1": {"ends": ["CAR.A2-1", "LOC.in-plus"]}}}
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
        rank = Rank.HALF_PAIR)
public final class PairHalfConnected implements Rule {

    @Override
    public void check(Examination examination) {
        Set<Set<Node>> told = new HashSet<>();
        for (Scenario scenario : examination.reading().partitions()) {
            Signals signals = examination.reading().signals(scenario);
            for (Reading.Group input : examination.reading().inputs()) {
                if (input.isPair()) {
                    check(input.positive().get(0), input.negative().get(0), scenario, signals, told, examination);
                }
            }
            checkSharedReturns(scenario, signals, told, examination);
            for (Coupling coupling : examination.network().couplings()) {
                if (coupling.from().get(0).audio() == null
                        && coupling.from().get(1).audio() == null) {
                    check(coupling.from().get(0), coupling.from().get(1), scenario, signals, told, examination);
                }
            }
        }
    }

    private static void check(
            Node positive,
            Node negative,
            Scenario scenario,
            Signals signals,
            Set<Set<Node>> told,
            Examination examination) {
        List<Signals.Arrival> onPositive = signals.arrivals(positive);
        List<Signals.Arrival> onNegative = signals.arrivals(negative);
        if (onPositive.isEmpty() && onNegative.isEmpty()) {
            return;
        }
        examination.applies();
        Node lacking = onPositive.isEmpty() ? positive : negative;
        List<Signals.Arrival> there = onPositive.isEmpty() ? onNegative : onPositive;
        List<Signals.Arrival> opposite = onPositive.isEmpty() ? onPositive : onNegative;
        for (Signals.Arrival arrival : there) {
            List<Node> counterparts = examination.reading().counterparts(arrival.origin());
            if (counterparts.isEmpty()
                    || opposite.stream().anyMatch(other -> counterparts.contains(other.origin()))
                    || isHalfBefore(arrival, signals)) {
                return;
            }
            if (counterparts.stream().allMatch(PairHalfConnected::isGround) && scenario.isGrounded(lacking)) {
                return;
            }
        }
        List<Node> unknown = new ArrayList<>();
        for (Node member : scenario.members(scenario.netOf(lacking))) {
            if (member.isVehicle() && member.facts() == null) {
                unknown.add(member);
            }
        }
        if (!unknown.isEmpty()) {
            unknown.forEach(node -> examination.missing(node, "electrical"));
            return;
        }
        Node origin = there.get(0).origin();
        List<Node> counterparts = examination.reading().counterparts(origin);
        Node end = lacking == negative ? positive : negative;
        if (told.add(Set.of(positive, negative))) {
            examination
                    .report(
                            Say.name(end) + " gets " + Say.name(origin) + ", and its other side " + Say.name(lacking)
                                    + " gets "
                                    + (opposite.isEmpty()
                                            ? "nothing"
                                            : Say.names(opposite.stream()
                                                    .map(Signals.Arrival::origin)
                                                    .toList()))
                                    + " instead of " + Say.names(counterparts),
                            "connect " + lacking.ref() + " to "
                                    + Say.list(
                                            counterparts.stream().map(Node::ref).toList()) + ".")
                    .at(positive, negative, origin)
                    .at(counterparts)
                    .through(examination.reading().connectionsAt(List.of(positive, negative)));
        }
    }

    /** Signals that share one return, like those of a plug with a common sleeve: the return of one of them must arrive. */
    private static void checkSharedReturns(
            Scenario scenario, Signals signals, Set<Set<Node>> told, Examination examination) {
        for (Reading.Group shared : examination.reading().inputs()) {
            if (shared.channel() != null
                    || shared.negative().size() != 1
                    || !shared.positive().isEmpty()) {
                continue;
            }
            Node sleeve = shared.negative().get(0);
            for (Reading.Group input : examination.reading().inputs()) {
                if (input.owner().equals(shared.owner())
                        && input.speaker() == shared.speaker()
                        && input.negative().isEmpty()
                        && input.positive().size() == 1
                        && !signals.arrivals(input.positive().get(0)).isEmpty()) {
                    check(input.positive().get(0), sleeve, scenario, signals, told, examination);
                }
            }
        }
    }

    /** Whether what passes the signal on lacks the other half already, so that it is told there. */
    private static boolean isHalfBefore(Signals.Arrival arrival, Signals signals) {
        if (!(arrival.entry() instanceof Coupling coupling)) {
            return false;
        }
        return signals.arrivals(coupling.from().get(0)).isEmpty()
                || signals.arrivals(coupling.from().get(1)).isEmpty();
    }

    private static boolean isGround(Node output) {
        return (output.facts() instanceof Electrical.SpeakerOut out && out.drive() == Drive.COMMON_GROUND)
                || (output.facts() instanceof Electrical.LineOut line && line.returns() == OutputReturn.CHASSIS);
    }
}
