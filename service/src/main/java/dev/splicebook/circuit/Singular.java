package dev.splicebook.circuit;

import java.util.List;

/**
 * The network has no solution, or more than one.
 *
 * @param nodes whose volts nothing determines, in the network's order
 * @param elements that {@code cause} speaks of, or whose amps nothing determines, in the network's order
 */
public record Singular(Cause cause, List<String> nodes, List<String> elements) implements DcResult, AcResult {

    public Singular {
        nodes = List.copyOf(nodes);
        elements = List.copyOf(elements);
    }

    /** Why. */
    public enum Cause {
        /** No conducting path joins the nodes to ground. */
        FLOATING_NODES,
        /** No conducting path joins the nodes to ground, and the elements, sources of current, drive amps into them. */
        CURRENT_SOURCES_ONLY,
        /**
         * The elements, sources of voltage (and inductors at DC), form a loop, in which any current may flow; whether
         * their volts add up to zero or not.
         */
        SOURCE_LOOP,
        /**
         * The elements and nodes depend on each other, such as through a transformer or by resonance without loss; one
         * solution, if there is any, makes others by moving them all together.
         */
        DEPENDENT
    }
}
