package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.net.Coil;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Scenario;
import java.util.ArrayDeque;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;

/** A relay cuts off its own coil, so that it never comes to rest. */
@AutoService(Rule.class)
@About(
        code = "relay-restless",
        severity = Severity.ERROR,
        since = "0.1",
        condition = "A relay cuts off its own coil, so that it never comes to rest.",
        checks =
                "Every relay in every state, from released: the coil pulls, the contacts move, and so on until nothing changes."
                        + " If a position comes back, the relay buzzes.",
        why = "It chatters many times a second, burns its contacts, and feeds pulses into everything behind it.",
        mend = "Feed the coil from a point that its own contact does not switch.",
        source = "Common practice, no source.",
        fails = """
                {"vehicle": {"inline": {"circuits": {"C1-8": {"electrical":
                   {"kind": "supply", "maxAmps": 10, "fuseAmps": 10, "live": ["accessory", "ignition", "running", "restarting"]}}}}},
                 "parts": {"K1": {"inline": {"relays": [{"coil": ["85", "86"], "coilOhms": 90, "common": "30", "closed": "87a"}]}}},
                 "connections": {"W1": {"ends": ["CAR.C1-8", "K1.30"], "conductor": {"size": "16 AWG"}},
                                 "W2": {"ends": ["K1.87a", "K1.86"]}, "W3": {"ends": ["CAR.chassis", "K1.85"]}}}
                """,
        passes = """
                {"vehicle": {"inline": {"circuits": {"C1-8": {"electrical":
                   {"kind": "supply", "maxAmps": 10, "fuseAmps": 10, "live": ["accessory", "ignition", "running", "restarting"]}}}}},
                 "parts": {"K1": {"inline": {"relays": [{"coil": ["85", "86"], "coilOhms": 90, "common": "30", "closed": "87a"}]}}},
                 "connections": {"W1": {"ends": ["CAR.C1-8", "K1.30"], "conductor": {"size": "16 AWG"}},
                                 "W2": {"ends": ["CAR.C1-8", "K1.86"]}, "W3": {"ends": ["CAR.chassis", "K1.85"]}}}
                """)
public final class RelayRestless implements Rule {

    @Override
    public void check(Examination examination) {
        List<Coil> coils = examination.network().coils();
        if (coils.isEmpty()) {
            return;
        }
        examination.applies();
        Map<Coil, Set<Coil>> switchedBy = new LinkedHashMap<>();
        for (Coil coil : coils) {
            Set<Coil> before = new LinkedHashSet<>(Controls.relaysBefore(coil.one(), examination));
            before.addAll(Controls.relaysBefore(coil.other(), examination));
            switchedBy.put(coil, before);
        }
        Map<String, Set<State>> restless = new TreeMap<>();
        for (Scenario scenario : examination.network().scenarios()) {
            for (String part : scenario.restless()) {
                restless.computeIfAbsent(part, key -> EnumSet.noneOf(State.class))
                        .add(scenario.state());
            }
        }
        Set<String> told = new TreeSet<>();
        for (String part : restless.keySet()) {
            if (!told.contains(part)) {
                Set<String> together = together(part, restless.keySet(), switchedBy);
                told.addAll(together);
                report(together, restless, examination);
            }
        }
        for (Coil coil : coils) {
            if (!told.contains(coil.part()) && behind(coil, switchedBy).contains(coil)) {
                Controls.lackRelayFacts(coil.one(), examination);
                Controls.lackRelayFacts(coil.other(), examination);
            }
        }
    }

    /** The relays whose contacts stand before a coil, before the coils of those, and so on. */
    private static Set<Coil> behind(Coil coil, Map<Coil, Set<Coil>> switchedBy) {
        Set<Coil> behind = new LinkedHashSet<>();
        ArrayDeque<Coil> queue = new ArrayDeque<>(List.of(coil));
        while (!queue.isEmpty()) {
            for (Coil before : switchedBy.getOrDefault(queue.remove(), Set.of())) {
                if (behind.add(before)) {
                    queue.add(before);
                }
            }
        }
        return behind;
    }

    /** The restless parts that pass their unrest on to one another, so that they are one cause. */
    private static Set<String> together(String part, Set<String> restless, Map<Coil, Set<Coil>> switchedBy) {
        Set<String> together = new TreeSet<>(Set.of(part));
        boolean grown = true;
        while (grown) {
            grown = false;
            for (Map.Entry<Coil, Set<Coil>> entry : switchedBy.entrySet()) {
                String one = entry.getKey().part();
                for (Coil before : entry.getValue()) {
                    boolean both = restless.contains(one) && restless.contains(before.part());
                    if (both && (together.contains(one) || together.contains(before.part()))) {
                        grown |= together.addAll(List.of(one, before.part()));
                    }
                }
            }
        }
        return together;
    }

    private static void report(Set<String> parts, Map<String, Set<State>> restless, Examination examination) {
        Set<Node> coils = new LinkedHashSet<>();
        Set<State> states = EnumSet.noneOf(State.class);
        parts.forEach(part -> states.addAll(restless.getOrDefault(part, Set.of())));
        for (Coil coil : examination.network().coils()) {
            if (parts.contains(coil.part())) {
                coils.add(coil.one());
                coils.add(coil.other());
            }
        }
        String names = Say.list(List.copyOf(parts));
        boolean alone = parts.size() == 1;
        examination
                .report(
                        (alone
                                        ? "the relay " + names + " switches its own coil off and on without rest while "
                                        : "the relays " + names
                                                + " switch one another's coils off and on without rest while ")
                                + Say.states(states),
                        alone
                                ? "feed the coil of " + names + " from a point that its own contact does not switch."
                                : "feed the coil of one of them from a point that none of their contacts switches.")
                .at(coils)
                .through(examination.reading().connectionsAt(coils))
                .in(states);
    }
}
