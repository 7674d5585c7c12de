package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Bus;
import dev.splicebook.hookup.Drive;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Names;
import dev.splicebook.hookup.OutputReturn;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.net.Coupling;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.OutputLoad;
import dev.splicebook.hookup.net.OutputLoads;
import dev.splicebook.hookup.net.Scenario;
import dev.splicebook.hookup.net.Signals;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** One conductor of a signal pair arrives and the other does not. */
@AutoService(Rule.class)
@About(
        code = "pair-half-connected",
        severity = Severity.ERROR,
        since = "0.1",
        condition = "One conductor of a signal pair arrives and the other does not.",
        checks =
                "Every audio input with a plus and a minus, or a signal and a return, and every coupling: both conductors must"
                        + " come from the two sides of the same output. Of a picture that arrives, one"
                        + " return must meet one, which is a warning. Of a part's two lines of one data bus, high and low, both must meet"
                        + " the bus where one does. A side that is ground anyway may come from ground. A"
                        + " voice coil may come to them through others in series, and may not be short by its own wiring or hang between two outputs.",
        why =
                "A loudspeaker on one conductor is silent, or plays thin through some other path; a line input hums, and so does a picture.",
        mend = "Connect the missing conductor to the other side of the same output.",
        source = "Common practice, no source.",
        fails = """
                {"vehicle": {"inline": {"circuits": {
                   "A2-1": {"electrical": {"kind": "speaker-out", "channel": "front-left", "side": "plus", "drive": "floating", "maxVolts": 17}},
                   "A2-2": {"electrical": {"kind": "speaker-out", "channel": "front-left", "side": "minus", "drive": "floating", "maxVolts": 17}}}}},
                 "parts": {"LOC": {"inline": {"terminals": {
                   "in-plus": {"electrical": {"kind": "speaker-in", "channel": "left", "side": "plus", "maxVolts": 20}},
                   "in-minus": {"electrical": {"kind": "speaker-in", "channel": "left", "side": "minus", "maxVolts": 20}}}}}},
                 "connections": {"W1": {"ends": ["CAR.A2-1", "LOC.in-plus"]}}}
                """,
        passes = """
                {"vehicle": {"inline": {"circuits": {
                   "A2-1": {"electrical": {"kind": "speaker-out", "channel": "front-left", "side": "plus", "drive": "floating", "maxVolts": 17}},
                   "A2-2": {"electrical": {"kind": "speaker-out", "channel": "front-left", "side": "minus", "drive": "floating", "maxVolts": 17}}}}},
                 "parts": {"LOC": {"inline": {"terminals": {
                   "in-plus": {"electrical": {"kind": "speaker-in", "channel": "left", "side": "plus", "maxVolts": 20}},
                   "in-minus": {"electrical": {"kind": "speaker-in", "channel": "left", "side": "minus", "maxVolts": 20}}}}}},
                 "connections": {"W1": {"ends": ["CAR.A2-1", "LOC.in-plus"]}, "W2": {"ends": ["CAR.A2-2", "LOC.in-minus"]}}}
                """,
        rank = Rank.HALF_PAIR)
public final class PairHalfConnected implements Rule {

