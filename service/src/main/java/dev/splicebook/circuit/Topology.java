package dev.splicebook.circuit;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Deque;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** What the graph of a network tells without its figures, so that no rounding can hide it. */
final class Topology {

    private Topology() {}

    /** Why edges between the named nodes, ground not counted, have no solution or many; null if nothing is seen. */
    static @Nullable Singular fault(List<String> nodes, List<Edge> edges) {
        Singular floating = floating(nodes, edges);
        return floating != null ? floating : loop(nodes.size(), edges);
    }

    private static @Nullable Singular floating(List<String> nodes, List<Edge> edges) {
        int ground = nodes.size();
        Groups groups = new Groups(ground + 1);
        for (Edge edge : edges) {
            if (edge.conducts()) {
                groups.join(orGround(edge.from(), ground), orGround(edge.to(), ground));
            }
            Edge.Winding winding = edge.winding();
            if (winding != null) {
                groups.join(orGround(winding.from(), ground), orGround(winding.to(), ground));
            }
        }
        int grounded = groups.of(ground);
        List<String> apart = new ArrayList<>();
        for (int node = 0; node < ground; node++) {
            if (groups.of(node) != grounded) {
                apart.add(nodes.get(node));
            }
        }
        if (apart.isEmpty()) {
            return null;
        }
        List<String> feeding = new ArrayList<>();
        for (Edge edge : edges) {
            if (edge.element() instanceof Element.CurrentSource
                    && groups.of(orGround(edge.from(), ground)) != groups.of(orGround(edge.to(), ground))) {
                feeding.add(edge.element().name());
            }
        }
        return new Singular(
                feeding.isEmpty() ? Singular.Cause.FLOATING_NODES : Singular.Cause.CURRENT_SOURCES_ONLY,
                apart,
                feeding);
    }

    private static @Nullable Singular loop(int ground, List<Edge> edges) {
        Groups groups = new Groups(ground + 1);
        List<Edge> tree = new ArrayList<>();
        for (Edge edge : edges) {
            if (edge.rigid()) {
                if (!groups.join(orGround(edge.from(), ground), orGround(edge.to(), ground))) {
                    Set<Edge> loop = path(ground, tree, edge.to(), edge.from());
                    loop.add(edge);
                    return new Singular(
                            Singular.Cause.SOURCE_LOOP,
                            List.of(),
                            edges.stream()
                                    .filter(loop::contains)
                                    .map(Edge::element)
                                    .map(Element::name)
                                    .toList());
                }
                tree.add(edge);
            }
        }
        return null;
    }

    /** The edges of a forest that lead from one node to another of the same tree. */
    private static Set<Edge> path(int ground, List<Edge> forest, int from, int to) {
        @Nullable Edge[] reachedBy = spread(ground, forest, orGround(to, ground));
        Set<Edge> path = new LinkedHashSet<>();
        int at = orGround(from, ground);
        for (Edge edge = reachedBy[at]; edge != null; edge = reachedBy[at]) {
            path.add(edge);
            at = otherEnd(edge, at, ground);
        }
        return path;
    }

    /**
     * Walks a forest from its ground, and where that does not lead from the lowest node left.
     *
     * @param ground number of nodes, which is that of ground here
     * @return for each node the edge that it was reached by; null for ground and where a walk began
     */
    static @Nullable Edge[] reachedBy(int ground, List<Edge> forest) {
        return spread(ground, forest, ground);
    }

    private static @Nullable Edge[] spread(int ground, List<Edge> forest, int start) {
        List<List<Edge>> at = new ArrayList<>();
        for (int node = 0; node <= ground; node++) {
            at.add(List.of());
        }
        for (Edge edge : forest) {
            append(at, orGround(edge.from(), ground), edge);
            append(at, orGround(edge.to(), ground), edge);
        }
        @Nullable Edge[] reachedBy = new Edge[ground + 1];
        boolean[] seen = new boolean[ground + 1];
        for (int step = -1; step <= ground; step++) {
            walk(step < 0 ? start : step, at, seen, reachedBy, ground);
        }
        return reachedBy;
    }

    private static void append(List<List<Edge>> at, int node, Edge edge) {
        if (at.get(node).isEmpty()) {
            at.set(node, new ArrayList<>(2));
        }
        at.get(node).add(edge);
    }

    private static void walk(int start, List<List<Edge>> at, boolean[] seen, @Nullable Edge[] reachedBy, int ground) {
        if (seen[start]) {
            return;
        }
        seen[start] = true;
        Deque<Integer> open = new ArrayDeque<>(List.of(start));
        while (!open.isEmpty()) {
            int node = open.remove();
            for (Edge edge : at.get(node)) {
                int other = otherEnd(edge, node, ground);
                if (!seen[other]) {
                    seen[other] = true;
                    reachedBy[other] = edge;
                    open.add(other);
                }
            }
        }
    }

    private static int otherEnd(Edge edge, int node, int ground) {
        int from = orGround(edge.from(), ground);
        return from == node ? orGround(edge.to(), ground) : from;
    }

    private static int orGround(int node, int ground) {
        return node == Edge.NONE ? ground : node;
    }

    /** Disjoint sets of numbers. */
    static final class Groups {

        private final int[] parent;

        Groups(int size) {
            parent = new int[size];
            Arrays.setAll(parent, at -> at);
        }

        int of(int at) {
            int root = at;
            while (parent[root] != root) {
                parent[root] = parent[parent[root]];
                root = parent[root];
            }
            return root;
        }

        /** False if they were together already. */
        boolean join(int one, int other) {
            int first = of(one);
            int second = of(other);
            parent[first] = second;
            return first != second;
        }
    }
}
