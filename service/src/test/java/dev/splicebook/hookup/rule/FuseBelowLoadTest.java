package dev.splicebook.hookup.rule;

import static dev.splicebook.hookup.rule.Bench.ACCESSORY;
import static dev.splicebook.hookup.rule.Bench.ALWAYS;
import static dev.splicebook.hookup.rule.Bench.CONSTANT;
import static dev.splicebook.hookup.rule.Bench.assertFigures;
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
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Report;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.State;
import org.junit.jupiter.api.Test;

// 75 % of the rating for long at 25 °C, as blade fuse makers publish
class FuseBelowLoadTest {

    private static final String RULE = "fuse-below-load";
    private static final String RETURN = members("W9", wire("CAR.chassis", "AMP.minus", "8 AWG", ""));

    @Test
    void reportsAFuseThatRunsNearItsRating() {
        Report report = amplifier(load("constant", 9, 12), 10);

        Finding finding = only(report, RULE);
        assertThat(finding.message())
                .isEqualTo(
                        "the 10 A fuse in connection W1 carries 9.0 A for long, above the 7.5 A (75 % of its rating) that"
                                + " it bears");
        assertThat(finding.severity()).isEqualTo(Severity.WARNING);
        assertThat(finding.terminals()).containsExactlyInAnyOrder("CAR.battery-plus", "AMP.plus");
        assertThat(finding.connections()).containsExactly("W1");
        assertThat(finding.states()).containsExactly(State.values());
        assertFigures(finding, 9, 7.5, "A");
        assertThat(report.findings()).extracting(Finding::rule).containsExactly(RULE);
    }

    @Test
    void acceptsALargerFuse() {
        assertPassed(amplifier(load("constant", 9, 12), 15), RULE);
    }

    @Test
    void judgesAFuseInALeadToGroundByWhatReturnsThere() {
        Finding finding = only(returning(device(load("constant", 9, 12)), 1), RULE);
        assertThat(finding.message()).contains("the 1 A fuse in connection W2 carries 9.0 A for long");
        assertThat(finding.help()).startsWith("take the fuse out");
        assertThat(finding.connections()).containsExactly("W2");
        assertThat(finding.terminals()).containsExactlyInAnyOrder("AMP.minus", "CAR.chassis", "AMP.plus");
        assertPassed(returning(device(load("constant", 9, 12)), 15), RULE);
    }

    @Test
    void isNotCheckedWhereItIsUnknownWhatReturnsByAFuse() {
        String unknown = device(circuit("{'kind': 'load', 'needs': 'constant', 'maxAmps': 12}"));
        assertNotChecked(returning(unknown, 10), RULE, "AMP.plus.typicalAmps");
    }

    /** A part that returns by a fused lead. */
    private static Report returning(String device, double ratingAmps) {
        return check(
                "",
                members("AMP", device),
                members(
                        "W1",
                        fused("CAR.battery-plus", "AMP.plus", "14 AWG", 30),
                        "W2",
                        fused("AMP.minus", "CAR.chassis", "14 AWG", ratingAmps)));
    }

    @Test
    void acceptsExactlyThreeQuarters() {
        assertPassed(amplifier(load("constant", 7.5, 12), 10), RULE);
        only(amplifier(load("constant", 7.51, 12), 10), RULE);
    }

    @Test
    void goesByTheContinuousLoadAndNotByThePeak() {
        assertPassed(amplifier(load("constant", 20, 60), 60), RULE);
    }

    @Test
    void doesNotApplyWithoutAFuse() {
        assertNotApplicable(
                check(
                        "",
                        members("AMP", device(load("constant", 9, 12))),
                        members("W1", wire("CAR.battery-plus", "AMP.plus")) + ", " + RETURN),
                RULE);
    }

    @Test
    void isNotCheckedWhereTheContinuousLoadIsUnknownAndThePeakIsHigh() {
        String peak = circuit("{'kind': 'load', 'needs': 'constant', 'maxAmps': 12}");
        assertNotChecked(amplifier(peak, 15), RULE, "AMP.plus.typicalAmps");
        assertPassed(amplifier(peak, 20), RULE);
        assertNotChecked(
                amplifier(circuit("{'kind': 'load', 'needs': 'constant'}"), 100), RULE, "AMP.plus.typicalAmps");
    }

    @Test
    void namesTheFactThatAControlInputOrACoilLacks() {
        Report report = check(
                "",
                members(
                        "K", inside("'relays': [{'coil': ['86', '85'], 'common': '30', 'open': '87'}]"),
                        "AMP",
                                inside("'terminals': {'on': " + circuit("{'kind': 'control-in', 'active': '12V'}")
                                        + "}")),
                members(
                        "W1", fused("CAR.battery-plus", "K.86", "16 AWG", 1),
                        "W2", wire("CAR.chassis", "K.85"),
                        "W3", wire("K.86", "AMP.on")));
        assertNotChecked(report, RULE, "K.86.coilOhms", "AMP.on.amps");
    }

    @Test
    void addsUpAllThatHangsOnTheFuse() {
        Report report = check(
                "",
                members(
                        "AMP", device(load("constant", 4, 8)),
                        "HU", device(load("constant", 4, 8)),
                        "S", inside("'conducts': [['a', 'b', 'c']]")),
                members(
                                "W1", fused("CAR.battery-plus", "S.a", "16 AWG", 10),
                                "W2", wire("S.b", "AMP.plus"),
                                "W3", wire("S.c", "HU.plus"),
                                "W4", wire("CAR.chassis", "HU.minus"))
                        + ", " + RETURN);
        Finding finding = only(report, RULE);
        assertFigures(finding, 8, 7.5, "A");
        assertThat(finding.terminals()).contains("AMP.plus", "HU.plus");
    }

