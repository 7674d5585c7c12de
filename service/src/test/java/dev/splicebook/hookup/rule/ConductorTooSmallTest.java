package dev.splicebook.hookup.rule;

import static dev.splicebook.hookup.rule.Bench.ALWAYS;
import static dev.splicebook.hookup.rule.Bench.assertFigures;
import static dev.splicebook.hookup.rule.Bench.assertNotApplicable;
import static dev.splicebook.hookup.rule.Bench.assertNotChecked;
import static dev.splicebook.hookup.rule.Bench.assertPassed;
import static dev.splicebook.hookup.rule.Bench.assertSilent;
import static dev.splicebook.hookup.rule.Bench.check;
import static dev.splicebook.hookup.rule.Bench.circuit;
import static dev.splicebook.hookup.rule.Bench.device;
import static dev.splicebook.hookup.rule.Bench.fused;
import static dev.splicebook.hookup.rule.Bench.inside;
import static dev.splicebook.hookup.rule.Bench.load;
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

// ampacities: 33 CFR 183.425 table 5, 105 °C insulation: 18 AWG 20 A, 16 AWG 25 A, 10 AWG 60 A, 8 AWG 80 A, 4 AWG 160 A
class ConductorTooSmallTest {

    private static final String RULE = "conductor-too-small";
    private static final String RETURN = members("W9", wire("AMP.minus", "CAR.chassis", "4 AWG", ""));

    @Test
    void reportsACurrentAboveWhatTheConductorTakes() {
        Report report = check(
                "", amplifier(68), members("W1", fused("CAR.battery-plus", "AMP.plus", "10 AWG", 60)) + ", " + RETURN);

        Finding finding = only(report, RULE);
        assertThat(finding.message())
                .isEqualTo("connection W1 (CAR.battery-plus to AMP.plus) carries 68.0 A, above the 60.0 A that 10 AWG"
                        + " with 105 °C insulation takes");
        assertThat(finding.severity()).isEqualTo(Severity.ERROR);
        assertThat(finding.terminals()).containsExactlyInAnyOrder("CAR.battery-plus", "AMP.plus");
        assertThat(finding.connections()).containsExactly("W1");
        assertThat(finding.states()).doesNotContain(State.ASLEEP).contains(State.RUNNING);
        assertFigures(finding, 68, 60, "A");
    }

    @Test
    void acceptsTheSizeThatTheHelpAsksFor() {
        assertPassed(
                check(
                        "",
                        amplifier(68),
                        members("W1", fused("CAR.battery-plus", "AMP.plus", "8 AWG", 80)) + ", " + RETURN),
                RULE);
    }

    @Test
    void acceptsExactlyWhatItTakes() {
        String feed = members("W1", fused("CAR.battery-plus", "AMP.plus", "10 AWG", 60)) + ", " + RETURN;
        assertPassed(check("", amplifier(60), feed), RULE);
        only(check("", amplifier(60.001), feed), RULE);
    }

    @Test
    void doesNotApplyWhereNoCurrentFlows() {
        assertNotApplicable(check("", amplifier(68), RETURN), RULE);
    }

    @Test
    void isNotCheckedWithoutTheSizeOrTheWorstOfALoad() {
        assertNotChecked(
                check(
                        "",
                        amplifier(10),
                        "'W1': {'ends': ['CAR.battery-plus', 'AMP.plus'], 'fuse': {'ratingAmps': 15}}, " + RETURN),
                RULE,
                "connection W1.conductor");
        String unknown = circuit("{'kind': 'load', 'needs': 'either', 'typicalAmps': 10, 'sleepAmps': 0}");
        assertNotChecked(
                check(
                        "",
                        members("AMP", device(unknown)),
                        members("W1", fused("CAR.battery-plus", "AMP.plus", "8 AWG", 80)) + ", " + RETURN),
                RULE,
                "AMP.plus.maxAmps");
    }

    @Test
    void reportsATypicalCurrentThatAloneIsTooMuch() {
        String unknown = circuit("{'kind': 'load', 'needs': 'either', 'typicalAmps': 70}");
        assertFigures(
                only(
                        check(
                                "",
                                members("AMP", device(unknown)),
                                members("W1", fused("CAR.battery-plus", "AMP.plus", "10 AWG", 60)) + ", " + RETURN),
                        RULE),
                70,
                60,
                "A");
    }

    @Test
    void needsNoWordOfWhatALoadTakesAsleep() {
        String load = circuit("{'kind': 'load', 'needs': 'either', 'typicalAmps': 5, 'maxAmps': 60, 'minVolts': 6}");
        assertPassed(
                check(
                        "",
                        members("AMP", device(load)),
                        members("W1", fused("CAR.battery-plus", "AMP.plus", "10 AWG", 60)) + ", " + RETURN),
                RULE);
    }

    @Test
    void needsNoLoadWhereTheSourceCannotGiveMore() {
        String weak = circuit("{'kind': 'supply', 'maxAmps': 5, 'limited': true, " + ALWAYS + "}");
        String unknown = circuit("{'kind': 'load', 'needs': 'either', 'sleepAmps': 0}");
        Report report = check(
                members("C1-1", weak),
                members("AMP", device(unknown)),
                members("W1", wire("CAR.C1-1", "AMP.plus", "18 AWG", "")));
        assertSilent(report, RULE);
        assertThat(Hookups.outcome(report, RULE).missing()).doesNotContain("AMP.plus.maxAmps");
    }

    @Test
    void addsUpWhatReturnsThroughOneWireAndTellsOneRunOnce() {
        // 20 A of each in 10 AWG, 40 A in the shared return of 16 AWG, in two pieces
        String parts = members(
                "A", device(load("either", 10, 20)),
                "B", device(load("either", 10, 20)),
                "S", inside("'conducts': [['a', 'b', 'out']]"),
                "T", inside("'conducts': [['in', 'out']]"));
        Report report = check(
                "",
                parts,
                members(
                        "W1", fused("CAR.battery-plus", "A.plus", "10 AWG", 30),
                        "W2", fused("CAR.battery-plus", "B.plus", "10 AWG", 30),
                        "W3", wire("A.minus", "S.a", "10 AWG", ""),
                        "W4", wire("B.minus", "S.b", "10 AWG", ""),
                        "W5", wire("S.out", "T.in", "16 AWG", ""),
                        "W6", wire("T.out", "CAR.chassis", "16 AWG", "")));
        Finding finding = only(report, RULE);
        assertThat(finding.connections()).containsExactly("W5", "W6");
        assertThat(finding.message())
                .matches("connections W[56] and W[56] each carry 40.0 A, above the 25.0 A that 16 AWG with 105 °C"
                        + " insulation takes");
    }

    @Test
    void leavesAShortToItsRule() {
        Report report = check("", "", members("W1", wire("CAR.battery-plus", "CAR.chassis", "18 AWG", "")));
        assertSilent(report, RULE);
    }

    private static String amplifier(double maxAmps) {
        return members(
                "AMP",
                device(circuit("{'kind': 'load', 'needs': 'either', 'typicalAmps': 5, 'maxAmps': " + maxAmps
                        + ", 'sleepAmps': 0.002, 'minVolts': 6}")));
    }
}
