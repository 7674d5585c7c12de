package dev.splicebook.hookup.net;

import dev.splicebook.hookup.Electrical;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** The nets of a hookup with given relays energised, and which sources reach which net whether or not they are live. */
final class Partition {

    private final Network network;
    private final BitSet energised;
    private final int[] netOf;
    private final List<List<Node>> members;
    private final List<List<Reach>> reaches;
    private final List<List<Integer>> reached = new ArrayList<>();
    private final BitSet unknown = new BitSet();
    private final BitSet atGround = new BitSet();
    private final BitSet atBattery = new BitSet();
    private final @Nullable Partition alike;
    private @Nullable Signals signals;

    /**
     * @param alike a partition in which signals flow as in this one, null if none is known
     */
    Partition(Network network, BitSet energised, @Nullable Partition alike) {
        this.network = network;
        this.energised = energised;
        this.alike = alike;
        int[] parents = new int[network.netCount()];
        for (int net = 0; net < parents.length; net++) {
            parents[net] = net;
        }
        boolean merged = false;
        List<Link> partial = new ArrayList<>();
        for (Link link : network.links()) {
            if (link.kind().isContact()) {
                if (isClosed(link)) {
                    Network.union(parents, link.from().net, link.to().net);
                    merged = true;
                }
            } else if (!link.kind().isSolid()) {
                partial.add(link);
            }
        }
        netOf = new int[parents.length];
        if (merged) {
            members = new ArrayList<>();
            Arrays.fill(netOf, -1);
            for (int base = 0; base < parents.length; base++) {
                int root = Network.find(parents, base);
                if (netOf[root] < 0) {
                    netOf[root] = members.size();
                    members.add(new ArrayList<>());
                }
                netOf[base] = netOf[root];
                members.get(netOf[base]).addAll(network.net(base));
            }
        } else {
            members = new ArrayList<>(parents.length);
            for (int base = 0; base < parents.length; base++) {
                netOf[base] = base;
                members.add(network.net(base));
            }
        }
        for (Node node : network.nodes()) {
            if (node.isReference()) {
                atGround.set(netOf(node));
            } else if (node.role() == Node.Role.REFERENCE && node.facts() instanceof Electrical.Supply) {
                atBattery.set(netOf(node));
            }
        }
        reaches = reaches(partial);
        network.unknown().stream().map(node -> netOf(network.nodes().get(node))).forEach(unknown::set);
    }

    /** Whether a terminal of which nothing electrical is known stands on a net. */
    boolean isUnknown(int net) {
        return unknown.get(net);
    }

    boolean isClosed(Link contact) {
        return energised.get(contact.relay()) == (contact.kind() == Link.Kind.OPEN_CONTACT);
    }

    /** Whether a source stands on a ground of the vehicle itself, and gives no volts. */
    boolean isShorted(Node source) {
        return atGround.get(netOf(source));
    }

    int netOf(Node node) {
        return netOf[node.net];
    }

    int netCount() {
        return members.size();
    }

    List<Node> members(int net) {
        return members.get(net);
    }

    List<Reach> reaches(int net) {
        return reaches.get(net);
    }

    Signals signals() {
        if (signals == null) {
            signals = alike == null ? new Signals(network, this) : alike.signals();
        }
        return signals;
    }

    /** The nets that a source reaches. */
    List<Integer> reachedBy(Node source) {
        if (reached.isEmpty()) {
            for (int node = 0; node < network.nodes().size(); node++) {
                reached.add(List.of());
            }
            for (int net = 0; net < reaches.size(); net++) {
                for (Reach reach : reaches.get(net)) {
                    add(reached, reach.source().index, net);
                }
            }
        }
        return reached.get(source.index);
    }

    private List<List<Reach>> reaches(List<Link> partial) {
        List<List<Reach>> all = new ArrayList<>(members.size());
        for (int net = 0; net < members.size(); net++) {
            all.add(List.of());
        }
        List<List<Link>> partialOf = new ArrayList<>();
        if (!partial.isEmpty()) {
            for (int net = 0; net < members.size(); net++) {
                partialOf.add(new ArrayList<>());
            }
            for (Link link : partial) {
                partialOf.get(netOf(link.from())).add(link);
                partialOf.get(netOf(link.to())).add(link);
            }
        }
        for (Node node : network.nodes()) {
            boolean source = node.facts() instanceof Electrical.Supply
                    || node.facts() instanceof Electrical.ControlOut
                    || node.isReference();
            if (source) {
                spread(node, partialOf, all);
            }
        }
        return all;
    }

    private void spread(Node source, List<List<Link>> partialOf, List<List<Reach>> all) {
        int start = netOf(source);
        if (partialOf.isEmpty() || partialOf.get(start).isEmpty()) {
            add(all, start, new Reach(source, true));
            return;
        }
        boolean sinks = source.pullsToGround();
        BitSet stiff = sinks ? atBattery : atGround;
        // hard first, so that a net that is reached both ways counts as hard
        byte[] seen = new byte[members.size()];
        ArrayDeque<int[]> queue = new ArrayDeque<>();
        queue.add(new int[] {start, 1});
        seen[start] = 1;
        ArrayDeque<int[]> later = new ArrayDeque<>();
        while (!queue.isEmpty() || !later.isEmpty()) {
            int[] at = queue.isEmpty() ? later.remove() : queue.remove();
            // at ground 12 V has arrived, and at the battery ground has; neither stands on what is behind
            if (at[0] != start && stiff.get(at[0])) {
                continue;
            }
            for (Link link : partialOf.get(at[0])) {
                int from = netOf(link.from());
                int to = netOf(link.to());
                int next = from == at[0] ? to : from;
                boolean forward = from == at[0];
                if (link.kind() == Link.Kind.DIODE && forward == sinks) {
                    continue;
                }
                boolean hard = at[1] == 1 && link.kind() == Link.Kind.DIODE;
                if (seen[next] == 0) {
                    seen[next] = (byte) (hard ? 1 : 2);
                    (hard ? queue : later).add(new int[] {next, hard ? 1 : 2});
                } else if (hard && seen[next] == 2) {
                    seen[next] = 1;
                    queue.add(new int[] {next, 1});
                }
            }
        }
        for (int net = 0; net < seen.length; net++) {
            if (seen[net] != 0) {
                add(all, net, new Reach(source, seen[net] == 1));
            }
        }
    }

    private static <T> void add(List<List<T>> all, int at, T one) {
        if (all.get(at).isEmpty()) {
            all.set(at, new ArrayList<>(2));
        }
        all.get(at).add(one);
    }
}
