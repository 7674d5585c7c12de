package dev.splicebook.hookup.rule;

import static dev.splicebook.hookup.rule.Bench.assertNotApplicable;
import static dev.splicebook.hookup.rule.Bench.assertNotChecked;
import static dev.splicebook.hookup.rule.Bench.assertPassed;
import static dev.splicebook.hookup.rule.Bench.assertSilent;
import static dev.splicebook.hookup.rule.Bench.check;
import static dev.splicebook.hookup.rule.Bench.circuit;
import static dev.splicebook.hookup.rule.Bench.device;
import static dev.splicebook.hookup.rule.Bench.members;
import static dev.splicebook.hookup.rule.Bench.only;
import static dev.splicebook.hookup.rule.Bench.wire;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Report;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.State;
import org.junit.jupiter.api.Test;

// the 3 % are common practice, no source; drops by Ohm's law
class VoltageDropExcessiveTest {

    private static final String RULE = "voltage-drop-excessive";

    @Test
    void reportsALossAboveTheShare() {
        // 10 AWG: 0.9989 Ω/kft at 20 °C (NBS Handbook 100), 3.277 mΩ/m; with 30 of its 60 A at 48.75 °C 3.647 mΩ/m
        Finding finding = only(amplifier(5), RULE);

        double lostVolts = 30 * (5 * 3.647e-3 + 0.92e-3 + 0.2 * 3.647e-3);
        assertThat(finding.measured()).as("volts lost").isCloseTo(lostVolts, within(2e-3));
        assertThat(finding.limit()).as("3 % of 12.6 V").isCloseTo(0.378, within(1e-9));
        assertThat(finding.message())
                .isEqualTo(
                        "AMP.plus loses 0.60 V of 12.60 V on the way there and back with 30.0 A, above the 0.38 V (3 %)"
                                + " that wires may take");
        assertThat(finding.severity()).isEqualTo(Severity.WARNING);
        assertThat(finding.connections()).containsExactly("W1", "W2");
        assertThat(finding.states()).containsExactly(State.ACCESSORY, State.IGNITION, State.RUNNING);
    }

    @Test
    void acceptsAShorterRun() {
        assertPassed(amplifier(2), RULE);
    }

    @Test
    void acceptsExactlyTheShare() {
        // by the figures above: (0.378 V / 30 A − 0.92 mΩ) / 3.647 mΩ/m − 0.2 m
        double metres = (0.378 / 30 - 0.917e-3) / 3.647e-3 - 0.2;
        assertPassed(amplifier(metres * 0.999), RULE);
        only(amplifier(metres * 1.001), RULE);
    }

    @Test
    void doesNotApplyWithoutAFedLoad() {
        assertNotApplicable(
                check("", members("AMP", device(load(30))), members("W2", wire("AMP.minus", "CAR.chassis"))), RULE);
    }

    @Test
    void isNotCheckedWithoutALength() {
        assertNotChecked(
                check(
                        "",
                        members("AMP", device(load(30))),
                        members(
                                "W1", Bench.fused("CAR.battery-plus", "AMP.plus", "10 AWG", 60),
                                "W2", wire("AMP.minus", "CAR.chassis", "10 AWG", metres(1)))),
                RULE,
                "connection W1.length");
    }

    @Test
    void leavesWhatAFuseBelowItsLoadTakesToItsRule() {
        // some 0.1 ohms at 1 A take 0.6 V of 5 A, and it will not carry those anyway
        Report report = fusedAtOne(1);
        only(report, "fuse-below-load");
        assertSilent(report, RULE);
        // 9 m of wire take too much by themselves: 16 AWG, 13.2 mΩ/m at 20 °C
        only(fusedAtOne(9), RULE);
    }

    private static Report fusedAtOne(double metres) {
        return check(
                "",
                members("AMP", device(load(5))),
                members(
                        "W1",
                                wire(
                                        "CAR.battery-plus",
                                        "AMP.plus",
                                        "16 AWG",
                                        metres(metres) + ", 'fuse': {'ratingAmps': 1}"),
                        "W2", wire("AMP.minus", "CAR.chassis", "16 AWG", metres(0.2))));
    }

