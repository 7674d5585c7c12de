package dev.splicebook.hookup.rule;

import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Scenario;
import dev.splicebook.hookup.net.Scenario.Sure;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Iterator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Predicate;
import org.jgrapht.alg.flow.EdmondsKarpMFImpl;
import org.jgrapht.graph.DefaultWeightedEdge;
import org.jgrapht.graph.DirectedWeightedMultigraph;
import org.jspecify.annotations.Nullable;

/**
 * What flows into a short in a conductor that several fuses feed side by side: no fuse blows before the conductor carries
 * what all of them let pass together. Asked while the contacts stand in one way.
 *
 * <p>Nodes that unfused conductors and closed contacts join are a cluster; fuses and diodes lead from one to another.
 */
final class Inflows {

    /** Capacity that never is the least. */
    private static final double BOUNDLESS_AMPS = 1e9;

    private static final Object START = "start";
    private static final Object END = "end";

    /**
     * A way by which current enters a cluster.
     *
     * @param at where it enters
     * @param link the fuse or diode it comes through, null for a supply that stands there
     * @param from cluster that it comes from; the cluster itself for a supply
     */
    record Entry(Node at, @Nullable Link link, int from, double amps) {

        /** Like {@code W1}, {@code BLOCK (in to out-1)} or {@code CAR.C1-7}. */
        String name() {
            if (link == null) {
                return at.ref();
            }
            return link.ref() == null
                    ? at.owner() + " (" + link.across(at).name() + " to " + at.name() + ")"
                    : String.valueOf(link.ref());
        }
    }

    /**
     * A conductor into which more flows than it takes, as long as every fuse holds.
     *
     * @param near the end that the current comes from
     * @param amps what all ways let pass together
     * @param ways that it comes by
     */
    record Excess(Link link, Node near, double amps, double ampacity, List<Entry> ways) {

        /** More are told by their number alone. */
        private static final int MOST_NAMES = 50;

        /** Like {@code by way of W1, BLOCK (in to out-1) and CAR.C1-7}. */
        String through() {
            return ways.size() > MOST_NAMES
                    ? "by " + ways.size() + " ways"
                    : "by way of "
                            + Say.list(ways.stream()
                                    .map(Entry::name)
                                    .distinct()
                                    .sorted()
                                    .toList());
        }
    }

    private final Network network;
    private final Scenario standing;
    private final Map<Link, Node> fuseEnds;
    private final int[] cluster;
    private final List<List<Node>> members = new ArrayList<>();
    private final Map<Integer, List<Entry>> into = new HashMap<>();
    private final BitSet grounded = new BitSet();
    private final Map<Object, Double> flows = new HashMap<>();
    /** What the fuse of the vehicle lets pass that circuits share, by their source. */
    private final Map<Object, Double> upstream = new HashMap<>();

    private @Nullable Set<Set<Node>> live;

    Inflows(Scenario standing, Map<Link, Node> fuseEnds, Network network) {
        this.network = network;
        this.standing = standing;
        this.fuseEnds = fuseEnds;
        cluster = new int[network.nodes().size()];
        Arrays.fill(cluster, -1);
        for (Node node : network.nodes()) {
            if (cluster[node.index()] < 0) {
                flood(node);
            }
        }
        for (Node node : network.nodes()) {
            if (node.isReference()) {
                grounded.set(cluster[node.index()]);
            }
        }
        for (Node supply : network.sources()) {
            if (supply.facts() instanceof Electrical.Supply) {
                double amps = Conductors.protectionAmps(supply, network);
                if (!Double.isNaN(amps)) {
                    if (supply.source() != null) {
                        upstream.merge(supply.source(), amps, Math::min);
                    }
                    enter(new Entry(supply, null, cluster[supply.index()], Math.min(amps, BOUNDLESS_AMPS)));
                }
            }
        }
        for (Link link : network.links()) {
            if (link.hasFuse() || link.kind() == Link.Kind.DIODE) {
                lead(link, link.from());
                if (link.hasFuse()) {
                    lead(link, link.to());
                }
            }
        }
    }

    private void flood(Node start) {
        List<Node> found = new ArrayList<>(4);
        int number = members.size();
        cluster[start.index()] = number;
        found.add(start);
        for (int at = 0; at < found.size(); at++) {
            Node node = found.get(at);
            for (Link link : network.linksOf(node)) {
                Node next = link.across(node);
                if (cluster[next.index()] < 0 && joins(link)) {
                    cluster[next.index()] = number;
                    found.add(next);
                }
            }
        }
        members.add(found);
    }

