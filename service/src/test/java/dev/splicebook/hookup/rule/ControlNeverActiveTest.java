package dev.splicebook.hookup.rule;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Hookups;
import dev.splicebook.hookup.Report;
import dev.splicebook.hookup.Report.Result;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.Wiring;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ControlNeverActiveTest {

    private static final String RULE = "control-never-active";

    @Test
    void reportsAnInputThatNothingDrives() {
        Report report = check("12V", joins("W1", "L.a", "AMP.on"));

        Finding finding = Hookups.findings(report, RULE).get(0);
        assertThat(finding.message()).isEqualTo("AMP.on is driven by nothing");
        assertThat(finding.help()).isEqualTo("connect AMP.on to something that gives 12 V when it is wanted.");
        assertThat(finding.terminals()).containsExactly("AMP.on");
        assertThat(finding.connections()).containsExactly("W1");
    }

    @Test
    void warnsOfAnAmplifierInUseWhoseTurnOnIsCapped() {
        Wiring used = capped().join("CAR.battery-plus AMP.plus", "AMP.out-plus SUB.plus", "AMP.out-minus SUB.minus");

        assertThat(Hookups.findings(used.check(), RULE)).singleElement().satisfies(finding -> {
            assertThat(finding.severity()).isEqualTo(Severity.WARNING);
            assertThat(finding.message())
                    .isEqualTo("AMP.on is listed as unused, so that nothing turns AMP on, unless it turns itself on by"
                            + " the sound that arrives");
        });
        assertThat(Hookups.findings(capped().join("CAR.battery-plus AMP.plus").check(), RULE))
                .isEmpty();
    }

    private static Wiring capped() {
        return new Wiring()
                .lead("AMP", "plus", Wiring.facts("\"kind\": \"load\", \"needs\": \"constant\", \"maxAmps\": 5"))
                .lead("AMP", "out-plus", Wiring.facts(Wiring.floating("subwoofer", "plus")))
                .lead("AMP", "out-minus", Wiring.facts(Wiring.floating("subwoofer", "minus")))
                .lead("SUB", "plus", Wiring.facts(Wiring.loudspeaker("subwoofer", "plus")))
                .lead("SUB", "minus", Wiring.facts(Wiring.loudspeaker("subwoofer", "minus")))
                .lead(
                        "AMP",
                        "on",
                        Wiring.facts("control.amplifier-on", "\"kind\": \"control-in\", \"active\": \"12V\""))
                .unused("AMP.on", "capped");
    }

    @Test
    void reportsAnInputOnACircuitThatIsNeverLive() {
        assertThat(Hookups.findings(check("12V", joins("W1", "CAR.C1-0", "AMP.on")), RULE))
                .singleElement()
                .satisfies(finding -> {
                    assertThat(finding.message()).isEqualTo("AMP.on is active in no state: CAR.C1-0 is never live");
                    assertThat(finding.terminals()).containsExactlyInAnyOrder("AMP.on", "CAR.C1-0");
                });
    }

    @Test
    void reportsATurnOnThatIsActiveOnlyWhileTheStarterTurns() {
        String cranked = document("12V", joins("W1", "CAR.C7-1", "AMP.on"))
                .replace("\"live\": [\"running\"], \"maxAmps\": 5", "\"live\": [\"cranking\"], \"maxAmps\": 5");
        assertThat(result(Hookups.check(cranked)))
                .as("an input of unknown use, as for a mute while cranking")
                .isEqualTo(Result.PASSED);

        String turnOn = cranked.replace("{\"on\": {", "{\"on\": {\"function\": \"control.amplifier-on\", ");
        assertThat(Hookups.findings(Hookups.check(turnOn), RULE))
                .singleElement()
                .satisfies(
                        finding -> assertThat(finding.message())
                                .isEqualTo(
                                        "AMP.on is active only in the state cranking, and dead while driving: CAR.C7-1 is live in no other"));
    }

    @Test
    void reportsATurnOnThatGoesAsTheEngineStarts() {
        String accessory = document("12V", joins("W1", "CAR.C7-1", "AMP.on"))
                .replace("\"live\": [\"running\"], \"maxAmps\": 5", "\"live\": [\"accessory\"], \"maxAmps\": 5")
                .replace("{\"on\": {", "{\"on\": {\"function\": \"control.amplifier-on\", ");
        assertThat(Hookups.findings(Hookups.check(accessory), RULE))
                .singleElement()
                .satisfies(
                        finding -> assertThat(finding.message())
                                .isEqualTo(
                                        "AMP.on is active only in the state accessory, and dead while driving: CAR.C7-1 is live in no other"));
        assertThat(result(Hookups.check(accessory.replace("[\"accessory\"]", "[\"accessory\", \"running\"]"))))
                .isEqualTo(Result.PASSED);
    }

    @Test
    void acceptsAnInputOnASwitchedCircuit() {
        assertThat(result(check("12V", joins("W1", "CAR.C1-8", "AMP.on")))).isEqualTo(Result.PASSED);
    }

    @Test
    void acceptsAnInputThatIsActiveInOneStateUnderOneConditionOnly() {
        assertThat(result(check("12V", joins("W1", "CAR.C5-3", "AMP.on")))).isEqualTo(Result.PASSED);
    }

    @Test
    void isSilentAboutAnInputThatIsNotConnected() {
        assertThat(result(check("12V", joins("W1", "L.a", "CAR.C1-8")))).isEqualTo(Result.NOT_APPLICABLE);
    }

    @ParameterizedTest
    @CsvSource({
        "12V, CAR.C1-9, CAR.C1-9.live",
        "12V, CAR.C1-2, CAR.C1-2.electrical",
        "12V, CAR.C1-3, CAR.C1-3.active",
        "'', CAR.C1-8, AMP.on.active",
    })
    void cannotTellWithoutAFact(String wants, String driver, String missing) {
        Report report = check(wants, joins("W1", driver, "AMP.on"));

        assertThat(result(report)).isEqualTo(Result.NOT_CHECKED);
        assertThat(Hookups.outcome(report, RULE).missing()).containsExactly(missing);
    }

    @ParameterizedTest
    @CsvSource({"CAR.C1-9, CAR.C1-9.live", "CAR.C1-2, CAR.C1-2.electrical"})
    void asksForTheFactOfTheCircuitThatFeedsThePartWhoseOutputDrivesTheInput(String feed, String missing) {
        Report report = check(
                "12V",
                String.join(
                        ",",
                        joins("W1", feed, "HU.acc"),
                        joins("W2", "CAR.chassis", "HU.ground"),
                        joins("W3", "HU.remote", "AMP.on")));

        assertThat(result(report)).isEqualTo(Result.NOT_CHECKED);
        assertThat(Hookups.outcome(report, RULE).missing()).containsExactly(missing);
    }

    @ParameterizedTest
    @CsvSource({"CAR.C1-9, CAR.C1-9.live", "CAR.C1-2, CAR.C1-2.electrical", "CAR.C1-3, CAR.C1-3.active"})
    void asksForTheFactOfTheCircuitThatPullsTheRelayBeforeTheInput(String coil, String missing) {
        Report report = check("12V", relayed(coil, "CAR.C1-7"));

        assertThat(result(report)).isEqualTo(Result.NOT_CHECKED);
        assertThat(Hookups.outcome(report, RULE).missing()).containsExactly(missing);
    }

    @Test
    void acceptsAnInputBehindARelayThatPulls() {
        assertThat(result(check("12V", relayed("CAR.C1-8", "CAR.C1-7")))).isEqualTo(Result.PASSED);
    }

    @Test
    void reportsAnInputBehindARelayThatNeverPulls() {
        assertThat(Hookups.findings(check("12V", relayed("L.a", "CAR.C1-7")), RULE))
                .singleElement()
                .satisfies(finding -> assertThat(finding.message())
                        .isEqualTo(
                                "AMP.on is driven by nothing: the relay K1 between it and CAR.C1-7 never pulls in: its coil"
                                        + " gets no 12 V"));
    }

    @Test
    void reportsAnInputBehindARelayThatPullsOnlyWhenItsContactHasNothingToPass() {
        assertThat(Hookups.findings(
                        check(
                                "12V",
                                relayed("CAR.C1-8", "K2.87a")
                                        + "," + joins("W5", "CAR.C1-8", "K2.86") + ","
                                        + joins("W6", "CAR.chassis", "K2.85") + "," + joins("W7", "CAR.C1-7", "K2.30")),
                        RULE))
                .hasSize(1);
    }

    @Test
    void goesByTheWayADiodePoints() {
        assertThat(result(check("12V", joins("W1", "CAR.C1-8", "D.a") + "," + joins("W2", "D.c", "AMP.on"))))
                .isEqualTo(Result.PASSED);
        assertThat(Hookups.findings(
                        check("12V", joins("W1", "CAR.C1-8", "D.c") + "," + joins("W2", "D.a", "AMP.on")), RULE))
                .singleElement()
                .satisfies(finding -> assertThat(finding.message())
                        .isEqualTo(
                                "AMP.on is driven by nothing: the diode D between it and CAR.C1-8 conducts only the other"
                                        + " way"));
    }

    @Test
    void acceptsWhatComesThroughAnAdapterAndAPlug() {
        assertThat(result(check(
                        "12V",
                        joins("W1", "P.a", "L.a") + "," + joins("W2", "L.b", "AMP.on")
                                + "}, \"plugs\": [[\"CAR.C7\", \"P.C7\"]"
                                + ", [\"CAR.C8\", \"P.C8\"]], \"settings\": {")))
                .isEqualTo(Result.PASSED);
    }

    @Test
    void reportsTheStubOfACutCircuitWhoseConnectorIsOffTheUnit() {
        String cut = document("12V", joins("W1", "CAR.C7-1/unit", "AMP.on"))
                .replace("}},\n \"parts\"", "}, \"cuts\": [\"C7-1\"], \"unplugged\": [\"C7\"]},\n \"parts\"");

        assertThat(Hookups.findings(Hookups.check(cut), RULE)).hasSize(1);
        assertThat(Hookups.findings(Hookups.check(cut.replace("C7-1/unit", "C7-1/harness")), RULE))
                .isEmpty();
    }

    @Test
    void leavesADeadHeadUnitToTheRulesOfItsFeed() {
        Report report = check("12V", joins("W1", "HU.remote", "AMP.on"));

        assertThat(Hookups.findings(report, RULE)).isEmpty();
        assertThat(report.findings()).extracting(Finding::rule).contains("load-without-supply");
    }

    @Test
    void reportsAnInputOnTheOutputOfAHeadUnitWhoseEveryFeedIsListedAsUnused() {
        String unused = "}, \"unused\": {\"HU.acc\": {\"as\": \"%s\"}";
        String wires = joins("W1", "HU.remote", "AMP.on") + "," + joins("W2", "HU.ground", "CAR.chassis");

        assertThat(Hookups.findings(check("12V", wires + unused.formatted("capped")), RULE))
                .singleElement()
                .satisfies(finding -> assertThat(finding.message())
                        .isEqualTo(
                                "AMP.on is active in no state: HU.remote is never live, as every feed of HU is listed as"
                                        + " unused"));
        // a feed that stays in its plug is fed there
        assertThat(Hookups.findings(check("12V", wires + unused.formatted("left-plugged")), RULE))
                .isEmpty();
    }

    @Test
    void acceptsAnInputOnTheOutputOfAHeadUnitThatARelayFeeds() {
        assertThat(result(check(
                        "12V",
                        String.join(
                                ",",
                                joins("W1", "CAR.C1-8", "K1.86"),
                                joins("W2", "CAR.chassis", "K1.85"),
                                joins("W3", "CAR.C1-7", "K1.30"),
                                joins("W4", "K1.87", "HU.acc"),
                                joins("W5", "CAR.chassis", "HU.ground"),
                                joins("W6", "HU.remote", "AMP.on")))))
                .isEqualTo(Result.PASSED);
    }

    @Test
    void leavesAWrongPolarityToItsOwnRule() {
        Report report = check("ground", joins("W1", "CAR.C1-8", "AMP.on"));

        assertThat(Hookups.findings(report, RULE)).isEmpty();
        assertThat(Hookups.findings(report, "control-polarity-mismatch")).hasSize(1);
    }

    @Test
    void reportsAPulseInputOnASteadySupply() {
        assertThat(Hookups.findings(check("pulse", joins("W1", "CAR.C1-8", "AMP.on")), RULE))
                .singleElement()
                .satisfies(
                        finding -> assertThat(finding.message())
                                .isEqualTo(
                                        "AMP.on listens for pulses, and CAR.C1-8, which gives a steady level, never makes it active"));
    }

    @Test
    void acceptsAPulseInputOnPulses() {
        assertThat(result(check("pulse", joins("W1", "CAR.C3-1", "AMP.on")))).isEqualTo(Result.PASSED);
    }

    @Test
    void countsDeadCircuitsInGoodGrammar() {
        assertThat(Hookups.findings(
                        check(
                                "12V",
                                String.join(
                                        ",",
                                        joins("W1", "CAR.C1-0", "D.a"),
                                        joins("W2", "CAR.C1-1", "D2.a"),
                                        joins("W3", "D.c", "AMP.on"),
                                        joins("W4", "D2.c", "AMP.on"))),
                        RULE))
                .singleElement()
                .satisfies(finding -> assertThat(finding.message())
                        .matches("AMP.on is active in no state: CAR.C1-[01] and CAR.C1-[01] are never live"));
    }

    private static Result result(Report report) {
        return Hookups.outcome(report, RULE).result();
    }

    private static Report check(String wants, String connections) {
        return Hookups.check(document(wants, connections));
    }

    private static String relayed(String coil, String contact) {
        return String.join(
                ",",
                joins("W1", coil, "K1.86"),
                joins("W2", "CAR.chassis", "K1.85"),
                joins("W3", contact, "K1.30"),
                joins("W4", "K1.87", "AMP.on"));
    }

    private static String document(String wants, String connections) {
        String active = wants.isEmpty() ? "" : "\"active\": \"" + wants + "\",";
        return """
                {"vehicle": {"inline": {"circuits": {
                   "C1-0": {"electrical": {"kind": "control-out", "active": "12V", "live": [], "maxAmps": 0.3}},
                   "C1-1": {"electrical": {"kind": "control-out", "active": "12V", "live": [], "maxAmps": 0.3}},
                   "C1-2": {},
                   "C1-3": {"electrical": {"kind": "control-out", "live": ["running"], "maxAmps": 0.3}},
                   "C1-7": {"electrical": {"kind": "supply", "maxAmps": 10, "fuseAmps": 10,
                     "live": ["asleep", "accessory", "ignition", "cranking", "running", "restarting"]}},
                   "C1-8": {"electrical": {"kind": "supply", "live": ["accessory", "running"], "maxAmps": 5, "fuseAmps": 5}},
                   "C1-9": {"electrical": {"kind": "supply", "maxAmps": 5, "fuseAmps": 5}},
                   "C3-1": {"electrical": {"kind": "control-out", "active": "pulse", "live": ["running"], "maxAmps": 0.1}},
                   "C5-3": {"electrical": {"kind": "supply", "live": ["ignition"], "when": "reverse", "maxAmps": 5, "fuseAmps": 5}},
                   "C8-1": {"electrical": {"kind": "passive"}},
                   "C7-1": {"electrical": {"kind": "supply", "live": ["running"], "maxAmps": 5, "fuseAmps": 5}}}}},
                 "parts": {
                   "AMP": {"inline": {"terminals": {"on": {"electrical": {"kind": "control-in", %s "amps": 0.01}}}}},
                   "HU": {"inline": {"terminals": {
                     "acc": {"electrical": {"kind": "load", "maxAmps": 5}}, "ground": {"electrical": {"kind": "ground"}},
                     "remote": {"electrical": {"kind": "control-out", "active": "12V", "maxAmps": 0.3}}}}},
                   "L": {"inline": {"conducts": [["a", "b"]]}},
                   "P": {"inline": {"conducts": [["C7-1", "a"], ["C8-1", "b"]]}},
                   "D": {"inline": {"diodes": [{"anode": "a", "cathode": "c"}]}},
                   "D2": {"inline": {"diodes": [{"anode": "a", "cathode": "c"}]}},
                   "K1": {"inline": {"relays": [{"coil": ["85", "86"], "coilOhms": 90, "common": "30", "open": "87"}]}},
                   "K2": {"inline": {"relays": [{"coil": ["85", "86"], "coilOhms": 90, "common": "30", "closed": "87a"}]}}},
                 "connections": {%s}}
                """.formatted(active, connections);
    }

    private static String joins(String ref, String one, String other) {
        return "\"%s\": {\"ends\": [\"%s\", \"%s\"]}".formatted(ref, one, other);
    }
}
