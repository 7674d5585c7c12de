package dev.splicebook.hookup.rule;

import static dev.splicebook.hookup.rule.Bench.ACCESSORY;
import static dev.splicebook.hookup.rule.Bench.ALWAYS;
import static dev.splicebook.hookup.rule.Bench.CONSTANT;
import static dev.splicebook.hookup.rule.Bench.GROUND;
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
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.State;
import org.junit.jupiter.api.Test;

class ConstantLoadOnSwitchedSupplyTest {

    private static final String RULE = "constant-load-on-switched-supply";
    private static final String RETURN = members("W9", wire("CAR.chassis", "HU.minus"));

    @Test
    void reportsAMemoryLeadOnTheAccessoryCircuit() {
        Report report = feed(ACCESSORY, "constant");

        Finding finding = only(report, RULE);
        assertThat(finding.message())
                .isEqualTo(
                        "HU.plus needs constant feed, and CAR.C1-8, which it hangs on, leaves it without in the states"
                                + " asleep and cranking");
        assertThat(finding.severity()).isEqualTo(Severity.ERROR);
        assertThat(finding.terminals()).containsExactlyInAnyOrder("HU.plus", "CAR.C1-8");
        assertThat(finding.connections()).containsExactly("W1");
        assertThat(finding.states()).containsExactly(State.ASLEEP, State.CRANKING);
        assertThat(report.findings()).extracting(Finding::rule).containsExactly(RULE);
    }

    @Test
    void acceptsAMemoryLeadOnTheConstantCircuitOrTheBattery() {
        assertPassed(feed(CONSTANT, "constant"), RULE);
        assertPassed(
                check(
                        "",
                        members("HU", device(load("constant", 1, 2))),
                        members("W1", fused("CAR.battery-plus", "HU.plus", "16 AWG", 5)) + ", " + RETURN),
                RULE);
    }

    @Test
    void reportsTheLossOfASingleState() {
        String cutWhileCranking = circuit("{'kind': 'supply', 'maxAmps': 10, 'fuseAmps': 10,"
                + " 'live': ['asleep', 'accessory', 'ignition', 'running', 'restarting']}");
        Finding finding = only(feed(cutWhileCranking, "constant"), RULE);
        assertThat(finding.states()).containsExactly(State.CRANKING);
        assertThat(finding.message()).endsWith("leaves it without in the state cranking");
    }

    @Test
    void doesNotApplyToALoadThatMayBeSwitched() {
        assertNotApplicable(feed(ACCESSORY, "either"), RULE);
        assertNotApplicable(feed(ACCESSORY, "switched"), RULE);
    }

    @Test
    void isNotCheckedWhereItIsUnknownWhatTheLoadNeeds() {
        String load = circuit("{'kind': 'load', 'typicalAmps': 1, 'maxAmps': 2}");
        assertNotChecked(
                check(
                        members("C1-8", ACCESSORY),
                        members("HU", device(load)),
                        members("W1", wire("CAR.C1-8", "HU.plus")) + ", " + RETURN),
                RULE,
                "HU.plus.needs");
    }

    @Test
    void acceptsAConstantFeedWhateverTheLoadNeeds() {
        String load = circuit("{'kind': 'load', 'typicalAmps': 1, 'maxAmps': 2}");
        assertPassed(
                check(
                        members("C1-7", CONSTANT),
                        members("HU", device(load)),
                        members("W1", wire("CAR.C1-7", "HU.plus")) + ", " + RETURN),
                RULE);
    }

    @Test
    void isNotCheckedWhereItIsUnknownWhenTheSupplyIsLive() {
        assertNotChecked(
                feed(circuit("{'kind': 'supply', 'maxAmps': 10, 'fuseAmps': 10}"), "constant"), RULE, "CAR.C1-8.live");
        assertNotChecked(feed(UNMETERED, "constant"), RULE, "CAR.C1-8.electrical");
    }

    @Test
    void reportsAFeedThatHoldsOnlyInReverse() {
        String reverse = circuit("{'kind': 'supply', 'maxAmps': 5, 'fuseAmps': 10, 'live': ['ignition', 'running'],"
                + " 'when': 'reverse'}");
        assertThat(only(feed(reverse, "constant"), RULE).states()).containsExactly(State.values());
    }

