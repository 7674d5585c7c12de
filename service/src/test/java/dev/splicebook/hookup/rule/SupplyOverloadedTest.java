package dev.splicebook.hookup.rule;

import static dev.splicebook.hookup.rule.Bench.ACCESSORY;
import static dev.splicebook.hookup.rule.Bench.ALWAYS;
import static dev.splicebook.hookup.rule.Bench.GROUND;
import static dev.splicebook.hookup.rule.Bench.ON_ACCESSORY;
import static dev.splicebook.hookup.rule.Bench.assertFigures;
import static dev.splicebook.hookup.rule.Bench.assertNotApplicable;
import static dev.splicebook.hookup.rule.Bench.assertNotChecked;
import static dev.splicebook.hookup.rule.Bench.assertPassed;
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
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Report;
import dev.splicebook.hookup.Report.Assumption;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.State;
import org.junit.jupiter.api.Test;

// the figures are sums of currents; the limits of the supplies are invented
class SupplyOverloadedTest {

    private static final String RULE = "supply-overloaded";
    private static final String WEAK =
            circuit("{'kind': 'supply', 'maxAmps': 1, 'limited': true, " + ON_ACCESSORY + "}");

    @Test
    void reportsALoadAboveWhatAnOutputGives() {
        Report report = check(members("C1-8", WEAK), radio(2, 8), feed("CAR.C1-8"));

        Finding finding = only(report, RULE);
        assertThat(finding.message())
                .isEqualTo("CAR.C1-8 is asked for 8.0 A by HU.plus, above the 1.0 A that it gives");
        assertThat(finding.severity()).isEqualTo(Severity.ERROR);
        assertThat(finding.terminals()).containsExactlyInAnyOrder("CAR.C1-8", "HU.plus");
        assertThat(finding.connections()).containsExactly("W1");
        assertThat(finding.states()).containsExactly(State.ACCESSORY, State.IGNITION, State.RUNNING, State.RESTARTING);
        assertFigures(finding, 8, 1, "A");
        assertThat(report.findings()).extracting(Finding::rule).containsExactly(RULE);
    }

    @Test
    void acceptsALoadBelowIt() {
        assertPassed(check(members("C1-8", WEAK), radio(0.1, 0.3), feed("CAR.C1-8")), RULE);
    }

    @Test
    void acceptsExactlyWhatItGives() {
        assertPassed(check(members("C1-8", WEAK), radio(0.5, 1), feed("CAR.C1-8")), RULE);
        only(check(members("C1-8", WEAK), radio(0.5, 1.001), feed("CAR.C1-8")), RULE);
    }

    @Test
    void doesNotApplyToASupplyThatFeedsNothing() {
        assertNotApplicable(check(members("C1-8", WEAK), "", ""), RULE);
    }

    @Test
    void isNotCheckedWithoutTheLimitOfTheSupply() {
        String unlimited = circuit("{'kind': 'supply', " + ON_ACCESSORY + "}");
        assertNotChecked(check(members("C1-8", unlimited), radio(1, 2), feed("CAR.C1-8")), RULE, "CAR.C1-8.maxAmps");
    }

    @Test
    void isNotCheckedWithoutTheWorstOfTheLoad() {
        String load = circuit("{'kind': 'load', 'needs': 'switched', 'typicalAmps': 0.5}");
        assertNotChecked(
                check(members("C1-8", WEAK), members("HU", device(load)), feed("CAR.C1-8")), RULE, "HU.plus.maxAmps");
    }

    @Test
    void reportsATypicalCurrentThatAloneIsTooMuch() {
        String load = circuit("{'kind': 'load', 'needs': 'switched', 'typicalAmps': 1.5}");
        assertFigures(
                only(check(members("C1-8", WEAK), members("HU", device(load)), feed("CAR.C1-8")), RULE), 1.5, 1, "A");
    }

    @Test
    void takesTheUpstreamFuseForTheLimitWhereNoneIsStated() {
        String fusedOnly = circuit("{'kind': 'supply', 'fuseAmps': 5, " + ON_ACCESSORY + "}");
        Report report = check(members("C1-8", fusedOnly), radio(2, 6), feed("CAR.C1-8"));
        assertThat(only(report, RULE).message())
                .isEqualTo("CAR.C1-8 is asked for 6.0 A by HU.plus, above the 5.0 A that its fuse passes");
        assertThat(report.assumptions()).extracting(Assumption::name).contains("maxAmps");
    }

