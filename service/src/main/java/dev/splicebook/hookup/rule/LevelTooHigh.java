package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Drive;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.OutputReturn;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.net.Coupling;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.OutputLoad;
import dev.splicebook.hookup.net.OutputLoads;
import dev.splicebook.hookup.net.Scenario;
import dev.splicebook.hookup.net.Signals;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** A signal arrives with more volts than the input takes. */
@AutoService(Rule.class)
@About(
        code = "level-too-high",
        severity = Severity.ERROR,
        since = "0.1",
        condition = "A signal arrives with more volts than the input takes.",
        checks =
                "The rms volts at full output, with the gain of every coupling between, against what each line input, speaker"
                        + "-level input and coupling takes; and the bias of an output against what the return of the input"
                        + " bears between itself and ground. A speaker output straight at a line input whose limit, or its own"
                        + " output, is not known counts as too high.",
        why =
                "The input clips however low its gain is set, or its first stage fails. Ten volts into a two-volt input sounds"
                        + " like a torn loudspeaker.",
        mend = "Put a line-output converter between, or use the amplifier's speaker-level input.",
        source = "Common practice, no source.",
        fails = """
                {"vehicle": {"inline": {"circuits": {"A2-1": {"electrical":
                   {"kind": "speaker-out", "channel": "front-left", "side": "plus", "drive": "floating", "maxVolts": 17.3}}}}},
                 "parts": {"AMP": {"inline": {"terminals": {"in-left": {"electrical":
                   {"kind": "line-in", "channel": "left", "side": "signal", "maxVolts": 5, "return": "differential"}}}}}},
                 "connections": {"W1": {"ends": ["CAR.A2-1", "AMP.in-left"]}}}
                """,
        passes = """
                {"vehicle": {"inline": {"circuits": {
                   "A2-1": {"electrical": {"kind": "speaker-out", "channel": "front-left", "side": "plus", "drive": "floating", "maxVolts": 17.3}},
                   "A2-2": {"electrical": {"kind": "speaker-out", "channel": "front-left", "side": "minus", "drive": "floating", "maxVolts": 17.3}}}}},
                 "parts": {
                   "LOC": {"inline": {"couples": [{"from": ["in-plus", "in-minus"], "to": ["out", "out-return"], "gain": 0.2, "maxVolts": 30}]}},
                   "AMP": {"inline": {"terminals": {
                     "in-left": {"electrical": {"kind": "line-in", "channel": "left", "side": "signal", "maxVolts": 5, "return": "differential"}},
                     "in-left-return": {"electrical": {"kind": "line-in", "channel": "left", "side": "return", "maxVolts": 5, "return": "differential"}}}}}},
                 "connections": {"W1": {"ends": ["CAR.A2-1", "LOC.in-plus"]}, "W2": {"ends": ["CAR.A2-2", "LOC.in-minus"]},
                                 "W3": {"ends": ["LOC.out", "AMP.in-left"]}, "W4": {"ends": ["LOC.out-return", "AMP.in-left-return"]}}}
                """,
        rank = Rank.LEVEL)
public final class LevelTooHigh implements Rule {

    /**
     * A signal above what an input takes, by figures or by its kind.
     *
     * @param volts null where a speaker output goes straight into a line input and a figure is unknown
     */
    private record Excess(
            Node origin,
            @Nullable Double volts,
            Node end,
            @Nullable Double takes,
            Set<State> states) {

        /** The same at its worst, in the states of both. */
        Excess with(Excess other) {
            boolean isWorse = other.volts != null && (volts == null || other.volts > volts);
            Excess worst = isWorse ? other : this;
            Set<State> both = new LinkedHashSet<>(states);
            both.addAll(other.states);
            return new Excess(worst.origin, worst.volts, worst.end, worst.takes, both);
        }
    }

