package dev.splicebook.hookup.rule;

import static dev.splicebook.hookup.rule.Bench.ACCESSORY;
import static dev.splicebook.hookup.rule.Bench.CONSTANT;
import static dev.splicebook.hookup.rule.Bench.GROUND;
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
import dev.splicebook.hookup.Report;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.State;
import org.junit.jupiter.api.Test;

class LoadWithoutSupplyTest {

    private static final String RULE = "load-without-supply";
    private static final String STARTER =
            circuit("{'kind': 'supply', 'maxAmps': 10, 'fuseAmps': 10, 'live': ['cranking']}");
    private static final String UNKNOWN_STATES = circuit("{'kind': 'supply', 'maxAmps': 10, 'fuseAmps': 10}");
    private static final String RETURN = members("W9", wire("CAR.chassis", "HU.minus"));

    @Test
    void reportsALoadOnASupplyThatIsDeadWhenItIsNeeded() {
        Report report = feed(STARTER, "switched");

        Finding finding = only(report, RULE);
        assertThat(finding.message())
                .isEqualTo("HU.plus is a load, and CAR.C1-8, which it hangs on, is dead in the state running");
        assertThat(finding.help()).contains("connect HU.plus to a supply that is live in the state running");
        assertThat(finding.severity()).isEqualTo(Severity.ERROR);
        assertThat(finding.terminals()).containsExactly("HU.plus");
        assertThat(finding.connections()).containsExactly("W1");
        assertThat(finding.states()).containsExactly(State.RUNNING);
        assertThat(report.findings()).extracting(Finding::rule).containsExactly(RULE);
    }

    @Test
    void namesTheContactThatStandsOpenWhileTheEngineRuns() {
        Report report = check(
                members("C1-7", CONSTANT, "C1-8", ACCESSORY),
                members("K", relay(), "HU", device(load("switched", 1, 2))),
                members(
                        "W1",
                        wire("CAR.C1-8", "K.86"),
                        "W2",
                        wire("K.85", "CAR.chassis"),
                        "W3",
                        wire("CAR.C1-7", "K.30"),
                        "W4",
                        wire("K.87a", "HU.plus"),
                        "W9",
                        wire("CAR.chassis", "HU.minus")));

        assertThat(only(report, RULE).message())
                .isEqualTo("HU.plus is a load, and CAR.C1-7, which it hangs on, does not reach it in the state running:"
                        + " K is pulled in then, and its contact between them stands open");
    }

    @Test
    void callsNothingDeadThatTwoOpenContactsInARowKeepAway() {
        String coil = ", " + members("W5", wire("CAR.C1-8", "K2.86"), "W6", wire("K2.85", "CAR.chassis"));
        Report report = check(
                members("C1-7", CONSTANT, "C1-8", ACCESSORY),
                members("K1", relay(), "K2", relay(), "HU", device(load("switched", 1, 2))),
                members(
                                "W1",
                                wire("CAR.C1-8", "K1.86"),
                                "W2",
                                wire("K1.85", "CAR.chassis"),
                                "W3",
                                wire("CAR.C1-7", "K1.30"),
                                "W4",
                                wire("K1.87a", "K2.30"),
                                "W7",
                                wire("K2.87a", "HU.plus"),
                                "W9",
                                wire("CAR.chassis", "HU.minus"))
                        + coil);

        assertThat(only(report, RULE).message())
                .isEqualTo("HU.plus is a load, and CAR.C1-7, which it hangs on, does not reach it in the state running:"
                        + " K2 is pulled in then, and its contact between them stands open");
    }

    @Test
    void acceptsALoadThatIsFedWhileTheEngineRuns() {
        assertPassed(feed(ACCESSORY, "switched"), RULE);
        assertPassed(feed(CONSTANT, "constant"), RULE);
    }

    @Test
    void asksForFeedInNoStateButRunningOfALoadThatTakesEither() {
        String onlyRunning = circuit("{'kind': 'supply', 'maxAmps': 10, 'fuseAmps': 10, 'live': ['running']}");
        assertPassed(feed(onlyRunning, "either"), RULE);
        only(feed(onlyRunning.replace("running", "restarting"), "either"), RULE);
    }

    @Test
    void doesNotApplyToALeadThatIsListedAsUnused() {
        Report report = check(
                "",
                members("HU", device(load("switched", 1, 2))),
                "",
                "'unused': {'HU.plus': {'as': 'capped', 'why': 'the second zone is not used'}}");
        assertNotApplicable(report, RULE);
    }

