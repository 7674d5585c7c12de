package dev.splicebook.hookup.rule;

import static dev.splicebook.hookup.rule.Bench.ACCESSORY;
import static dev.splicebook.hookup.rule.Bench.GROUND;
import static dev.splicebook.hookup.rule.Bench.ON_ACCESSORY;
import static dev.splicebook.hookup.rule.Bench.UNMETERED;
import static dev.splicebook.hookup.rule.Bench.assertNotApplicable;
import static dev.splicebook.hookup.rule.Bench.assertNotChecked;
import static dev.splicebook.hookup.rule.Bench.assertPassed;
import static dev.splicebook.hookup.rule.Bench.assertSilent;
import static dev.splicebook.hookup.rule.Bench.check;
import static dev.splicebook.hookup.rule.Bench.circuit;
import static dev.splicebook.hookup.rule.Bench.device;
import static dev.splicebook.hookup.rule.Bench.diode;
import static dev.splicebook.hookup.rule.Bench.fused;
import static dev.splicebook.hookup.rule.Bench.inside;
import static dev.splicebook.hookup.rule.Bench.load;
import static dev.splicebook.hookup.rule.Bench.members;
import static dev.splicebook.hookup.rule.Bench.only;
import static dev.splicebook.hookup.rule.Bench.relay;
import static dev.splicebook.hookup.rule.Bench.wire;
import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Hookups;
import dev.splicebook.hookup.Report;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.State;
import org.junit.jupiter.api.Test;

class LoadWithoutGroundTest {

    private static final String RULE = "load-without-ground";
    private static final String FEED = members("W1", fused("CAR.battery-plus", "AMP.plus", "8 AWG", 60));

    @Test
    void reportsAnAmplifierWithoutItsReturn() {
        Report report = amplifier("constant", "");

        Finding finding = only(report, RULE);
        assertThat(finding.message()).isEqualTo("AMP returns through AMP.minus, and no ground of the vehicle is there");
        assertThat(finding.severity()).isEqualTo(Severity.ERROR);
        assertThat(finding.terminals()).containsExactly("AMP.minus");
        assertThat(finding.states()).containsExactly(State.values());
        assertThat(report.findings()).extracting(Finding::rule).containsExactly(RULE);
    }

    @Test
    void acceptsTheChassisAndTheBatteryAndAGroundOfAConnector() {
        assertPassed(amplifier("constant", wire("CAR.chassis", "AMP.minus")), RULE);
        assertPassed(amplifier("constant", wire("CAR.battery-minus", "AMP.minus")), RULE);
        assertPassed(amplifier("constant", wire("CAR.C1-12", "AMP.minus")), RULE);
    }

    @Test
    void takesAFeederInAnAntennaLeadForGroundedByItsScreen() {
        String feeder = "{'inline': {'terminals': {"
                + "'plus': {'electrical': {'kind': 'load', 'typicalAmps': 0.05, 'maxAmps': 0.1, 'needs': 'switched'}},"
                + " 'radio': {'electrical': {'kind': 'antenna'}}}}}";
        String fed = members("W1", wire("CAR.battery-plus", "PH.plus"));
        String connected = fed + ", " + members("W2", wire("CAR.A-1", "PH.radio"));
        String antenna = members("A-1", circuit("{'kind': 'antenna'}"));

        assertPassed(check(antenna, members("PH", feeder), connected), RULE);
        assertSilent(check(antenna, members("PH", feeder), connected), "undervoltage");
        assertNotChecked(check(antenna, members("PH", feeder), fed), RULE, "PH.ground");
    }

    @Test
    void reportsABatteryOfAPartWithoutItsReturn() {
        String battery = "{'inline': {'terminals': {'plus': {'electrical': {'kind': 'supply'}}, 'minus': {'electrical':"
                + " {'kind': 'ground'}}}}}";
        String feed = members("W1", fused("AUX.plus", "K.30", "8 AWG", 60));

        Finding finding = only(check("", members("AUX", battery, "K", relay()), feed), RULE);
        assertThat(finding.message()).isEqualTo("AUX returns through AUX.minus, and no ground of the vehicle is there");
        assertThat(finding.states()).containsExactly(State.values());
        assertPassed(
                check(
                        "",
                        members("AUX", battery, "K", relay()),
                        feed + ", " + members("W2", wire("AUX.minus", "CAR.battery-minus"))),
                RULE);
        assertNotApplicable(check("", members("AUX", battery), "'W2': " + wire("AUX.minus", "CAR.chassis")), RULE);
    }

    @Test
    void takesTheGroundOfAnotherPartForNoGround() {
        Report report = check(
                "",
                members("AMP", device(load("constant", 20, 50)), "HU", device(load("constant", 1, 2))),
                FEED + ", " + members("W2", wire("HU.minus", "AMP.minus")));
        assertThat(Hookups.findings(report, RULE)).hasSize(2);
    }

