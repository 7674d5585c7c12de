package dev.splicebook.hookup.rule;

import static dev.splicebook.hookup.rule.Bench.ACCESSORY;
import static dev.splicebook.hookup.rule.Bench.CONSTANT;
import static dev.splicebook.hookup.rule.Bench.assertFigures;
import static dev.splicebook.hookup.rule.Bench.assertNotApplicable;
import static dev.splicebook.hookup.rule.Bench.assertNotChecked;
import static dev.splicebook.hookup.rule.Bench.assertPassed;
import static dev.splicebook.hookup.rule.Bench.assertSilent;
import static dev.splicebook.hookup.rule.Bench.check;
import static dev.splicebook.hookup.rule.Bench.circuit;
import static dev.splicebook.hookup.rule.Bench.device;
import static dev.splicebook.hookup.rule.Bench.inside;
import static dev.splicebook.hookup.rule.Bench.members;
import static dev.splicebook.hookup.rule.Bench.only;
import static dev.splicebook.hookup.rule.Bench.relay;
import static dev.splicebook.hookup.rule.Bench.wire;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Report;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.State;
import java.util.List;
import org.junit.jupiter.api.Test;

// 25 to 50 mA: service literature
class ParasiticDrawExcessiveTest {

    private static final String RULE = "parasitic-draw-excessive";
    private static final String SWITCHED =
            circuit("{'kind': 'load', 'needs': 'switched', 'typicalAmps': 1, 'maxAmps': 2}");

    @Test
    void addsUpWhatAllDrawAsleep() {
        Report report = two(0.04, 0.03);

        Finding finding = only(report, RULE);
        assertThat(finding.message())
                .isEqualTo(
                        "asleep, HU.plus and CAM.plus together draw 70 mA from the battery, above the 50 mA that are usual"
                                + " for a whole vehicle");
        assertThat(finding.severity()).isEqualTo(Severity.WARNING);
        assertThat(finding.terminals()).containsExactlyInAnyOrder("CAM.plus", "HU.plus");
        assertThat(finding.states()).containsExactly(State.ASLEEP);
        assertFigures(finding, 70, 50, "mA");
    }

    @Test
    void acceptsWhatIsUsual() {
        assertPassed(two(0.004, 0.003), RULE);
    }

    @Test
    void acceptsExactlyTheMostThatIsUsual() {
        assertPassed(two(0.03, 0.02), RULE);
        only(two(0.03, 0.0201), RULE);
    }

    @Test
    void countsAResistorAcrossAConstantFeed() {
        // 12.6 V over 100 ohms: 126 mA, by Ohm's law
        Finding finding = only(resistor("CAR.battery-plus", 100), RULE);
        assertThat(finding.message())
                .isEqualTo(
                        "asleep, R.a draws 126 mA from the battery, above the 50 mA that are usual for a whole vehicle");
        assertPassed(resistor("CAR.battery-plus", 680), RULE);
        assertNotApplicable(resistor("CAR.C1-8", 100), RULE);
    }

    @Test
    void countsAResistorInSeriesWithALoadNoSecondTime() {
        String parts = members(
                "HU",
                device(load(", 'sleepAmps': 0.04")),
                "R",
                inside("'resistors': [{'between': ['a', 'b'], 'ohms': 10}]"));
        assertPassed(
                check(
                        "",
                        parts,
                        members(
                                "W1", wire("CAR.battery-plus", "R.a", "18 AWG", ", 'fuse': {'ratingAmps': 5}"),
                                "W2", wire("R.b", "HU.plus"),
                                "W3", wire("HU.minus", "CAR.chassis"))),
                RULE);
    }

    @Test
    void namesTheEndOfACoilThatIsFedWhicheverIsListedFirst() {
        for (List<String> ends : List.of(List.of("86", "85"), List.of("85", "86"))) {
            Finding finding = only(
                    check(
                            "",
                            members("K", relay()),
                            members(
                                    "W1",
                                            wire(
                                                    "CAR.battery-plus",
                                                    "K." + ends.get(0),
                                                    "18 AWG",
                                                    ", 'fuse': {'ratingAmps': 5}"),
                                    "W2", wire("K." + ends.get(1), "CAR.chassis"))),
                    RULE);
            assertThat(finding.terminals()).containsExactly("K." + ends.get(0));
        }
    }

    private static Report resistor(String feed, double ohms) {
        return check(
                members("C1-8", ACCESSORY),
                members("R", inside("'resistors': [{'between': ['a', 'b'], 'ohms': " + ohms + "}]")),
                members(
                        "W1", wire(feed, "R.a", "18 AWG", ", 'fuse': {'ratingAmps': 5}"),
                        "W2", wire("R.b", "CAR.chassis")));
    }

    @Test
    void leavesOutWhatABatteryOfAPartFeedsWhileARelayPartsIt() {
        String battery =
                "{'inline': {'terminals': {'plus': {'function': 'power.battery', 'electrical': {'kind': 'supply',"
                        + " 'live': ['asleep', 'accessory', 'ignition', 'cranking', 'running', 'restarting']}}}}}";
        String wires = members(
                "W1", wire("CAR.battery-plus", "K.30"),
                "W2", wire("BAT.plus", "K.87"),
                "W3", wire("CAR.C1-8", "K.86"),
                "W4", wire("CAR.chassis", "K.85"),
                "W5", wire("%s", "COOL.plus"),
                "W6", wire("CAR.chassis", "COOL.minus"));
        String cool = device("{'electrical': {'kind': 'load', 'needs': 'constant', 'typicalAmps': 3, 'maxAmps': 4,"
                + " 'sleepAmps': 3}}");
        String parts = members("BAT", battery, "K", relay(), "COOL", cool);

        assertSilent(check(members("C1-8", ACCESSORY), parts, wires.formatted("BAT.plus")), RULE);
        only(check(members("C1-8", ACCESSORY), parts, wires.formatted("CAR.battery-plus")), RULE);
    }

