package dev.splicebook.hookup.rule;

import static dev.splicebook.hookup.rule.Bench.ACCESSORY;
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
import static dev.splicebook.hookup.rule.Bench.fused;
import static dev.splicebook.hookup.rule.Bench.inside;
import static dev.splicebook.hookup.rule.Bench.load;
import static dev.splicebook.hookup.rule.Bench.members;
import static dev.splicebook.hookup.rule.Bench.only;
import static dev.splicebook.hookup.rule.Bench.relay;
import static dev.splicebook.hookup.rule.Bench.wire;
import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Report;
import dev.splicebook.hookup.Report.Verdict;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.State;
import org.junit.jupiter.api.Test;

class SupplyShortedToGroundTest {

    private static final String RULE = "supply-shorted-to-ground";

    @Test
    void reportsAConstantFeedOnTheChassis() {
        Report report = check(members("C1-7", CONSTANT), "", members("W1", wire("CAR.C1-7", "CAR.chassis")));

        Finding finding = only(report, RULE);
        assertThat(finding.message()).isEqualTo("CAR.C1-7 is shorted to ground at CAR.chassis in every state");
        assertThat(finding.severity()).isEqualTo(Severity.DANGER);
        assertThat(finding.terminals()).containsExactlyInAnyOrder("CAR.C1-7", "CAR.chassis");
        assertThat(finding.connections()).containsExactly("W1");
        assertThat(finding.states()).containsExactly(State.values());
        assertThat(report.verdict()).isEqualTo(Verdict.NOT_READY);
    }

    @Test
    void namesThePartThatAShortLeadsThrough() {
        Report report = check(
                members("C1-7", CONSTANT),
                members("LED", diode()),
                members("W1", wire("CAR.C1-7", "LED.a"), "W2", wire("LED.c", "CAR.chassis")));

        assertThat(only(report, RULE).message())
                .isEqualTo("CAR.C1-7 is shorted to ground at CAR.chassis through LED in every state");
    }

    @Test
    void seesAShortThroughARestingContactThoughTheCoilHasADiode() {
        String relay = "{'inline': {'relays': [{'coil': ['85', '86'], 'coilOhms': 90, 'common': '30', 'open': '87',"
                + " 'closed': '87a'}], 'diodes': [{'anode': '85', 'cathode': '86', 'amps': 1}]}}";
        Report report = check(
                members("C1-7", CONSTANT, "C1-8", ACCESSORY),
                members("K", relay),
                members(
                        "W1",
                        wire("CAR.C1-7", "K.30"),
                        "W2",
                        wire("K.87a", "CAR.chassis"),
                        "W3",
                        wire("K.86", "CAR.C1-8"),
                        "W4",
                        wire("K.85", "CAR.chassis")));

        assertThat(only(report, RULE).states()).containsExactly(State.ASLEEP, State.CRANKING);
        assertSilent(report, "relay-restless");
    }

    @Test
    void namesTheStatesInWhichASwitchedFeedIsShorted() {
        Finding finding =
                only(check(members("C1-8", ACCESSORY), "", members("W1", wire("CAR.C1-8", "CAR.battery-minus"))), RULE);

        assertThat(finding.message())
                .isEqualTo("CAR.C1-8 is shorted to ground at CAR.battery-minus in the states accessory, ignition,"
                        + " running and restarting");
        assertThat(finding.states()).containsExactly(State.ACCESSORY, State.IGNITION, State.RUNNING, State.RESTARTING);
    }

    @Test
    void acceptsALoadBetweenSupplyAndGround() {
        assertPassed(
                check(
                        members("C1-7", CONSTANT),
                        members("HU", device(load("constant", 1, 2))),
                        members("W1", wire("CAR.C1-7", "HU.plus"), "W2", wire("CAR.chassis", "HU.minus"))),
                RULE);
    }

    @Test
    void acceptsTheLeastResistanceThatIsNoConductor() {
        // a resistor limits the current, however small; a conducting group does not
        String parts = members("R", inside("'resistors': [{'between': ['a', 'b'], 'ohms': 0.1}]"));
        String connections = members("W1", wire("CAR.C1-7", "R.a"), "W2", wire("R.b", "CAR.chassis"));
        assertPassed(check(members("C1-7", CONSTANT), parts, connections), RULE);
        only(check(members("C1-7", CONSTANT), members("R", inside("'conducts': [['a', 'b']]")), connections), RULE);
    }

    @Test
    void doesNotApplyWithoutASupply() {
        assertNotApplicable(
                check("", members("HU", device(load("either", 1, 2))), members("W1", wire("CAR.chassis", "HU.minus"))),
                RULE);
    }

    @Test
    void isNotCheckedWhereItIsUnknownWhatACircuitOnGroundIs() {
        assertNotChecked(
                check(members("C1-9", UNMETERED), "", members("W1", wire("CAR.C1-9", "CAR.chassis"))),
                RULE,
                "CAR.C1-9.electrical");
    }

    @Test
    void reportsASupplyOfUnknownStatesBecauseItIsLiveAtSomeTime() {
        Finding finding = only(
                check(
                        members("C1-7", circuit("{'kind': 'supply', 'maxAmps': 10, 'fuseAmps': 10}")),
                        "",
                        members("W1", wire("CAR.C1-7", "CAR.chassis"))),
                RULE);
        assertThat(finding.message()).isEqualTo("CAR.C1-7 is shorted to ground at CAR.chassis whenever live");
        assertThat(finding.states()).isEmpty();
    }

