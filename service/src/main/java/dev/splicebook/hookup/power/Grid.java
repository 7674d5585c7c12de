package dev.splicebook.hookup.power;

import dev.splicebook.hookup.Active;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.net.Coil;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * What of a hookup can carry power, whatever the state: joints, strands between them, and sinks. Plugs, conduction, and
 * the ground terminals inside one part make one joint of several terminals.
 */
final class Grid {

    final Network network;
    /** Joint of each node, by its index. */
    final int[] jointOf;

    final int joints;
    final List<Strand> strands = new ArrayList<>();
    final List<Strand> diodes = new ArrayList<>();
    final List<Sink> sinks = new ArrayList<>();
    /** Those of the sinks that are coils of relays. */
    final List<Sink> coils = new ArrayList<>();

    /** Strands but diodes by joint, from {@code strandStart[joint]} on. */
    final int[] strandStart;

    final int[] strandAt;
    /** Whether the vehicle's ground stands at a joint. */
    final boolean[] grounded;
    /** The joint at which the loads of a part return, for each part that has a ground terminal. */
    final Map<String, Integer> returnOf = new HashMap<>();
    /** Supplies and outputs that anything can draw from. */
    final List<Node> sources = new ArrayList<>();
    /** Outputs that pull to ground, with the way from there to their part's own ground. */
    final Map<Node, Strand> pulls = new LinkedHashMap<>();
    /** Nodes of which nothing is known. */
    final List<Node> unknown = new ArrayList<>();
    /** Sinks of parts that have no ground terminal, and so no known return. */
    final List<Node> returnless = new ArrayList<>();

    /** Whether anything takes more the more volts there are. */
    boolean isOhmic() {
        return !coils.isEmpty() || strands.stream().anyMatch(Strand::isResistor);
    }

    Grid(Network network) {
        this.network = network;
        List<Node> nodes = network.nodes();
        int[] parents = new int[nodes.size()];
        Arrays.setAll(parents, at -> at);
        for (Link link : network.links()) {
            if (link.kind() == Link.Kind.PLUG || link.kind() == Link.Kind.CONDUCTION) {
                join(parents, link.from().index(), link.to().index());
            }
        }
        Map<String, Node> groundOf = new HashMap<>();
        for (Node node : nodes) {
            if (!node.isVehicle() && node.facts() instanceof Electrical.Ground) {
                Node first = groundOf.putIfAbsent(node.owner(), node);
                if (first != null) {
                    join(parents, first.index(), node.index());
                }
            }
        }
        int[] roots = new int[nodes.size()];
        boolean[] atGround = new boolean[nodes.size()];
        for (Node node : nodes) {
            int root = find(parents, node.index());
            roots[node.index()] = root;
            if (node.isReference()) {
                atGround[root] = true;
            } else if (node.isVehicle() && node.facts() == null) {
                unknown.add(node);
            }
        }
        List<Draw> draws = listDraws(groundOf, roots);
        List<Link> pulling = listPulling(groundOf);
        List<Link> carrying = listCarrying(draws, pulling, roots, atGround);
        jointOf = new int[nodes.size()];
        joints = number(roots, draws, carrying, atGround);
        grounded = new boolean[joints];
        for (Node node : nodes) {
            grounded[joint(node)] |= atGround[roots[node.index()]];
        }
        groundOf.forEach((part, node) -> returnOf.put(part, joint(node)));
        for (Draw draw : draws) {
            Sink sink = new Sink(sinks.size(), draw.node(), draw.coil(), joint(draw.node()), joint(draw.back()));
            sinks.add(sink);
            if (sink.isCoil()) {
                coils.add(sink);
            }
        }
        Strand.Makes makes = new Strand.Makes();
        for (Link link : carrying) {
            Strand strand = new Strand(strands.size(), link, joint(link.from()), joint(link.to()), makes);
            strands.add(strand);
            if (strand.isDiode()) {
                diodes.add(strand);
            } else if (link.kind() == Link.Kind.CONDUCTION) {
                pulls.put(link.from(), strand);
            }
        }
        strandStart = new int[joints + 1];
        strandAt = new int[2 * strands.size()];
        index();
        for (Node source : network.sources()) {
            if (joint(source) != 0) {
                sources.add(source);
            }
        }
    }

    /**
     * What takes current, before joints are numbered.
     *
     * @param back where it returns
     */
    private record Draw(Node node, @Nullable Coil coil, Node back) {}

