package dev.splicebook.circuit;

import static dev.splicebook.circuit.Solutions.assertAmps;
import static dev.splicebook.circuit.Solutions.assertVolts;
import static dev.splicebook.circuit.Solutions.solved;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.circuit.Element.Diode;
import dev.splicebook.circuit.Element.Resistor;
import dev.splicebook.circuit.Element.VoltageSource;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class JunctionTest {

    private static Network fed(double volts, double ohms) {
        return new Network(
                List.of(
                        new VoltageSource("V", "a", "0", volts),
                        new Resistor("R", "a", "b", ohms),
                        new Diode("D", "b", "0")),
                "0");
    }

    // Shockley's law solved for the amps by bisection; 25.865 mV is kT/q at 27 °C
    @ParameterizedTest
    @ValueSource(doubles = {0.1, 0.5, 0.7, 1, 5, 12, 14.4, 48, 400})
    void agreesWithBisection(double volts) {
        for (double ohms : new double[] {0.1, 10, 1000, 1e6}) {
            double low = 0;
            double high = volts;
            for (int halving = 0; halving < 200; halving++) {
                double middle = (low + high) / 2;
                double amps = 1e-14 * Math.expm1(middle / 0.025865) + 1e-12 * middle;
                if (amps > (volts - middle) / ohms) {
                    high = middle;
                } else {
                    low = middle;
                }
            }
            DcResult.Solved solved = solved(fed(volts, ohms));

            assertVolts(solved, "b", low, 2e-5);
            assertThat(solved.getBranch("D").amps())
                    .as("A through the diode of %s V and %s Ω", volts, ohms)
                    .isEqualTo(solved.getBranch("R").amps(), within(1e-9 * volts / ohms));
        }
    }

    @ParameterizedTest
    @ValueSource(doubles = {0.5, 12, 1000})
    void leaksBackwardsOnlyALittle(double volts) {
        DcResult.Solved solved = solved(fed(-volts, 1000));

        assertAmps(solved, "D", -1e-14 - 1e-12 * volts, 1e-16 * volts);
    }

    @Test
    void solvesARectifierBridge() {
        DcResult.Solved solved = solved(new Network(
                List.of(
                        new VoltageSource("V", "a", "b", -12),
                        new Diode("D1", "a", "p"),
                        new Diode("D2", "b", "p"),
                        new Diode("D3", "n", "a"),
                        new Diode("D4", "n", "b"),
                        new Resistor("LOAD", "p", "n", 100),
                        new Resistor("EARTH", "n", "0", 1e6)),
                "0"));

        assertThat(solved.getBranch("LOAD").amps()).as("A of the load").isBetween(0.103, 0.107);
        assertThat(solved.getBranch("D2").amps())
                .isEqualTo(solved.getBranch("D3").amps(), within(1e-9));
        assertThat(solved.getBranch("D1").amps()).as("A backwards").isBetween(-1e-10, 0.0);
    }

    @Test
    void takesTheHigherOfTwoFeedsThroughDiodes() {
        DcResult.Solved solved = solved(new Network(
                List.of(
                        new VoltageSource("MAIN", "a", "0", 14.2),
                        new VoltageSource("SPARE", "b", "0", 12.6),
                        new Diode("D1", "a", "c"),
                        new Diode("D2", "b", "c"),
                        new Resistor("LOAD", "c", "0", 10)),
                "0"));

        assertThat(solved.getVolts("c")).as("V behind the diodes").isBetween(13.2, 13.5);
        assertThat(solved.getBranch("SPARE").amps()).as("A from the spare").isBetween(-1e-10, 1e-10);
    }

    @Test
    void solvesLongChainsAndRandomMeshes() {
        Random random = new Random(17);
        for (int round = 0; round < 200; round++) {
            List<Element> elements = new ArrayList<>(List.of(new VoltageSource("V", "n0", "0", 24)));
            for (int at = 1; at < 20; at++) {
                String from = "n" + random.nextInt(at);
                elements.add(
                        random.nextBoolean()
                                ? new Diode("D" + at, from, "n" + at, Math.pow(10, -6 - 9 * random.nextDouble()), 1.5)
                                : new Diode("D" + at, "n" + at, from));
                elements.add(new Resistor("R" + at, "n" + at, "n" + random.nextInt(at), 100 * random.nextDouble() + 1));
                elements.add(new Resistor("G" + at, "n" + at, "0", 1000 * random.nextDouble() + 1));
            }

            DcResult.Solved solved = solved(new Network(elements, "0"));

            assertThat(solved.iterations()).as("iterations").isLessThan(200);
        }
    }

    @Test
    void tellsThatTheIterationsEnded() {
        DcResult result = Solver.dc(fed(12, 10), 3);

        assertThat(result).isInstanceOfSatisfying(IterationLimit.class, limit -> {
            assertThat(limit.iterations()).isEqualTo(3);
            assertThat(limit.residual()).isGreaterThan(Solver.MOST_RESIDUAL);
        });
    }

    @Test
    void tellsThatNoFiniteAmpsAreRight() {
        // 40 V right across a junction would be 1e658 A
        DcResult result =
                Solver.dc(new Network(List.of(new VoltageSource("V", "a", "0", 40), new Diode("D", "a", "0")), "0"));

        assertThat(result)
                .isInstanceOfSatisfying(
                        IterationLimit.class,
                        limit -> assertThat(limit.residual()).isGreaterThan(Solver.MOST_RESIDUAL));
    }
}