    @Test
    void letsTheBatteryGiveWhatIsAsked() {
        assertPassed(
                check(
                        "",
                        radio(200, 300),
                        members(
                                "W1", fused("CAR.battery-plus", "HU.plus", "4/0 AWG", 400),
                                "W2", wire("CAR.chassis", "HU.minus"))),
                RULE);
    }

    @Test
    void addsUpEverythingOnTheNet() {
        Report report = check(
                members("C1-8", WEAK),
                members(
                        "HU", device(load("switched", 0.2, 0.6)),
                        "AMP",
                                inside("'terminals': {'on': "
                                        + circuit("{'kind': 'control-in', 'active': '12V', 'amps': 0.5}") + "}")),
                feed("CAR.C1-8") + ", " + members("W3", wire("HU.plus", "AMP.on")));
        assertFigures(only(report, RULE), 1.1, 1, "A");
    }

    @Test
    void countsACoilButNotWhatItsContactSwitches() {
        // 14.2 V over 90 ohms is 158 mA, below the 1 A; the 8 A come from the battery through the contact
        Report report = check(
                members("C1-8", WEAK),
                radio(2, 8) + ", " + members("K", relay()),
                members(
                        "W1", wire("CAR.C1-8", "K.86"),
                        "W2", wire("CAR.chassis", "K.85"),
                        "W3", fused("CAR.battery-plus", "K.30", "16 AWG", 15),
                        "W4", wire("K.87", "HU.plus"),
                        "W5", wire("CAR.chassis", "HU.minus")));
        assertPassed(report, RULE);
        assertThat(report.findings()).extracting(Finding::rule).containsExactly("coil-unclamped");
    }

    @Test
    void countsWhatAContactPutsOnAWeakSupply() {
        // closed, the contact adds 0.9 A to the 158 mA that the coil itself takes at 14.2 V
        Finding finding = only(
                check(
                        members("C1-8", WEAK),
                        radio(0.5, 0.9) + ", " + members("K", relay()),
                        members(
                                "W1", wire("CAR.C1-8", "K.86"),
                                "W2", wire("CAR.chassis", "K.85"),
                                "W3", wire("CAR.C1-8", "K.30"),
                                "W4", wire("K.87", "HU.plus"),
                                "W5", wire("CAR.chassis", "HU.minus"))),
                RULE);
        assertFigures(finding, 0.9 + 14.2 / 90, 1, "A");
        assertThat(finding.states()).containsExactly(State.RUNNING);
    }

    @Test
    void followsADiodeForwardOnly() {
        String through = members("W1", wire("CAR.C1-8", "D.a"), "W2", wire("D.c", "HU.plus"));
        String against = members("W1", wire("CAR.C1-8", "D.c"), "W2", wire("D.a", "HU.plus"));
        String parts = radio(2, 8) + ", " + members("D", diode());
        only(check(members("C1-8", WEAK), parts, through), RULE);
        assertNotApplicable(check(members("C1-8", WEAK), parts, against), RULE);
    }

    @Test
    void judgesALeadThatIsConnectedThoughItIsListedAsUnused() {
        only(
                check(
                        members("C1-8", WEAK),
                        radio(2, 8),
                        feed("CAR.C1-8"),
                        "'unused': {'HU.plus': {'as': 'capped', 'why': 'not wanted'}}"),
                RULE);
    }

    @Test
    void judgesAnOutputOfAModule() {
        String module = "{'inline': {'terminals': {'plus': %s, 'minus': %s, 'accessory': %s}}}"
                .formatted(load("constant", 0.2, 0.5), GROUND, WEAK);
        Finding finding = only(
                check(
                        "",
                        members("IFC", module) + ", " + radio(2, 8),
                        members(
                                "W1", wire("IFC.accessory", "HU.plus"),
                                "W2", wire("CAR.chassis", "HU.minus"),
                                "W3", fused("CAR.battery-plus", "IFC.plus", "16 AWG", 5),
                                "W4", wire("CAR.chassis", "IFC.minus"))),
                RULE);
        assertThat(finding.terminals()).containsExactlyInAnyOrder("IFC.accessory", "HU.plus");
    }

