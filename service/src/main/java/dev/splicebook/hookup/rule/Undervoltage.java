package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Active;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.net.Coil;
import dev.splicebook.hookup.power.Case;
import dev.splicebook.hookup.power.Lacks;
import dev.splicebook.hookup.power.Level;
import dev.splicebook.hookup.power.Power;
import dev.splicebook.hookup.power.Sink;
import dev.splicebook.hookup.power.Solved;
import dev.splicebook.hookup.power.Strand;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** A load gets fewer volts than it works down to, or the coil of a relay than make it pull. */
@AutoService(Rule.class)
@About(
        code = "undervoltage",
        severity = Severity.WARNING,
        since = "0.2",
        sizes = true,
        condition = "A load gets fewer volts than it works down to, or the coil of a relay than make it pull.",
        checks =
                "The volts across every load that is fed, with every load drawing its most, against the least that it works down"
                        + " to; and those of control inputs for 12 V against what they count as active. At accessory and ignition 12.6 V,"
                        + " running 14.2 V or the least of the vehicle's range, at an automatic restart 8.0 V, to which the battery dips"
                        + " before it holds 9.5 V, unless the vehicle has none. An input rides through the dip, and gets its share of the"
                        + " 9.5 V. A vehicle that runs above 19 V rests at twice as much, and has 20 V and dips to 10 V at a restart. While running it is an error. Asleep and at a start by key nothing is asked of a load. A coil is judged"
                        + " where its relay is taken to pull and its ohms are stated, with what loads draw for long; once pulled it holds"
                        + " through the dip. Where an overloaded conductor takes the volts, and one just thick"
                        + " enough would leave the load what it needs, the overload alone is told.",
        why = "It drops out, restarts or mutes in the middle of a song, at every traffic light where the engine stops.",
        mend =
                "Thicker or shorter wires where they take the volts, a way past the resistor or diode that does; where the supply itself is too low, a feed that holds"
                        + " through the restart, like a stabiliser.",
        source =
                "Ohm's and Kirchhoff's laws; volts at a start from ISO 16750-2, starting profiles for 12 V and 24 V, level I, from memory.",
        fails = """
                {"parts": {"AMP": {"inline": {"terminals": {
                   "plus": {"electrical": {"kind": "load", "typicalAmps": 10, "maxAmps": 40, "needs": "constant",
                                           "minVolts": 7.6, "sleepAmps": 0.002}},
                   "minus": {"electrical": {"kind": "ground"}}}}}},
                 "connections": {
                   "W1": {"ends": ["CAR.battery-plus", "AMP.plus"], "conductor": {"size": "10 AWG"},
                          "length": {"value": 3, "unit": "m"}, "fuse": {"ratingAmps": 50}},
                   "W2": {"ends": ["CAR.chassis", "AMP.minus"], "conductor": {"size": "10 AWG"},
                          "length": {"value": 50, "unit": "cm"}}}}
                """,
        passes = """
                {"parts": {"AMP": {"inline": {"terminals": {
                   "plus": {"electrical": {"kind": "load", "typicalAmps": 10, "maxAmps": 40, "needs": "constant",
                                           "minVolts": 7.6, "sleepAmps": 0.002}},
                   "minus": {"electrical": {"kind": "ground"}}}}}},
                 "connections": {
                   "W1": {"ends": ["CAR.battery-plus", "AMP.plus"], "conductor": {"size": "4 AWG"},
                          "length": {"value": 3, "unit": "m"}, "fuse": {"ratingAmps": 50}},
                   "W2": {"ends": ["CAR.chassis", "AMP.minus"], "conductor": {"size": "4 AWG"},
                          "length": {"value": 50, "unit": "cm"}}}}
                """)
public final class Undervoltage implements Rule {

    static final Threshold PULL_VOLTS = new Threshold(
            "pullVolts",
            8,
            "V",
            4,
            12,
            "volts from which a relay for 12 V is sure to pull, some two thirds of its own; common practice, no source");

    /** Rounding alone makes no drop-out. */
    private static final double SLACK_VOLTS = 1e-9;

    /** A sink as it gets the least, and separately while running. */
    private static final class Supplied {
        private final Set<State> states = EnumSet.noneOf(State.class);
        private final Lacks lacks = new Lacks();
        private @Nullable Least running;
        private @Nullable Least other;

