package dev.splicebook.hookup.rule;

import static dev.splicebook.hookup.Wiring.constant;
import static dev.splicebook.hookup.Wiring.facts;
import static dev.splicebook.hookup.Wiring.floating;
import static dev.splicebook.hookup.Wiring.supply;
import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.Wiring;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class LiveLeadUncappedTest {

    private static final Told TOLD = Told.by("live-lead-uncapped");

    private static Wiring accessory() {
        return new Wiring().car("C1-8", facts(supply("accessory", "running"))).unplug("C1");
    }

    @Test
    void reportsALiveLeadThatIsOnlyTapedBackWithTheStatesInWhichItIsLive() {
        Finding finding = TOLD.finding(accessory().unused("CAR.C1-8", "taped-back"));

        assertThat(finding.message()).isEqualTo("CAR.C1-8 is taped back and is live while accessory and running");
        assertThat(finding.help()).isEqualTo("cap CAR.C1-8.");
        assertThat(finding.severity()).isEqualTo(Severity.ERROR);
        assertThat(finding.states()).containsExactly(State.ACCESSORY, State.RUNNING);
        assertThat(finding.terminals()).containsExactly("CAR.C1-8");
    }

    @ParameterizedTest
    @ValueSource(strings = {"capped", "removed"})
    void acceptsALiveLeadThatNothingCanReach(String as) {
        TOLD.passes(accessory().unused("CAR.C1-8", as));
    }

    @Test
    void acceptsALeadLeftInAPlugThatIsInItsSocket() {
        TOLD.passes(new Wiring().car("C1-8", facts(constant())).unused("CAR.C1-8", "left-plugged"));
    }

    @Test
    void reportsALeadLeftInAPlugThatHangsLoose() {
        assertThat(TOLD.messages(accessory().unused("CAR.C1-8", "left-plugged")))
                .containsExactly(
                        "CAR.C1-8 is left in the connector CAR.C1, which is in no socket, and is live while accessory and"
                                + " running");
    }

    @Test
    void acceptsAPinThatMeetsNoneInAPlugThatIsMated() {
        TOLD.passes(new Wiring()
                .car("C1-8", facts(constant()))
                .car("C1-9", facts("\"kind\": \"antenna\""))
                .lead("HU", "A-9", facts("\"kind\": \"antenna\""))
                .plug("CAR.C1", "HU.A")
                .unused("CAR.C1-8", "left-plugged"));
    }

    @Test
    void reportsACutEndThatIsSaidToBeLeftPlugged() {
        Wiring cut = new Wiring()
                .car("C1-8", facts(constant()))
                .cut("C1-8")
                .unused("CAR.C1-8/harness", "left-plugged")
                .unused("CAR.C1-8/unit", "capped");

        assertThat(TOLD.finding(cut).message())
                .startsWith("CAR.C1-8/harness is a cut end that is in no plug and is live while asleep");
    }

    @Test
    void acceptsALeadThatCarriesNothing() {
        TOLD.passes(new Wiring()
                .lead("HU", "antenna", facts("\"kind\": \"antenna\""))
                .unused("HU.antenna", "taped-back"));
    }

    @Test
    void reportsASpeakerOutputThatIsTapedBack() {
        assertThat(TOLD.messages(new Wiring()
                        .lead("HU", "rl-plus", facts(floating("rear-left", "plus")))
                        .unused("HU.rl-plus", "taped-back")))
                .containsExactly("HU.rl-plus is taped back and is a speaker output");
    }

    @Test
    void reportsALeadThatIsLiveThroughAnAdapterOrARelayOrADiode() {
        Wiring spare = new Wiring()
                .car("C1-7", facts(constant()))
                .lead("HAR", "spare", facts("\"kind\": \"passive\""))
                .inside("HAR", "\"conducts\": [[\"in\", \"spare\"]]")
                .join("CAR.C1-7 HAR.in")
                .unused("HAR.spare", "taped-back")
                .relayWhileRunning("K")
                .lead("K", "87", facts("\"kind\": \"passive\""))
                .join("CAR.C1-7 K.30")
                .unused("K.87", "taped-back")
                .lead("D", "c", facts("\"kind\": \"passive\""))
                .inside("D", "\"diodes\": [{\"anode\": \"a\", \"cathode\": \"c\"}]")
                .join("CAR.C1-7 D.a")
                .unused("D.c", "taped-back");

        assertThat(TOLD.messages(spare))
                .containsExactlyInAnyOrder(
                        "HAR.spare is taped back and is live while asleep, accessory, ignition, cranking, running and"
                                + " restarting",
                        "K.87 is taped back and is live while running",
                        "D.c is taped back and is live while asleep, accessory, ignition, cranking, running and"
                                + " restarting");
    }

    @Test
    void reportsALeadThatIsLiveUnderAConditionOnly() {
        Wiring reverse = new Wiring()
                .car("C3-4", facts(supply("running") + ", \"when\": \"reverse\""))
                .unplug("C3")
                .unused("CAR.C3-4", "taped-back");

        assertThat(TOLD.finding(reverse).states()).containsExactly(State.RUNNING);
    }

    @Test
    void isSilentWhereNoLeadIsUnused() {
        TOLD.doesNotApply(accessory());
    }

    @Test
    void isNotCheckedWhereNothingIsKnownOfTheLead() {
        TOLD.lacks(
                new Wiring().car("C1-9", "{\"colour\": \"BN\"}").unplug("C1").unused("CAR.C1-9", "taped-back"),
                "CAR.C1-9.electrical");
    }

    @Test
    void isNotCheckedWhereItIsUnknownWhenTheLeadOrWhatFeedsItIsLive() {
        TOLD.lacks(
                new Wiring()
                        .car("C1-8", facts("\"kind\": \"supply\""))
                        .unplug("C1")
                        .unused("CAR.C1-8", "taped-back"),
                "CAR.C1-8.live");
        TOLD.lacks(
                new Wiring()
                        .car("C1-8", facts("\"kind\": \"supply\""))
                        .lead("HU", "acc", facts("\"kind\": \"load\", \"maxAmps\": 1"))
                        .lead(
                                "HU",
                                "on",
                                facts("\"kind\": \"control-out\", \"active\": \"12V\", \"live\": [\"running\"]"))
                        .join("CAR.C1-8 HU.acc")
                        .unused("HU.on", "taped-back"),
                "CAR.C1-8.live");
    }
}
