package dev.splicebook.hookup.rule;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Hookups;
import dev.splicebook.hookup.Report;
import dev.splicebook.hookup.Report.Result;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ControlPolarityMismatchTest {

    private static final String RULE = "control-polarity-mismatch";

    @Test
    void reportsAnInputThatListensForTwelveVoltsAndIsGivenGround() {
        Report report = check("12V", joins("W1", "CAR.C6-4", "DVR.in"));

        Finding finding = Hookups.findings(report, RULE).get(0);
        assertThat(finding.message()).isEqualTo("DVR.in listens for 12 V, and CAR.C6-4 (GN) gives it ground");
        assertThat(finding.help()).contains("relay").contains("gives 12 V");
        assertThat(finding.terminals()).containsExactlyInAnyOrder("DVR.in", "CAR.C6-4");
        assertThat(finding.connections()).containsExactly("W1");
    }

    @ParameterizedTest
    @CsvSource({
        "12V, CAR.C6-4, ground",
        "12V, CAR.chassis, ground",
        "ground, CAR.C1-8, 12 V",
        "ground, CAR.battery-plus, 12 V",
        "ground, CAR.C1-5, 12 V",
        "12V, CAR.C3-1, pulses",
        "ground, CAR.C3-2, PWM",
    })
    void reportsWhatSpeaksAnotherWay(String wants, String driver, String gives) {
        assertThat(Hookups.findings(check(wants, joins("W1", driver, "DVR.in")), RULE))
                .singleElement()
                .satisfies(finding -> assertThat(finding.message()).endsWith(" gives it " + gives));
    }

    @ParameterizedTest
    @CsvSource({
        "12V, CAR.C1-8",
        "12V, CAR.C1-5",
        "ground, CAR.C6-4",
        "ground, CAR.chassis",
        "pulse, CAR.C3-1",
        "pwm, CAR.C3-2"
    })
    void acceptsWhatSpeaksTheWayTheInputListens(String wants, String driver) {
        assertThat(result(check(wants, joins("W1", driver, "DVR.in")))).isEqualTo(Result.PASSED);
    }

    @Test
    void acceptsAnInputThatHearsOneOfTwoDrivers() {
        assertThat(result(check("ground", joins("W1", "CAR.C6-4", "DVR.in") + "," + joins("W2", "CAR.C1-5", "DVR.in"))))
                .isEqualTo(Result.PASSED);
    }

    @Test
    void countsTheDriversThatSpeakWronglyInGoodGrammar() {
        Report report = check("12V", joins("W1", "CAR.C6-4", "DVR.in") + "," + joins("W2", "CAR.C6-5", "DVR.in"));

        assertThat(Hookups.findings(report, RULE))
                .singleElement()
                .satisfies(finding -> assertThat(finding.message())
                        .isEqualTo("DVR.in listens for 12 V, and CAR.C6-5 (GN) and CAR.C6-4 (GN) give it ground"));
    }

    @Test
    void isSilentWhereNothingDrivesTheInputOrTheInputIsNotConnected() {
        assertThat(result(check("12V", joins("W1", "L.a", "DVR.in")))).isEqualTo(Result.NOT_APPLICABLE);
        assertThat(result(check("12V", joins("W1", "L.a", "CAR.C6-4")))).isEqualTo(Result.NOT_APPLICABLE);
    }

    @Test
    void judgesALeadThatIsConnectedThoughItIsListedAsUnused() {
        assertThat(result(check(
                        "12V",
                        joins("W1", "CAR.C6-4", "DVR.in"),
                        ", \"unused\": {\"DVR.in\": {\"as\": \"capped\", \"why\": \"no door wanted\"}}")))
                .isEqualTo(Result.FAILED);
    }

    @Test
    void cannotTellWithoutHowTheInputListens() {
        Report report = check("", joins("W1", "CAR.C6-4", "DVR.in"));

        assertThat(result(report)).isEqualTo(Result.NOT_CHECKED);
        assertThat(Hookups.outcome(report, RULE).missing()).containsExactly("DVR.in.active");
    }

    @Test
    void cannotTellWithoutHowTheDriverSpeaks() {
        Report report = check("12V", joins("W1", "CAR.C6-9", "DVR.in"));

        assertThat(result(report)).isEqualTo(Result.NOT_CHECKED);
        assertThat(Hookups.outcome(report, RULE).missing()).containsExactly("CAR.C6-9.active");
    }

    @Test
    void acceptsTheRelayThatTurnsGroundIntoTwelveVolts() {
        assertThat(result(check(
                        "12V",
                        String.join(
                                ",",
                                joins("W1", "CAR.C1-8", "K1.86"),
                                joins("W2", "CAR.C6-4", "K1.85"),
                                joins("W3", "CAR.C1-8", "K1.30"),
                                joins("W4", "K1.87", "DVR.in")))))
                .isEqualTo(Result.PASSED);
    }

    @Test
    void reportsGroundThatComesThroughARelayContact() {
        assertThat(Hookups.findings(
                        check(
                                "12V",
                                String.join(
                                        ",",
                                        joins("W1", "CAR.C1-8", "K1.86"),
                                        joins("W2", "CAR.chassis", "K1.85"),
                                        joins("W3", "CAR.chassis", "K1.30"),
                                        joins("W4", "K1.87", "DVR.in"))),
                        RULE))
                .hasSize(1);
    }

    @Test
    void reportsWhatComesThroughAnAdapterAPlugOrACut() {
        assertThat(Hookups.findings(
                        check("12V", joins("W1", "CAR.C6-4", "L.a") + "," + joins("W2", "L.b", "DVR.in")), RULE))
                .hasSize(1);
        assertThat(Hookups.findings(
                        Hookups.check(
                                document("12V", joins("W1", "P.a", "DVR.in"), ", \"plugs\": [[\"CAR.C6\", \"P.C6\"]]")),
                        RULE))
                .hasSize(1);
        assertThat(Hookups.findings(
                        Hookups.check(document("12V", joins("W1", "CAR.C6-4/harness", "DVR.in"), "")
                                .replace("}},\n \"parts\"", "}, \"cuts\": [\"C6-4\"]},\n \"parts\"")),
                        RULE))
                .hasSize(1);
    }

    @Test
    void goesByTheWayADiodePoints() {
        String passes = joins("W1", "CAR.C6-4", "D.c") + "," + joins("W2", "D.a", "DVR.in");
        String blocks = joins("W1", "CAR.C6-4", "D.a") + "," + joins("W2", "D.c", "DVR.in");

        assertThat(Hookups.findings(check("12V", passes), RULE)).hasSize(1);
        assertThat(Hookups.findings(check("12V", blocks), RULE)).isEmpty();
        assertThat(Hookups.findings(check("12V", blocks), "control-never-active"))
                .hasSize(1);
    }

    @Test
    void tellsTheCauseAloneAndNotThatTheInputIsNeverActive() {
        Report report = check("12V", joins("W1", "CAR.C6-4", "DVR.in"));

        assertThat(report.findings())
                .filteredOn(finding -> finding.terminals().contains("DVR.in"))
                .extracting(Finding::rule)
                .containsExactly(RULE);
    }

    @Test
    void leavesTheOverloadOfTheSupplyToBeToldToo() {
        Report report = check("ground", joins("W1", "CAR.C1-8", "DVR.in") + "," + joins("W2", "CAR.C1-8", "FAN.plus"));

        assertThat(report.findings()).extracting(Finding::rule).contains(RULE, "supply-overloaded");
    }

    @Test
    void proposesNoRelayAtAParkingBrakeInput() {
        Report report = Hookups.check(document("12V", joins("W1", "CAR.C6-8", "DVR.in"), "")
                .replace("\"in\": {", "\"in\": {\"function\": \"control.parking-brake\","));

        assertThat(Hookups.findings(report, RULE))
                .singleElement()
                .satisfies(finding -> assertThat(finding.help()).doesNotContain("relay"));
        assertThat(Hookups.findings(report, "interlock-defeated")).isEmpty();
    }

    private static Result result(Report report) {
        return Hookups.outcome(report, RULE).result();
    }

    private static Report check(String wants, String connections) {
        return check(wants, connections, "");
    }

    private static Report check(String wants, String connections, String more) {
        return Hookups.check(document(wants, connections, more));
    }

    private static String document(String wants, String connections, String more) {
        String active = wants.isEmpty() ? "" : "\"active\": \"" + wants + "\",";
        return """
                {"vehicle": {"inline": {"circuits": {
                   "C1-5": {"electrical": {"kind": "control-out", "active": "12V", "live": ["running"], "maxAmps": 0.3}},
                   "C1-8": {"electrical": {"kind": "supply", "live": ["accessory", "running"], "maxAmps": 5, "fuseAmps": 5}},
                   "C3-1": {"electrical": {"kind": "control-out", "active": "pulse", "live": ["running"], "maxAmps": 0.1}},
                   "C3-2": {"electrical": {"kind": "control-out", "active": "pwm", "live": ["running"], "maxAmps": 0.1}},
                   "C6-5": {"colour": "GN", "electrical": {"kind": "control-out", "active": "ground", "live": ["running"], "maxAmps": 0.5}},
                   "C6-8": {"function": "control.parking-brake", "electrical":
                     {"kind": "control-out", "active": "ground", "live": ["running"], "when": "parking-brake", "maxAmps": 0.5}},
                   "C6-9": {"electrical": {"kind": "control-out", "live": ["running"], "maxAmps": 0.5}},
                   "C6-4": {"colour": "GN", "electrical":
                     {"kind": "control-out", "active": "ground", "live": ["running"], "when": "door-open", "maxAmps": 0.5}}}}},
                 "parts": {
                   "DVR": {"inline": {"terminals": {"in": {"electrical": {"kind": "control-in", %s "amps": 0.01}}}}},
                   "FAN": {"inline": {"terminals": {"plus": {"electrical": {"kind": "load", "maxAmps": 9}}}}},
                   "L": {"inline": {"conducts": [["a", "b"]]}},
                   "P": {"inline": {"conducts": [["C6-4", "a"]]}},
                   "D": {"inline": {"diodes": [{"anode": "a", "cathode": "c"}]}},
                   "K1": {"inline": {"relays": [{"coil": ["85", "86"], "coilOhms": 90, "common": "30", "open": "87"}]}}},
                 "connections": {%s}%s}
                """.formatted(active, connections, more);
    }

    private static String joins(String ref, String one, String other) {
        return "\"%s\": {\"ends\": [\"%s\", \"%s\"]}".formatted(ref, one, other);
    }
}
