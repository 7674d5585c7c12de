package dev.splicebook.circuit;

import static dev.splicebook.circuit.Solutions.assertAmps;
import static dev.splicebook.circuit.Solutions.assertVolts;
import static dev.splicebook.circuit.Solutions.solved;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.circuit.Element.ConstantPowerLoad;
import dev.splicebook.circuit.Element.CurrentSource;
import dev.splicebook.circuit.Element.Diode;
import dev.splicebook.circuit.Element.Resistor;
import dev.splicebook.circuit.Element.VoltageSource;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A source of V volts behind R ohms gives at most V²/(4R) watts, at half its volts: the maximum power theorem. */
class ConstantPowerTest {

    private static Network behind(double volts, double ohms, double watts) {
        return new Network(
                List.of(
                        new VoltageSource("V", "a", "0", volts),
                        new Resistor("R", "a", "b", ohms),
                        new ConstantPowerLoad("LOAD", "b", "0", watts)),
                "0");
    }

    @ParameterizedTest
    @ValueSource(doubles = {1e-6, 0.01, 0.5, 0.9, 0.99, 0.999999})
    void takesTheHigherOfTheTwoVoltsAtWhichItHasItsWatts(double share) {
        double mostWatts = 144 / (4 * 0.05);
        DcResult.Solved solved = solved(behind(12, 0.05, share * mostWatts));

        // b² − 12 b + P R = 0
        assertVolts(solved, "b", 6 + 6 * Math.sqrt(1 - share), 1e-8);
        assertThat(solved.getBranch("LOAD").watts())
                .as("W of the load")
                .isCloseTo(share * mostWatts, within(1e-8 * mostWatts));
    }

    @ParameterizedTest
    @ValueSource(doubles = {0.02, 0.05, 1, 3, 470})
    void takesTheMostThatThereIs(double ohms) {
        for (double volts : new double[] {5, 12, 13.8, -14.2}) {
            DcResult.Solved solved = solved(behind(volts, ohms, volts * volts / (4 * ohms)));

            // both solutions meet here, so that half the digits of the volts are lost, none of the watts
            assertVolts(solved, "b", volts / 2, 1e-4 * Math.abs(volts));
            assertThat(solved.getBranch("LOAD").watts() / (volts * volts / (4 * ohms)))
                    .as("share of the watts")
                    .isCloseTo(1, within(1e-9));
        }
    }

    @ParameterizedTest
    @ValueSource(doubles = {1.000001, 1.01, 2, 50, 1000})
    void tellsWhatShareCanBeFed(double excess) {
        double mostWatts = 144 / (4 * 0.05);
        DcResult result = Solver.dc(behind(12, 0.05, excess * mostWatts));

        assertThat(result).isInstanceOfSatisfying(NoOperatingPoint.class, none -> {
            assertThat(none.load()).isEqualTo("LOAD");
            assertThat(none.share()).as("share").isCloseTo(1 / excess, within(1e-7 / excess));
            assertThat(none.volts()).as("V at the last").isCloseTo(6, within(0.01));
        });
    }

    @Test
    void namesTheLoadThatGivesWay() {
        // the near load has plenty, the far one is behind too much wire
        DcResult result = Solver.dc(new Network(
                List.of(
                        new VoltageSource("V", "a", "0", 12),
                        new Resistor("R1", "a", "b", 0.01),
                        new ConstantPowerLoad("NEAR", "b", "0", 50),
                        new Resistor("R2", "b", "c", 1),
                        new ConstantPowerLoad("FAR", "c", "0", 60)),
                "0"));

        assertThat(result)
                .isInstanceOfSatisfying(
                        NoOperatingPoint.class, none -> assertThat(none.load()).isEqualTo("FAR"));
    }

    @Test
    void tellsThatNothingFeedsALoad() {
        DcResult dead = Solver.dc(behind(0, 1, 10));
        DcResult blocked = Solver.dc(new Network(
                List.of(
                        new VoltageSource("V", "a", "0", 12),
                        new Diode("D", "b", "a"),
                        new Resistor("R", "b", "0", 1000),
                        new ConstantPowerLoad("LOAD", "b", "0", 10)),
                "0"));

        assertThat(dead).isEqualTo(new NoOperatingPoint("LOAD", 0, 0));
        assertThat(blocked)
                .isInstanceOfSatisfying(
                        NoOperatingPoint.class, none -> assertThat(none.share()).isLessThan(1e-12));
    }

    @Test
    void asksNothingOfALoadOfNoWatts() {
        assertAmps(solved(behind(0, 1, 0)), "LOAD", 0);
        assertVolts(solved(behind(12, 1, 0)), "b", 12);
    }

