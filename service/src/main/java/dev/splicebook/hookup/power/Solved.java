package dev.splicebook.hookup.power;

import dev.splicebook.circuit.DcResult;
import dev.splicebook.circuit.Element;
import dev.splicebook.circuit.Network;
import dev.splicebook.circuit.Solver;
import dev.splicebook.hookup.net.Coil;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Node;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Predicate;
import org.jgrapht.Graph;
import org.jgrapht.alg.flow.EdmondsKarpMFImpl;
import org.jgrapht.graph.DefaultWeightedEdge;
import org.jgrapht.graph.DirectedWeightedMultigraph;
import org.jspecify.annotations.Nullable;

/**
 * Volts and amps of one case at one extent. What cannot be told is NaN: what floats, and what a short takes part in.
 *
 * <p>A tree is solved by Kirchhoff's laws from its leaves to its root and back, which is exact because the amps of loads do
 * not depend on volts; coils, which depend a little, are gone over until nothing moves. Meshes go to {@link Solver}.
 */
public final class Solved {

    /** Below this a load takes nothing, and its constant current is no law any more. */
    private static final double LEAST_VOLTS = 0.1;

    private static final int MOST_ROUNDS = 60;
    private static final double SETTLED_SHARE = 1e-13;

    /** More than any lead-acid battery of a vehicle gives: a short by another way. */
    private static final double MOST_AMPS = 5000;

    /** Capacity that never is the least. */
    private static final double BOUNDLESS_AMPS = 1e9;

    /** Less by a resistor empties no battery. */
    private static final double LEAST_LEAK_AMPS = 1e-5;

    /** Less is the leak of a diode. */
    private static final double LEAST_AMPS = 1e-9;

    /** A conductor warms by its current, which its warmth lessens. One that has not settled by then is overloaded anyway. */
    private static final int HEATING_PASSES = 8;

    private static final double HEATED_SHARE = 1e-6;

    /** Loops in one mesh: a vehicle has a handful, and solving takes time by their cube. */
    private static final int MOST_LOOPS = 300;

    private final Grid grid;
    /** Shared with the other extent, until this one turns out to mesh more. */
    Layout layout;

    private boolean ownLayout;
    private final Extent extent;
    private final double[] heldVolts;
    private final double[] volts;
    private final double[] amps;
    private final double[] ohms;
    private final double[] drawnAmps;
    private final Set<Node> charged = new LinkedHashSet<>();
    private final Set<String> unsolved = new TreeSet<>();
    private double @Nullable [] givenAmps;
    private @Nullable Map<Integer, Set<String>> lacks;
    private @Nullable Map<Integer, Set<String>> lacksAwake;
    private final Map<Sink, List<Strand>> paths = new HashMap<>();
    /** By group, worked out when first asked for. */
    private final Map<Integer, Currents> currents = new HashMap<>();

    Solved(Layout layout, Extent extent) {
        this.layout = layout;
        this.extent = extent;
        grid = layout.grid;
        heldVolts = layout.heldVolts(extent);
        volts = new double[grid.joints];
        amps = new double[grid.strands.size()];
        ohms = new double[grid.strands.size()];
        drawnAmps = new double[grid.sinks.size()];
        boolean sound;
        do {
            sound = solve();
        } while (!sound);
    }

    /** Solves all, or meshes what is no tree after all and gives up. */
    private boolean solve() {
        System.arraycopy(heldVolts, 0, volts, 0, volts.length);
        for (int joint = 0; joint < volts.length; joint++) {
            if (layout.shortedJoint[joint]) {
                volts[joint] = Double.NaN;
            }
        }
        Arrays.fill(amps, 0);
        Arrays.fill(drawnAmps, 0);
        Sink weak = solveTrees();
        if (weak != null) {
            mesh(weak.from, weak.to);
            return false;
        }
        for (Strand diode : grid.diodes) {
            boolean inTrees = !layout.isMeshed(diode.from) && !layout.isMeshed(diode.to);
            boolean inside = layout.cluster[diode.from] != Layout.NONE || layout.cluster[diode.to] != Layout.NONE;
            if (inTrees && inside && volts[diode.from] - volts[diode.to] > Layout.BLOCKING_VOLTS) {
                mesh(diode.from, diode.to);
                return false;
            }
        }
        for (int group : layout.meshedGroups()) {
            solveMesh(group);
        }
        addHeldStrands();
        return true;
    }