    @Test
    void isNotCheckedWhereALeadOfUnknownUseMayFeedTheLoad() {
        String module = members("HU", device(load("switched", 1, 2)), "M", inside("'terminals': {'out': {}}"));
        assertNotChecked(
                check("", module, members("W1", wire("M.out", "HU.plus")) + ", " + RETURN), RULE, "M.out.electrical");
        // what lies behind a lead that only conducts is known
        String bridge = inside("'terminals': {'out': {}}, 'conducts': [['out', 'end']]");
        only(
                check(
                        "",
                        members("HU", device(load("switched", 1, 2)), "M", bridge),
                        members("W1", wire("M.out", "HU.plus")) + ", " + RETURN),
                RULE);
    }

    @Test
    void isNotCheckedWhereItIsUnknownWhenTheSupplyIsLive() {
        assertNotChecked(feed(UNKNOWN_STATES, "switched"), RULE, "CAR.C1-8.live");
    }

    @Test
    void isNotCheckedWhereItIsUnknownWhatTheCircuitIs() {
        assertNotChecked(feed(UNMETERED, "switched"), RULE, "CAR.C1-8.electrical");
    }

    @Test
    void isNotCheckedWhereAnUnknownCircuitFeedsThroughADiode() {
        assertNotChecked(
                check(
                        members("C1-8", UNMETERED),
                        members("D", diode(), "HU", device(load("switched", 1, 2))),
                        members("W1", wire("CAR.C1-8", "D.a"), "W2", wire("D.c", "HU.plus")) + ", " + RETURN),
                RULE,
                "CAR.C1-8.electrical");
    }

    @Test
    void saysOfALooseLeadThatItIsConnectedToNothing() {
        Report report = check("", members("HU", device(load("constant", 1, 2))), RETURN);
        Finding finding = only(report, RULE);
        assertThat(finding.message()).isEqualTo("HU.plus is a load, and it is connected to nothing");
        assertThat(finding.states()).containsExactly(State.values());
        assertThat(report.findings()).extracting(Finding::rule).containsExactly(RULE);
    }

    @Test
    void saysOfALeadWithoutAnySupplyThatNoneReachesIt() {
        Finding finding = only(
                check(
                        "",
                        members("S", inside("'conducts': [['a', 'b']]"), "HU", device(load("switched", 1, 2))),
                        members("W1", wire("S.b", "HU.plus")) + ", " + RETURN),
                RULE);
        assertThat(finding.message()).isEqualTo("HU.plus is a load, and no supply reaches it");
    }

    @Test
    void namesTheRelayThatKeepsTheSupplyAway() {
        String wires = members(
                "W1", wire("CAR.C1-8", "K.30"),
                "W2", wire("K.87", "HU.plus"),
                "W3", wire("K.85", "CAR.chassis"),
                "W4", wire("K.86", "CAR.%s"));
        String parts = members("K", relay(), "HU", device(load("switched", 1, 2)));

        assertThat(only(check(members("C1-8", ACCESSORY), parts, wires.formatted("chassis") + ", " + RETURN), RULE)
                        .message())
                .isEqualTo(
                        "HU.plus is a load, and no supply reaches it: the relay K between it and CAR.C1-8 never pulls"
                                + " in: its coil gets no 12 V");
        assertPassed(check(members("C1-8", ACCESSORY), parts, wires.formatted("C1-8") + ", " + RETURN), RULE);
    }

    @Test
    void tellsAPartWhoseFeedAndReturnAreMixedUpOnceAndWhole() {
        Report report = check(
                members("C1-7", CONSTANT),
                members("HU", device(load("constant", 1, 2))),
                members("W1", wire("CAR.C1-7", "HU.minus"), "W2", wire("CAR.chassis", "HU.plus")));

        Finding finding = only(report, RULE);
        assertThat(finding.message())
                .isEqualTo(
                        "HU is fed the wrong way round: HU.plus, a load, stands on the vehicle's ground, and HU.minus, a"
                                + " ground, on CAR.C1-7");
        assertThat(finding.terminals()).containsExactlyInAnyOrder("HU.plus", "HU.minus");
        assertThat(finding.connections()).containsExactly("W1", "W2");
        assertThat(report.findings()).extracting(Finding::rule).containsExactly(RULE);
    }

