package dev.splicebook.hookup.rule;

import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * A fuse upstream of vehicle circuits; circuits that name the same source share one.
 *
 * @param circuits one or more supplies
 * @param ratingAmps of the fuse, the smallest where the map differs with itself
 * @param givesAmps the most that a single circuit gives, or several together
 */
record SharedFuse(List<Node> circuits, double ratingAmps, double givesAmps) {

    static List<SharedFuse> of(Network network) {
        Map<Object, List<Node>> bySource = new LinkedHashMap<>();
        for (Node node : network.sources()) {
            if (node.facts() instanceof Electrical.Supply) {
                Object source = node.source() == null ? node : node.source();
                bySource.computeIfAbsent(source, key -> new ArrayList<>(1)).add(node);
            }
        }
        List<SharedFuse> fuses = new ArrayList<>();
        for (List<Node> circuits : bySource.values()) {
            double ratingAmps = Double.POSITIVE_INFINITY;
            for (Node circuit : circuits) {
                if (circuit.facts() instanceof Electrical.Supply supply && supply.fuseAmps() != null) {
                    ratingAmps = Math.min(ratingAmps, supply.fuseAmps());
                }
            }
            if (ratingAmps < Double.POSITIVE_INFINITY) {
                fuses.add(new SharedFuse(circuits, ratingAmps, givesAmps(circuits, ratingAmps)));
            }
        }
        return fuses;
    }

    private static double givesAmps(List<Node> circuits, double ratingAmps) {
        return circuits.size() == 1
                        && circuits.get(0).facts() instanceof Electrical.Supply supply
                        && supply.maxAmps() != null
                ? supply.maxAmps()
                : ratingAmps;
    }
}
