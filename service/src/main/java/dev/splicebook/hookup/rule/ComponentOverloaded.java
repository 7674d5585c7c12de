package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Device;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.OutputLoad;
import dev.splicebook.hookup.net.Scenario;
import dev.splicebook.hookup.power.Case;
import dev.splicebook.hookup.power.Extent;
import dev.splicebook.hookup.power.Lacks;
import dev.splicebook.hookup.power.Power;
import dev.splicebook.hookup.power.Solved;
import dev.splicebook.hookup.power.Strand;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** A contact, a diode or a resistor carries more than it is rated for. */
@AutoService(Rule.class)
@About(
        code = "component-overloaded",
        severity = Severity.ERROR,
        since = "0.2",
        sizes = true,
        condition = "A contact, a diode or a resistor carries more than it is rated for.",
        checks =
                "The solved current through every closed contact and every diode against its rated amperes, and the watts in"
                        + " every resistor against its rated watts, in every state, with every load drawing its most, while running at the most of the vehicle's range; a resistor"
                        + " at a speaker output with the most volts that the output gives. What flows when a contact joins two"
                        + " batteries no fact tells: it is held against a share of the fuse that limits it.",
        why =
                "An overloaded contact welds shut or burns away, a diode fails shorted and then protects nothing, and a resistor"
                        + " scorches what it lies against.",
        mend = "Use a component of a higher rating, or share the load between two.",
        source = "Ratings of the components; currents by Kirchhoff's laws and diodes by Shockley's.",
        fails = """
                {"vehicle": {"inline": {"circuits": {"C1-8": {"electrical": {"kind": "supply", "maxAmps": 1,
                   "limited": true, "live": ["accessory", "ignition", "running", "restarting"]}}}}},
                 "parts": {
                   "K": {"inline": {"relays": [{"coil": ["86", "85"], "coilOhms": 90, "common": "30", "open": "87",
                                                "contactAmps": 20}]}},
                   "AMP": {"inline": {"terminals": {
                     "plus": {"electrical": {"kind": "load", "typicalAmps": 18, "maxAmps": 26, "needs": "switched",
                                             "minVolts": 7}},
                     "minus": {"electrical": {"kind": "ground"}}}}}},
                 "connections": {
                   "W1": {"ends": ["CAR.C1-8", "K.86"], "conductor": {"size": "18 AWG"}},
                   "W2": {"ends": ["CAR.chassis", "K.85"], "conductor": {"size": "18 AWG"}},
                   "W3": {"ends": ["CAR.battery-plus", "K.30"], "conductor": {"size": "12 AWG"}, "fuse": {"ratingAmps": 30}},
                   "W4": {"ends": ["K.87", "AMP.plus"], "conductor": {"size": "12 AWG"}},
                   "W5": {"ends": ["CAR.chassis", "AMP.minus"], "conductor": {"size": "12 AWG"}}}}
                """,
        passes = """
                {"vehicle": {"inline": {"circuits": {"C1-8": {"electrical": {"kind": "supply", "maxAmps": 1,
                   "limited": true, "live": ["accessory", "ignition", "running", "restarting"]}}}}},
                 "parts": {
                   "K": {"inline": {"relays": [{"coil": ["86", "85"], "coilOhms": 90, "common": "30", "open": "87",
                                                "contactAmps": 30}]}},
                   "AMP": {"inline": {"terminals": {
                     "plus": {"electrical": {"kind": "load", "typicalAmps": 18, "maxAmps": 26, "needs": "switched",
                                             "minVolts": 7}},
                     "minus": {"electrical": {"kind": "ground"}}}}}},
                 "connections": {
                   "W1": {"ends": ["CAR.C1-8", "K.86"], "conductor": {"size": "18 AWG"}},
                   "W2": {"ends": ["CAR.chassis", "K.85"], "conductor": {"size": "18 AWG"}},
                   "W3": {"ends": ["CAR.battery-plus", "K.30"], "conductor": {"size": "12 AWG"}, "fuse": {"ratingAmps": 30}},
                   "W4": {"ends": ["K.87", "AMP.plus"], "conductor": {"size": "12 AWG"}},
                   "W5": {"ends": ["CAR.chassis", "AMP.minus"], "conductor": {"size": "12 AWG"}}}}
                """)
