package dev.splicebook.hookup.power;

import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.VoltRange;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Reach;
import dev.splicebook.hookup.net.Scenario;
import dev.splicebook.hookup.net.Scenario.Sure;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;

/**
 * How the grid hangs together with contacts as they stand and sources as they are live. Joints at which sources and
 * grounds hold the volts part it into clusters. Most are trees with one such root, in which the currents of the loads
 * alone say everything; what has loops, several roots or conducting diodes is meshed, and with all that loads or coils
 * tie to it goes to the solver of networks.
 */
final class Layout {

    static final int NONE = -1;

    /** A diode is taken as blocking while its anode stands no more than this above its cathode. */
    static final double BLOCKING_VOLTS = 0.4;

    final Grid grid;
    final Level level;
    private final double[] typicalVolts;
    private final double[] worstVolts;
    private final double[] highestVolts;
    /** The live source that holds a joint, null for ground and for joints that are not held. */
    final Node[] sourceAt;

    /** Cluster of each joint, {@link #NONE} where held or where no strand ends. */
    final int[] cluster;
    /** Strand by which a joint was reached from its root. */
    final int[] strandTo;
    /** Joints that are not held, roots' neighbours first. */
    final int[] order;

    int reached;
    int clusters;
    /** A held joint of each cluster, {@link #NONE} where nothing holds it. */
    private int[] rootOf = new int[8];

    private boolean[] meshedSeed = new boolean[8];
    private boolean[] shorted = new boolean[8];
    /** Clusters that both a source and a ground hold. */
    private final BitSet meeting = new BitSet();
    /** Least and most volts that hold a cluster, then a group; NaN where nothing does. */
    private double[] leastVolts = new double[8];

    private double[] mostVolts = new double[8];
    private double[] groupLeastVolts = new double[0];
    private double[] groupMostVolts = new double[0];
    private int[] groupOf = new int[0];
    private boolean[] meshed = new boolean[0];
    final boolean[] shortedJoint;

    private boolean anyShorted;

    private final List<int[]> ties = new ArrayList<>();
    private final Scenario scenario;
    private final boolean[] open;

    Layout(Grid grid, Scenario scenario, Level level) {
        this.grid = grid;
        this.scenario = scenario;
        this.level = level;
        typicalVolts = new double[grid.joints];
        worstVolts = new double[grid.joints];
        highestVolts = new double[grid.joints];
        sourceAt = new Node[grid.joints];
        shortedJoint = new boolean[grid.joints];
        open = new boolean[grid.strands.size()];
        cluster = new int[grid.joints];
        strandTo = new int[grid.joints];
        order = new int[grid.joints];
        for (Strand strand : grid.strands) {
            open[strand.index] =
                    strand.isDiode() || (strand.link.kind().isContact() && !scenario.isClosed(strand.link));
        }
        hold();
        walk();
        mesh();
    }

    private void hold() {
        VoltRange running = grid.network.hookup().map().runningVolts();
        for (double[] volts : List.of(typicalVolts, worstVolts, highestVolts)) {
            Arrays.fill(volts, Double.NaN);
            for (int joint = 0; joint < grid.joints; joint++) {
                if (grid.grounded[joint]) {
                    volts[joint] = 0;
                }
            }
        }
        for (Node source : grid.sources) {
            int joint = grid.joint(source);
            if (source.givesTwelveVolts() && scenario.isLive(source) == Sure.YES) {
                boolean independent = !source.isVehicle() && !hasLoad(source.owner());
                shortJoint(joint, isHeld(joint) && sourceAt[joint] == null);
                for (Extent extent : Extent.values()) {
                    double volts = level.volts(source, extent, running, independent);
                    double[] held = heldVolts(extent);
                    held[joint] = Double.isNaN(held[joint]) ? volts : Math.max(held[joint], volts);
                }
                sourceAt[joint] = source;
            }
        }
        grid.pulls.values().forEach(strand -> open[strand.index] = true);
        for (Node source : grid.sources) {
            if (!source.givesTwelveVolts() && source.pullsToGround() && scenario.isLive(source) == Sure.YES) {
                pull(source, grid.joint(source));
            }
        }
    }

