package dev.splicebook.hookup.rule;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Hookups;
import dev.splicebook.hookup.Report;
import dev.splicebook.hookup.Report.Result;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class InterlockDefeatedTest {

    private static final String RULE = "interlock-defeated";

    @Test
    void reportsAParkingBrakeInputTiedToGround() {
        Report report = check(joins("W1", "CAR.chassis", "HU.brake"));

        Finding finding = Hookups.findings(report, RULE).get(0);
        assertThat(finding.message())
                .isEqualTo(
                        "HU.brake (GN) is the parking-brake input and is tied to CAR.chassis, which defeats the interlock");
        assertThat(finding.help())
                .isEqualTo("connect HU.brake to the vehicle's parking-brake circuit and to nothing else.");
        assertThat(finding.terminals()).containsExactlyInAnyOrder("HU.brake", "CAR.chassis");
        assertThat(finding.connections()).containsExactly("W1");
        assertThat(report.verdict()).isEqualTo(Report.Verdict.NOT_READY);
    }

    @ParameterizedTest
    @ValueSource(strings = {"CAR.battery-minus", "CAR.C6-1", "CAR.C6-2", "CAR.C1-8", "BYPASS.out"})
    void reportsWhateverElseFeedsIt(String feed) {
        assertThat(Hookups.findings(check(joins("W1", feed, "HU.brake")), RULE))
                .singleElement()
                .satisfies(finding -> assertThat(finding.terminals()).contains(feed, "HU.brake"));
    }

    @Test
    void acceptsTheParkingBrakeCircuit() {
        Report report = check(joins("W1", "CAR.C6-4", "HU.brake"));

        assertThat(result(report)).isEqualTo(Result.PASSED);
    }

    @Test
    void acceptsTheParkingBrakeCircuitOfWhichNothingElectricalIsKnown() {
        assertThat(result(check(joins("W1", "CAR.C6-5", "HU.brake")))).isEqualTo(Result.PASSED);
    }

    @Test
    void reportsASecondFeedBesideTheParkingBrakeCircuit() {
        Report report = check(joins("W1", "CAR.C6-4", "HU.brake") + "," + joins("W2", "CAR.C6-1", "HU.brake"));

        assertThat(Hookups.findings(report, RULE)).singleElement().satisfies(finding -> {
            assertThat(finding.message()).contains("fed by CAR.C6-1,");
            assertThat(finding.terminals()).containsExactlyInAnyOrder("HU.brake", "CAR.C6-1");
        });
    }

    @Test
    void isSilentWhereTheInputIsNotConnectedOrIsAnOutput() {
        assertThat(result(check(joins("W1", "CAR.chassis", "L.a")))).isEqualTo(Result.NOT_APPLICABLE);
        assertThat(result(check(joins("W1", "CAR.chassis", "HU.other")))).isEqualTo(Result.NOT_APPLICABLE);
        assertThat(result(Hookups.check(document(joins("W1", "CAR.C6-5", "HU.brake"))
                        .replace(
                                "\"kind\": \"control-in\", \"active\": \"ground\", \"amps\": 0.005",
                                "\"kind\": \"control-out\", \"active\": \"ground\", \"maxAmps\": 0.005"))))
                .isEqualTo(Result.NOT_APPLICABLE);
    }

    @ParameterizedTest
    @CsvSource({"CAR.C9-1", "CAR.C9-2"})
    void cannotTellWithoutTheFunctionOfACircuitThatMayBeTheParkingBrakes(String circuit) {
        Report report = check(joins("W1", circuit, "HU.brake"));

        assertThat(result(report)).isEqualTo(Result.NOT_CHECKED);
        assertThat(Hookups.outcome(report, RULE).missing()).containsExactly(circuit + ".function");
    }

    @Test
    void reportsACircuitForSomethingElseOfWhichNothingElectricalIsKnown() {
        assertThat(Hookups.findings(check(joins("W1", "CAR.C9-3", "HU.brake")), RULE))
                .hasSize(1);
    }

    @Test
    void reportsAnInputOfWhichOnlyTheFunctionIsKnown() {
        assertThat(Hookups.findings(
                        Hookups.check(document(joins("W1", "CAR.chassis", "HU.brake"))
                                .replace(
                                        ", \"electrical\": {\"kind\": \"control-in\", \"active\": \"ground\", \"amps\": 0.005}",
                                        "")),
                        RULE))
                .hasSize(1);
    }

    @Test
    void reportsGroundThroughARelayThatAnotherCircuitPulls() {
        assertThat(Hookups.findings(
                        check(String.join(
                                ",",
                                joins("W1", "CAR.C1-8", "K1.86"),
                                joins("W2", "CAR.chassis", "K1.85"),
                                joins("W3", "CAR.chassis", "K1.30"),
                                joins("W4", "K1.87", "HU.brake"))),
                        RULE))
                .hasSize(1);
    }

    @Test
    void reportsARelayThatHoldsItselfOnceTheParkingBrakeHasBeenPulled() {
        assertThat(Hookups.findings(
                        check(String.join(
                                ",",
                                joins("W1", "CAR.C1-8", "K1.86"),
                                joins("W2", "CAR.C6-4", "K1.85"),
                                joins("W3", "CAR.chassis", "K1.30"),
                                joins("W4", "K1.87", "K1.85"),
                                joins("W5", "K1.85", "HU.brake"))),
                        RULE))
                .hasSize(1);
    }

    @Test
    void acceptsGroundThroughARelayThatTheParkingBrakeCircuitAlonePulls() {
        String relay = String.join(
                ",",
                joins("W1", "CAR.C1-8", "K1.86"),
                joins("W2", "CAR.C6-4", "K1.85"),
                joins("W3", "CAR.chassis", "K1.30"),
                joins("W4", "K1.87", "HU.brake"));
        assertThat(result(check(relay))).isEqualTo(Result.PASSED);
        // the released contact brings ground while the brake is off
        assertThat(Hookups.findings(check(relay.replace("K1.87", "K1.87a")), RULE))
                .hasSize(1);
        // a second way to pull the coil
        assertThat(Hookups.findings(check(relay + "," + joins("W5", "CAR.C6-1", "K1.85")), RULE))
                .hasSize(1);
        // a second way past the contact
        assertThat(Hookups.findings(
                        check(relay + "," + joins("W5", "CAR.chassis", "R.a") + "," + joins("W6", "R.b", "HU.brake")),
                        RULE))
                .hasSize(1);
    }

    @Test
    void cannotTellWhetherARelayBringsGroundWhoseCoilIsOnAnUnknownCircuit() {
        Report report = check(String.join(
                ",",
                joins("W0", "CAR.C6-4", "HU.brake"),
                joins("W1", "CAR.C1-9", "K1.86"),
                joins("W2", "CAR.chassis", "K1.85"),
                joins("W3", "CAR.chassis", "K1.30"),
                joins("W4", "K1.87", "HU.brake")));

        assertThat(result(report)).isEqualTo(Result.NOT_CHECKED);
        assertThat(Hookups.outcome(report, RULE).missing()).containsExactly("CAR.C1-9.live");
    }

    @Test
    void acceptsTheParkingBrakeCircuitThroughAnAdapterARelayAndADiode() {
        assertThat(result(check(String.join(
                        ",",
                        joins("W1", "CAR.C6-4", "L.a"),
                        joins("W2", "L.b", "K1.30"),
                        joins("W3", "CAR.C1-8", "K1.86"),
                        joins("W4", "CAR.chassis", "K1.85"),
                        joins("W5", "K1.87", "D.c"),
                        joins("W6", "D.a", "HU.brake")))))
                .isEqualTo(Result.PASSED);
    }

    @Test
    void goesByTheWayADiodePoints() {
        assertThat(Hookups.findings(
                        check(joins("W1", "CAR.chassis", "D.c") + "," + joins("W2", "D.a", "HU.brake")), RULE))
                .hasSize(1);
        assertThat(Hookups.findings(
                        check(joins("W1", "CAR.chassis", "D.a") + "," + joins("W2", "D.c", "HU.brake")), RULE))
                .isEmpty();
    }

    @Test
    void reportsGroundThroughAResistorAndInsideAnAdapter() {
        assertThat(Hookups.findings(
                        check(joins("W1", "CAR.chassis", "R.a") + "," + joins("W2", "R.b", "HU.brake")), RULE))
                .hasSize(1);
        assertThat(Hookups.findings(
                        check(joins("W0", "CAR.C6-4", "HU.brake") + "," + joins("W1", "CAR.chassis", "L.a") + ","
                                + joins("W2", "L.b", "HU.brake")),
                        RULE))
                .hasSize(1);
    }

    @Test
    void tellsTheCauseAlone() {
        assertThat(check(joins("W1", "CAR.chassis", "HU.brake")).findings())
                .filteredOn(finding -> finding.terminals().contains("HU.brake"))
                .extracting(Finding::rule)
                .containsExactly(RULE);
    }

    @Test
    void leavesWhatElseIsWrongWithTheFeedToItsOwnRule() {
        Report report = check(joins("W1", "CAR.C1-8", "HU.brake") + "," + joins("W2", "CAR.C1-8", "FAN.plus"));

        assertThat(report.findings()).extracting(Finding::rule).contains(RULE, "supply-overloaded");
    }

    @Test
    void neverProposesToGoRoundTheInterlock() {
        for (String feed : new String[] {"CAR.chassis", "CAR.C6-1", "CAR.C1-8", "CAR.C6-4", "L.a"}) {
            assertThat(check(joins("W1", feed, "HU.brake")).findings())
                    .filteredOn(finding -> finding.terminals().contains("HU.brake"))
                    .allSatisfy(finding -> assertThat(finding.help())
                            .doesNotContainPattern("(?i)bypass|relay|to (a )?ground|chassis"));
        }
    }

    private static Result result(Report report) {
        return Hookups.outcome(report, RULE).result();
    }

    private static Report check(String connections) {
        return Hookups.check(document(connections));
    }

    private static String document(String connections) {
        return """
                {"vehicle": {"inline": {"circuits": {
                   "C1-8": {"electrical": {"kind": "supply", "live": ["accessory", "running"], "maxAmps": 5, "fuseAmps": 5}},
                   "C1-9": {"electrical": {"kind": "supply", "maxAmps": 5, "fuseAmps": 5}},
                   "C6-1": {"function": "control.door", "electrical":
                     {"kind": "control-out", "active": "ground", "live": ["running"], "when": "door-open", "maxAmps": 0.5}},
                   "C6-2": {"function": "control.brake", "electrical":
                     {"kind": "supply", "live": ["running"], "when": "brake", "maxAmps": 5, "fuseAmps": 5}},
                   "C6-4": {"function": "control.parking-brake", "electrical":
                     {"kind": "control-out", "active": "ground", "live": ["ignition", "running"], "when": "parking-brake", "maxAmps": 0.5}},
                   "C6-5": {"function": "control.parking-brake"},
                   "C9-1": {},
                   "C9-2": {"electrical":
                     {"kind": "control-out", "active": "ground", "live": ["running"], "when": "parking-brake", "maxAmps": 0.5}},
                   "C9-3": {"function": "control.brake"}}}},
                 "parts": {
                   "HU": {"inline": {"terminals": {
                     "brake": {"function": "control.parking-brake", "colour": "GN", "electrical": {"kind": "control-in", "active": "ground", "amps": 0.005}},
                     "other": {"function": "control.mute", "electrical": {"kind": "control-in", "active": "ground", "amps": 0.005}}}}},
                   "BYPASS": {"inline": {"terminals": {"out": {"function": "control.parking-brake",
                     "electrical": {"kind": "control-out", "active": "ground", "maxAmps": 0.5, "live": ["running"]}}}}},
                   "FAN": {"inline": {"terminals": {"plus": {"electrical": {"kind": "load", "maxAmps": 9}}}}},
                   "L": {"inline": {"conducts": [["a", "b"]]}},
                   "D": {"inline": {"diodes": [{"anode": "a", "cathode": "c"}]}},
                   "R": {"inline": {"resistors": [{"between": ["a", "b"], "ohms": 1000}]}},
                   "K1": {"inline": {"relays": [{"coil": ["85", "86"], "coilOhms": 90, "common": "30", "open": "87", "closed": "87a"}]}}},
                 "connections": {%s}}
                """.formatted(connections);
    }

    private static String joins(String ref, String one, String other) {
        return "\"%s\": {\"ends\": [\"%s\", \"%s\"]}".formatted(ref, one, other);
    }
}