    private void mesh(int one, int other) {
        if (!ownLayout) {
            layout = layout.fresh();
            ownLayout = true;
        }
        layout.mesh(one, other);
    }

    /** Whether a sink hangs in trees alone, between volts that it can take. */
    private boolean isFedByTrees(Sink sink) {
        return !layout.isMeshed(sink.from)
                && !layout.isMeshed(sink.to)
                && !layout.isShorted(sink.from)
                && !layout.isShorted(sink.to)
                && layout.root(sink.from) != Layout.NONE
                && layout.root(sink.to) != Layout.NONE;
    }

    private double rootVolts(int joint) {
        return heldVolts[layout.root(joint)];
    }

    /** @return a sink that is left too few volts, null if there is none */
    private @Nullable Sink solveTrees() {
        double[] taken = new double[grid.joints];
        boolean coils = false;
        for (Sink sink : grid.sinks) {
            if (isFedByTrees(sink)) {
                double across = rootVolts(sink.from) - rootVolts(sink.to);
                double drawn = 0;
                if (sink.isCoil()) {
                    drawn = Double.isNaN(sink.ohms()) ? 0 : across / sink.ohms();
                    coils |= drawn != 0;
                } else if (across > LEAST_VOLTS) {
                    drawn = stated(sink);
                }
                drawnAmps[sink.index] = drawn;
            }
        }
        boolean[] tree = new boolean[grid.joints];
        for (int at = 0; at < layout.reached; at++) {
            tree[layout.order[at]] = isTree(layout.order[at]);
        }
        double change = Double.POSITIVE_INFINITY;
        for (int round = 0; round < MOST_ROUNDS && change > SETTLED_SHARE; round++) {
            Arrays.fill(taken, 0);
            for (Sink sink : grid.sinks) {
                double drawn = drawnAmps[sink.index];
                if (drawn != 0) {
                    taken[sink.from] += drawn;
                    taken[sink.to] -= drawn;
                }
            }
            sweep(taken, tree);
            change = coils ? adjustCoils() : 0;
        }
        for (Sink sink : grid.sinks) {
            double drawn = drawnAmps[sink.index];
            boolean tied = layout.cluster[sink.from] != Layout.NONE || layout.cluster[sink.to] != Layout.NONE;
            if (drawn != 0 && tied && (sink.isCoil() ? change > SETTLED_SHARE : across(sink) < LEAST_VOLTS)) {
                return sink;
            }
        }
        return null;
    }

    private double stated(Sink sink) {
        Double stated = sink.statedAmps(layout.level, extent);
        if (stated == null && extent != Extent.TYPICAL) {
            stated = sink.statedAmps(layout.level, Extent.TYPICAL);
        }
        return stated == null ? 0 : stated;
    }

    /** Amps from the leaves to the roots, then volts back. */
    private void sweep(double[] taken, boolean[] tree) {
        for (int at = layout.reached - 1; at >= 0; at--) {
            int joint = layout.order[at];
            int by = layout.strandTo[joint];
            if (by != Layout.NONE && tree[joint]) {
                Strand strand = grid.strands.get(by);
                double flow = taken[joint];
                amps[by] = strand.to == joint ? flow : -flow;
                taken[strand.across(joint)] += flow;
            }
        }
        for (int at = 0; at < layout.reached; at++) {
            int joint = layout.order[at];
            int by = layout.strandTo[joint];
            if (by == Layout.NONE || !tree[joint]) {
                volts[joint] = Double.NaN;
            } else {
                Strand strand = grid.strands.get(by);
                ohms[by] = strand.ohms(amps[by]);
                double drop = amps[by] * ohms[by];
                volts[joint] = volts[strand.across(joint)] - (strand.to == joint ? drop : -drop);
            }
        }
    }

    private boolean isTree(int joint) {
        return layout.root(joint) != Layout.NONE && !layout.isMeshed(joint) && !layout.isShorted(joint);
    }

    /** @return largest change, relative */
    private double adjustCoils() {
        double most = 0;
        for (Sink sink : grid.coils) {
            double before = drawnAmps[sink.index];
            if (before != 0) {
                double now = (volts[sink.from] - volts[sink.to]) / sink.ohms();
                most = Math.max(most, Math.abs(now - before) / Math.abs(before));
                drawnAmps[sink.index] = now;
            }
        }
        return most;
    }

