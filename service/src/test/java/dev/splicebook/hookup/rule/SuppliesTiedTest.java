package dev.splicebook.hookup.rule;

import static dev.splicebook.hookup.rule.Bench.ACCESSORY;
import static dev.splicebook.hookup.rule.Bench.ALWAYS;
import static dev.splicebook.hookup.rule.Bench.CONSTANT;
import static dev.splicebook.hookup.rule.Bench.ON_ACCESSORY;
import static dev.splicebook.hookup.rule.Bench.UNMETERED;
import static dev.splicebook.hookup.rule.Bench.assertNotApplicable;
import static dev.splicebook.hookup.rule.Bench.assertNotChecked;
import static dev.splicebook.hookup.rule.Bench.assertPassed;
import static dev.splicebook.hookup.rule.Bench.assertSilent;
import static dev.splicebook.hookup.rule.Bench.check;
import static dev.splicebook.hookup.rule.Bench.circuit;
import static dev.splicebook.hookup.rule.Bench.device;
import static dev.splicebook.hookup.rule.Bench.diode;
import static dev.splicebook.hookup.rule.Bench.inside;
import static dev.splicebook.hookup.rule.Bench.load;
import static dev.splicebook.hookup.rule.Bench.members;
import static dev.splicebook.hookup.rule.Bench.only;
import static dev.splicebook.hookup.rule.Bench.relay;
import static dev.splicebook.hookup.rule.Bench.wire;
import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Hookups;
import dev.splicebook.hookup.Report;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.State;
import org.junit.jupiter.api.Test;

class SuppliesTiedTest {

    private static final String RULE = "supplies-tied";
    private static final String BOTH = members("C1-7", CONSTANT, "C1-8", ACCESSORY);
    private static final String RADIO = members("HU", device(load("constant", 1, 2)));
    private static final String RETURN = members("W9", wire("CAR.chassis", "HU.minus"));

    @Test
    void reportsConstantAndAccessoryAtOneLead() {
        Report report = check(
                BOTH,
                RADIO,
                members("W1", wire("CAR.C1-7", "HU.plus"), "W2", wire("CAR.C1-8", "HU.plus")) + ", " + RETURN);

        Finding finding = only(report, RULE);
        assertThat(finding.message())
                .isEqualTo("CAR.C1-8 and CAR.C1-7 are different supplies on one net in every state");
        assertThat(finding.severity()).isEqualTo(Severity.ERROR);
        assertThat(finding.terminals()).containsExactlyInAnyOrder("CAR.C1-7", "CAR.C1-8");
        assertThat(finding.connections()).containsExactly("W1", "W2");
        assertThat(finding.measured()).isNull();
        assertThat(report.findings()).extracting(Finding::rule).containsExactly(RULE);
    }

    @Test
    void acceptsOneSupplyForTwoLoads() {
        String two = members("HU", device(load("constant", 1, 2)), "AMP", device(load("constant", 1, 2)));
        String wires = members("W1", wire("CAR.C1-7", "HU.plus"), "W2", wire("CAR.C1-7", "AMP.plus"));
        assertPassed(check(BOTH, two, wires), RULE);
    }

    @Test
    void acceptsBatteriesThatARelayPartsAsleepAndNoOthers() {
        String battery = inside("'terminals': {'plus': " + circuit("{'kind': 'supply', " + ALWAYS + "}") + "}");
        String wires = members(
                "W1", wire("CAR.battery-plus", "K.30"),
                "W2", wire("K.87", "BAT.plus"),
                "W3", wire("CAR.%s", "K.86"),
                "W4", wire("CAR.chassis", "K.85"));
        String parts = members("K", relay(), "BAT", battery);

        assertPassed(check(BOTH, parts, wires.formatted("C1-8")), RULE);
        only(
                check(
                        BOTH,
                        parts.replace("'kind': 'supply'", "'kind': 'supply', 'volts': 24"),
                        wires.formatted("C1-8")),
                RULE);
        assertThat(only(check(BOTH, parts, wires.formatted("C1-7")), RULE).states())
                .containsExactly(State.ASLEEP);
        only(check(BOTH, parts, members("W1", wire("CAR.battery-plus", "BAT.plus"))), RULE);
        only(check(BOTH, parts, wires.formatted("C1-8").replace("BAT.plus", "CAR.C1-7")), RULE);
    }