    @Test
    void acceptsACameraThatIsFedInReverseOnly() {
        String reverse = circuit(
                "{'kind': 'supply', 'maxAmps': 5, 'fuseAmps': 10, 'live': ['ignition', 'running'], 'when': 'reverse'}");
        assertPassed(feed(reverse, "switched"), RULE);
    }

    @Test
    void followsAContactThatTheAccessoryCircuitCloses() {
        assertPassed(throughRelay(ACCESSORY, "K.87"), RULE);
        only(throughRelay(ACCESSORY, "K.87a"), RULE);
    }

    @Test
    void isNotCheckedWhereTheCoilOfTheContactMayPull() {
        assertNotChecked(throughRelay(UNKNOWN_STATES, "K.87"), RULE, "CAR.C1-8.live");
        assertNotChecked(throughRelay(UNMETERED, "K.87"), RULE, "CAR.C1-8.electrical");
    }

    @Test
    void doesNotLookPastADiodeThatBlocks() {
        Finding finding = only(
                check(
                        members("C1-8", ACCESSORY),
                        members("D", diode(), "HU", device(load("switched", 1, 2))),
                        members("W1", wire("CAR.C1-8", "D.c"), "W2", wire("D.a", "HU.plus")) + ", " + RETURN),
                RULE);
        assertThat(finding.message())
                .isEqualTo(
                        "HU.plus is a load, and no supply reaches it: the diode D between it and CAR.C1-8 conducts only"
                                + " the other way");
    }

    @Test
    void findsTheSupplyAtTheRightSideOfACut() {
        String circuits = members("C1-8", ACCESSORY);
        String parts = members("HU", device(load("switched", 1, 2)));
        String cut = "vehicle:'cuts': ['C1-8']";
        assertPassed(
                check(circuits, parts, members("W1", wire("CAR.C1-8/harness", "HU.plus")) + ", " + RETURN, cut), RULE);
    }

    @Test
    void findsTheSupplyThroughAPlugAndALead() {
        String harness = inside("'terminals': {'C1-8': {}, 'red': {}}, 'conducts': [['C1-8', 'red']]");
        assertPassed(
                check(
                        members("C1-8", ACCESSORY),
                        members("H", harness, "HU", device(load("switched", 1, 2))),
                        members("W1", wire("H.red", "HU.plus")) + ", " + RETURN,
                        "'plugs': [['CAR.C1', 'H.C1']]"),
                RULE);
    }

    @Test
    void tellsOnlyThePartThatIsNeverFedAndNotWhatItWouldFeed() {
        Report report = module("", "CAR.C1-8", ACCESSORY);
        assertThat(only(report, RULE).terminals()).containsExactly("IFC.plus");
    }

    @Test
    void tellsAPartThatHangsOnItsOwnOutput() {
        String box = "{'inline': {'terminals': {"
                + "'plus': {'electrical': {'kind': 'load', 'typicalAmps': 1, 'maxAmps': 2, 'needs': 'constant'}},"
                + " 'minus': {'electrical': {'kind': 'ground'}},"
                + " 'out': {'electrical': {'kind': 'supply', 'maxAmps': 5, 'limited': true, 'live': ['running']}}}}}";
        Report alone = check(
                "",
                members("HU", box),
                members("W1", wire("HU.out", "HU.plus"), "W9", wire("CAR.chassis", "HU.minus")));
        assertThat(only(alone, RULE).message())
                .isEqualTo("HU.plus is a load, and it hangs on HU.out, an output of the same part, which gives nothing"
                        + " until the part is fed");

        Report circle = check(
                "",
                members("HU", box, "TV", box),
                members(
                        "W1",
                        wire("HU.out", "TV.plus"),
                        "W2",
                        wire("TV.out", "HU.plus"),
                        "W8",
                        wire("CAR.chassis", "TV.minus"),
                        "W9",
                        wire("CAR.chassis", "HU.minus")));
        assertThat(circle.findings())
                .filteredOn(finding -> finding.rule().equals(RULE))
                .flatExtracting(Finding::terminals)
                .containsExactlyInAnyOrder("HU.plus", "TV.plus");
    }

    @Test
    void namesTheFactThatTheModuleUpstreamLacks() {
        // whether the output is live hangs on whether the module is fed
        assertNotChecked(
                module(members("W1", wire("CAR.C1-8", "IFC.plus")), "CAR.C1-8", UNKNOWN_STATES), RULE, "CAR.C1-8.live");
    }

