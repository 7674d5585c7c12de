package dev.splicebook.hookup.rule;

import static dev.splicebook.hookup.Wiring.facts;
import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.Wiring;
import org.junit.jupiter.api.Test;

class HighVoltageCircuitTouchedTest {

    private static final Told TOLD = Told.by("high-voltage-circuit-touched");

    private static final String HIGH = "\"kind\": \"untouchable\", \"reason\": \"high-voltage\"";

    private static Wiring drive() {
        return new Wiring()
                .car("H1-1", facts("safety.high-voltage", "OG", HIGH))
                .lead("USB", "plus", facts("\"kind\": \"load\", \"maxAmps\": 2"));
    }

    @Test
    void reportsAConnectionToAHighVoltageCircuit() {
        Finding finding = TOLD.finding(drive().join("CAR.H1-1 USB.plus"));

        assertThat(finding.message()).isEqualTo("CAR.H1-1 (OG) carries high voltage and is connected to USB.plus");
        assertThat(finding.help())
                .isEqualTo("leave it alone; only people qualified for high-voltage vehicles work there.");
        assertThat(finding.severity()).isEqualTo(Severity.DANGER);
        assertThat(finding.terminals()).containsExactly("CAR.H1-1");
    }

    @Test
    void acceptsAHighVoltageCircuitThatNothingTouches() {
        TOLD.passes(drive().unused("USB.plus", "capped"));
    }

    @Test
    void isSilentWhereTheOnlyUntouchableCircuitIsAnAirbags() {
        TOLD.doesNotApply(new Wiring()
                .car("C9-1", facts("safety.airbag", "\"kind\": \"untouchable\""))
                .cut("C9-1"));
    }

    @Test
    void reportsACutAndAnUnpluggedConnector() {
        assertThat(TOLD.messages(drive().cut("H1-1")))
                .containsExactly(
                        "CAR.H1-1/harness (OG) and CAR.H1-1/unit (OG) carry high voltage and are the ends of a cut");
        assertThat(TOLD.messages(drive().unplug("H1")))
                .containsExactly(
                        "CAR.H1-1 (OG) carries high voltage and stands in the connector CAR.H1, which is unplugged");
    }

    @Test
    void goesByTheFunctionWhereAnUntouchableCircuitStatesNoReason() {
        Wiring unstated = drive().car("H1-1", facts("safety.high-voltage", "\"kind\": \"untouchable\""))
                .join("CAR.H1-1 USB.plus");

        assertThat(TOLD.messages(unstated)).hasSize(1);
        Told.by("airbag-circuit-touched").doesNotApply(unstated);
    }

    @Test
    void reportsATouchThatAnAdapterPassesOn() {
        Wiring adapted = drive().lead("HAR", "H-1", facts("\"kind\": \"passive\""))
                .inside("HAR", "\"conducts\": [[\"H-1\", \"out\"]]")
                .plug("CAR.H1", "HAR.H")
                .join("HAR.out USB.plus");

        assertThat(TOLD.messages(adapted))
                .containsExactly(
                        "CAR.H1-1 (OG) carries high voltage and stands in the connector CAR.H1, which is mated with a"
                                + " part");
    }
}