    @Test
    void findsTheSwitchedContactBetweenBatteryAndLoad() {
        Finding finding = only(throughRelay("K.87"), RULE);
        assertThat(finding.states()).containsExactly(State.ASLEEP, State.CRANKING);
        assertThat(finding.terminals()).containsExactlyInAnyOrder("HU.plus", "CAR.C1-7");
    }

    @Test
    void findsTheLossAtAContactThatOpensWithTheAccessoryCircuit() {
        assertThat(only(throughRelay("K.87a"), RULE).states())
                .containsExactly(State.ACCESSORY, State.IGNITION, State.RUNNING, State.RESTARTING);
    }

    @Test
    void acceptsTwoFeedsThatDiodesJoinIfOneIsConstant() {
        assertPassed(throughDiodes(CONSTANT, ACCESSORY), RULE);
        Finding finding = only(throughDiodes(ACCESSORY, ACCESSORY), RULE);
        assertThat(finding.message()).contains("CAR.C1-7 and CAR.C1-8, which it hangs on, leave it without");
    }

    @Test
    void followsAPlugAndALead() {
        String harness = inside("'terminals': {'C1-8': {}, 'yellow': {}}, 'conducts': [['C1-8', 'yellow']]");
        only(
                check(
                        members("C1-8", ACCESSORY),
                        members("H", harness, "HU", device(load("constant", 1, 2))),
                        members("W1", wire("H.yellow", "HU.plus")) + ", " + RETURN,
                        "'plugs': [['CAR.C1', 'H.C1']]"),
                RULE);
    }

    @Test
    void tellsAModuleThatLosesItsFeedAndNotWhatHangsOnIt() {
        String module = "{'inline': {'terminals': {'plus': %s, 'minus': %s, 'memory': %s}}}"
                .formatted(
                        load("constant", 0.2, 0.5),
                        GROUND,
                        circuit("{'kind': 'supply', 'maxAmps': 5, 'limited': true, " + ALWAYS + "}"));
        String parts = members("IFC", module, "HU", device(load("constant", 1, 2)));
        String wires = members(
                        "W1", wire("CAR.C1-8", "IFC.plus"),
                        "W2", wire("CAR.chassis", "IFC.minus"),
                        "W3", wire("IFC.memory", "HU.plus"))
                + ", " + RETURN;
        assertThat(only(check(members("C1-8", ACCESSORY), parts, wires), RULE).terminals())
                .containsExactlyInAnyOrder("IFC.plus", "CAR.C1-8");
        assertPassed(check(members("C1-8", CONSTANT), parts, wires), RULE);
    }

    @Test
    void leavesALoadThatIsNeverFedToItsOwnRule() {
        String never = circuit("{'kind': 'supply', 'maxAmps': 10, 'fuseAmps': 10, 'live': []}");
        Report report = feed(never, "constant");
        assertSilent(report, RULE);
        only(report, "load-without-supply");
    }

    private static Report feed(String supply, String needs) {
        return check(
                members("C1-8", supply),
                members("HU", device(load(needs, 1, 2))),
                members("W1", wire("CAR.C1-8", "HU.plus")) + ", " + RETURN);
    }

    private static Report throughRelay(String contact) {
        return check(
                members("C1-8", ACCESSORY, "C1-7", CONSTANT),
                members("K", relay(), "HU", device(load("constant", 1, 2))),
                members(
                                "W1", wire("CAR.C1-8", "K.86"),
                                "W2", wire("CAR.chassis", "K.85"),
                                "W3", wire("CAR.C1-7", "K.30"),
                                "W4", wire(contact, "HU.plus"))
                        + ", " + RETURN);
    }

    private static Report throughDiodes(String one, String other) {
        return check(
                members("C1-7", one, "C1-8", other),
                members("D", diode(), "E", diode(), "HU", device(load("constant", 1, 2))),
                members(
                                "W1", wire("CAR.C1-7", "D.a"),
                                "W2", wire("CAR.C1-8", "E.a"),
                                "W3", wire("D.c", "HU.plus"),
                                "W4", wire("E.c", "HU.plus"))
                        + ", " + RETURN);
    }
}