    @Test
    void leavesAConstantLoadThatIsFedAtTimesToItsOwnRule() {
        Report report = feed(ACCESSORY, "constant");
        assertSilent(report, RULE);
        only(report, "constant-load-on-switched-supply");
    }

    private static Report feed(String supply, String needs) {
        return check(
                members("C1-8", supply),
                members("HU", device(load(needs, 1, 2))),
                members("W1", wire("CAR.C1-8", "HU.plus")) + ", " + RETURN);
    }

    private static Report throughRelay(String coil, String contact) {
        return check(
                members("C1-8", coil, "C1-7", CONSTANT),
                members("K", relay(), "HU", device(load("switched", 1, 2))),
                members(
                                "W1", wire("CAR.C1-8", "K.86"),
                                "W2", wire("CAR.chassis", "K.85"),
                                "W3", wire("CAR.C1-7", "K.30"),
                                "W4", wire(contact, "HU.plus"))
                        + ", " + RETURN);
    }

    /** A module whose output feeds a radio. */
    private static Report module(String feed, String circuit, String supply) {
        String module = "{'inline': {'terminals': {'plus': %s, 'minus': %s, 'accessory': %s}}}"
                .formatted(
                        load("switched", 0.2, 0.5),
                        GROUND,
                        circuit("{'kind': 'supply', 'maxAmps': 5, 'limited': true, " + ON_ACCESSORY + "}"));
        return check(
                members(circuit.substring(4), supply),
                members("IFC", module, "HU", device(load("switched", 1, 2))),
                (feed.isEmpty() ? "" : feed + ", ")
                        + members("W2", wire("CAR.chassis", "IFC.minus"), "W3", wire("IFC.accessory", "HU.plus"))
                        + ", " + RETURN);
    }

    @Test
    void tellsOfASecondBatteryThatADiodeLetsOutOfOnly() {
        Finding finding = only(batteries("D.a", "D.c", ""), RULE);

        assertThat(finding.message())
                .isEqualTo("nothing charges the battery at B2.plus: the diode of D lets current out of it, to"
                        + " CAR.battery-plus, and none in");
        assertThat(finding.severity()).isEqualTo(Severity.WARNING);
        assertThat(finding.terminals()).containsExactlyInAnyOrder("B2.plus", "D.a", "D.c");
        assertThat(finding.connections()).containsExactlyInAnyOrder("W1", "W2");
        // the right way round; and a relay beside the diode that can let the current in
        assertSilent(batteries("D.c", "D.a", ""), RULE);
        assertSilent(
                batteries(
                        "D.a",
                        "D.c",
                        ", " + members("W3", wire("B2.plus", "K.30"), "W4", wire("K.87", "CAR.battery-plus"))),
                RULE);
    }

    @Test
    void leavesABatteryAloneThatFeedsWhatTheVehiclesFeedsToo() {
        // each by a diode of its own into the load, and neither into the other
        Report report = check(
                "",
                members("B2", BATTERY, "D", diode(), "E", diode(), "HU", device(load("constant", 1, 2))),
                members(
                        "W1",
                        wire("B2.plus", "D.a"),
                        "W2",
                        wire("D.c", "HU.plus"),
                        "W3",
                        wire("CAR.battery-plus", "E.a"),
                        "W4",
                        wire("E.c", "HU.plus"),
                        "W5",
                        wire("B2.minus", "CAR.chassis"),
                        "W9",
                        wire("CAR.chassis", "HU.minus")));

        assertSilent(report, RULE);
    }

    private static final String BATTERY = """
            {'inline': {'terminals': {'plus': {'function': 'power.battery', 'electrical': {'kind': 'supply', 'volts': 12.6,
                'live': ['asleep', 'accessory', 'ignition', 'cranking', 'running', 'restarting']}},
              'minus': {'function': 'ground.battery', 'electrical': {'kind': 'ground'}}}}}
            """;

    /** A second battery and the vehicle's, each at one end of a diode. */
    private static Report batteries(String ofSecond, String ofVehicle, String more) {
        return check(
                "",
                members("B2", BATTERY, "D", diode(), "K", relay()),
                members(
                                "W1",
                                wire("B2.plus", ofSecond),
                                "W2",
                                wire(ofVehicle, "CAR.battery-plus"),
                                "W5",
                                wire("B2.minus", "CAR.chassis"))
                        + more);
    }
}
