package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.OutputLoad;
import dev.splicebook.hookup.net.OutputLoads;
import dev.splicebook.hookup.net.Scenario;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;

/** Equal coils of one loudspeaker get different current, or one of them none. */
@AutoService(Rule.class)
@About(
        code = "coils-unequal",
        severity = Severity.WARNING,
        since = "0.1",
        condition = "Equal coils of one loudspeaker get different current, or one of them none.",
        checks =
                "The coils of one channel of one part that have the same rated impedance and hang on one output: what flows in"
                        + " each, solved with all that hangs there. A named coil of a part must be connected where another"
                        + " of the same channel and impedance is driven.",
        why =
                "The coils share one cone. The one that gets more runs hot and reaches its limit first, and the cone tilts.",
        mend = "Wire the coils of each loudspeaker alike: all in series, or all in parallel.",
        source = "Ohm's law; that equal coils are to be driven alike is common practice, no source.",
        fails = """
                {"parts": {
                   "AMP": {"inline": {"terminals": {
                     "plus": {"electrical": {"kind": "speaker-out", "channel": "subwoofer", "side": "plus", "drive": "floating", "maxVolts": 20, "minOhms": 2}},
                     "minus": {"electrical": {"kind": "speaker-out", "channel": "subwoofer", "side": "minus", "drive": "floating", "maxVolts": 20, "minOhms": 2}}}}},
                   "PAD": {"inline": {"resistors": [{"between": ["a", "b"], "ohms": 4, "watts": 100}]}},
                   "SUB": {"inline": {"terminals": {
                     "plus-a": {"electrical": {"kind": "speaker-in", "channel": "subwoofer", "side": "plus", "ohms": 4, "maxWatts": 200, "coil": "a"}},
                     "minus-a": {"electrical": {"kind": "speaker-in", "channel": "subwoofer", "side": "minus", "ohms": 4, "maxWatts": 200, "coil": "a"}},
                     "plus-b": {"electrical": {"kind": "speaker-in", "channel": "subwoofer", "side": "plus", "ohms": 4, "maxWatts": 200, "coil": "b"}},
                     "minus-b": {"electrical": {"kind": "speaker-in", "channel": "subwoofer", "side": "minus", "ohms": 4, "maxWatts": 200, "coil": "b"}}}}}},
                 "connections": {
                   "W1": {"ends": ["AMP.plus", "SUB.plus-a"]}, "W2": {"ends": ["AMP.plus", "PAD.a"]}, "W3": {"ends": ["PAD.b", "SUB.plus-b"]},
                   "W4": {"ends": ["AMP.minus", "SUB.minus-a"]}, "W5": {"ends": ["AMP.minus", "SUB.minus-b"]}}}
                """,
        passes = """
                {"parts": {
                   "AMP": {"inline": {"terminals": {
                     "plus": {"electrical": {"kind": "speaker-out", "channel": "subwoofer", "side": "plus", "drive": "floating", "maxVolts": 20, "minOhms": 2}},
                     "minus": {"electrical": {"kind": "speaker-out", "channel": "subwoofer", "side": "minus", "drive": "floating", "maxVolts": 20, "minOhms": 2}}}}},
                   "SUB": {"inline": {"terminals": {
                     "plus-a": {"electrical": {"kind": "speaker-in", "channel": "subwoofer", "side": "plus", "ohms": 4, "maxWatts": 200, "coil": "a"}},
                     "minus-a": {"electrical": {"kind": "speaker-in", "channel": "subwoofer", "side": "minus", "ohms": 4, "maxWatts": 200, "coil": "a"}},
                     "plus-b": {"electrical": {"kind": "speaker-in", "channel": "subwoofer", "side": "plus", "ohms": 4, "maxWatts": 200, "coil": "b"}},
                     "minus-b": {"electrical": {"kind": "speaker-in", "channel": "subwoofer", "side": "minus", "ohms": 4, "maxWatts": 200, "coil": "b"}}}}}},
                 "connections": {
                   "W1": {"ends": ["AMP.plus", "SUB.plus-a"]}, "W2": {"ends": ["AMP.plus", "SUB.plus-b"]},
                   "W3": {"ends": ["AMP.minus", "SUB.minus-a"]}, "W4": {"ends": ["AMP.minus", "SUB.minus-b"]}}}
                """)