    /** Whether a link is conductor without a fuse, as contacts stand. */
    private boolean joins(Link link) {
        return link.kind().isContact() ? standing.isClosed(link) : link.kind().isSolid() && !link.hasFuse();
    }

    private void lead(Link link, Node near) {
        Node far = link.across(near);
        int from = cluster[near.index()];
        // what has come to ground does not go on
        if (!grounded.get(from)) {
            enter(new Entry(far, link, from, link.hasFuse() ? link.fuseAmps() : BOUNDLESS_AMPS));
        }
    }

    private void enter(Entry entry) {
        into.computeIfAbsent(cluster[entry.at().index()], key -> new ArrayList<>(2))
                .add(entry);
    }

    /** The ends of conductors into which more flows than these take, but for what lies behind another that takes no more. */
    List<Excess> excesses() {
        List<Excess> all = new ArrayList<>();
        into.forEach((number, entries) -> {
            if (entries.size() > 1 && !grounded.get(number)) {
                List<Entry> fed =
                        entries.stream().filter(entry -> isFed(entry, number)).toList();
                if (fed.size() > 1) {
                    addExcesses(number, fed, all);
                }
            }
        });
        return all;
    }

    /** Whether a supply stands behind a way into a cluster, or another part of that cluster by another fuse. */
    private boolean isFed(Entry entry, int number) {
        if (entry.link() == null) {
            return true;
        }
        BitSet seen = new BitSet();
        ArrayDeque<Integer> queue = new ArrayDeque<>();
        seen.set(number);
        seen.set(entry.from());
        queue.add(entry.from());
        while (!queue.isEmpty()) {
            for (Entry before : into.getOrDefault(queue.remove(), List.of())) {
                if (before.link() == null || (before.from() == number && before.link() != entry.link())) {
                    return true;
                }
                if (!seen.get(before.from())) {
                    seen.set(before.from());
                    queue.add(before.from());
                }
            }
        }
        return false;
    }

    private void addExcesses(int number, List<Entry> entries, List<Excess> all) {
        Ways ways = new Ways(entries);
        double most = flow(new Part(ways.all, ways, node -> false), number);
        List<Excess> found = new ArrayList<>();
        for (Node near : members.get(number)) {
            for (Link link : network.linksOf(near)) {
                Double ampacity = link.kind() == Link.Kind.CONNECTION ? Conductors.ampacity(link.connection()) : null;
                if (ampacity == null || ampacity >= most || isFusedAt(link, near)) {
                    continue;
                }
                Part here = ways.to(near, link);
                double amps = here.ways().size() < 2 ? 0 : flow(here, number);
                // what a single way lets pass is judged as what stands before the conductor
                if (amps > ampacity
                        && here.ways().stream()
                                .noneMatch(way -> way.amps() > ampacity && flow(here.by(way), number) > ampacity)) {
                    found.add(new Excess(link, near, amps, ampacity, here.ways()));
                }
            }
        }
        // one behind another that takes no more is mended with that
        Map<Double, Set<Node>> before = new HashMap<>();
        for (Excess excess : found) {
            boolean first = excess.link().hasFuse()
                    ? isReachedFirst(excess, thin(excess.ampacity(), found), ways)
                    : before.computeIfAbsent(excess.ampacity(), amps -> reachedFirst(thin(amps, found), entries))
                            .contains(excess.near());
            if (first) {
                all.add(excess);
            }
        }
    }

    private static Set<Link> thin(double amps, List<Excess> found) {
        Set<Link> thin = new HashSet<>();
        for (Excess excess : found) {
            if (excess.ampacity() <= amps) {
                thin.add(excess.link());
            }
        }
        return thin;
    }

    /** Whether a conductor has a fuse at an end, so that what enters there is what that lets pass. */
    private boolean isFusedAt(Link link, Node near) {
        return link.hasFuse() && fuseEnds.getOrDefault(link, near).equals(near);
    }

    /** The nodes of a cluster to which current comes without some conductors. */
    private Set<Node> reachedFirst(Set<Link> without, List<Entry> entries) {
        Set<Node> seen = new HashSet<>();
        ArrayDeque<Node> queue = new ArrayDeque<>();
        for (Entry entry : entries) {
            if (seen.add(entry.at())) {
                queue.add(entry.at());
            }
        }
        while (!queue.isEmpty()) {
            spread(queue.remove(), without, seen, queue);
        }
        return seen;
    }

