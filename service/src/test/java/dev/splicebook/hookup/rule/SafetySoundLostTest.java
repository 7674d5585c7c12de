package dev.splicebook.hookup.rule;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.Wiring;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

// common practice, no source
class SafetySoundLostTest {

    private static final Told RULE = Told.by("safety-sound-lost");

    @Test
    void reportsAChimeWhoseCircuitLeadsNowhere() {
        Finding finding = RULE.finding(circuit("warning chimes").unplug("C1"));

        assertThat(finding.message())
                .isEqualTo(
                        "nothing is connected to CAR.C1-6, whose connector is off the factory unit, and with that is lost:"
                                + " warning chimes");
        assertThat(finding.severity()).isEqualTo(Severity.WARNING);
        assertThat(finding.terminals()).containsExactly("CAR.C1-6");
    }

    @Test
    void acceptsACircuitThatSomethingTakes() {
        RULE.passes(circuit("warning chimes")
                .unplug("C1")
                .inside("IFC", "\"conducts\": [[\"chime\", \"out\"]]")
                .join("CAR.C1-6 IFC.chime"));
    }

    @Test
    void tellsOneConnectorOnceAndTwoApart() {
        Wiring one = circuit("warning chimes")
                .car("C1-7", carries("hands-free calls"))
                .unplug("C1");
        assertThat(RULE.finding(one).message()).endsWith("is lost: hands-free calls and warning chimes");
        assertThat(RULE.messages(
                        one.car("C2-1", carries("tones of the parking aid")).unplug("C2")))
                .hasSize(2);
    }

    @Test
    void doesNotApplyWhileTheUnitKeepsItsConnector() {
        RULE.doesNotApply(circuit("warning chimes"));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "chimes",
                "hands-free",
                "parking aid",
                "parking sensors",
                "seat-belt warning",
                "spoken prompts",
                "emergency call",
                "tone of the reversing aid",
                "blind-spot alert"
            })
    void countsWhatSomebodysSafetyHangsOn(String what) {
        RULE.finding(circuit(what).unplug("C1"));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "the USB socket in the console",
                "outside temperature and clock",
                "the rear camera's picture",
                "cancelling of road noise"
            })
    void leavesComfortOut(String what) {
        RULE.doesNotApply(circuit(what).unplug("C1"));
    }

    @Test
    void seesAMatedConnectorWhosePartHasNoSuchPin() {
        RULE.finding(circuit("warning chimes")
                .car("C1-7", Wiring.facts(Wiring.constant()))
                .inside("HAR", "\"conducts\": [[\"C1-7\", \"feed\"]]")
                .plug("CAR.C1", "HAR.C1"));
    }

    private static Wiring circuit(String carries) {
        return new Wiring().car("C1-6", carries(carries));
    }

    private static String carries(String what) {
        return "{\"electrical\": {\"kind\": \"passive\"}, \"carries\": [\"" + what + "\"]}";
    }
}
