package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.power.Case;
import dev.splicebook.hookup.power.Lacks;
import dev.splicebook.hookup.power.Level;
import dev.splicebook.hookup.power.Power;
import dev.splicebook.hookup.power.Sink;
import dev.splicebook.hookup.power.Solved;
import dev.splicebook.hookup.power.Strand;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** The wires to a load and back take too large a share of its volts. */
@AutoService(Rule.class)
@About(
        code = "voltage-drop-excessive",
        severity = Severity.WARNING,
        since = "0.2",
        sizes = true,
        condition = "The wires to a load and back take too large a share of its volts.",
        checks =
                "For every load, what is lost between its supply and its terminals, feed and return together, with every load drawing"
                        + " its most, conductors as warm as that makes them, and fuses, but not what a diode takes: against 3 % of the"
                        + " supply, at accessory, ignition and running. Where an overloaded conductor, a fuse below its load, a thin ground or undervoltage is told already, that is the cause.",
        why = "An amplifier that loses a volt on the way plays softer, runs hotter and clips sooner.",
        mend = "Use thicker wire, shorten the run, or feed the load from nearer the battery.",
        source =
                "Ohm's law, copper at the temperature of its load; the share is common practice, no source, and is what ABYC E-11 sets"
                        + " for critical circuits on boats, from memory.",
        fails = """
                {"parts": {"AMP": {"inline": {"terminals": {
                   "plus": {"electrical": {"kind": "load", "typicalAmps": 10, "maxAmps": 40, "needs": "either",
                                           "minVolts": 6, "sleepAmps": 0.002}},
                   "minus": {"electrical": {"kind": "ground"}}}}}},
                 "connections": {
                   "W1": {"ends": ["CAR.battery-plus", "AMP.plus"], "conductor": {"size": "10 AWG"},
                          "length": {"value": 5, "unit": "m"}, "fuse": {"ratingAmps": 50}},
                   "W2": {"ends": ["CAR.chassis", "AMP.minus"], "conductor": {"size": "8 AWG"},
                          "length": {"value": 50, "unit": "cm"}}}}
                """,
        passes = """
                {"parts": {"AMP": {"inline": {"terminals": {
                   "plus": {"electrical": {"kind": "load", "typicalAmps": 10, "maxAmps": 40, "needs": "either",
                                           "minVolts": 6, "sleepAmps": 0.002}},
                   "minus": {"electrical": {"kind": "ground"}}}}}},
                 "connections": {
                   "W1": {"ends": ["CAR.battery-plus", "AMP.plus"], "conductor": {"size": "4 AWG"},
                          "length": {"value": 5, "unit": "m"}, "fuse": {"ratingAmps": 50}},
                   "W2": {"ends": ["CAR.chassis", "AMP.minus"], "conductor": {"size": "8 AWG"},
                          "length": {"value": 50, "unit": "cm"}}}}
                """)
public final class VoltageDropExcessive implements Rule {

    static final Threshold DROP_SHARE = new Threshold(
            "dropShare",
            0.03,
            "",
            "share of the supply's volts that feed and return may take together: common practice, no source; ABYC E-11 sets it for"
                    + " critical circuits, from memory");

    /** A load as it loses the most. */
    private static final class Loss {
        private final Set<State> states = EnumSet.noneOf(State.class);
        private final Lacks lacks = new Lacks();
        private double share;
        private @Nullable Sink sink;
        private @Nullable Case at;
    }

    @Override
    public void check(Examination examination) {
        Power power = examination.reading().power();
        Map<Node, Loss> losses = new LinkedHashMap<>();
        for (Case each : power.cases()) {
            if (each.level() == Level.RESTING || each.level() == Level.RUNNING) {
                for (Sink sink : each.worst().sinks()) {
                    if (sink.load() != null && each.worst().isFed(sink)) {
                        add(each, sink, losses.computeIfAbsent(sink.node(), node -> new Loss()), examination);
                    }
                }
            }
        }
        losses.values().forEach(loss -> judge(loss, examination));
        examination.missing(power.openFeeds());
    }

    private static void add(Case at, Sink sink, Loss loss, Examination examination) {
        Solved solved = at.worst();
        double share = lostVolts(solved, sink) / solved.sourceVolts(sink);
        solved.addLacks(sink, loss.lacks);
        if (share > examination.value(DROP_SHARE) + 1e-12) {
            loss.states.addAll(at.states());
        }
        if (loss.sink == null || share > loss.share) {
            loss.share = share;
            loss.sink = sink;
            loss.at = at;
        }
    }

    /** What wires, contacts and fuses take; what a diode takes is the price of a diode. */
    private static double lostVolts(Solved solved, Sink sink) {
        return solved.sourceVolts(sink) - solved.across(sink) - solved.diodeVolts(sink);
    }

    /** What fuses take that are below their load, which fuse-below-load tells. */
    private static double overloadedFuseVolts(List<Strand> path, Case at, Examination examination) {
        double volts = 0;
        for (Strand strand : path) {
            double bears = examination.value(FuseBelowLoad.CONTINUOUS_SHARE)
                    * strand.link().fuseAmps();
            if (Math.abs(at.typical().amps(strand)) > bears + 1e-9
                    && FuseBelowLoad.isFedFromOneSide(strand.link(), examination.network(), at.scenario())) {
                volts += strand.fuseVolts(at.worst().amps(strand));
            }
        }
        return volts;
    }

    private static void judge(Loss loss, Examination examination) {
        examination.applies();
        Sink sink = loss.sink;
        Case at = loss.at;
        if (sink == null || at == null) {
            return;
        }
        Solved solved = at.worst();
        if (loss.states.isEmpty()) {
            loss.lacks.forEach(examination::missing);
            return;
        }
        Power power = examination.reading().power();
        List<Strand> path = solved.path(sink);
        double supply = solved.sourceVolts(sink);
        double offset =
                sink.node().isVehicle() ? 0 : solved.offsetVolts(sink.node().owner());
        double lost = lostVolts(solved, sink);
        double limit = examination.value(DROP_SHARE) * supply;
        boolean byGround = offset > examination.value(GroundUndersized.OFFSET_VOLTS) && lost - offset <= limit;
        if (byGround
                || lost - overloadedFuseVolts(path, at, examination) <= limit
                || Undervoltage.isByWires(sink, power)
                || path.stream().anyMatch(strand -> power.overloaded().contains(strand.link()))) {
            return;
        }
        boolean inResistors = Undervoltage.isInResistors(sink, solved, lost);
        String parts = inResistors ? Undervoltage.resistors(path) : "";
        examination
                .report(
                        Say.name(sink.node()) + " loses " + Say.apart(lost, limit, Say::finerVolts) + " of "
                                + Say.finerVolts(supply)
                                + " on the way there and back with " + Say.amps(solved.amps(sink)) + ", above the "
                                + Say.finerVolts(limit) + " (" + Say.finerPercent(examination.value(DROP_SHARE))
                                + ") that wires may take"
                                + (inResistors
                                        ? "; " + Say.finerVolts(solved.resistorVolts(sink)) + " of it in " + parts
                                        : ""),
                        inResistors
                                ? "feed it past " + parts + ", unless it is meant for a resistor before it."
                                : "use thicker wire, or feed it from nearer the battery.")
                .at(sink.node())
                .through(Undervoltage.refs(path))
                .in(loss.states)
                .figures(Flows.figure(lost), Flows.figure(limit), "V");
    }
}