public final class ComponentOverloaded implements Rule {

    static final Threshold CHARGE = new Threshold(
            "leastChargeShare",
            0.5,
            "",
            "of the fuse before it, which a contact or diode between two batteries is rated for at least; common practice, no source");

    /** Less is the leak of a diode, not a current. */
    private static final double LEAST_AMPS = 1e-6;

    /** A component as it bears the most. */
    private static final class Burden {
        private final Set<State> states = EnumSet.noneOf(State.class);
        private final Lacks lacks = new Lacks();
        private double most;
    }

    @Override
    public void check(Examination examination) {
        Map<Link, Burden> burdens = new LinkedHashMap<>();
        for (Case each : examination.reading().power().cases()) {
            // a resistor's worst is where volts are high, and that of others where loads draw most
            add(each, Extent.TYPICAL, burdens);
            add(each, Extent.HIGHEST, burdens);
        }
        burdens.forEach((link, burden) -> judge(link, burden, examination));
        checkResistorsAtOutputs(examination);
        checkBetweenBatteries(examination);
        if (!burdens.isEmpty()) {
            examination.missing(examination.reading().power().openFeeds());
        }
    }

    private static void add(Case at, Extent extent, Map<Link, Burden> burdens) {
        Solved solved = at.at(extent);
        for (Strand strand : solved.strands()) {
            Link link = strand.link();
            if (link.component() == null || !(Math.abs(solved.amps(strand)) > LEAST_AMPS)) {
                continue;
            }
            Burden burden = burdens.computeIfAbsent(link, key -> new Burden());
            double found = isResistor(link) ? solved.lossWatts(strand) : Math.abs(solved.amps(strand));
            burden.most = Math.max(burden.most, found);
            if (extent == Extent.HIGHEST || isResistor(link)) {
                burden.lacks.addAll(solved.lacksOfMost(strand));
            }
            Double limit = limit(link);
            if (limit != null && found > limit + Power.SLACK_AMPS) {
                burden.states.addAll(at.states());
            }
        }
    }

    private static void judge(Link link, Burden burden, Examination examination) {
        examination.applies();
        Double limit = limit(link);
        if (limit == null) {
            examination.missing(link.from(), isResistor(link) ? "watts" : isDiode(link) ? "amps" : "contactAmps");
        } else if (burden.states.isEmpty()) {
            if (!burden.lacks.isEmpty() && (isResistor(link) || Flows.givenAmps(link, examination) > limit)) {
                burden.lacks.forEach(examination::missing);
            }
        } else {
            boolean watts = isResistor(link);
            String what = isResistor(link) ? "resistor" : isDiode(link) ? "diode" : "contact";
            examination
                    .report(
                            "the " + what + " of " + link.from().owner() + " between "
                                    + link.from().name() + " and " + link.to().name()
                                    + (watts ? " turns " : " carries ")
                                    + Say.apart(burden.most, limit, figure -> say(figure, watts))
                                    + (watts ? " to heat" : "") + ", above the " + say(limit, watts)
                                    + " that it is rated for",
                            "use a " + what + " of a higher rating, or share the load.")
                    .at(link.from(), link.to())
                    .through(examination.reading().connectionsAt(List.of(link.from(), link.to())))
                    .in(burden.states)
                    .figures(Flows.figure(burden.most), limit, watts ? "W" : "A");
        }
    }

