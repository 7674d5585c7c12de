package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Channel;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Scenario;
import dev.splicebook.hookup.net.Signals;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** A channel arrives at another channel's loudspeaker or input. */
@AutoService(Rule.class)
@About(
        code = "channels-swapped",
        severity = Severity.WARNING,
        since = "0.1",
        condition = "A channel arrives at another channel's loudspeaker or input.",
        checks =
                "What arrives where a signal ends, through couplings and adapters: left must not arrive at right, nor front at"
                        + " rear. A swap that a second swap undoes is no fault. Left and right say nothing of front and rear, and"
                        + " centre and subwoofer agree with all.",
        why = "The balance and fader work the wrong way round, and spoken directions come from the wrong side.",
        mend = "Swap the two pairs, both conductors of each.",
        source = "Common practice, no source.",
        fails = """
                {"vehicle": {"inline": {"circuits": {
                   "C1-11": {"whenUnplugged": {"kind": "speaker-in", "channel": "front-left", "side": "plus", "ohms": 4}},
                   "C1-12": {"whenUnplugged": {"kind": "speaker-in", "channel": "front-left", "side": "minus", "ohms": 4}}}},
                   "unplugged": ["C1"]},
                 "parts": {"HU": {"inline": {"terminals": {
                   "fr-plus": {"electrical": {"kind": "speaker-out", "channel": "front-right", "side": "plus", "drive": "floating"}},
                   "fr-minus": {"electrical": {"kind": "speaker-out", "channel": "front-right", "side": "minus", "drive": "floating"}}}}}},
                 "connections": {"W1": {"ends": ["CAR.C1-11", "HU.fr-plus"]}, "W2": {"ends": ["CAR.C1-12", "HU.fr-minus"]}}}
                """,
        passes = """
                {"vehicle": {"inline": {"circuits": {
                   "C1-11": {"whenUnplugged": {"kind": "speaker-in", "channel": "front-left", "side": "plus", "ohms": 4}},
                   "C1-12": {"whenUnplugged": {"kind": "speaker-in", "channel": "front-left", "side": "minus", "ohms": 4}}}},
                   "unplugged": ["C1"]},
                 "parts": {"HU": {"inline": {"terminals": {
                   "fl-plus": {"electrical": {"kind": "speaker-out", "channel": "front-left", "side": "plus", "drive": "floating"}},
                   "fl-minus": {"electrical": {"kind": "speaker-out", "channel": "front-left", "side": "minus", "drive": "floating"}}}}}},
                 "connections": {"W1": {"ends": ["CAR.C1-11", "HU.fl-plus"]}, "W2": {"ends": ["CAR.C1-12", "HU.fl-minus"]}}}
                """,
        rank = Rank.CHANNELS)
public final class ChannelsSwapped implements Rule {

    private record Crossing(Reading.Group input, Node origin, Channel from, Channel to) {}

    @Override
    public void check(Examination examination) {
        Map<List<String>, List<Crossing>> crossings = new LinkedHashMap<>();
        Set<List<Object>> seen = new HashSet<>();
        for (Scenario scenario : examination.reading().partitions()) {
            Signals signals = examination.reading().signals(scenario);
            for (Reading.Group input : examination.reading().inputs()) {
                for (Node end : input.positive()) {
                    if (examination.reading().isPassedOn(end)) {
                        continue;
                    }
                    for (Signals.Arrival arrival : signals.arrivals(end)) {
                        read(input, end, arrival.origin(), crossings, seen, examination);
                    }
                }
            }
        }
        for (List<Crossing> between : crossings.values()) {
            while (!between.isEmpty()) {
                report(takeCycle(between), examination);
            }
        }
    }

    private static void read(
            Reading.Group input,
            Node end,
            Node origin,
            Map<List<String>, List<Crossing>> crossings,
            Set<List<Object>> seen,
            Examination examination) {
        examination.applies();
        Channel from = origin.audio() == null ? null : origin.audio().channel();
        Channel to = input.channel();
        if (from == null) {
            examination.missing(origin, "channel");
        } else if (to == null) {
            examination.missing(end, "channel");
        } else if (!from.agreesWith(to) && seen.add(List.of(input.owner(), to, origin.owner(), from))) {
            crossings
                    .computeIfAbsent(List.of(input.owner(), origin.owner()), key -> new ArrayList<>())
                    .add(new Crossing(input, origin, from, to));
        }
    }

    /** Crossings that share a channel are one swap. */
    private static List<Crossing> takeCycle(List<Crossing> between) {
        List<Crossing> cycle = new ArrayList<>(List.of(between.remove(0)));
        Set<Channel> channels = EnumSet.of(cycle.get(0).from(), cycle.get(0).to());
        boolean grown = true;
        while (grown) {
            grown = false;
            for (Crossing crossing : List.copyOf(between)) {
                if (channels.contains(crossing.from()) || channels.contains(crossing.to())) {
                    channels.add(crossing.from());
                    channels.add(crossing.to());
                    cycle.add(crossing);
                    between.remove(crossing);
                    grown = true;
                }
            }
        }
        return cycle;
    }

    private static void report(List<Crossing> cycle, Examination examination) {
        List<String> told = new ArrayList<>();
        Set<Node> nodes = new LinkedHashSet<>();
        Set<Node> inputs = new LinkedHashSet<>();
        for (Crossing crossing : cycle) {
            told.add(crossing.from() + " of " + crossing.origin().owner() + " arrives at " + crossing.to() + " of "
                    + crossing.input().owner());
            inputs.addAll(crossing.input().nodes());
            nodes.addAll(crossing.input().nodes());
            nodes.add(crossing.origin());
            nodes.addAll(examination.reading().counterparts(crossing.origin()));
        }
        told.sort(null);
        examination
                .report(
                        Say.list(told),
                        cycle.size() > 1 ? "swap the pairs." : "connect the pair of the same channel instead.")
                .at(nodes)
                .through(examination.reading().connectionsAt(inputs));
    }
}