    /** Strands between two joints that are held: what flows there only their difference says. */
    private void addHeldStrands() {
        for (Strand strand : grid.strands) {
            if (layout.isHeld(strand.from) && layout.isHeld(strand.to) && !layout.isOpen(strand)) {
                amps[strand.index] = heldVolts[strand.from] == heldVolts[strand.to] ? 0 : Double.NaN;
            }
        }
    }

    private void solveMesh(int group) {
        List<Strand> strands = new ArrayList<>();
        Set<Integer> held = new LinkedHashSet<>();
        for (Strand strand : grid.strands) {
            boolean inside = layout.groupAt(strand.from) == group || layout.groupAt(strand.to) == group;
            boolean apart = !inside
                    || (strand.isDiode()
                            ? !(layout.hasPotential(strand.from) && layout.hasPotential(strand.to))
                            : layout.isOpen(strand));
            boolean foreign =
                    !apart && strand.isDiode() && (isForeign(strand.from, group) || isForeign(strand.to, group));
            if (!apart && !foreign) {
                strands.add(strand);
                addHeld(strand.from, held);
                addHeld(strand.to, held);
            }
        }
        List<Sink> sinks = new ArrayList<>();
        for (Sink sink : grid.sinks) {
            boolean inside = layout.groupAt(sink.from) == group || layout.groupAt(sink.to) == group;
            if (inside
                    && layout.hasPotential(sink.from)
                    && layout.hasPotential(sink.to)
                    && !isForeign(sink.from, group)
                    && !isForeign(sink.to, group)) {
                sinks.add(sink);
                addHeld(sink.from, held);
                addHeld(sink.to, held);
            }
        }
        if (loops(strands) > MOST_LOOPS) {
            fail(group);
            tellUnsolved(strands);
            return;
        }
        Set<Integer> giving = new LinkedHashSet<>();
        held.forEach(joint -> {
            if (layout.sourceAt[joint] != null) {
                giving.add(joint);
            }
        });
        DcResult.Solved solved = null;
        boolean again = true;
        double change = Double.POSITIVE_INFINITY;
        for (int pass = 0; (pass < HEATING_PASSES && change > HEATED_SHARE) || again; pass++) {
            solved = solve(strands, sinks, held, giving);
            if (solved == null) {
                fail(group);
                if (isGrounded(strands, sinks)) {
                    tellUnsolved(strands);
                }
                return;
            }
            again = false;
            for (int joint : List.copyOf(giving)) {
                double taken = branch(solved, "v" + joint).amps();
                Node source = layout.sourceAt[joint];
                // a battery that gives nothing to another is charged, by amps that no fact tells
                boolean idle = taken > -1e-6 && giving.size() > 1 && source != null && !source.isVehicle();
                if (source != null && (idle || taken > 1e-6)) {
                    charged.add(source);
                }
                if (taken > 1e-6) {
                    giving.remove(joint);
                    again = true;
                }
            }
            change = 0;
            for (Strand strand : strands) {
                amps[strand.index] = branch(solved, "w" + strand.index).amps();
                if (!strand.isDiode()) {
                    double before = ohms[strand.index];
                    change = Math.max(change, Math.abs(strand.ohms(amps[strand.index]) - before) / before);
                }
            }
        }
        for (Strand strand : strands) {
            if (Math.abs(amps[strand.index]) > MOST_AMPS) {
                fail(group);
                return;
            }
        }
        DcResult.Solved last = Objects.requireNonNull(solved, "at least one pass is made");
        for (Map.Entry<String, Double> node : last.volts().entrySet()) {
            if (node.getKey().startsWith("j")) {
                int joint = Integer.parseInt(node.getKey().substring(1));
                if (!layout.isHeld(joint)) {
                    volts[joint] = node.getValue();
                }
            }
        }
        for (Sink sink : sinks) {
            DcResult.Branch branch = last.branches().get("s" + sink.index);
            drawnAmps[sink.index] = branch == null ? 0 : branch.amps();
        }
    }

