package dev.splicebook.hookup.rule;

import static dev.splicebook.hookup.rule.Bench.assertNotApplicable;
import static dev.splicebook.hookup.rule.Bench.assertNotChecked;
import static dev.splicebook.hookup.rule.Bench.assertPassed;
import static dev.splicebook.hookup.rule.Bench.circuit;
import static dev.splicebook.hookup.rule.Bench.device;
import static dev.splicebook.hookup.rule.Bench.members;
import static dev.splicebook.hookup.rule.Bench.only;
import static dev.splicebook.hookup.rule.Bench.wire;
import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Hookups;
import dev.splicebook.hookup.Report;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.State;
import org.junit.jupiter.api.Test;

// volts by Ohm's law; 16 V as the most of a 12 V vehicle is of ISO 16750-2, from memory
class OvervoltageTest {

    private static final String RULE = "overvoltage";
    private static final String LORRY = "'runningVolts': {'min': 26.0, 'max': 29.0}, ";
    private static final String LIVE = "'live': ['accessory', 'ignition', 'running', 'restarting']";

    @Test
    void tellsOfARadioFor12VOnAFeedOf24V() {
        Finding finding = only(radio("", ", 'volts': 24", ", 'maxVolts': 16"), RULE);

        assertThat(finding.message())
                .startsWith("HU.plus gets up to 24.00 V")
                .endsWith(", above the 16.00 V that it takes");
        assertThat(finding.help()).contains("converter");
        assertThat(finding.severity()).isEqualTo(Severity.ERROR);
        assertThat(finding.terminals()).containsExactly("HU.plus");
        assertThat(finding.connections()).containsExactly("W1", "W2");
        assertThat(finding.states()).contains(State.ACCESSORY, State.RUNNING);
        assertThat(finding.measured()).isEqualTo(24);
        assertThat(finding.limit()).isEqualTo(16);
        assertThat(finding.unit()).isEqualTo("V");
    }

    @Test
    void passesARadioThatTakesIt() {
        assertPassed(radio("", ", 'volts': 24", ", 'maxVolts': 32"), RULE);
        assertPassed(radio("", ", 'volts': 24", ", 'maxVolts': 24"), RULE);
        assertPassed(radio("", "", ", 'maxVolts': 16"), RULE);
    }

    @Test
    void asksForTheMostOnlyWhereMoreThan16VReachTheLoad() {
        assertNotChecked(radio("", ", 'volts': 24", ""), RULE, "HU.plus.maxVolts");
        assertNotApplicable(radio("", ", 'volts': 16", ""), RULE);
        assertNotApplicable(radio("", "", ""), RULE);
    }

    @Test
    void takesTheMostOfTheVehiclesRangeWhileItRuns() {
        // 29 V at most, though 27.5 V in the middle
        Finding finding = only(radio(LORRY, "", ", 'maxVolts': 28"), RULE);

        assertThat(finding.states()).containsExactly(State.RUNNING);
        assertThat(finding.measured()).isEqualTo(29);
        assertPassed(radio(LORRY, "", ", 'maxVolts': 29"), RULE);
        assertNotChecked(radio(LORRY, "", ""), RULE, "HU.plus.maxVolts");
    }

    @Test
    void leavesAFeedOfItsOwnAtItsVoltsWhateverTheVehicleGives() {
        assertPassed(radio(LORRY, ", 'volts': 12, 'regulated': true", ", 'maxVolts': 16"), RULE);
    }

    @Test
    void readsControlInputsFor12V() {
        assertThat(only(turnOn("'active': '12V', 'amps': 0.01, 'maxVolts': 16"), RULE)
                        .terminals())
                .containsExactly("AMP.remote");
        assertPassed(turnOn("'active': '12V', 'amps': 0.01, 'maxVolts': 32"), RULE);
        assertNotChecked(turnOn("'active': '12V', 'amps': 0.01"), RULE, "AMP.remote.maxVolts");
    }

