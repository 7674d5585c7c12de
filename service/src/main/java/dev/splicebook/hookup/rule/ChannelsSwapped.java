package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Channel;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.net.Coupling;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.OutputLoad;
import dev.splicebook.hookup.net.Scenario;
import dev.splicebook.hookup.net.Signals;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** A channel arrives at another channel's loudspeaker or input. */
@AutoService(Rule.class)
@About(
        code = "channels-swapped",
        severity = Severity.WARNING,
        since = "0.1",
        condition = "A channel arrives at another channel's loudspeaker or input.",
        checks =
                "What arrives where a signal ends, through couplings and adapters: left must not arrive at right, nor front at"
                        + " rear. A swap that a second swap undoes is no fault, nor is a sum in which the"
                        + " right channel is. Two loudspeakers that changed places are one swap. Left and right say nothing of front and rear, and"
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

    /** A channel that arrives at another, in the states in which it does; empty for all. */
    private record Crossing(Reading.Group input, Node origin, Channel from, Channel to, Set<State> states) {

        /** Whether one takes the other's place, or comes from the same place. */
        boolean isOneSwapWith(Crossing other) {
            return from == other.from || to == other.to || to.agreesWith(other.from) || other.to.agreesWith(from);
        }

        /** Whether each belongs where the other arrives. */
        boolean isExchangedWith(Crossing other) {
            return to.agreesWith(other.from) && from.agreesWith(other.to);
        }
    }

    @Override
    public void check(Examination examination) {
        Map<List<Object>, Crossing> crossings = new LinkedHashMap<>();
        for (Scenario scenario : examination.reading().signalWays()) {
            Signals signals = examination.reading().signals(scenario);
            examination.reading().tellUnknownEnds(signals, examination);
            for (Reading.Group input : examination.reading().inputs()) {
                for (Node end : input.positive()) {
                    if (examination.reading().isPassedOn(end)) {
                        continue;
                    }
                    // a coil in a string is not on the net of what drives it
                    OutputLoad load = examination.reading().loads(scenario).findLoad(end);
                    List<Signals.Arrival> arrivals = signals.arrivals(load == null ? end : load.plus());
                    for (Signals.Arrival arrival : arrivals) {
                        boolean own = arrivals.stream()
                                .anyMatch(other -> isOneSum(arrival, other) && mayBeAt(input, other.origin()));
                        read(input, end, arrival.origin(), own, scenario, crossings, examination);
                    }
                }
            }
        }
        Map<List<String>, List<Crossing>> byParts = new LinkedHashMap<>();
        for (Crossing crossing : crossings.values()) {
            String origin = crossing.origin().owner();
            String input = crossing.input().owner();
            // loudspeakers that are parts of their own may have changed places with each other
            boolean exchanged = isAlone(crossing.input(), examination)
                    && crossings.values().stream()
                            .anyMatch(other -> crossing.isExchangedWith(other)
                                    && isAlone(other.input(), examination)
                                    && other.origin().owner().equals(origin));
            byParts.computeIfAbsent(exchanged ? List.of(origin) : List.of(origin, input), key -> new ArrayList<>())
                    .add(crossing);
        }
        for (List<Crossing> between : byParts.values()) {
            while (!between.isEmpty()) {
                report(takeSwap(between), examination);
            }
        }
    }

    /** Whether a part takes no other channel. */
    private static boolean isAlone(Reading.Group input, Examination examination) {
        return examination.reading().inputs().stream()
                        .filter(each -> each.owner().equals(input.owner()))
                        .count()
                == 1;
    }

    /** Whether one output of a part gives both: a sum of channels is no swap where the right one is in it. */
    private static boolean isOneSum(Signals.Arrival arrival, Signals.Arrival other) {
        return arrival.entry() instanceof Coupling one
                && other.entry() instanceof Coupling two
                && one.to().get(0) == two.to().get(0);
    }

    private static boolean mayBeAt(Reading.Group input, Node origin) {
        Channel from = channelOf(origin);
        return from == null || input.channel() == null || from.agreesWith(input.channel());
    }

    private static @Nullable Channel channelOf(Node origin) {
        return origin.audio() == null ? null : origin.audio().channel();
    }

    private static void read(
            Reading.Group input,
            Node end,
            Node origin,
            boolean own,
            Scenario scenario,
            Map<List<Object>, Crossing> crossings,
            Examination examination) {
        examination.applies();
        Channel from = channelOf(origin);
        Channel to = input.channel();
        if (from == null) {
            examination.missing(origin, "channel");
        } else if (to == null) {
            examination.missing(end, "channel");
        } else if (!own && !from.agreesWith(to)) {
            crossings
                    .computeIfAbsent(
                            List.of(input.owner(), input.speaker(), to, origin.owner(), from),
                            key -> new Crossing(input, origin, from, to, EnumSet.noneOf(State.class)))
                    .states()
                    .addAll(examination.reading().signalStates(scenario));
        }
    }

    private static List<Crossing> takeSwap(List<Crossing> between) {
        List<Crossing> swap = new ArrayList<>(List.of(between.remove(0)));
        boolean grown = true;
        while (grown) {
            grown = false;
            for (Crossing crossing : List.copyOf(between)) {
                if (swap.stream().anyMatch(crossing::isOneSwapWith)) {
                    swap.add(crossing);
                    between.remove(crossing);
                    grown = true;
                }
            }
        }
        return swap;
    }

    private static void report(List<Crossing> swap, Examination examination) {
        List<String> told = new ArrayList<>();
        Set<Node> nodes = new LinkedHashSet<>();
        Set<Node> inputs = new LinkedHashSet<>();
        Set<State> states = EnumSet.noneOf(State.class);
        for (Crossing crossing : swap) {
            told.add(crossing.from() + " of " + crossing.origin().owner() + " arrives at " + crossing.to() + " of "
                    + crossing.input().owner());
            inputs.addAll(crossing.input().nodes());
            states.addAll(crossing.states());
            nodes.addAll(crossing.input().nodes());
            nodes.add(crossing.origin());
            nodes.addAll(examination.reading().counterparts(crossing.origin()));
        }
        told.sort(null);
        examination
                .report(
                        Say.list(told),
                        swap.stream().anyMatch(one -> swap.stream().anyMatch(one::isExchangedWith))
                                ? "swap the pairs."
                                : "connect the pair of the same channel instead.")
                .at(nodes)
                .through(examination.reading().connectionsAt(inputs))
                .in(states);
    }
}