    private void spread(Node at, Set<Link> without, Set<Node> seen, ArrayDeque<Node> queue) {
        for (Link link : network.linksOf(at)) {
            if (joins(link) && !without.contains(link) && seen.add(link.across(at))) {
                queue.add(link.across(at));
            }
        }
    }

    /** Whether current comes to the end of a fused conductor without some others, and not through itself. */
    private boolean isReachedFirst(Excess excess, Set<Link> without, Ways ways) {
        Set<Node> seen = new HashSet<>(Set.of(excess.near()));
        ArrayDeque<Node> queue = new ArrayDeque<>(seen);
        while (!queue.isEmpty()) {
            Node at = queue.remove();
            for (Entry entry : ways.at.getOrDefault(at, List.of())) {
                if (entry.link() != excess.link()) {
                    return true;
                }
            }
            spread(at, without, seen, queue);
        }
        return false;
    }

    /** From which ways into a cluster current comes to an end of one of its conductors, if not through that conductor. */
    private final class Ways {
        private final List<Entry> all;
        private final Map<Node, List<Entry>> at = new HashMap<>();
        /** Nodes by which current comes into the cluster, or leaves it. */
        private final Set<Node> doors = new HashSet<>();
        /** Nodes in the order in which a walk in depth comes to them. */
        private final Map<Node, Integer> order = new HashMap<>();
        /** The last of those behind each node. */
        private final Map<Node, Integer> last = new HashMap<>();
        /** The node that a walk comes to by a conductor that alone joins what lies behind it. */
        private final Map<Link, Node> behind = new HashMap<>();

        Ways(List<Entry> entries) {
            all = entries;
            for (Entry entry : entries) {
                doors.add(entry.at());
                at.computeIfAbsent(entry.at(), key -> new ArrayList<>(1)).add(entry);
            }
            walk(entries.get(0).at());
            for (Node node : order.keySet()) {
                for (Link link : network.linksOf(node)) {
                    if (link.hasFuse() || (link.kind() == Link.Kind.DIODE && link.from() == node)) {
                        doors.add(node);
                    }
                }
            }
        }

        private record Step(Node node, @Nullable Link by, Iterator<Link> links) {}

        private void walk(Node start) {
            Map<Node, Integer> lowest = new HashMap<>();
            ArrayDeque<Step> stack = new ArrayDeque<>();
            push(start, null, lowest, stack);
            while (!stack.isEmpty()) {
                Step at = stack.element();
                if (at.links().hasNext()) {
                    Link link = at.links().next();
                    Node next = link.across(at.node());
                    if (link != at.by() && joins(link)) {
                        Integer known = order.get(next);
                        if (known == null) {
                            push(next, link, lowest, stack);
                        } else {
                            lowest.merge(at.node(), known, Math::min);
                        }
                    }
                    continue;
                }
                stack.remove();
                last.put(at.node(), order.size() - 1);
                int low = lowest.getOrDefault(at.node(), 0);
                if (at.by() != null) {
                    lowest.merge(at.by().across(at.node()), low, Math::min);
                    if (low == order.getOrDefault(at.node(), 0)) {
                        behind.put(at.by(), at.node());
                    }
                }
            }
        }

        private void push(Node node, @Nullable Link by, Map<Node, Integer> lowest, ArrayDeque<Step> stack) {
            lowest.put(node, order.size());
            order.put(node, order.size());
            stack.push(new Step(node, by, network.linksOf(node).iterator()));
        }

        Part to(Node near, Link conductor) {
            Node far = behind.get(conductor);
            if (far == null) {
                return conductor.hasFuse()
                        ? new Part(without(conductor, node -> true), conductor, node -> false)
                        : new Part(all, this, node -> false);
            }
            int from = order.getOrDefault(far, 0);
            int to = last.getOrDefault(far, 0);
            Predicate<Node> isBehind = node -> order.getOrDefault(node, 0) >= from && order.getOrDefault(node, 0) <= to;
            Predicate<Node> isHere = near == far ? isBehind : isBehind.negate();
            return doors.stream().allMatch(isHere)
                    ? new Part(all, this, node -> false)
                    : new Part(without(conductor, isHere), List.of(conductor, near), isHere.negate());
        }