    /** Lets an output conduct to its part's ground; where none is connected, which another rule tells, it is ground itself. */
    private void pull(Node source, int joint) {
        Strand own = grid.pulls.get(source);
        shortJoint(joint, sourceAt[joint] != null);
        if (own != null && sourceAt[joint] == null) {
            open[own.index] = false;
        } else if (!isHeld(joint)) {
            typicalVolts[joint] = 0;
            worstVolts[joint] = 0;
            highestVolts[joint] = 0;
        }
    }

    private void shortJoint(int joint, boolean meets) {
        shortedJoint[joint] |= meets;
        anyShorted |= meets;
    }

    private boolean hasLoad(String part) {
        for (Node node : grid.network.nodesOf(part)) {
            if (node.facts() instanceof Electrical.Load) {
                return true;
            }
        }
        return false;
    }

    /** Volts of each joint that a source or ground holds, NaN of the others. */
    double[] heldVolts(Extent extent) {
        return switch (extent) {
            case TYPICAL -> typicalVolts;
            case WORST -> worstVolts;
            case HIGHEST -> highestVolts;
        };
    }

    boolean isHeld(int joint) {
        return !Double.isNaN(typicalVolts[joint]);
    }

    boolean isOpen(Strand strand) {
        return open[strand.index];
    }

    private void walk() {
        Arrays.fill(cluster, NONE);
        Arrays.fill(strandTo, NONE);
        for (int joint = 0; joint < grid.joints; joint++) {
            if (isHeld(joint)) {
                for (int at = grid.strandStart[joint]; at < grid.strandStart[joint + 1]; at++) {
                    Strand strand = grid.strands.get(grid.strandAt[at]);
                    int next = strand.across(joint);
                    if (!isOpen(strand) && !isHeld(next) && cluster[next] == NONE) {
                        walk(next, strand.index, joint);
                    }
                }
            }
        }
        for (int joint = 0; joint < grid.joints; joint++) {
            if (!isHeld(joint) && cluster[joint] == NONE) {
                walk(joint, NONE, NONE);
            }
        }
        markShorted();
    }

    private void walk(int start, int by, int root) {
        int number = clusters++;
        if (number == rootOf.length) {
            rootOf = Arrays.copyOf(rootOf, 2 * number);
            meshedSeed = Arrays.copyOf(meshedSeed, 2 * number);
            shorted = Arrays.copyOf(shorted, 2 * number);
            leastVolts = Arrays.copyOf(leastVolts, 2 * number);
            mostVolts = Arrays.copyOf(mostVolts, 2 * number);
        }
        rootOf[number] = root;
        boolean source = root != NONE && sourceAt[root] != null;
        boolean ground = root != NONE && sourceAt[root] == null;
        double[] held = typicalVolts;
        double least = root == NONE ? Double.NaN : held[root];
        double most = least;
        boolean looped = false;
        boolean doubtful = root != NONE && shortedJoint[root];
        int first = reached;
        cluster[start] = number;
        strandTo[start] = by;
        order[reached++] = start;
        for (int head = first; head < reached; head++) {
            int joint = order[head];
            for (int at = grid.strandStart[joint]; at < grid.strandStart[joint + 1]; at++) {
                int index = grid.strandAt[at];
                Strand strand = grid.strands.get(index);
                if (open[index] || index == strandTo[joint]) {
                    continue;
                }
                int next = strand.across(joint);
                if (isHeld(next)) {
                    looped = true;
                    source |= sourceAt[next] != null;
                    ground |= sourceAt[next] == null;
                    doubtful |= shortedJoint[next];
                    least = Math.min(least, held[next]);
                    most = Math.max(most, held[next]);
                } else if (cluster[next] == NONE) {
                    cluster[next] = number;
                    strandTo[next] = index;
                    order[reached++] = next;
                } else {
                    looped = true;
                }
            }
        }
        leastVolts[number] = least;
        mostVolts[number] = most;
        meshedSeed[number] = looped && root != NONE;
        shorted[number] = doubtful;
        if (!doubtful && source && ground) {
            meeting.set(number);
        }
    }