    /** Of different strands, what lies side by side counting as one. */
    private int loops(List<Strand> strands) {
        Set<Long> ways = new HashSet<>();
        Set<Integer> free = new HashSet<>();
        for (Strand strand : strands) {
            ways.add((long) Math.min(strand.from, strand.to) * grid.joints + Math.max(strand.from, strand.to));
            for (int joint : new int[] {strand.from, strand.to}) {
                if (!layout.isHeld(joint)) {
                    free.add(joint);
                }
            }
        }
        return ways.size() - free.size();
    }

    private boolean isGrounded(List<Strand> strands, List<Sink> sinks) {
        return strands.stream()
                        .anyMatch(strand ->
                                name(strand.from).equals("0") || name(strand.to).equals("0"))
                || sinks.stream()
                        .anyMatch(sink ->
                                name(sink.from).equals("0") || name(sink.to).equals("0"));
    }

    private void tellUnsolved(List<Strand> strands) {
        strands.stream()
                .map(strand -> strand.link.ref())
                .filter(Objects::nonNull)
                .min(Comparator.naturalOrder())
                .ifPresent(unsolved::add);
    }

    private static DcResult.Branch branch(DcResult.Solved solved, String name) {
        return Objects.requireNonNull(solved.branches().get(name), name);
    }

    private boolean isForeign(int joint, int group) {
        return !layout.isHeld(joint) && layout.groupAt(joint) != group;
    }

    private void addHeld(int joint, Set<Integer> held) {
        if (layout.isHeld(joint)) {
            held.add(joint);
        }
    }

    private void fail(int group) {
        for (Strand strand : grid.strands) {
            if (layout.groupAt(strand.from) == group || layout.groupAt(strand.to) == group) {
                amps[strand.index] = Double.NaN;
            }
        }
    }

    private DcResult.@Nullable Solved solve(
            List<Strand> strands, List<Sink> sinks, Set<Integer> held, Set<Integer> giving) {
        List<Element> elements = new ArrayList<>();
        for (int joint : held) {
            if (layout.sourceAt[joint] != null && giving.contains(joint)) {
                elements.add(new Element.VoltageSource("v" + joint, "j" + joint, "0", heldVolts[joint]));
            }
        }
        for (Strand strand : strands) {
            String name = "w" + strand.index;
            String from = name(strand.from);
            String to = name(strand.to);
            if (strand.isDiode()) {
                elements.add(new Element.Diode(name, from, to));
            } else {
                ohms[strand.index] = strand.ohms(amps[strand.index]);
                elements.add(new Element.Resistor(name, from, to, ohms[strand.index]));
            }
        }
        for (Sink sink : sinks) {
            String name = "s" + sink.index;
            if (!sink.isCoil()) {
                elements.add(new Element.ConstantCurrentLoad(name, name(sink.from), name(sink.to), stated(sink)));
            } else if (!Double.isNaN(sink.ohms())) {
                elements.add(new Element.Resistor(name, name(sink.from), name(sink.to), sink.ohms()));
            }
        }
        if (giving.isEmpty() && !isGrounded(strands, sinks)) {
            return null;
        }
        return Solver.dc(new Network(elements, "0")) instanceof DcResult.Solved solved ? solved : null;
    }

    private String name(int joint) {
        return layout.isHeld(joint) && layout.sourceAt[joint] == null ? "0" : "j" + joint;
    }

    /** What can carry power. */
    public List<Strand> strands() {
        return grid.strands;
    }

    /** What takes current. */
    public List<Sink> sinks() {
        return grid.sinks;
    }

    /** Amps from the first end of a strand to the other, NaN where that cannot be told. */
    public double amps(Strand strand) {
        return layout.isShorted(strand.from) || layout.isShorted(strand.to) ? Double.NaN : amps[strand.index];
    }

    /** Watts that a strand turns to heat. */
    public double lossWatts(Strand strand) {
        double flow = amps(strand);
        return strand.isDiode()
                ? flow * (volts[strand.from] - volts[strand.to])
                : flow == 0 ? 0 : flow * flow * ohms[strand.index];
    }

    /** Amps that a sink takes, 0 where it is not fed. */
    public double amps(Sink sink) {
        return Math.abs(drawnAmps[sink.index]);
    }

    /** Whether there is feed and return at a sink, so that it takes what it takes, or would if wires left it any volts. */
    public boolean isFed(Sink sink) {
        return across(sink) > LEAST_VOLTS || (!sink.isCoil() && drawnAmps[sink.index] != 0);
    }

