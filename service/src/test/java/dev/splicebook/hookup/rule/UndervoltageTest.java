package dev.splicebook.hookup.rule;

import static dev.splicebook.hookup.rule.Bench.assertNotApplicable;
import static dev.splicebook.hookup.rule.Bench.assertNotChecked;
import static dev.splicebook.hookup.rule.Bench.assertPassed;
import static dev.splicebook.hookup.rule.Bench.assertSilent;
import static dev.splicebook.hookup.rule.Bench.circuit;
import static dev.splicebook.hookup.rule.Bench.device;
import static dev.splicebook.hookup.rule.Bench.members;
import static dev.splicebook.hookup.rule.Bench.only;
import static dev.splicebook.hookup.rule.Bench.wire;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Hookups;
import dev.splicebook.hookup.Report;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.State;
import java.util.Objects;
import org.junit.jupiter.api.Test;

// volts at a start: ISO 16750-2 starting profile level I, from memory; wires by Ohm's law
class UndervoltageTest {

    private static final String RULE = "undervoltage";

    @Test
    void tellsThatAnAmplifierDropsOutAtARestart() {
        // 15 mΩ of wiring lose 0.6 V with 40 A: 7.4 V of the 8.0 V that the battery dips to
        Report report = amplifier(", 'minVolts': 7.5", 15e-3, "");

        Finding finding = only(report, RULE);
        assertThat(finding.message())
                .startsWith("AMP.plus gets 7.4")
                .contains(
                        " V at an automatic restart, below the 7.50 V that it works down to; 0.60",
                        " V of the 8.00 V are lost on the way");
        assertThat(finding.severity()).isEqualTo(Severity.WARNING);
        assertThat(finding.states()).containsExactly(State.RESTARTING);
        assertThat(finding.terminals()).containsExactly("AMP.plus");
        assertThat(finding.connections()).containsExactly("W1", "W2");
        assertThat(finding.measured()).isCloseTo(7.4, within(0.02));
        assertThat(finding.limit()).isEqualTo(7.5);
        assertThat(finding.help()).contains("thicker");
        assertThat(report.verdict()).isEqualTo(Report.Verdict.READY_WITH_CAUTIONS);
        assertSilent(report, "voltage-drop-excessive");
    }

    @Test
    void tellsOfARelayThatDoesNotPullBehindAResistor() {
        // 90 Ω behind 1.5 kΩ get 14.2 V x 90 / 1590 = 0.80 V
        Finding finding = only(relayBehind(1500), RULE);

        assertThat(finding.message())
                .startsWith("the coil of K1 at K1.85 and K1.86 gets 0.80 V")
                .contains(
                        "below the 8.00 V from which a relay is sure to pull",
                        "13.40 V of the 14.20 V are lost on the way, most of it in R1");
        assertThat(finding.severity()).isEqualTo(Severity.ERROR);
        assertThat(finding.terminals()).containsExactlyInAnyOrder("K1.85", "K1.86");
        assertThat(finding.limit()).isEqualTo(8);
    }

    @Test
    void passesARelayThatPullsBehindAResistor() {
        // 12.6 V x 90 / 130 = 8.7 V
        assertPassed(relayBehind(40), RULE);
    }

    private static Report relayBehind(double ohms) {
        return Hookups.check("""
                {"vehicle": {"inline": {"circuits": {"C1-5": {"function": "power.accessory", "electrical":
                   {"kind": "supply", "maxAmps": 5, "fuseAmps": 10, "live": ["accessory", "ignition", "running"]}}}}},
                 "parts": {"K1": {"inline": {"relays": [{"coil": ["85", "86"], "coilOhms": 90, "common": "30", "open": "87"}]}},
                   "R1": {"inline": {"resistors": [{"between": ["a", "b"], "ohms": %s}]}}},
                 "connections": {"W1": {"ends": ["CAR.C1-5", "R1.a"]}, "W2": {"ends": ["R1.b", "K1.86"]},
                                 "W3": {"ends": ["CAR.chassis", "K1.85"]}}}
                """.formatted(ohms));
    }

    @Test
    void tellsOfALoadThatWiresLeaveNoVoltsAtAll() {
        // 40 A in 0.5 Ω would take 20 V, more than there is
        Finding finding = only(amplifier(", 'minVolts': 7.5", 0.5, ""), RULE);

        assertThat(finding.message())
                .startsWith("AMP.plus gets 0.0")
                .contains("below the 7.50 V that it works down to");
        assertThat(finding.severity()).isEqualTo(Severity.ERROR);
        assertThat(finding.measured()).isBetween(0.0, 0.1);
    }

    @Test
    void acceptsThickerWires() {
        assertPassed(amplifier(", 'minVolts': 7.5", 5e-3, ""), RULE);
    }

    @Test
    void acceptsExactlyTheLeastVolts() {
        double volts = Objects.requireNonNull(
                only(amplifier(", 'minVolts': 7.5", 15e-3, ""), RULE).measured());
        assertPassed(amplifier(", 'minVolts': " + (volts - 1e-5), 15e-3, ""), RULE);
        only(amplifier(", 'minVolts': " + (volts + 1e-5), 15e-3, ""), RULE);
    }

