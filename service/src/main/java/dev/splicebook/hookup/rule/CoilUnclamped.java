package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Active;
import dev.splicebook.hookup.Device;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.net.Coil;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Reach;
import dev.splicebook.hookup.net.Scenario;
import dev.splicebook.hookup.power.Level;
import dev.splicebook.hookup.rule.Ways.Way;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/** A relay coil on an electronic output has nothing that takes up its current when the output lets go. */
@AutoService(Rule.class)
@About(
        code = "coil-unclamped",
        severity = Severity.WARNING,
        since = "0.2",
        condition =
                "A relay coil on an electronic output has nothing that takes up its current when the output lets go.",
        checks =
                "Every coil that a control output or a supply that limits itself drives, at either end: a diode from the minus"
                        + " end to the plus end, a resistor across it that is small enough, or a clamp inside the relay must"
                        + " take up its current.",
        why =
                "A coil keeps its current going. Switched off, an unclamped 12 V coil throws some 1000 V at the transistor that"
                        + " let go, and the head unit's turn-on output dies after a week or a year.",
        mend =
                "Put a diode across the coil, its banded end at the plus side, or use a relay with a diode or resistor built in.",
        source =
                "Lenz's law. Peaks of 1000 to 1500 V at an unsuppressed 12 V relay coil, as relay makers publish. What resistor"
                        + " suits: common practice, no source.",
        fails = """
                {"vehicle": {"inline": {"circuits": {"C1-5": {"function": "control.amplifier-on", "electrical":
                   {"kind": "control-out", "active": "12V", "maxAmps": 0.3, "live": ["accessory", "ignition", "running"]}}}}},
                 "parts": {"K1": {"inline": {"relays": [{"coil": ["85", "86"], "coilOhms": 90, "common": "30", "open": "87"}]}}},
                 "connections": {"W1": {"ends": ["CAR.C1-5", "K1.86"]}, "W2": {"ends": ["CAR.chassis", "K1.85"]}}}
                """,
        passes = """
                {"vehicle": {"inline": {"circuits": {"C1-5": {"function": "control.amplifier-on", "electrical":
                   {"kind": "control-out", "active": "12V", "maxAmps": 0.3, "live": ["accessory", "ignition", "running"]}}}}},
                 "parts": {"K1": {"inline": {"relays": [{"coil": ["85", "86"], "coilOhms": 90, "common": "30", "open": "87"}],
                                             "diodes": [{"anode": "85", "cathode": "86", "amps": 1}]}}},
                 "connections": {"W1": {"ends": ["CAR.C1-5", "K1.86"]}, "W2": {"ends": ["CAR.chassis", "K1.85"]}}}
                """,
        rank = Rank.FEED)
public final class CoilUnclamped implements Rule {

    static final Threshold RESISTOR = new Threshold(
            "mostResistorShare",
            10,
            "",
            1,
            20,
            "ohms of a resistor across the coil over the coil's own: the peak is that many times the supply's volts, and"
                    + " relays with a resistor built in have 5 to 10; common practice, no source");

    /** Common practice, no source. */
    private static final double OPEN_VOLTS = 1000;

    @Override
    public void check(Examination examination) {
        for (Coil coil : examination.network().coils()) {
            Set<Node> drivers = new LinkedHashSet<>();
            Set<Node> plus = new LinkedHashSet<>();
            Set<Node> straight = new LinkedHashSet<>();
            boolean clamped = isClampedInside(coil, examination);
            boolean lacking = false;
            double across = Double.POSITIVE_INFINITY;
            for (Scenario scenario : examination.reading().solutions()) {
                for (List<Node> way : List.of(List.of(coil.one(), coil.other()), List.of(coil.other(), coil.one()))) {
                    Set<Node> now = electronic(way.get(0), way.get(1), scenario);
                    if (now.isEmpty()) {
                        continue;
                    }
                    drivers.addAll(now);
                    plus.add(way.get(0));
                    straight.addAll(isStraight(way.get(0), way.get(1), scenario) ? Set.of(way.get(0)) : Set.of());
                    double ohms = ohmsAcross(way.get(0), way.get(1), scenario, examination);
                    across = Math.min(across, ohms);
                    Clamp clamp = clamp(coil, ohms, examination);
                    clamped |= clamp == Clamp.THERE;
                    lacking |= clamp == Clamp.UNKNOWN;
                }
            }
            if (drivers.isEmpty()) {
                continue;
            }
            examination.applies();
            if (clamped) {
                continue;
            }
            if (lacking) {
                examination.missing(coil.one(), "coilOhms");
                continue;
            }
            Set<Node> ends = straight.isEmpty() ? plus : straight;
            examination.assume(
                    "clamped",
                    null,
                    null,
                    "a relay whose coil has no diode and no resistor, and states no clamp, has none");
            examination
                    .report(
                            Say.coil(coil)
                                    + " is switched by " + Say.names(drivers)
                                    + lack(coil, across, examination) + ", so it throws some "
                                    + Math.round(peakVolts(coil, across)) + " V at "
                                    + (drivers.size() == 1 ? "that output" : "those outputs") + " when it lets go",
                            (ends.size() == 1
                                            ? "put a diode across the coil, its banded end at " + Say.names(ends)
                                            : "as the coil is fed from either end, put a resistor of five to ten times its"
                                                    + " ohms across it")
                                    + ", or use a relay with a clamp inside.")
                    .at(coil.one(), coil.other())
                    .besides(drivers)
                    .through(examination.reading().connectionsAt(List.of(coil.one(), coil.other())));
        }
    }

