package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Drive;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.net.Coupling;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.OutputLoad;
import dev.splicebook.hookup.net.OutputLoads;
import dev.splicebook.hookup.net.Scenario;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** An output that mutes without a loudspeaker sees none. */
@AutoService(Rule.class)
@About(
        code = "load-not-detected",
        severity = Severity.WARNING,
        since = "0.1",
        condition = "An output that mutes without a loudspeaker sees none.",
        checks =
                "Every speaker output in use that states below how many ohms it detects its loudspeaker: what coils, resistors,"
                        + " wires and inputs on it come to, solved as one network. A factory output that is tapped and not cut"
                        + " still has the factory's loudspeaker, if the map has one there.",
        why = "The factory amplifier takes the missing loudspeaker for a fault and mutes the channel, or all of them.",
        mend =
                "Leave the factory loudspeaker on, or put a load resistor across the output that it takes for one, at the watts"
                        + " that this takes.",
        source = "Common practice, no source; the limit is the maker's.",
        fails = """
                {"vehicle": {"inline": {"circuits": {
                   "A2-1": {"whenPlugged": {"kind": "speaker-out", "channel": "front-left", "side": "plus", "drive": "floating", "maxVolts": 17, "maxDetectOhms": 100}},
                   "A2-2": {"whenPlugged": {"kind": "speaker-out", "channel": "front-left", "side": "minus", "drive": "floating", "maxVolts": 17, "maxDetectOhms": 100}}}}, "cuts": ["A2-1", "A2-2"]},
                 "parts": {"LOC": {"inline": {"couples": [{"from": ["plus", "minus"], "to": ["out", "out-return"], "gain": 0.2, "inputOhms": 10000, "maxVolts": 30}]}}},
                 "connections": {"W1": {"ends": ["CAR.A2-1/unit", "LOC.plus"]}, "W2": {"ends": ["CAR.A2-2/unit", "LOC.minus"]}},
                 "unused": {"CAR.A2-1/harness": {"as": "capped"}, "CAR.A2-2/harness": {"as": "capped"}}}
                """,
        passes = """
                {"vehicle": {"inline": {"circuits": {
                   "A2-1": {"whenPlugged": {"kind": "speaker-out", "channel": "front-left", "side": "plus", "drive": "floating", "maxVolts": 17, "maxDetectOhms": 100}},
                   "A2-2": {"whenPlugged": {"kind": "speaker-out", "channel": "front-left", "side": "minus", "drive": "floating", "maxVolts": 17, "maxDetectOhms": 100}}}}, "cuts": ["A2-1", "A2-2"]},
                 "parts": {"LOC": {"inline": {"couples": [{"from": ["plus", "minus"], "to": ["out", "out-return"], "gain": 0.2, "inputOhms": 10000, "maxVolts": 30}]}},
                   "LOAD": {"inline": {"resistors": [{"between": ["a", "b"], "ohms": 47, "watts": 10}]}}},
                 "connections": {"W1": {"ends": ["CAR.A2-1/unit", "LOC.plus"]}, "W2": {"ends": ["CAR.A2-2/unit", "LOC.minus"]},
                                 "W3": {"ends": ["CAR.A2-1/unit", "LOAD.a"]}, "W4": {"ends": ["CAR.A2-2/unit", "LOAD.b"]}},
                 "unused": {"CAR.A2-1/harness": {"as": "capped"}, "CAR.A2-2/harness": {"as": "capped"}}}
                """)
public final class LoadNotDetected implements Rule {

    /** The highest load of an output over the states in which it goes undetected. */
    private static final class Highest {
        private @Nullable OutputLoad load;
        private final Set<State> states = EnumSet.noneOf(State.class);
    }

    @Override
    public void check(Examination examination) {
        Map<Node, Highest> highest = new LinkedHashMap<>();
        for (Scenario scenario : examination.reading().signalWays()) {
            OutputLoads loads = examination.reading().loads(scenario);
            loads.unpaired().forEach(end -> examination.missing(end, "coil"));
            List<OutputLoad> all = new ArrayList<>(loads.all());
            // what leads to another output loads neither
            all.addAll(loads.crossed());
            for (OutputLoad load : all) {
                Double limitOhms = load.stated(Electrical.SpeakerOut::maxDetectOhms);
                if (limitOhms == null || !isWhole(load, examination)) {
                    continue;
                }
                examination.applies();
                if (load.detectedOhms() < limitOhms * (1 - 1e-9)) {
                    continue;
                }
                if (!loads.unknownEnds().isEmpty()) {
                    loads.unknownEnds().forEach(end -> examination.missing(end, "electrical"));
                    continue;
                }
                assumeInputs(load, scenario, examination);
                Highest worst = highest.computeIfAbsent(load.plus(), key -> new Highest());
                worst.load = worst.load == null || load.detectedOhms() > worst.load.detectedOhms() ? load : worst.load;
                worst.states.addAll(examination.reading().signalStates(scenario));
            }
        }
        highest.values().forEach(worst -> report(worst, examination));
    }

    /** Whether both sides lead somewhere; a pair of which half is connected is no question of its load. */
    private static boolean isWhole(OutputLoad load, Examination examination) {
        return load.minus() == null
                || examination.network().isConnected(load.minus())
                || !(load.minus().facts() instanceof Electrical.SpeakerOut out)
                || out.drive() == Drive.COMMON_GROUND;
    }

    private static void assumeInputs(OutputLoad load, Scenario scenario, Examination examination) {
        for (Coupling coupling : examination.network().couplings()) {
            if (coupling.inputOhms() == null && scenario.netOf(coupling.from().get(0)) == scenario.netOf(load.plus())) {
                examination.assume(
                        "inputOhms", null, null, "an input that states no impedance is a high one, and no load");
            }
        }
    }

    private static void report(Highest worst, Examination examination) {
        OutputLoad load = worst.load;
        Double limitOhms = load == null ? null : load.stated(Electrical.SpeakerOut::maxDetectOhms);
        if (load == null || limitOhms == null) {
            return;
        }
        String mutes = Say.names(load.sides()) + (load.sides().size() > 1 ? " mute" : " mutes") + " unless less than "
                + Say.ohms(limitOhms) + " is connected, and ";
        boolean nothing = load.detectedOhms() == Double.POSITIVE_INFINITY;
        Examination.Draft draft = examination.report(
                mutes
                        + (nothing
                                ? "no loudspeaker is there"
                                : "what is there comes to " + Say.ohms(load.detectedOhms())),
                "leave the factory loudspeaker on, or put a load resistor across " + Say.names(load.sides()) + ".");
        draft.at(load.sides())
                .through(examination.reading().connectionsAt(load.sides()))
                .in(worst.states);
        if (!nothing) {
            draft.figures(load.detectedOhms(), limitOhms, "Ω");
        }
    }
}