    @Override
    public void check(Examination examination) {
        Map<Set<Node>, Examination.Draft> told = new HashMap<>();
        for (Scenario scenario : examination.reading().signalWays()) {
            Signals signals = examination.reading().signals(scenario);
            OutputLoads loads = examination.reading().loads(scenario);
            for (Reading.Group input : examination.reading().inputs()) {
                OutputLoad.Share share =
                        input.isPair() ? loads.findShare(input.positive().get(0)) : null;
                if (share != null && share.isDriven()) {
                    examination.applies();
                } else if (input.isPair()) {
                    check(input.positive().get(0), input.negative().get(0), scenario, signals, told, examination);
                }
            }
            for (OutputLoad.VoiceCoil coil : loads.shorted()) {
                if (!told.containsKey(Set.copyOf(coil.ends()))) {
                    report(
                            Say.name(coil.plus()) + " and " + Say.name(coil.minus())
                                    + " stand on one net, so that the coil between them is short and moves nothing",
                            "take " + coil.plus().ref() + " and " + coil.minus().ref()
                                    + " apart; each goes to its own side.",
                            coil,
                            scenario,
                            told,
                            examination);
                }
            }
            loads.all().forEach(load -> checkCoils(load, scenario, told, examination));
            checkCrossed(loads, scenario, told, examination);
            checkSharedReturns(scenario, signals, told, examination);
            checkPictures(scenario, told, examination);
            for (Coupling coupling : examination.network().couplings()) {
                check(coupling.from().get(0), coupling.from().get(1), scenario, signals, told, examination);
            }
            for (Node end : examination.reading().sidelessInputs()) {
                if (!signals.arrivals(end).isEmpty()) {
                    examination.missing(end, "side");
                }
            }
        }
        examination.network().hookup().devices().keySet().forEach(part -> checkBuses(part, examination));
    }

    /** Pictures that arrive at an input while none of the returns on either side meet, by a conductor or in ground. */
    private static void checkPictures(
            Scenario scenario, Map<Set<Node>, Examination.Draft> told, Examination examination) {
        for (Node taker : examination.network().nodes()) {
            if (!(taker.facts() instanceof Electrical.VideoIn in) || !in.isSignal()) {
                continue;
            }
            for (Node giver : scenario.members(scenario.netOf(taker))) {
                if (giver.facts() instanceof Electrical.VideoOut out
                        && out.isSignal()
                        && !giver.owner().equals(taker.owner())) {
                    checkPicture(giver, taker, scenario, told, examination);
                }
            }
        }
    }

    private static void checkPicture(
            Node giver,
            Node taker,
            Scenario scenario,
            Map<Set<Node>, Examination.Draft> told,
            Examination examination) {
        examination.applies();
        List<Node> given = returnsOf(giver, examination);
        List<Node> taken = returnsOf(taker, examination);
        boolean meet = given.stream()
                .anyMatch(one -> taken.stream().anyMatch(other -> scenario.netOf(one) == scenario.netOf(other)));
        boolean ground = given.stream().anyMatch(one -> isGrounded(one, scenario))
                && taken.stream().anyMatch(one -> isGrounded(one, scenario));
        if (given.isEmpty() || taken.isEmpty() || meet || ground) {
            return;
        }
        List<Node> returns = new ArrayList<>(given);
        returns.addAll(taken);
        boolean unknown = false;
        for (Node one : returns) {
            for (Node member : scenario.members(scenario.netOf(one))) {
                if (member.facts() == null) {
                    examination.missing(member, "electrical");
                    unknown = true;
                }
            }
        }
        if (unknown) {
            return;
        }
        told.computeIfAbsent(
                        Set.copyOf(returns),
                        key -> examination
                                .report(
                                        Say.name(taker) + " gets the picture of " + Say.name(giver)
                                                + ", and "
                                                + (taken.size() == 1 ? "its return " : "none of its returns ")
                                                + Say.names(taken)
                                                + (taken.size() == 1 ? " does not meet " : " meets ")
                                                + Say.names(given)
                                                + ": the picture rolls, hums or stays away",
                                        "connect " + taken.get(0).ref() + " to "
                                                + given.get(0).ref() + ".")
                                .as(Severity.WARNING)
                                .at(returns)
                                .besides(List.of(giver, taker))
                                .through(examination.reading().connectionsAt(List.of(giver, taker))))
                .in(examination.reading().signalStates(scenario));
    }

    /**
     * The return of one of a part's pictures: of the same function but for the side, else all in its direction. Of the
     * vehicle only those of one connector.
     */
    private static List<Node> returnsOf(Node picture, Examination examination) {
        List<Node> all = allReturnsOf(picture, examination);
        List<Node> own =
                all.stream().filter(one -> isOfOneFunction(one, picture)).toList();
        return own.isEmpty() ? all : own;
    }

    private static boolean isOfOneFunction(Node one, Node other) {
        return one.function() != null
                && other.function() != null
                && one.function().isBeside(other.function());
    }