    /**
     * Volts across a sink, NaN where it floats; of a coil, which takes either sign, their amount. 0 where wires would take more
     * than there is.
     */
    public double across(Sink sink) {
        double across = volts[sink.from] - volts[sink.to];
        return sink.isCoil() ? Math.abs(across) : across < 0 && drawnAmps[sink.index] != 0 ? 0 : across;
    }

    /** The terminal of a sink at which current enters it: of a coil whichever end that is. */
    public Node fedEnd(Sink sink) {
        Coil coil = sink.coil();
        return coil == null || entry(sink) == sink.from ? sink.node() : coil.other();
    }

    /** The joint at which current enters a sink. */
    private int entry(Sink sink) {
        return sink.isCoil() && volts[sink.from] < volts[sink.to] ? sink.to : sink.from;
    }

    private int exit(Sink sink) {
        return entry(sink) == sink.from ? sink.to : sink.from;
    }

    /** Whether a sink hangs on what is shorted, where no volts can be told. */
    public boolean isShorted(Sink sink) {
        return layout.isShorted(sink.from) || layout.isShorted(sink.to);
    }

    /** Volts between a sink's terminal and the vehicle's ground. */
    public double volts(Sink sink) {
        return volts[sink.from];
    }

    /** Volts that the source of a sink holds; the highest where several may feed it. */
    public double sourceVolts(Sink sink) {
        int root = layout.root(entry(sink));
        if (!layout.isMeshed(entry(sink)) && root != Layout.NONE) {
            return heldVolts[root];
        }
        double most = Double.NaN;
        for (Strand strand : feedPath(sink)) {
            for (int joint : new int[] {strand.from, strand.to}) {
                if (layout.sourceAt[joint] != null && !(heldVolts[joint] <= most)) {
                    most = heldVolts[joint];
                }
            }
        }
        return most;
    }

    /** Volts that the return of a part stands above the chassis; NaN where it floats or has none. */
    public double offsetVolts(String part) {
        Integer joint = grid.returnOf.get(part);
        return joint == null ? Double.NaN : volts[joint];
    }

    /** Whether a source holds the volts where it stands, by itself or as one of several there. */
    boolean isHolding(Node source) {
        return layout.sourceAt[grid.joint(source)] == source && !layout.isShorted(grid.joint(source));
    }

    double heldVolts(Node source) {
        return heldVolts[grid.joint(source)];
    }

    /** Resistors by which current flows that no load, input or coil takes, as from a constant feed to ground. */
    public List<Strand> leaks() {
        Set<Strand> used = new HashSet<>();
        for (Sink sink : grid.sinks) {
            if (amps(sink) > 0) {
                used.addAll(path(sink));
            }
        }
        List<Strand> all = grid.strands.stream().filter(this::isLeaking).toList();
        List<Strand> leaks =
                all.stream().filter(strand -> !used.contains(strand)).toList();
        // one in series with what is used leaks too where there is no other
        return leaks.isEmpty() ? all : leaks;
    }

    private boolean isLeaking(Strand strand) {
        return strand.isResistor() && Math.abs(amps(strand)) > LEAST_LEAK_AMPS;
    }

    /** The terminal of a resistor at which current enters it. */
    public Node fedEnd(Strand resistor) {
        return amps(resistor) < 0 ? resistor.link.to() : resistor.link.from();
    }

    /**
     * Amps that live sources of 12 V give beyond what loads, inputs and coils take, 0 where that cannot be told.
     *
     * @param counts sources that are looked at
     * @param fed sinks that these feed
     */
    public double leakedAmps(Predicate<Node> counts, Predicate<Sink> fed) {
        if (grid.strands.stream().noneMatch(this::isLeaking)) {
            return 0;
        }
        double given = 0;
        for (Node source : grid.sources) {
            if (source.givesTwelveVolts() && isHolding(source) && counts.test(source)) {
                given += amps(source);
            }
        }
        for (Sink sink : grid.sinks) {
            given -= fed.test(sink) ? amps(sink) : 0;
        }
        return given > LEAST_LEAK_AMPS ? given : 0;
    }

    /** Amps that a resistor lets flow beside what goes by it to loads, inputs and coils; 0 where that cannot be told. */
    public double leakedAmps(Link resistor) {
        for (Strand strand : grid.strands) {
            if (strand.link == resistor) {
                double leaked = Math.abs(amps(strand));
                for (Sink sink : grid.sinks) {
                    if (amps(sink) > 0 && path(sink).contains(strand)) {
                        leaked -= amps(sink);
                    }
                }
                return leaked > LEAST_LEAK_AMPS ? leaked : 0;
            }
        }
        return 0;
    }

