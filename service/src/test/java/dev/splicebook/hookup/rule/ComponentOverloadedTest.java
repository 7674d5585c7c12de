package dev.splicebook.hookup.rule;

import static dev.splicebook.hookup.rule.Bench.CONSTANT;
import static dev.splicebook.hookup.rule.Bench.assertFigures;
import static dev.splicebook.hookup.rule.Bench.assertNotApplicable;
import static dev.splicebook.hookup.rule.Bench.assertNotChecked;
import static dev.splicebook.hookup.rule.Bench.assertPassed;
import static dev.splicebook.hookup.rule.Bench.check;
import static dev.splicebook.hookup.rule.Bench.circuit;
import static dev.splicebook.hookup.rule.Bench.device;
import static dev.splicebook.hookup.rule.Bench.fused;
import static dev.splicebook.hookup.rule.Bench.inside;
import static dev.splicebook.hookup.rule.Bench.members;
import static dev.splicebook.hookup.rule.Bench.only;
import static dev.splicebook.hookup.rule.Bench.wire;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Hookups;
import dev.splicebook.hookup.Report;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.State;
import org.junit.jupiter.api.Test;

// ratings and loads are invented; currents by Kirchhoff's laws
class ComponentOverloadedTest {

    private static final String RULE = "component-overloaded";
    private static final String DIODE = inside("'diodes': [{'anode': 'a', 'cathode': 'c', 'amps': 6}]");

    @Test
    void reportsAContactAboveItsRating() {
        Finding finding = only(switched(35, ", 'contactAmps': 30"), RULE);

        assertThat(finding.message())
                .isEqualTo("the contact of K between 30 and 87 carries 35.0 A, above the 30.0 A that it is rated for");
        assertThat(finding.severity()).isEqualTo(Severity.ERROR);
        assertThat(finding.terminals()).containsExactlyInAnyOrder("K.30", "K.87");
        assertThat(finding.states()).contains(State.RUNNING).doesNotContain(State.ASLEEP);
        assertFigures(finding, 35, 30, "A");
    }

    @Test
    void acceptsAContactBelowIt() {
        assertPassed(switched(20, ", 'contactAmps': 30"), RULE);
    }

    @Test
    void acceptsExactlyTheRating() {
        assertPassed(switched(30, ", 'contactAmps': 30"), RULE);
        only(switched(30.001, ", 'contactAmps': 30"), RULE);
    }

    @Test
    void judgesAResistorAtASpeakerOutputByTheMostVoltsThatItGives() {
        // 8 V across 16 ohms: 4 W
        Finding finding = only(resistorAtAnOutput("'watts': 3.9", "'maxVolts': 8"), RULE);

        assertThat(finding.message())
                .isEqualTo(
                        "the resistor of R between a and b turns 4.0 W to heat while CAR.C1-1 gives its 8.0 V rms, above"
                                + " the 3.9 W that it is rated for");
        assertFigures(finding, 4, 3.9, "W");
        assertPassed(resistorAtAnOutput("'watts': 4", "'maxVolts': 8"), RULE);
        assertNotChecked(resistorAtAnOutput("'watts': 4", "'minOhms': 2"), RULE, "CAR.C1-1.maxVolts");
    }

    private static Report resistorAtAnOutput(String watts, String facts) {
        String side = "{'kind': 'speaker-out', 'channel': 'left', 'drive': 'floating', " + facts + ", 'side': '%s'}";
        return check(
                members("C1-1", circuit(side.formatted("plus")), "C1-2", circuit(side.formatted("minus"))),
                members("R", inside("'resistors': [{'between': ['a', 'b'], 'ohms': 16, " + watts + "}]")),
                members("W1", wire("CAR.C1-1", "R.a"), "W2", wire("CAR.C1-2", "R.b")));
    }

    @Test
    void holdsAContactBetweenTwoBatteriesAgainstTheFuseThatLimitsTheirCharge() {
        Finding finding = only(isolating(40), RULE);

        assertThat(finding.message())
                .isEqualTo(
                        "the contact of K between 30 and 87 joins BAT.plus and CAR.battery-plus, whose charge nothing limits"
                                + " but a 100 A fuse, and is rated for 40.0 A, below 50 % of that");
        assertFigures(finding, 40, 50, "A");
        assertThat(finding.terminals()).containsExactlyInAnyOrder("K.30", "K.87", "BAT.plus", "CAR.battery-plus");
        assertPassed(isolating(50), RULE);
        only(isolating(49.9), RULE);
    }