    @Test
    void doesNotApplyToALoadThatIsNotFed() {
        assertNotApplicable(
                Bench.check(
                        "",
                        members("AMP", device(load(", 'minVolts': 10"))),
                        members("W2", wire("AMP.minus", "CAR.chassis"))),
                RULE);
    }

    @Test
    void isNotCheckedWithoutTheLeastVoltsOrALength() {
        assertNotChecked(amplifier("", 15e-3, ""), RULE, "AMP.plus.minVolts");
        assertNotChecked(
                Bench.check(
                        "",
                        members("AMP", device(load(", 'minVolts': 6"))),
                        members(
                                "W1", Bench.fused("CAR.battery-plus", "AMP.plus", "8 AWG", 60),
                                "W2", wire("AMP.minus", "CAR.chassis", "8 AWG", ""))),
                RULE,
                "connection W1.length",
                "connection W2.length");
    }

    @Test
    void tellsWhereTheSupplyItselfIsTooLowAtARestart() {
        Finding finding = only(amplifier(", 'minVolts': 9", 1e-3, ""), RULE);

        assertThat(finding.message()).endsWith("; its supply itself gives 8.00 V");
        assertThat(finding.help()).contains("stabiliser");
    }

    @Test
    void takesTheWordOfAVehicleThatDoesNotRestartByItself() {
        assertPassed(amplifier(", 'minVolts': 9", 15e-3, "'automaticRestart': false, "), RULE);
        only(amplifier(", 'minVolts': 9", 15e-3, "'automaticRestart': true, "), RULE);
    }

    @Test
    void isAnErrorWhileRunning() {
        // 60 mΩ lose 2.4 V of 14.2 V with 40 A
        Report report = amplifier(", 'minVolts': 12", 60e-3, "'automaticRestart': false, ");

        Finding finding = only(report, RULE);
        assertThat(finding.severity()).isEqualTo(Severity.ERROR);
        assertThat(finding.states()).contains(State.RUNNING, State.ACCESSORY);
        assertThat(report.verdict()).isEqualTo(Report.Verdict.NOT_READY);
    }

    @Test
    void leavesVoltsThatAnOverloadedConductorTakesToItsOverload() {
        // 1 m of 18 AWG, 20.95 mΩ/m at 20 °C and 20 A allowed, would lose 0.56 V of the 8.0 V at 105 °C; with 40 A
        // it loses thrice that, and the feed 0.6 V
        Report report = amplifier(", 'minVolts': 6.5", 15e-3, "", "18 AWG", 1);

        assertPassed(report, RULE);
        only(report, "conductor-too-small");
    }

    @Test
    void tellsWhatNoConductorThatIsJustThickEnoughWouldMend() {
        Report report = amplifier(", 'minVolts': 7", 15e-3, "", "18 AWG", 1);

        assertThat(only(report, RULE).connections()).containsExactly("W1", "W2");
        only(report, "conductor-too-small");
    }

    @Test
    void judgesAControlInputByWhatItCountsAsActive() {
        // 100 mA through 68 ohms lose 6.8 V, which leaves 7.4 V of 14.2 V, and 5.8 V of 12.6 V
        String parts = members(
                "AMP",
                "{'inline': {'terminals': {'remote': "
                        + circuit("{'kind': 'control-in', 'active': '12V', 'amps': 0.1, 'minVolts': 8}")
                        + ", 'minus': " + Bench.GROUND
                        + "}, 'resistors': [{'between': ['on', 'remote'], 'ohms': 68}]}}");
        Finding finding = only(
                Bench.check(
                        members("C1-8", Bench.ACCESSORY),
                        parts,
                        members("W1", wire("CAR.C1-8", "AMP.on"), "W2", wire("AMP.minus", "CAR.chassis"))),
                RULE);
        assertThat(finding.message())
                .startsWith(
                        "AMP.remote gets 7.40 V in the state running, below the 8.00 V from which it counts as active");
        assertThat(finding.states()).containsExactly(State.ACCESSORY, State.IGNITION, State.RUNNING, State.RESTARTING);
        Finding rested = only(
                Bench.check(
                        members("C1-8", Bench.ACCESSORY),
                        parts.replace("'minVolts': 8", "'minVolts': 6"),
                        members("W1", wire("CAR.C1-8", "AMP.on"), "W2", wire("AMP.minus", "CAR.chassis"))),
                RULE);
        assertThat(rested.message())
                .as("the engine at rest before the restart, which takes it lower")
                .startsWith("AMP.remote gets 5.80 V in the states accessory and ignition, below the 6.00 V");
    }

    @Test
    void takesTheWordOfAFeedThatIsRegulated() {
        assertPassed(behindAStabiliser(", 'volts': 12.6, 'regulated': true"), RULE);
        // volts of a battery sink with it at a restart, and a regulated feed that states none says nothing
        assertThat(only(behindAStabiliser(", 'volts': 12.6"), RULE).states()).containsExactly(State.RESTARTING);
        assertThat(only(behindAStabiliser(", 'volts': 12.6, 'regulated': false"), RULE)
                        .measured())
                .isEqualTo(8);
        only(behindAStabiliser(", 'regulated': true"), RULE);
    }

