package dev.splicebook.circuit;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.circuit.Element.Capacitor;
import dev.splicebook.circuit.Element.ConstantPowerLoad;
import dev.splicebook.circuit.Element.CurrentSource;
import dev.splicebook.circuit.Element.IdealTransformer;
import dev.splicebook.circuit.Element.Inductor;
import dev.splicebook.circuit.Element.Resistor;
import dev.splicebook.circuit.Element.VoltageSource;
import dev.splicebook.circuit.Singular.Cause;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class SingularTest {

    private static Singular dc(Element... elements) {
        return (Singular) Solver.dc(new Network(List.of(elements), "0"));
    }

    private static Singular ac(double hertz, Element... elements) {
        return (Singular) Solver.ac(new Network(List.of(elements), "0"), hertz);
    }

    @Test
    void namesFloatingNodes() {
        Singular singular = dc(
                new VoltageSource("V", "a", "0", 12),
                new Resistor("R", "a", "0", 10),
                new Resistor("R1", "x", "y", 10),
                new VoltageSource("V1", "y", "z", 5),
                new Capacitor("C", "a", "z", 1e-6),
                new Resistor("R2", "p", "q", 1));

        assertThat(singular).isEqualTo(new Singular(Cause.FLOATING_NODES, List.of("x", "y", "z", "p", "q"), List.of()));
    }

    @Test
    void joinsNodesThroughCapacitorsAtAcOnly() {
        Element[] elements = {
            new VoltageSource("V", "a", "0", 12, 1, 0),
            new Capacitor("C", "a", "b", 1e-6),
            new Resistor("R", "b", "c", 1)
        };

        assertThat(dc(elements)).isEqualTo(new Singular(Cause.FLOATING_NODES, List.of("b", "c"), List.of()));
        assertThat(Solver.ac(new Network(List.of(elements), "0"), 50)).isInstanceOf(AcResult.Solved.class);
    }

    @Test
    void namesASecondaryThatNothingGrounds() {
        Singular singular = dc(
                new VoltageSource("V", "a", "0", 12),
                new IdealTransformer("T", "a", "0", "x", "y", 4),
                new Resistor("R", "x", "y", 8));

        assertThat(singular).isEqualTo(new Singular(Cause.FLOATING_NODES, List.of("x", "y"), List.of()));
    }

    @Test
    void namesNodesThatOnlySourcesOfCurrentFeed() {
        Singular singular = dc(
                new VoltageSource("V", "a", "0", 12),
                new CurrentSource("I1", "a", "b", 1),
                new Resistor("R", "b", "c", 10),
                new CurrentSource("I2", "c", "0", 1),
                new CurrentSource("I3", "a", "0", 1));

        assertThat(singular)
                .isEqualTo(new Singular(Cause.CURRENT_SOURCES_ONLY, List.of("b", "c"), List.of("I1", "I2")));
    }

    @Test
    void takesAConstantPowerLoadForNoTieToGround() {
        Singular singular = dc(new CurrentSource("I", "0", "a", 1), new ConstantPowerLoad("P", "a", "0", 10));

        assertThat(singular).isEqualTo(new Singular(Cause.CURRENT_SOURCES_ONLY, List.of("a"), List.of("I")));
    }

    @Test
    void namesALoopOfSourcesAndNothingBeside() {
        Singular singular = dc(
                new VoltageSource("B0", "z", "0", 1),
                new VoltageSource("B1", "a", "0", 12),
                new Resistor("R", "a", "0", 10),
                new VoltageSource("B2", "b", "a", 2),
                new VoltageSource("B4", "c", "b", 2),
                new Inductor("B3", "0", "b", 1e-3));

        assertThat(singular).isEqualTo(new Singular(Cause.SOURCE_LOOP, List.of(), List.of("B1", "B2", "B3")));
    }

    @Test
    void takesALoopThatAgreesForOneToo() {
        // two 12 V sources side by side share the amps in any way
        Singular singular = dc(
                new VoltageSource("B1", "a", "0", 12),
                new VoltageSource("B2", "a", "0", 12),
                new Resistor("R", "a", "0", 10));
        Singular shorted = dc(new VoltageSource("B1", "a", "a", 0), new Resistor("R", "a", "0", 10));

        assertThat(singular).isEqualTo(new Singular(Cause.SOURCE_LOOP, List.of(), List.of("B1", "B2")));
        assertThat(shorted).isEqualTo(new Singular(Cause.SOURCE_LOOP, List.of(), List.of("B1")));
    }

    @Test
    void takesInductorsForALoopAtDcOnly() {
        Element[] elements = {
            new VoltageSource("V", "a", "0", 0, 10, 0),
            new Inductor("L1", "a", "b", 1e-3),
            new Inductor("L2", "b", "0", 1e-3)
        };

        assertThat(dc(elements)).isEqualTo(new Singular(Cause.SOURCE_LOOP, List.of(), List.of("V", "L1", "L2")));
        assertThat(Solver.ac(new Network(List.of(elements), "0"), 50)).isInstanceOf(AcResult.Solved.class);
    }

    @Test
    void namesWhatDependsOnEachOtherThroughATransformer() {
        // both windings held: the volts cannot both be right, and any amps would do
        Singular held = dc(
                new VoltageSource("V1", "a", "0", 12),
                new IdealTransformer("T", "a", "0", "b", "0", 4),
                new VoltageSource("V2", "b", "0", 5),
                new Resistor("R", "b", "0", 5));
        // neither held: any volts would do
        Singular free = dc(
                new VoltageSource("V", "z", "0", 12),
                new Resistor("R", "z", "0", 5),
                new IdealTransformer("T", "a", "0", "b", "0", 4));

        assertThat(held).isEqualTo(new Singular(Cause.DEPENDENT, List.of(), List.of("V1", "T", "V2")));
        assertThat(free).isEqualTo(new Singular(Cause.DEPENDENT, List.of("a", "b"), List.of()));
    }

    @Test
    void namesWhatResonatesWithoutLoss() {
        // 1/(2π√(L C))
        double hertz = 1 / (2 * Math.PI * Math.sqrt(1e-3 * 1e-6));
        Singular parallel = ac(
                hertz,
                new CurrentSource("I", "0", "a", 0, 1, 0),
                new Inductor("L", "a", "0", 1e-3),
                new Capacitor("C", "a", "0", 1e-6));
        Singular series = ac(
                hertz,
                new VoltageSource("V", "a", "0", 0, 1, 0),
                new Inductor("L", "a", "b", 1e-3),
                new Capacitor("C", "b", "0", 1e-6));

        assertThat(parallel).isEqualTo(new Singular(Cause.DEPENDENT, List.of("a"), List.of()));
        assertThat(series).isEqualTo(new Singular(Cause.DEPENDENT, List.of("b"), List.of("V")));
    }

    @Test
    void tellsThatDcHasNoSolutionToLinearizeAt() {
        List<Element> elements = new ArrayList<>(List.of(
                new VoltageSource("V", "a", "0", 12, 1, 0),
                new Resistor("R", "a", "b", 1),
                new ConstantPowerLoad("P", "b", "0", 100)));
        AcResult unfed = Solver.ac(new Network(elements, "0"), 50);
        elements.add(new Resistor("X", "p", "q", 1));
        AcResult floating = Solver.ac(new Network(elements, "0"), 50);

        assertThat(unfed)
                .isInstanceOfSatisfying(
                        AcResult.NotBiased.class,
                        notBiased -> assertThat(notBiased.dc()).isInstanceOf(NoOperatingPoint.class));
        assertThat(floating)
                .isEqualTo(new AcResult.NotBiased(new Singular(Cause.FLOATING_NODES, List.of("p", "q"), List.of())));
    }
}
