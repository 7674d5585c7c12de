package dev.splicebook.hookup.net;

import dev.splicebook.hookup.Electrical;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Which audio outputs arrive at a node, directly, through couplings and through dividers of resistors. Nets are worked out from the outputs onward, so
 * that a long or branching chain costs no more than its couplings; round a loop of couplings a signal goes once.
 */
public final class Signals {

    private final Partition partition;
    private final Map<Integer, List<Arrival>> arrivals = new HashMap<>();
    private final Map<Node, List<Feed>> feedsInto = new HashMap<>();
    private final Map<Integer, List<Feed>> feedsFrom = new HashMap<>();

    /** One conductor of a coupling. */
    private record Feed(Coupling coupling, Node from, Node to) {}

    /**
     * One output as it arrives.
     *
     * @param origin the output's terminal
     * @param gain volts here for a volt at the origin, below 0 if turned round
     * @param volts rms at most here, null if neither the origin nor an output on the way states its most
     * @param entry what brings it onto this net: the origin itself, or a coupling
     */
    public record Arrival(
            Node origin, double gain, @Nullable Double volts, Object entry) {
        public boolean isCoupled() {
            return entry instanceof Coupling;
        }

        /** True if the origin's plus or signal arrives, or its minus turned round; null if its side is unknown. */
        public @Nullable Boolean isPositive() {
            Electrical.Audio audio = origin.audio();
            if (audio == null || audio.side() == null) {
                return null;
            }
            return audio.side().isPositive() == (gain > 0);
        }
    }

    private record Key(Node origin, Object entry, boolean turned) {
        static Key of(Arrival arrival) {
            return new Key(arrival.origin(), arrival.entry(), arrival.gain() < 0);
        }
    }

    Signals(Network network, Partition partition) {
        this.partition = partition;
        List<Coupling> couplings = new ArrayList<>(network.couplings());
        List<Coupling> dividers = Dividers.of(network, partition);
        couplings.addAll(dividers);
        if (couplings.isEmpty()) {
            return;
        }
        Map<Integer, Integer> waitingFor = new LinkedHashMap<>();
        for (Coupling coupling : couplings) {
            for (int end = 0; end < 2; end++) {
                Feed feed = new Feed(
                        coupling, coupling.from().get(end), coupling.to().get(end));
                int from = partition.netOf(feed.from());
                if (dividers.contains(coupling) && from == partition.netOf(feed.to())) {
                    // the return of a divider is most often one conductor
                    continue;
                }
                feedsInto.computeIfAbsent(feed.to(), node -> new ArrayList<>(1)).add(feed);
                feedsFrom.computeIfAbsent(from, net -> new ArrayList<>(2)).add(feed);
                waitingFor.putIfAbsent(from, 0);
                waitingFor.merge(partition.netOf(feed.to()), 1, Integer::sum);
            }
        }
        workOutInOrder(waitingFor);
    }

    /** Each net once all that feed it are known; then those on loops, which wait for one another; then what is behind. */
    private void workOutInOrder(Map<Integer, Integer> waitingFor) {
        workOutReady(waitingFor);
        if (!waitingFor.isEmpty()) {
            Set<Integer> loops = withoutDeadEnds(waitingFor.keySet());
            workOut(loops);
            waitingFor.keySet().removeAll(loops);
            loops.forEach(net -> release(net, waitingFor));
            workOutReady(waitingFor);
        }
    }

    private void workOutReady(Map<Integer, Integer> waitingFor) {
        ArrayDeque<Integer> ready = new ArrayDeque<>();
        waitingFor.forEach((net, feeds) -> {
            if (feeds == 0) {
                ready.add(net);
            }
        });
        while (!ready.isEmpty()) {
            int net = ready.remove();
            waitingFor.remove(net);
            workOut(Set.of(net));
            ready.addAll(release(net, waitingFor));
        }
    }

    /** Nets that wait for nothing more now that another is known. */
    private List<Integer> release(int known, Map<Integer, Integer> waitingFor) {
        List<Integer> ready = new ArrayList<>(1);
        for (Feed feed : feedsFrom.getOrDefault(known, List.of())) {
            Integer left = waitingFor.computeIfPresent(partition.netOf(feed.to()), (net, feeds) -> feeds - 1);
            if (left != null && left == 0) {
                ready.add(partition.netOf(feed.to()));
            }
        }
        return ready;
    }

    private Set<Integer> withoutDeadEnds(Set<Integer> nets) {
        Set<Integer> left = new LinkedHashSet<>(nets);
        boolean shrunk = true;
        while (shrunk) {
            shrunk = left.removeIf(net -> feedsFrom.getOrDefault(net, List.of()).stream()
                    .noneMatch(feed -> left.contains(partition.netOf(feed.to()))));
        }
        return left;
    }

    /** Signals by the nets of a scenario. */
    public static Signals in(Scenario scenario) {
        return ((Partition) scenario.partition()).signals();
    }