    @Test
    void feedsALoadBehindADiode() {
        DcResult.Solved solved = solved(new Network(
                List.of(
                        new VoltageSource("V", "a", "0", 12),
                        new Diode("D", "a", "b"),
                        new Resistor("R", "b", "c", 0.2),
                        new ConstantPowerLoad("LOAD", "c", "0", 60)),
                "0"));

        assertThat(solved.getBranch("LOAD").watts()).as("W of the load").isCloseTo(60, within(1e-6));
        assertThat(solved.getVolts("c")).as("V, of two that feed it").isBetween(9.0, 11.5);
    }

    @Test
    void feedsALoadFromACurrentSourceWithAShunt() {
        // 2 A into 10 Ω is 20 V behind 10 Ω
        DcResult.Solved solved = solved(new Network(
                List.of(
                        new CurrentSource("I", "0", "a", 2),
                        new Resistor("R", "a", "0", 10),
                        new ConstantPowerLoad("LOAD", "a", "0", 5)),
                "0"));

        assertVolts(solved, "a", 10 + Math.sqrt(50));
    }

    @Test
    void feedsALoadRightAtASource() {
        DcResult.Solved solved = solved(new Network(
                List.of(new VoltageSource("V", "a", "0", 12), new ConstantPowerLoad("LOAD", "a", "0", 1e6)), "0"));

        assertAmps(solved, "V", -1e6 / 12);
    }

    @Test
    void agreesWithFixedPointIterationOnRandomTrees() {
        Random random = new Random(41);
        for (int round = 0; round < 100; round++) {
            int loads = 2 + random.nextInt(8);
            double[] ohms = new double[loads];
            double[] watts = new double[loads];
            List<Element> elements = new ArrayList<>(List.of(new VoltageSource("V", "n0", "0", 13.8)));
            for (int at = 0; at < loads; at++) {
                ohms[at] = 0.001 + 0.02 * random.nextDouble();
                watts[at] = 60 * random.nextDouble();
                elements.add(new Resistor("R" + at, "n" + at, "n" + (at + 1), ohms[at]));
                elements.add(new ConstantPowerLoad("P" + at, "n" + (at + 1), "0", watts[at]));
            }

            DcResult.Solved solved = solved(new Network(elements, "0"));

            // amps from volts, volts from amps, again and again: lightly loaded, that comes to rest at the high volts
            double[] volts = new double[loads + 1];
            Arrays.fill(volts, 13.8);
            for (int again = 0; again < 400; again++) {
                double flow = 0;
                double[] through = new double[loads];
                for (int at = loads - 1; at >= 0; at--) {
                    flow += watts[at] / volts[at + 1];
                    through[at] = flow;
                }
                for (int at = 0; at < loads; at++) {
                    volts[at + 1] = volts[at] - ohms[at] * through[at];
                }
            }
            for (int at = 1; at <= loads; at++) {
                assertVolts(solved, "n" + at, volts[at], 1e-8);
            }
        }
    }

    @Test
    void holdsTheShareBetweenWhatIsFedAndWhatIsNot() {
        // whatever the network, the loads at a little less than the share are fed, and at a little more are not
        Random random = new Random(43);
        int refused = 0;
        for (int round = 0; round < 60; round++) {
            List<Element> elements = new ArrayList<>(List.of(new VoltageSource("V", "n0", "0", 12)));
            for (int at = 1; at < 6; at++) {
                elements.add(new Resistor("R" + at, "n" + random.nextInt(at), "n" + at, 0.5 + random.nextDouble()));
                elements.add(new Resistor("S" + at, "n" + at, "0", 5 + 50 * random.nextDouble()));
                elements.add(new ConstantPowerLoad("P" + at, "n" + at, "0", 40 * random.nextDouble()));
            }
            Network network = new Network(elements, "0");
            DcResult result = Solver.dc(network);
            if (result instanceof NoOperatingPoint none) {
                refused++;
                assertThat(Solver.dc(scaled(network, none.share() * (1 - 1e-6))))
                        .isInstanceOf(DcResult.Solved.class);
                assertThat(Solver.dc(scaled(network, none.share() * (1 + 1e-6))))
                        .isInstanceOf(NoOperatingPoint.class);
            } else {
                assertThat(result).isInstanceOf(DcResult.Solved.class);
            }
        }
        assertThat(refused).as("networks that cannot feed their loads").isBetween(10, 59);
    }

    private static Network scaled(Network network, double share) {
        return new Network(
                network.elements().stream()
                        .map(element -> element instanceof ConstantPowerLoad load
                                ? new ConstantPowerLoad(load.name(), load.from(), load.to(), share * load.watts())
                                : element)
                        .toList(),
                network.ground());
    }
}
