package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.net.Coil;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Reach;
import dev.splicebook.hookup.net.Scenario;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** A live supply and a ground stand on one net. */
@AutoService(Rule.class)
@About(
        code = "supply-shorted-to-ground",
        severity = Severity.DANGER,
        since = "0.1",
        condition = "A live supply and a ground stand on one net.",
        checks =
                "Every net in every state, through adapters, closed contacts and forward diodes as well: a supply or a 12 V"
                        + " output that can be live, and a ground of the vehicle or an output that switches to ground. A diode"
                        + " across a relay's coil the wrong way round is such a way.",
        why = "The full battery current flows. At best a fuse opens; without one, the wire burns.",
        mend =
                "Take the wrong end off; where an adapter ties the two inside, use another adapter; turn a diode round whose"
                        + " banded end is not at the plus side of its coil.",
        source = "Common practice, no source.",
        fails = """
                {"vehicle": {"inline": {"circuits": {"C1-7": {"function": "power.battery", "electrical":
                   {"kind": "supply", "maxAmps": 10, "fuseAmps": 15,
                    "live": ["asleep", "accessory", "ignition", "cranking", "running", "restarting"]}}}}},
                 "connections": {"W1": {"ends": ["CAR.C1-7", "CAR.chassis"], "conductor": {"size": "16 AWG"}}}}
                """,
        passes = """
                {"vehicle": {"inline": {"circuits": {"C1-7": {"function": "power.battery", "electrical":
                   {"kind": "supply", "maxAmps": 10, "fuseAmps": 15,
                    "live": ["asleep", "accessory", "ignition", "cranking", "running", "restarting"]}}}}},
                 "parts": {"HU": {"inline": {"terminals": {
                   "memory": {"electrical": {"kind": "load", "typicalAmps": 1, "maxAmps": 2, "needs": "constant"}},
                   "ground": {"electrical": {"kind": "ground"}}}}}},
                 "connections": {"W1": {"ends": ["CAR.C1-7", "HU.memory"], "conductor": {"size": "16 AWG"}},
                                 "W2": {"ends": ["CAR.chassis", "HU.ground"]}}}
                """,
        rank = Rank.SHORTED)
public final class SupplyShortedToGround implements Rule {

    private static final class Found {
        final Set<State> states = EnumSet.noneOf(State.class);
        final Set<State> doubtful = EnumSet.noneOf(State.class);
        final Set<Node> unknown = new LinkedHashSet<>();
        final Set<Node> grounds = new LinkedHashSet<>();
        final Set<String> connections = new LinkedHashSet<>();
        final Map<Scenario, Integer> nets = new LinkedHashMap<>();

        /** A supply is live at some time, so a short that always stands is one even if that time is not known. */
        boolean isCertain() {
            return !states.isEmpty() || doubtful.size() == State.values().length;
        }
    }

    @Override
    public void check(Examination examination) {
        Map<Set<Node>, Found> shorts = new LinkedHashMap<>();
        Map<Object, List<Integer>> meetings = new HashMap<>();
        for (Scenario scenario : examination.network().scenarios()) {
            for (int net : meetings.computeIfAbsent(scenario.solution(), solution -> meetings(scenario, examination))) {
                readMeeting(scenario, net, shorts, examination);
            }
        }
        // a supply that is part of a larger short is told there
        shorts.keySet()
                .removeIf(small -> shorts.keySet().stream()
                        .anyMatch(large -> large.size() > small.size() && large.containsAll(small)));
        shorts.forEach((supplies, found) -> {
            if (found.isCertain()) {
                report(supplies, found, examination);
            } else {
                found.unknown.forEach(supply -> examination.missing(supply, "live"));
            }
        });
    }

    /** Nets at which both 12 V and something that pulls to ground arrive, and may be live; of the others tells what is unknown. */
    private static List<Integer> meetings(Scenario scenario, Examination examination) {
        List<Integer> meetings = new ArrayList<>();
        for (int net = 0; net < scenario.netCount(); net++) {
            if (scenario.reaches(net).isEmpty()) {
                continue;
            }
            boolean fed = false;
            boolean grounded = false;
            boolean switched = false;
            for (Reach reach : scenario.reaches(net)) {
                Node source = reach.source();
                if (source.givesTwelveVolts() && scenario.members(net).size() > 1) {
                    examination.applies();
                }
                if (reach.hard() && scenario.isLive(source) != Scenario.Sure.NO) {
                    fed |= source.givesTwelveVolts();
                    grounded |= source.isReference();
                    switched |= source.pullsToGround();
                }
            }
            if (fed && switched) {
                meetings.add(net);
            } else if ((fed || grounded) && scenario.isUnknown(net)) {
                tellUnknown(scenario, net, examination);
            }
        }
        return meetings;
    }

    private static void tellUnknown(Scenario scenario, int net, Examination examination) {
        for (Node member : scenario.members(net)) {
            if (member.role() == Node.Role.CIRCUIT && member.facts() == null) {
                examination.missing(member, "electrical");
            }
        }
    }