    @Test
    void takesSecondBatteriesOfTheSameVoltsForOneBank() {
        String battery = inside("'terminals': {'plus': " + circuit("{'kind': 'supply', " + ALWAYS + "%s}") + "}");
        String twelve = battery.formatted(", 'volts': 12.6");
        String sideBySide = members("W1", wire("B2.plus", "B3.plus"));
        String byARelay = members(
                "W1", wire("B2.plus", "B3.plus"),
                "W2", wire("CAR.battery-plus", "K.30"),
                "W3", wire("K.87", "B2.plus"),
                "W4", wire("CAR.C1-8", "K.86"),
                "W5", wire("CAR.chassis", "K.85"));

        assertPassed(check("", members("B2", twelve, "B3", twelve), sideBySide), RULE);
        assertPassed(check(BOTH, members("K", relay(), "B2", twelve, "B3", twelve), byARelay), RULE);
        only(check("", members("B2", twelve, "B3", battery.formatted(", 'volts': 6.3")), sideBySide), RULE);
        only(check(BOTH, members("K", relay(), "B2", twelve, "B3", twelve), byARelay.replace("C1-8", "C1-7")), RULE);
        only(
                check(
                        "",
                        members("B2", twelve, "B3", twelve),
                        members("W1", wire("B2.plus", "B3.plus"), "W2", wire("B3.plus", "CAR.battery-plus"))),
                RULE);
        assertNotChecked(
                check("", members("B2", twelve, "B3", battery.formatted("")), sideBySide), RULE, "B3.plus.volts");
    }

    @Test
    void saysWithWhichConditionTheyMeet() {
        String lamps =
                "{'electrical': {'kind': 'supply', 'maxAmps': 10, 'fuseAmps': 10, 'when': 'lamps', " + ALWAYS + "}}";
        String wires = members(
                "W1", wire("CAR.battery-plus", "K.30"),
                "W2", wire("K.87", "CAR.C1-8"),
                "W3", wire("CAR.L1-1", "K.86"),
                "W4", wire("CAR.chassis", "K.85"));

        assertThat(only(check(BOTH + ", " + members("L1-1", lamps), members("K", relay()), wires), RULE)
                        .message())
                .isEqualTo("CAR.C1-8 and CAR.battery-plus are different supplies on one net in every state with lamps");
    }

    @Test
    void saysThatTwoConditionsAtOnceBringThemTogether() {
        String lamps =
                "{'electrical': {'kind': 'supply', 'maxAmps': 10, 'fuseAmps': 10, 'when': 'lamps', " + ALWAYS + "}}";
        String wires = members(
                "W1", wire("CAR.battery-plus", "K.30"),
                "W2", wire("K.87", "L.30"),
                "W3", wire("L.87", "CAR.C1-8"),
                "W4", wire("CAR.L1-1", "K.86"),
                "W5", wire("CAR.chassis", "K.85"),
                "W6", wire("CAR.R1-1", "L.86"),
                "W7", wire("CAR.chassis", "L.85"));

        assertThat(only(
                                check(
                                        BOTH + ", "
                                                + members("L1-1", lamps, "R1-1", lamps.replace("'lamps'", "'reverse'")),
                                        members("K", relay(), "L", relay()),
                                        wires),
                                RULE)
                        .message())
                .isEqualTo(
                        "CAR.C1-8 and CAR.battery-plus are different supplies on one net in every state with reverse and lamps");
    }

    @Test
    void acceptsTwoCircuitsFromOneSource() {
        String one = "{'source': 'slot F12', 'electrical': {'kind': 'supply', 'fuseAmps': 15, " + ALWAYS + "}}";
        String other = one.replace("F12", "F13");
        String tie = members("W1", wire("CAR.C1-7", "CAR.C2-1"));
        assertPassed(check(members("C1-7", one, "C2-1", one), "", tie), RULE);
        only(check(members("C1-7", one, "C2-1", other), "", tie), RULE);
    }

    @Test
    void doesNotApplyWhereNoSupplyIsUsed() {
        assertNotApplicable(check(BOTH, RADIO, RETURN), RULE);
    }

    @Test
    void isNotCheckedWhereItIsUnknownWhatACircuitBesideASupplyIs() {
        assertNotChecked(
                check(
                        members("C1-7", CONSTANT, "C1-9", UNMETERED),
                        RADIO,
                        members("W1", wire("CAR.C1-7", "HU.plus"), "W2", wire("CAR.C1-9", "HU.plus")) + ", " + RETURN),
                RULE,
                "CAR.C1-9.electrical");
    }

    @Test
    void findsTwoSuppliesThatAnAdapterTies() {
        Finding finding = only(
                check(
                        BOTH,
                        members("LEAD", inside("'conducts': [['yellow', 'red']]")),
                        members("W1", wire("CAR.C1-7", "LEAD.yellow"), "W2", wire("CAR.C1-8", "LEAD.red"))),
                RULE);
        assertThat(finding.connections()).containsExactly("W1", "W2");
    }

    @Test
    void findsTwoSuppliesThatAPlugTies() {
        String harness = inside("'terminals': {'C1-7': {}, 'C1-8': {}}, 'conducts': [['C1-7', 'C1-8']]");
        only(check(BOTH, members("H", harness), "", "'plugs': [['CAR.C1', 'H.C1']]"), RULE);
    }

