package dev.splicebook.hookup.rule;

import static dev.splicebook.hookup.Wiring.constant;
import static dev.splicebook.hookup.Wiring.facts;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Hookups;
import dev.splicebook.hookup.Report;
import dev.splicebook.hookup.Report.Result;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.Wiring;
import org.junit.jupiter.api.Test;

/** Coil currents are volts over ohms (Ohm's law) at the default 14.2 V while running; inputs add up (Kirchhoff). */
class ControlOverloadedTest {

    private static final String RULE = "control-overloaded";

    @Test
    void reportsAnOutputAskedForMoreThanItGives() {
        Report report = check("\"maxAmps\": 0.1,", relay("K1", ", \"coilOhms\": 90"), coil("W1", "K1"));

        Finding finding = Hookups.findings(report, RULE).get(0);
        assertThat(finding.message())
                .isEqualTo("CAR.C1-5 is asked for 158 mA by K1.86, above the 100 mA that it gives");
        assertThat(finding.measured()).isCloseTo(14.2 / 90, within(1e-9));
        assertThat(finding.limit()).isEqualTo(0.1);
        assertThat(finding.unit()).isEqualTo("A");
        assertThat(finding.terminals()).containsExactlyInAnyOrder("CAR.C1-5", "K1.86");
        assertThat(finding.states()).containsExactly(State.RUNNING);
        assertThat(report.assumptions())
                .anySatisfy(assumption -> assertThat(assumption.name()).isEqualTo("runningVolts"));
    }

    @Test
    void countsAResistorToGround() {
        // 14.2 V / 47 Ω = 0.302 A
        String resistor = "\"R\": {\"inline\": {\"resistors\": [{\"between\": [\"a\", \"b\"], \"ohms\": 47}]}}";
        String ends = joins("W1", "CAR.C1-5", "R.a") + "," + joins("W2", "CAR.chassis", "R.b");

        assertThat(Hookups.findings(check("\"maxAmps\": 0.1,", resistor, ends), RULE))
                .singleElement()
                .satisfies(finding -> assertThat(finding.measured()).isCloseTo(14.2 / 47, within(1e-6)));
        assertThat(result(check("\"maxAmps\": 0.31,", resistor, ends))).isEqualTo(Result.PASSED);
    }

    @Test
    void asksNoKeyLadderForWhatItGives() {
        assertThat(result(Hookups.check("""
                        {"parts": {
                           "KEYS": {"inline": {"terminals": {"out": {"electrical": {"kind": "control-out", "active": "resistance",
                             "live": ["accessory", "ignition", "running"]}}}}},
                           "HU": {"inline": {"terminals": {"in": {"electrical": {"kind": "control-in", "active": "resistance",
                             "amps": 0.001}}}}}},
                         "connections": {"W1": {"ends": ["KEYS.out", "HU.in"]}}}
                        """))).isNotEqualTo(Result.NOT_CHECKED);
    }

    @Test
    void acceptsAnOutputThatGivesEnoughForOneRelay() {
        assertThat(result(check("\"maxAmps\": 0.3,", relay("K1", ", \"coilOhms\": 90"), coil("W1", "K1"))))
                .isEqualTo(Result.PASSED);
    }

    @Test
    void acceptsADrawOfExactlyWhatItGivesAndReportsOneJustAbove() {
        String ends = joins("W1", "CAR.C1-5", "A.on") + "," + joins("W2", "CAR.C1-5", "B.on");
        String parts = input("A", "\"amps\": 0.1,") + "," + input("B", "\"amps\": 0.2,");

        assertThat(result(check("\"maxAmps\": 0.3,", parts, ends))).isEqualTo(Result.PASSED);
        assertThat(Hookups.findings(check("\"maxAmps\": 0.299,", parts, ends), RULE))
                .singleElement()
                .satisfies(finding -> assertThat(finding.message())
                        .isEqualTo("CAR.C1-5 is asked for 300 mA by A.on and B.on, above the 299 mA that it gives"));
    }

