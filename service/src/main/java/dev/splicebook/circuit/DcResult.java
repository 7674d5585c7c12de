package dev.splicebook.circuit;

import java.util.Map;

/** What came of a DC solution. Only {@link Solved} has volts to rely on. */
public sealed interface DcResult permits DcResult.Solved, NoOperatingPoint, IterationLimit, Singular {

    /**
     * Kirchhoff's laws hold.
     *
     * @param volts of each node against ground, ground included, in the network's order
     * @param branches of each element by its name, in the network's order
     * @param residual how far Kirchhoff's laws are missed, relative, at most {@value Solver#MOST_RESIDUAL}; see
     *     {@link Solver}
     * @param iterations linear solutions that it took
     */
    record Solved(Map<String, Double> volts, Map<String, Branch> branches, double residual, int iterations)
            implements DcResult {

        /** @throws IllegalArgumentException if the network has no such node */
        public double getVolts(String node) {
            return Named.get(volts, node);
        }

        /** @throws IllegalArgumentException if the network has no such element */
        public Branch getBranch(String element) {
            return Named.get(branches, element);
        }
    }

    /**
     * What flows in one element.
     *
     * @param amps from {@code from} to {@code to} through it; of a transformer, through its primary
     * @param watts that it takes; negative where it delivers
     */
    record Branch(double amps, double watts) {}
}