    @Test
    void readsTheCoilsOfRelays() {
        // 24 V over a coil for 12 V; 16 V would do
        Finding finding = only(relay(24, ", 'coilVolts': 12"), RULE);

        assertThat(finding.message())
                .startsWith("the coil of K at ")
                .contains(" gets up to 24.00 V ", "above the 16.00 V that it takes");
        assertThat(finding.help()).isEqualTo("use a relay whose coil is made for these volts.");
        assertThat(finding.terminals()).containsExactlyInAnyOrder("K.85", "K.86");
        assertPassed(relay(16, ", 'coilVolts': 12"), RULE);
        assertPassed(relay(24, ", 'coilVolts': 24"), RULE);
        assertNotChecked(relay(24, ""), RULE, "K.85.coilVolts");
        assertNotApplicable(relay(14, ""), RULE);
    }

    private static Report relay(double volts, String coil) {
        return check(
                "",
                members("C1-7", circuit("{'kind': 'supply', 'volts': " + volts + ", 'maxAmps': 5, " + LIVE + "}")),
                members(
                        "K",
                        "{'inline': {'relays': [{'coil': ['85', '86'], 'coilOhms': 350" + coil
                                + ", 'common': '30', 'open': '87'}]}}"),
                members("W1", wire("CAR.C1-7", "K.86"), "W2", wire("CAR.chassis", "K.85")));
    }

    @Test
    void countsWhatAResistorOnTheWayTakes() {
        // 1 A through 10 Ω takes 10 V of the 24 V
        assertPassed(behindAResistor("'typicalAmps': 1, 'maxAmps': 1"), RULE);
        assertNotChecked(behindAResistor("'maxAmps': 1"), RULE, "HU.plus.typicalAmps");
        assertThat(only(behindAResistor("'typicalAmps': 0.5, 'maxAmps': 1"), RULE)
                        .measured())
                .isEqualTo(19);
    }

    private static Report radio(String vehicle, String supply, String load) {
        return check(
                vehicle,
                members("C1-7", circuit("{'kind': 'supply', 'maxAmps': 5, 'fuseAmps': 10, " + LIVE + supply + "}")),
                members("HU", device(circuit("{'kind': 'load', 'typicalAmps': 0, 'maxAmps': 1" + load + "}"))),
                members("W1", wire("CAR.C1-7", "HU.plus"), "W2", wire("CAR.chassis", "HU.minus")));
    }

    private static Report turnOn(String input) {
        return check(
                "",
                members("C1-7", circuit("{'kind': 'supply', 'volts': 24, 'maxAmps': 5, " + LIVE + "}")),
                members(
                        "AMP",
                        "{'inline': {'terminals': {'remote': {'electrical': {'kind': 'control-in', " + input
                                + "}}, 'minus': {'electrical': {'kind': 'ground'}}}}}"),
                members("W1", wire("CAR.C1-7", "AMP.remote"), "W2", wire("CAR.chassis", "AMP.minus")));
    }

    private static Report behindAResistor(String load) {
        return check(
                "",
                members("C1-7", circuit("{'kind': 'supply', 'volts': 24, 'maxAmps': 5, " + LIVE + "}")),
                members(
                        "HU",
                        device(circuit("{'kind': 'load', 'maxVolts': 16, " + load + "}")),
                        "R",
                        "{'inline': {'resistors': [{'between': ['a', 'b'], 'ohms': 10}]}}"),
                members(
                        "W1",
                        wire("CAR.C1-7", "R.a"),
                        "W2",
                        wire("R.b", "HU.plus"),
                        "W3",
                        wire("CAR.chassis", "HU.minus")));
    }

    private static Report check(String vehicle, String circuits, String parts, String connections) {
        String hookup = "{'vehicle': {'inline': {" + vehicle + "'circuits': {" + circuits + "}}}, 'parts': {" + parts
                + "}, 'connections': {" + connections + "}}";
        return Hookups.check(hookup.replace('\'', '"'));
    }
}
