package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.electrics.LevelMatch;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.Side;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.net.Coupling;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Scenario;
import dev.splicebook.hookup.net.Signals;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** A signal arrives with fewer volts than the input needs. */
@AutoService(Rule.class)
@About(
        code = "level-too-low",
        severity = Severity.WARNING,
        since = "0.1",
        condition = "A signal arrives with fewer volts than the input needs.",
        checks =
                "The rms volts at full output, with the gain of every coupling and divider between and the loss in the source's"
                        + " own impedance by all inputs that hang on it, against what each line input needs for full output. Of several sources at one input"
                        + " the strongest counts.",
        why = "Turned all the way up it is still not loud, and what is turned up with it is hiss and alternator whine.",
        mend = "Take a stronger output, a converter that gives more, or an input that needs less.",
        source = "Ohm's law; the limit is the maker's.",
        fails = """
                {"vehicle": {"inline": {"circuits": {
                   "A2-1": {"electrical": {"kind": "speaker-out", "channel": "front-left", "side": "plus", "drive": "floating", "maxVolts": 9}},
                   "A2-2": {"electrical": {"kind": "speaker-out", "channel": "front-left", "side": "minus", "drive": "floating", "maxVolts": 9}}}}},
                 "parts": {
                   "LOC": {"inline": {"couples": [{"from": ["in-plus", "in-minus"], "to": ["out", "out-return"], "gain": 0.01, "maxVolts": 30}]}},
                   "AMP": {"inline": {"terminals": {
                     "in-left": {"electrical": {"kind": "line-in", "channel": "left", "side": "signal", "minVolts": 0.2, "maxVolts": 5, "return": "differential"}},
                     "in-left-return": {"electrical": {"kind": "line-in", "channel": "left", "side": "return", "minVolts": 0.2, "maxVolts": 5, "return": "differential"}}}}}},
                 "connections": {"W1": {"ends": ["CAR.A2-1", "LOC.in-plus"]}, "W2": {"ends": ["CAR.A2-2", "LOC.in-minus"]},
                                 "W3": {"ends": ["LOC.out", "AMP.in-left"]}, "W4": {"ends": ["LOC.out-return", "AMP.in-left-return"]}}}
                """,
        passes = """
                {"vehicle": {"inline": {"circuits": {
                   "A2-1": {"electrical": {"kind": "speaker-out", "channel": "front-left", "side": "plus", "drive": "floating", "maxVolts": 9}},
                   "A2-2": {"electrical": {"kind": "speaker-out", "channel": "front-left", "side": "minus", "drive": "floating", "maxVolts": 9}}}}},
                 "parts": {
                   "LOC": {"inline": {"couples": [{"from": ["in-plus", "in-minus"], "to": ["out", "out-return"], "gain": 0.2, "maxVolts": 30}]}},
                   "AMP": {"inline": {"terminals": {
                     "in-left": {"electrical": {"kind": "line-in", "channel": "left", "side": "signal", "minVolts": 0.2, "maxVolts": 5, "return": "differential"}},
                     "in-left-return": {"electrical": {"kind": "line-in", "channel": "left", "side": "return", "minVolts": 0.2, "maxVolts": 5, "return": "differential"}}}}}},
                 "connections": {"W1": {"ends": ["CAR.A2-1", "LOC.in-plus"]}, "W2": {"ends": ["CAR.A2-2", "LOC.in-minus"]},
                                 "W3": {"ends": ["LOC.out", "AMP.in-left"]}, "W4": {"ends": ["LOC.out-return", "AMP.in-left-return"]}}}
                """,
        rank = Rank.LEVEL)
public final class LevelTooLow implements Rule {

    /** The strongest signal at one input where it is weakest, in the states in which it is too weak. */
    private record Want(Node end, Node origin, double volts, double needsVolts, Set<State> states) {}

    @Override
    public void check(Examination examination) {
        Map<Set<Node>, Want> found = new LinkedHashMap<>();
        for (Scenario scenario : examination.reading().signalWays()) {
            for (Reading.Group input : examination.reading().inputs()) {
                for (Node end : input.positive()) {
                    check(end, scenario, found, examination);
                }
            }
            examination.reading().sidelessInputs().forEach(end -> check(end, scenario, found, examination));
        }
        found.values().forEach(want -> report(want, examination));
    }

