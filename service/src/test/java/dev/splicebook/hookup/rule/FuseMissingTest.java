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

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Hookups;
import dev.splicebook.hookup.Report;
import dev.splicebook.hookup.Severity;
import java.util.List;
import org.junit.jupiter.api.Test;

// ampacities: 33 CFR 183.425 table 5, 105 °C insulation: 16 AWG 25 A, 14 AWG 35 A, 12 AWG 45 A, 10 AWG 60 A, 8 AWG 80
// A,
// 4 AWG 160 A; that protection belongs at the source: 33 CFR 183.455
class FuseMissingTest {

    private static final String RULE = "fuse-missing";
    private static final String RETURN = members("W9", wire("CAR.chassis", "AMP.minus", "8 AWG", ""));
    private static final String AMP = members("AMP", device(load("constant", 20, 50)));
    private static final String BLOCK = inside(
            "'fuses': [{'between': ['in', 'a'], 'ratingAmps': 60}," + " {'between': ['in', 'b'], 'ratingAmps': 20}]");

    @Test
    void reportsAPowerWireWithoutAFuseAtTheBattery() {
        Report report =
                check("", AMP, members("W1", wire("CAR.battery-plus", "AMP.plus", "8 AWG", "")) + ", " + RETURN);

        Finding finding = only(report, RULE);
        assertThat(finding.message())
                .isEqualTo("connection W1 (CAR.battery-plus to AMP.plus) has no fuse, and neither has CAR.battery-plus,"
                        + " which feeds it");
        assertThat(finding.severity()).isEqualTo(Severity.DANGER);
        assertThat(finding.terminals()).containsExactlyInAnyOrder("CAR.battery-plus", "AMP.plus");
        assertThat(finding.connections()).containsExactly("W1");
        assertThat(report.findings()).extracting(Finding::rule).containsExactly(RULE);
    }

    @Test
    void acceptsAFuseInTheWire() {
        assertPassed(
                check("", AMP, members("W1", fused("CAR.battery-plus", "AMP.plus", "8 AWG", 60)) + ", " + RETURN),
                RULE);
    }

    @Test
    void acceptsAThinnerBranchThatBearsTheFuseExactly() {
        assertPassed(branch("10 AWG"), RULE);
        Finding finding = only(branch("12 AWG"), RULE);
        assertFigures(finding, 60, 45, "A");
        assertThat(finding.message())
                .isEqualTo(
                        "connection W2 (S.b to AMP.plus) gets thinner without a fuse: what stands before it lets 60 A"
                                + " pass, above the 45.0 A that 12 AWG with 105 °C insulation takes");
        assertThat(finding.connections()).containsExactly("W2");
    }

    @Test
    void doesNotApplyToTheReturns() {
        assertNotApplicable(check("", AMP, RETURN), RULE);
    }

    @Test
    void isNotCheckedWhereTheFuseOfACircuitIsUnknown() {
        assertNotChecked(tap(circuit("{'kind': 'supply', 'maxAmps': 10, " + ALWAYS + "}")), RULE, "CAR.C1-7.fuseAmps");
    }

    @Test
    void isNotCheckedWhereTheSizeOfABranchIsUnknown() {
        assertNotChecked(
                check(
                        "",
                        AMP + ", " + members("S", inside("'conducts': [['a', 'b']]")),
                        members(
                                        "W1",
                                        fused("CAR.battery-plus", "S.a", "8 AWG", 60),
                                        "W2",
                                        "{'ends': ['S.b', 'AMP.plus']}")
                                + ", " + RETURN),
                RULE,
                "connection W2.conductor");
    }

    @Test
    void acceptsACircuitThatIsFusedUpstreamOrLimitsItself() {
        assertPassed(tap(CONSTANT), RULE);
        assertPassed(tap(circuit("{'kind': 'supply', 'maxAmps': 1, 'limited': true, " + ALWAYS + "}")), RULE);
    }

