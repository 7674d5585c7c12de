package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.net.Coil;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Reach;
import dev.splicebook.hookup.net.Scenario;
import dev.splicebook.hookup.net.Scenario.Sure;
import dev.splicebook.hookup.rule.Ways.Way;
import java.util.ArrayList;
import java.util.Collection;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Predicate;

/** A switched line is live in a state in which its own source is not. */
@AutoService(Rule.class)
@About(
        code = "line-back-fed",
        severity = Severity.ERROR,
        since = "0.2",
        condition = "A switched line is live in a state in which its own source is not.",
        checks =
                "Every supply and every 12 V output in each state in which it gives nothing: no other live source may push"
                        + " current into it, through closed contacts, diodes, resistors or the coil of a relay. Resistors and coils"
                        + " side by side count together.",
        why =
                "Whatever else hangs on the line wakes with it: the radio stays on with the key out, a lamp holds the accessory"
                        + " line up, and the module behind the line is fed through its own output.",
        mend =
                "Put a diode into each feed, its banded end towards the load, so that neither feeds the other; or let a relay"
                        + " choose between them.",
        source = "Kirchhoff's current law. What current matters: common practice, no source.",
        fails = """
                {"vehicle": {"inline": {"circuits": {
                   "C1-7": {"function": "power.battery", "electrical": {"kind": "supply", "maxAmps": 10, "fuseAmps": 10,
                     "live": ["asleep", "accessory", "ignition", "cranking", "running", "restarting"]}},
                   "C1-8": {"function": "power.accessory", "electrical": {"kind": "supply", "maxAmps": 10, "fuseAmps": 10,
                     "live": ["accessory", "ignition", "running", "restarting"]}}}}},
                 "parts": {"D": {"inline": {"diodes": [{"anode": "in", "cathode": "out", "amps": 6}]}}},
                 "connections": {"W1": {"ends": ["CAR.C1-7", "D.in"], "conductor": {"size": "16 AWG"}},
                                 "W2": {"ends": ["D.out", "CAR.C1-8"], "conductor": {"size": "16 AWG"}}}}
                """,
        passes = """
                {"vehicle": {"inline": {"circuits": {
                   "C1-7": {"function": "power.battery", "electrical": {"kind": "supply", "maxAmps": 10, "fuseAmps": 10,
                     "live": ["asleep", "accessory", "ignition", "cranking", "running", "restarting"]}},
                   "C1-8": {"function": "power.accessory", "electrical": {"kind": "supply", "maxAmps": 10, "fuseAmps": 10,
                     "live": ["accessory", "ignition", "running", "restarting"]}}}}},
                 "parts": {"D": {"inline": {"diodes": [{"anode": "in-1", "cathode": "out", "amps": 6},
                                                       {"anode": "in-2", "cathode": "out", "amps": 6}]}},
                           "HU": {"inline": {"terminals": {
                             "memory": {"electrical": {"kind": "load", "typicalAmps": 0.5, "maxAmps": 1, "needs": "constant"}},
                             "ground": {"electrical": {"kind": "ground"}}}}}},
                 "connections": {"W1": {"ends": ["CAR.C1-7", "D.in-1"], "conductor": {"size": "16 AWG"}},
                                 "W2": {"ends": ["CAR.C1-8", "D.in-2"], "conductor": {"size": "16 AWG"}},
                                 "W3": {"ends": ["D.out", "HU.memory"], "conductor": {"size": "16 AWG"}},
                                 "W4": {"ends": ["HU.ground", "CAR.chassis"], "conductor": {"size": "16 AWG"}}}}
                """,
        rank = Rank.FEED)
public final class LineBackFed implements Rule {

    static final Threshold CURRENT = new Threshold(
            "leastAmps",
            0.1,
            "A",
            0.001,
            1,
            "current that a resistor or coil must let into a line to count: enough to hold a small relay or to keep a module"
                    + " awake; common practice, no source");

    private static final class Found {
        final Set<Node> lines = new LinkedHashSet<>();
        final Set<State> states = EnumSet.noneOf(State.class);
        final Set<State> plainly = EnumSet.noneOf(State.class);
        final Set<String> at = new LinkedHashSet<>();
        final Set<String> parts = new LinkedHashSet<>();
        final Set<String> relays = new TreeSet<>();
        final Set<String> connections = new LinkedHashSet<>();
        double ohms;
    }

    @Override
    public void check(Examination examination) {
        Map<Set<Node>, Found> found = new LinkedHashMap<>();
        Map<Object, Map<Node, Map<Node, Way>>> bySolution = new HashMap<>();
        for (Scenario scenario : examination.network().scenarios()) {
            Map<Node, Map<Node, Way>> lines =
                    bySolution.computeIfAbsent(scenario.solution(), solution -> look(scenario, examination));
            lines.forEach((line, ways) -> add(line, ways, scenario, found));
        }
        found.forEach((feeders, one) -> report(feeders, one, examination));
    }

    private static Map<Node, Map<Node, Way>> look(Scenario scenario, Examination examination) {
        Map<Node, Map<Node, Way>> lines = new LinkedHashMap<>();
        for (Node line : examination.network().sources()) {
            if (!line.givesTwelveVolts() || !examination.network().isConnected(line)) {
                continue;
            }
            examination.applies();
            if (scenario.isLive(line) == Sure.NO) {
                Map<Node, Way> ways = feeders(line, scenario, examination);
                if (!ways.isEmpty()) {
                    lines.put(line, ways);
                }
            }
            tellUnknown(line, scenario, examination);
        }
        return lines;
    }

