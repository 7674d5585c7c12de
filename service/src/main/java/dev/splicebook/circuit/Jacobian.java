package dev.splicebook.circuit;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * How the equations change with their unknowns, as factors. The amps of an element with ohms follow from its nodes' volts,
 * and are taken out before: a mesh of wires then costs what its nodes cost. What that loses beside far smaller
 * conductances, {@code careful} keeps, at the price of fill where wires form many loops.
 *
 * <p>A complex unknown at AC is two real ones, and a complex coefficient two by two: the arithmetic is the same, and one
 * factoring serves both.
 */
final class Jacobian {

    private final int nodes;
    private final List<Edge> edges;
    private final boolean careful;
    private final int parts;
    /** Where an unknown stands among those that are factored, or {@link Edge#NONE}. */
    private final int[] places;

    private final int size;
    private final Stamps stamps;
    private final int[] stampOfEdge;
    private final SparseLu lu;

    /**
     * @param nodes how many unknowns are volts of nodes; they come before the currents
     * @param parts real numbers to one unknown: 1 at DC, 2 at AC
     */
    Jacobian(int nodes, List<Edge> edges, int unknowns, int parts, boolean careful) {
        this.nodes = nodes;
        this.edges = edges;
        this.parts = parts;
        this.careful = careful;
        places = new int[unknowns];
        Arrays.setAll(places, at -> at < nodes ? at : Edge.NONE);
        int next = nodes;
        for (Edge edge : edges) {
            if (edge.hasCurrent() && !takenOut(edge)) {
                places[edge.current()] = next++;
            }
        }
        size = next;
        stampOfEdge = new int[edges.size()];
        stamps = new Stamps(edges.size());
        double greatest = 1;
        for (int at = 0; at < edges.size(); at++) {
            stampOfEdge[at] = stamps.count;
            stamp(edges.get(at));
        }
        for (int entry = 0; entry < stamps.count; entry++) {
            greatest = Math.max(greatest, Math.abs(stamps.re[entry]) + Math.abs(stamps.im[entry]));
        }
        lu = factors(greatest);
    }

    private boolean takenOut(Edge edge) {
        return edge.hasCurrent() && edge.hasOhms() && !careful;
    }

    private void stamp(Edge edge) {
        Edge.Winding winding = edge.winding();
        if (takenOut(edge)) {
            double squared = edge.re() * edge.re() + edge.im() * edge.im();
            stampAdmittance(edge, edge.re() / squared, -edge.im() / squared);
        } else if (edge.hasCurrent()) {
            int current = places[edge.current()];
            stampIncidence(edge.from(), edge.to(), current, 1);
            if (winding != null) {
                stampIncidence(winding.from(), winding.to(), current, -winding.ratio());
            } else if (edge.hasOhms()) {
                stamps.add(current, current, -edge.re(), -edge.im());
            }
        } else if (edge.law() != null || edge.re() != 0 || edge.im() != 0) {
            stampAdmittance(edge, edge.re(), edge.im());
        }
    }

    private void stampAdmittance(Edge edge, double re, double im) {
        stamps.add(edge.from(), edge.from(), re, im);
        stamps.add(edge.to(), edge.to(), re, im);
        if (edge.from() != Edge.NONE && edge.to() != Edge.NONE) {
            stamps.add(edge.from(), edge.to(), -re, -im);
            stamps.add(edge.to(), edge.from(), -re, -im);
        }
    }

    private void stampIncidence(int from, int to, int current, double turns) {
        stamps.add(from, current, turns, 0);
        stamps.add(to, current, -turns, 0);
        stamps.add(current, from, turns, 0);
        stamps.add(current, to, -turns, 0);
    }

