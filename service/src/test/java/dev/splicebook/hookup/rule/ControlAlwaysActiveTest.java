package dev.splicebook.hookup.rule;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Hookups;
import dev.splicebook.hookup.Report;
import dev.splicebook.hookup.Report.Result;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.State;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ControlAlwaysActiveTest {

    private static final String RULE = "control-always-active";

    @Test
    void reportsATurnOnThatTheBatteryFeeds() {
        Report report = check("12V", joins("W1", "CAR.C1-7", "AMP.on"));

        Finding finding = Hookups.findings(report, RULE).get(0);
        assertThat(finding.message())
                .isEqualTo("AMP.on is active in every state, asleep too: CAR.C1-7 (YE) never goes away");
        assertThat(finding.terminals()).containsExactlyInAnyOrder("AMP.on", "CAR.C1-7");
        assertThat(finding.connections()).containsExactly("W1");
        assertThat(finding.states()).containsExactly(State.values());
    }

    @Test
    void reportsAnInputForGroundThatIsTiedToGround() {
        assertThat(Hookups.findings(check("ground", joins("W1", "CAR.chassis", "AMP.on")), RULE))
                .singleElement()
                .satisfies(finding -> assertThat(finding.message())
                        .isEqualTo("AMP.on is active in every state, asleep too: CAR.chassis never goes away"));
    }

    @Test
    void acceptsATurnOnThatASwitchedCircuitFeeds() {
        assertThat(result(check("12V", joins("W1", "CAR.C1-8", "AMP.on")))).isEqualTo(Result.PASSED);
    }

    @Test
    void acceptsACircuitThatIsDeadInASingleState() {
        assertThat(result(check("12V", joins("W1", "CAR.C1-6", "AMP.on")))).isEqualTo(Result.PASSED);
        assertThat(result(check("12V", joins("W1", "CAR.C1-5", "AMP.on")))).isEqualTo(Result.PASSED);
    }

    @Test
    void reportsTheTurnOnOfAnAmplifierThatIsActiveByNightAndNotByDay() {
        Report report = Hookups.check(document("12V", relayed("CAR.C1-8", "K1.87a"))
                .replace("\"on\": {", "\"on\": {\"function\": \"control.amplifier-on\", "));

        assertThat(Hookups.findings(report, RULE)).singleElement().satisfies(finding -> {
            assertThat(finding.message())
                    .isEqualTo(
                            "AMP.on is active while the vehicle is asleep, all night: CAR.C1-7 (YE) is live then, through"
                                    + " the contact of K1 that is closed while the relay rests");
            assertThat(finding.states()).contains(State.ASLEEP).doesNotContain(State.ACCESSORY, State.RUNNING);
        });
        // of an input that may be for anything it is no fault
        assertThat(result(check("12V", relayed("CAR.C1-8", "K1.87a")))).isEqualTo(Result.PASSED);
    }

    @ParameterizedTest
    @CsvSource({"control.reverse, ERROR", "control.amplifier-on, WARNING"})
    void isGraverWhereTheBatteryIsTakenForSomethingElse(String input, Severity severity) {
        Report report = Hookups.check(document("12V", joins("W1", "CAR.C1-7", "AMP.on"))
                .replace("\"on\": {", "\"on\": {\"function\": \"" + input + "\", ")
                .replace("\"C1-7\": {", "\"C1-7\": {\"function\": \"power.battery\", "));

        assertThat(Hookups.findings(report, RULE))
                .singleElement()
                .satisfies(finding -> assertThat(finding.severity()).isEqualTo(severity));
    }

    @Test
    void acceptsACircuitThatWaitsForACondition() {
        assertThat(result(check("12V", joins("W1", "CAR.C5-9", "AMP.on")))).isEqualTo(Result.PASSED);
    }

    @Test
    void isSilentAboutAnInputThatIsNotConnected() {
        assertThat(result(check("12V", joins("W1", "CAR.C1-7", "L.a")))).isEqualTo(Result.NOT_APPLICABLE);
    }

    @ParameterizedTest
    @CsvSource({"pulse, CAR.C3-1", "resistance, CAR.C3-2"})
    void isSilentAboutInputsThatTellPulsesOrResistancesApart(String wants, String driver) {
        assertThat(result(check(wants, joins("W1", driver, "AMP.on")))).isEqualTo(Result.NOT_APPLICABLE);
    }

    @ParameterizedTest
    @CsvSource({
        "12V, CAR.C1-9, CAR.C1-9.live",
        "12V, CAR.C1-3, CAR.C1-3.active",
        "'', CAR.C1-7, AMP.on.active",
    })
    void cannotTellWithoutAFact(String wants, String driver, String missing) {
        Report report = check(wants, joins("W1", driver, "AMP.on"));

        assertThat(result(report)).isEqualTo(Result.NOT_CHECKED);
        assertThat(Hookups.outcome(report, RULE).missing()).containsExactly(missing);
    }

    @Test
    void asksOnlyForTheFactThatIsMissing() {
        Report report = check("12V", diodes("CAR.C1-9", "CAR.C1-8"));

        assertThat(result(report)).isEqualTo(Result.NOT_CHECKED);
        assertThat(Hookups.outcome(report, RULE).missing()).containsExactly("CAR.C1-9.live");
    }

    @Test
    void reportsTwoCircuitsThatTogetherLeaveNoStateOut() {
        assertThat(Hookups.findings(check("12V", diodes("CAR.C1-6", "CAR.C1-5")), RULE))
                .singleElement()
                .satisfies(finding -> assertThat(finding.message())
                        .matches("AMP.on is active in every state, asleep too:"
                                + " one of CAR.C1-[56] and CAR.C1-[56] is always live"));
    }

    @Test
    void followsTheOutputOfAPartThatTheBatteryFeeds() {
        String fed = joins("W1", "CAR.C1-7", "HU.acc") + "," + joins("W2", "CAR.chassis", "HU.ground") + ","
                + joins("W3", "HU.remote", "AMP.on");

        assertThat(Hookups.findings(check("12V", fed), RULE)).hasSize(1);
        assertThat(Hookups.findings(check("12V", fed.replace("C1-7", "C1-8")), RULE))
                .isEmpty();
    }

    @Test
    void followsRelaysThatPullAndRelaysThatRest() {
        assertThat(Hookups.findings(check("12V", relayed("CAR.C1-7", "K1.87")), RULE))
                .hasSize(1);
        assertThat(Hookups.findings(check("12V", relayed("CAR.C1-8", "K1.87")), RULE))
                .isEmpty();
        assertThat(Hookups.findings(check("12V", relayed("L.a", "K1.87a")), RULE))
                .hasSize(1);
    }

    @Test
    void cannotTellWhetherARelayRestsWhoseCoilIsOnAnUnknownCircuit() {
        Report report = check("12V", relayed("CAR.C1-9", "K1.87a"));

        assertThat(result(report)).isEqualTo(Result.NOT_CHECKED);
        assertThat(Hookups.outcome(report, RULE).missing()).containsExactly("CAR.C1-9.live");
    }

    @Test
    void reportsWhatComesThroughAnAdapterAndADiodeTheRightWay() {
        assertThat(Hookups.findings(
                        check(
                                "12V",
                                String.join(
                                        ",",
                                        joins("W1", "CAR.C1-7", "L.a"),
                                        joins("W2", "L.b", "D.a"),
                                        joins("W3", "D.c", "AMP.on"))),
                        RULE))
                .hasSize(1);
        assertThat(Hookups.findings(
                        check("12V", joins("W1", "CAR.C1-7", "D.c") + "," + joins("W2", "D.a", "AMP.on")), RULE))
                .isEmpty();
    }

    @Test
    void leavesAParkingBrakeInputOnGroundToTheInterlock() {
        Report report = Hookups.check(document("ground", joins("W1", "CAR.chassis", "AMP.on"))
                .replace("\"on\": {", "\"on\": {\"function\": \"control.parking-brake\","));

        assertThat(Hookups.findings(report, RULE)).isEmpty();
        assertThat(Hookups.findings(report, "interlock-defeated")).hasSize(1);
    }

    private static Result result(Report report) {
        return Hookups.outcome(report, RULE).result();
    }

    private static Report check(String wants, String connections) {
        return Hookups.check(document(wants, connections));
    }

    private static String diodes(String one, String other) {
        return String.join(
                ",",
                joins("W1", one, "D.a"),
                joins("W2", "D.c", "AMP.on"),
                joins("W3", other, "D2.a"),
                joins("W4", "D2.c", "AMP.on"));
    }

    private static String relayed(String coil, String contact) {
        return String.join(
                ",",
                joins("W1", coil, "K1.86"),
                joins("W2", "CAR.chassis", "K1.85"),
                joins("W3", "CAR.C1-7", "K1.30"),
                joins("W4", contact, "AMP.on"));
    }

    private static String document(String wants, String connections) {
        String active = wants.isEmpty() ? "" : "\"active\": \"" + wants + "\",";
        return """
                {"vehicle": {"inline": {"circuits": {
                   "C1-3": {"electrical": {"kind": "control-out", "maxAmps": 0.3,
                     "live": ["asleep", "accessory", "ignition", "cranking", "running", "restarting"]}},
                   "C1-5": {"electrical": {"kind": "supply", "maxAmps": 10, "fuseAmps": 10, "live": ["cranking"]}},
                   "C1-6": {"electrical": {"kind": "supply", "maxAmps": 10, "fuseAmps": 10,
                     "live": ["asleep", "accessory", "ignition", "running", "restarting"]}},
                   "C1-7": {"colour": "YE", "electrical": {"kind": "supply", "maxAmps": 10, "fuseAmps": 10,
                     "live": ["asleep", "accessory", "ignition", "cranking", "running", "restarting"]}},
                   "C1-8": {"electrical": {"kind": "supply", "live": ["accessory", "running"], "maxAmps": 5, "fuseAmps": 5}},
                   "C1-9": {"electrical": {"kind": "supply", "maxAmps": 5, "fuseAmps": 5}},
                   "C3-1": {"electrical": {"kind": "control-out", "active": "pulse", "maxAmps": 0.1,
                     "live": ["asleep", "accessory", "ignition", "cranking", "running", "restarting"]}},
                   "C3-2": {"electrical": {"kind": "control-out", "active": "resistance", "maxAmps": 0.1,
                     "live": ["asleep", "accessory", "ignition", "cranking", "running", "restarting"]}},
                   "C5-9": {"electrical": {"kind": "supply", "when": "lamps", "maxAmps": 5, "fuseAmps": 5,
                     "live": ["asleep", "accessory", "ignition", "cranking", "running", "restarting"]}}}}},
                 "parts": {
                   "AMP": {"inline": {"terminals": {"on": {"electrical": {"kind": "control-in", %s "amps": 0.01}}}}},
                   "HU": {"inline": {"terminals": {
                     "acc": {"electrical": {"kind": "load", "maxAmps": 5}}, "ground": {"electrical": {"kind": "ground"}},
                     "remote": {"electrical": {"kind": "control-out", "active": "12V", "maxAmps": 0.3}}}}},
                   "L": {"inline": {"conducts": [["a", "b"]]}},
                   "D": {"inline": {"diodes": [{"anode": "a", "cathode": "c"}]}},
                   "D2": {"inline": {"diodes": [{"anode": "a", "cathode": "c"}]}},
                   "K1": {"inline": {"relays": [
                     {"coil": ["85", "86"], "coilOhms": 90, "common": "30", "open": "87", "closed": "87a"}]}}},
                 "connections": {%s}}
                """.formatted(active, connections);
    }

    private static String joins(String ref, String one, String other) {
        return "\"%s\": {\"ends\": [\"%s\", \"%s\"]}".formatted(ref, one, other);
    }
}