    private static Report behindAStabiliser(String output) {
        return Bench.check(
                members("C1-8", Bench.ACCESSORY),
                members(
                        "ST",
                        "{'inline': {'terminals': {'in': {'electrical': {'kind': 'load', 'typicalAmps': 0, 'maxAmps': 0,"
                                + " 'minVolts': 6}}, 'minus': {'electrical': {'kind': 'ground'}}, 'out': {'electrical':"
                                + " {'kind': 'supply', 'maxAmps': 2, 'live': ['accessory', 'ignition', 'running',"
                                + " 'restarting']" + output + "}}}}}",
                        "L",
                        Bench.device(circuit("{'kind': 'load', 'typicalAmps': 0, 'maxAmps': 0, 'minVolts': 9}"))),
                members(
                        "W1",
                        run("CAR.C1-8", "ST.in"),
                        "W2",
                        run("CAR.chassis", "ST.minus"),
                        "W3",
                        run("ST.out", "L.plus"),
                        "W4",
                        run("CAR.chassis", "L.minus")));
    }

    private static String run(String one, String other) {
        return wire(one, other, "18 AWG", ", 'length': {'value': 1, 'unit': 'm'}");
    }

    @Test
    void knowsAVehicleFor24VByItsRange() {
        String lorry = "'automaticRestart': false, 'runningVolts': {'min': 26, 'max': 28.8}, ";
        assertPassed(amplifier(", 'minVolts': 24", 15e-3, lorry), RULE);
        // two batteries in series rest at 25.2 V, of which 0.6 V are lost
        assertThat(only(amplifier(", 'minVolts': 25", 15e-3, lorry), RULE).measured())
                .isCloseTo(24.6, within(0.02));
        // 10 V as the starter engages: ISO 16750-2 starting profile for 24 V, level I, from memory
        assertThat(only(amplifier(", 'minVolts': 18", 0.001, lorry.replace("false", "true")), RULE)
                        .measured())
                .isCloseTo(9.9, within(0.1));
    }

    @Test
    void namesTheDiodeThatTakesMostOfIt() {
        Finding finding = only(
                Bench.check(
                        members("C1-8", Bench.ACCESSORY),
                        members(
                                "L",
                                Bench.device(
                                        circuit("{'kind': 'load', 'needs': 'either', 'typicalAmps': 1, 'maxAmps': 2,"
                                                + " 'minVolts': 7.5}")),
                                "D",
                                Bench.diode()),
                        members(
                                "W1",
                                wire("CAR.C1-8", "D.a", "12 AWG", ", 'length': {'value': 1, 'unit': 'm'}"),
                                "W2",
                                wire("D.c", "L.plus", "12 AWG", ", 'length': {'value': 1, 'unit': 'm'}"),
                                "W3",
                                wire("L.minus", "CAR.chassis", "12 AWG", ", 'length': {'value': 1, 'unit': 'm'}"))),
                RULE);
        assertThat(finding.message()).contains("are lost on the way, most of it in D");
        assertThat(finding.help()).isEqualTo("feed it past D, or use a relay in place of the diode.");
    }

    private static String load(String more) {
        return circuit(
                "{'kind': 'load', 'needs': 'either', 'typicalAmps': 10, 'maxAmps': 40, 'sleepAmps': 0" + more + "}");
    }

    /**
     * An amplifier of 40 A behind given ohms: a 60 A fuse of 0.92 mΩ, and 8 AWG of 2.061 mΩ/m at 20 °C (NBS Handbook 100,
     * 0.6282 Ω/kft), which comes to 48.75 °C with half of its 80 A.
     */
    private static Report amplifier(String more, double ohms, String vehicle) {
        return amplifier(more, ohms, vehicle, "8 AWG", 0.001);
    }

    private static Report amplifier(String more, double ohms, String vehicle, String returnSize, double returnMetres) {
        double metres = Math.max(0.01, (ohms - 0.92e-3) / (2.061e-3 * (234.5 + 48.75) / 254.5));
        String map = "{'vehicle': {'inline': {" + vehicle + "'circuits': {}}}, 'parts': {"
                + members("AMP", device(load(more))) + "}, 'connections': {"
                + members(
                        "W1",
                                wire(
                                        "CAR.battery-plus",
                                        "AMP.plus",
                                        "8 AWG",
                                        ", 'fuse': {'ratingAmps': 60}, 'length': {'value': " + metres
                                                + ", 'unit': 'm'}"),
                        "W2",
                                wire(
                                        "AMP.minus",
                                        "CAR.chassis",
                                        returnSize,
                                        ", 'length': {'value': " + returnMetres + ", 'unit': 'm'}"))
                + "}}";
        return Hookups.check(map.replace('\'', '"'));
    }
}