    @Test
    void doesNotApplyToWhatIsDeadAsleep() {
        assertNotApplicable(
                check(
                        members("C1-8", ACCESSORY),
                        members("HU", device(load(", 'sleepAmps': 0.5"))),
                        members("W1", wire("CAR.C1-8", "HU.plus"), "W2", wire("HU.minus", "CAR.chassis"))),
                RULE);
    }

    @Test
    void isNotCheckedWithoutWhatALoadDrawsAsleep() {
        assertNotChecked(
                check(
                        members("C1-7", CONSTANT),
                        members("HU", device(load(""))),
                        members("W1", wire("CAR.C1-7", "HU.plus"), "W2", wire("HU.minus", "CAR.chassis"))),
                RULE,
                "HU.plus.sleepAmps");
    }

    @Test
    void countsACoilThatStaysPulled() {
        // 12.6 V over 90 ohms, 140 mA
        Finding finding = only(
                check(
                        members("C1-7", CONSTANT),
                        members("K", relay()),
                        members("W1", wire("CAR.C1-7", "K.86"), "W2", wire("K.85", "CAR.chassis"))),
                RULE);
        assertThat(finding.measured()).isCloseTo(140, within(0.1));
    }

    @Test
    void countsNothingThatAnAlarmOrATurnSignalIsGivenForMoments() {
        for (String function : List.of("control.alarm", "control.window.up", "lighting.turn-left")) {
            assertSilent(coilDrivenBy(function, "12V"), RULE);
            assertSilent(coilDrivenBy(function, "ground"), RULE);
        }
        only(coilDrivenBy("control.amplifier-on", "12V"), RULE);
        only(coilDrivenBy("control.amplifier-on", "ground"), RULE);
    }

    /** A relay whose coil an output drives that may act asleep. */
    private static Report coilDrivenBy(String function, String active) {
        return check(
                members(
                        "C1-5",
                        "{'function': '" + function + "', 'electrical': {'kind': 'control-out', 'active': '" + active
                                + "', 'maxAmps': 1, 'live': ['asleep', 'running']}}",
                        "C1-7",
                        CONSTANT),
                members("K", relay()),
                members(
                        "W1",
                        wire("CAR.C1-5", "K.86"),
                        "W2",
                        wire(active.equals("ground") ? "CAR.C1-7" : "CAR.chassis", "K.85")));
    }

    @Test
    void leavesACoilToTheRuleOfTheLoadThatItKeepsOn() {
        Report report = coilOnConstant(SWITCHED, "CAR.C1-7");
        only(report, "switched-load-on-constant-supply");
        assertSilent(report, RULE);
    }

    @Test
    void leavesACoilToTheRuleOfTheAmplifierThatItKeepsOn() {
        String remote = "{'function': 'control.amplifier-on', 'electrical': {'kind': 'control-in',"
                + " 'active': '12V', 'amps': 0.01}}";
        Report report = coilOnConstant(remote, "CAR.C1-7");
        only(report, "control-always-active");
        assertSilent(report, RULE);
    }

    @Test
    void countsACoilThatStaysPulledForNothing() {
        Report report = coilOnConstant(SWITCHED, "CAR.C1-8");
        assertSilent(report, "switched-load-on-constant-supply");
        assertThat(only(report, RULE).measured()).isCloseTo(140, within(0.1));
    }

    @Test
    void countsACoilThatKeepsOnWhatMayStayOn() {
        only(coilOnConstant(load(", 'sleepAmps': 0.001"), "CAR.C1-7"), RULE);
    }

    /** A relay whose coil stays pulled, and whose contact hands a circuit on to a device. */
    private static Report coilOnConstant(String terminal, String feed) {
        return check(
                members("C1-7", CONSTANT, "C1-8", ACCESSORY),
                members("K", relay(), "HU", device(terminal)),
                members(
                        "W1", wire("CAR.C1-7", "K.86"),
                        "W2", wire("K.85", "CAR.chassis"),
                        "W3", wire(feed, "K.30"),
                        "W4", wire("K.87", "HU.plus"),
                        "W5", wire("HU.minus", "CAR.chassis")));
    }

    @Test
    void leavesALoadThatShouldBeSwitchedToItsRule() {
        Report report = check(
                members("C1-7", CONSTANT),
                members("HU", device(SWITCHED)),
                members("W1", wire("CAR.C1-7", "HU.plus"), "W2", wire("HU.minus", "CAR.chassis")));
        only(report, "switched-load-on-constant-supply");
        assertSilent(report, RULE);
    }

    private static String load(String more) {
        return circuit(
                "{'kind': 'load', 'needs': 'either', 'typicalAmps': 1, 'maxAmps': 2, 'minVolts': 6" + more + "}");
    }

    private static Report two(double oneAmps, double otherAmps) {
        return check(
                members("C1-7", CONSTANT),
                members(
                        "CAM", device(load(", 'sleepAmps': " + oneAmps)),
                        "HU", device(load(", 'sleepAmps': " + otherAmps))),
                members(
                        "W1", wire("CAR.C1-7", "HU.plus"),
                        "W2", wire("HU.minus", "CAR.chassis"),
                        "W3", wire("CAR.C1-7", "CAM.plus"),
                        "W4", wire("CAM.minus", "CAR.chassis")));
    }
}