    private static List<Node> allReturnsOf(Node picture, Examination examination) {
        return examination.network().nodesOf(picture.owner()).stream()
                .filter(node ->
                        !node.isVehicle() || Names.connectorOf(node.name()).equals(Names.connectorOf(picture.name())))
                .filter(node -> node.facts() instanceof Electrical.Video video
                        && video.isReturn()
                        && picture.facts() instanceof Electrical.VideoOut == video instanceof Electrical.VideoOut)
                .toList();
    }

    /** Of each bus of which a part has one line high and one line low. */
    private static void checkBuses(String part, Examination examination) {
        Map<Bus, List<Node>> high = new EnumMap<>(Bus.class);
        Map<Bus, List<Node>> low = new EnumMap<>(Bus.class);
        for (Node node : examination.network().nodesOf(part)) {
            if (node.facts() instanceof Electrical.Data data && data.bus() != null) {
                String line = BusDisturbed.line(data);
                if (line.equals("high") || line.equals("low")) {
                    (line.equals("high") ? high : low)
                            .computeIfAbsent(data.bus(), bus -> new ArrayList<>(1))
                            .add(node);
                }
            }
        }
        high.forEach((bus, highs) -> {
            List<Node> lows = low.getOrDefault(bus, List.of());
            if (highs.size() != 1 || lows.size() != 1) {
                return;
            }
            boolean oneMeets = meetsBus(highs.get(0), examination);
            if (oneMeets == meetsBus(lows.get(0), examination)) {
                return;
            }
            Node there = oneMeets ? highs.get(0) : lows.get(0);
            Node lacking = oneMeets ? lows.get(0) : highs.get(0);
            if (!examination.network().isConnected(lacking) && hasLine(lacking, examination)) {
                examination.applies();
                examination
                        .report(
                                Say.name(there) + " is on the bus, and its other line " + Say.name(lacking)
                                        + " is connected to nothing",
                                "connect " + lacking.ref() + " to the same line of the same bus.")
                        .at(there, lacking)
                        .through(examination.reading().connectionsAt(List.of(there, lacking)));
            }
        });
    }

    /** Whether the vehicle or another part has a line too; a bus of one wire lacks none. */
    private static boolean hasLine(Node lacking, Examination examination) {
        return examination.network().hookup().map().circuits().values().stream()
                        .anyMatch(circuit ->
                                isLike(lacking, circuit.factsWhen(true)) || isLike(lacking, circuit.factsWhen(false)))
                || examination.network().nodes().stream()
                        .anyMatch(node -> !node.owner().equals(lacking.owner()) && isLike(lacking, node.facts()));
    }

    private static boolean isLike(Node line, @Nullable Electrical facts) {
        return line.facts() instanceof Electrical.Data ours
                && facts instanceof Electrical.Data theirs
                && ours.bus() == theirs.bus()
                && BusDisturbed.line(ours).equals(BusDisturbed.line(theirs));
    }

    private static boolean meetsBus(Node line, Examination examination) {
        for (Node member : examination.network().netOf(line)) {
            if (member.facts() instanceof Electrical.Data && !member.owner().equals(line.owner())) {
                return true;
            }
        }
        return false;
    }

    private static void check(
            Node positive,
            Node negative,
            Scenario scenario,
            Signals signals,
            Map<Set<Node>, Examination.Draft> told,
            Examination examination) {
        List<Signals.Arrival> onPositive = signals.arrivals(positive);
        List<Signals.Arrival> onNegative = signals.arrivals(negative);
        if (onPositive.isEmpty() && onNegative.isEmpty()) {
            return;
        }
        examination.applies();
        Node lacking = onPositive.isEmpty() ? positive : negative;
        Node end = lacking == negative ? positive : negative;
        List<Signals.Arrival> there = onPositive.isEmpty() ? onNegative : onPositive;
        List<Signals.Arrival> opposite = onPositive.isEmpty() ? onPositive : onNegative;
        for (Signals.Arrival arrival : there) {
            if (isWhole(arrival, opposite, end, lacking, scenario, examination)) {
                return;
            }
        }
        if (lackFacts(there.get(0).origin(), opposite, lacking, scenario, examination)) {
            return;
        }
        told.computeIfAbsent(
                        Set.of(positive, negative),
                        key -> report(there.get(0), opposite, end, lacking, scenario, examination))
                .in(examination.reading().signalStates(scenario));
    }