    /**
     * Numbers what strands and sinks end at, and grounds. All other joints, signal leads above all, count as one, number 0:
     * nothing flows there.
     */
    private int number(int[] roots, List<Draw> draws, List<Link> carrying, boolean[] atGround) {
        boolean[] touched = atGround.clone();
        for (Draw draw : draws) {
            touched[roots[draw.node().index()]] = true;
            touched[roots[draw.back().index()]] = true;
        }
        for (Link link : carrying) {
            touched[roots[link.from().index()]] = true;
            touched[roots[link.to().index()]] = true;
        }
        int[] numbers = new int[roots.length];
        int count = 1;
        for (int at = 0; at < roots.length; at++) {
            int root = roots[at];
            if (touched[root] && numbers[root] == 0) {
                numbers[root] = count++;
            }
            jointOf[at] = numbers[root];
        }
        return count;
    }

    int joint(Node node) {
        return jointOf[node.index()];
    }

    private List<Draw> listDraws(Map<String, Node> groundOf, int[] roots) {
        List<Draw> draws = new ArrayList<>();
        Node chassis = network.findNode("CAR.chassis");
        for (Node node : network.nodes()) {
            boolean takes = node.facts() instanceof Electrical.Load
                    || (node.facts() instanceof Electrical.ControlIn in && in.active() == Active.TWELVE_VOLTS);
            if (takes && !network.isUnused(node)) {
                Node back = node.isVehicle() ? chassis : groundOf.get(node.owner());
                if (back == null && network.returnsByScreen(node.owner())) {
                    back = chassis;
                }
                if (back == null) {
                    returnless.add(node);
                } else {
                    draws.add(new Draw(node, null, back));
                }
            }
        }
        for (Coil coil : network.coils()) {
            if (roots[coil.one().index()] != roots[coil.other().index()]) {
                draws.add(new Draw(coil.one(), coil, coil.other()));
            }
        }
        return draws;
    }

    /** The ways inside parts from what pulls to ground to the part's ground terminal, where it has one that is connected. */
    private List<Link> listPulling(Map<String, Node> groundOf) {
        List<Link> pulling = new ArrayList<>();
        for (Node source : network.sources()) {
            Node ground = groundOf.get(source.owner());
            if (ground != null
                    && source.pullsToGround()
                    && network.isConnected(source)
                    && network.nodesOf(source.owner()).stream()
                            .anyMatch(node -> node.facts() instanceof Electrical.Ground && network.isConnected(node))) {
                pulling.add(Link.inside(source, ground));
            }
        }
        return pulling;
    }

    /** Leaves out what nothing draws through: signal leads above all. */
    private List<Link> listCarrying(List<Draw> draws, List<Link> pulling, int[] roots, boolean[] atGround) {
        List<Link> links =
                network.links().stream().filter(link -> !isJoint(link)).collect(Collectors.toList());
        links.addAll(pulling);
        int[] parents = new int[roots.length];
        Arrays.setAll(parents, at -> at);
        for (Link link : links) {
            int from = roots[link.from().index()];
            int to = roots[link.to().index()];
            if (!atGround[from] && !atGround[to]) {
                join(parents, from, to);
            }
        }
        boolean[] powered = new boolean[roots.length];
        for (Draw draw : draws) {
            powered[find(parents, roots[draw.node().index()])] = true;
            powered[find(parents, roots[draw.back().index()])] = true;
        }
        for (Link link : network.links()) {
            if (link.kind() == Link.Kind.RESISTOR || link.kind() == Link.Kind.DIODE) {
                powered[find(parents, roots[link.from().index()])] = true;
                powered[find(parents, roots[link.to().index()])] = true;
            }
        }
        List<Link> carrying = new ArrayList<>();
        for (Link link : links) {
            int from = roots[link.from().index()];
            int to = roots[link.to().index()];
            if (from != to
                    && ((!atGround[from] && powered[find(parents, from)])
                            || (!atGround[to] && powered[find(parents, to)]))) {
                carrying.add(link);
            }
        }
        return carrying;
    }

    private static boolean isJoint(Link link) {
        return link.kind() == Link.Kind.PLUG || link.kind() == Link.Kind.CONDUCTION;
    }

    private void index() {
        for (Strand strand : strands) {
            if (!strand.isDiode()) {
                strandStart[strand.from + 1]++;
                strandStart[strand.to + 1]++;
            }
        }
        for (int joint = 0; joint < joints; joint++) {
            strandStart[joint + 1] += strandStart[joint];
        }
        int[] next = strandStart.clone();
        for (Strand strand : strands) {
            if (!strand.isDiode()) {
                strandAt[next[strand.from]++] = strand.index;
                strandAt[next[strand.to]++] = strand.index;
            }
        }
    }

    static int find(int[] parents, int at) {
        int root = at;
        while (parents[root] != root) {
            parents[root] = parents[parents[root]];
            root = parents[root];
        }
        return root;
    }

    static void join(int[] parents, int one, int other) {
        parents[find(parents, one)] = find(parents, other);
    }
}
