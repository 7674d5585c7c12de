package dev.splicebook.hookup.rule;

import static dev.splicebook.hookup.Wiring.constant;
import static dev.splicebook.hookup.Wiring.facts;
import static dev.splicebook.hookup.Wiring.supply;
import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Hookups;
import dev.splicebook.hookup.Report;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.Wiring;
import org.junit.jupiter.api.Test;

// 1000 to 1500 V at an unsuppressed 12 V coil: as relay makers publish; the resistor's share: common practice, no
// source
class CoilUnclampedTest {

    private static final Told RULE = Told.by("coil-unclamped");
    private static final String TURN_ON =
            facts("\"kind\": \"control-out\", \"active\": \"12V\", \"maxAmps\": 0.3, \"live\": [\"running\"]");
    private static final String TO_GROUND =
            facts("\"kind\": \"control-out\", \"active\": \"ground\", \"maxAmps\": 0.5, \"live\": [\"running\"]");

    @Test
    void reportsACoilOnTheTurnOnOutput() {
        Finding finding = RULE.finding(onTurnOn());

        assertThat(finding.message())
                .isEqualTo(
                        "the coil of K at K.85 and K.86 is switched by CAR.C1-5 and has no diode or resistor across it, so"
                                + " it throws some 1000 V at that output when it lets go");
        assertThat(finding.help())
                .isEqualTo("put a diode across the coil, its banded end at K.86, or use a relay with a clamp inside.");
        assertThat(finding.severity()).isEqualTo(Severity.WARNING);
        assertThat(finding.terminals()).containsExactlyInAnyOrder("K.85", "K.86", "CAR.C1-5");
    }

    @Test
    void acceptsADiodeTheRightWayRoundInTheRelayAndBesideIt() {
        RULE.passes(onTurnOn().inside("K", diode("85", "86")));
        RULE.passes(onTurnOn().inside("D", diode("a", "c")).join("D.a K.85", "D.c K.86"));
        // from ground to the driven end is the same
        RULE.passes(onTurnOn().inside("D", diode("a", "c")).join("D.a CAR.chassis", "D.c CAR.C1-5"));
    }

    @Test
    void acceptsAResistorUpToTenTimesTheCoil() {
        RULE.passes(onTurnOn().inside("K", resistor(900)));
        RULE.finding(onTurnOn().inside("K", resistor(901)));
    }

    @Test
    void acceptsAClampInside() {
        RULE.passes(relay("\"coilOhms\": 90, \"clamped\": true, "));
        RULE.finding(relay("\"coilOhms\": 90, \"clamped\": false, "));
    }

    @Test
    void doesNotApplyToACoilOnASwitch() {
        RULE.doesNotApply(new Wiring()
                .car("C1-8", facts(supply("running")))
                .relay("K")
                .join("CAR.C1-8 K.86", "K.85 CAR.chassis"));
    }

    @Test
    void lacksTheOhmsOfACoilWithAResistor() {
        RULE.lacks(relay("").inside("K", resistor(900)), "K.85.coilOhms");
    }

    @Test
    void seesAnOutputThatSwitchesToGround() {
        Wiring low = new Wiring()
                .car("C1-7", facts(constant()))
                .car("C1-5", TO_GROUND)
                .relay("K")
                .join("CAR.C1-7 K.86", "CAR.C1-5 K.85");
        assertThat(RULE.finding(low).help()).contains("its banded end at K.86");
        RULE.passes(low.inside("K", diode("85", "86")));
    }

    @Test
    void seesASupplyThatLimitsItself() {
        RULE.finding(new Wiring()
                .car("C1-8", facts("\"kind\": \"supply\", \"maxAmps\": 1, \"limited\": true, \"live\": [\"running\"]"))
                .relay("K")
                .join("CAR.C1-8 K.86", "K.85 CAR.chassis"));
    }

    @Test
    void leavesADiodeTheWrongWayRoundToTheShortThatItIs() {
        Report report = onTurnOn().inside("K", diode("86", "85")).check();
        assertThat(report.findings())
                .filteredOn(finding -> finding.severity() != Severity.NOTE)
                .extracting(Finding::rule)
                .containsExactly("supply-shorted-to-ground");
        Finding finding = Hookups.findings(report, "supply-shorted-to-ground").get(0);
        assertThat(finding.message())
                .isEqualTo(
                        "CAR.C1-5 is shorted to ground at CAR.chassis through the diode across the coil of K, which stands"
                                + " the wrong way round, in the state running");
        assertThat(finding.help()).isEqualTo("turn the diode round: its banded end, the cathode, belongs at K.86.");
    }

    @Test
    void findsADiodeTheWrongWayRoundAtAnOutputThatSwitchesToGround() {
        Report report = new Wiring()
                .car("C1-7", facts(constant()))
                .car("C1-5", TO_GROUND)
                .relay("K")
                .inside("D", diode("a", "c"))
                .join("CAR.C1-7 K.86", "CAR.C1-5 K.85", "D.a K.86", "D.c K.85")
                .check();
        assertThat(Hookups.findings(report, "supply-shorted-to-ground"))
                .extracting(Finding::message)
                .containsExactly(
                        "CAR.C1-7 is shorted to ground at CAR.C1-5 through the diode D across the coil of K, which"
                                + " stands the wrong way round, in the state running");
        assertThat(Hookups.findings(report, "coil-unclamped")).isEmpty();
    }

    @Test
    void namesAResistorThatIsTooManyOhms() {
        // 14.2 V × 1800/90
        Finding finding = RULE.finding(onTurnOn().inside("K", resistor(1800)));
        assertThat(finding.message())
                .isEqualTo(
                        "the coil of K at K.85 and K.86 is switched by CAR.C1-5 and has a resistor of 1800 Ω across it,"
                                + " more than 10 times its own 90.0 Ω, so it throws some 284 V at that output when it lets go");
    }

    @Test
    void asksForAResistorAcrossACoilThatIsFedFromEitherEnd() {
        Finding finding = RULE.finding(new Wiring()
                .car("C1-5", TURN_ON)
                .car("C1-6", TURN_ON)
                .car("C1-7", TO_GROUND)
                .car("C1-9", TO_GROUND)
                .relay("K")
                .join("CAR.C1-5 K.86", "CAR.C1-7 K.85", "CAR.C1-6 K.85", "CAR.C1-9 K.86"));
        assertThat(finding.help()).contains("as the coil is fed from either end, put a resistor");
    }

    private static Wiring onTurnOn() {
        return new Wiring().car("C1-5", TURN_ON).relay("K").join("CAR.C1-5 K.86", "K.85 CAR.chassis");
    }

    private static Wiring relay(String more) {
        return new Wiring()
                .car("C1-5", TURN_ON)
                .inside(
                        "K",
                        "\"relays\": [{\"coil\": [\"85\", \"86\"], " + more + "\"common\": \"30\", \"open\": \"87\"}]")
                .join("CAR.C1-5 K.86", "K.85 CAR.chassis");
    }

    private static String diode(String anode, String cathode) {
        return "\"diodes\": [{\"anode\": \"" + anode + "\", \"cathode\": \"" + cathode + "\"}]";
    }

    private static String resistor(int ohms) {
        return "\"resistors\": [{\"between\": [\"85\", \"86\"], \"ohms\": " + ohms + "}]";
    }
}