    private static void checkBetweenBatteries(Examination examination) {
        Network network = examination.network();
        for (Link link : network.links()) {
            boolean everCloses = link.kind().isContact()
                    && network.scenarios().stream().anyMatch(scenario -> scenario.isClosed(link));
            if (!everCloses && !isDiode(link)) {
                continue;
            }
            Node one = battery(link.from(), network);
            Node other = battery(link.to(), network);
            if (one == null || other == null || one == other) {
                continue;
            }
            examination.applies();
            Double limit = limit(link);
            double fuse = Math.min(
                    Conductors.protectionAt(link.from(), one, network),
                    Conductors.protectionAt(link.to(), other, network));
            if (limit == null) {
                examination.missing(link.from(), isDiode(link) ? "amps" : "contactAmps");
            } else if (!Double.isInfinite(fuse) && limit < fuse * examination.value(CHARGE) * (1 - 1e-9)) {
                String what = isDiode(link) ? "diode" : "contact";
                examination
                        .report(
                                "the " + what + " of " + link.from().owner() + " between "
                                        + link.from().name() + " and "
                                        + link.to().name() + " joins "
                                        + Say.names(List.of(one, other)) + ", whose charge nothing limits but a "
                                        + Say.rating(fuse) + " fuse, and is rated for "
                                        + Say.apart(limit, fuse * examination.value(CHARGE), Say::amps) + ", below "
                                        + Say.percent(examination.value(CHARGE)) + " of that",
                                "use a " + what + " of a higher rating, or smaller fuses.")
                        .at(link.from(), link.to())
                        .besides(List.of(one, other))
                        .figures(limit, fuse * examination.value(CHARGE), "A");
            }
        }
    }

    private static @Nullable Node battery(Node end, Network network) {
        return network.netOf(end).stream()
                .filter(node -> node.facts() instanceof Electrical.Supply && network.isBattery(node))
                .min(Say.BY_FACTS)
                .orElse(null);
    }

    /** Resistors at speaker outputs, which no supply feeds. */
    private static void checkResistorsAtOutputs(Examination examination) {
        Map<List<Node>, Examination.Draft> told = new LinkedHashMap<>();
        for (Scenario scenario : examination.reading().signalWays()) {
            for (OutputLoad load : examination.reading().loads(scenario).all()) {
                Double volts = load.stated(Electrical.SpeakerOut::maxVolts);
                for (OutputLoad.ResistorShare share : load.resistors()) {
                    Double limit = share.resistor().watts();
                    examination.applies();
                    if (limit == null) {
                        examination.missing(share.one(), "watts");
                    } else if (volts == null) {
                        examination.missing(load.plus(), "maxVolts");
                    } else if (share.watts(volts) > limit * (1 + 1e-9)) {
                        told.computeIfAbsent(
                                        List.of(share.one(), share.other()),
                                        ends -> report(load, share, volts, limit, examination))
                                .in(examination.reading().signalStates(scenario));
                    }
                }
            }
        }
    }

    private static Examination.Draft report(
            OutputLoad load, OutputLoad.ResistorShare share, double volts, double limit, Examination examination) {
        List<Node> ends = List.of(share.one(), share.other());
        return examination
                .report(
                        "the resistor of " + share.one().owner() + " between "
                                + share.one().name() + " and " + share.other().name() + " turns "
                                + Say.apart(share.watts(volts), limit, Say::watts) + " to heat while "
                                + Say.name(load.plus())
                                + " gives its "
                                + Say.volts(volts) + " rms, above the " + Say.watts(limit) + " that it is rated for",
                        "use a resistor of a higher rating.")
                .at(ends)
                .besides(List.of(load.plus()))
                .through(examination.reading().connectionsAt(ends))
                .figures(Flows.figure(share.watts(volts)), limit, "W");
    }

    private static String say(double figure, boolean watts) {
        return watts ? Say.watts(figure) : Say.amps(figure);
    }

    private static boolean isResistor(Link link) {
        return link.kind() == Link.Kind.RESISTOR;
    }

    private static boolean isDiode(Link link) {
        return link.kind() == Link.Kind.DIODE;
    }

    private static @Nullable Double limit(Link link) {
        if (link.component() instanceof Device.Relay relay) {
            return relay.contactAmps();
        }
        if (link.component() instanceof Device.Diode diode) {
            return diode.amps();
        }
        return link.component() instanceof Device.Resistor resistor ? resistor.watts() : null;
    }
}
