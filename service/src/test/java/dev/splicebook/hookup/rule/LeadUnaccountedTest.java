package dev.splicebook.hookup.rule;

import static dev.splicebook.hookup.Wiring.facts;
import static dev.splicebook.hookup.Wiring.supply;
import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.Wiring;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class LeadUnaccountedTest {

    private static final Told TOLD = Told.by("lead-unaccounted");

    private static final String CAMERA =
            facts("video.camera-rear.signal", "YE", "\"kind\": \"video-in\", \"side\": \"signal\"");

    private static Wiring unit() {
        return new Wiring().lead("HU", "camera", CAMERA);
    }

    @Test
    void reportsALeadThatIsNeitherConnectedNorListed() {
        Finding finding = TOLD.finding(unit());

        assertThat(finding.message())
                .isEqualTo("HU.camera (YE), video.camera-rear.signal, is neither connected nor listed as unused");
        assertThat(finding.help()).isEqualTo("connect HU.camera, or list it as unused with what was done and why.");
        assertThat(finding.severity()).isEqualTo(Severity.WARNING);
        assertThat(finding.terminals()).containsExactly("HU.camera");
    }

    @ParameterizedTest
    @ValueSource(strings = {"capped", "taped-back", "left-plugged", "removed"})
    void acceptsALeadThatIsListedWhateverWasDoneWithIt(String as) {
        TOLD.passes(unit().unused("HU.camera", as));
    }

    @Test
    void acceptsALeadThatIsConnected() {
        TOLD.passes(unit().car("V1-1", facts("\"kind\": \"video-out\", \"side\": \"signal\""))
                .join("CAR.V1-1 HU.camera"));
    }

    @Test
    void tellsOfALeadThatIsBothConnectedAndListed() {
        Wiring both = unit().car("V1-1", facts("\"kind\": \"video-out\", \"side\": \"signal\""))
                .join("CAR.V1-1 HU.camera")
                .unused("HU.camera", "capped");

        Finding finding = TOLD.finding(both);
        assertThat(finding.message())
                .isEqualTo("HU.camera (YE) is listed as unused (capped), and is connected by W1; it is judged as"
                        + " connected");
        assertThat(finding.connections()).containsExactly("W1");
    }

    @Test
    void saysThatALooseLeadCanBeLive() {
        assertThat(TOLD.messages(
                        new Wiring().car("C1-8", facts(supply("running"))).unplug("C1")))
                .containsExactly("CAR.C1-8 is neither connected nor listed as unused, and it can be live");
    }

    @Test
    void isSilentWhereTheVehiclesConnectorStaysPlugged() {
        TOLD.doesNotApply(new Wiring().car("C1-8", facts(supply("running"))));
    }

    @Test
    void takesAConnectorByItsWholeName() {
        Wiring likeNamed = new Wiring()
                .car("C1-8", facts("\"kind\": \"antenna\""))
                .car("C1-A-8", facts("\"kind\": \"antenna\""))
                .unplug("C1-A");

        assertThat(TOLD.finding(likeNamed).terminals()).containsExactly("CAR.C1-A-8");
    }

    @Test
    void asksForBothEndsOfACutCircuit() {
        Wiring cut = new Wiring().car("C2-4", facts("\"kind\": \"antenna\"")).cut("C2-4");

        assertThat(TOLD.messages(cut))
                .containsExactlyInAnyOrder(
                        "CAR.C2-4/unit is neither connected nor listed as unused",
                        "CAR.C2-4/harness is neither connected nor listed as unused");
    }

    @Test
    void leavesTheStubInAConnectorThatIsOff() {
        Wiring off = new Wiring()
                .car("C2-4", facts("\"kind\": \"antenna\""))
                .cut("C2-4")
                .unplug("C2");

        assertThat(TOLD.finding(off).terminals()).containsExactly("CAR.C2-4/harness");
    }

    @Test
    void leavesAPinOfAMatedConnectorInItsPlugAndAsksForTheVehiclesPinThatMeetsNone() {
        Wiring mated = new Wiring()
                .car("C1-1", facts("\"kind\": \"antenna\""))
                .car("C1-2", facts("\"kind\": \"antenna\""))
                .lead("HU", "A-1", facts("\"kind\": \"antenna\""))
                .lead("HU", "A-9", facts("\"kind\": \"antenna\""))
                .plug("CAR.C1", "HU.A");

        assertThat(TOLD.finding(mated).terminals()).containsExactly("CAR.C1-2");
    }

    @Test
    void asksForNothingThatIsInsideAPart() {
        TOLD.doesNotApply(new Wiring().relay("K"));
    }

    @Test
    void countsALeadThatAnAdapterConductsAsLooseToo() {
        Wiring adapter = unit().lead("HU", "camera-2", CAMERA)
                .inside("HU", "\"conducts\": [[\"camera\", \"camera-2\"]]")
                .unused("HU.camera", "capped");

        assertThat(TOLD.finding(adapter).terminals()).containsExactly("HU.camera-2");
    }

    @Test
    void givesLikeLeadsOneFingerprint() {
        assertThat(unit().lead("HU", "camera-2", CAMERA).check().findings())
                .extracting(Finding::fingerprint)
                .hasSize(2)
                .containsOnly(TOLD.finding(unit()).fingerprint());
    }
}