    @Override
    public void check(Examination examination) {
        Map<Set<Node>, Excess> found = new LinkedHashMap<>();
        for (Scenario scenario : examination.reading().signalWays()) {
            Signals signals = examination.reading().signals(scenario);
            OutputLoads loads = examination.reading().loads(scenario);
            loads.all().forEach(load -> checkLoad(load, scenario, found, examination));
            for (Reading.Group input : examination.reading().inputs()) {
                checkInputs(
                        input.positive().isEmpty() ? input.negative() : input.positive(), scenario, found, examination);
            }
            checkInputs(examination.reading().sidelessInputs(), scenario, found, examination);
            for (Coupling coupling : examination.network().couplings()) {
                Node first = coupling.from().get(0);
                Node end = signals.arrivals(first).isEmpty() ? coupling.from().get(1) : first;
                if (end.audio() == null) {
                    for (Signals.Arrival arrival : signals.arrivals(end)) {
                        judge(arrival, end, coupling.maxVolts(), coupling.from(), scenario, found, examination);
                    }
                }
            }
        }
        found.values().forEach(excess -> report(excess, examination));
        checkBias(examination);
    }

    /** What lifts an input off ground: the bias of an output that floats, at a return that does not stand on ground. */
    private static void checkBias(Examination examination) {
        Map<Set<Node>, Examination.Draft> told = new LinkedHashMap<>();
        for (Scenario scenario : examination.reading().signalWays()) {
            for (Reading.Group input : examination.reading().inputs()) {
                for (Node end : input.negative()) {
                    Double bears = end.facts() instanceof Electrical.LineIn in ? in.commonModeVolts() : null;
                    if (bears != null && !scenario.isGrounded(end)) {
                        for (Node output : scenario.members(scenario.netOf(end))) {
                            checkBias(output, end, bears, scenario, told, examination);
                        }
                    }
                }
            }
        }
    }

    private static void checkBias(
            Node output,
            Node end,
            double bearsVolts,
            Scenario scenario,
            Map<Set<Node>, Examination.Draft> told,
            Examination examination) {
        Double bias = null;
        if (output.facts() instanceof Electrical.SpeakerOut out && out.drive() == Drive.FLOATING) {
            examination.applies();
            bias = out.biasVolts();
            if (bias == null) {
                examination.missing(output, "biasVolts");
            }
        } else if (output.facts() instanceof Electrical.LineOut out && out.returns() != OutputReturn.CHASSIS) {
            bias = out.biasVolts();
        }
        if (bias != null && bias > bearsVolts * (1 + 1e-9)) {
            double biasVolts = bias;
            told.computeIfAbsent(
                            Set.of(output, end),
                            key -> examination
                                    .report(
                                            Say.name(output) + " lifts " + Say.name(end) + " to " + Say.volts(biasVolts)
                                                    + " against ground, above the " + Say.volts(bearsVolts)
                                                    + " that this input bears there",
                                            "put a converter or an isolator between, which keeps the bias out.")
                                    .at(output, end)
                                    .through(examination.reading().connectionsAt(List.of(end)))
                                    .figures(biasVolts, bearsVolts, "V"))
                    .in(examination.reading().signalStates(scenario));
        }
    }

    /** Coils get their share of what arrives: half each where two are in series. */
    private static void checkLoad(
            OutputLoad load, Scenario scenario, Map<Set<Node>, Excess> found, Examination examination) {
        for (Signals.Arrival arrival : examination.reading().signals(scenario).arrivals(load.plus())) {
            for (OutputLoad.Share share : load.shares()) {
                Node end = share.coil().plus();
                // what states watts is judged by speaker-overpowered
                boolean byWatts = end.facts() instanceof Electrical.SpeakerIn in && in.maxWatts() != null;
                Double takes = share.coil().within() || byWatts ? null : takes(end, examination);
                Double volts = arrival.volts();
                if (!share.coil().within()) {
                    examination.applies();
                }
                if (takes != null) {
                    Signals.Arrival part = new Signals.Arrival(
                            arrival.origin(),
                            arrival.gain(),
                            volts == null ? null : Double.valueOf(volts * Math.abs(share.volts())),
                            arrival.entry());
                    judge(part, end, takes, List.of(end), scenario, found, examination);
                }
            }
        }
    }

