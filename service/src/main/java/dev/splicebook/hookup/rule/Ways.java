package dev.splicebook.hookup.rule;

import dev.splicebook.hookup.Device;
import dev.splicebook.hookup.net.Coil;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Scenario;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.PriorityQueue;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;

/** The ways of current against its flow: from where it would arrive back to where it may come from. */
final class Ways {

    /** Ways side by side that are looked for. */
    private static final int MOST_WAYS = 50;

    private Ways() {}

    /**
     * A way.
     *
     * @param from where it begins
     * @param ohms of the resistors and coils on it, 0 if there are none
     * @param parts that it leads through by more than a conductor, from its beginning
     * @param connections on it
     * @param resistances the resistors and coils on it
     * @param contacts on it, from its end
     */
    record Way(
            Node from,
            double ohms,
            List<String> parts,
            Set<String> connections,
            Set<Object> resistances,
            List<Link> contacts) {}

    private record Step(
            Node next,
            double ohms,
            @Nullable String part,
            @Nullable Link link,
            @Nullable Object resistance) {}

    private record Stand(
            Node node,
            double ohms,
            @Nullable Stand before,
            @Nullable Step step) {}

    /**
     * The way of least ohms from each node of a kind to a node, through conductors, closed contacts, diodes, resistors
     * and, if wanted, coils of known ohms. A way does not lead through ground, nor through another node of the kind.
     */
    static Map<Node, Way> into(
            Node end, Predicate<Node> isBeginning, boolean throughCoils, Network network, Scenario scenario) {
        return into(end, isBeginning, throughCoils, Set.of(), network, scenario);
    }

    private static Map<Node, Way> into(
            Node end,
            Predicate<Node> isBeginning,
            boolean throughCoils,
            Set<Object> without,
            Network network,
            Scenario scenario) {
        Map<Node, List<Step>> coils = throughCoils ? coilSteps(network) : Map.of();
        Map<Node, Way> ways = new LinkedHashMap<>();
        Set<Node> settled = new HashSet<>();
        PriorityQueue<Stand> queue = new PriorityQueue<>(Comparator.comparingDouble(Stand::ohms));
        queue.add(new Stand(end, 0, null, null));
        while (!queue.isEmpty()) {
            Stand at = queue.remove();
            if (!settled.add(at.node())) {
                continue;
            }
            if (at.node() != end && isBeginning.test(at.node())) {
                ways.put(at.node(), way(at));
                continue;
            }
            if (scenario.isGrounded(at.node())) {
                continue;
            }
            for (Link link : network.linksOf(at.node())) {
                Node next = link.across(at.node());
                boolean passes = link.kind().isContact() ? scenario.isClosed(link) : link.passesFrom(next);
                if (passes && !settled.contains(next) && !without.contains(link)) {
                    boolean solid = link.kind().isSolid();
                    boolean resists = link.kind() == Link.Kind.RESISTOR;
                    double ohms = resists ? ohms(link, network) : 0;
                    queue.add(new Stand(
                            next,
                            at.ohms() + ohms,
                            at,
                            new Step(next, ohms, solid ? null : link.from().owner(), link, resists ? link : null)));
                }
            }
            for (Step step : coils.getOrDefault(at.node(), List.of())) {
                if (step.resistance() != null && without.contains(step.resistance())) {
                    continue;
                }
                queue.add(new Stand(step.next(), at.ohms() + step.ohms(), at, step));
            }
        }
        return ways;
    }