public final class CoilsUnequal implements Rule {

    static final Threshold ALIKE = new Threshold(
            "alikeShare",
            0.1,
            "",
            "difference of the currents that wires of different length make, by the larger; common practice, no source");

    @Override
    public void check(Examination examination) {
        Map<List<Node>, Examination.Draft> told = new LinkedHashMap<>();
        Set<Node> driven = new LinkedHashSet<>();
        for (Scenario scenario : examination.reading().signalWays()) {
            OutputLoads loads = examination.reading().loads(scenario);
            loads.unpaired().forEach(end -> examination.missing(end, "coil"));
            for (OutputLoad load : loads.all()) {
                Map<List<Object>, List<OutputLoad.Share>> speakers = new LinkedHashMap<>();
                for (OutputLoad.Share share : load.shares()) {
                    if (share.isDriven() && !share.coil().within()) {
                        Node plus = share.coil().plus();
                        driven.add(plus);
                        Object channel = plus.audio() == null || plus.audio().channel() == null
                                ? ""
                                : plus.audio().channel();
                        speakers.computeIfAbsent(
                                        List.of(
                                                plus.owner(),
                                                channel,
                                                share.coil().ohms()),
                                        key -> new ArrayList<>(2))
                                .add(share);
                    }
                }
                speakers.values().forEach(coils -> judge(load, coils, scenario, told, examination));
            }
        }
        Set<Set<Node>> toldIdle = new HashSet<>();
        driven.stream().sorted(Say.BY_FACTS).forEach(plus -> checkOthers(plus, toldIdle, examination));
    }

    /** Coils like a driven one to which nothing is connected. */
    private static void checkOthers(Node driven, Set<Set<Node>> told, Examination examination) {
        if (!(driven.facts() instanceof Electrical.SpeakerIn coil) || coil.coil() == null) {
            return;
        }
        Set<Node> idle = new LinkedHashSet<>();
        for (Node other : examination.network().nodesOf(driven.owner())) {
            if (other.facts() instanceof Electrical.SpeakerIn in
                    && in.coil() != null
                    && !in.coil().equals(coil.coil())
                    && Objects.equals(in.channel(), coil.channel())
                    && Objects.equals(in.ohms(), coil.ohms())) {
                examination.applies();
                // one that nobody decided about is told by lead-unaccounted
                if (!examination.network().isConnected(other)
                        && examination.network().isUnused(other)) {
                    idle.add(other);
                }
            }
        }
        // one end alone that is loose is told by pair-half-connected
        if (idle.size() > 1 && told.add(idle)) {
            examination
                    .report(
                            "the coil at " + Say.names(idle) + " is connected to nothing, and its twin at "
                                    + Say.name(driven) + " is driven",
                            "wire the coils of each loudspeaker alike: all in series, or all in parallel.")
                    .at(idle)
                    .through(examination.reading().connectionsAt(List.of(driven)));
        }
    }

    private static void judge(
            OutputLoad load,
            List<OutputLoad.Share> coils,
            Scenario scenario,
            Map<List<Node>, Examination.Draft> told,
            Examination examination) {
        if (coils.size() < 2) {
            return;
        }
        examination.applies();
        double most = coils.stream()
                .mapToDouble(share -> Math.abs(share.amps()))
                .max()
                .orElse(0);
        double least = coils.stream()
                .mapToDouble(share -> Math.abs(share.amps()))
                .min()
                .orElse(0);
        if (most - least <= examination.value(ALIKE) * most * (1 + 1e-9)) {
            return;
        }
        List<Node> ends =
                coils.stream().flatMap(share -> share.coil().ends().stream()).toList();
        told.computeIfAbsent(
                        ends,
                        key -> examination
                                .report(
                                        Say.coils(coils.stream()
                                                        .map(OutputLoad.Share::coil)
                                                        .toList())
                                                + " are alike and get unlike current from "
                                                + Say.name(load.plus()) + ": the least of them "
                                                + Say.percent(least / most)
                                                + " of the most",
                                        "wire the coils of each loudspeaker alike: all in series, or all in parallel.")
                                .figures(100 * least / most, 100 * (1 - examination.value(ALIKE)), "%")
                                .at(ends)
                                .at(load.plus())
                                .through(examination.reading().connectionsAt(ends)))
                .in(examination.reading().signalStates(scenario));
    }
}