    private static void checkInputs(
            List<Node> ends, Scenario scenario, Map<Set<Node>, Excess> found, Examination examination) {
        OutputLoads loads = examination.reading().loads(scenario);
        for (Node end : ends) {
            // what hangs between two outputs gets the volts of neither, and is told as that
            if (loads.findShare(end) != null || loads.isCrossed(end)) {
                continue;
            }
            for (Signals.Arrival arrival :
                    examination.reading().signals(scenario).arrivals(end)) {
                checkInput(arrival, end, scenario, found, examination);
            }
        }
    }

    private static void checkInput(
            Signals.Arrival arrival,
            Node end,
            Scenario scenario,
            Map<Set<Node>, Excess> found,
            Examination examination) {
        examination.applies();
        Double takes = takes(end, examination);
        boolean straight = !arrival.isCoupled() && arrival.origin().facts() instanceof Electrical.SpeakerOut;
        if (straight && end.facts() instanceof Electrical.LineIn && (takes == null || arrival.volts() == null)) {
            add(
                    new Excess(arrival.origin(), null, end, null, states(scenario, examination)),
                    List.of(end),
                    found,
                    examination);
            return;
        }
        boolean loudspeaker = end.facts() instanceof Electrical.SpeakerIn in && in.ohms() != null;
        if (takes == null && loudspeaker) {
            return;
        }
        judge(arrival, end, takes, List.of(end), scenario, found, examination);
    }

    private static void judge(
            Signals.Arrival arrival,
            Node end,
            @Nullable Double takes,
            List<Node> input,
            Scenario scenario,
            Map<Set<Node>, Excess> found,
            Examination examination) {
        if (takes == null) {
            examination.missing(end, "maxVolts");
            return;
        }
        examination.applies();
        Double volts = arrival.volts();
        if (volts == null) {
            examination.missing(arrival.origin(), "maxVolts");
            return;
        }
        if (volts > takes * (1 + 1e-9)) {
            add(
                    new Excess(arrival.origin(), volts, end, takes, states(scenario, examination)),
                    input,
                    found,
                    examination);
        }
    }

    private static Set<State> states(Scenario scenario, Examination examination) {
        return new LinkedHashSet<>(examination.reading().signalStates(scenario));
    }

    private static void add(Excess excess, List<Node> input, Map<Set<Node>, Excess> found, Examination examination) {
        Set<Node> key = new LinkedHashSet<>(input);
        key.addAll(examination.reading().pairOf(excess.origin()));
        found.merge(key, excess, Excess::with);
    }

    private static void report(Excess excess, Examination examination) {
        Node origin = excess.origin();
        Node end = excess.end();
        Double volts = excess.volts();
        Double takes = excess.takes();
        Examination.Draft draft = volts == null || takes == null
                ? examination.report(
                        Say.name(origin) + " is a speaker output and goes straight into the line input "
                                + Say.name(end),
                        "put a line-output converter between, or use a speaker-level input.")
                : examination
                        .report(
                                Say.name(origin) + " arrives at " + Say.name(end) + " with up to "
                                        + Say.apart(volts, takes, Say::volts) + " rms, above the " + Say.volts(takes)
                                        + " that it takes",
                                "put a converter or divider between that brings it to " + Say.volts(takes)
                                        + " or less.")
                        .figures(volts, takes, "V");
        draft.at(origin, end)
                .through(examination.reading().connectionsAt(List.of(end)))
                .in(excess.states());
    }

    /** The least of what the terminal and the couplings behind it take; null if none says. */
    private static @Nullable Double takes(Node end, Examination examination) {
        Double takes = null;
        if (end.facts() instanceof Electrical.LineIn in) {
            takes = in.maxVolts();
        } else if (end.facts() instanceof Electrical.SpeakerIn in) {
            takes = in.maxVolts();
        }
        for (Coupling coupling : examination.network().couplings()) {
            Double behind = coupling.maxVolts();
            if (behind != null && coupling.from().contains(end)) {
                takes = takes == null ? behind : Double.valueOf(Math.min(takes, behind));
            }
        }
        return takes;
    }
}