    /** What feeds a line that gives nothing of its own in a scenario, and how. */
    static Map<Node, Way> feeders(Node line, Scenario scenario, Examination examination) {
        double most = Draws.volts(examination.network(), scenario.state()) / examination.value(CURRENT);
        Predicate<Node> feeds =
                node -> node.givesTwelveVolts() && scenario.isLive(node) == Sure.YES && !isSameSource(node, line);
        Map<Node, Way> ways = Ways.into(line, feeds, true, examination.network(), scenario);
        // what a part does inside is its maker's doing
        ways.values().removeIf(way -> way.connections().isEmpty());
        // a charger stands at the battery that it charges
        ways.keySet()
                .removeIf(feeder -> examination.network().isBattery(feeder)
                        && SuppliesTied.isCharger(line, feeder, scenario, examination.network()));
        boolean weak = !ways.isEmpty();
        ways.values().removeIf(way -> way.ohms() > most * (1 + 1e-9));
        return weak && ways.isEmpty() ? Ways.together(line, feeds, most, examination.network(), scenario) : ways;
    }

    /** Whether all that keeps 12 V on a node in a scenario does so by feeding a line that gives none itself. */
    static boolean isBackFed(Node node, Collection<Node> keptBy, Scenario scenario, Examination examination) {
        for (Node line : scenario.members(scenario.netOf(node))) {
            if (!keptBy.isEmpty()
                    && line.givesTwelveVolts()
                    && scenario.isLive(line) == Sure.NO
                    && feeders(line, scenario, examination).keySet().containsAll(keptBy)) {
                return true;
            }
        }
        return false;
    }

    private static boolean isSameSource(Node one, Node other) {
        return one.owner().equals(other.owner())
                && one.source() != null
                && one.source().equals(other.source());
    }

    /** Where a fact is missing, and with it the line would be fed or not. */
    private static void tellUnknown(Node line, Scenario scenario, Examination examination) {
        Sure live = scenario.isLive(line);
        if (live == Sure.YES) {
            return;
        }
        for (Reach reach : scenario.reaches(line)) {
            Node other = reach.source();
            Sure now = other.givesTwelveVolts() ? scenario.isLive(other) : Sure.NO;
            if (other != line && reach.hard() && now != Sure.NO && !isSameSource(line, other)) {
                if (live == Sure.UNKNOWN) {
                    Controls.lackLive(line, examination);
                } else if (now == Sure.UNKNOWN) {
                    Controls.lackLive(other, examination);
                }
            }
        }
    }

    private static void add(Node line, Map<Node, Way> ways, Scenario scenario, Map<Set<Node>, Found> found) {
        boolean toldSingly = scenario.conditions().size() > 1
                && ways.keySet().stream()
                        .allMatch(feeder -> found.entrySet().stream()
                                .anyMatch(other -> other.getKey().contains(feeder)
                                        && other.getValue().lines.contains(line)
                                        && other.getValue().states.contains(scenario.state())));
        if (toldSingly) {
            return;
        }
        Found one = found.computeIfAbsent(ways.keySet(), key -> new Found());
        one.lines.add(line);
        boolean isNew = one.states.add(scenario.state());
        if (scenario.conditions().isEmpty()) {
            one.plainly.add(scenario.state());
        } else if (isNew || scenario.conditions().size() == 1) {
            one.at.add(scenario.toString());
        }
        ways.values().forEach(way -> {
            one.parts.addAll(way.parts());
            way.resistances().stream()
                    .filter(Coil.class::isInstance)
                    .map(coil -> ((Coil) coil).part())
                    .forEach(one.relays::add);
            one.connections.addAll(way.connections());
            one.ohms = Math.max(one.ohms, way.ohms());
        });
    }

    private static void report(Set<Node> feeders, Found found, Examination examination) {
        boolean one = found.lines.size() == 1;
        String states =
                found.plainly.isEmpty() ? "while " + Say.list(List.copyOf(found.at)) : Say.inStates(found.plainly);
        List<String> parts = new ArrayList<>(found.parts);
        String through = parts.isEmpty()
                ? ""
                : found.ohms > 0
                        ? String.format(Locale.ROOT, " through the %.0f ohms of ", found.ohms) + Say.list(parts)
                        : " through " + Say.list(parts);
        examination
                .report(
                        Say.names(found.lines) + (one ? " is" : " are") + " fed backwards " + states
                                + ", when " + (one ? "its own source gives" : "their own sources give") + " nothing: "
                                + Say.names(feeders) + (feeders.size() == 1 ? " feeds " : " feed ")
                                + (one ? "it" : "them") + through,
                        found.relays.isEmpty()
                                ? "put a diode in the lead from " + Say.names(found.lines)
                                        + ", its banded end towards the load, or let a relay choose between the feeds."
                                : "take one end of "
                                        + (found.relays.size() == 1 ? "the coil of " : "each of the coils of ")
                                        + Say.list(List.copyOf(found.relays))
                                        + " off its feed and connect that end to ground: between two feeds a coil pulls"
                                        + " whenever one of them is dead.")
                .besides(found.lines)
                .besides(feeders)
                .through(found.connections)
                .in(found.plainly.isEmpty() ? found.states : found.plainly);
    }
}
