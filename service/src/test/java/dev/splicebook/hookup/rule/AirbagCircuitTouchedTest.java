package dev.splicebook.hookup.rule;

import static dev.splicebook.hookup.Wiring.facts;
import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Hookups;
import dev.splicebook.hookup.Report;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.Wiring;
import org.junit.jupiter.api.Test;

class AirbagCircuitTouchedTest {

    private static final Told TOLD = Told.by("airbag-circuit-touched");

    private static final String AIRBAG = facts("\"kind\": \"untouchable\", \"reason\": \"airbag\"");

    private static Wiring seat() {
        return new Wiring()
                .car("C9-1", AIRBAG)
                .car("C9-2", AIRBAG)
                .lead("HU", "dim", facts("\"kind\": \"control-in\", \"active\": \"12V\", \"amps\": 0.01"));
    }

    @Test
    void reportsAConnectionToAnAirbagCircuit() {
        Finding finding = TOLD.finding(seat().join("CAR.C9-1 HU.dim"));

        assertThat(finding.message()).isEqualTo("CAR.C9-1 belongs to the airbags and is connected to HU.dim");
        assertThat(finding.help()).isEqualTo("leave it alone, and look for the function on another circuit.");
        assertThat(finding.severity()).isEqualTo(Severity.DANGER);
        assertThat(finding.terminals()).containsExactly("CAR.C9-1");
        assertThat(finding.connections()).containsExactly("W1");
    }

    @Test
    void acceptsAMapWhoseAirbagCircuitsNothingTouches() {
        TOLD.passes(seat().unused("HU.dim", "capped"));
        TOLD.passes(seat().unused("CAR.C9-1", "left-plugged").unused("HU.dim", "capped"));
    }

    @Test
    void isSilentWhereTheMapShowsNoAirbagCircuit() {
        TOLD.doesNotApply(new Wiring().car("C1-7", facts(Wiring.constant())).join("CAR.C1-7 CAR.chassis"));
    }

    @Test
    void reportsACutOnceWithBothItsEnds() {
        Finding finding = TOLD.finding(seat().cut("C9-1").join("CAR.C9-1/harness HU.dim"));

        assertThat(finding.message())
                .isEqualTo("CAR.C9-1/harness and CAR.C9-1/unit belong to the airbags and are the ends of a cut");
        assertThat(finding.connections()).containsExactly("W1");
    }

    @Test
    void reportsAnUnpluggedConnectorOnceForAllItsCircuits() {
        Finding finding = TOLD.finding(seat().unplug("C9"));

        assertThat(finding.message())
                .isEqualTo("CAR.C9-1 and CAR.C9-2 belong to the airbags and stand in the connector CAR.C9, which is"
                        + " unplugged");
        assertThat(finding.terminals()).containsExactly("CAR.C9-1", "CAR.C9-2");
    }

    @Test
    void reportsAPlugOnceForAllItsPins() {
        Finding finding = TOLD.finding(seat().lead("HAR", "A-1", facts("\"kind\": \"passive\""))
                .lead("HAR", "A-2", facts("\"kind\": \"passive\""))
                .plug("CAR.C9", "HAR.A"));

        assertThat(finding.message()).endsWith("stand in the connector CAR.C9, which is mated with a part");
        assertThat(finding.terminals()).containsExactly("CAR.C9-1", "CAR.C9-2");
    }

    @Test
    void knowsAnAirbagCircuitByItsFunctionOrByWhatItIsWhilePlugged() {
        assertThat(TOLD.messages(new Wiring()
                        .car("C9-1", facts("safety.airbag", ""))
                        .car("C9-2", """
                                {"whenPlugged": {"kind": "untouchable", "reason": "airbag"}, "whenUnplugged": {"kind": "passive"}}""")
                        .inside("X", "\"conducts\": [[\"a\", \"b\"]]")
                        .join("CAR.C9-1 X.a", "CAR.C9-2 X.b")))
                .hasSize(2);
    }

    @Test
    void takesAnUntouchableCircuitWithoutReasonForAnAirbagsAndSaysSo() {
        Report report = seat().car("C9-3", facts("\"kind\": \"untouchable\""))
                .join("CAR.C9-3 HU.dim")
                .check();

        assertThat(TOLD.finding(report).terminals()).containsExactly("CAR.C9-3");
        assertThat(report.assumptions())
                .anySatisfy(assumption -> assertThat(assumption.about()).contains("states no reason"));
    }

    @Test
    void speaksAloneOfEverythingOnTheTouchedNet() {
        Report report = new Wiring()
                .car("C9-1", facts("safety.airbag", "\"kind\": \"untouchable\", \"reason\": \"airbag\""))
                .car("C1-7", facts(Wiring.constant()))
                .lead(
                        "HU",
                        "reverse",
                        facts("control.reverse", "\"kind\": \"control-in\", \"active\": \"12V\", \"amps\": 0.01"))
                .inside("Y", "\"conducts\": [[\"a\", \"b\", \"c\", \"d\"]]")
                .join("CAR.C9-1 Y.a", "CAR.C1-7 Y.b", "CAR.chassis Y.c", "HU.reverse Y.d")
                .check();

        assertThat(Hookups.findings(report, "supply-shorted-to-ground")).isEmpty();
        assertThat(Hookups.findings(report, "airbag-circuit-touched")).hasSize(1);
    }
}
