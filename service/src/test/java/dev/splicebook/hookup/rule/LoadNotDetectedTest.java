package dev.splicebook.hookup.rule;

import static dev.splicebook.hookup.Wiring.audio;
import static dev.splicebook.hookup.Wiring.couple;
import static dev.splicebook.hookup.Wiring.speakerOut;
import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Report;
import dev.splicebook.hookup.Speakers;
import dev.splicebook.hookup.Wiring;
import org.junit.jupiter.api.Test;

class LoadNotDetectedTest {

    private static final Told TOLD = Told.by("load-not-detected");

    private static final String DETECTS =
            "\"drive\": \"floating\", \"maxVolts\": 17, \"minOhms\": 4, \"maxDetectOhms\": 100";

    /** A factory output that mutes without a loudspeaker, with the loudspeaker that the map has behind it or not. */
    private static Wiring factory(boolean loudspeaker) {
        return new Wiring().car("A2-1", circuit("plus", loudspeaker)).car("A2-2", circuit("minus", loudspeaker));
    }

    private static String circuit(String side, boolean loudspeaker) {
        String plugged = "\"whenPlugged\": {" + speakerOut("front-left", side, DETECTS) + "}";
        String unplugged = ", \"whenUnplugged\": {" + audio("speaker-in", "front-left", side, "\"ohms\": 4") + "}";
        return "{" + plugged + (loudspeaker ? unplugged : "") + "}";
    }

    private static Wiring converter(Wiring wiring, String more) {
        return wiring.inside("LOC", "\"couples\": [" + couple("plus", "minus", "out", "out-return", more) + "]");
    }

    @Test
    void reportsAnOutputThatIsLeftWithAConverterAlone() {
        Wiring cut = converter(factory(true), "\"inputOhms\": 10000, \"maxVolts\": 30")
                .cut("A2-1")
                .cut("A2-2")
                .join("CAR.A2-1/unit LOC.plus", "CAR.A2-2/unit LOC.minus");

        Finding finding = TOLD.finding(cut);

        assertThat(finding.message())
                .isEqualTo("CAR.A2-1/unit and CAR.A2-2/unit mute unless less than 100 Ω is connected, and what is there"
                        + " comes to 10000 Ω");
        Bench.assertFigures(finding, 10000, 100, "Ω");
    }

    @Test
    void reportsAnInputOfWhichNoImpedanceIsStatedAndListsThatAssumption() {
        Wiring wiring = converter(factory(false), "").join("CAR.A2-1 LOC.plus", "CAR.A2-2 LOC.minus");

        assertThat(TOLD.finding(wiring).message()).endsWith("and no loudspeaker is there");
        assertThat(wiring.check().assumptions())
                .extracting(Report.Assumption::name)
                .contains("inputOhms");
    }

    @Test
    void acceptsATappedOutputThatKeepsItsLoudspeaker() {
        TOLD.passes(converter(factory(true), "").join("CAR.A2-1 LOC.plus", "CAR.A2-2 LOC.minus"));
    }

    @Test
    void acceptsALoadResistorBelowTheLimit() {
        TOLD.passes(Speakers.resistor(converter(factory(false), ""), "R", 47)
                .join("CAR.A2-1 LOC.plus", "CAR.A2-2 LOC.minus", "CAR.A2-1 R.a", "CAR.A2-2 R.b"));
    }

    @Test
    void reportsAtTheLimitBecauseOnlyBelowItALoadIsDetected() {
        Wiring at = Speakers.resistor(factory(false), "R", 100).join("CAR.A2-1 R.a", "CAR.A2-2 R.b");
        Wiring below = Speakers.resistor(factory(false), "R", 99.9).join("CAR.A2-1 R.a", "CAR.A2-2 R.b");

        Bench.assertFigures(TOLD.finding(at), 100, 100, "Ω");
        TOLD.passes(below);
    }

    @Test
    void isSilentWhereTheOutputDoesNotMuteOrIsNotUsed() {
        TOLD.doesNotApply(converter(new Wiring().carFloating("A2-1", "A2-2", "front-left"), "")
                .join("CAR.A2-1 LOC.plus", "CAR.A2-2 LOC.minus"));
        TOLD.doesNotApply(converter(factory(false), ""));
    }

    @Test
    void leavesAPairOfWhichHalfIsConnectedToTheRuleOfPairs() {
        TOLD.leavesTo("pair-half-connected", converter(factory(false), "").join("CAR.A2-1 LOC.plus"));
    }

    @Test
    void isNotCheckedWhereACircuitOfWhichNothingIsKnownHangsThere() {
        TOLD.lacks(
                converter(factory(false), "")
                        .car("X1-1", "{\"colour\": \"WH\"}")
                        .join("CAR.A2-1 LOC.plus", "CAR.A2-2 LOC.minus", "CAR.A2-1 CAR.X1-1"),
                "CAR.X1-1.electrical");
    }

    @Test
    void reportsBothOutputsWhoseLoadResistorsLeadFromOneToTheOther() {
        String mutes = "\"drive\": \"floating\", \"maxVolts\": 9, \"maxDetectOhms\": 100";
        Wiring outputs = Speakers.output(Speakers.amplifier(mutes), "B", mutes);
        Wiring crossed = Speakers.resistor(Speakers.resistor(outputs, "R1", 47), "R2", 47)
                .join("AMP.plus R1.a", "R1.b B.plus", "AMP.minus R2.a", "R2.b B.minus");

        assertThat(TOLD.messages(crossed))
                .containsExactlyInAnyOrder(
                        "AMP.plus and AMP.minus mute unless less than 100 Ω is connected, and no loudspeaker is there",
                        "B.plus and B.minus mute unless less than 100 Ω is connected, and no loudspeaker is there");
    }
}