    @Test
    void leavesAnOverloadedConductorToItsRule() {
        Report report = check(
                "",
                members("AMP", device(load(50))),
                members(
                        "W1",
                                wire(
                                        "CAR.battery-plus",
                                        "AMP.plus",
                                        "16 AWG",
                                        ", 'fuse': {'ratingAmps': 25}" + metres(5)),
                        "W2", wire("AMP.minus", "CAR.chassis", "4 AWG", metres(0.5))));
        only(report, "conductor-too-small");
        assertSilent(report, RULE);
    }

    @Test
    void leavesWhatADiodeTakesToTheDiode() {
        // some 0.8 V at the diode are far above 3 %, and 5 A in 4 m of 12 AWG far below: 5.211 mΩ/m, NBS Handbook 100
        assertPassed(behindADiode("12 AWG"), RULE);
        // 20 AWG: 33.3 mΩ/m cold, 4 m and 5 A lose 0.67 V cold, 0.72 V at 42 °C, and the fuse 0.05 V
        Finding finding = only(behindADiode("20 AWG"), RULE);
        assertThat(finding.measured()).as("volts lost in wires").isBetween(0.72, 0.80);
    }

    @Test
    void tellsWhichResistorTakesTheVolts() {
        // 20 mA in 470 Ω lose 9.40 V by Ohm's law
        Finding finding = only(behindAResistor(0.02, ""), RULE);

        assertThat(finding.measured()).isCloseTo(9.4, within(1e-2));
        assertThat(finding.message())
                .isEqualTo(
                        "LAMP.plus loses 9.40 V of 12.60 V on the way there and back with 20 mA, above the 0.38 V (3 %)"
                                + " that wires may take; 9.40 V of it in R1");
        assertThat(finding.help()).isEqualTo("feed it past R1, unless it is meant for a resistor before it.");

        Finding low = only(behindAResistor(0.02, ", 'minVolts': 10"), "undervoltage");
        assertThat(low.message()).endsWith("9.40 V of the 14.20 V are lost on the way, most of it in R1");
        assertThat(low.help()).isEqualTo("feed it past R1.");
    }

    private static Report behindAResistor(double amps, String minVolts) {
        return check(
                "",
                members(
                        "R1",
                        "{'inline': {'resistors': [{'between': ['a', 'b'], 'ohms': 470, 'watts': 1}]}}",
                        "LAMP",
                        device(circuit("{'kind': 'load', 'needs': 'either', 'typicalAmps': " + amps + ", 'maxAmps': "
                                + amps + ", 'sleepAmps': 0" + minVolts + "}"))),
                members(
                        "W1", wire("CAR.battery-plus", "R1.a", "18 AWG", ", 'fuse': {'ratingAmps': 3}" + metres(1)),
                        "W2", wire("R1.b", "LAMP.plus", "18 AWG", metres(1)),
                        "W3", wire("LAMP.minus", "CAR.chassis", "18 AWG", metres(0.1))));
    }

    private static Report behindADiode(String size) {
        return check(
                "",
                members(
                        "D",
                        "{'inline': {'diodes': [{'anode': 'a', 'cathode': 'k', 'amps': 6}]}}",
                        "FAN",
                        device(load(5))),
                members(
                        "W1", wire("CAR.battery-plus", "D.a", size, ", 'fuse': {'ratingAmps': 7.5}" + metres(2)),
                        "W2", wire("D.k", "FAN.plus", size, metres(2)),
                        "W3", wire("FAN.minus", "CAR.chassis", "4 AWG", metres(0.1))));
    }

    private static String load(double maxAmps) {
        return circuit("{'kind': 'load', 'needs': 'either', 'typicalAmps': 5, 'maxAmps': " + maxAmps
                + ", 'sleepAmps': 0, 'minVolts': 6}");
    }

    private static String metres(double metres) {
        return ", 'length': {'value': " + metres + ", 'unit': 'm'}";
    }

    private static Report amplifier(double metres) {
        return check(
                "",
                members("AMP", device(load(30))),
                members(
                        "W1",
                                wire(
                                        "CAR.battery-plus",
                                        "AMP.plus",
                                        "10 AWG",
                                        ", 'fuse': {'ratingAmps': 60}" + metres(metres)),
                        "W2", wire("AMP.minus", "CAR.chassis", "10 AWG", metres(0.2))));
    }
}