    /** Marks the clusters in which a source stands hard on ground anywhere; that is another rule's to tell. */
    private void markShorted() {
        if (meeting.isEmpty()) {
            return;
        }
        for (Node node : grid.network.nodes()) {
            int number = cluster[grid.joint(node)];
            if (number != NONE && meeting.get(number) && !shorted[number] && isShorted(node)) {
                shorted[number] = true;
            }
        }
    }

    private boolean isShorted(Node node) {
        boolean source = false;
        boolean ground = false;
        for (Reach reach : scenario.reaches(node)) {
            if (reach.hard() && scenario.isLive(reach.source()) == Sure.YES) {
                source |= reach.source().givesTwelveVolts();
                ground |= reach.source().pullsToGround();
            }
        }
        return source && ground;
    }

    private void mesh() {
        groupOf = new int[clusters];
        Arrays.setAll(groupOf, at -> at);
        meshed = Arrays.copyOf(meshedSeed, clusters);
        groupLeastVolts = Arrays.copyOf(leastVolts, clusters);
        groupMostVolts = Arrays.copyOf(mostVolts, clusters);
        boolean[] rooted = new boolean[clusters];
        for (int at = 0; at < clusters; at++) {
            rooted[at] = rootOf[at] != NONE;
        }
        for (int[] tie : ties) {
            for (int joint : tie) {
                if (cluster[joint] != NONE) {
                    meshed[group(cluster[joint])] = true;
                }
            }
            if (cluster[tie[0]] != NONE && cluster[tie[1]] != NONE) {
                unite(cluster[tie[0]], cluster[tie[1]]);
            }
        }
        boolean changed = true;
        while (changed) {
            changed = false;
            for (Strand diode : grid.diodes) {
                changed |= conduct(diode, rooted);
            }
            for (Sink sink : grid.sinks) {
                changed |= tie(sink, rooted);
            }
        }
        for (int at = 0; at < clusters; at++) {
            if (!rooted[at]) {
                groupOf[at] = at;
                meshed[at] = false;
            }
        }
        for (int at = 0; at < clusters; at++) {
            if (shorted[at]) {
                shorted[group(at)] = true;
                anyShorted = true;
            }
        }
    }

    /** Meshes what a diode that conducts ties together. */
    private boolean conduct(Strand diode, boolean[] rooted) {
        double anode = potential(diode.from, rooted, true);
        double cathode = potential(diode.to, rooted, false);
        boolean conducts;
        if (Double.isNaN(anode)) {
            // something may push from beyond a floating anode only towards ground
            conducts = !Double.isNaN(cathode) && cathode < 1 && cluster[diode.from] != NONE;
        } else {
            conducts = Double.isNaN(cathode) ? anode > BLOCKING_VOLTS : anode - cathode > BLOCKING_VOLTS;
        }
        if (!conducts) {
            return false;
        }
        boolean changed = false;
        for (int joint : new int[] {diode.from, diode.to}) {
            if (cluster[joint] != NONE) {
                int group = group(cluster[joint]);
                changed |= !meshed[group] || !rooted[cluster[joint]];
                meshed[group] = true;
                rooted[cluster[joint]] = true;
                include(group, anode, cathode);
            }
        }
        if (cluster[diode.from] != NONE && cluster[diode.to] != NONE) {
            changed |= unite(cluster[diode.from], cluster[diode.to]);
        }
        if (isShorted(diode.link.from())) {
            for (int joint : new int[] {diode.from, diode.to}) {
                if (cluster[joint] != NONE) {
                    shorted[cluster[joint]] = true;
                }
            }
        }
        return changed;
    }

