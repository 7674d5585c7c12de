package dev.splicebook.hookup.pair;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jgrapht.alg.flow.mincost.CapacityScalingMinimumCostFlow;
import org.jgrapht.alg.flow.mincost.MinimumCostFlowProblem.MinimumCostFlowProblemImpl;
import org.jgrapht.alg.interfaces.MinimumCostFlowAlgorithm.MinimumCostFlow;
import org.jgrapht.graph.DefaultWeightedEdge;
import org.jgrapht.graph.DirectedWeightedMultigraph;

/**
 * Gives each want at most one source, at the least cost of all together: a min-cost flow from the wants through the sources
 * to a sink, in which a want may also go without.
 *
 * @param <S> a source
 */
final class Assignment<S> {

    /** What it costs more to take from a source that serves another want already. */
    static final double AGAIN_POINTS = 15;

    /** Lifts all that a want may go through by the same, so that a reward never makes a cost negative. */
    private static final double LIFT_POINTS = 1000;

    private static final Object START = "start";
    private static final Object END = "end";

    /** A source that a want may take. */
    record Option<S>(Want want, S source, double points) {}

    private final List<Want> wants;
    private final List<Option<S>> options = new ArrayList<>();
    private final Map<S, Integer> servings = new LinkedHashMap<>();

    Assignment(List<Want> wants) {
        this.wants = wants;
    }

    void allow(Want want, S source, double points) {
        options.add(new Option<>(want, source, points));
        servings.putIfAbsent(source, 1);
    }

    /** How many wants a source may serve, 1 if not told. */
    void serve(S source, int most) {
        servings.put(source, most);
    }

    /** The choice; a want that goes without is absent. */
    Map<Want, S> solve() {
        DirectedWeightedMultigraph<Object, DefaultWeightedEdge> graph =
                new DirectedWeightedMultigraph<>(DefaultWeightedEdge.class);
        graph.addVertex(START);
        graph.addVertex(END);
        Map<DefaultWeightedEdge, Option<S>> optionOf = new LinkedHashMap<>();
        Map<DefaultWeightedEdge, Integer> capacities = new LinkedHashMap<>();
        for (Want want : wants) {
            graph.addVertex(want);
            edge(START, want, 0, 1, graph, capacities);
            edge(want, END, LIFT_POINTS + want.lackPoints(), 1, graph, capacities);
        }
        Map<S, Object> vertices = new LinkedHashMap<>();
        for (Option<S> option : options) {
            Object vertex = vertices.computeIfAbsent(option.source(), source -> {
                Object made = List.of(source);
                graph.addVertex(made);
                edge(made, END, 0, 1, graph, capacities);
                int again = servings.getOrDefault(source, 1) - 1;
                if (again > 0) {
                    edge(made, END, AGAIN_POINTS, again, graph, capacities);
                }
                return made;
            });
            optionOf.put(edge(option.want(), vertex, LIFT_POINTS + option.points(), 1, graph, capacities), option);
        }
        MinimumCostFlow<DefaultWeightedEdge> flow = new CapacityScalingMinimumCostFlow<Object, DefaultWeightedEdge>()
                .getMinimumCostFlow(new MinimumCostFlowProblemImpl<>(
                        graph,
                        vertex -> vertex == START ? wants.size() : vertex == END ? -wants.size() : 0,
                        edge -> capacities.getOrDefault(edge, 0)));
        Map<Want, S> chosen = new LinkedHashMap<>();
        optionOf.forEach((edge, option) -> {
            if (flow.getFlow(edge) > 0.5) {
                chosen.put(option.want(), option.source());
            }
        });
        return chosen;
    }

    private static DefaultWeightedEdge edge(
            Object from,
            Object to,
            double points,
            int capacity,
            DirectedWeightedMultigraph<Object, DefaultWeightedEdge> graph,
            Map<DefaultWeightedEdge, Integer> capacities) {
        DefaultWeightedEdge edge = graph.addEdge(from, to);
        graph.setEdgeWeight(edge, points);
        capacities.put(edge, capacity);
        return edge;
    }
}
