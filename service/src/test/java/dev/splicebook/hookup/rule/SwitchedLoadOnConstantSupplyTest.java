package dev.splicebook.hookup.rule;

import static dev.splicebook.hookup.rule.Bench.ACCESSORY;
import static dev.splicebook.hookup.rule.Bench.ALWAYS;
import static dev.splicebook.hookup.rule.Bench.CONSTANT;
import static dev.splicebook.hookup.rule.Bench.GROUND;
import static dev.splicebook.hookup.rule.Bench.UNMETERED;
import static dev.splicebook.hookup.rule.Bench.assertNotApplicable;
import static dev.splicebook.hookup.rule.Bench.assertNotChecked;
import static dev.splicebook.hookup.rule.Bench.assertPassed;
import static dev.splicebook.hookup.rule.Bench.check;
import static dev.splicebook.hookup.rule.Bench.circuit;
import static dev.splicebook.hookup.rule.Bench.device;
import static dev.splicebook.hookup.rule.Bench.diode;
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

class SwitchedLoadOnConstantSupplyTest {

    private static final String RULE = "switched-load-on-constant-supply";
    private static final String RETURN = members("W9", wire("CAR.chassis", "USB.minus"));

    @Test
    void reportsASocketOnTheConstantCircuit() {
        Report report = feed(CONSTANT, "switched");

        Finding finding = only(report, RULE);
        assertThat(finding.message())
                .isEqualTo("USB.plus needs a switched feed, and CAR.C1-7 keeps it fed while the vehicle is asleep");
        assertThat(finding.severity()).isEqualTo(Severity.WARNING);
        assertThat(finding.terminals()).containsExactlyInAnyOrder("USB.plus", "CAR.C1-7");
        assertThat(finding.connections()).containsExactly("W1");
        assertThat(finding.states()).containsExactly(State.ASLEEP);
        assertThat(report.verdict()).isEqualTo(Verdict.READY_WITH_CAUTIONS);
        assertThat(report.findings()).extracting(Finding::rule).containsExactly(RULE);
    }

    @Test
    void acceptsASocketOnTheAccessoryCircuit() {
        Report report = feed(ACCESSORY, "switched");
        assertPassed(report, RULE);
        assertThat(report.findings()).isEmpty();
    }

    @Test
    void looksAtTheStateAsleepAlone() {
        assertPassed(
                feed(
                        circuit("{'kind': 'supply', 'maxAmps': 10, 'fuseAmps': 10,"
                                + " 'live': ['accessory', 'ignition', 'cranking', 'running', 'restarting']}"),
                        "switched"),
                RULE);
        only(
                feed(
                        circuit("{'kind': 'supply', 'maxAmps': 10, 'fuseAmps': 10, 'live': ['asleep', 'running']}"),
                        "switched"),
                RULE);
    }

    @Test
    void doesNotApplyToALoadThatTakesConstantFeed() {
        assertNotApplicable(feed(CONSTANT, "either"), RULE);
        assertNotApplicable(feed(CONSTANT, "constant"), RULE);
    }

    @Test
    void isNotCheckedWhereItIsUnknownWhatTheLoadNeeds() {
        String load = circuit("{'kind': 'load', 'typicalAmps': 1, 'maxAmps': 2}");
        assertNotChecked(
                check(
                        members("C1-7", CONSTANT),
                        members("USB", device(load)),
                        members("W1", wire("CAR.C1-7", "USB.plus")) + ", " + RETURN),
                RULE,
                "USB.plus.needs");
    }

    @Test
    void isNotCheckedWhereItIsUnknownWhenTheSupplyIsLive() {
        assertNotChecked(
                feed(circuit("{'kind': 'supply', 'maxAmps': 10, 'fuseAmps': 10}"), "switched"), RULE, "CAR.C1-7.live");
        assertNotChecked(feed(UNMETERED, "switched"), RULE, "CAR.C1-7.electrical");
    }