    @Test
    void acceptsAWireOfItsOwnFuseFromACircuitOfUnknownFuse() {
        assertPassed(
                check(
                        members("C1-7", circuit("{'kind': 'supply', 'maxAmps': 10, " + ALWAYS + "}")),
                        AMP,
                        members("W1", fused("CAR.C1-7", "AMP.plus", "16 AWG", 10)) + ", " + RETURN),
                RULE);
    }

    @Test
    void acceptsABareLeadThatEndsAtAFuse() {
        assertPassed(
                check(
                        "",
                        AMP + ", " + members("F", inside("'fuses': [{'between': ['in', 'out'], 'ratingAmps': 60}]")),
                        members(
                                        "W1", wire("CAR.battery-plus", "F.in", "8 AWG", ""),
                                        "W2", wire("F.out", "AMP.plus", "8 AWG", ""))
                                + ", " + RETURN),
                RULE);
    }

    @Test
    void reportsABareLeadThatPassesALoadOnItsWayToAFuse() {
        Report report = check(
                "",
                AMP + ", " + members("HU", device(load("constant", 1, 2)), "F", BLOCK),
                members(
                                "W1", wire("CAR.battery-plus", "F.in", "8 AWG", ""),
                                "W2", wire("F.a", "AMP.plus", "8 AWG", ""),
                                "W3", wire("F.in", "HU.plus", "16 AWG", ""),
                                "W4", wire("CAR.chassis", "HU.minus"))
                        + ", " + RETURN);
        assertThat(only(report, RULE).connections()).containsExactly("W1");
    }

    @Test
    void judgesEachBranchOfAFuseBlockByItsOwnFuse() {
        assertPassed(block("16 AWG"), RULE);
        assertSilent(block("18 AWG"), RULE);
    }

    @Test
    void findsAThinnerWireBehindAContactAndADiode() {
        String wires = members(
                        "W1", fused("CAR.battery-plus", "%s", "10 AWG", 60),
                        "W2", wire("%s", "AMP.plus", "16 AWG", ""))
                + ", " + RETURN;
        only(check("", AMP + ", " + members("K", relay()), wires.formatted("K.30", "K.87")), RULE);
        only(check("", AMP + ", " + members("D", diode()), wires.formatted("D.a", "D.c")), RULE);
        assertSilent(check("", AMP + ", " + members("D", diode()), wires.formatted("D.c", "D.a")), RULE);
    }

    @Test
    void findsAThinnerWireBehindAPlug() {
        // the fuse upstream of the circuit passes 30 A; 16 AWG behind the lead's 12 AWG bears 25 A
        String harness = inside("'terminals': {'C1-7': {}, 'yellow': {}}, 'conducts': [['C1-7', 'yellow']]");
        Finding finding = only(
                check(
                        members("C1-7", circuit("{'kind': 'supply', 'maxAmps': 20, 'fuseAmps': 30, " + ALWAYS + "}")),
                        AMP + ", " + members("H", harness, "S", inside("'conducts': [['a', 'b']]")),
                        members(
                                        "W1", wire("H.yellow", "S.a", "12 AWG", ""),
                                        "W2", wire("S.b", "AMP.plus", "16 AWG", ""))
                                + ", " + RETURN,
                        "'plugs': [['CAR.C1', 'H.C1']]"),
                RULE);
        assertFigures(finding, 30, 25, "A");
    }

    @Test
    void tellsOneMissingFuseOnceHoweverManyWiresHangOnIt() {
        Report report = check(
                "",
                AMP + ", "
                        + members("S", inside("'conducts': [['a', 'b', 'c']]"), "HU", device(load("constant", 1, 2))),
                members(
                                "W1", wire("CAR.battery-plus", "S.a", "4 AWG", ""),
                                "W2", wire("S.b", "AMP.plus", "8 AWG", ""),
                                "W3", wire("S.c", "HU.plus", "16 AWG", ""),
                                "W4", wire("CAR.chassis", "HU.minus"))
                        + ", " + RETURN);
        assertThat(only(report, RULE).connections()).containsExactly("W1");
        assertThat(report.findings()).hasSize(1);
    }