    /**
     * Like {@link #into}, where no single way is of few enough ohms but several side by side are: for each beginning one of
     * the ohms of all together, no resistor or coil counted twice; empty where they are too many even so.
     */
    static Map<Node, Way> together(
            Node end, Predicate<Node> isBeginning, double mostOhms, Network network, Scenario scenario) {
        Map<Node, Way> together = new LinkedHashMap<>();
        Set<Object> used = new HashSet<>();
        double siemens = 0;
        int count = 0;
        for (Way way = leastLeft(end, isBeginning, used, network, scenario);
                way != null && siemens * mostOhms < 1 - 1e-9 && count < MOST_WAYS;
                way = leastLeft(end, isBeginning, used, network, scenario)) {
            count++;
            used.addAll(way.resistances());
            siemens += 1 / way.ohms();
            together.merge(way.from(), way, Ways::both);
        }
        double ohms = 1 / siemens;
        together.replaceAll(
                (from, way) -> new Way(from, ohms, way.parts(), way.connections(), way.resistances(), way.contacts()));
        return ohms > mostOhms * (1 + 1e-9) ? Map.of() : together;
    }

    /** The way of least ohms that takes none of some resistors and coils, but takes others and a connection. */
    private static @Nullable Way leastLeft(
            Node end, Predicate<Node> isBeginning, Set<Object> used, Network network, Scenario scenario) {
        return into(end, isBeginning, true, used, network, scenario).values().stream()
                .filter(way ->
                        !way.resistances().isEmpty() && !way.connections().isEmpty())
                .min(Comparator.comparingDouble(Way::ohms))
                .orElse(null);
    }

    private static Way both(Way one, Way other) {
        Set<String> parts = new TreeSet<>(one.parts());
        parts.addAll(other.parts());
        Set<String> connections = new LinkedHashSet<>(one.connections());
        connections.addAll(other.connections());
        Set<Object> resistances = new LinkedHashSet<>(one.resistances());
        resistances.addAll(other.resistances());
        return new Way(one.from(), one.ohms(), List.copyOf(parts), connections, resistances, one.contacts());
    }

    /** The way of least ohms to a node from any of a kind, not through coils; null if there is none. */
    static @Nullable Way least(Node end, Predicate<Node> isBeginning, Network network, Scenario scenario) {
        return into(end, isBeginning, false, network, scenario).values().stream()
                .min(Comparator.comparingDouble(Way::ohms))
                .orElse(null);
    }

    private static Map<Node, List<Step>> coilSteps(Network network) {
        Map<Node, List<Step>> steps = new HashMap<>();
        for (Coil coil : network.coils()) {
            if (coil.ohms() != null) {
                steps.computeIfAbsent(coil.one(), key -> new ArrayList<>(1))
                        .add(new Step(coil.other(), coil.ohms(), coil.part(), null, coil));
                steps.computeIfAbsent(coil.other(), key -> new ArrayList<>(1))
                        .add(new Step(coil.one(), coil.ohms(), coil.part(), null, coil));
            }
        }
        return steps;
    }

    private static Way way(Stand beginning) {
        Set<String> parts = new LinkedHashSet<>();
        Set<String> connections = new LinkedHashSet<>();
        Set<Object> resistances = new LinkedHashSet<>();
        List<Link> contacts = new ArrayList<>(1);
        for (Stand at = beginning; at != null; at = at.before()) {
            Step step = at.step();
            if (step != null && step.part() != null) {
                parts.add(step.part());
            }
            if (step != null && step.resistance() != null) {
                resistances.add(step.resistance());
            }
            if (step != null && step.link() != null && step.link().kind().isContact()) {
                contacts.add(0, step.link());
            }
            if (step != null && step.link() != null && step.link().ref() != null) {
                connections.add(step.link().ref());
            }
        }
        return new Way(beginning.node(), beginning.ohms(), List.copyOf(parts), connections, resistances, contacts);
    }

    /** Ohms of a resistor; of several between the same terminals, the least. */
    private static double ohms(Link resistor, Network network) {
        Device device = network.hookup().devices().get(resistor.from().owner());
        if (device == null) {
            throw new IllegalStateException("a resistor stands in a part, and this at " + resistor.from());
        }
        List<String> ends = List.of(resistor.from().name(), resistor.to().name());
        return device.resistors().stream()
                .filter(one -> ends.containsAll(one.between()))
                .mapToDouble(Device.Resistor::ohms)
                .min()
                .orElseThrow();
    }
}
