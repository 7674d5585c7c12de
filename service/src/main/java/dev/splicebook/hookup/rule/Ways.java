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
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;

/** The ways of current against its flow: from where it would arrive back to where it may come from. */
final class Ways {

    private Ways() {}

    /**
     * A way.
     *
     * @param from where it begins
     * @param ohms of the resistors and coils on it, 0 if there are none
     * @param parts that it leads through by more than a conductor, from its beginning
     * @param connections on it
     */
    record Way(Node from, double ohms, List<String> parts, Set<String> connections) {}

    private record Step(
            Node next,
            double ohms,
            @Nullable String part,
            @Nullable Link link) {}

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
                if (passes && !settled.contains(next)) {
                    boolean solid = link.kind().isSolid();
                    double ohms = link.kind() == Link.Kind.RESISTOR ? ohms(link, network) : 0;
                    queue.add(new Stand(
                            next,
                            at.ohms() + ohms,
                            at,
                            new Step(next, ohms, solid ? null : link.from().owner(), link)));
                }
            }
            for (Step step : coils.getOrDefault(at.node(), List.of())) {
                queue.add(new Stand(step.next(), at.ohms() + step.ohms(), at, step));
            }
        }
        return ways;
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
                        .add(new Step(coil.other(), coil.ohms(), coil.part(), null));
                steps.computeIfAbsent(coil.other(), key -> new ArrayList<>(1))
                        .add(new Step(coil.one(), coil.ohms(), coil.part(), null));
            }
        }
        return steps;
    }

    private static Way way(Stand beginning) {
        Set<String> parts = new LinkedHashSet<>();
        Set<String> connections = new LinkedHashSet<>();
        for (Stand at = beginning; at != null; at = at.before()) {
            Step step = at.step();
            if (step != null && step.part() != null) {
                parts.add(step.part());
            }
            if (step != null && step.link() != null && step.link().ref() != null) {
                connections.add(step.link().ref());
            }
        }
        return new Way(beginning.node(), beginning.ohms(), List.copyOf(parts), connections);
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