    @Test
    void addsUpWhatTwoCircuitsOfOneFuseFeed() {
        String shared = "{'source': 'slot F12', 'electrical': {'kind': 'supply', 'maxAmps': 10, 'fuseAmps': 15, "
                + ALWAYS + "}}";
        String both = members("HU", device(load("constant", 1, 8)), "AMP", device(load("constant", 1, 8)));
        String wires = members(
                "W1", wire("CAR.C1-7", "HU.plus"),
                "W2", wire("CAR.C2-1", "AMP.plus"),
                "W3", wire("CAR.chassis", "HU.minus"),
                "W4", wire("CAR.chassis", "AMP.minus"));
        Finding finding = only(check(members("C1-7", shared, "C2-1", shared), both, wires), RULE);
        assertThat(finding.message())
                .isEqualTo(
                        "CAR.C1-7 and CAR.C2-1 are asked for 16.0 A by AMP.plus and HU.plus, above the 15.0 A that the"
                                + " fuse they share passes");
        assertPassed(check(members("C1-7", shared, "C2-1", shared.replace("F12", "F13")), both, wires), RULE);
    }

    @Test
    void countsALoadOnTwoCircuitsOfOneFuseOnce() {
        String shared = "{'source': 'slot F12', 'electrical': {'kind': 'supply', 'maxAmps': 10, 'fuseAmps': 15, "
                + ALWAYS + "}}";
        assertPassed(
                check(
                        members("C1-7", shared, "C2-1", shared),
                        members("HU", device(load("constant", 1, 9))),
                        members(
                                "W1", wire("CAR.C1-7", "HU.plus"),
                                "W2", wire("CAR.C2-1", "HU.plus"),
                                "W3", wire("CAR.chassis", "HU.minus"))),
                RULE);
    }

    @Test
    void judgesTwoAlikeByThemselves() {
        // an accessory circuit of 10 A beside a weak one: only the weak one is overloaded
        String both = members("HU", device(load("switched", 2, 8)), "USB", device(load("switched", 2, 8)));
        Finding finding = only(
                check(
                        members("C1-7", ACCESSORY, "C1-8", WEAK),
                        both,
                        members("W1", wire("CAR.C1-7", "HU.plus"), "W2", wire("CAR.C1-8", "USB.plus"))),
                RULE);
        assertThat(finding.terminals()).containsExactlyInAnyOrder("CAR.C1-8", "USB.plus");
    }

    @Test
    void countsWhatAResistorToGroundTakes() {
        // 14.2 V / 6 Ω = 2.37 A
        String resistor = members("R", Bench.inside("'resistors': [{'between': ['a', 'b'], 'ohms': 6}]"));
        String wires = members("W1", wire("CAR.C1-8", "R.a"), "W2", wire("R.b", "CAR.chassis"));
        String weak = "{'kind': 'supply', 'maxAmps': %s, 'fuseAmps': 10, " + Bench.ON_ACCESSORY + "}";

        Finding finding = only(check(members("C1-8", Bench.circuit(weak.formatted("2"))), resistor, wires), RULE);
        assertThat(finding.measured()).isCloseTo(14.2 / 6, within(0.01));
        assertThat(finding.terminals()).containsExactlyInAnyOrder("CAR.C1-8", "R.a");
        assertPassed(check(members("C1-8", Bench.circuit(weak.formatted("2.4"))), resistor, wires), RULE);
        // two in series take half, and what goes on to a load is the load's
        String two = "'resistors': [{'between': ['a', 'm'], 'ohms': 6}, {'between': ['m', 'b'], 'ohms': 6}]";
        assertPassed(
                check(members("C1-8", Bench.circuit(weak.formatted("1.2"))), members("R", Bench.inside(two)), wires),
                RULE);
        String fan = members("HU", device(load("switched", 1, 1))) + ", " + resistor;
        String through = members(
                "W1", wire("CAR.C1-8", "R.a"), "W2", wire("R.b", "HU.plus"), "W3", wire("CAR.chassis", "HU.minus"));
        assertPassed(check(members("C1-8", Bench.circuit(weak.formatted("1"))), fan, through), RULE);
    }

    private static String radio(double typicalAmps, double maxAmps) {
        return members("HU", device(load("switched", typicalAmps, maxAmps)));
    }

    private static String feed(String from) {
        return members("W1", wire(from, "HU.plus"), "W2", wire("CAR.chassis", "HU.minus"));
    }
}