    /**
     * @param greatest coefficient, by which the laws of currents are weighed, so that a node held by a source is not
     *     eliminated by what else it has
     */
    private SparseLu factors(double greatest) {
        int[] rows = Arrays.copyOf(stamps.rows, stamps.count);
        int[] columns = Arrays.copyOf(stamps.columns, stamps.count);
        int[] placeOfRow = pairing();
        int[] placed = new int[rows.length];
        Arrays.setAll(placed, entry -> placeOfRow[rows[entry]]);
        int[] order = MinimumDegree.order(size, placed, columns);
        double[] weights = new double[size];
        // a power of two, which rounds nothing
        double weight = Math.scalb(1.0, Math.getExponent(greatest));
        Arrays.setAll(weights, row -> row < nodes ? 1 : weight);
        return parts == 1
                ? new SparseLu(weights, rows, columns, placeOfRow, order, false)
                : new SparseLu(
                        doubled(weights),
                        quarters(rows, 0, 0, 1, 1),
                        quarters(columns, 0, 1, 0, 1),
                        halves(placeOfRow),
                        halves(order),
                        true);
    }

    /**
     * Which column's diagonal each equation is for. The law of an unknown current has no coefficient of its own current
     * where it has no ohms; so it gets the volts of the node that it leads to from ground, and that node's law gets the
     * current. Both coefficients are ±1 and no other such law claims the node, because they form a forest.
     */
    private int[] pairing() {
        int[] placeOfRow = new int[size];
        Arrays.setAll(placeOfRow, at -> at);
        Topology.Groups groups = new Topology.Groups(nodes + 1);
        List<Edge> forest = new ArrayList<>();
        edges.stream()
                .filter(edge -> edge.hasCurrent() && !takenOut(edge))
                .sorted(Comparator.comparing(Edge::hasOhms))
                .forEach(edge -> {
                    if (groups.join(
                            edge.from() == Edge.NONE ? nodes : edge.from(),
                            edge.to() == Edge.NONE ? nodes : edge.to())) {
                        forest.add(edge);
                    }
                });
        if (!forest.isEmpty()) {
            @Nullable Edge[] reachedBy = Topology.reachedBy(nodes, forest);
            for (int node = 0; node < nodes; node++) {
                Edge edge = reachedBy[node];
                if (edge != null) {
                    placeOfRow[places[edge.current()]] = node;
                    placeOfRow[node] = places[edge.current()];
                }
            }
        }
        return placeOfRow;
    }

    private static double[] doubled(double[] values) {
        double[] doubled = new double[2 * values.length];
        Arrays.setAll(doubled, at -> values[at / 2]);
        return doubled;
    }

    private static int[] halves(int[] numbers) {
        int[] halves = new int[2 * numbers.length];
        Arrays.setAll(halves, at -> 2 * numbers[at / 2] + at % 2);
        return halves;
    }

    private static int[] quarters(int[] numbers, int... offsets) {
        int[] quarters = new int[4 * numbers.length];
        Arrays.setAll(quarters, at -> 2 * numbers[at / 4] + offsets[at % 4]);
        return quarters;
    }

    /**
     * Factors anew; false if that is singular.
     *
     * @param slopes siemens of each edge that is not linear; of others unread
     */
    boolean factor(double[] slopes) {
        for (int at = 0; at < edges.size(); at++) {
            Edge edge = edges.get(at);
            if (edge.law() != null) {
                int next = stampOfEdge[at];
                next = stamps.set(next, edge.from(), edge.from(), slopes[at]);
                next = stamps.set(next, edge.to(), edge.to(), slopes[at]);
                if (edge.from() != Edge.NONE && edge.to() != Edge.NONE) {
                    next = stamps.set(next, edge.from(), edge.to(), -slopes[at]);
                    stamps.set(next, edge.to(), edge.from(), -slopes[at]);
                }
            }
        }
        double[] values = new double[(parts == 1 ? 1 : 4) * stamps.count];
        if (parts == 1) {
            System.arraycopy(stamps.re, 0, values, 0, stamps.count);
        } else {
            for (int entry = 0; entry < stamps.count; entry++) {
                values[4 * entry] = stamps.re[entry];
                values[4 * entry + 1] = -stamps.im[entry];
                values[4 * entry + 2] = stamps.im[entry];
                values[4 * entry + 3] = stamps.re[entry];
            }
        }
        return lu.factor(values);
    }