        void add(Case at, Solved solved, Sink sink, double minVolts) {
            double volts = solved.across(sink);
            if (!sink.isCoil()) {
                // no wire takes much from the fraction of an amp that a coil draws
                solved.addLacks(sink, lacks);
            }
            if (!solved.isShorted(sink) && volts + overloadVolts(solved, sink) < minVolts - SLACK_VOLTS) {
                at.states().stream().filter(Undervoltage::isJudged).forEach(states::add);
                Least least = new Least(volts, solved.sourceVolts(sink), at, solved, sink);
                if (at.states().contains(State.RUNNING)) {
                    running = running == null || volts < running.volts() ? least : running;
                } else {
                    other = other == null || least.isGraverThan(other) ? least : other;
                }
            }
        }
    }

    private record Least(double volts, double sourceVolts, Case at, Solved solved, Sink sink) {

        boolean isAtRestart() {
            return at.states().contains(State.RESTARTING);
        }

        Set<State> judgedStates() {
            return at.states().stream().filter(Undervoltage::isJudged).collect(Collectors.toSet());
        }

        /** What lacks while the engine rests lacks for longer than what lacks as it starts. */
        boolean isGraverThan(Least other) {
            return isAtRestart() == other.isAtRestart() ? volts < other.volts : other.isAtRestart();
        }
    }

    @Override
    public void check(Examination examination) {
        Power power = examination.reading().power();
        Map<Sink, Supplied> all = new LinkedHashMap<>();
        for (Case each : power.cases()) {
            if (each.states().stream().noneMatch(Undervoltage::isJudged)) {
                continue;
            }
            for (Sink sink : each.worst().sinks()) {
                if (sink.isCoil()) {
                    if (pulls(sink, each)) {
                        examination.applies();
                        all.computeIfAbsent(sink, key -> new Supplied())
                                .add(each, each.typical(), sink, pullVolts(sink.coil(), examination));
                    }
                    continue;
                }
                Double minVolts = minVolts(sink);
                // an input rides through the dip that its device may not, and not through what comes after
                Solved solved = sink.load() == null && each.level() == Level.STARTING ? each.typical() : each.worst();
                if (solved.isFed(sink) && (sink.load() != null || minVolts != null)) {
                    examination.applies();
                    if (minVolts == null) {
                        examination.missing(sink.node(), "minVolts");
                    } else {
                        all.computeIfAbsent(sink, key -> new Supplied()).add(each, solved, sink, minVolts);
                    }
                }
            }
        }
        all.values().forEach(supplied -> judge(supplied, examination));
        examination.missing(power.openFeeds());
    }

    /** Volts from which a relay is sure to pull, the share of what it is made for that is set for one for 12 V. */
    private static double pullVolts(@Nullable Coil coil, Examination examination) {
        double made = coil == null || coil.volts() == null ? 12 : coil.volts();
        return examination.value(PULL_VOLTS) * made / 12;
    }

    /** Whether a relay is taken to pull by a coil of which the volts are known. */
    private static boolean pulls(Sink sink, Case at) {
        return sink.coil() != null
                && at.level() != Level.STARTING
                && at.scenario().isEnergised(sink.coil())
                && sink.coil().ohms() != null
                && !Double.isNaN(at.typical().across(sink));
    }

    private static boolean isJudged(State state) {
        return state != State.ASLEEP && state != State.CRANKING;
    }

    /** Volts that overloaded conductors on a sink's way take beyond what they would under the current that they bear. */
    private static double overloadVolts(Solved solved, Sink sink) {
        double volts = 0;
        for (Strand strand : solved.path(sink)) {
            double amps = solved.amps(strand);
            if (Math.abs(amps) > strand.allowableAmps() + Power.SLACK_AMPS) {
                volts += strand.dropVolts(amps) - strand.dropVolts(strand.allowableAmps());
            }
        }
        return volts;
    }

    private static @Nullable Double minVolts(Sink sink) {
        if (sink.load() != null) {
            return sink.load().minVolts();
        }
        return !sink.isCoil()
                        && sink.node().facts() instanceof Electrical.ControlIn in
                        && in.active() == Active.TWELVE_VOLTS
                ? in.minVolts()
                : null;
    }

