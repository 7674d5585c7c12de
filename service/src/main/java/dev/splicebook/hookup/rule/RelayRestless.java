package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.net.Coil;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Scenario;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.Map;
import java.util.Set;

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
        Map<String, Set<State>> restless = new LinkedHashMap<>();
        for (Scenario scenario : examination.network().scenarios()) {
            for (String part : scenario.restless()) {
                restless.computeIfAbsent(part, key -> EnumSet.noneOf(State.class))
                        .add(scenario.state());
            }
        }
        if (!examination.network().coils().isEmpty()) {
            examination.applies();
        }
        restless.forEach((part, states) -> {
            Set<Node> coils = new LinkedHashSet<>();
            for (Coil coil : examination.network().coils()) {
                if (coil.part().equals(part)) {
                    coils.add(coil.one());
                    coils.add(coil.other());
                }
            }
            examination
                    .report(
                            "the relay " + part + " switches its own coil off and on without rest while "
                                    + Say.states(states),
                            "feed the coil of " + part + " from a point that its own contact does not switch.")
                    .at(coils)
                    .through(examination.reading().connectionsAt(coils))
                    .in(states);
        });
    }
}
