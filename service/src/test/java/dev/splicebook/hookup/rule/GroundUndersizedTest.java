package dev.splicebook.hookup.rule;

import static dev.splicebook.hookup.rule.Bench.assertFigures;
import static dev.splicebook.hookup.rule.Bench.assertNotApplicable;
import static dev.splicebook.hookup.rule.Bench.assertNotChecked;
import static dev.splicebook.hookup.rule.Bench.assertPassed;
import static dev.splicebook.hookup.rule.Bench.assertSilent;
import static dev.splicebook.hookup.rule.Bench.check;
import static dev.splicebook.hookup.rule.Bench.circuit;
import static dev.splicebook.hookup.rule.Bench.device;
import static dev.splicebook.hookup.rule.Bench.inside;
import static dev.splicebook.hookup.rule.Bench.members;
import static dev.splicebook.hookup.rule.Bench.only;
import static dev.splicebook.hookup.rule.Bench.relay;
import static dev.splicebook.hookup.rule.Bench.wire;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Report;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.State;
import java.util.List;
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
    void judgesTheMinusOfABatteryOfAPartByTheFuseAtItsPlus() {
        Finding finding = only(secondBattery("W2", wire("AUX.minus", "CAR.chassis", "14 AWG", "")), RULE);
        assertThat(finding.message())
                .isEqualTo(
                        "the ground of AUX, connection W2, bears 35.0 A, below the 60.0 A that its plus, AUX.plus, is"
                                + " fused for");
        assertThat(finding.terminals()).containsExactlyInAnyOrder("AUX.minus", "CAR.chassis");

        assertPassed(secondBattery("W2", wire("AUX.minus", "CAR.chassis", "4 AWG", "")), RULE);
        // 14 AWG bears 35 A, 12 AWG 45 A (33 CFR 183.425 table 5, 105 °C); two of them side by side 90 A
        String twelve = wire("AUX.minus", "CAR.chassis", "12 AWG", "");
        assertPassed(secondBattery("W2", twelve, "W3", twelve), RULE);
        assertNotChecked(
                secondBattery("W2", "{'ends': ['AUX.minus', 'CAR.chassis']}"), RULE, "connection W2.conductor");
    }

    @Test
    void takesTheLargestFuseOfABatteryOfAPartInAHolderToo() {
        String battery = "{'inline': {'terminals': {'plus': {'electrical': {'kind': 'supply'}}, 'plus2': {'electrical':"
                + " {'kind': 'supply'}}, 'minus': {'electrical': {'kind': 'ground'}}}}}";
        String holder = Bench.inside("'fuses': [{'between': ['a', 'b'], 'ratingAmps': 60}]");
        Finding finding = only(
                check(
                        "",
                        members("AUX", battery, "K", relay(), "F", holder),
                        members(
                                "W1",
                                wire("AUX.plus", "F.a", "4 AWG", ""),
                                "W3",
                                wire("F.b", "K.30", "4 AWG", ""),
                                "W4",
                                wire("AUX.plus2", "K.87", "10 AWG", ", 'fuse': {'ratingAmps': 40}"),
                                "W2",
                                wire("AUX.minus", "CAR.chassis", "14 AWG", ""))),
                RULE);
        assertThat(finding.message()).contains("below the 60.0 A that its plus, AUX.plus, is fused for");
    }

    private static Report secondBattery(String... minus) {
        String battery = "{'inline': {'terminals': {'plus': {'electrical': {'kind': 'supply', 'live': ['asleep',"
                + " 'accessory', 'ignition', 'cranking', 'running', 'restarting']}}, 'minus': {'electrical': {'kind':"
                + " 'ground'}}}}}";
        return check(
                "",
                members("AUX", battery, "K", relay()),
                members("W1", wire("AUX.plus", "K.30", "4 AWG", ", 'fuse': {'ratingAmps': 60}")) + ", "
                        + members(minus));
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

    @Test
    void addsUpWhatGroundsSideBySideBear() {
        assertPassed(grounds("12 AWG", "12 AWG"), RULE);
        Finding finding = only(grounds("14 AWG", "18 AWG"), RULE);
        assertThat(finding.message())
                .isEqualTo("the grounds of AMP, connections W2 and W3, together bear 55.0 A, below the 60.0 A that the"
                        + " feed bears");
        for (Report turned : List.of(groundsTurned("14 AWG", "18 AWG"), groundsTurned("18 AWG", "14 AWG"))) {
            assertThat(only(turned, RULE).measured()).isEqualTo(55);
        }
        assertThat(finding.connections()).containsExactlyInAnyOrder("W2", "W3");
        assertThat(finding.terminals()).containsExactlyInAnyOrder("AMP.minus", "CAR.chassis", "AMP.other");
        assertFigures(finding, 55, 60, "A");
    }

    @Test
    void countsGroundsThatMeetInOneLeadAsThatLead() {
        assertThat(only(
                                check(
                                        "",
                                        members("AMP", twoGrounds(), "J", inside("'conducts': [['a', 'b', 'c']]")),
                                        members(
                                                "W1", feed(),
                                                "W2", wire("AMP.minus", "J.a", "12 AWG", metres(0.2)),
                                                "W3", wire("AMP.other", "J.b", "12 AWG", metres(0.2)),
                                                "W4", wire("J.c", "CAR.chassis", "12 AWG", metres(0.2)))),
                                RULE)
                        .measured())
                .isEqualTo(45);
    }

    @Test
    void countsReturnsThatAChangeoverContactPartsNeverTogether() {
        String circuit = circuit("{'kind': 'supply', 'maxAmps': 5, 'fuseAmps': 5, 'live': ['running']}");
        assertThat(only(
                                check(
                                        members("R1-1", circuit),
                                        members("AMP", device(load(40)), "K", Bench.relay()),
                                        members(
                                                "W1", feed(),
                                                "W2", wire("AMP.minus", "K.30", "4 AWG", metres(0.2)),
                                                "W3", wire("K.87", "CAR.chassis", "12 AWG", metres(0.2)),
                                                "W4", wire("K.87a", "CAR.chassis", "12 AWG", metres(0.2)),
                                                "W5", wire("CAR.R1-1", "K.86"),
                                                "W6", wire("K.85", "CAR.chassis"))),
                                RULE)
                        .measured())
                .isEqualTo(45);
    }

    @Test
    void reportsAGroundOfTheVehicleThatTakesBackMoreThanItBears() {
        Finding finding = only(pin(5, 12), RULE);
        assertThat(finding.message())
                .isEqualTo("CAR.C1-4 takes 12.0 A back from X, above the 5.0 A that this ground of the vehicle bears");
        assertThat(finding.help()).isEqualTo("return X at a ground point of the chassis.");
        assertThat(finding.terminals()).containsExactly("CAR.C1-4");
        assertThat(finding.connections()).containsExactly("W2");
        assertFigures(finding, 12, 5, "A");
        assertPassed(pin(12, 12), RULE);
        assertPassed(pin(5, 5), RULE);
    }

    @Test
    void addsUpWhatPinsBearThatAnAdapterJoins() {
        String pin = circuit("{'kind': 'ground', 'maxAmps': 5}");
        String feed = members("W1", wire("CAR.C1-7", "X.plus", "12 AWG", metres(0.3)));
        String adapter =
                inside("'terminals': {'C1-4': {}, 'C1-5': {}, 'out': {}}, 'conducts': [['C1-4', 'C1-5', 'out']]");
        String parts = members("X", device(load(8)), "H", adapter);
        String wires = feed + ", " + members("W2", wire("X.minus", "H.out", "12 AWG", metres(0.3)));
        String circuits = members("C1-7", FEED, "C1-4", pin, "C1-5", pin);
        assertPassed(check(circuits, parts, wires, "'plugs': [['CAR.C1', 'H.C1']]"), RULE);
        assertThat(only(
                                check(
                                        circuits,
                                        parts.replace("'maxAmps': 8.0", "'maxAmps': 11.0"),
                                        wires,
                                        "'plugs': [['CAR.C1', 'H.C1']]"),
                                RULE)
                        .message())
                .isEqualTo(
                        "CAR.C1-4 and CAR.C1-5 together take 11.0 A back from X, above the 10.0 A that these grounds of"
                                + " the vehicle bear");
    }

    private static final String FEED =
            circuit("{'kind': 'supply', 'maxAmps': 15, 'fuseAmps': 15, " + Bench.ALWAYS + "}");

    @Test
    void namesAllThatALeadLiftsWhicheverComesFirst() {
        for (String[] order : new String[][] {{"A1", "A2"}, {"A2", "A1"}}) {
            Finding finding = only(
                    check(
                            "",
                            members(order[0], device(load(50)), order[1], device(load(50))),
                            members(
                                    "W1", wire("CAR.battery-plus", order[0] + ".plus", "4 AWG", metres(1)),
                                    "W2", wire("CAR.battery-plus", order[1] + ".plus", "4 AWG", metres(1)),
                                    "W3", wire(order[0] + ".minus", order[1] + ".minus", "4 AWG", metres(0.01)),
                                    "W4", wire(order[1] + ".minus", "CAR.chassis", "4 AWG", metres(3)))),
                    RULE);

            assertThat(finding.message()).startsWith("the grounds of A1 and A2 stand up to ");
        }
    }

    private static Report pin(double bears, double draws) {
        return check(
                members("C1-7", FEED, "C1-4", circuit("{'kind': 'ground', 'maxAmps': " + bears + "}")),
                members("X", device(load(draws))),
                members(
                        "W1", wire("CAR.C1-7", "X.plus", "12 AWG", metres(0.3)),
                        "W2", wire("X.minus", "CAR.C1-4", "12 AWG", metres(0.3))));
    }

    private static String twoGrounds() {
        return device(load(40) + ", 'other': " + Bench.GROUND);
    }

    private static Report grounds(String one, String other) {
        return check(
                "",
                members("AMP", twoGrounds()),
                members(
                        "W1", feed(),
                        "W2", wire("AMP.minus", "CAR.chassis", one, metres(0.2)),
                        "W3", wire("AMP.other", "CAR.chassis", other, metres(0.2))));
    }

    /** The same grounds, written from the chassis. */
    private static Report groundsTurned(String one, String other) {
        return check(
                "",
                members("AMP", twoGrounds()),
                members(
                        "W1", feed(),
                        "W2", wire("CAR.chassis", "AMP.minus", one, metres(0.2)),
                        "W3", wire("CAR.chassis", "AMP.other", other, metres(0.2))));
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
