package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.net.Coupling;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Scenario;
import dev.splicebook.hookup.net.Signals;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** Two sources arrive at one input. */
@AutoService(Rule.class)
@About(
        code = "input-contended",
        severity = Severity.ERROR,
        since = "0.1",
        condition = "Two sources arrive at one input.",
        checks =
                "Every audio input, in every state: signals of different outputs that arrive by different couplings, or by a"
                        + " coupling and directly. Outputs that meet directly are told by outputs-tied; a part that sums inside is"
                        + " meant to; a relay that picks one is right.",
        why =
                "Each source loads the other: both play at once, weak and distorted, and an idle one pulls the other down.",
        mend = "Put a switch or a relay between that picks one, or use another input.",
        source = "Common practice, no source.",
        fails = """
                {"vehicle": {"inline": {"circuits": {
                   "C2-1": {"electrical": {"kind": "line-out", "channel": "left", "side": "signal", "maxVolts": 1, "return": "driven"}},
                   "C2-2": {"electrical": {"kind": "line-out", "channel": "left", "side": "return", "return": "driven"}}}}},
                 "parts": {
                   "PLAYER": {"inline": {"terminals": {
                     "out": {"electrical": {"kind": "line-out", "channel": "left", "side": "signal", "maxVolts": 1, "return": "chassis"}}}}},
                   "ISO": {"inline": {"couples": [{"from": ["l", "l-return"], "to": ["lo", "lo-return"]}]}},
                   "HU": {"inline": {"terminals": {"av-left": {"electrical": {"kind": "line-in", "channel": "left", "side": "signal", "maxVolts": 2}}}}}},
                 "connections": {"W1": {"ends": ["CAR.C2-1", "ISO.l"]}, "W2": {"ends": ["CAR.C2-2", "ISO.l-return"]},
                                 "W3": {"ends": ["ISO.lo", "HU.av-left"]}, "W4": {"ends": ["PLAYER.out", "HU.av-left"]}}}
                """,
        passes = """
                {"vehicle": {"inline": {"circuits": {
                   "C2-1": {"electrical": {"kind": "line-out", "channel": "left", "side": "signal", "maxVolts": 1, "return": "driven"}},
                   "C2-2": {"electrical": {"kind": "line-out", "channel": "left", "side": "return", "return": "driven"}}}}},
                 "parts": {
                   "ISO": {"inline": {"couples": [{"from": ["l", "l-return"], "to": ["lo", "lo-return"]}]}},
                   "HU": {"inline": {"terminals": {"av-left": {"electrical": {"kind": "line-in", "channel": "left", "side": "signal", "maxVolts": 2}}}}}},
                 "connections": {"W1": {"ends": ["CAR.C2-1", "ISO.l"]}, "W2": {"ends": ["CAR.C2-2", "ISO.l-return"]},
                                 "W3": {"ends": ["ISO.lo", "HU.av-left"]}}}
                """,
        rank = Rank.CONTENDED)
public final class InputContended implements Rule {

    @Override
    public void check(Examination examination) {
        Map<Set<Node>, Examination.Draft> told = new HashMap<>();
        for (Scenario scenario : examination.reading().signalWays()) {
            for (Reading.Group input : examination.reading().inputs()) {
                input.positive().forEach(end -> check(end, scenario, told, examination));
            }
            examination.reading().sidelessInputs().forEach(end -> check(end, scenario, told, examination));
            for (Coupling coupling : examination.network().couplings()) {
                Node end = coupling.from().get(0);
                if (end.audio() == null) {
                    check(end, scenario, told, examination);
                }
            }
        }
    }

    private static void check(
            Node end, Scenario scenario, Map<Set<Node>, Examination.Draft> told, Examination examination) {
        Set<Object> entries = new HashSet<>();
        Set<Node> origins = new LinkedHashSet<>();
        boolean coupled = false;
        for (Signals.Arrival arrival : examination.reading().signals(scenario).arrivals(end)) {
            examination.applies();
            coupled |= arrival.isCoupled();
            // two couplings into one terminal are a part that sums
            entries.add(
                    arrival.entry() instanceof Coupling coupling ? coupling.to().get(0) : arrival.origin());
            origins.add(arrival.origin());
        }
        if (coupled && entries.size() > 1 && origins.size() > 1) {
            Set<Node> key = new LinkedHashSet<>(origins);
            key.add(end);
            told.computeIfAbsent(
                            key,
                            ignored -> examination.report(
                                    Say.names(origins) + " arrive at the one input " + Say.name(end),
                                    "put a switch or a relay between that picks one, or use another input."))
                    .at(end)
                    .at(origins)
                    .through(examination.reading().connectionsAt(List.of(end)))
                    .in(examination.reading().signalStates(scenario));
        }
    }
}