    @Test
    void asksForGroundOnlyInTheStatesInWhichTheLoadIsNeeded() {
        // the contact grounds the part while the accessory circuit is live: enough for a switched load alone
        assertPassed(switchedGround("switched"), RULE);
        Finding finding = only(switchedGround("constant"), RULE);
        assertThat(finding.states()).containsExactly(State.ASLEEP, State.CRANKING);
        assertThat(finding.message()).endsWith("in the states asleep and cranking");
    }

    @Test
    void doesNotApplyToAPartWithoutLoads() {
        assertNotApplicable(check("", members("S", inside("'terminals': {'minus': " + GROUND + "}")), ""), RULE);
    }

    @Test
    void isNotCheckedWhereTheReturnOfThePartIsUnknown() {
        String onlyPlus = inside("'terminals': {'plus': " + load("constant", 20, 50) + "}");
        assertNotChecked(check("", members("AMP", onlyPlus), FEED), RULE, "AMP.ground");
    }

    @Test
    void isNotCheckedWhereItIsUnknownWhatTheCircuitIs() {
        assertNotChecked(amplifier("constant", wire("CAR.C1-13", "AMP.minus")), RULE, "CAR.C1-13.electrical");
    }

    @Test
    void isNotCheckedWhereItIsUnknownWhenAnOutputPullsToGround() {
        assertNotChecked(amplifier("switched", wire("CAR.C1-14", "AMP.minus")), RULE, "CAR.C1-14.live");
    }

    @Test
    void acceptsOneGroundOfTwo() {
        String twoReturns = inside("'terminals': {'plus': %s, 'minus': %s, 'minus2': %s}"
                .formatted(load("constant", 20, 50), GROUND, GROUND));
        Report report =
                check("", members("AMP", twoReturns), FEED + ", " + members("W2", wire("CAR.chassis", "AMP.minus")));
        assertPassed(report, RULE);
    }

    @Test
    void findsTheGroundThroughALead() {
        Report report = check(
                "",
                members("AMP", device(load("constant", 20, 50)), "LUG", inside("'conducts': [['a', 'b', 'c']]")),
                FEED + ", " + members("W2", wire("CAR.chassis", "LUG.a"), "W3", wire("LUG.c", "AMP.minus")));
        assertPassed(report, RULE);
    }

    @Test
    void findsTheGroundThroughADiodeOnlyTheWayTheCurrentFlows() {
        String parts = members("AMP", device(load("constant", 20, 50)), "D", diode());
        assertPassed(
                check(
                        "",
                        parts,
                        FEED + ", " + members("W2", wire("AMP.minus", "D.a"), "W3", wire("D.c", "CAR.chassis"))),
                RULE);
        only(
                check(
                        "",
                        parts,
                        FEED + ", " + members("W2", wire("AMP.minus", "D.c"), "W3", wire("D.a", "CAR.chassis"))),
                RULE);
    }

    @Test
    void tellsTheMissingGroundOfAModuleAndNotTheDarkRadioBehindIt() {
        String module = "{'inline': {'terminals': {'plus': %s, 'minus': %s, 'accessory': %s}}}"
                .formatted(
                        load("constant", 0.2, 0.5),
                        GROUND,
                        circuit("{'kind': 'supply', 'maxAmps': 5, 'limited': true, " + ON_ACCESSORY + "}"));
        Report report = check(
                "",
                members("IFC", module, "HU", device(load("switched", 1, 2))),
                members(
                        "W1", fused("CAR.battery-plus", "IFC.plus", "16 AWG", 5),
                        "W2", wire("IFC.accessory", "HU.plus"),
                        "W3", wire("CAR.chassis", "HU.minus")));
        assertThat(only(report, RULE).terminals()).containsExactly("IFC.minus");
        assertSilent(report, "load-without-supply");
    }

    @Test
    void leavesOutAPartWhoseLoadsAreUnused() {
        assertNotApplicable(
                check(
                        "",
                        members("AMP", device(load("constant", 20, 50))),
                        "",
                        "'unused': {'AMP.plus': {'as': 'removed', 'why': 'a spare'}}"),
                RULE);
    }

    private static Report amplifier(String needs, String groundWire) {
        return check(
                members(
                        "C1-12", circuit("{'kind': 'ground'}"),
                        "C1-13", UNMETERED,
                        "C1-14", circuit("{'kind': 'control-out', 'active': 'ground', 'maxAmps': 100}")),
                members("AMP", device(load(needs, 20, 50))),
                groundWire.isEmpty() ? FEED : FEED + ", " + members("W2", groundWire));
    }

    private static Report switchedGround(String needs) {
        return check(
                members("C1-8", ACCESSORY),
                members("AMP", device(load(needs, 20, 50)), "K", relay()),
                FEED + ", "
                        + members(
                                "W2", wire("CAR.C1-8", "K.86"),
                                "W3", wire("CAR.chassis", "K.85"),
                                "W4", wire("CAR.chassis", "K.30"),
                                "W5", wire("K.87", "AMP.minus")));
    }
}