    private static void check(Node end, Scenario scenario, Map<Set<Node>, Want> found, Examination examination) {
        if (!(end.facts() instanceof Electrical.LineIn in)) {
            return;
        }
        Node strongest = null;
        double mostVolts = 0;
        for (Signals.Arrival arrival : examination.reading().signals(scenario).arrivals(end)) {
            examination.applies();
            Double volts = arrival.volts();
            if (volts == null) {
                examination.missing(arrival.origin(), "maxVolts");
                return;
            }
            double delivered = delivered(arrival, volts, end, scenario, examination);
            if (strongest == null || delivered > mostVolts) {
                strongest = arrival.origin();
                mostVolts = delivered;
            }
        }
        if (strongest == null) {
            return;
        }
        Double needs = in.minVolts();
        if (needs == null) {
            examination.missing(end, "minVolts");
        } else if (mostVolts < needs * (1 - 1e-9)) {
            Set<Node> key = new LinkedHashSet<>(examination.reading().pairOf(strongest));
            key.add(end);
            Want before = found.get(key);
            Set<State> states = EnumSet.noneOf(State.class);
            states.addAll(examination.reading().signalStates(scenario));
            states.addAll(before == null ? Set.of() : before.states());
            found.put(
                    key,
                    before == null || mostVolts < before.volts()
                            ? new Want(end, strongest, mostVolts, needs, states)
                            : new Want(end, before.origin(), before.volts(), needs, states));
        }
    }

    /** What is left of the volts behind the source's own impedance, and before a coupling behind that of what drives it. */
    private static double delivered(
            Signals.Arrival arrival, double volts, Node end, Scenario scenario, Examination examination) {
        Node driver = arrival.origin();
        double share = 1;
        if (arrival.entry() instanceof Coupling coupling) {
            for (Node input : coupling.from()) {
                if (scenario.netOf(input) == scenario.netOf(driver)) {
                    share = share(driver, input, scenario, examination);
                }
            }
            driver = coupling.to().stream()
                    .filter(node -> scenario.netOf(node) == scenario.netOf(end))
                    .findFirst()
                    .orElse(driver);
        }
        return volts * share * share(driver, end, scenario, examination);
    }

    /** The share of its volts that an output leaves to all inputs that hang on it where one of them does. */
    private static double share(Node driver, Node input, Scenario scenario, Examination examination) {
        Double outputOhms = driver.facts() instanceof Electrical.LineOut out ? out.outputOhms() : null;
        double siemens = 0;
        int net = scenario.netOf(input);
        for (Node node : scenario.members(net)) {
            if (node.facts() instanceof Electrical.LineIn in && in.inputOhms() != null && in.side() != Side.RETURN) {
                siemens += 1 / in.inputOhms();
            }
        }
        for (Coupling coupling : examination.network().couplings()) {
            boolean here = scenario.netOf(coupling.from().get(0)) == net
                    && !(coupling.from().get(0).facts() instanceof Electrical.LineIn);
            if (here && coupling.inputOhms() != null) {
                siemens += 1 / coupling.inputOhms();
            }
        }
        return outputOhms == null || siemens == 0 ? 1 : LevelMatch.deliveredVolts(1, outputOhms, 1 / siemens);
    }

    private static void report(Want want, Examination examination) {
        examination
                .report(
                        Say.name(want.origin()) + " arrives at " + Say.name(want.end()) + " with "
                                + Say.apart(want.volts(), want.needsVolts(), Say::level)
                                + " rms at most, below the " + Say.level(want.needsVolts())
                                + " that it needs for full output",
                        "take a stronger output, or a converter that gives " + Say.level(want.needsVolts())
                                + " or more.")
                .at(want.origin(), want.end())
                .through(examination.reading().connectionsAt(List.of(want.end())))
                .in(want.states())
                .figures(want.volts(), want.needsVolts(), "V");
    }
}
