package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.OutputLoad;
import dev.splicebook.hookup.net.Scenario;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** A voice coil can get more watts than it takes. */
@AutoService(Rule.class)
@About(
        code = "speaker-overpowered",
        severity = Severity.WARNING,
        since = "0.1",
        condition = "A voice coil can get more watts than it takes.",
        checks =
                "For each voice coil the watts that it gets while its output gives the most volts that it can, solved with"
                        + " the coils, resistors and wires beside it. A coil that states volts and no watts is judged by"
                        + " level-too-high.",
        why = "Turned up, the coil burns. It lasts while nobody turns it up, and the customer will.",
        mend = "Set the gain so that the output stays below, wire the coils in series, or take a stronger loudspeaker.",
        source = "P = V²/R; the limit is the maker's.",
        fails = """
                {"parts": {
                   "AMP": {"inline": {"terminals": {
                     "plus": {"electrical": {"kind": "speaker-out", "channel": "front-left", "side": "plus", "drive": "floating", "maxVolts": 20, "minOhms": 4}},
                     "minus": {"electrical": {"kind": "speaker-out", "channel": "front-left", "side": "minus", "drive": "floating", "maxVolts": 20, "minOhms": 4}}}}},
                   "DOOR": {"inline": {"terminals": {
                     "plus": {"electrical": {"kind": "speaker-in", "channel": "front-left", "side": "plus", "ohms": 4, "maxWatts": 60}},
                     "minus": {"electrical": {"kind": "speaker-in", "channel": "front-left", "side": "minus", "ohms": 4, "maxWatts": 60}}}}}},
                 "connections": {"W1": {"ends": ["AMP.plus", "DOOR.plus"]}, "W2": {"ends": ["AMP.minus", "DOOR.minus"]}}}
                """,
        passes = """
                {"parts": {
                   "AMP": {"inline": {"terminals": {
                     "plus": {"electrical": {"kind": "speaker-out", "channel": "front-left", "side": "plus", "drive": "floating", "maxVolts": 15, "minOhms": 4}},
                     "minus": {"electrical": {"kind": "speaker-out", "channel": "front-left", "side": "minus", "drive": "floating", "maxVolts": 15, "minOhms": 4}}}}},
                   "DOOR": {"inline": {"terminals": {
                     "plus": {"electrical": {"kind": "speaker-in", "channel": "front-left", "side": "plus", "ohms": 4, "maxWatts": 60}},
                     "minus": {"electrical": {"kind": "speaker-in", "channel": "front-left", "side": "minus", "ohms": 4, "maxWatts": 60}}}}}},
                 "connections": {"W1": {"ends": ["AMP.plus", "DOOR.plus"]}, "W2": {"ends": ["AMP.minus", "DOOR.minus"]}}}
                """)
public final class SpeakerOverpowered implements Rule {

    /** The coils of one loudspeaker that get too much from one output. */
    private static final class Excess {
        private double watts;
        private double takesWatts;
        private double outputVolts;
        private final Set<OutputLoad.VoiceCoil> coils = new LinkedHashSet<>();
        private final Set<State> states = EnumSet.noneOf(State.class);

        void add(OutputLoad.Share share, double volts, double maxWatts, Iterable<State> in) {
            if (share.watts(volts) / maxWatts > (takesWatts == 0 ? 0 : watts / takesWatts)) {
                watts = share.watts(volts);
                takesWatts = maxWatts;
                outputVolts = volts;
            }
            coils.add(share.coil());
            in.forEach(states::add);
        }
    }

    @Override
    public void check(Examination examination) {
        Map<Node, Map<String, Excess>> found = new LinkedHashMap<>();
        for (Scenario scenario : examination.reading().signalWays()) {
            examination.reading().loads(scenario).unpaired().forEach(end -> examination.missing(end, "coil"));
            for (OutputLoad load : examination.reading().loads(scenario).all()) {
                for (OutputLoad.Share share : load.shares()) {
                    Electrical.SpeakerIn in =
                            share.coil().plus().facts() instanceof Electrical.SpeakerIn facts ? facts : null;
                    if (in != null && share.isDriven() && (in.maxWatts() != null || in.maxVolts() == null)) {
                        examination.applies();
                        Double volts = load.stated(Electrical.SpeakerOut::maxVolts);
                        if (in.maxWatts() == null) {
                            examination.missing(share.coil().plus(), "maxWatts");
                        } else if (volts == null) {
                            examination.missing(load.plus(), "maxVolts");
                        } else if (share.watts(volts) > in.maxWatts() * (1 + 1e-9)) {
                            found.computeIfAbsent(load.plus(), key -> new LinkedHashMap<>())
                                    .computeIfAbsent(share.coil().plus().owner(), key -> new Excess())
                                    .add(
                                            share,
                                            volts,
                                            in.maxWatts(),
                                            examination.reading().signalStates(scenario));
                        }
                    }
                }
            }
        }
        found.forEach((output, speakers) -> speakers.values().forEach(excess -> report(output, excess, examination)));
    }

    private static void report(Node output, Excess excess, Examination examination) {
        List<Node> ends =
                excess.coils.stream().flatMap(coil -> coil.ends().stream()).toList();
        boolean one = excess.coils.size() == 1;
        examination
                .report(
                        Say.coils(excess.coils) + (one ? " gets up to " : " get up to ")
                                + Say.apart(excess.watts, excess.takesWatts, Say::watts)
                                + (one ? "" : " each") + " from " + Say.name(output) + " at "
                                + Say.volts(excess.outputVolts) + " rms, above the " + Say.watts(excess.takesWatts)
                                + (one ? " that it takes" : " that one takes"),
                        "set the gain so that the output stays below, or take a stronger loudspeaker.")
                .at(ends)
                .at(output)
                .through(examination.reading().connectionsAt(ends))
                .in(excess.states)
                .figures(excess.watts, excess.takesWatts, "W");
    }
}
