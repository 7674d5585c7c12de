package dev.splicebook.hookup.rule;

import static dev.splicebook.hookup.rule.Bench.assertFigures;
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

// ampacities: 33 CFR 183.425 table 5, 105 °C insulation: 12 AWG 45 A, 10 AWG 60 A, 4 AWG 160 A; 0.2 V: common practice,
// no
// source
class GroundUndersizedTest {

    private static final String RULE = "ground-undersized";

    @Test
    void reportsAReturnThatBearsLessThanTheFusedFeed() {
        Report report = amplifier("12 AWG", 0.4);

        Finding finding = only(report, RULE);
        assertThat(finding.message())
                .isEqualTo("the ground of AMP, connection W2, bears 45.0 A as 12 AWG with 105 °C insulation, below the"
                        + " 60.0 A that the feed bears");
        assertThat(finding.severity()).isEqualTo(Severity.WARNING);
        assertThat(finding.terminals()).containsExactlyInAnyOrder("AMP.minus", "CAR.chassis");
        assertThat(finding.connections()).containsExactly("W2");
        assertFigures(finding, 45, 60, "A");
    }

    @Test
    void acceptsTheSizeOfTheFeed() {
        assertPassed(amplifier("4 AWG", 0.4), RULE);
    }

    @Test
    void acceptsExactlyWhatTheFeedBears() {
        assertPassed(amplifier("10 AWG", 0.4), RULE);
    }

    @Test
    void doesNotApplyWithoutAPartThatIsFed() {
        assertNotApplicable(
                check("", members("AMP", device(load(40))), members("W2", wire("AMP.minus", "CAR.chassis"))), RULE);
    }

    @Test
    void isNotCheckedWithoutTheLengthOfTheReturn() {
        assertNotChecked(
                check(
                        "",
                        members("AMP", device(load(40))),
                        members("W1", feed(), "W2", wire("AMP.minus", "CAR.chassis", "4 AWG", ""))),
                RULE,
                "connection W2.length");
    }

    @Test
    void reportsAGroundThatStandsAboveTheChassis() {
        // 10 AWG: 3.277 mΩ/m at 20 °C (NBS Handbook 100), with 40 of its 60 A at 63.3 °C 3.835 mΩ/m; 2 m lose 0.307 V
        Finding finding = only(amplifier("10 AWG", 2), RULE);

        assertThat(finding.message())
                .isEqualTo(
                        "the ground of AMP stands 0.31 V above the chassis with 40.0 A, above the 0.20 V that a ground"
                                + " may lose");
        assertThat(finding.measured()).isCloseTo(0.307, within(1e-3));
        assertThat(finding.states()).contains(State.RUNNING).doesNotContain(State.ASLEEP);
        double metres = 0.2 / 40 / 3.835e-3;
        assertPassed(amplifier("10 AWG", metres * 0.999), RULE);
        only(amplifier("10 AWG", metres * 1.001), RULE);
    }

    @Test
    void leavesAnOverloadedReturnToItsRule() {
        Report report = amplifier("16 AWG", 2);
        only(report, "conductor-too-small");
        assertSilent(report, RULE);
        assertSilent(report, "voltage-drop-excessive");
    }

    @Test
    void leavesAFeedAsThinAsTheReturnAlone() {
        // a thin lead behind a fuse that suits it: the return need not bear more
        assertPassed(
                check(
                        "",
                        members("HU", device(load(2))),
                        members(
                                "W1",
                                        wire(
                                                "CAR.battery-plus",
                                                "HU.plus",
                                                "18 AWG",
                                                ", 'fuse': {'ratingAmps': 5}" + metres(1)),
                                "W2", wire("HU.minus", "CAR.chassis", "20 AWG", metres(1)))),
                RULE);
    }

    @Test
    void takesNoTurnOnLeadThroughADiodeForAGround() {
        // the lead meshes with the amplifier through its input, but leads no current back
        String amplifier = device(load(40)
                + ", 'remote': {'electrical': {'kind': 'control-in', 'active': '12V', 'amps': 0.02, 'minVolts': 6}}");
        assertPassed(
                check(
                        "",
                        members(
                                "D",
                                "{'inline': {'diodes': [{'anode': 'a', 'cathode': 'k', 'amps': 1}]}}",
                                "AMP",
                                amplifier),
                        members(
                                "W1", feed(),
                                "W2", wire("AMP.minus", "CAR.chassis", "4 AWG", metres(0.4)),
                                "W3",
                                        wire(
                                                "CAR.battery-plus",
                                                "D.a",
                                                "18 AWG",
                                                ", 'fuse': {'ratingAmps': 5}" + metres(1)),
                                "W4", wire("D.k", "AMP.remote", "18 AWG", metres(1)))),
                RULE);
    }

    private static String load(double maxAmps) {
        return circuit("{'kind': 'load', 'needs': 'either', 'typicalAmps': 1, 'maxAmps': " + maxAmps
                + ", 'sleepAmps': 0, 'minVolts': 6}");
    }

    private static String metres(double metres) {
        return ", 'length': {'value': " + metres + ", 'unit': 'm'}";
    }

    private static String feed() {
        return wire("CAR.battery-plus", "AMP.plus", "4 AWG", ", 'fuse': {'ratingAmps': 60}" + metres(3));
    }

    private static Report amplifier(String size, double metres) {
        return check(
                "",
                members("AMP", device(load(40))),
                members("W1", feed(), "W2", wire("AMP.minus", "CAR.chassis", size, metres(metres))));
    }
}