    @Test
    void isSilentWhereNothingDrawsFromTheOutput() {
        assertThat(result(check(
                        "\"maxAmps\": 0.1,",
                        "\"L\": {\"inline\": {\"conducts\": [[\"a\", \"b\"]]}}",
                        joins("W1", "CAR.C1-5", "L.a"))))
                .isEqualTo(Result.NOT_APPLICABLE);
    }

    @Test
    void cannotTellWithoutWhatTheOutputGives() {
        Report report = check("", relay("K1", ", \"coilOhms\": 90"), coil("W1", "K1"));

        assertThat(result(report)).isEqualTo(Result.NOT_CHECKED);
        assertThat(Hookups.outcome(report, RULE).missing()).containsExactly("CAR.C1-5.maxAmps");
    }

    @Test
    void cannotTellWithoutTheOhmsOfACoilOrTheAmperesOfAnInput() {
        Report report = check(
                "\"maxAmps\": 0.3,",
                relay("K1", "") + "," + input("A", ""),
                coil("W1", "K1") + "," + joins("W2", "CAR.C1-5", "A.on"));

        assertThat(result(report)).isEqualTo(Result.NOT_CHECKED);
        assertThat(Hookups.outcome(report, RULE).missing()).containsExactlyInAnyOrder("K1.86.coilOhms", "A.on.amps");
    }

    @Test
    void reportsWhatIsAboveTheLimitAlreadyWithoutTheMissingFacts() {
        Report report = check(
                "\"maxAmps\": 0.3,",
                relay("K1", "") + "," + input("A", "\"amps\": 0.4,"),
                coil("W1", "K1") + "," + joins("W2", "CAR.C1-5", "A.on"));

        assertThat(result(report)).isEqualTo(Result.FAILED);
        assertThat(Hookups.findings(report, RULE).get(0).measured()).isEqualTo(0.4);
    }

    @Test
    void worksOutCoilsWithTheVoltsThatTheVehicleRunsAt() {
        String parts = relay("K1", ", \"coilOhms\": 100");
        String volts = "\"runningVolts\": {\"min\": 13.0, \"max\": 15.0},";

        assertThat(result(check(volts, "\"maxAmps\": 0.15,", parts, coil("W1", "K1"))))
                .isEqualTo(Result.PASSED);
        assertThat(result(check(volts, "\"maxAmps\": 0.149,", parts, coil("W1", "K1"))))
                .isEqualTo(Result.FAILED);
    }

    @Test
    void countsWhatHangsBehindAnAdapterADiodeAndARelayContact() {
        String parts = """
                "L": {"inline": {"conducts": [["a", "b"]]}},
                "D": {"inline": {"diodes": [{"anode": "a", "cathode": "c"}]}}, %s, %s, %s, %s
                """.formatted(
                        relay("K1", ", \"coilOhms\": 1000"),
                        input("A", "\"amps\": 0.1,"),
                        input("B", "\"amps\": 0.1,"),
                        input("C", "\"amps\": 0.1,"));
        String connections = String.join(
                ",",
                joins("W1", "CAR.C1-5", "L.a"),
                joins("W2", "L.b", "A.on"),
                joins("W3", "L.b", "D.a"),
                joins("W4", "D.c", "B.on"),
                joins("W5", "L.b", "K1.30"),
                joins("W6", "K1.87", "C.on"),
                joins("W7", "CAR.battery-plus", "K1.86"),
                joins("W8", "CAR.chassis", "K1.85"));

        assertThat(Hookups.findings(check("\"maxAmps\": 0.25,", parts, connections), RULE))
                .singleElement()
                .satisfies(finding -> {
                    assertThat(finding.measured()).isCloseTo(0.3, within(1e-9));
                    assertThat(finding.terminals()).contains("A.on", "B.on", "C.on");
                });
    }

    @Test
    void leavesOutWhatADiodeKeepsFromTheOutput() {
        String parts = "\"D\": {\"inline\": {\"diodes\": [{\"anode\": \"a\", \"cathode\": \"c\"}]}},"
                + input("A", "\"amps\": 0.4,") + "," + input("B", "\"amps\": 0.1,");

        assertThat(result(check(
                        "\"maxAmps\": 0.3,",
                        parts,
                        String.join(
                                ",",
                                joins("W1", "CAR.C1-5", "D.c"),
                                joins("W2", "D.a", "A.on"),
                                joins("W3", "CAR.C1-5", "B.on")))))
                .isEqualTo(Result.PASSED);
    }