    /** Current goes on through what is across a coil; without that, some 1000 V of arc and capacitance end it. */
    private static double peakVolts(Coil coil, double across) {
        return across == Double.POSITIVE_INFINITY || coil.ohms() == null
                ? OPEN_VOLTS
                : Math.min(OPEN_VOLTS, Level.RUNNING_VOLTS * across / coil.ohms());
    }

    private static String lack(Coil coil, double across, Examination examination) {
        return across == Double.POSITIVE_INFINITY || coil.ohms() == null
                ? " and has no diode or resistor across it"
                : " and has a resistor of " + Say.ohms(across) + " across it, more than "
                        + Say.plain(examination.value(RESISTOR)) + " times its own " + Say.ohms(coil.ohms());
    }

    private enum Clamp {
        NONE,
        UNKNOWN,
        THERE
    }

    private static boolean isClampedInside(Coil coil, Examination examination) {
        Device device = examination.network().hookup().devices().get(coil.part());
        return device != null
                && device.relays().stream()
                        .anyMatch(relay -> Boolean.TRUE.equals(relay.clamped())
                                && relay.coil().contains(coil.one().name())
                                && relay.coil().contains(coil.other().name()));
    }

    /** The electronic outputs that let current through a coil from one end to the other, if anything else allows it. */
    private static Set<Node> electronic(Node plus, Node minus, Scenario scenario) {
        Set<Node> outputs = new LinkedHashSet<>();
        boolean fed = false;
        boolean grounded = false;
        for (Reach reach : scenario.reaches(plus)) {
            if (reach.source().givesTwelveVolts()) {
                fed = true;
                if (isElectronic(reach.source())) {
                    outputs.add(reach.source());
                }
            }
        }
        for (Reach reach : scenario.reaches(minus)) {
            if (reach.source().pullsToGround()) {
                grounded = true;
                if (isElectronic(reach.source())) {
                    outputs.add(reach.source());
                }
            }
        }
        return fed && grounded ? outputs : Set.of();
    }

    /** Whether 12 V and ground get at a coil by conductors and contacts, not through a resistor across it. */
    private static boolean isStraight(Node plus, Node minus, Scenario scenario) {
        return scenario.reaches(plus).stream()
                        .anyMatch(reach -> reach.hard() && reach.source().givesTwelveVolts())
                && scenario.reaches(minus).stream()
                        .anyMatch(reach -> reach.hard() && reach.source().pullsToGround());
    }

    private static boolean isElectronic(Node source) {
        return (source.facts() instanceof Electrical.Supply supply && Boolean.TRUE.equals(supply.limited()))
                || (source.facts() instanceof Electrical.ControlOut out
                        && (out.active() == Active.TWELVE_VOLTS || out.active() == Active.GROUND));
    }

    private static Clamp clamp(Coil coil, double ohms, Examination examination) {
        if (ohms == Double.POSITIVE_INFINITY) {
            return Clamp.NONE;
        }
        if (ohms > 0 && coil.ohms() == null) {
            return Clamp.UNKNOWN;
        }
        return coil.ohms() == null || ohms <= examination.value(RESISTOR) * coil.ohms() * (1 + 1e-9)
                ? Clamp.THERE
                : Clamp.NONE;
    }

    /** Ohms by which current can go round from the minus end back to the plus end without the coil; infinite for no way. */
    private static double ohmsAcross(Node plus, Node minus, Scenario scenario, Examination examination) {
        int from = scenario.netOf(minus);
        Way way = Ways.least(plus, node -> scenario.netOf(node) == from, examination.network(), scenario);
        return way == null ? Double.POSITIVE_INFINITY : way.ohms();
    }
}
