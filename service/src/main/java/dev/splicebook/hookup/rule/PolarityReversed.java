package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Scenario;
import dev.splicebook.hookup.net.Signals;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/** The polarity is turned round where a signal ends. */
@AutoService(Rule.class)
@About(
        code = "polarity-reversed",
        severity = Severity.ERROR,
        since = "0.1",
        condition = "The polarity is turned round where a signal ends.",
        checks =
                "What arrives at each loudspeaker, and at each input that passes nothing on: plus or signal must arrive at plus"
                        + " or signal, through couplings, converters and adapters. A reversal that a second one undoes is no fault.",
        why = "One loudspeaker pulls while the other pushes: the bass is gone, and every setting seems wrong.",
        mend = "Swap the two conductors of the pair, at one end only.",
        source = "Common practice, no source.",
        fails = """
                {"vehicle": {"inline": {"circuits": {
                   "A2-1": {"electrical": {"kind": "speaker-out", "channel": "front-left", "side": "plus", "drive": "floating", "maxVolts": 17}},
                   "A2-2": {"electrical": {"kind": "speaker-out", "channel": "front-left", "side": "minus", "drive": "floating", "maxVolts": 17}}}}},
                 "parts": {"AMP": {"inline": {"terminals": {
                   "in-plus": {"electrical": {"kind": "speaker-in", "channel": "left", "side": "plus", "maxVolts": 20}},
                   "in-minus": {"electrical": {"kind": "speaker-in", "channel": "left", "side": "minus", "maxVolts": 20}}}}}},
                 "connections": {"W1": {"ends": ["CAR.A2-1", "AMP.in-minus"]}, "W2": {"ends": ["CAR.A2-2", "AMP.in-plus"]}}}
                """,
        passes = """
                {"vehicle": {"inline": {"circuits": {
                   "A2-1": {"electrical": {"kind": "speaker-out", "channel": "front-left", "side": "plus", "drive": "floating", "maxVolts": 17}},
                   "A2-2": {"electrical": {"kind": "speaker-out", "channel": "front-left", "side": "minus", "drive": "floating", "maxVolts": 17}}}}},
                 "parts": {"AMP": {"inline": {"terminals": {
                   "in-plus": {"electrical": {"kind": "speaker-in", "channel": "left", "side": "plus", "maxVolts": 20}},
                   "in-minus": {"electrical": {"kind": "speaker-in", "channel": "left", "side": "minus", "maxVolts": 20}}}}}},
                 "connections": {"W1": {"ends": ["CAR.A2-1", "AMP.in-plus"]}, "W2": {"ends": ["CAR.A2-2", "AMP.in-minus"]}}}
                """,
        rank = Rank.POLARITY)
public final class PolarityReversed implements Rule {

    @Override
    public void check(Examination examination) {
        Set<Set<Node>> told = new HashSet<>();
        for (Scenario scenario : examination.reading().partitions()) {
            Signals signals = examination.reading().signals(scenario);
            for (Reading.Group input : examination.reading().inputs()) {
                check(input, signals, told, examination);
            }
        }
    }

    private static void check(Reading.Group input, Signals signals, Set<Set<Node>> told, Examination examination) {
        Set<Node> turned = new LinkedHashSet<>();
        Set<Node> origins = new LinkedHashSet<>();
        for (Node end : input.nodes()) {
            if (examination.reading().isPassedOn(end)) {
                return;
            }
            boolean wantsPositive = input.positive().contains(end);
            for (Signals.Arrival arrival : signals.arrivals(end)) {
                examination.applies();
                Boolean positive = arrival.isPositive();
                if (positive == null) {
                    examination.missing(arrival.origin(), "side");
                } else if (positive != wantsPositive) {
                    turned.add(end);
                    origins.add(arrival.origin());
                }
            }
        }
        if (!turned.isEmpty() && told.add(turned)) {
            List<String> pairs = new ArrayList<>();
            turned.stream().sorted(Say.BY_FACTS).forEach(end -> pairs.add(Say.name(end)));
            examination
                    .report(
                            Say.list(pairs) + (turned.size() > 1 ? " get " : " gets ") + Say.names(origins)
                                    + " the wrong way round",
                            "swap the two conductors of the pair, at one end only.")
                    .at(turned)
                    .at(origins)
                    .through(examination.reading().connectionsAt(turned));
        }
    }
}
