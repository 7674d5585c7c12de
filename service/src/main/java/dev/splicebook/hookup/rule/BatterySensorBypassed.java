package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Names;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.Vehicle;
import dev.splicebook.hookup.net.Coil;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Scenario;
import java.util.ArrayDeque;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;

/** A load returns at the battery's negative terminal, past the sensor that counts the battery's current there. */
@AutoService(Rule.class)
@About(
        code = "battery-sensor-bypassed",
        severity = Severity.WARNING,
        since = "0.2",
        condition =
                "A load returns at the battery's negative terminal, past the sensor that counts the battery's current there.",
        checks =
                "Where something is connected to the battery's negative terminal: whether the vehicle has a sensor on it, and"
                        + " whether a load, a coil, or a second way to the chassis ends there.",
        why =
                "The sensor misses the current. The vehicle thinks that its battery is fuller than it is, charges too little, and"
                        + " one morning does not start.",
        mend = "Return to the chassis, or to the vehicle's side of the sensor.",
        source = "Common practice, no source.",
        fails = """
                {"vehicle": {"inline": {"batterySensor": true, "circuits": {}}},
                 "parts": {"AMP": {"inline": {"terminals": {
                   "plus": {"electrical": {"kind": "load", "typicalAmps": 20, "maxAmps": 50, "needs": "constant"}},
                   "minus": {"electrical": {"kind": "ground"}}}}}},
                 "connections": {
                   "W1": {"ends": ["CAR.battery-plus", "AMP.plus"], "conductor": {"size": "4 AWG"},
                          "fuse": {"ratingAmps": 60, "fromSource": {"value": 20, "unit": "cm"}}},
                   "W2": {"ends": ["AMP.minus", "CAR.battery-minus"], "conductor": {"size": "4 AWG"}}}}
                """,
        passes = """
                {"vehicle": {"inline": {"batterySensor": false, "circuits": {}}},
                 "parts": {"AMP": {"inline": {"terminals": {
                   "plus": {"electrical": {"kind": "load", "typicalAmps": 20, "maxAmps": 50, "needs": "constant"}},
                   "minus": {"electrical": {"kind": "ground"}}}}}},
                 "connections": {
                   "W1": {"ends": ["CAR.battery-plus", "AMP.plus"], "conductor": {"size": "4 AWG"},
                          "fuse": {"ratingAmps": 60, "fromSource": {"value": 20, "unit": "cm"}}},
                   "W2": {"ends": ["AMP.minus", "CAR.battery-minus"], "conductor": {"size": "4 AWG"}}}}
                """)
public final class BatterySensorBypassed implements Rule {

    @Override
    public void check(Examination examination) {
        Node post = examination.network().findNode(Names.VEHICLE + "." + Vehicle.BATTERY_MINUS);
        if (post == null) {
            return;
        }
        Set<Node> returns = new LinkedHashSet<>();
        Set<String> connections = new TreeSet<>();
        for (Scenario scenario : examination.reading().partitions()) {
            follow(post, scenario, returns, connections, examination);
        }
        if (returns.isEmpty()) {
            return;
        }
        examination.applies();
        Boolean sensor = examination.network().hookup().map().batterySensor();
        if (sensor == null) {
            examination.missing(Names.VEHICLE, "batterySensor");
        } else if (sensor) {
            examination
                    .report(
                            Say.names(returns) + (returns.size() == 1 ? " returns" : " return") + " at "
                                    + Say.name(post)
                                    + " itself, past the sensor there that counts the battery's current",
                            "return to the chassis, or to the vehicle's side of the sensor.")
                    .at(returns)
                    .at(post)
                    .through(connections);
        }
    }

    /** What returns at the post by conductors and contacts alone; what the vehicle itself grounds is seen by the sensor. */
    private static void follow(
            Node post, Scenario scenario, Set<Node> returns, Set<String> connections, Examination examination) {
        Set<Node> coilEnds = new HashSet<>();
        for (Coil coil : examination.network().coils()) {
            coilEnds.addAll(List.of(coil.one(), coil.other()));
        }
        Set<Node> seen = new HashSet<>(Set.of(post));
        ArrayDeque<Node> queue = new ArrayDeque<>(seen);
        while (!queue.isEmpty()) {
            Node at = queue.remove();
            if (at != post && (at.facts() instanceof Electrical.Ground || coilEnds.contains(at))) {
                returns.add(at);
            }
            if (at != post && at.isReference()) {
                continue;
            }
            for (Link link : examination.network().linksOf(at)) {
                boolean joins = link.kind().isContact()
                        ? scenario.isClosed(link)
                        : link.kind().isSolid();
                if (joins && seen.add(link.across(at))) {
                    queue.add(link.across(at));
                    if (link.ref() != null) {
                        connections.add(link.ref());
                    }
                }
            }
        }
    }
}