    /** What arrives at a node, once for each origin, entry and polarity. */
    public List<Arrival> arrivals(Node node) {
        return arrivals.computeIfAbsent(
                partition.netOf(node),
                net -> List.copyOf(fromOutside(net, Set.of(net)).values()));
    }

    /** Works out nets that wait for one another, or a single net. A signal does not come back to where it was. */
    private void workOut(Set<Integer> nets) {
        Map<Integer, Map<Key, Arrival>> found = new LinkedHashMap<>();
        nets.forEach(net -> found.put(net, fromOutside(net, nets)));
        spread(found);
        // an output on a loop is a source of its own only where nothing else comes round
        Map<Integer, List<Arrival>> own = new LinkedHashMap<>();
        for (Integer net : nets) {
            for (Node member : partition.members(net)) {
                List<Feed> feeds = feedsInto.getOrDefault(member, List.of());
                if (isOutput(member) && !feeds.isEmpty() && feeds.stream().allMatch(feed -> isSilent(feed, found))) {
                    own.computeIfAbsent(net, key -> new ArrayList<>(1)).add(own(member));
                }
            }
        }
        if (!own.isEmpty()) {
            own.forEach(
                    (net, outputs) -> outputs.forEach(output -> at(net, found).put(Key.of(output), output)));
            spread(found);
        }
        found.forEach((net, there) -> arrivals.put(net, List.copyOf(there.values())));
    }

    /** Takes what is found at each net on to the others, by the fewest couplings. */
    private void spread(Map<Integer, Map<Key, Arrival>> found) {
        Map<Integer, Set<Node>> origins = new HashMap<>();
        ArrayDeque<Map.Entry<Integer, Arrival>> queue = new ArrayDeque<>();
        found.forEach((net, there) -> there.values().forEach(arrival -> {
            queue.add(Map.entry(net, arrival));
            origins.computeIfAbsent(net, key -> new HashSet<>()).add(arrival.origin());
        }));
        while (!queue.isEmpty()) {
            Map.Entry<Integer, Arrival> at = queue.remove();
            for (Feed feed : feedsFrom.getOrDefault(at.getKey(), List.of())) {
                int to = partition.netOf(feed.to());
                Arrival passed = pass(at.getValue(), feed);
                if (found.containsKey(to)
                        && origins.computeIfAbsent(to, key -> new HashSet<>()).add(passed.origin())) {
                    at(to, found).put(Key.of(passed), passed);
                    queue.add(Map.entry(to, passed));
                }
            }
        }
    }

    private static Map<Key, Arrival> at(int net, Map<Integer, Map<Key, Arrival>> found) {
        return found.computeIfAbsent(net, key -> new LinkedHashMap<>());
    }

    private boolean isSilent(Feed feed, Map<Integer, Map<Key, Arrival>> found) {
        int from = partition.netOf(feed.from());
        return found.getOrDefault(from, Map.of()).isEmpty()
                && arrivals.getOrDefault(from, List.of()).isEmpty();
    }

    /** What reaches a net from its own outputs and from nets that are worked out already. */
    private Map<Key, Arrival> fromOutside(int net, Set<Integer> nets) {
        Map<Key, Arrival> found = new LinkedHashMap<>();
        for (Node member : partition.members(net)) {
            boolean driven = false;
            for (Feed feed : feedsInto.getOrDefault(member, List.of())) {
                int from = partition.netOf(feed.from());
                driven |= nets.contains(from);
                for (Arrival before : arrivals.getOrDefault(from, List.of())) {
                    driven = true;
                    Arrival passed = pass(before, feed);
                    found.merge(Key.of(passed), passed, Signals::stronger);
                }
            }
            if (isOutput(member) && !driven) {
                Arrival own = own(member);
                found.put(Key.of(own), own);
            }
        }
        return found;
    }

    private static boolean isOutput(Node node) {
        Electrical.Audio audio = node.audio();
        return audio != null && audio.isOutput();
    }

    private static Arrival own(Node output) {
        return new Arrival(output, 1, maxVolts(output.audio()), output);
    }

    private static Arrival pass(Arrival before, Feed feed) {
        double gain = feed.coupling().gain();
        Double volts = before.volts() == null ? null : before.volts() * Math.abs(gain);
        Double most = maxVolts(feed.to().audio());
        if (most != null) {
            volts = volts == null ? most : Double.valueOf(Math.min(volts, most));
        }
        return new Arrival(before.origin(), before.gain() * gain, volts, feed.coupling());
    }

    private static Arrival stronger(Arrival one, Arrival other) {
        return one.volts() == null || (other.volts() != null && one.volts() >= other.volts()) ? one : other;
    }

    private static @Nullable Double maxVolts(Electrical.@Nullable Audio audio) {
        if (audio instanceof Electrical.SpeakerOut out) {
            return out.maxVolts();
        }
        return audio instanceof Electrical.LineOut out ? out.maxVolts() : null;
    }
}
