package dev.splicebook.hookup.rule;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Speakers;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.Wiring;
import org.junit.jupiter.api.Test;

/** P = V²/R: 20 V give 100 W in 4 ohms, and 25 W in each of two in series. */
class SpeakerOverpoweredTest {

    private static final Told TOLD = Told.by("speaker-overpowered");

    private static Wiring door(String more) {
        return Speakers.single(Speakers.amplifier(), "DOOR", more).join("AMP.plus DOOR.plus", "AMP.minus DOOR.minus");
    }

    @Test
    void reportsACoilThatCanGetMoreThanItTakes() {
        Finding finding = TOLD.finding(door("\"ohms\": 4, \"maxWatts\": 60"));

        assertThat(finding.message())
                .isEqualTo(
                        "the coil at DOOR.plus and DOOR.minus gets up to 100 W from AMP.plus at 20.0 V rms, above the 60 W"
                                + " that it takes");
        Bench.assertFigures(finding, 100, 60, "W");
    }

    @Test
    void acceptsTheSameCoilInAStringOfTwo() {
        Wiring string =
                Speakers.single(Speakers.single(Speakers.amplifier(), "A", "\"ohms\": 4, \"maxWatts\": 30"), "B");

        TOLD.passes(string.join("AMP.plus A.plus", "A.minus B.plus", "B.minus AMP.minus"));
    }

    @Test
    void acceptsExactlyWhatTheCoilTakes() {
        TOLD.passes(door("\"ohms\": 4, \"maxWatts\": 100"));
    }

    @Test
    void reportsBothCoilsOfOneLoudspeakerOnce() {
        Wiring wiring = Speakers.dual(Speakers.amplifier("\"drive\": \"floating\", \"maxVolts\": 25"), "SUB")
                .join("AMP.plus SUB.1-plus", "AMP.plus SUB.2-plus", "AMP.minus SUB.1-minus", "AMP.minus SUB.2-minus");

        assertThat(TOLD.finding(wiring).terminals()).hasSize(5);
    }

    @Test
    void leavesACoilThatStatesVoltsAloneToTheLevel() {
        TOLD.leavesTo("level-too-high", door("\"ohms\": 4, \"maxVolts\": 15"));
        assertThat(TOLD.messages(door("\"ohms\": 4, \"maxVolts\": 15, \"maxWatts\": 60")))
                .hasSize(1);
    }

    @Test
    void isSilentWhereNoLoudspeakerIsDriven() {
        TOLD.doesNotApply(Speakers.single(Speakers.amplifier(), "SUB"));
    }

    @Test
    void namesTheStatesInWhichARelayTakesThePartnerOutOfTheString() {
        Wiring switched = Speakers.single(
                        Speakers.single(Speakers.amplifier(), "A", "\"ohms\": 4, \"maxWatts\": 30"), "B")
                .relayWhileRunning("K")
                .join("AMP.plus A.plus", "A.minus B.plus", "B.minus AMP.minus", "B.plus K.30", "K.87 B.minus");

        assertThat(TOLD.finding(switched).states()).containsExactly(State.RUNNING);
    }

    @Test
    void isNotCheckedWhereWattsOrVoltsAreUnknown() {
        TOLD.lacks(door("\"ohms\": 4"), "DOOR.plus.maxWatts");
        TOLD.lacks(
                Speakers.single(Speakers.amplifier("\"drive\": \"floating\""), "DOOR")
                        .join("AMP.plus DOOR.plus", "AMP.minus DOOR.minus"),
                "AMP.plus.maxVolts");
    }
}
