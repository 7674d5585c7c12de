package dev.splicebook.circuit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import dev.splicebook.circuit.Element.Capacitor;
import dev.splicebook.circuit.Element.ConstantCurrentLoad;
import dev.splicebook.circuit.Element.ConstantPowerLoad;
import dev.splicebook.circuit.Element.CurrentSource;
import dev.splicebook.circuit.Element.Diode;
import dev.splicebook.circuit.Element.IdealTransformer;
import dev.splicebook.circuit.Element.Inductor;
import dev.splicebook.circuit.Element.Resistor;
import dev.splicebook.circuit.Element.VoltageSource;
import dev.splicebook.guard.Invalid;
import dev.splicebook.guard.InvalidValueException;
import java.util.List;
import java.util.function.Supplier;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class NetworkTest {

    @Test
    void namesItsNodesInTheOrderOfItsElements() {
        Network network = new Network(
                List.of(new Resistor("R", "b", "a", 1), new IdealTransformer("T", "a", "0", "d", "c", 2)), "0");

        assertThat(network.nodes()).containsExactly("b", "a", "0", "d", "c");
    }

    @Test
    void refusesNamesThatMeetAndGroundThatIsNowhere() {
        refused(
                () -> new Network(
                        List.of(
                                new Resistor("R", "a", "b", 1),
                                new Resistor("S", "a", "b", 1),
                                new Resistor("R", "b", "c", 1)),
                        "0"),
                "/elements/2/name",
                "/ground");
        refused(() -> new Network(List.of(), "0"), "/elements");
    }

    @ParameterizedTest
    @ValueSource(doubles = {Double.NaN, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY, -1e13, 1e13})
    void refusesFiguresOutsideTheirRanges(double figure) {
        refused(() -> new Resistor("E", "a", "b", figure), "/ohms");
        refused(
                () -> new VoltageSource("E", "a", "b", figure, figure, figure),
                "/volts",
                "/acVolts",
                "/acPhaseDegrees");
        refused(() -> new CurrentSource("E", "a", "b", figure, figure, figure), "/amps", "/acAmps", "/acPhaseDegrees");
        refused(() -> new Capacitor("E", "a", "b", figure), "/farads");
        refused(() -> new Inductor("E", "a", "b", figure), "/henries");
        refused(() -> new IdealTransformer("E", "a", "b", "c", "d", figure), "/ratio");
        refused(() -> new Diode("E", "a", "b", figure, figure), "/saturationAmps", "/emission");
        refused(() -> new ConstantPowerLoad("E", "a", "b", figure), "/watts");
        refused(() -> new ConstantCurrentLoad("E", "a", "b", figure), "/amps");
    }

    @Test
    void refusesZeroWhereThatHasNoMeaning() {
        refused(() -> new Resistor("E", "a", "b", 0), "/ohms");
        refused(() -> new Capacitor("E", "a", "b", 0), "/farads");
        refused(() -> new Inductor("E", "a", "b", 0), "/henries");
        refused(() -> new IdealTransformer("E", "a", "b", "c", "d", 0), "/ratio");
        refused(() -> new Diode("E", "a", "b", 0, 0), "/saturationAmps", "/emission");
    }

    @Test
    void refusesNamesThatAreNone() {
        refused(() -> new Resistor(" ", "", "x".repeat(101), 1), "/name", "/from", "/to");
        refused(() -> new IdealTransformer("T", "a", "b", "", " ", 1), "/secondaryFrom", "/secondaryTo");
    }

    private static void refused(Supplier<Object> making, String... pointers) {
        assertThatExceptionOfType(InvalidValueException.class)
                .isThrownBy(making::get)
                .satisfies(refusal -> assertThat(refusal.invalids())
                        .extracting(Invalid::pointer)
                        .containsExactly(pointers));
    }
}