    /** Amps that return by a ground of the vehicle, and by all that plugs and conducting groups join with it. */
    public double returnedAmps(Node ground) {
        return -amps(ground);
    }

    /** Amps that a live source gives; NaN where that cannot be told. */
    public double amps(Node source) {
        if (givenAmps == null) {
            givenAmps = new double[grid.joints];
            for (Strand strand : grid.strands) {
                double flow = amps(strand);
                givenAmps[strand.from] += flow;
                givenAmps[strand.to] -= flow;
            }
            for (Sink sink : grid.sinks) {
                givenAmps[sink.from] += drawnAmps[sink.index];
                givenAmps[sink.to] -= drawnAmps[sink.index];
            }
        }
        return givenAmps[grid.joint(source)];
    }

    /** The strand by which a joint hangs in its tree, null at its root and in meshes. */
    private @Nullable Strand above(int joint) {
        boolean hangs = layout.cluster[joint] != Layout.NONE
                && !layout.isMeshed(joint)
                && layout.strandTo[joint] != Layout.NONE;
        return hangs ? grid.strands.get(layout.strandTo[joint]) : null;
    }

    /** The strands on the way from a sink to what holds its two ends; in a mesh every way that its current takes. */
    public List<Strand> path(Sink sink) {
        return paths.computeIfAbsent(sink, this::workOutPath);
    }

    private List<Strand> workOutPath(Sink sink) {
        List<Strand> feed = feedPath(sink);
        List<Strand> back = path(exit(sink), false);
        // the two ways can share strands only within one tree or mesh
        if (layout.groupAt(sink.from) != layout.groupAt(sink.to)) {
            List<Strand> path = new ArrayList<>(feed.size() + back.size());
            path.addAll(feed);
            path.addAll(back);
            return path;
        }
        Set<Strand> path = new LinkedHashSet<>(feed);
        path.addAll(back);
        return List.copyOf(path);
    }

    /** The strands on the way from where current enters a sink to its source; in a mesh every way that its current takes. */
    public List<Strand> feedPath(Sink sink) {
        return path(entry(sink), true);
    }

    /** The strands on the way from the return of a part to ground; in a mesh every way that its current takes. */
    public List<Strand> returnPath(String part) {
        Integer joint = grid.returnOf.get(part);
        return joint == null ? List.of() : path(joint, false);
    }

    /**
     * What the conductors bear together by which a part returns: the largest flow from its return to ground. Infinite where
     * one way is of conductors of unknown size alone, or the part returns without any.
     */
    public double bearableAmps(String part, Collection<Strand> returns) {
        Integer start = grid.returnOf.get(part);
        if (start == null || grid.grounded[start]) {
            return Double.POSITIVE_INFINITY;
        }
        Graph<Integer, DefaultWeightedEdge> graph = new DirectedWeightedMultigraph<>(DefaultWeightedEdge.class);
        int ground = Layout.NONE;
        graph.addVertex(start);
        graph.addVertex(ground);
        for (Strand strand : returns) {
            int from = grid.grounded[strand.from] ? ground : strand.from;
            int to = grid.grounded[strand.to] ? ground : strand.to;
            if (from != to) {
                graph.addVertex(from);
                graph.addVertex(to);
                double amps = Double.isNaN(strand.allowableAmps()) ? BOUNDLESS_AMPS : strand.allowableAmps();
                graph.setEdgeWeight(graph.addEdge(from, to), amps);
                graph.setEdgeWeight(graph.addEdge(to, from), amps);
            }
        }
        double bearable = new EdmondsKarpMFImpl<>(graph).calculateMaximumFlow(start, ground);
        return bearable >= BOUNDLESS_AMPS ? Double.POSITIVE_INFINITY : bearable;
    }

    private List<Strand> path(int start, boolean toSource) {
        if (layout.isMeshed(start)) {
            return follow(start, toSource);
        }
        List<Strand> path = new ArrayList<>(4);
        int joint = start;
        for (Strand strand = above(joint); strand != null; strand = above(joint)) {
            path.add(strand);
            joint = strand.across(joint);
        }
        return path;
    }