    /** Coils of a load that get nothing, with one end at the output and the other nowhere. */
    private static void checkCoils(
            OutputLoad load, Scenario scenario, Map<Set<Node>, Examination.Draft> told, Examination examination) {
        for (OutputLoad.Share share : load.shares()) {
            OutputLoad.VoiceCoil coil = share.coil();
            if (coil.within() || share.shorted() || told.containsKey(Set.copyOf(coil.ends()))) {
                continue;
            }
            examination.applies();
            for (Node side : share.isDriven() ? List.<Node>of() : load.sides()) {
                for (Node end : coil.ends()) {
                    if (scenario.netOf(end) == scenario.netOf(side)) {
                        Node lacking = end == coil.plus() ? coil.minus() : coil.plus();
                        report(
                                Say.name(end) + " gets " + Say.name(side) + ", and the other end of its coil, "
                                        + Say.name(lacking) + ", leads to nothing that closes the circuit",
                                "connect " + lacking.ref() + " to the other side of " + side.ref()
                                        + ", or to the next coil of a string that ends there.",
                                coil,
                                scenario,
                                told,
                                examination);
                    }
                }
            }
        }
    }

    /** Strings of coils that begin at one output and end at another: none closes its circuit there, or two work together. */
    private static void checkCrossed(
            OutputLoads loads, Scenario scenario, Map<Set<Node>, Examination.Draft> told, Examination examination) {
        Set<OutputLoad.VoiceCoil> driven = new LinkedHashSet<>();
        for (OutputLoad load : loads.crossed()) {
            driven.addAll(hanging(load, true, told));
        }
        Map<Set<OutputLoad.VoiceCoil>, Set<Node>> silent = new LinkedHashMap<>();
        for (OutputLoad load : loads.crossed()) {
            Set<OutputLoad.VoiceCoil> coils = hanging(load, false, told);
            // what hangs rightly between the two sides of one output is silent only as seen from the other
            coils.removeAll(driven);
            silent.put(coils, sidesAt(coils, scenario));
        }
        for (Set<OutputLoad.VoiceCoil> string : strings(driven, scenario)) {
            Set<Node> sides = sidesAt(string, scenario);
            if (loads.areOfSeveralOutputs(sides)) {
                reportCrossed(
                        string,
                        sides,
                        "so that each drives the other through " + (string.size() == 1 ? "it" : "them"),
                        scenario,
                        told,
                        examination);
            }
        }
        silent.forEach((coils, sides) -> {
            // one lead that gets nothing is told by what it hangs on alone
            if (sides.size() > 1) {
                reportCrossed(coils, sides, "so that no circuit closes", scenario, told, examination);
            }
        });
    }

    /** Coils of a load that are in use and not told of, and that get something or nothing. */
    private static Set<OutputLoad.VoiceCoil> hanging(
            OutputLoad load, boolean driven, Map<Set<Node>, Examination.Draft> told) {
        Set<OutputLoad.VoiceCoil> coils = new LinkedHashSet<>();
        for (OutputLoad.Share share : load.shares()) {
            OutputLoad.VoiceCoil coil = share.coil();
            if (!coil.within()
                    && !share.shorted()
                    && share.isDriven() == driven
                    && !told.containsKey(Set.copyOf(coil.ends()))) {
                coils.add(coil);
            }
        }
        return coils;
    }