    @Test
    void countsACoilThatTheOutputPullsToGround() {
        Report report = Hookups.check("""
                {"vehicle": {"inline": {"circuits": {"C1-5": {"electrical":
                   {"kind": "control-out", "active": "ground", "maxAmps": 0.1, "live": ["running"]}}}}},
                 "parts": {%s}, "connections": {%s, %s}}
                """.formatted(
                        relay("K1", ", \"coilOhms\": 90"),
                        joins("W1", "CAR.battery-plus", "K1.86"),
                        joins("W2", "CAR.C1-5", "K1.85")));

        assertThat(Hookups.findings(report, RULE)).singleElement().satisfies(finding -> {
            assertThat(finding.measured()).isCloseTo(14.2 / 90, within(1e-9));
            assertThat(finding.terminals()).containsExactlyInAnyOrder("CAR.C1-5", "K1.85");
        });
    }

    @Test
    void countsWhatReturnsByAnOutputThatSwitchesToGround() {
        assertThat(Hookups.findings(lampsAtADoorContact(""), RULE))
                .singleElement()
                .satisfies(finding -> {
                    assertThat(finding.message())
                            .isEqualTo("CAR.C1-5 is asked for 2.0 A by L1.plus and L2.plus, above the 200 mA that it"
                                    + " switches to ground");
                    assertThat(finding.states()).containsExactly(State.ASLEEP, State.RUNNING);
                });
        assertThat(Hookups.findings(lampsAtADoorContact(", " + joins("W5", "L1.minus", "CAR.chassis")), RULE))
                .isEmpty();
    }

    private static Report lampsAtADoorContact(String more) {
        String lamp = """
                {"inline": {"terminals": {
                  "plus": {"electrical": {"kind": "load", "typicalAmps": 1, "maxAmps": 1, "needs": "constant"}},
                  "minus": {"electrical": {"kind": "ground"}}}}}""";
        return Hookups.check("""
                {"vehicle": {"inline": {"circuits": {"C1-5": {"electrical":
                   {"kind": "control-out", "active": "ground", "maxAmps": 0.2, "live": ["asleep", "running"], "when": "door-open"}}}}},
                 "parts": {"L1": %s, "L2": %s}, "connections": {%s, %s, %s, %s%s}}
                """.formatted(
                        lamp,
                        lamp,
                        joins("W1", "CAR.battery-plus", "L1.plus"),
                        joins("W2", "L1.minus", "CAR.C1-5"),
                        joins("W3", "CAR.battery-plus", "L2.plus"),
                        joins("W4", "L2.minus", "CAR.C1-5"),
                        more));
    }

    @Test
    void countsOnlyCoilsThatPullAtTheSameTime() {
        // the second relay pulls only in reverse, and its contact then takes the first one's feed away
        String parts = relay("K1", ", \"coilOhms\": 90") + "," + relay("K2", ", \"coilOhms\": 90");
        String connections = String.join(
                ",",
                joins("W1", "CAR.C1-5", "K2.30"),
                joins("W2", "K2.87a", "K1.86"),
                joins("W3", "CAR.chassis", "K1.85"),
                joins("W4", "CAR.C5-3", "K2.86"),
                joins("W5", "CAR.chassis", "K2.85"));

        assertThat(result(check("\"maxAmps\": 0.2,", parts, connections))).isEqualTo(Result.PASSED);
    }

