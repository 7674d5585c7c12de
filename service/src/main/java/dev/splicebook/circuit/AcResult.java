package dev.splicebook.circuit;

import java.util.Map;

/** What came of an AC solution at one frequency. Only {@link Solved} has volts to rely on. */
public sealed interface AcResult permits AcResult.Solved, AcResult.NotBiased, IterationLimit, Singular {

    /**
     * Kirchhoff's laws hold. Magnitudes are rms as those of the sources are.
     *
     * @param volts of each node against ground, ground included, in the network's order
     * @param branches of each element by its name, in the network's order
     * @param residual how far Kirchhoff's laws are missed, relative, at most {@value Solver#MOST_RESIDUAL}; see
     *     {@link Solver}
     */
    record Solved(double hertz, Map<String, Phasor> volts, Map<String, Branch> branches, double residual)
            implements AcResult {

        /** @throws IllegalArgumentException if the network has no such node */
        public Phasor getVolts(String node) {
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
     * @param watts mean power that it takes; negative where it delivers
     * @param reactiveVoltAmperes positive for an inductor, negative for a capacitor
     */
    record Branch(Phasor amps, double watts, double reactiveVoltAmperes) {}

    /**
     * The network has elements that AC sees at their DC operating point, and it has none.
     *
     * @param dc what came of the DC solution, never {@link DcResult.Solved}
     */
    record NotBiased(DcResult dc) implements AcResult {}
}