    private static void reportCrossed(
            Set<OutputLoad.VoiceCoil> coils,
            Set<Node> sides,
            String effect,
            Scenario scenario,
            Map<Set<Node>, Examination.Draft> told,
            Examination examination) {
        examination.applies();
        Set<Node> ends = ends(coils);
        told.computeIfAbsent(
                        ends,
                        key -> examination
                                .report(
                                        Say.coils(coils) + (coils.size() == 1 ? " hangs" : " hang") + " between "
                                                + Say.names(sides) + ", which are sides of different outputs, "
                                                + effect,
                                        "bring both ends of the coils to the two sides of one output, or set the"
                                                + " amplifier to the mode in which those two are one.")
                                .at(ends)
                                .at(sides)
                                .through(examination.reading().connectionsAt(ends)))
                .in(examination.reading().signalStates(scenario));
    }

    /** Coils that hang together at nets on which no output stands. */
    private static List<Set<OutputLoad.VoiceCoil>> strings(Set<OutputLoad.VoiceCoil> coils, Scenario scenario) {
        List<Set<OutputLoad.VoiceCoil>> strings = new ArrayList<>();
        for (OutputLoad.VoiceCoil coil : coils) {
            Set<OutputLoad.VoiceCoil> string = new LinkedHashSet<>(Set.of(coil));
            strings.removeIf(other -> meet(coil, other, scenario) && string.addAll(other));
            strings.add(string);
        }
        return strings;
    }

    private static boolean meet(OutputLoad.VoiceCoil coil, Set<OutputLoad.VoiceCoil> string, Scenario scenario) {
        return coil.ends().stream()
                .filter(end -> sidesAt(end, scenario).isEmpty())
                .anyMatch(end -> ends(string).stream().anyMatch(other -> scenario.netOf(other) == scenario.netOf(end)));
    }

    private static Set<Node> sidesAt(Set<OutputLoad.VoiceCoil> coils, Scenario scenario) {
        Set<Node> sides = new LinkedHashSet<>();
        ends(coils).forEach(end -> sides.addAll(sidesAt(end, scenario)));
        return sides;
    }

    private static List<Node> sidesAt(Node end, Scenario scenario) {
        return scenario.members(scenario.netOf(end)).stream()
                .filter(member -> member.facts() instanceof Electrical.SpeakerOut)
                .toList();
    }

    private static Set<Node> ends(Set<OutputLoad.VoiceCoil> coils) {
        Set<Node> ends = new LinkedHashSet<>();
        coils.forEach(coil -> ends.addAll(coil.ends()));
        return ends;
    }

    private static void report(
            String message,
            String help,
            OutputLoad.VoiceCoil coil,
            Scenario scenario,
            Map<Set<Node>, Examination.Draft> told,
            Examination examination) {
        told.computeIfAbsent(
                        Set.copyOf(coil.ends()),
                        key -> examination
                                .report(message, help)
                                .at(coil.ends())
                                .through(examination.reading().connectionsAt(coil.ends())))
                .in(examination.reading().signalStates(scenario));
    }

    /** Signals that share one return, like those of a plug with a common sleeve: the return of one of them must arrive. */
    private static void checkSharedReturns(
            Scenario scenario, Signals signals, Map<Set<Node>, Examination.Draft> told, Examination examination) {
        for (Reading.Group shared : examination.reading().inputs()) {
            if (shared.channel() != null
                    || shared.negative().size() != 1
                    || !shared.positive().isEmpty()) {
                continue;
            }
            Node sleeve = shared.negative().get(0);
            for (Reading.Group input : examination.reading().inputs()) {
                if (input.owner().equals(shared.owner())
                        && input.speaker() == shared.speaker()
                        && input.negative().isEmpty()
                        && input.positive().size() == 1
                        && !signals.arrivals(input.positive().get(0)).isEmpty()) {
                    check(input.positive().get(0), sleeve, scenario, signals, told, examination);
                }
            }
        }
    }