    @Test
    void judgesTheFusesInsideAPart() {
        String block = inside("'fuses': [{'between': ['in', 'a'], 'ratingAmps': 10},"
                + " {'between': ['in', 'b'], 'ratingAmps': 20}]");
        Finding finding = only(
                check(
                        "",
                        members(
                                "F", block,
                                "AMP", device(load("constant", 9, 12)),
                                "HU", device(load("constant", 9, 12))),
                        members(
                                        "W1", fused("CAR.battery-plus", "F.in", "8 AWG", 60),
                                        "W2", wire("F.a", "AMP.plus"),
                                        "W3", wire("F.b", "HU.plus"),
                                        "W4", wire("CAR.chassis", "HU.minus"))
                                + ", " + RETURN),
                RULE);
        assertThat(finding.message()).startsWith("the 10 A fuse in F, between in and a carries 9.0 A");
        assertThat(finding.terminals()).containsExactlyInAnyOrder("F.in", "F.a", "AMP.plus");
    }

    @Test
    void countsWhatAContactSwitchesOnlyWhileItIsClosed() {
        Finding finding = only(
                check(
                        members("C1-8", ACCESSORY),
                        members("K", relay(), "AMP", device(load("switched", 9, 12))),
                        members(
                                        "W1", wire("CAR.C1-8", "K.86"),
                                        "W2", wire("CAR.chassis", "K.85"),
                                        "W3", fused("CAR.battery-plus", "K.30", "16 AWG", 10),
                                        "W4", wire("K.87", "AMP.plus"))
                                + ", " + RETURN),
                RULE);
        assertThat(finding.connections()).containsExactly("W3");
        assertThat(finding.states()).containsExactly(State.ACCESSORY, State.IGNITION, State.RUNNING, State.RESTARTING);
    }

    @Test
    void judgesAFuseBehindADiode() {
        Finding finding = only(
                check(
                        members("C1-7", circuit("{'kind': 'supply', 'maxAmps': 40, 'fuseAmps': 40, " + ALWAYS + "}")),
                        members("D", diode(), "AMP", device(load("constant", 9, 12))),
                        members("W1", wire("CAR.C1-7", "D.a"), "W2", fused("D.c", "AMP.plus", "16 AWG", 10)) + ", "
                                + RETURN),
                RULE);
        assertThat(finding.connections()).containsExactly("W2");
    }

    @Test
    void judgesTheFuseUpstreamOfACircuit() {
        Report report = tap(circuit("{'kind': 'supply', 'maxAmps': 20, 'fuseAmps': 10, " + ALWAYS + "}"), 9);
        assertThat(only(report, RULE).message())
                .isEqualTo(
                        "the 10 A fuse upstream of CAR.C1-7 carries 9.0 A for long, above the 7.5 A (75 % of its rating)"
                                + " that it bears");
    }

    @Test
    void addsUpTwoCircuitsThatShareOneFuse() {
        String shared = "{'source': 'slot F12', 'electrical': {'kind': 'supply', 'maxAmps': 10, 'fuseAmps': 15, "
                + ALWAYS + "}}";
        String parts = members("AMP", device(load("constant", 6, 7)), "HU", device(load("constant", 6, 7)));
        String wires = members(
                        "W1", wire("CAR.C1-7", "AMP.plus"),
                        "W2", wire("CAR.C2-1", "HU.plus"),
                        "W3", wire("CAR.chassis", "HU.minus"))
                + ", " + RETURN;
        assertFigures(only(check(members("C1-7", shared, "C2-1", shared), parts, wires), RULE), 12, 11.25, "A");
        assertPassed(check(members("C1-7", shared, "C2-1", shared.replace("F12", "F13")), parts, wires), RULE);
    }

    @Test
    void leavesACircuitThatGivesLessThanItIsAskedForToItsOwnRule() {
        Report report = tap(CONSTANT, 11);
        assertSilent(report, RULE);
        only(report, "supply-overloaded");
    }

    @Test
    void judgesALeadThatIsConnectedThoughItIsListedAsUnused() {
        only(
                check(
                        "",
                        members("AMP", device(load("constant", 9, 12))),
                        members("W1", fused("CAR.battery-plus", "AMP.plus", "14 AWG", 10)) + ", " + RETURN,
                        "'unused': {'AMP.plus': {'as': 'capped', 'why': 'fitted later'}}"),
                RULE);
    }

    @Test
    void countsWhatAResistorBehindAFuseTakes() {
        // 14.2 V / 6 Ω = 2.37 A against 75 % of 2 A, and of 4 A
        String resistor = members("R", Bench.inside("'resistors': [{'between': ['a', 'b'], 'ohms': 6}]"));
        String wires =
                members("W1", fused("CAR.battery-plus", "R.a", "14 AWG", 7777), "W2", wire("R.b", "CAR.chassis"));

        assertThat(only(check("", resistor, wires.replace("7777", "2")), RULE).measured())
                .isCloseTo(2.35, within(0.05));
        assertPassed(check("", resistor, wires.replace("7777", "4")), RULE);
    }

    private static Report amplifier(String load, double ratingAmps) {
        return check(
                "",
                members("AMP", device(load)),
                members("W1", fused("CAR.battery-plus", "AMP.plus", "4 AWG", ratingAmps)) + ", " + RETURN);
    }

    private static Report tap(String circuit, double typicalAmps) {
        return check(
                members("C1-7", circuit),
                members("AMP", device(load("constant", typicalAmps, 12))),
                members("W1", wire("CAR.C1-7", "AMP.plus")) + ", " + RETURN);
    }
}