    @Test
    void findsTheShortThatAnAdapterMakesInside() {
        Finding finding = only(
                check(
                        members("C1-7", CONSTANT),
                        members("LEAD", inside("'conducts': [['red', 'sleeve', 'black']]")),
                        members("W1", wire("CAR.C1-7", "LEAD.red"), "W2", wire("CAR.chassis", "LEAD.black"))),
                RULE);
        assertThat(finding.connections()).containsExactly("W1", "W2");
    }

    @Test
    void findsAShortThroughAPlug() {
        String harness = inside("'terminals': {'C1-7': {}, 'C1-8': {}}, 'conducts': [['C1-7', 'C1-8']]");
        String circuits = members("C1-7", CONSTANT, "C1-8", circuit("{'kind': 'ground'}"));
        Finding finding = only(check(circuits, members("H", harness), "", "'plugs': [['CAR.C1', 'H.C1']]"), RULE);
        assertThat(finding.terminals()).containsExactlyInAnyOrder("CAR.C1-7", "CAR.C1-8");
    }

    @Test
    void findsAShortThroughAContactInTheStatesInWhichItCloses() {
        Finding finding = only(
                check(
                        members("C1-7", CONSTANT, "C1-8", ACCESSORY),
                        members("K", relay()),
                        members(
                                "W1", wire("CAR.C1-8", "K.86"),
                                "W2", wire("CAR.chassis", "K.85"),
                                "W3", wire("CAR.C1-7", "K.30"),
                                "W4", wire("CAR.chassis", "K.87"))),
                RULE);
        assertThat(finding.terminals()).contains("CAR.C1-7").doesNotContain("CAR.C1-8");
        assertThat(finding.states()).containsExactly(State.ACCESSORY, State.IGNITION, State.RUNNING, State.RESTARTING);
    }

    @Test
    void tellsAClampDiodeFromOneTheWrongWayRound() {
        String right = members("W1", wire("CAR.C1-7", "D.c"), "W2", wire("CAR.chassis", "D.a"));
        String wrong = members("W1", wire("CAR.C1-7", "D.a"), "W2", wire("CAR.chassis", "D.c"));
        assertPassed(check(members("C1-7", CONSTANT), members("D", diode()), right), RULE);
        Finding finding = only(check(members("C1-7", CONSTANT), members("D", diode()), wrong), RULE);
        assertThat(finding.connections()).containsExactly("W1", "W2");
    }

    @Test
    void findsAShortOnlyOnTheSideOfACutThatIsLive() {
        String circuits = members(
                "C1-7",
                "{'whenPlugged': {'kind': 'supply', 'maxAmps': 1, 'limited': true, %s}, 'whenUnplugged': {'kind': 'passive'}}"
                        .formatted(ON_ACCESSORY));
        String cut = "vehicle:'cuts': ['C1-7']";
        only(check(circuits, "", members("W1", wire("CAR.C1-7/unit", "CAR.chassis")), cut), RULE);
        assertNotApplicable(check(circuits, "", members("W1", wire("CAR.C1-7/harness", "CAR.chassis")), cut), RULE);
    }

    @Test
    void findsAnOutputOfAPartOnGroundWhileThePartIsFed() {
        String module = "{'inline': {'terminals': {'plus': %s, 'minus': %s, 'accessory': %s}}}"
                .formatted(
                        load("constant", 0.2, 0.5),
                        Bench.GROUND,
                        circuit("{'kind': 'supply', 'maxAmps': 1, 'limited': true, " + ON_ACCESSORY + "}"));
        String shorted = wire("IFC.accessory", "CAR.chassis");
        String fed = members("W1", wire("CAR.C1-7", "IFC.plus"), "W2", wire("CAR.chassis", "IFC.minus"), "W3", shorted);
        only(check(members("C1-7", CONSTANT), members("IFC", module), fed), RULE);
        assertPassed(check("", members("IFC", module), members("W3", shorted)), RULE);
    }

    @Test
    void isTheOnlyFindingOfABareWireFromBatteryToChassis() {
        Report report = check("", "", members("W1", wire("CAR.battery-plus", "CAR.chassis")));
        assertThat(report.findings()).extracting(Finding::rule).containsExactly(RULE);
    }

    @Test
    void speaksForTheReturnsOfOtherPartsOnTheSameGround() {
        // the ground leads of the head unit are no thinner branches of the shorted feed
        Report report = check(
                members("C1-7", CONSTANT, "C1-15", CONSTANT),
                members("HU", device(load("constant", 1, 2))),
                members(
                        "W1", wire("CAR.C1-7", "CAR.chassis"),
                        "W2", fused("CAR.C1-15", "HU.plus", "16 AWG", 10),
                        "W3", wire("CAR.chassis", "HU.minus", "18 AWG", "")));
        assertThat(report.findings()).extracting(Finding::rule).containsExactly(RULE);
    }

    @Test
    void tellsTwoSuppliesOnOneGroundTogether() {
        Finding finding = only(
                check(
                        members("C1-7", CONSTANT, "C1-15", CONSTANT),
                        "",
                        members("W1", wire("CAR.C1-7", "CAR.chassis"), "W2", wire("CAR.C1-15", "CAR.chassis"))),
                RULE);
        assertThat(finding.message())
                .isEqualTo("CAR.C1-15 and CAR.C1-7 are shorted to ground at CAR.chassis in every state");
    }
}