    /** Whether the other side of what brings the signal is on the lacking terminal's net too. */
    private static boolean isWhole(
            Signals.Arrival arrival,
            List<Signals.Arrival> opposite,
            Node end,
            Node lacking,
            Scenario scenario,
            Examination examination) {
        List<Node> wanted = otherSides(arrival, end, scenario, examination);
        int net = scenario.netOf(lacking);
        if (wanted.stream().anyMatch(node -> scenario.netOf(node) == net)
                || opposite.stream().anyMatch(other -> wanted.contains(other.origin()))) {
            return true;
        }
        boolean returnsByGround =
                wanted.isEmpty() ? isGround(arrival.origin()) : wanted.stream().allMatch(PairHalfConnected::isGround);
        return returnsByGround && isGrounded(lacking, scenario);
    }

    /** The terminals that may be the other side of a signal: of the coupling that brings it, or of the output. */
    private static List<Node> otherSides(
            Signals.Arrival arrival, Node end, Scenario scenario, Examination examination) {
        if (!(arrival.entry() instanceof Coupling coupling)) {
            return examination.reading().counterparts(arrival.origin());
        }
        boolean first = scenario.netOf(coupling.to().get(0)) == scenario.netOf(end);
        return List.of(coupling.to().get(first ? 1 : 0));
    }

    /** Whether for want of a fact it cannot be told what the lacking terminal gets, or whether it needs anything. */
    private static boolean lackFacts(
            Node origin, List<Signals.Arrival> opposite, Node lacking, Scenario scenario, Examination examination) {
        boolean lack = false;
        for (Signals.Arrival other : opposite) {
            if (other.isPositive() == null) {
                examination.missing(other.origin(), "side");
                lack = true;
            }
        }
        Electrical.Audio audio = origin.audio();
        if (audio != null && audio.side() == null) {
            examination.missing(origin, "side");
            return true;
        }
        for (Node member : scenario.members(scenario.netOf(lacking))) {
            if (member.facts() == null) {
                examination.missing(member, "electrical");
                lack = true;
            }
        }
        // an output that may return by ground needs no second conductor
        String returns = examination.reading().counterparts(origin).isEmpty() && opposite.isEmpty()
                ? unknownReturn(origin)
                : null;
        if (returns != null) {
            examination.missing(origin, returns);
            lack = true;
        }
        return lack;
    }

    private static Examination.Draft report(
            Signals.Arrival arrival,
            List<Signals.Arrival> opposite,
            Node end,
            Node lacking,
            Scenario scenario,
            Examination examination) {
        Node origin = arrival.origin();
        List<Node> wanted = otherSides(arrival, end, scenario, examination);
        String instead = wanted.isEmpty() ? "the other side of that output" : Say.names(wanted);
        Set<Node> gets = new LinkedHashSet<>();
        opposite.forEach(other -> gets.add(other.origin()));
        return examination
                .report(
                        Say.name(end) + " gets " + Say.name(origin) + ", and its other side " + Say.name(lacking)
                                + " gets " + (gets.isEmpty() ? "nothing" : Say.names(gets)) + " instead of " + instead,
                        "connect " + lacking.ref() + " to "
                                + (wanted.isEmpty()
                                        ? "the other side of " + origin.ref()
                                        : String.join(
                                                " or ",
                                                wanted.stream().map(Node::ref).toList()))
                                + ".")
                .at(end, lacking, origin)
                .at(examination.reading().counterparts(origin))
                .at(wanted)
                .through(examination.reading().connectionsAt(List.of(end, lacking)));
    }

    private static boolean isGrounded(Node node, Scenario scenario) {
        return scenario.isGrounded(node)
                || scenario.members(scenario.netOf(node)).stream()
                        .anyMatch(SpeakerMinusGrounded.Returns::isGroundAnyway);
    }

    private static boolean isGround(Node output) {
        return (output.facts() instanceof Electrical.SpeakerOut out && out.drive() == Drive.COMMON_GROUND)
                || (output.facts() instanceof Electrical.LineOut line && line.returns() == OutputReturn.CHASSIS);
    }

    private static @Nullable String unknownReturn(Node output) {
        if (output.facts() instanceof Electrical.SpeakerOut out && out.drive() == null) {
            return "drive";
        }
        return output.facts() instanceof Electrical.LineOut line && line.returns() == null ? "return" : null;
    }
}