    @Test
    void takesADiodeInEachForIsolation() {
        assertPassed(
                check(
                        BOTH,
                        members("D", diode(), "E", diode(), "HU", device(load("constant", 1, 2))),
                        members(
                                        "W1", wire("CAR.C1-7", "D.a"),
                                        "W2", wire("CAR.C1-8", "E.a"),
                                        "W3", wire("D.c", "HU.plus"),
                                        "W4", wire("E.c", "HU.plus"))
                                + ", " + RETURN),
                RULE);
    }

    @Test
    void findsTwoSuppliesBehindOneDiode() {
        only(
                check(
                        BOTH,
                        members("D", diode()),
                        members("W1", wire("CAR.C1-7", "D.a"), "W2", wire("CAR.C1-8", "D.a"))),
                RULE);
    }

    @Test
    void takesAChangeoverContactForIsolation() {
        assertPassed(check(BOTH, members("K", relay()), changeover("K.87", "K.87a")), RULE);
    }

    @Test
    void acceptsAChargerOnABatteryOtherThanTheOneThatFeedsIt() {
        String charger = "{'inline': {'terminals': {"
                + "'in': {'electrical': {'kind': 'load', 'typicalAmps': 25, 'maxAmps': 32, 'needs': 'either'}},"
                + " 'minus': {'electrical': {'kind': 'ground'}},"
                + " 'out': {'function': 'power.battery', 'electrical': {'kind': 'supply', 'maxAmps': 25, 'live': ['running'],"
                + " 'limited': %s}}}}}";
        String battery = "{'inline': {'terminals': {'plus': {'electrical': {'kind': 'supply'}}, 'minus': {'electrical':"
                + " {'kind': 'ground'}}}}}";
        String wires = members(
                "W1",
                wire("CAR.battery-plus", "CH.in"),
                "W2",
                wire("CH.minus", "CAR.chassis"),
                "W3",
                wire("B2.minus", "CAR.chassis"));
        String charging = wires + ", " + members("W4", wire("CH.out", "B2.plus"));
        String round = wires + ", " + members("W4", wire("CH.out", "CAR.battery-plus"));

        assertPassed(check("", members("CH", charger.formatted("true"), "B2", battery), charging), RULE);
        only(check("", members("CH", charger.formatted("false"), "B2", battery), charging), RULE);
        only(check("", members("CH", charger.formatted("true"), "B2", battery), round), RULE);
    }

    @Test
    void namesTheStatesInWhichAContactTiesTwoSupplies() {
        // the contact closes with the accessory circuit and puts the constant feed on it, by which it stays pulled
        // while the engine is cranked and asleep
        Finding finding = only(check(BOTH, members("K", relay()), changeover("K.30", "K.87")), RULE);
        assertThat(finding.states()).containsExactly(State.values());
    }

    @Test
    void tellsAThirdSupplyThatJoinsTwoWithThem() {
        Report report = check(
                members("C1-7", CONSTANT, "C1-8", ACCESSORY, "C1-15", CONSTANT),
                members("K", relay()),
                changeover("K.30", "K.87") + ", " + members("W5", wire("CAR.C1-15", "K.30")));
        assertThat(only(report, RULE).terminals()).containsExactlyInAnyOrder("CAR.C1-7", "CAR.C1-8", "CAR.C1-15");
    }

    @Test
    void findsAnOutputOfAModuleOnAFactoryFeed() {
        String module = "{'inline': {'terminals': {'plus': %s, 'minus': %s, 'accessory': %s}}}"
                .formatted(
                        load("constant", 0.2, 0.5),
                        Bench.GROUND,
                        circuit("{'kind': 'supply', 'maxAmps': 1, 'limited': true, " + ON_ACCESSORY + "}"));
        only(
                check(
                        BOTH,
                        members("IFC", module),
                        members(
                                "W1", wire("CAR.C1-7", "IFC.plus"),
                                "W2", wire("CAR.chassis", "IFC.minus"),
                                "W3", wire("IFC.accessory", "CAR.C1-8"))),
                RULE);
    }

    @Test
    void leavesAShortedNetToTheShort() {
        Report report =
                check(BOTH, "", members("W1", wire("CAR.C1-7", "CAR.C1-8"), "W2", wire("CAR.C1-8", "CAR.chassis")));
        assertSilent(report, RULE);
        assertThat(Hookups.findings(report, "supply-shorted-to-ground")).hasSize(1);
    }

    /** The coil hangs on the accessory circuit. */
    private static String changeover(String constantAt, String accessoryAt) {
        return members(
                "W1", wire("CAR.C1-8", "K.86"),
                "W2", wire("CAR.chassis", "K.85"),
                "W3", wire("CAR.C1-7", constantAt),
                "W4", wire("CAR.C1-8", accessoryAt));
    }
}