        private List<Entry> without(Link conductor, Predicate<Node> isHere) {
            List<Entry> ways = new ArrayList<>();
            for (Entry entry : all) {
                if (entry.link() != conductor && isHere.test(entry.at())) {
                    ways.add(entry);
                }
            }
            return ways;
        }
    }

    /**
     * What of a cluster is one conductor with an end of a conductor, seen without that.
     *
     * @param ways into it
     * @param key the same for the same ways into the same part
     * @param isRest whether a node of the cluster is of the rest, which then is another cluster
     */
    private record Part(List<Entry> ways, Object key, Predicate<Node> isRest) {

        Part by(Entry way) {
            return new Part(List.of(way), List.of(key, way), isRest);
        }
    }

    /** What some ways into a cluster let pass together at most, in any scenario in which contacts stand so. */
    private double flow(Part part, int number) {
        Double known = flows.get(part.key());
        if (known == null) {
            known = 0.0;
            for (Set<Node> supplies : live()) {
                known = Math.max(known, flow(part, number, supplies));
            }
            flows.put(part.key(), known);
        }
        return known;
    }

    private Set<Set<Node>> live() {
        if (live == null) {
            live = new LinkedHashSet<>();
            for (Scenario scenario : network.scenarios()) {
                if (scenario.partition() == standing.partition()) {
                    Set<Node> supplies = new HashSet<>();
                    for (Node source : network.sources()) {
                        if (source.facts() instanceof Electrical.Supply && scenario.isLive(source) != Sure.NO) {
                            supplies.add(source);
                        }
                    }
                    live.add(supplies);
                }
            }
        }
        return live;
    }

    private double flow(Part part, int number, Set<Node> supplies) {
        double sum = 0;
        boolean limited = false;
        Set<Object> sources = new HashSet<>();
        for (Entry way : part.ways()) {
            if (way.link() == null) {
                boolean gives = supplies.contains(way.at());
                sum += gives ? way.amps() : 0;
                limited |= gives
                        && way.at().source() != null
                        && !sources.add(way.at().source());
            } else {
                limited |= way.from() == number || !isUnfused(way.from(), supplies);
                sum += way.amps();
            }
        }
        return limited ? solve(part, number, supplies) : sum;
    }

    private boolean isUnfused(int cluster, Set<Node> supplies) {
        for (Entry entry : into.getOrDefault(cluster, List.of())) {
            if (entry.link() != null) {
                // supplies come first
                return false;
            }
            if (entry.amps() >= BOUNDLESS_AMPS && supplies.contains(entry.at())) {
                return true;
            }
        }
        return false;
    }

    /** The largest flow, where what stands further upstream may be the least. */
    private double solve(Part part, int number, Set<Node> supplies) {
        DirectedWeightedMultigraph<Object, DefaultWeightedEdge> graph =
                new DirectedWeightedMultigraph<>(DefaultWeightedEdge.class);
        graph.addVertex(START);
        graph.addVertex(END);
        Set<Entry> ways = new HashSet<>(part.ways());
        Map<List<Object>, Double> edges = new HashMap<>();
        into.forEach((to, entries) -> {
            for (Entry entry : entries) {
                boolean arrives = to == number && !part.isRest().test(entry.at());
                boolean leaves = entry.link() != null
                        && entry.from() == number
                        && !part.isRest().test(entry.link().across(entry.at()));
                boolean gives = entry.link() != null || supplies.contains(entry.at());
                if (gives && !leaves && (!arrives || ways.contains(entry))) {
                    add(entry, arrives ? END : to, edges);
                }
            }
        });
        edges.forEach((ends, amps) -> {
            graph.addVertex(ends.get(0));
            graph.addVertex(ends.get(1));
            graph.setEdgeWeight(graph.addEdge(ends.get(0), ends.get(1)), amps);
        });
        return new EdmondsKarpMFImpl<>(graph).calculateMaximumFlow(START, END);
    }

    private void add(Entry entry, Object end, Map<List<Object>, Double> edges) {
        Object begin = entry.from();
        if (entry.link() == null) {
            // circuits behind one fuse of the vehicle give no more together than that
            Object source = entry.at().source();
            begin = source == null ? START : List.of(source);
            if (source != null) {
                edges.put(List.of(START, begin), upstream.getOrDefault(source, entry.amps()));
            }
        }
        if (!begin.equals(end)) {
            edges.merge(List.of(begin, end), entry.amps(), Double::sum);
        }
    }
}
