package dev.splicebook.hookup.rule;

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
import java.util.List;
import org.junit.jupiter.api.Test;

// within 18 inches (45.72 cm) of the battery: common practice in vehicles, no source. 33 CFR 183.455 has 7 inches, and
// 40
// inches in a sheath
class FuseTooFarTest {

    private static final String RULE = "fuse-too-far";
    private static final String RETURN = members("W9", wire("CAR.chassis", "AMP.minus", "4 AWG", ""));
    private static final String AMP = members("AMP", device(load("constant", 20, 50)));
    private static final String BATTERY = members(
            "BAT",
            inside("'terminals': {'plus': " + circuit("{'kind': 'supply', " + ALWAYS + "}") + ", 'minus': "
                    + Bench.GROUND + "}"));

    @Test
    void reportsAFuseUnderTheRearSeat() {
        Report report = run("4 m", "3.5 m");

        Finding finding = only(report, RULE);
        assertThat(finding.message())
                .isEqualTo(
                        "the first fuse behind CAR.battery-plus is in connection W1, 3.5 m of conductor from it, further"
                                + " than the 45.7 cm that it may be");
        assertThat(finding.severity()).isEqualTo(Severity.ERROR);
        assertThat(finding.connections()).containsExactly("W1");
        assertFigures(finding, 3.5, 0.4572, "m");
    }

    @Test
    void acceptsAFuseAtTheBattery() {
        assertPassed(run("4 m", "20 cm"), RULE);
    }

    @Test
    void acceptsExactlyEighteenInches() {
        assertPassed(run("4 m", "18 in"), RULE);
        only(run("4 m", "18.1 in"), RULE);
    }

    @Test
    void doesNotApplyToACircuitThatIsFusedUpstream() {
        assertNotApplicable(
                check(
                        members("C1-7", CONSTANT),
                        AMP,
                        members("W1", wire("CAR.C1-7", "AMP.plus", "16 AWG", fuse(5, "1 m"))) + ", " + RETURN),
                RULE);
    }

    @Test
    void isNotCheckedWhereNobodySaysWhereTheFuseIs() {
        assertNotChecked(run("4 m", ""), RULE, "connection W1.fromSource");
        assertNotChecked(run("", ""), RULE, "connection W1.fromSource");
        assertPassed(run("40 cm", ""), RULE);
    }

    @Test
    void measuresToAFuseInAPart() {
        Finding finding = only(holder(", " + length("1 m")), RULE);
        assertThat(finding.message())
                .isEqualTo(
                        "the first fuse behind CAR.battery-plus is in F, 1.0 m of conductor from it, further than the"
                                + " 45.7 cm that it may be");
        assertThat(finding.connections()).containsExactly("W1");
        assertPassed(holder(", " + length("30 cm")), RULE);
        assertNotChecked(holder(""), RULE, "connection W1.length");
    }

    @Test
    void tellsOneBlockOnce() {
        String block = inside("'fuses': [{'between': ['in', 'a'], 'ratingAmps': 60},"
                + " {'between': ['in', 'b'], 'ratingAmps': 20}]");
        only(
                check(
                        "",
                        AMP + ", " + members("F", block),
                        members(
                                        "W1", wire("CAR.battery-plus", "F.in", "4 AWG", ", " + length("2 m")),
                                        "W2", wire("F.a", "AMP.plus", "8 AWG", ""))
                                + ", " + RETURN),
                RULE);
    }

    @Test
    void measuresTheFuseOfAThinnerConductorFromWhereItBegins() {
        Finding finding = only(reduced("3.5 m"), RULE);
        assertThat(finding.message())
                .isEqualTo(
                        "connection W2 (BLK.b to AMP.plus) gets thinner, and its fuse sits 3.5 m from there, further than"
                                + " the 45.7 cm that it may be: what stands before it lets 80 A pass, above the 20.0 A that it takes");
        assertFigures(finding, 3.5, 0.4572, "m");
        assertPassed(reduced("20 cm"), RULE);
        assertNotChecked(reduced(""), RULE, "connection W2.fromSource");
    }