    /** The strands that current takes from a joint of a mesh on, or towards it. */
    private List<Strand> follow(int start, boolean toSource) {
        Currents currents = currents(layout.groupAt(start));
        Set<Strand> path = new LinkedHashSet<>();
        BitSet reached = new BitSet();
        ArrayDeque<Integer> queue = new ArrayDeque<>();
        reached.set(start);
        queue.add(start);
        while (!queue.isEmpty()) {
            int joint = queue.remove();
            for (Strand strand : toSource ? currents.into(joint) : currents.outOf(joint)) {
                int next = strand.across(joint);
                path.add(strand);
                if (!reached.get(next)) {
                    reached.set(next);
                    queue.add(next);
                }
            }
        }
        return List.copyOf(path);
    }

    private Currents currents(int group) {
        if (currents.isEmpty()) {
            for (Strand strand : grid.strands) {
                if (Math.abs(amps[strand.index]) > LEAST_AMPS) {
                    int one = layout.groupAt(strand.from);
                    int other = layout.groupAt(strand.to);
                    add(strand, one);
                    if (other != one) {
                        add(strand, other);
                    }
                }
            }
        }
        return currents.computeIfAbsent(group, key -> new Currents());
    }

    private void add(Strand strand, int group) {
        boolean forward = amps[strand.index] > 0;
        Currents into = currents.computeIfAbsent(group, key -> new Currents());
        into.outOf
                .computeIfAbsent(forward ? strand.from : strand.to, key -> new ArrayList<>(2))
                .add(strand);
        into.into
                .computeIfAbsent(forward ? strand.to : strand.from, key -> new ArrayList<>(2))
                .add(strand);
    }

    /** The strands of one group that carry current, by the joints that it leaves and comes to. */
    private static final class Currents {
        private final Map<Integer, List<Strand>> outOf = new HashMap<>();
        private final Map<Integer, List<Strand>> into = new HashMap<>();

        List<Strand> outOf(int joint) {
            return outOf.getOrDefault(joint, List.of());
        }

        List<Strand> into(int joint) {
            return into.getOrDefault(joint, List.of());
        }
    }

    /** Volts that diodes take on the way from source to sink and back, by the way that most of the current takes. */
    public double diodeVolts(Sink sink) {
        return grid.diodes.isEmpty() ? 0 : takenVolts(sink, Strand::isDiode);
    }

    /** Volts that resistors take on the way to a sink and back, as one in series with a lamp does. */
    public double resistorVolts(Sink sink) {
        return takenVolts(sink, Strand::isResistor);
    }

    private double takenVolts(Sink sink, Predicate<Strand> takes) {
        return path(sink).stream().noneMatch(takes)
                ? 0
                : takenVolts(entry(sink), feedPath(sink), takes)
                        + takenVolts(exit(sink), path(exit(sink), false), takes);
    }

    private double takenVolts(int start, List<Strand> path, Predicate<Strand> takes) {
        if (path.stream().noneMatch(takes)) {
            return 0;
        }
        double taken = 0;
        Set<Strand> passed = new HashSet<>();
        int joint = start;
        for (Strand next = mostAt(joint, path, passed); next != null; next = mostAt(joint, path, passed)) {
            passed.add(next);
            taken += takes.test(next) ? Math.abs(volts[next.from] - volts[next.to]) : 0;
            joint = next.across(joint);
        }
        return taken;
    }

    private @Nullable Strand mostAt(int joint, List<Strand> path, Set<Strand> passed) {
        Strand most = null;
        for (Strand strand : path) {
            if ((strand.from == joint || strand.to == joint)
                    && !passed.contains(strand)
                    && (most == null || Math.abs(amps[strand.index]) > Math.abs(amps[most.index]))) {
                most = strand;
            }
        }
        return most;
    }

    /** Facts without which the amps of a strand may be more than told: of sinks, and of lengths where it has a choice. */
    public Set<String> lacks(Strand strand) {
        return at(strand, lacks());
    }