    /** What change of the unknowns changes the equations by {@code change}, in place. */
    void solve(double[] change) {
        double[] factored = new double[parts * size];
        for (int unknown = 0; unknown < places.length; unknown++) {
            if (places[unknown] != Edge.NONE) {
                System.arraycopy(change, parts * unknown, factored, parts * places[unknown], parts);
            }
        }
        for (Edge edge : edges) {
            if (takenOut(edge)) {
                double[] amps = throughOhms(edge, change, parts * edge.current());
                for (int part = 0; part < parts; part++) {
                    add(factored, edge.from(), part, amps[part]);
                    add(factored, edge.to(), part, -amps[part]);
                }
            }
        }
        lu.solve(factored);
        for (Edge edge : edges) {
            if (takenOut(edge)) {
                int at = parts * edge.current();
                for (int part = 0; part < parts; part++) {
                    change[at + part] =
                            value(factored, edge.from(), part) - value(factored, edge.to(), part) - change[at + part];
                }
                System.arraycopy(throughOhms(edge, change, at), 0, change, at, parts);
            }
        }
        for (int unknown = 0; unknown < places.length; unknown++) {
            if (places[unknown] != Edge.NONE) {
                System.arraycopy(factored, parts * places[unknown], change, parts * unknown, parts);
            }
        }
    }

    /** Amps that the volts at a place drive through an edge's ohms. */
    private double[] throughOhms(Edge edge, double[] volts, int at) {
        if (parts == 1) {
            return new double[] {volts[at] / edge.re()};
        }
        double squared = edge.re() * edge.re() + edge.im() * edge.im();
        return new double[] {
            (edge.re() * volts[at] + edge.im() * volts[at + 1]) / squared,
            (edge.re() * volts[at + 1] - edge.im() * volts[at]) / squared
        };
    }

    private void add(double[] to, int node, int part, double value) {
        if (node != Edge.NONE) {
            to[parts * node + part] += value;
        }
    }

    private double value(double[] of, int node, int part) {
        return node == Edge.NONE ? 0 : of[parts * node + part];
    }

    /** Sign of the determinant, 1 or −1, up to a factor that stays; of no use at AC. */
    int sign() {
        return lu.sign();
    }

    /** By how much each unknown moves, all together, without a change of the equations; those taken out are zero. */
    double[] nullVector() {
        double[] factored = lu.nullVector();
        double[] vector = new double[places.length];
        for (int unknown = 0; unknown < places.length; unknown++) {
            for (int part = 0; places[unknown] != Edge.NONE && part < parts; part++) {
                vector[unknown] += Math.abs(factored[parts * places[unknown] + part]);
            }
        }
        return vector;
    }

    /** Stamps in the order in which they were added; those at ground are none. */
    private static final class Stamps {

        private int count;
        private int[] rows;
        private int[] columns;
        private double[] re;
        private double[] im;

        Stamps(int edges) {
            rows = new int[4 * edges];
            columns = new int[4 * edges];
            re = new double[4 * edges];
            im = new double[4 * edges];
        }

        void add(int row, int column, double valueRe, double valueIm) {
            if (row == Edge.NONE || column == Edge.NONE) {
                return;
            }
            if (count == rows.length) {
                rows = Arrays.copyOf(rows, 2 * count);
                columns = Arrays.copyOf(columns, 2 * count);
                re = Arrays.copyOf(re, 2 * count);
                im = Arrays.copyOf(im, 2 * count);
            }
            rows[count] = row;
            columns[count] = column;
            re[count] = valueRe;
            im[count++] = valueIm;
        }

        /** Changes a stamp that was added; gives the number of the next. */
        int set(int at, int row, int column, double value) {
            if (row == Edge.NONE || column == Edge.NONE) {
                return at;
            }
            re[at] = value;
            return at + 1;
        }
    }
}
