package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Reach;
import dev.splicebook.hookup.net.Scenario;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.Map;
import java.util.Set;

/** A live supply and a ground stand on one net. */
@AutoService(Rule.class)
@About(
        code = "supply-shorted-to-ground",
        severity = Severity.DANGER,
        since = "0.1",
        condition = "A live supply and a ground stand on one net.",
        checks =
                "Every net in every state, through adapters, closed contacts and forward diodes as well: a supply or a 12 V"
                        + " output that can be live, and a ground of the vehicle.",
        why = "The full battery current flows. At best a fuse opens; without one, the wire burns.",
        mend = "Take the wrong end off; where an adapter ties the two inside, use another adapter.",
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
        for (Scenario scenario : examination.network().scenarios()) {
            for (int net = 0; net < scenario.netCount(); net++) {
                read(scenario, net, shorts, examination);
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

    private static void read(Scenario scenario, int net, Map<Set<Node>, Found> shorts, Examination examination) {
        Set<Node> supplies = new LinkedHashSet<>();
        Set<Node> unknown = new LinkedHashSet<>();
        Set<Node> grounds = new LinkedHashSet<>();
        for (Reach reach : scenario.reaches(net)) {
            if (Scenario.givesTwelveVolts(reach.source())) {
                if (scenario.members(net).size() > 1) {
                    examination.applies();
                }
                if (reach.hard() && scenario.isLive(reach.source()) != Scenario.Sure.NO) {
                    supplies.add(reach.source());
                    if (scenario.isLive(reach.source()) == Scenario.Sure.UNKNOWN) {
                        unknown.add(reach.source());
                    }
                }
            } else if (reach.hard() && Scenario.isReference(reach.source())) {
                grounds.add(reach.source());
            }
        }
        if (!supplies.isEmpty() && !grounds.isEmpty()) {
            Found found = shorts.computeIfAbsent(supplies, key -> new Found());
            (unknown.size() < supplies.size() ? found.states : found.doubtful).add(scenario.state());
            found.unknown.addAll(unknown);
            found.grounds.addAll(grounds);
            found.connections.addAll(examination.reading().connectionsOn(scenario, net));
            found.nets.put(scenario, net);
        } else if (!supplies.isEmpty() || !grounds.isEmpty()) {
            for (Node member : scenario.members(net)) {
                if (member.role() == Node.Role.CIRCUIT && member.facts() == null) {
                    examination.missing(member, "electrical");
                }
            }
        }
    }

    private static void report(Set<Node> supplies, Found found, Examination examination) {
        Examination.Draft draft = examination
                .report(
                        Say.names(supplies) + " " + Say.are(supplies) + " shorted to ground at "
                                + Say.names(found.grounds) + " "
                                + (found.states.isEmpty() ? "whenever live" : Say.inStates(found.states)),
                        "disconnect the battery before touching it, and take off the connection or adapter that joins"
                                + " the two.")
                .at(supplies)
                .at(found.grounds)
                .through(found.connections)
                .in(found.states);
        found.nets.forEach(draft::claims);
    }
}