    /** Highest or lowest volts that hold a joint or its group; NaN where it floats. */
    private double potential(int joint, boolean[] rooted, boolean highest) {
        double[] held = typicalVolts;
        if (isHeld(joint)) {
            return held[joint];
        }
        if (cluster[joint] == NONE || !rooted[cluster[joint]]) {
            return Double.NaN;
        }
        int group = group(cluster[joint]);
        return highest ? groupMostVolts[group] : groupLeastVolts[group];
    }

    private void include(int group, double... volts) {
        for (double each : volts) {
            if (!Double.isNaN(each)) {
                double least = groupLeastVolts[group];
                double most = groupMostVolts[group];
                groupLeastVolts[group] = Double.isNaN(least) ? each : Math.min(least, each);
                groupMostVolts[group] = Double.isNaN(most) ? each : Math.max(most, each);
            }
        }
    }

    /** Meshes what a sink ties to something meshed; coils in series too. */
    private boolean tie(Sink sink, boolean[] rooted) {
        int one = cluster[sink.from];
        int other = cluster[sink.to];
        if (sink.isCoil()) {
            boolean chained = false;
            for (int end : new int[] {one, other}) {
                if (end != NONE && !rooted[end] && coilsAt(end) > 1) {
                    rooted[end] = true;
                    meshed[group(end)] = true;
                    chained = true;
                }
            }
            if (chained) {
                return true;
            }
        }
        boolean between = one != NONE && other != NONE && rooted[one] && rooted[other];
        return between && (meshed[group(one)] || meshed[group(other)]) && unite(one, other);
    }

    private int coilsAt(int number) {
        int coils = 0;
        for (Sink sink : grid.sinks) {
            if (sink.isCoil() && (cluster[sink.from] == number || cluster[sink.to] == number)) {
                coils++;
            }
        }
        return coils;
    }

    private boolean unite(int one, int other) {
        int first = group(one);
        int second = group(other);
        if (first == second) {
            return false;
        }
        groupOf[first] = second;
        include(second, groupLeastVolts[first], groupMostVolts[first]);
        meshed[second] |= meshed[first];
        meshed[first] = meshed[second];
        return true;
    }

    int group(int number) {
        int at = number;
        while (groupOf[at] != at) {
            at = groupOf[at];
        }
        return at;
    }

    /** Group of a joint, {@link #NONE} where it is held. */
    int groupAt(int joint) {
        return cluster[joint] == NONE ? NONE : group(cluster[joint]);
    }

    boolean isMeshed(int joint) {
        return cluster[joint] != NONE && meshed[group(cluster[joint])];
    }

    /** As it is before anything is meshed by {@link #mesh(int, int)}. */
    Layout fresh() {
        return new Layout(grid, scenario, level);
    }

    /** Meshes what hangs at two joints, and ties it together, because it is no tree after all. */
    void mesh(int one, int other) {
        ties.add(new int[] {one, other});
        mesh();
    }

    boolean isShorted(int joint) {
        return anyShorted && (shortedJoint[joint] || (cluster[joint] != NONE && shorted[group(cluster[joint])]));
    }

    /** Whether a source or a ground is known to hold a joint or its group. */
    boolean hasPotential(int joint) {
        return isHeld(joint) || (cluster[joint] != NONE && (rootOf[cluster[joint]] != NONE || isMeshed(joint)));
    }

    /** Held joint from which a joint hangs, itself where it is held; {@link #NONE} where it floats. */
    int root(int joint) {
        return isHeld(joint) ? joint : cluster[joint] == NONE ? NONE : rootOf[cluster[joint]];
    }

    /** Meshed groups, without those that are shorted. */
    List<Integer> meshedGroups() {
        List<Integer> groups = new ArrayList<>();
        for (int at = 0; at < clusters; at++) {
            if (groupOf[at] == at && meshed[at] && !shorted[at]) {
                groups.add(at);
            }
        }
        return groups;
    }
}