    /** A block behind 80 A, from which 4 m of 18 AWG with a fuse of their own go on. */
    private static Report reduced(String fuseAt) {
        return check(
                "",
                AMP + ", " + members("BLK", inside("'conducts': [['a', 'b']]")),
                members(
                                "W1",
                                        wire(
                                                "CAR.battery-plus",
                                                "BLK.a",
                                                "4 AWG",
                                                ", " + length("1 m") + fuse(80, "20 cm")),
                                "W2", wire("BLK.b", "AMP.plus", "18 AWG", ", " + length("4 m") + fuse(5, fuseAt)))
                        + ", " + RETURN);
    }

    @Test
    void keepsAFuseBetweenTwoBatteriesAtTheNearerOneWhateverElseIsFused() {
        for (String first : List.of("", fuse(60, "20 cm"))) {
            Report report = check(
                    "",
                    AMP + ", " + BATTERY + ", " + members("BLK", inside("'conducts': [['a', 'b']]")),
                    members(
                                    "W1", wire("CAR.battery-plus", "BLK.a", "4 AWG", ", " + length("3 m") + first),
                                    "W2", wire("BLK.b", "BAT.plus", "4 AWG", ", " + length("4 m") + fuse(60, "10 cm")),
                                    "W3", wire("BAT.minus", "CAR.chassis", "4 AWG", ""))
                            + ", " + RETURN);
            assertThat(Hookups.findings(report, RULE)).as(first).hasSize(first.isEmpty() ? 1 : 0);
            assertThat(Hookups.findings(report, RULE))
                    .allSatisfy(finding -> assertThat(finding.message()).contains("behind CAR.battery-plus"));
        }
    }

    @Test
    void countsASecondBatteryAsASource() {
        // 20 cm from the first battery, 2.8 m from the second
        Finding finding = only(between(length("3 m"), fuse(100, "20 cm")), RULE);
        assertThat(finding.message())
                .startsWith("the first fuse behind BAT.plus is in connection W1, 2.8 m of conductor from it");
        assertPassed(between(length("60 cm"), fuse(100, "20 cm")), RULE);
        assertSilent(between(length("3 m"), fuse(100, "20 cm")), "fuse-missing");
    }

    @Test
    void knowsThatOneFuseCannotBeNearBothEndsOfALongRun() {
        Report report = between(length("3 m"), fuse(100, ""));
        assertThat(only(report, RULE).message())
                .isEqualTo(
                        "connection W1 lies between BAT.plus and CAR.battery-plus, and its one fuse sits 1.5 m or more"
                                + " from one of them, further than the 45.7 cm that a fuse may be from its source");
        assertNotChecked(between(length("80 cm"), fuse(100, "")), RULE, "connection W1.fromSource");
    }

    @Test
    void leavesAConductorWithoutAnyFuseToItsOwnRule() {
        Report report = check(
                "",
                AMP,
                members("W1", wire("CAR.battery-plus", "AMP.plus", "4 AWG", ", " + length("4 m"))) + ", " + RETURN);
        assertSilent(report, RULE);
        assertThat(Hookups.findings(report, "fuse-missing")).hasSize(1);
    }

    private static String length(String length) {
        int gap = length.indexOf(' ');
        return "'length': {'value': " + length.substring(0, gap) + ", 'unit': '" + length.substring(gap + 1) + "'}";
    }

    private static String fuse(int amps, String from) {
        return ", 'fuse': {'ratingAmps': " + amps
                + (from.isEmpty() ? "" : ", " + length(from).replace("length", "fromSource")) + "}";
    }

    private static Report run(String length, String from) {
        return check(
                "",
                AMP,
                members(
                                "W1",
                                wire(
                                        "CAR.battery-plus",
                                        "AMP.plus",
                                        "4 AWG",
                                        (length.isEmpty() ? "" : ", " + length(length)) + fuse(60, from)))
                        + ", " + RETURN);
    }

    private static Report holder(String length) {
        return check(
                "",
                AMP + ", " + members("F", inside("'fuses': [{'between': ['in', 'out'], 'ratingAmps': 60}]")),
                members(
                                "W1", wire("CAR.battery-plus", "F.in", "4 AWG", length),
                                "W2", wire("F.out", "AMP.plus", "4 AWG", ""))
                        + ", " + RETURN);
    }

    /** A second battery at the end of a run from the first. */
    private static Report between(String length, String fuse) {
        return check(
                "",
                BATTERY,
                members(
                        "W1", wire("CAR.battery-plus", "BAT.plus", "4 AWG", ", " + length + fuse),
                        "W2", wire("CAR.chassis", "BAT.minus", "4 AWG", "")));
    }
}
