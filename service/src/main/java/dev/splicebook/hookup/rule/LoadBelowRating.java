package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.OutputLoad;
import dev.splicebook.hookup.net.OutputLoads;
import dev.splicebook.hookup.net.Scenario;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** The loudspeakers on an output come to fewer ohms than it may drive. */
@AutoService(Rule.class)
@About(
        code = "load-below-rating",
        severity = Severity.ERROR,
        since = "0.1",
        condition = "The loudspeakers on an output come to fewer ohms than it may drive.",
        checks = "What stands between the two sides of each speaker output, in every state: voice coils at their rated"
                + " impedance, in series and in parallel, resistors and wires, solved as one network, against the"
                + " least load of the output in the mode that the part is used in.",
        why =
                "The amplifier gives more current than it is built for: it shuts down when it gets loud, or its output fails.",
        mend = "Wire the coils in series, or take loudspeakers of more ohms; a bridged output needs twice the ohms.",
        source = "Ohm's law; the limit is the maker's, for the rated impedance.",
        fails = """
                {"parts": {
                   "AMP": {"inline": {"terminals": {
                     "plus": {"electrical": {"kind": "speaker-out", "channel": "subwoofer", "side": "plus", "drive": "floating", "maxVolts": 34, "minOhms": 4}},
                     "minus": {"electrical": {"kind": "speaker-out", "channel": "subwoofer", "side": "minus", "drive": "floating", "maxVolts": 34, "minOhms": 4}}}}},
                   "SUB": {"inline": {"terminals": {
                     "plus-a": {"electrical": {"kind": "speaker-in", "channel": "subwoofer", "side": "plus", "ohms": 4, "coil": "a"}},
                     "minus-a": {"electrical": {"kind": "speaker-in", "channel": "subwoofer", "side": "minus", "ohms": 4, "coil": "a"}},
                     "plus-b": {"electrical": {"kind": "speaker-in", "channel": "subwoofer", "side": "plus", "ohms": 4, "coil": "b"}},
                     "minus-b": {"electrical": {"kind": "speaker-in", "channel": "subwoofer", "side": "minus", "ohms": 4, "coil": "b"}}}}}},
                 "connections": {
                   "W1": {"ends": ["AMP.plus", "SUB.plus-a"]}, "W2": {"ends": ["AMP.plus", "SUB.plus-b"]},
                   "W3": {"ends": ["AMP.minus", "SUB.minus-a"]}, "W4": {"ends": ["AMP.minus", "SUB.minus-b"]}}}
                """,
        passes = """
                {"parts": {
                   "AMP": {"inline": {"terminals": {
                     "plus": {"electrical": {"kind": "speaker-out", "channel": "subwoofer", "side": "plus", "drive": "floating", "maxVolts": 34, "minOhms": 4}},
                     "minus": {"electrical": {"kind": "speaker-out", "channel": "subwoofer", "side": "minus", "drive": "floating", "maxVolts": 34, "minOhms": 4}}}}},
                   "SUB": {"inline": {"terminals": {
                     "plus-a": {"electrical": {"kind": "speaker-in", "channel": "subwoofer", "side": "plus", "ohms": 4, "coil": "a"}},
                     "minus-a": {"electrical": {"kind": "speaker-in", "channel": "subwoofer", "side": "minus", "ohms": 4, "coil": "a"}},
                     "plus-b": {"electrical": {"kind": "speaker-in", "channel": "subwoofer", "side": "plus", "ohms": 4, "coil": "b"}},
                     "minus-b": {"electrical": {"kind": "speaker-in", "channel": "subwoofer", "side": "minus", "ohms": 4, "coil": "b"}}}}}},
                 "connections": {
                   "W1": {"ends": ["AMP.plus", "SUB.plus-a"]}, "W2": {"ends": ["SUB.minus-a", "SUB.plus-b"]},
                   "W3": {"ends": ["SUB.minus-b", "AMP.minus"]}}}
                """)
public final class LoadBelowRating implements Rule {

    /** The lowest load of an output over the states, and where it is too low. */
    private static final class Lowest {
        private @Nullable OutputLoad load;
        private final Set<State> states = EnumSet.noneOf(State.class);
    }

    @Override
    public void check(Examination examination) {
        Map<Node, Lowest> lowest = new LinkedHashMap<>();
        for (Scenario scenario : examination.reading().signalWays()) {
            OutputLoads loads = examination.reading().loads(scenario);
            loads.unpaired().forEach(end -> examination.missing(end, "coil"));
            if (loads.isToldApartByWiring()) {
                examination.assume(
                        "coil",
                        null,
                        null,
                        "which plus and minus of a loudspeaker are one coil is told by the wiring where no fact does: no"
                                + " coil is short by its own wiring");
            }
            for (OutputLoad load : loads.all()) {
                if (!load.isClosed() || !load.isOfTheHookup()) {
                    continue;
                }
                examination.applies();
                Double minOhms = load.stated(Electrical.SpeakerOut::minOhms);
                if (minOhms == null) {
                    examination.missing(load.plus(), "minOhms");
                } else if (load.ohms() < minOhms * (1 - 1e-9)) {
                    Lowest worst = lowest.computeIfAbsent(load.plus(), key -> new Lowest());
                    worst.load = worst.load == null || load.ohms() < worst.load.ohms() ? load : worst.load;
                    worst.states.addAll(examination.reading().signalStates(scenario));
                }
            }
        }
        lowest.values().forEach(worst -> report(worst, examination));
    }

    private static void report(Lowest worst, Examination examination) {
        OutputLoad load = worst.load;
        Double minOhms = load == null ? null : load.stated(Electrical.SpeakerOut::minOhms);
        if (load == null || minOhms == null) {
            return;
        }
        List<Node> coils = load.shares().stream()
                .filter(OutputLoad.Share::isDriven)
                .flatMap(share -> share.coil().ends().stream())
                .toList();
        examination
                .report(
                        "the load of " + Say.names(load.sides()) + " is "
                                + Say.apart(load.ohms(), minOhms, Say::ohms) + ", below the "
                                + Say.ohms(minOhms) + " that this output drives at least",
                        coils.isEmpty()
                                ? "use a resistor of more ohms."
                                : "wire the coils in series, or take loudspeakers of more ohms.")
                .at(load.sides())
                .at(coils)
                .at(load.resistors().stream()
                        .flatMap(share -> List.of(share.one(), share.other()).stream())
                        .toList())
                .through(examination.reading().connectionsAt(coils))
                .in(worst.states)
                .figures(load.ohms(), minOhms, "Ω");
    }
}