    private static Report isolating(double contactAmps) {
        return check(
                members("C1-8", circuit("{'kind': 'supply', 'maxAmps': 5, 'fuseAmps': 5, 'live': ['running']}")),
                members(
                        "BAT",
                        inside(
                                "'terminals': {'plus': {'function': 'power.battery', 'electrical': {'kind': 'supply', 'live':"
                                        + " ['asleep', 'accessory', 'ignition', 'cranking', 'running', 'restarting']}}}"),
                        "K",
                        inside("'relays': [{'coil': ['86', '85'], 'coilOhms': 90, 'common': '30', 'open': '87',"
                                + " 'contactAmps': " + contactAmps + "}]")),
                members(
                        "W1", fused("CAR.battery-plus", "K.30", "4 AWG", 150),
                        "W2", fused("BAT.plus", "K.87", "4 AWG", 100),
                        "W3", wire("CAR.C1-8", "K.86"),
                        "W4", wire("CAR.chassis", "K.85")));
    }

    @Test
    void doesNotApplyWithoutComponents() {
        assertNotApplicable(
                check(
                        "",
                        members("AMP", device(load(20))),
                        members(
                                "W1", fused("CAR.battery-plus", "AMP.plus", "8 AWG", 60),
                                "W2", wire("AMP.minus", "CAR.chassis", "8 AWG", ""))),
                RULE);
    }

    @Test
    void isNotCheckedWithoutTheRating() {
        assertNotChecked(switched(20, ""), RULE, "K.30.contactAmps");
    }

    @Test
    void reportsADiodeAboveItsRating() {
        Finding finding = only(through(DIODE, "D.a", "D.c", 8), RULE);

        assertThat(finding.message())
                .isEqualTo("the diode of D between a and c carries 8.0 A, above the 6.0 A that it is rated for");
        assertPassed(through(DIODE, "D.a", "D.c", 5), RULE);
        assertNotChecked(
                through(inside("'diodes': [{'anode': 'a', 'cathode': 'c'}]"), "D.a", "D.c", 5), RULE, "D.a.amps");
    }

    @Test
    void doesNotCountADiodeThatBlocks() {
        assertNotApplicable(through(DIODE, "D.c", "D.a", 8), RULE);
    }

    @Test
    void reportsAResistorByItsWatts() {
        // 2 A in half an ohm are 2 W (Joule)
        String half = "'resistors': [{'between': ['a', 'c'], 'ohms': 0.5%s}]";
        Finding finding = only(through(inside(half.formatted(", 'watts': 1")), "D.a", "D.c", 2), RULE);

        assertThat(finding.message())
                .isEqualTo(
                        "the resistor of D between a and c turns 2.0 W to heat, above the 1.0 W that it is rated for");
        assertThat(finding.measured()).isCloseTo(2, within(1e-4));
        assertPassed(through(inside(half.formatted(", 'watts': 3")), "D.a", "D.c", 2), RULE);
        assertNotChecked(through(inside(half.formatted("")), "D.a", "D.c", 2), RULE, "D.a.watts");
    }

    @Test
    void takesTheMostVoltsOfTheVehicleForAResistor() {
        // 15 V over 100 Ω turn 2.25 W to heat, and 13.9 V in the middle of the range 1.93 W
        String hookup = """
                {"vehicle": {"inline": {"runningVolts": {"min": 12.8, "max": 15}, "circuits": {"C1-8": {"electrical":
                   {"kind": "supply", "maxAmps": 5, "live": ["running"]}}}}},
                 "parts": {"R": {"inline": {"resistors": [{"between": ["a", "b"], "ohms": 100, "watts": %s}]}}},
                 "connections": {"W1": {"ends": ["CAR.C1-8", "R.a"]}, "W2": {"ends": ["R.b", "CAR.chassis"]}}}
                """;
        assertThat(only(Hookups.check(hookup.formatted("2.1")), RULE).measured())
                .isCloseTo(2.25, within(0.01));
        assertThat(Hookups.findings(Hookups.check(hookup.formatted("2.3")), RULE))
                .isEmpty();
    }

    private static String load(double maxAmps) {
        return circuit("{'kind': 'load', 'needs': 'either', 'typicalAmps': 0.5, 'maxAmps': " + maxAmps
                + ", 'sleepAmps': 0, 'minVolts': 6}");
    }

    private static Report through(String part, String from, String to, double maxAmps) {
        return check(
                members("C1-7", CONSTANT),
                members("D", part, "AMP", device(load(maxAmps))),
                members(
                        "W1", wire("CAR.C1-7", from),
                        "W2", wire(to, "AMP.plus"),
                        "W3", wire("AMP.minus", "CAR.chassis")));
    }

    private static Report switched(double maxAmps, String contact) {
        String relay = inside(
                "'relays': [{'coil': ['86', '85'], 'coilOhms': 90, 'common': '30', 'open': '87'" + contact + "}]");
        return check(
                members("C1-8", Bench.ACCESSORY),
                members("K", relay, "AMP", device(load(maxAmps))),
                members(
                        "W1", wire("CAR.C1-8", "K.86"),
                        "W2", wire("K.85", "CAR.chassis"),
                        "W3", fused("CAR.battery-plus", "K.30", "8 AWG", 60),
                        "W4", wire("K.87", "AMP.plus", "8 AWG", ""),
                        "W5", wire("AMP.minus", "CAR.chassis", "8 AWG", "")));
    }
}
