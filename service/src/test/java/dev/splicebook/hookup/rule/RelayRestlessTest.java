package dev.splicebook.hookup.rule;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Hookups;
import dev.splicebook.hookup.Report;
import dev.splicebook.hookup.Report.Result;
import dev.splicebook.hookup.State;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class RelayRestlessTest {

    private static final String RULE = "relay-restless";

    /** The coil on the relay's own closed contact: it pulls, loses its feed, drops and is fed again. */
    private static final String BUZZER = "CAR.C1-8 K1.30, K1.87a K1.86, CAR.chassis K1.85";

    @Test
    void reportsARelayThatCutsOffItsOwnCoil() {
        Finding finding = Hookups.findings(check(BUZZER), RULE).get(0);

        assertThat(finding.message())
                .isEqualTo("the relay K1 switches its own coil off and on without rest while accessory and running");
        assertThat(finding.help()).isEqualTo("feed the coil of K1 from a point that its own contact does not switch.");
        assertThat(finding.terminals()).containsExactlyInAnyOrder("K1.85", "K1.86");
        assertThat(finding.connections()).containsExactly("W1", "W2");
        assertThat(finding.states()).containsExactly(State.ACCESSORY, State.RUNNING);
    }

    @Test
    void acceptsARelayWhoseCoilIsFedFromBeforeItsContact() {
        assertThat(result(check("CAR.C1-8 K1.30, CAR.C1-8 K1.86, CAR.chassis K1.85")))
                .isEqualTo(Result.PASSED);
    }

    @Test
    void acceptsARelayThatHoldsItself() {
        assertThat(result(check("CAR.battery-plus K1.30, K1.87 K1.86, CAR.C5-3 K1.86, CAR.chassis K1.85")))
                .isEqualTo(Result.PASSED);
    }

    @Test
    void acceptsALongChainThatComesToRest() {
        List<String> joins = new ArrayList<>(List.of("CAR.C1-8 K1.86"));
        for (int relay = 1; relay <= 4; relay++) {
            joins.add("CAR.chassis K" + relay + ".85");
            joins.add("CAR.C1-8 K" + relay + ".30");
            if (relay > 1) {
                joins.add("K" + (relay - 1) + (relay % 2 == 0 ? ".87" : ".87a") + " K" + relay + ".86");
            }
        }

        assertThat(result(check(String.join(", ", joins)))).isEqualTo(Result.PASSED);
    }

    @Test
    void isSilentWithoutARelay() {
        assertThat(result(Hookups.check("""
                {"parts": {"L": {"inline": {"conducts": [["a", "b"]]}}},
                 "connections": {"W1": {"ends": ["CAR.chassis", "L.a"]}}}
                """))).isEqualTo(Result.NOT_APPLICABLE);
    }

    @Test
    void acceptsABuzzersWiringThatIsNeverFed() {
        assertThat(result(check("L.a K1.30, K1.87a K1.86, CAR.chassis K1.85"))).isEqualTo(Result.PASSED);
    }

    @ParameterizedTest
    @CsvSource({"CAR.C1-9, CAR.C1-9.live", "CAR.C1-2, CAR.C1-2.electrical"})
    void cannotTellWhetherItIsEverFedWithoutTheFactsOfTheCircuit(String circuit, String missing) {
        Report report = check(BUZZER.replace("CAR.C1-8", circuit));

        assertThat(result(report)).isEqualTo(Result.NOT_CHECKED);
        assertThat(Hookups.outcome(report, RULE).missing()).containsExactly(missing);
    }

    @Test
    void needsNoFactsOfACircuitThatOnlyFeedsARelayWhichCannotActOnItself() {
        assertThat(result(check("CAR.C1-9 K1.86, CAR.chassis K1.85, CAR.C1-8 K1.30, K1.87 L.a")))
                .isEqualTo(Result.PASSED);
    }

    @Test
    void reportsItOnlyUnderTheConditionThatFeedsIt() {
        assertThat(Hookups.findings(check(BUZZER.replace("CAR.C1-8", "CAR.C5-3")), RULE))
                .singleElement()
                .satisfies(finding -> assertThat(finding.states()).containsExactly(State.RUNNING));
    }

    @Test
    void reportsARelayThatTakesAwayItsOwnGround() {
        assertThat(Hookups.findings(check("CAR.C1-8 K1.86, K1.87a K1.85, CAR.chassis K1.30"), RULE))
                .hasSize(1);
    }

    @Test
    void reportsItThroughAnAdapterAndADiode() {
        assertThat(Hookups.findings(check("CAR.C1-8 K1.30, K1.87a L.a, L.b D.a, D.c K1.86, CAR.chassis K1.85"), RULE))
                .hasSize(1);
        assertThat(Hookups.findings(check("CAR.C1-8 K1.30, K1.87a L.a, L.b D.c, D.a K1.86, CAR.chassis K1.85"), RULE))
                .isEmpty();
    }

    @Test
    void tellsRelaysThatReleaseOneAnotherAsOneCause() {
        Report report = check(
                "CAR.C1-8 K1.30, K1.87 K2.86, CAR.chassis K1.85," + " CAR.C1-8 K2.30, K2.87a K1.86, CAR.chassis K2.85");

        assertThat(Hookups.findings(report, RULE)).singleElement().satisfies(finding -> {
            assertThat(finding.message())
                    .isEqualTo("the relays K1 and K2 switch one another's coils off and on without rest"
                            + " while accessory and running");
            assertThat(finding.help()).contains("one of them");
            assertThat(finding.terminals()).containsExactlyInAnyOrder("K1.85", "K1.86", "K2.85", "K2.86");
        });
    }

    @Test
    void countsARelayThatIsOnlyPulledAlongToTheSameCause() {
        Report report = check(BUZZER + ", K1.87 K2.86, CAR.chassis K2.85");

        assertThat(Hookups.findings(report, RULE)).hasSize(1);
    }

    @Test
    void tellsTwoBuzzersThatShareNothingButTheFuseApart() {
        Report report = check(BUZZER + ", " + BUZZER.replace("K1", "K2"));

        assertThat(Hookups.findings(report, RULE))
                .extracting(Finding::message)
                .satisfiesExactlyInAnyOrder(
                        message -> assertThat(message).startsWith("the relay K1 "),
                        message -> assertThat(message).startsWith("the relay K2 "));
    }

    @Test
    void reportsAHeadUnitThatCutsOffItsOwnFeed() {
        assertThat(Hookups.findings(
                        check(
                                "CAR.C1-8 K1.30, K1.87a HU.acc, CAR.chassis HU.ground, HU.remote K1.86, CAR.chassis K1.85"),
                        RULE))
                .hasSize(1);
    }

    private static Result result(Report report) {
        return Hookups.outcome(report, RULE).result();
    }

    /** Pairs of ends, comma-separated; the connections are W0, W1 and so on. */
    private static Report check(String joins) {
        StringBuilder connections = new StringBuilder();
        String[] pairs = joins.split(",", -1);
        for (int at = 0; at < pairs.length; at++) {
            String[] ends = pairs[at].strip().split(" ", -1);
            connections.append(String.format(
                    Locale.ROOT, "%s\"W%d\": {\"ends\": [\"%s\", \"%s\"]}", at == 0 ? "" : ", ", at, ends[0], ends[1]));
        }
        String relay = "{\"inline\": {\"relays\": [{\"coil\": [\"85\", \"86\"], \"coilOhms\": 90, \"common\": \"30\","
                + " \"open\": \"87\", \"closed\": \"87a\"}]}}";
        return Hookups.check("""
                {"vehicle": {"inline": {"circuits": {
                   "C1-2": {},
                   "C1-8": {"electrical": {"kind": "supply", "live": ["accessory", "running"], "maxAmps": 5, "fuseAmps": 5}},
                   "C1-9": {"electrical": {"kind": "supply", "maxAmps": 5, "fuseAmps": 5}},
                   "C5-3": {"electrical": {"kind": "supply", "live": ["running"], "when": "reverse", "maxAmps": 5, "fuseAmps": 5}}}}},
                 "parts": {
                   "K1": %1$s, "K2": %1$s, "K3": %1$s, "K4": %1$s,
                   "HU": {"inline": {"terminals": {
                     "acc": {"electrical": {"kind": "load", "maxAmps": 1}}, "ground": {"electrical": {"kind": "ground"}},
                     "remote": {"electrical": {"kind": "control-out", "active": "12V", "maxAmps": 0.3}}}}},
                   "L": {"inline": {"conducts": [["a", "b"]]}},
                   "D": {"inline": {"diodes": [{"anode": "a", "cathode": "c"}]}}},
                 "connections": {%2$s}}
                """.formatted(relay, connections));
    }
}
