package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Active;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.VoltRange;
import dev.splicebook.hookup.net.Coil;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.power.Case;
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

/** A load, a control input or the coil of a relay gets more volts than it takes. */
@AutoService(Rule.class)
@About(
        code = "overvoltage",
        severity = Severity.ERROR,
        since = "0.2",
        condition = "A load, a control input or the coil of a relay gets more volts than it takes.",
        checks =
                "The volts across every load, control input for 12 V and coil that is fed, with every load drawing what it"
                        + " draws for long, against the most that it takes; while running at the most of the vehicle's range. Where"
                        + " no part of a 12 V vehicle gives more than " + Overvoltage.USUAL_MOST_VOLTS
                        + " V, a load that states no limit passes, and so does a coil. One that says what volts it is made for takes a"
                        + " third more.",
        why = "A radio for 12 V on the 24 V of a lorry or a bus burns out at once, and may take its wiring with it.",
        mend = "A feed of the load's own voltage, or a converter that brings the volts down.",
        source = "Ohm's and Kirchhoff's laws; up to 16 V in a 12 V vehicle, from ISO 16750-2, from memory.",
        fails = """
                {"vehicle": {"inline": {"circuits": {"C1-7": {"function": "power.accessory", "electrical":
                   {"kind": "supply", "volts": 24, "maxAmps": 10, "fuseAmps": 10, "live": ["accessory", "ignition", "running"]}}}}},
                 "parts": {"HU": {"inline": {"terminals": {
                   "plus": {"electrical": {"kind": "load", "typicalAmps": 1, "maxAmps": 5, "needs": "switched", "maxVolts": 16}},
                   "minus": {"electrical": {"kind": "ground"}}}}}},
                 "connections": {
                   "W1": {"ends": ["CAR.C1-7", "HU.plus"], "conductor": {"size": "18 AWG"}, "length": {"value": 1, "unit": "m"}},
                   "W2": {"ends": ["CAR.chassis", "HU.minus"], "conductor": {"size": "18 AWG"}, "length": {"value": 50, "unit": "cm"}}}}
                """,
        passes = """
                {"vehicle": {"inline": {"circuits": {"C1-7": {"function": "power.accessory", "electrical":
                   {"kind": "supply", "volts": 24, "maxAmps": 10, "fuseAmps": 10, "live": ["accessory", "ignition", "running"]}}}}},
                 "parts": {"HU": {"inline": {"terminals": {
                   "plus": {"electrical": {"kind": "load", "typicalAmps": 1, "maxAmps": 5, "needs": "switched", "maxVolts": 32}},
                   "minus": {"electrical": {"kind": "ground"}}}}}},
                 "connections": {
                   "W1": {"ends": ["CAR.C1-7", "HU.plus"], "conductor": {"size": "18 AWG"}, "length": {"value": 1, "unit": "m"}},
                   "W2": {"ends": ["CAR.chassis", "HU.minus"], "conductor": {"size": "18 AWG"}, "length": {"value": 50, "unit": "cm"}}}}
                """)
public final class Overvoltage implements Rule {

    /** What every part for 12 V is taken to bear: ISO 16750-2 tests such parts at up to 16 V, from memory. */
    static final int USUAL_MOST_VOLTS = 16;

    /** What a coil bears for long over what it is made for: 16 V of one for 12 V; common practice, no source. */
    private static final double COIL_SHARE = USUAL_MOST_VOLTS / 12.0;

    /** Rounding alone harms nothing. */
    private static final double SLACK_VOLTS = 1e-9;

    /** The most volts that a sink gets, and in which states they are too many. */
    private static final class Most {
        private final Set<State> states = EnumSet.noneOf(State.class);
        private final Solved solved;
        private double volts;
        /** What it draws, where that is unknown and a resistor takes volts by it. */
        private @Nullable String lacking;

        Most(Solved solved) {
            this.solved = solved;
        }
    }