    @Test
    void namesOnlyWhatDrawsAtTheWorst() {
        String parts = relay("K2", ", \"coilOhms\": 90") + "," + input("A", "\"amps\": 0.4,") + ","
                + input("B", "\"amps\": 0.1,");
        String connections = String.join(
                ",",
                joins("W1", "CAR.C1-5", "K2.30"),
                joins("W2", "K2.87a", "A.on"),
                joins("W3", "K2.87", "B.on"),
                joins("W4", "CAR.C5-3", "K2.86"),
                joins("W5", "CAR.chassis", "K2.85"));

        assertThat(Hookups.findings(check("\"maxAmps\": 0.3,", parts, connections), RULE))
                .singleElement()
                .satisfies(finding -> assertThat(finding.message())
                        .isEqualTo("CAR.C1-5 is asked for 400 mA by A.on, above the 300 mA that it gives"));
    }

    @Test
    void asksNothingOfAnOutputWhosePartIsNeverFed() {
        Report report = Hookups.check("""
                {"parts": {"HU": {"inline": {"terminals": {"acc": {"electrical": {"kind": "load"}},
                   "remote": {"electrical": {"kind": "control-out", "active": "12V", "maxAmps": 0.1}}}}}, %s},
                 "connections": {%s}}
                """.formatted(input("A", "\"amps\": 0.4,"), joins("W1", "HU.remote", "A.on")));

        assertThat(result(report)).isEqualTo(Result.NOT_APPLICABLE);
    }

    private static Result result(Report report) {
        return Hookups.outcome(report, RULE).result();
    }

    @Test
    void asksNothingOfAnOutputBehindADiodeWhereASupplyHoldsTheVolts() {
        Wiring wiring = new Wiring()
                .car("C1-7", facts(constant()))
                .car("C1-5", facts("""
                        "kind": "control-out", "active": "12V", "maxAmps": 0.3, "live": ["accessory", "ignition", "running"]"""))
                .lead("HU", "memory", facts("""
                        "kind": "load", "typicalAmps": 3, "maxAmps": 5, "needs": "constant\""""))
                .lead("HU", "ground", facts("\"kind\": \"ground\""))
                .lead("AMP", "remote", facts("\"kind\": \"control-in\", \"active\": \"12V\", \"amps\": 0.05"))
                .inside("D", "\"diodes\": [{\"anode\": \"a\", \"cathode\": \"k\"}]")
                .join("CAR.C1-7 HU.memory", "CAR.chassis HU.ground", "CAR.C1-5 AMP.remote", "CAR.C1-5 D.a");

        Report without = wiring.check();
        Report behind = wiring.join("D.k HU.memory").check();

        assertThat(Hookups.outcome(without, "control-overloaded").result()).isEqualTo(Result.PASSED);
        assertThat(Hookups.outcome(behind, "control-overloaded").result()).isEqualTo(Result.PASSED);
    }

    private static Report check(String gives, String parts, String connections) {
        return check("", gives, parts, connections);
    }

    private static Report check(String volts, String gives, String parts, String connections) {
        return Hookups.check("""
                {"vehicle": {"inline": {%s "circuits": {
                   "C5-3": {"electrical": {"kind": "supply", "maxAmps": 5, "fuseAmps": 5, "live": ["ignition", "running"], "when": "reverse"}},
                   "C1-5": {"electrical": {"kind": "control-out", "active": "12V", %s "live": ["accessory", "ignition", "running"]}}}}},
                 "parts": {%s}, "connections": {%s}}
                """.formatted(volts, gives, parts, connections));
    }

    private static String relay(String ref, String ohms) {
        return "\"%s\": {\"inline\": {\"relays\": [{\"coil\": [\"85\", \"86\"]%s, \"common\": \"30\", \"open\": \"87\", \"closed\": \"87a\"}]}}"
                .formatted(ref, ohms);
    }

    private static String input(String ref, String amps) {
        return "\"%s\": {\"inline\": {\"terminals\": {\"on\": {\"electrical\": {\"kind\": \"control-in\", %s \"active\": \"12V\"}}}}}"
                .formatted(ref, amps);
    }

    private static String coil(String ref, String relay) {
        return joins(ref, "CAR.C1-5", relay + ".86") + "," + joins(ref + "g", "CAR.chassis", relay + ".85");
    }

    private static String joins(String ref, String one, String other) {
        return "\"%s\": {\"ends\": [\"%s\", \"%s\"]}".formatted(ref, one, other);
    }
}
