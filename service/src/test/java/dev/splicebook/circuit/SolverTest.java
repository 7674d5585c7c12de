package dev.splicebook.circuit;

import static dev.splicebook.circuit.Solutions.assertAmps;
import static dev.splicebook.circuit.Solutions.assertVolts;
import static dev.splicebook.circuit.Solutions.solved;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.circuit.Element.Capacitor;
import dev.splicebook.circuit.Element.ConstantCurrentLoad;
import dev.splicebook.circuit.Element.CurrentSource;
import dev.splicebook.circuit.Element.IdealTransformer;
import dev.splicebook.circuit.Element.Inductor;
import dev.splicebook.circuit.Element.Resistor;
import dev.splicebook.circuit.Element.VoltageSource;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class SolverTest {

    private static Network network(Element... elements) {
        return new Network(List.of(elements), "0");
    }

    // Lessons in Electric Circuits, two-source node: 28 V behind 4 Ω and 7 V behind 1 Ω feed 2 Ω
    @Test
    void solvesANodeOfTwoSources() {
        DcResult.Solved solved = solved(network(
                new VoltageSource("B1", "p", "0", 28),
                new Resistor("R1", "p", "n", 4),
                new Resistor("R2", "n", "0", 2),
                new Resistor("R3", "n", "q", 1),
                new VoltageSource("B2", "q", "0", 7)));

        assertVolts(solved, "n", 8);
        assertAmps(solved, "R1", 5);
        assertAmps(solved, "R2", 4);
        assertAmps(solved, "R3", 1);
        // the last into the smaller source, which so is charged
        assertThat(solved.getBranch("B2").watts()).as("W into the 7 V source").isCloseTo(7, within(1e-9));
        assertThat(solved.getBranch("B1").watts()).as("W into the 28 V source").isCloseTo(-140, within(1e-9));
    }

    // computed by hand from the node equations
    @Test
    void solvesABridge() {
        DcResult.Solved solved = solved(bridge(12, 100, 200, 150, 120, 50));

        assertVolts(solved, "m", 7.0303, 5e-5);
        assertVolts(solved, "n", 6.3030, 5e-5);
        assertAmps(solved, "V", -0.087677, 5e-7);
    }

    // an online electrical training text: 12 V; 330 + 300 Ω and 360 + 390 Ω bridged by 1 kΩ
    @Test
    void solvesAPublishedBridge() {
        DcResult.Solved solved = solved(bridge(12, 330, 300, 360, 390, 1000));

        assertVolts(solved, "m", 5.7757, 5e-5);
        assertVolts(solved, "n", 6.1668, 5e-5);
        assertAmps(solved, "V", -0.035065, 5e-7);
    }

    private static Network bridge(
            double volts,
            double leftTopOhms,
            double leftOhms,
            double rightTopOhms,
            double rightOhms,
            double acrossOhms) {
        return network(
                new VoltageSource("V", "t", "0", volts),
                new Resistor("R1", "t", "m", leftTopOhms),
                new Resistor("R2", "m", "0", leftOhms),
                new Resistor("R3", "t", "n", rightTopOhms),
                new Resistor("R4", "n", "0", rightOhms),
                new Resistor("R5", "m", "n", acrossOhms));
    }

    // published with a resistive key ladder, 5 V and 10 kΩ to ground: the key's ohms and what is read across the 10 kΩ
    @ParameterizedTest
    @CsvSource({"2200, 4.10", "3300, 3.76", "5600, 3.205", "10000, 2.50"})
    void readsAKeyOfAParallelLadder(double keyOhms, double volts) {
        DcResult.Solved solved = solved(network(
                new VoltageSource("V", "s", "0", 5),
                new Resistor("KEY", "s", "a", keyOhms),
                new Resistor("PULL", "a", "0", 10_000)));

        assertVolts(solved, "a", volts, 0.005);
    }

    // published with a chain of equal 1 kΩ under a 1 kΩ pull-up: counts of 10 bits for the first five keys
    @ParameterizedTest
    @CsvSource({"0, 0", "1, 512", "2, 683", "3, 768", "4, 819"})
    void readsAKeyOfASeriesLadder(int key, long counts) {
        List<Element> elements = new ArrayList<>(List.of(
                new VoltageSource("V", "s", "0", 5),
                new Resistor("PULL", "s", "k0", 1000),
                new VoltageSource("KEY", "k" + key, "0", 0)));
        for (int at = 0; at < 4; at++) {
            elements.add(new Resistor("R" + at, "k" + at, "k" + (at + 1), 1000));
        }

        DcResult.Solved solved = solved(new Network(elements, "0"));

        assertThat(Math.round(solved.getVolts("k0") / 5 * 1024)).isEqualTo(counts);
    }

    // computed: the drop over the wire alone, 86 mV over 0.81 m of 28 AWG there and back at 500 mA, as a network
    @Test
    void addsDropsAlongAWire() {
        double wireOhms = 0.086 / 0.5 / 2;
        DcResult.Solved solved = solved(network(
                new VoltageSource("PORT", "p", "0", 5),
                new Resistor("PLUS", "p", "a", wireOhms),
                new ConstantCurrentLoad("DEVICE", "a", "b", 0.5),
                new Resistor("MINUS", "b", "0", wireOhms)));

        assertVolts(solved, "a", 5 - 0.043);
        assertVolts(solved, "b", 0.043);
    }

    // published, of a 10 A blade fuse of 7.70 mΩ: 0.77 mV across it is 100 mA
    @Test
    void keepsTheDigitsOfAMilliohm() {
        DcResult.Solved solved = solved(network(
                new VoltageSource("B", "p", "0", 12.6),
                new Resistor("FUSE", "p", "a", 7.70e-3),
                new CurrentSource("DRAIN", "a", "0", 0.1)));

        assertAmps(solved, "FUSE", 0.1);
        assertThat(solved.getBranch("FUSE").watts()).as("W of the fuse").isCloseTo(7.70e-5, within(1e-16));
    }

    @Test
    void takesACapacitorAsOpenAndAnInductorAsAWireAtDc() {
        DcResult.Solved solved = solved(network(
                new VoltageSource("V", "a", "0", 12),
                new Inductor("L", "a", "b", 0.2),
                new Resistor("R", "b", "c", 80),
                new Resistor("BLEED", "c", "0", 40),
                new Capacitor("C", "c", "0", 1e-3)));

        assertVolts(solved, "b", 12);
        assertVolts(solved, "c", 4);
        assertAmps(solved, "L", 0.1);
        assertAmps(solved, "C", 0);
    }

    @Test
    void transformsVoltsAmpsAndOhms() {
        // 8 Ω behind 10 to 1 looks like 800 Ω
        DcResult.Solved solved = solved(network(
                new VoltageSource("V", "a", "0", 12),
                new Resistor("R", "a", "b", 400),
                new IdealTransformer("T", "b", "0", "c", "0", 10),
                new Resistor("LOAD", "c", "0", 8)));

        assertVolts(solved, "b", 8);
        assertVolts(solved, "c", 0.8);
        assertAmps(solved, "T", 0.01);
        assertAmps(solved, "LOAD", 0.1);
        assertThat(solved.getBranch("T").watts()).as("W of the transformer").isZero();
    }

    @ParameterizedTest
    @ValueSource(doubles = {-12, 12})
    void feedsAConstantCurrentLoadFromEitherSide(double volts) {
        DcResult.Solved solved = solved(network(
                new VoltageSource("V", "a", "0", volts),
                new Resistor("R", "a", "b", 2),
                new ConstantCurrentLoad("LOAD", "b", "0", 1.5)));

        assertAmps(solved, "LOAD", Math.copySign(1.5, volts));
        assertVolts(solved, "b", Math.copySign(9, volts));
    }

    @Test
    void givesAConstantCurrentLoadNoMoreThanThereIs() {
        DcResult.Solved solved = solved(network(
                new VoltageSource("V", "a", "0", 12),
                new Resistor("R", "a", "b", 2),
                new ConstantCurrentLoad("LOAD", "b", "0", 50)));
        DcResult.Solved dead =
                solved(network(new Resistor("R", "b", "0", 2), new ConstantCurrentLoad("LOAD", "b", "0", 50)));

        assertAmps(solved, "LOAD", 6, 0.01);
        assertThat(solved.getVolts("b")).as("V left to the load").isBetween(0.0, 0.01);
        assertAmps(dead, "LOAD", 0);
    }

    @Test
    void letsTheLesserOfTwoConstantCurrentLoadsInSeriesGovern() {
        DcResult.Solved solved = solved(network(
                new VoltageSource("V", "a", "0", 12),
                new ConstantCurrentLoad("ONE", "a", "b", 1),
                new ConstantCurrentLoad("TWO", "b", "0", 2)));

        assertAmps(solved, "TWO", 1, 1e-6);
        assertThat(solved.getVolts("b")).as("V across the greater").isBetween(0.0, 0.01);
    }

    @Test
    void answersWithAllNamesInTheOrderGiven() {
        DcResult.Solved solved = solved(network(
                new Resistor("Z", "q", "0", 1), new VoltageSource("A", "b", "q", 1), new Resistor("M", "b", "a", 1)));

        assertThat(solved.volts().keySet()).containsExactly("q", "0", "b", "a");
        assertThat(solved.branches().keySet()).containsExactly("Z", "A", "M");
        assertThat(solved.volts()).containsEntry("0", 0.0);
        assertThat(solved.residual()).isBetween(0.0, Solver.MOST_RESIDUAL);
        assertThat(solved.iterations()).isEqualTo(1);
    }

    @Test
    void answersADeadNetwork() {
        DcResult.Solved solved = solved(network(new Resistor("R", "a", "0", 5), new Resistor("S", "a", "b", 5)));

        assertVolts(solved, "a", 0);
        assertAmps(solved, "S", 0);
        assertThat(solved.residual()).isZero();
    }

    @Test
    void spansTwentyDecadesOfOhms() {
        DcResult.Solved solved = solved(network(
                new VoltageSource("V", "a", "0", 12),
                new Resistor("SMALL", "a", "b", 1e-9),
                new Resistor("OPEN", "b", "c", 1e12),
                new Resistor("LOAD", "b", "0", 0.1),
                new Resistor("METER", "c", "0", 1e7)));

        assertAmps(solved, "SMALL", 12 / (0.1 + 1e-9), 1e-8);
        assertThat(solved.getVolts("c")).as("V of the meter").isCloseTo(12 * 1e-5, within(12e-9));
        assertThat(solved.getBranch("SMALL").watts()).isCloseTo(120 * 120 * 1e-9, within(1e-11));
    }
}