    @Override
    public void check(Examination examination) {
        Power power = examination.reading().power();
        VoltRange running = examination.network().hookup().map().runningVolts();
        if (!mayBe(examination, running)) {
            return;
        }
        Map<Sink, Most> all = new LinkedHashMap<>();
        for (Case each : power.cases()) {
            if (each.level() == Level.STARTING) {
                continue;
            }
            Solved solved = each.typical();
            for (Sink sink : solved.sinks()) {
                if (!takesTwelveVolts(sink) || !solved.isFed(sink) || solved.isShorted(sink)) {
                    continue;
                }
                Double maxVolts = mostVolts(sink);
                double volts = volts(sink, solved, each.level(), running);
                if (maxVolts == null) {
                    if (volts > USUAL_MOST_VOLTS) {
                        examination.applies();
                        examination.missing(sink.node(), sink.isCoil() ? "coilVolts" : "maxVolts");
                    }
                    continue;
                }
                examination.applies();
                if (volts > maxVolts + SLACK_VOLTS) {
                    Most most = all.computeIfAbsent(sink, key -> new Most(solved));
                    most.states.addAll(each.states());
                    most.volts = Math.max(most.volts, volts);
                    if (solved.path(sink).stream().anyMatch(Strand::isResistor)) {
                        most.lacking = solved.lackedFact(sink);
                    }
                }
            }
        }
        all.forEach((sink, most) -> judge(sink, most, examination));
    }

    /** Whether anything states the most that it takes, or any source may give more than a part for 12 V bears. */
    private static boolean mayBe(Examination examination, @Nullable VoltRange running) {
        if (running != null && running.max() > USUAL_MOST_VOLTS) {
            return true;
        }
        if (examination.network().coils().stream().anyMatch(coil -> coil.volts() != null)) {
            return true;
        }
        for (Node node : examination.network().nodes()) {
            if (Electrical.mostTakenVolts(node.facts()) != null
                    || (node.facts() instanceof Electrical.Supply supply
                            && supply.volts() != null
                            && supply.volts() > USUAL_MOST_VOLTS)) {
                return true;
            }
        }
        return false;
    }

    private static boolean takesTwelveVolts(Sink sink) {
        return sink.load() != null
                || sink.isCoil()
                || (sink.node().facts() instanceof Electrical.ControlIn in && in.active() == Active.TWELVE_VOLTS);
    }

    private static @Nullable Double mostVolts(Sink sink) {
        Coil coil = sink.coil();
        return coil == null
                ? Electrical.mostTakenVolts(sink.node().facts())
                : coil.volts() == null ? null : Double.valueOf(coil.volts() * COIL_SHARE);
    }

    /** Volts across a sink, at the most of the vehicle's range where its source is the battery of a running vehicle. */
    private static double volts(Sink sink, Solved solved, Level level, @Nullable VoltRange running) {
        double volts = solved.across(sink);
        if (level != Level.RUNNING || running == null) {
            return volts;
        }
        double middle = (running.min() + running.max()) / 2;
        boolean ofBattery = Math.abs(solved.sourceVolts(sink) - middle) < SLACK_VOLTS;
        return ofBattery ? volts + running.max() - middle : volts;
    }

    private static void judge(Sink sink, Most most, Examination examination) {
        if (most.lacking != null) {
            examination.missing(sink.node(), most.lacking);
            return;
        }
        Double maxVolts = mostVolts(sink);
        if (maxVolts == null) {
            return;
        }
        Coil coil = sink.coil();
        examination
                .report(
                        (coil == null ? Say.name(sink.node()) : Say.coil(coil)) + " gets up to "
                                + Say.apart(most.volts, maxVolts, Say::finerVolts) + " "
                                + Say.inStates(most.states) + ", above the " + Say.finerVolts(maxVolts)
                                + " that it takes",
                        coil == null
                                ? "feed it from a supply of its own voltage, or through a converter that brings the volts"
                                        + " down."
                                : "use a relay whose coil is made for these volts.")
                .at(coil == null ? List.of(sink.node()) : List.of(coil.one(), coil.other()))
                .through(Undervoltage.refs(most.solved.path(sink)))
                .in(most.states)
                .figures(Flows.figure(most.volts), maxVolts, "V");
    }
}