    /** Whether wires alone take a sink below its least volts in some state, which {@link VoltageDropExcessive} leaves to it. */
    static boolean isByWires(Sink sink, Power power) {
        Double minVolts = minVolts(sink);
        return minVolts != null
                && power.cases().stream()
                        .filter(each -> each.states().stream().anyMatch(Undervoltage::isJudged))
                        .filter(each -> each.worst().isFed(sink))
                        .anyMatch(each -> each.worst().across(sink) < minVolts - SLACK_VOLTS
                                && each.worst().sourceVolts(sink) >= minVolts);
    }

    private static void judge(Supplied supplied, Examination examination) {
        Least least = supplied.running == null ? supplied.other : supplied.running;
        if (least == null) {
            supplied.lacks.forEach(examination::missing);
            return;
        }
        Sink sink = least.sink();
        Double minVolts = sink.isCoil() ? Double.valueOf(pullVolts(sink.coil(), examination)) : minVolts(sink);
        if (minVolts == null) {
            return;
        }
        boolean restart = least.isAtRestart();
        boolean byWires = least.sourceVolts() >= minVolts;
        List<Strand> path = least.solved().path(sink);
        double lost = least.sourceVolts() - least.volts();
        boolean inResistors = byWires && isInResistors(sink, least.solved(), lost);
        boolean inDiodes = byWires && least.solved().diodeVolts(sink) > lost / 2;
        Coil coil = sink.coil();
        String gets = (coil == null ? Say.name(sink.node()) : Say.coil(coil))
                + " gets " + Say.apart(least.volts(), minVolts, Say::finerVolts)
                + (restart ? " at an automatic restart" : " " + Say.inStates(least.judgedStates()));
        String limit = ", below the " + Say.finerVolts(minVolts)
                + (coil != null
                        ? " from which a relay is sure to pull"
                        : sink.load() == null ? " from which it counts as active" : " that it works down to");
        String cause = byWires
                ? "; " + Say.finerVolts(lost) + " of the " + Say.finerVolts(least.sourceVolts())
                        + " are lost on the way"
                        + (inResistors
                                ? ", most of it in " + resistors(path)
                                : inDiodes ? ", most of it in " + diodes(path) : "")
                : "; its supply itself gives " + Say.finerVolts(least.sourceVolts());
        String help = inResistors
                ? "feed it past " + resistors(path) + "."
                : inDiodes
                        ? "feed it past " + diodes(path) + ", or use a relay in place of the diode."
                        : byWires
                                ? "use thicker or shorter wires, for the feed and for the ground."
                                : restart
                                        ? "feed it through a stabiliser that holds through the restart, or tell the customer that it drops out"
                                                + " then."
                                        : "feed it from a supply that gives what it needs.";
        Examination.Draft draft = examination
                .report(gets + limit + cause, help)
                .at(coil == null ? List.of(sink.node()) : List.of(coil.one(), coil.other()))
                .through(refs(path))
                .in(supplied.states)
                .figures(Flows.figure(least.volts()), minVolts, "V");
        if (supplied.running != null) {
            draft.as(Severity.ERROR);
        }
    }

    /** Whether resistors take most of what a sink loses, so that thicker wire is no mend. */
    static boolean isInResistors(Sink sink, Solved solved, double lostVolts) {
        return solved.resistorVolts(sink) > lostVolts / 2;
    }

    /** The parts whose resistors stand on a way, like {@code R1 and R2}. */
    static String resistors(List<Strand> path) {
        return parts(path, Strand::isResistor);
    }

    private static String diodes(List<Strand> path) {
        return parts(path, Strand::isDiode);
    }

    private static String parts(List<Strand> path, Predicate<Strand> are) {
        return Say.list(path.stream()
                .filter(are)
                .map(strand -> strand.link().from().owner())
                .distinct()
                .sorted()
                .toList());
    }

    static List<String> refs(List<Strand> strands) {
        List<String> refs = new ArrayList<>();
        for (Strand strand : strands) {
            if (strand.link().ref() != null) {
                refs.add(strand.link().ref());
            }
        }
        return refs;
    }
}