    private static void readMeeting(Scenario scenario, int net, Map<Set<Node>, Found> shorts, Examination examination) {
        Set<Node> supplies = new LinkedHashSet<>();
        Set<Node> unknown = new LinkedHashSet<>();
        Set<Node> grounds = new LinkedHashSet<>();
        Set<Node> switches = new LinkedHashSet<>();
        for (Reach reach : scenario.reaches(net)) {
            if (reach.source().givesTwelveVolts()) {
                if (reach.hard() && scenario.isLive(reach.source()) != Scenario.Sure.NO) {
                    supplies.add(reach.source());
                    if (scenario.isLive(reach.source()) == Scenario.Sure.UNKNOWN) {
                        unknown.add(reach.source());
                    }
                }
            } else if (reach.hard() && reach.source().isReference()) {
                grounds.add(reach.source());
            } else if (reach.hard()
                    && reach.source().pullsToGround()
                    && scenario.isLive(reach.source()) == Scenario.Sure.YES) {
                switches.add(reach.source());
            }
        }
        // two outputs that meet as one conductor are told by outputs-tied
        for (Node output : switches) {
            for (Node supply : supplies) {
                if (supply.facts() instanceof Electrical.Supply || supply.net() != output.net()) {
                    grounds.add(output);
                }
            }
        }
        if (!supplies.isEmpty() && !grounds.isEmpty()) {
            Found found = shorts.computeIfAbsent(supplies, key -> new Found());
            (unknown.size() < supplies.size() ? found.states : found.doubtful).add(scenario.state());
            found.unknown.addAll(unknown);
            found.grounds.addAll(grounds);
            found.connections.addAll(connections(supplies, grounds, scenario, net, examination));
            found.nets.put(scenario, net);
        } else {
            tellUnknown(scenario, net, examination);
        }
    }

    private static Set<String> connections(
            Set<Node> supplies, Set<Node> grounds, Scenario scenario, int net, Examination examination) {
        Set<Node> ends = new LinkedHashSet<>(supplies);
        ends.addAll(grounds);
        return examination.reading().connectionsBetween(ends, scenario, net);
    }

    private static void report(Set<Node> supplies, Found found, Examination examination) {
        Turned turned = findTurned(supplies, found, examination.network());
        Examination.Draft draft = examination
                .report(
                        Say.names(supplies) + " " + Say.are(supplies) + " shorted to ground at "
                                + Say.names(found.grounds) + " "
                                + (turned == null
                                        ? through(supplies, found, examination.network())
                                        : turned.text() + " ")
                                + (found.states.isEmpty() ? "whenever live" : Say.inStates(found.states)),
                        turned == null
                                ? "disconnect the battery before touching it, and take off the connection or adapter that"
                                        + " joins the two."
                                : "turn the diode round: its banded end, the cathode, belongs at " + turned.plus()
                                        + ".")
                .at(
                        turned == null
                                ? List.of()
                                : List.of(turned.coil().one(), turned.coil().other()))
                .at(supplies)
                .at(found.grounds)
                .through(found.connections)
                .in(found.states);
        found.nets.forEach(draft::claims);
    }

    /** Like {@code through D }, the diodes by which the short leads; empty for none. */
    private static String through(Set<Node> supplies, Found found, Network network) {
        Scenario scenario = found.nets.keySet().iterator().next();
        List<String> diodes = network.links().stream()
                .filter(link -> isOnTheWay(link, supplies, found, scenario))
                .map(link -> link.from().owner())
                .distinct()
                .sorted()
                .toList();
        return diodes.isEmpty() ? "" : "through " + Say.list(diodes) + " ";
    }

    private static boolean isOnTheWay(Link link, Set<Node> supplies, Found found, Scenario scenario) {
        int anode = scenario.netOf(link.from());
        int cathode = scenario.netOf(link.to());
        return link.kind() == Link.Kind.DIODE
                && anode != cathode
                && isReached(anode, supplies, scenario)
                && isReached(cathode, found.grounds, scenario)
                && found.grounds.stream().noneMatch(ground -> scenario.netOf(ground) == anode);
    }

    /** A coil with a diode across it that conducts from the end that gets 12 V, {@code plus}. */
    private record Turned(Coil coil, Node plus, String diode) {
        String text() {
            return "through the diode " + (diode.equals(coil.part()) ? "" : diode + " ") + "across the coil of "
                    + coil.part() + ", which stands the wrong way round,";
        }
    }

    private static @Nullable Turned findTurned(Set<Node> supplies, Found found, Network network) {
        Scenario scenario = found.nets.keySet().iterator().next();
        for (Link link : network.links()) {
            if (!isOnTheWay(link, supplies, found, scenario)) {
                continue;
            }
            int anode = scenario.netOf(link.from());
            int cathode = scenario.netOf(link.to());
            for (Coil coil : network.coils()) {
                int one = scenario.netOf(coil.one());
                int other = scenario.netOf(coil.other());
                if ((one == anode && other == cathode) || (one == cathode && other == anode)) {
                    return new Turned(
                            coil,
                            one == anode ? coil.one() : coil.other(),
                            link.from().owner());
                }
            }
        }
        return null;
    }

    private static boolean isReached(int net, Set<Node> by, Scenario scenario) {
        return scenario.reaches(net).stream().anyMatch(reach -> reach.hard() && by.contains(reach.source()));
    }
}