    /**
     * Facts without which the most that a strand carries may be more than told. What a load takes asleep is none of them: it
     * takes no more then than awake.
     */
    public Set<String> lacksOfMost(Strand strand) {
        if (layout.level != Level.ASLEEP) {
            return lacks(strand);
        }
        if (lacksAwake == null) {
            lacksAwake = new HashMap<>();
            for (Map.Entry<Integer, Set<String>> group : lacks().entrySet()) {
                Set<String> left = new TreeSet<>(group.getValue());
                left.removeIf(fact -> fact.endsWith(".sleepAmps"));
                lacksAwake.put(group.getKey(), left);
            }
        }
        return at(strand, lacksAwake);
    }

    /** What is lacking in the groups at both ends of a strand; mostly they are one, and all of it share one set. */
    private Set<String> at(Strand strand, Map<Integer, Set<String>> byGroup) {
        if (byGroup.isEmpty()) {
            return Set.of();
        }
        Set<String> one = at(strand.from, byGroup);
        Set<String> other = at(strand.to, byGroup);
        if (one == other || other.isEmpty()) {
            return one;
        }
        if (one.isEmpty()) {
            return other;
        }
        Set<String> both = new TreeSet<>(one);
        both.addAll(other);
        return both;
    }

    private Set<String> at(int joint, Map<Integer, Set<String>> byGroup) {
        return layout.cluster[joint] == Layout.NONE ? Set.of() : byGroup.getOrDefault(layout.groupAt(joint), Set.of());
    }

    /** Adds the facts without which the volts across a sink may be fewer than told. */
    public void addLacks(Sink sink, Lacks into) {
        addLacks(path(sink), into);
    }

    /** Adds the facts without which the volts along a way may be more than told. */
    public void addLacks(Iterable<Strand> way, Lacks into) {
        for (Strand strand : way) {
            into.addAll(lacks(strand));
            String fact = strand.lackedFact();
            if (fact != null) {
                into.add("connection " + strand.link.ref() + "." + fact);
            }
        }
    }

    private Map<Integer, Set<String>> lacks() {
        if (lacks == null) {
            lacks = workOutLacks();
        }
        return lacks;
    }

    private Map<Integer, Set<String>> workOutLacks() {
        Map<Integer, Set<String>> found = new HashMap<>();
        for (Sink sink : grid.sinks) {
            if (isFed(sink) && lackedFact(sink) != null) {
                for (int joint : new int[] {sink.from, sink.to}) {
                    if (layout.cluster[joint] != Layout.NONE) {
                        found.computeIfAbsent(layout.groupAt(joint), key -> new TreeSet<>())
                                .add(sink.node() + "." + lackedFact(sink));
                    }
                }
            }
        }
        Set<Integer> looped = looped();
        for (Strand strand : grid.strands) {
            String fact = strand.lackedFact();
            for (int joint : new int[] {strand.from, strand.to}) {
                if (fact != null && looped.contains(layout.groupAt(joint))) {
                    found.computeIfAbsent(layout.groupAt(joint), key -> new TreeSet<>())
                            .add("connection " + strand.link.ref() + "." + fact);
                }
            }
        }
        return found;
    }

    /** Meshed groups in which current has a choice of ways: with more strands than joints that nothing holds. */
    private Set<Integer> looped() {
        Map<Integer, Integer> surplus = new HashMap<>();
        for (Strand strand : grid.strands) {
            boolean carries = strand.isDiode() ? Math.abs(amps[strand.index]) > LEAST_AMPS : !layout.isOpen(strand);
            int joint = layout.isHeld(strand.from) ? strand.to : strand.from;
            if (carries && layout.isMeshed(joint)) {
                surplus.merge(layout.groupAt(joint), 1, Integer::sum);
            }
        }
        for (int joint = 0; joint < grid.joints; joint++) {
            if (layout.isMeshed(joint)) {
                surplus.merge(layout.groupAt(joint), -1, Integer::sum);
            }
        }
        surplus.values().removeIf(count -> count <= 0);
        return surplus.keySet();
    }

    /** The fact that leaves open what a sink takes, null if none does. */
    public @Nullable String lackedFact(Sink sink) {
        boolean open = sink.isCoil() ? Double.isNaN(sink.ohms()) : sink.statedAmps(layout.level, extent) == null;
        return open ? sink.lackedFact(layout.level, extent) : null;
    }

    /** One connection of each mesh that was too large to solve or did not settle. */
    public Set<String> unsolved() {
        return unsolved;
    }

    /** Sources that would be charged, by amps that no fact tells, and so are left out. */
    public Set<Node> charged() {
        return charged;
    }
}
