package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.VoltRange;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Scenario;
import java.util.BitSet;
import java.util.Collection;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;

/** Supplies of different sources stand on one net, with nothing that isolates them in every state. */
@AutoService(Rule.class)
@About(
        code = "supplies-tied",
        severity = Severity.ERROR,
        since = "0.1",
        condition = "Supplies of different sources stand on one net, with nothing that isolates them in every state.",
        checks =
                "Every net in every state: two supplies, unless the map says that they come from the same source. A diode"
                        + " isolates; a relay isolates only while it is open. Batteries of the same volts, 12 or 24, may meet through a contact that"
                        + " parts them while the vehicle is asleep, and the output of a charger, which is for a battery, limits its"
                        + " current and has a feed of its own, may meet a battery other than the one that feeds it. Second batteries of the"
                        + " same stated volts side by side are one bank.",
        why =
                "The constant feed then powers what should sleep, two fuses share one wire so that neither protects it, and a"
                        + " module sees volts when it should see none.",
        mend = "Feed the load from one of them. Where it needs both, put a diode in each, or a relay that picks one.",
        source = "Common practice, no source.",
        fails = """
                {"vehicle": {"inline": {"circuits": {
                   "C1-7": {"function": "power.battery", "electrical": {"kind": "supply", "maxAmps": 10, "fuseAmps": 10,
                     "live": ["asleep", "accessory", "ignition", "cranking", "running", "restarting"]}},
                   "C1-8": {"function": "power.accessory", "electrical": {"kind": "supply", "maxAmps": 10, "fuseAmps": 10,
                     "live": ["accessory", "ignition", "running", "restarting"]}}}}},
                 "connections": {"W1": {"ends": ["CAR.C1-7", "CAR.C1-8"], "conductor": {"size": "16 AWG"}}}}
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
        rank = Rank.SUPPLIES_TIED)
public final class SuppliesTied implements Rule {

    private static final class Found {
        final Set<State> states = EnumSet.noneOf(State.class);
        final Set<String> conditions = new LinkedHashSet<>();
        final Set<String> connections = new TreeSet<>();
        final Map<Scenario, Integer> nets = new LinkedHashMap<>();
        boolean plainly;

        void add(Scenario scenario) {
            boolean isNew = states.add(scenario.state());
            if (scenario.conditions().isEmpty()) {
                plainly = true;
            } else if (isNew || scenario.conditions().size() == 1) {
                conditions.add(Scenario.named(scenario.conditions()));
            }
        }

        /** Like {@code in every state with lamps}. */
        String when() {
            return Say.inStates(states) + (plainly ? "" : " with " + String.join(" or ", conditions));
        }
    }

    @Override
    public void check(Examination examination) {
        Map<Set<Node>, Found> ties = new LinkedHashMap<>();
        for (Scenario scenario : examination.network().scenarios()) {
            BitSet done = new BitSet();
            for (Node source : examination.network().sources()) {
                int net = scenario.netOf(source);
                if (!(source.facts() instanceof Electrical.Supply)
                        || done.get(net)
                        || scenario.members(net).size() == 1) {
                    continue;
                }
                done.set(net);
                examination.applies();
                if (isAlone(source, scenario.members(net))) {
                    continue;
                }
                Set<Node> supplies = supplies(net, scenario);
                if (areTied(supplies, scenario, examination.network())) {
                    Found found = ties.computeIfAbsent(supplies, key -> new Found());
                    found.add(scenario);
                    found.connections.addAll(examination.reading().connectionsBetween(supplies, scenario, net));
                    found.nets.put(scenario, net);
                } else if (sources(supplies) > 1 && isBank(supplies, examination.network())) {
                    supplies.stream()
                            .filter(supply ->
                                    supply.facts() instanceof Electrical.Supply facts && facts.volts() == null)
                            .forEach(supply -> examination.missing(supply, "volts"));
                } else if (sources(supplies) == 1) {
                    scenario.members(net).stream()
                            .filter(node -> node.role() == Node.Role.CIRCUIT && node.facts() == null)
                            .forEach(node -> examination.missing(node, "electrical"));
                }
            }
        }
        // two that a third joins in some states are told with it
        ties.keySet()
                .removeIf(small -> ties.keySet().stream()
                        .anyMatch(large -> large.size() > small.size() && large.containsAll(small)));
        ties.forEach((supplies, found) -> {
            Examination.Draft draft = examination
                    .report(
                            Say.names(supplies) + " are different supplies on one net " + found.when(),
                            "feed from one of them, or put a diode or relay between so that they never meet.")
                    .at(supplies)
                    .through(found.connections)
                    .in(found.states);
            found.nets.forEach(draft::claims);
        });
    }

    private static Set<Node> supplies(int net, Scenario scenario) {
        Set<Node> supplies = new LinkedHashSet<>();
        for (Node node : scenario.members(net)) {
            if (node.facts() instanceof Electrical.Supply) {
                supplies.add(node);
            }
        }
        return supplies;
    }

    private static long sources(Set<Node> supplies) {
        return supplies.stream()
                .map(node -> node.source() == null ? node : node.source())
                .distinct()
                .count();
    }

    private static boolean areTied(Set<Node> supplies, Scenario scenario, Network network) {
        return sources(supplies) > 1
                && !isBank(supplies, network)
                && !isIsolated(supplies, scenario, network)
                && !isCharged(supplies, scenario, network);
    }

    /** Whether different supplies stand on a net that may not. */
    static boolean isTied(int net, Scenario scenario, Network network) {
        return areTied(supplies(net, scenario), scenario, network);
    }

    /** Whether no other supply stands on its net, and nothing of the vehicle that might be one. */
    private static boolean isAlone(Node supply, List<Node> members) {
        for (Node node : members) {
            if (node != supply
                    && (node.facts() instanceof Electrical.Supply
                            || (node.role() == Node.Role.CIRCUIT && node.facts() == null))) {
                return false;
            }
        }
        return true;
    }

    /** One battery, and chargers that other batteries feed. */
    private static boolean isCharged(Set<Node> supplies, Scenario scenario, Network network) {
        List<Node> batteries = supplies.stream().filter(network::isBattery).toList();
        return batteries.size() == 1
                && supplies.stream()
                        .filter(supply -> !batteries.contains(supply))
                        .allMatch(supply -> isCharger(supply, batteries.get(0), scenario, network));
    }

    /** Whether a supply charges a battery that does not feed it. */
    static boolean isCharger(Node supply, Node battery, Scenario scenario, Network network) {
        List<Node> feeds = network.nodesOf(supply.owner()).stream()
                .filter(node -> node.facts() instanceof Electrical.Load)
                .toList();
        return supply.isFor(Network.BATTERY)
                && supply.facts() instanceof Electrical.Supply facts
                && Boolean.TRUE.equals(facts.limited())
                && !feeds.isEmpty()
                && feeds.stream()
                        .noneMatch(feed -> scenario.reaches(feed).stream()
                                .anyMatch(reach -> reach.source().equals(battery)));
    }

    /** Second batteries side by side of the same volts, which work as one; where these are not stated they are asked for. */
    private static boolean isBank(Collection<Node> supplies, Network network) {
        Set<Double> volts = new HashSet<>();
        for (Node supply : supplies) {
            if (supply.isVehicle()
                    || !network.isBattery(supply)
                    || !(supply.facts() instanceof Electrical.Supply facts)) {
                return false;
            }
            volts.add(facts.volts());
        }
        volts.remove(null);
        return volts.size() < 2;
    }

    /** Whether none is for 12 V and another for 24; the vehicle's is by what the engine charges it with. */
    private static boolean areOfOneVoltage(Collection<Node> batteries, Network network) {
        VoltRange running = network.hookup().map().runningVolts();
        Set<Boolean> of24 = new HashSet<>();
        for (Node battery : batteries) {
            Double volts = battery.facts() instanceof Electrical.Supply facts ? facts.volts() : null;
            if (volts != null) {
                of24.add(new VoltRange(volts, volts).isOf24Volts());
            } else if (battery.isVehicle()) {
                of24.add(running != null && running.isOf24Volts());
            }
        }
        return of24.size() < 2;
    }

    /** Batteries, or banks, that charge together and are parted asleep, so that neither drains the other. */
    private static boolean isIsolated(Set<Node> supplies, Scenario scenario, Network network) {
        return scenario.state() != State.ASLEEP
                && supplies.stream().allMatch(network::isBattery)
                && areOfOneVoltage(supplies, network)
                && supplies.stream().collect(Collectors.groupingBy(Node::net)).values().stream()
                        .allMatch(side -> side.size() == 1 || isBank(side, network));
    }
}