    @Test
    void reportsEachOfTwoWiresThatLeaveTheBattery() {
        Report report = check(
                "",
                AMP + ", " + members("HU", device(load("constant", 1, 2))),
                members(
                                "W1", wire("CAR.battery-plus", "AMP.plus", "8 AWG", ""),
                                "W2", wire("CAR.battery-plus", "HU.plus"),
                                "W3", wire("CAR.chassis", "HU.minus"))
                        + ", " + RETURN);
        assertThat(Hookups.findings(report, RULE)).hasSize(2);
    }

    @Test
    void leavesATooLargeFuseToItsOwnRule() {
        Report report =
                check("", AMP, members("W1", fused("CAR.battery-plus", "AMP.plus", "10 AWG", 80)) + ", " + RETURN);
        assertSilent(report, RULE);
        only(report, "fuse-exceeds-conductor");
    }

    @Test
    void reportsASecondBatteryBehindAnIsolatingRelayWithoutAFuseAtItsEnd() {
        Finding finding = only(isolated(wire("K.87", "BAT.plus", "4 AWG", "")), RULE);
        assertThat(finding.message())
                .isEqualTo("connection W2 (BAT.plus to K.87) has no fuse, and neither has BAT.plus, which feeds it");
        assertThat(Hookups.findings(isolated(wire("K.87", "BAT.plus", "4 AWG", "")), "supplies-tied"))
                .isEmpty();
        assertPassed(isolated(fused("K.87", "BAT.plus", "4 AWG", 100)), RULE);
    }

    @Test
    void reportsAConductorWhoseFuseSitsAtTheEndThatAnotherSourceFeeds() {
        // 100 A from the second battery into the 10 AWG, 60 A, of which the fuse is at the first
        Finding finding = only(
                check(
                        members("C1-8", CONSTANT),
                        members("K", relay(), "BAT", BATTERY),
                        members(
                                "W1", fused("CAR.battery-plus", "K.30", "10 AWG", 60),
                                "W2", fused("K.87", "BAT.plus", "4 AWG", 100),
                                "W3", wire("CAR.C1-8", "K.86"),
                                "W4", wire("CAR.chassis", "K.85"),
                                "W5", wire("CAR.chassis", "BAT.minus"))),
                RULE);
        assertFigures(finding, 100, 60, "A");
        assertThat(finding.message())
                .isEqualTo(
                        "connection W1 (K.30 to CAR.battery-plus) is fed from K.30 as well, and its fuse sits at the other"
                                + " end: what stands before it there lets 100 A pass, above the 60.0 A that 10 AWG with 105 °C"
                                + " insulation takes");
    }

    @Test
    void tellsOfThinWiresInARowOnlyTheFirst() {
        // 60 A through 10 AWG, then 16 AWG (25 A) into 16 AWG into 18 AWG (20 A)
        Finding finding = only(row("10 AWG", "16 AWG", "16 AWG"), RULE);
        assertThat(finding.connections()).containsExactly("W2");
        assertThat(Hookups.findings(row("10 AWG", "16 AWG", "18 AWG"), RULE))
                .extracting(one -> List.copyOf(one.connections()).get(0))
                .containsExactlyInAnyOrder("W2", "W3");
        assertThat(only(row("10 AWG", "16 AWG", "12 AWG"), RULE).connections()).containsExactly("W2");
        // the first one's own fuse is too large for it: a matter of fuse-exceeds-conductor alone
        Report fused = row("12 AWG", "12 AWG", "12 AWG");
        assertSilent(fused, RULE);
        only(fused, "fuse-exceeds-conductor");
    }

