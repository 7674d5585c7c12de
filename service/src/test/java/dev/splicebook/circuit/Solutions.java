package dev.splicebook.circuit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

/** Assertions about solutions, with the tolerance of what is exact but for rounding. */
final class Solutions {

    private static final double EXACT = 1e-9;

    private Solutions() {}

    static DcResult.Solved solved(Network network) {
        DcResult result = Solver.dc(network);
        assertThat(result).isInstanceOf(DcResult.Solved.class);
        return (DcResult.Solved) result;
    }

    static AcResult.Solved solved(Network network, double hertz) {
        AcResult result = Solver.ac(network, hertz);
        assertThat(result).isInstanceOf(AcResult.Solved.class);
        return (AcResult.Solved) result;
    }

    static void assertVolts(DcResult.Solved solved, String node, double volts) {
        assertVolts(solved, node, volts, EXACT * Math.max(1, Math.abs(volts)));
    }

    static void assertVolts(DcResult.Solved solved, String node, double volts, double toleranceVolts) {
        assertThat(solved.getVolts(node)).as("V of %s", node).isCloseTo(volts, within(toleranceVolts));
    }

    static void assertAmps(DcResult.Solved solved, String element, double amps) {
        assertAmps(solved, element, amps, EXACT * Math.max(1, Math.abs(amps)));
    }

    static void assertAmps(DcResult.Solved solved, String element, double amps, double toleranceAmps) {
        assertThat(solved.getBranch(element).amps()).as("A of %s", element).isCloseTo(amps, within(toleranceAmps));
    }

    static void assertPhasor(Phasor phasor, double magnitude, double phaseDegrees) {
        assertThat(phasor.magnitude()).as("magnitude").isCloseTo(magnitude, within(EXACT * Math.max(1, magnitude)));
        assertThat(phasor.phaseDegrees()).as("phase in °").isCloseTo(phaseDegrees, within(1e-6));
    }
}
