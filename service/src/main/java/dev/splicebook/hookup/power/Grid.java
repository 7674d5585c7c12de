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
import java.util.List;
import java.util.Map;

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
    /** Strands but diodes by joint, from {@code strandStart[joint]} on. */
    final int[] strandStart;

    final int[] strandAt;
    /** Whether the vehicle's ground stands at a joint. */
    final boolean[] grounded;
    /** The joint at which the loads of a part return, for each part that has a ground terminal. */
    final Map<String, Integer> returnOf = new HashMap<>();
    /** Supplies and outputs that anything can draw from. */
    final List<Node> sources = new ArrayList<>();
    /** Nodes of which nothing is known. */
    final List<Node> unknown = new ArrayList<>();
    /** Sinks of parts that have no ground terminal, and so no known return. */
    final List<Node> returnless = new ArrayList<>();

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
        jointOf = new int[nodes.size()];
        int[] numbers = new int[nodes.size()];
        Arrays.fill(numbers, -1);
        int count = 0;
        for (int at = 0; at < jointOf.length; at++) {
            int root = find(parents, at);
            if (numbers[root] < 0) {
                numbers[root] = count++;
            }
            jointOf[at] = numbers[root];
        }
        joints = count;
        groundOf.forEach((part, node) -> returnOf.put(part, joint(node)));
        grounded = new boolean[joints];
        for (Node node : nodes) {
            if (node.isReference()) {
                grounded[joint(node)] = true;
            } else if (node.isVehicle() && node.facts() == null) {
                unknown.add(node);
            }
        }
        addSinks();
        addStrands();
        strandStart = new int[joints + 1];
        strandAt = new int[2 * strands.size()];
        index();
        findSources();
    }

    int joint(Node node) {
        return jointOf[node.index()];
    }

    private void addSinks() {
        Node chassis = network.findNode("CAR.chassis");
        for (Node node : network.nodes()) {
            boolean takes = node.facts() instanceof Electrical.Load
                    || (node.facts() instanceof Electrical.ControlIn in && in.active() == Active.TWELVE_VOLTS);
            if (takes && !network.isUnused(node)) {
                Integer back = node.isVehicle()
                        ? chassis == null ? null : Integer.valueOf(joint(chassis))
                        : returnOf.get(node.owner());
                if (back == null) {
                    returnless.add(node);
                } else {
                    sinks.add(new Sink(sinks.size(), node, null, joint(node), back));
                }
            }
        }
        for (Coil coil : network.coils()) {
            if (joint(coil.one()) != joint(coil.other())) {
                sinks.add(new Sink(sinks.size(), coil.one(), coil, joint(coil.one()), joint(coil.other())));
            }
        }
    }

    /** Leaves out what nothing draws through: signal leads above all. */
    private void addStrands() {
        int[] parents = new int[joints];
        Arrays.setAll(parents, at -> at);
        for (Link link : network.links()) {
            if (!isJoint(link) && !grounded[joint(link.from())] && !grounded[joint(link.to())]) {
                join(parents, joint(link.from()), joint(link.to()));
            }
        }
        boolean[] powered = new boolean[joints];
        for (Sink sink : sinks) {
            powered[find(parents, sink.from)] = true;
            powered[find(parents, sink.to)] = true;
        }
        for (Link link : network.links()) {
            if (link.kind() == Link.Kind.RESISTOR || link.kind() == Link.Kind.DIODE) {
                powered[find(parents, joint(link.from()))] = true;
                powered[find(parents, joint(link.to()))] = true;
            }
        }
        Strand.Makes makes = new Strand.Makes();
        for (Link link : network.links()) {
            int from = joint(link.from());
            int to = joint(link.to());
            boolean both = grounded[from] && grounded[to];
            if (!isJoint(link)
                    && from != to
                    && !both
                    && ((!grounded[from] && powered[find(parents, from)])
                            || (!grounded[to] && powered[find(parents, to)]))) {
                Strand strand = new Strand(strands.size(), link, from, to, makes);
                strands.add(strand);
                if (strand.isDiode()) {
                    diodes.add(strand);
                }
            }
        }
    }

    private static boolean isJoint(Link link) {
        return link.kind() == Link.Kind.PLUG || link.kind() == Link.Kind.CONDUCTION;
    }

    private void findSources() {
        boolean[] touched = new boolean[joints];
        for (Strand strand : strands) {
            touched[strand.from] = true;
            touched[strand.to] = true;
        }
        for (Sink sink : sinks) {
            touched[sink.from] = true;
            touched[sink.to] = true;
        }
        for (Node source : network.sources()) {
            if (touched[joint(source)]) {
                sources.add(source);
            }
        }
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