    @Test
    void leavesWhatLeavesASecondBatteryToThatBattery() {
        Finding finding = only(
                check(
                        "",
                        AMP + ", " + members("BAT", BATTERY),
                        members(
                                        "W1", fused("CAR.battery-plus", "BAT.plus", "4 AWG", 100),
                                        "W2", wire("BAT.plus", "AMP.plus", "8 AWG", ""),
                                        "W5", wire("CAR.chassis", "BAT.minus"))
                                + ", " + RETURN),
                RULE);
        assertThat(finding.message())
                .isEqualTo(
                        "connection W2 (BAT.plus to AMP.plus) has no fuse, and neither has BAT.plus, which feeds it");
    }

    @Test
    void isNotCheckedForAPartThatFeedsAndIsFedUnlessItSaysHow() {
        String module =
                inside("'terminals': {'in': " + load("constant", 1, 2) + ", 'gnd': {'electrical': {'kind': 'ground'}},"
                        + " 'out': " + circuit("{'kind': 'supply', " + ALWAYS + "}") + "}");
        assertNotChecked(
                check(
                        members("C1-7", CONSTANT),
                        AMP + ", " + members("M", module),
                        members(
                                        "W1", wire("CAR.C1-7", "M.in"),
                                        "W2", wire("CAR.chassis", "M.gnd"),
                                        "W3", wire("M.out", "AMP.plus"))
                                + ", " + RETURN),
                RULE,
                "M.out.fuseAmps");
    }

    private static final String BATTERY = inside("'terminals': {'plus': "
            + circuit("{'kind': 'supply', " + ALWAYS + "}") + ", 'minus': {'electrical': {'kind': 'ground'}}}");

    /** Two batteries that a relay joins while the ignition is on. */
    private static Report isolated(String second) {
        return check(
                members("C1-8", ACCESSORY),
                members("K", relay(), "BAT", BATTERY),
                members(
                        "W1", fused("CAR.battery-plus", "K.30", "4 AWG", 100),
                        "W2", second,
                        "W3", wire("CAR.C1-8", "K.86"),
                        "W4", wire("CAR.chassis", "K.85"),
                        "W5", wire("CAR.chassis", "BAT.minus")));
    }

    private static Report tap(String circuit) {
        return check(
                members("C1-7", circuit),
                members("AMP", device(load("constant", 0.5, 1))),
                members("W1", wire("CAR.C1-7", "AMP.plus")) + ", " + RETURN);
    }

    /** 60 A through three wires in a row. */
    private static Report row(String first, String second, String third) {
        return check(
                "",
                AMP + ", " + members("S", inside("'conducts': [['a', 'b'], ['c', 'd']]")),
                members(
                                "W1", fused("CAR.battery-plus", "S.a", first, 60),
                                "W2", wire("S.b", "S.c", second, ""),
                                "W3", wire("S.d", "AMP.plus", third, ""))
                        + ", " + RETURN);
    }

    /** 60 A through a splice into a thinner wire. */
    private static Report branch(String size) {
        return check(
                "",
                AMP + ", " + members("S", inside("'conducts': [['a', 'b']]")),
                members("W1", fused("CAR.battery-plus", "S.a", "4 AWG", 60), "W2", wire("S.b", "AMP.plus", size, ""))
                        + ", " + RETURN);
    }

    /** 60 A and 20 A branches of a fuse block. */
    private static Report block(String thinSize) {
        return check(
                "",
                AMP + ", " + members("F", BLOCK, "HU", device(load("constant", 1, 2))),
                members(
                                "W1", fused("CAR.battery-plus", "F.in", "4 AWG", 100),
                                "W2", wire("F.a", "AMP.plus", "8 AWG", ""),
                                "W3", wire("F.b", "HU.plus", thinSize, ""),
                                "W4", wire("CAR.chassis", "HU.minus"))
                        + ", " + RETURN);
    }
}
