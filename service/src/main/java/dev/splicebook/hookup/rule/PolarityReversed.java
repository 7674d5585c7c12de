package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.net.Coupling;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.OutputLoad;
import dev.splicebook.hookup.net.OutputLoads;
import dev.splicebook.hookup.net.Scenario;
import dev.splicebook.hookup.net.Signals;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** The polarity is turned round where a signal ends. */
@AutoService(Rule.class)
@About(
        code = "polarity-reversed",
        severity = Severity.ERROR,
        since = "0.1",
        condition = "The polarity is turned round where a signal ends.",
        checks =
                "What arrives at each loudspeaker, and at each input that passes nothing on: plus or signal must arrive at plus"
                        + " or signal, through couplings, converters and adapters. What a voice coil gets is solved, in series"
                        + " and in parallel with others. A reversal that a second one undoes is no fault.",
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

    /**
     * Where the polarity turns round: what gets it, and what it gets it from.
     *
     * @param against what a coil works against that is turned by itself, as words; null where a pair is turned
     */
    private record Place(
            Set<Node> ends, Set<Node> drivers, @Nullable String against) {
        Place(Set<Node> ends, Set<Node> drivers) {
            this(ends, drivers, null);
        }
    }

    @Override
    public void check(Examination examination) {
        Map<Place, Set<Node>> turned = new LinkedHashMap<>();
        Map<Place, Set<State>> states = new HashMap<>();
        for (Scenario scenario : examination.reading().signalWays()) {
            Signals signals = examination.reading().signals(scenario);
            Map<Place, Set<Node>> now = new LinkedHashMap<>();
            OutputLoads loads = examination.reading().loads(scenario);
            for (Reading.Group input : examination.reading().inputs()) {
                check(input, signals, loads, now, examination);
            }
            for (OutputLoad load : loads.all()) {
                check(load, scenario, signals, now, examination);
            }
            loads.unpaired().forEach(end -> examination.missing(end, "coil"));
            now.forEach((place, ends) -> {
                turned.computeIfAbsent(place, key -> new LinkedHashSet<>()).addAll(ends);
                states.computeIfAbsent(place, key -> EnumSet.noneOf(State.class))
                        .addAll(examination.reading().signalStates(scenario));
            });
            examination.reading().tellUnknownEnds(signals, examination);
            for (Node end : examination.reading().sidelessInputs()) {
                if (!signals.arrivals(end).isEmpty() && !examination.reading().isPassedOn(end)) {
                    examination.missing(end, "side");
                }
            }
        }
        turned.forEach((place, ends) -> report(place, ends, examination).in(states.getOrDefault(place, Set.of())));
    }

    /** A load by what its coils get: how a coil moves is told by its volts, wherever in the load it stands. */
    private static void check(
            OutputLoad load,
            Scenario scenario,
            Signals signals,
            Map<Place, Set<Node>> turned,
            Examination examination) {
        Map<String, Set<OutputLoad.Share>> here = new LinkedHashMap<>();
        for (OutputLoad.Share share : load.shares()) {
            if (share.coil().within() || !share.isDriven()) {
                continue;
            }
            for (Signals.Arrival arrival : signals.arrivals(load.plus())) {
                examination.applies();
                Boolean positive = arrival.isPositive();
                if (positive == null) {
                    examination.missing(arrival.origin(), "side");
                    continue;
                }
                if (positive != share.isTurned()) {
                    continue;
                }
                Place before = arrival.entry() instanceof Coupling coupling
                        ? placeBefore(coupling, arrival.origin(), signals, new HashSet<>())
                        : null;
                if (before != null) {
                    turned.computeIfAbsent(before, key -> new LinkedHashSet<>())
                            .addAll(share.coil().ends());
                    continue;
                }
                here.computeIfAbsent(share.coil().plus().owner(), key -> new LinkedHashSet<>())
                        .add(share);
            }
        }
        here.forEach((owner, shares) ->
                places(load, owner, shares, scenario).forEach(place -> turned.putIfAbsent(place, place.ends())));
    }

    /** One pair to swap where all that a loudspeaker has is turned at the output; else each coil by itself. */
    private static List<Place> places(OutputLoad load, String owner, Set<OutputLoad.Share> shares, Scenario scenario) {
        Node minus = load.minus();
        Set<Node> drivers = new LinkedHashSet<>(load.sides());
        Set<Node> crossed = new LinkedHashSet<>();
        boolean isMinusAtPlus = false;
        boolean isPlusAtMinus = false;
        for (OutputLoad.Share share : shares) {
            if (scenario.netOf(share.coil().minus()) == scenario.netOf(load.plus())) {
                isMinusAtPlus = true;
                crossed.add(share.coil().minus());
            }
            if (minus == null
                    ? scenario.isGrounded(share.coil().plus())
                    : scenario.netOf(share.coil().plus()) == scenario.netOf(minus)) {
                isPlusAtMinus = true;
                crossed.add(share.coil().plus());
            }
        }
        List<OutputLoad.Share> others = load.shares().stream()
                .filter(other -> other.isDriven()
                        && !shares.contains(other)
                        && other.coil().plus().owner().equals(owner))
                .toList();
        if (others.isEmpty() && isMinusAtPlus && isPlusAtMinus) {
            return List.of(new Place(crossed, drivers));
        }
        String against = others.isEmpty()
                ? "the others on " + Say.names(drivers)
                : others.size() == 1
                        ? "the one at " + Say.names(others.get(0).coil().ends())
                        : "the other coils of " + owner;
        return shares.stream()
                .map(share -> new Place(new LinkedHashSet<>(share.coil().ends()), drivers, against))
                .toList();
    }

    private static void check(
            Reading.Group input,
            Signals signals,
            OutputLoads loads,
            Map<Place, Set<Node>> turned,
            Examination examination) {
        Map<Object, Place> here = new LinkedHashMap<>();
        for (Node end : input.nodes()) {
            if (examination.reading().isPassedOn(end)) {
                return;
            }
            if (loads.findShare(end) != null || loads.unpaired().contains(end)) {
                continue;
            }
            boolean wantsPositive = input.positive().contains(end);
            for (Signals.Arrival arrival : signals.arrivals(end)) {
                examination.applies();
                Boolean positive = arrival.isPositive();
                if (positive == null) {
                    examination.missing(arrival.origin(), "side");
                    continue;
                }
                if (positive == wantsPositive) {
                    continue;
                }
                Place before = arrival.entry() instanceof Coupling coupling
                        ? placeBefore(coupling, arrival.origin(), signals, new HashSet<>())
                        : null;
                if (before != null) {
                    turned.computeIfAbsent(before, key -> new LinkedHashSet<>()).add(end);
                    continue;
                }
                // both sides of a pair are one place, so they are gathered under what drives them
                List<Node> drivers = arrival.entry() instanceof Coupling coupling
                        ? coupling.to()
                        : examination.reading().pairOf(arrival.origin());
                Place place = here.computeIfAbsent(
                        Set.copyOf(drivers), key -> new Place(new LinkedHashSet<>(), new LinkedHashSet<>()));
                place.ends().add(end);
                place.drivers().addAll(arrival.isCoupled() ? drivers : List.of(arrival.origin()));
            }
        }
        here.values().forEach(place -> turned.putIfAbsent(place, place.ends()));
    }

    /** Where a signal that leaves a coupling turned round was turned: inside it or before it; null if it was not. */
    private static @Nullable Place placeBefore(Coupling coupling, Node origin, Signals signals, Set<Coupling> under) {
        if (!under.add(coupling)) {
            return null;
        }
        Set<Node> ends = new LinkedHashSet<>();
        Set<Node> drivers = new LinkedHashSet<>();
        for (int end = 0; end < 2; end++) {
            Node from = coupling.from().get(end);
            for (Signals.Arrival arrival : signals.arrivals(from)) {
                boolean wantsPositive = end == 0;
                Boolean positive = arrival.isPositive();
                if (positive == null || positive == wantsPositive) {
                    continue;
                }
                if (arrival.entry() instanceof Coupling earlier && arrival.origin() == origin) {
                    Place before = placeBefore(earlier, origin, signals, under);
                    if (before != null) {
                        return before;
                    }
                }
                ends.add(from);
                drivers.addAll(arrival.entry() instanceof Coupling earlier ? earlier.to() : List.of(arrival.origin()));
            }
        }
        if (!ends.isEmpty()) {
            return new Place(ends, drivers);
        }
        return coupling.gain() < 0
                ? new Place(new LinkedHashSet<>(coupling.to()), new LinkedHashSet<>(coupling.from()))
                : null;
    }

    private static Examination.Draft report(Place place, Set<Node> ends, Examination examination) {
        Set<Node> behind = new LinkedHashSet<>(ends);
        behind.removeAll(place.ends());
        String names = Say.names(place.ends());
        Examination.Draft draft = place.against() == null
                ? examination.report(
                        names + (place.ends().size() > 1 ? " get " : " gets ") + Say.names(place.drivers())
                                + " the wrong way round"
                                + (behind.isEmpty() ? "" : ", and so it arrives at " + Say.names(behind)),
                        "swap the two conductors of the pair, at one end only.")
                : examination.report(
                        "the coil at " + names + " is wired the wrong way round and works against " + place.against(),
                        "swap the leads of " + Say.refs(place.ends()) + ".");
        return draft.at(place.ends())
                .at(place.drivers())
                .through(examination.reading().connectionsAt(place.ends()));
    }
}
