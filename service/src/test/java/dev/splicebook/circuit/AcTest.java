package dev.splicebook.circuit;

import static dev.splicebook.circuit.Solutions.assertPhasor;
import static dev.splicebook.circuit.Solutions.solved;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.circuit.Element.Capacitor;
import dev.splicebook.circuit.Element.ConstantCurrentLoad;
import dev.splicebook.circuit.Element.ConstantPowerLoad;
import dev.splicebook.circuit.Element.CurrentSource;
import dev.splicebook.circuit.Element.Diode;
import dev.splicebook.circuit.Element.IdealTransformer;
import dev.splicebook.circuit.Element.Inductor;
import dev.splicebook.circuit.Element.Resistor;
import dev.splicebook.circuit.Element.VoltageSource;
import dev.splicebook.guard.InvalidValueException;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class AcTest {

    private static Network network(Element... elements) {
        return new Network(List.of(elements), "0");
    }

    private static VoltageSource volt(String node) {
        return new VoltageSource("V", node, "0", 0, 1, 0);
    }

    // by definition of the corner, 1/(2π R C): 1/√2 and −45° there, a tenth a decade on
    @Test
    void fallsByThreeDecibelsAtTheCornerOfRAndC() {
        Network network = network(volt("a"), new Resistor("R", "a", "b", 1000), new Capacitor("C", "b", "0", 1e-6));
        double cornerHertz = 1 / (2 * Math.PI * 1e-3);

        assertPhasor(solved(network, cornerHertz).getVolts("b"), Math.sqrt(0.5), -45);
        assertThat(solved(network, 100 * cornerHertz).getVolts("b").magnitude()).isCloseTo(0.01, within(1e-6));
    }

    // published ground loop of a coaxial shield: 0.440 Ω and 51.5 µH have their corner at 1.36 kHz
    @Test
    void hasTheCornerOfAPublishedGroundLoop() {
        Network network = network(volt("a"), new Resistor("R", "a", "b", 0.440), new Inductor("L", "b", "0", 51.5e-6));

        AcResult.Solved solved = solved(network, 1360);

        assertThat(solved.getBranch("L").amps().phaseDegrees())
                .as("° of the amps")
                .isCloseTo(-45, within(0.1));
    }

    // published crossover constants at 8 Ω and 2 kHz, computed: second-order Butterworth 7.034 µF and 0.9003 mH
    @Test
    void fallsByThreeDecibelsAtAButterworthCorner() {
        Network network = network(
                volt("a"),
                new Inductor("L", "a", "b", 0.9003e-3),
                new Capacitor("C", "b", "0", 7.034e-6),
                new Resistor("DRIVER", "b", "0", 8));

        assertThat(20 * Math.log10(solved(network, 2000).getVolts("b").magnitude()))
                .as("dB")
                .isCloseTo(-3.01, within(0.01));
    }

    @Test
    void resonatesInSeriesAtTheSourcesVoltsTimesQ() {
        double hertz = 1 / (2 * Math.PI * Math.sqrt(1e-3 * 1e-6));
        AcResult.Solved solved = solved(
                network(
                        volt("a"),
                        new Resistor("R", "a", "b", 2),
                        new Inductor("L", "b", "c", 1e-3),
                        new Capacitor("C", "c", "0", 1e-6)),
                hertz);

        double quality = Math.sqrt(1e-3 / 1e-6) / 2;
        assertPhasor(solved.getBranch("C").amps(), 0.5, 0);
        assertPhasor(solved.getVolts("c"), quality, -90);
        assertThat(solved.getBranch("R").watts()).as("W").isCloseTo(0.5, within(1e-9));
        assertThat(solved.getBranch("L").reactiveVoltAmperes()).isCloseTo(0.25 * Math.sqrt(1000), within(1e-9));
        assertThat(solved.getBranch("C").reactiveVoltAmperes()).isCloseTo(-0.25 * Math.sqrt(1000), within(1e-9));
        assertThat(solved.hertz()).isEqualTo(hertz);
    }

    @ParameterizedTest
    @CsvSource({"0, 0", "90, 90", "-90, -90", "180, 180", "-180, 180", "270, -90", "360, 0"})
    void keepsTheSourcesPhase(double given, double told) {
        AcResult.Solved solved =
                solved(network(new VoltageSource("V", "a", "0", 0, 3, given), new Resistor("R", "a", "0", 6)), 50);

        assertThat(solved.getVolts("a").magnitude()).isCloseTo(3, within(1e-12));
        assertThat(Math.abs(solved.getVolts("a").phaseDegrees())).isCloseTo(Math.abs(told), within(1e-9));
        assertThat(Math.sin(Math.toRadians(solved.getVolts("a").phaseDegrees())))
                .isCloseTo(Math.sin(Math.toRadians(told)), within(1e-12));
    }

    @Test
    void tellsNoPhaseOfNothing() {
        assertThat(new Phasor(0.0, -0.0).phaseDegrees()).isZero();
        assertThat(new Phasor(-0.0, -0.0).phaseDegrees()).isZero();
        assertThat(new Phasor(-1, -0.0).phaseDegrees()).isEqualTo(180);
    }

    @Test
    void transformsImpedanceByTheSquareOfTheRatio() {
        // 4 Ω and 1 mH behind 1 to 3 look like 36 Ω and 9 mH
        AcResult.Solved behind = solved(
                network(
                        volt("a"),
                        new IdealTransformer("T", "a", "0", "b", "0", 3),
                        new Resistor("R", "b", "c", 4),
                        new Inductor("L", "c", "0", 1e-3)),
                400);
        AcResult.Solved seen =
                solved(network(volt("a"), new Resistor("R", "a", "c", 36), new Inductor("L", "c", "0", 9e-3)), 400);

        Phasor expected = seen.getBranch("V").amps();
        assertPhasor(behind.getBranch("V").amps(), expected.magnitude(), expected.phaseDegrees());
        assertPhasor(behind.getVolts("b"), 1.0 / 3, 0);
    }

    @Test
    void seesADiodeAtItsOperatingPoint() {
        // kT/q over the amps, at 27 °C
        double amps = 1e-3;
        AcResult.Solved solved = solved(
                network(
                        new CurrentSource("BIAS", "0", "a", amps, 0, 0),
                        new Diode("D", "a", "0"),
                        new CurrentSource("I", "0", "a", 0, 1e-6, 0)),
                1000);

        assertThat(solved.getVolts("a").magnitude()).as("V").isCloseTo(1e-6 * 0.025865 / amps, within(1e-9));
    }

    @Test
    void seesAConstantPowerLoadAsANegativeResistance() {
        // at 8 V, 2 A: −4 Ω, and 2 Ω from the source's side
        AcResult.Solved solved = solved(
                network(
                        new VoltageSource("V", "a", "0", 12, 1, 0),
                        new Resistor("R", "a", "b", 2),
                        new ConstantPowerLoad("P", "b", "0", 16)),
                1000);

        assertPhasor(solved.getVolts("b"), 2, 0);
    }

    @Test
    void seesNothingOfAConstantCurrentLoadBeyondItsKnee() {
        AcResult.Solved solved = solved(
                network(
                        new VoltageSource("V", "a", "0", 12, 1, 0),
                        new Resistor("R", "a", "b", 2),
                        new ConstantCurrentLoad("C", "b", "0", 3)),
                1000);

        assertPhasor(solved.getVolts("b"), 1, 0);
        assertThat(solved.getBranch("C").amps().magnitude()).isZero();
    }

    @ParameterizedTest
    @ValueSource(doubles = {0, -50, Double.NaN, Double.POSITIVE_INFINITY, 2e12})
    void refusesAFrequencyThatIsNone(double hertz) {
        assertThatExceptionOfType(InvalidValueException.class)
                .isThrownBy(() -> Solver.ac(network(volt("a"), new Resistor("R", "a", "0", 1)), hertz))
                .satisfies(refusal -> assertThat(refusal.invalids())
                        .singleElement()
                        .satisfies(invalid -> assertThat(invalid.pointer()).isEqualTo("/hertz")));
    }
}