    @Test
    void acceptsAFeedThatIsLiveAsleepOnlyWhileTheLampsAreOn() {
        String lamps = circuit("{'kind': 'supply', 'maxAmps': 5, 'fuseAmps': 10, " + ALWAYS + ", 'when': 'lamps'}");
        assertPassed(feed(lamps, "switched"), RULE);
    }

    @Test
    void acceptsTheContactOfARelayThatTheAccessoryCircuitDrives() {
        assertPassed(throughRelay(ACCESSORY, "K.87"), RULE);
    }

    @Test
    void findsARelayThatIsHeldAllNight() {
        Finding finding = only(throughRelay(CONSTANT, "K.87"), RULE);
        assertThat(finding.terminals()).containsExactlyInAnyOrder("USB.plus", "CAR.C1-7");
    }

    @Test
    void findsTheWrongContactOfARelay() {
        only(throughRelay(ACCESSORY, "K.87a"), RULE);
    }

    @Test
    void isNotCheckedWhereTheCoilOfTheContactMayPull() {
        assertNotChecked(
                throughRelay(circuit("{'kind': 'supply', 'maxAmps': 10, 'fuseAmps': 10}"), "K.87"),
                RULE,
                "CAR.C1-8.live");
    }

    @Test
    void namesOfTwoFeedsTheOneThatStaysLive() {
        Finding finding = only(
                check(
                        members("C1-7", CONSTANT, "C1-8", ACCESSORY),
                        members("D", diode(), "E", diode(), "USB", device(load("switched", 1, 2))),
                        members(
                                        "W1", wire("CAR.C1-7", "D.a"),
                                        "W2", wire("CAR.C1-8", "E.a"),
                                        "W3", wire("D.c", "USB.plus"),
                                        "W4", wire("E.c", "USB.plus"))
                                + ", " + RETURN),
                RULE);
        assertThat(finding.message()).contains("and CAR.C1-7 keeps it fed").doesNotContain("C1-8");
    }

    @Test
    void isNotFooledByADiodeThatBlocks() {
        assertPassed(
                check(
                        members("C1-7", CONSTANT),
                        members("D", diode(), "USB", device(load("switched", 1, 2))),
                        members("W1", wire("CAR.C1-7", "D.c"), "W2", wire("D.a", "USB.plus")) + ", " + RETURN),
                RULE);
    }

    @Test
    void tellsAModuleThatStaysFedAndNotWhatHangsOnIt() {
        String module = "{'inline': {'terminals': {'plus': %s, 'minus': %s, 'switched': %s}}}"
                .formatted(
                        load("switched", 0.2, 0.5),
                        GROUND,
                        circuit("{'kind': 'supply', 'maxAmps': 5, 'limited': true}"));
        Report report = check(
                members("C1-7", CONSTANT),
                members("IFC", module, "USB", device(load("switched", 1, 2))),
                members(
                                "W1", wire("CAR.C1-7", "IFC.plus"),
                                "W2", wire("CAR.chassis", "IFC.minus"),
                                "W3", wire("IFC.switched", "USB.plus"))
                        + ", " + RETURN);
        assertThat(only(report, RULE).terminals()).containsExactlyInAnyOrder("IFC.plus", "CAR.C1-7");
    }

    private static Report feed(String supply, String needs) {
        return check(
                members("C1-7", supply),
                members("USB", device(load(needs, 1, 2))),
                members("W1", wire("CAR.C1-7", "USB.plus")) + ", " + RETURN);
    }

    private static Report throughRelay(String coil, String contact) {
        return check(
                members("C1-8", coil, "C1-7", CONSTANT),
                members("K", relay(), "USB", device(load("switched", 1, 2))),
                members(
                                "W1", wire("CAR.C1-8", "K.86"),
                                "W2", wire("CAR.chassis", "K.85"),
                                "W3", wire("CAR.C1-7", "K.30"),
                                "W4", wire(contact, "USB.plus"))
                        + ", " + RETURN);
    }
}
