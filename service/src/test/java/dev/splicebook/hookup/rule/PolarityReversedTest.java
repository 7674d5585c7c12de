package dev.splicebook.hookup.rule;

import static dev.splicebook.hookup.Wiring.couple;
import static dev.splicebook.hookup.Wiring.facts;
import static dev.splicebook.hookup.Wiring.floating;
import static dev.splicebook.hookup.Wiring.loudspeaker;
import static dev.splicebook.hookup.Wiring.speakerIn;
import static dev.splicebook.hookup.Wiring.speakerOut;
import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Speakers;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.Wiring;
import org.junit.jupiter.api.Test;

/** Each swap of a pair, and each gain below 0, turns the signal round; two of them undo each other. */
class PolarityReversedTest {

    private static final Told TOLD = Told.by("polarity-reversed");

    private static Wiring door() {
        return new Wiring().carFloating("A2-1", "A2-2", "front-left");
    }

    private static Wiring intoAmplifier(String... pairs) {
        return door().speakerInput("AMP", "plus", "minus", "left").join(pairs);
    }

    /** A converter between door and amplifier; the pairs are all that is joined. */
    private static Wiring converted(String gain, String... pairs) {
        return door().inside("LOC", "\"couples\": [" + couple("plus", "minus", "out", "out-return", gain) + "]")
                .lineInput("AMP", "in", "in-return", "left")
                .join(pairs);
    }

    @Test
    void reportsAPairThatIsConnectedTheWrongWayRound() {
        Finding finding = TOLD.finding(intoAmplifier("CAR.A2-1 AMP.minus", "CAR.A2-2 AMP.plus"));

        assertThat(finding.message()).isEqualTo("AMP.plus and AMP.minus get CAR.A2-1 and CAR.A2-2 the wrong way round");
        assertThat(finding.help()).isEqualTo("swap the two conductors of the pair, at one end only.");
        assertThat(finding.terminals()).containsExactlyInAnyOrder("AMP.minus", "AMP.plus", "CAR.A2-1", "CAR.A2-2");
        assertThat(finding.connections()).containsExactly("W1", "W2");
    }

    @Test
    void acceptsAPairThatIsConnectedPlusToPlus() {
        TOLD.passes(intoAmplifier("CAR.A2-1 AMP.plus", "CAR.A2-2 AMP.minus"));
    }

    @Test
    void acceptsASwapBeforeAConverterThatAnotherBehindItUndoes() {
        TOLD.passes(converted(
                "\"gain\": 0.2",
                "CAR.A2-1 LOC.minus",
                "CAR.A2-2 LOC.plus",
                "LOC.out AMP.in-return",
                "LOC.out-return AMP.in"));
    }

    @Test
    void reportsOneSwapBeforeAConverterOnce() {
        Wiring before = converted(
                "\"gain\": 0.2",
                "CAR.A2-1 LOC.minus",
                "CAR.A2-2 LOC.plus",
                "LOC.out AMP.in",
                "LOC.out-return AMP.in-return");

        assertThat(TOLD.finding(before).terminals()).contains("LOC.minus", "LOC.plus", "CAR.A2-1", "CAR.A2-2");
        assertThat(TOLD.finding(before).message()).contains("and so it arrives at AMP.in");
    }

    @Test
    void reportsASwapBehindAConverter() {
        Wiring behind = converted(
                "\"gain\": 0.2",
                "CAR.A2-1 LOC.plus",
                "CAR.A2-2 LOC.minus",
                "LOC.out AMP.in-return",
                "LOC.out-return AMP.in");

        assertThat(TOLD.finding(behind).connections()).containsExactly("W3", "W4");
    }

    @Test
    void reportsAConverterThatTurnsTheSignalRoundAndAcceptsItWithASwap() {
        assertThat(TOLD.messages(converted(
                        "\"gain\": -0.2",
                        "CAR.A2-1 LOC.plus",
                        "CAR.A2-2 LOC.minus",
                        "LOC.out AMP.in",
                        "LOC.out-return AMP.in-return")))
                .hasSize(1);
        TOLD.passes(converted(
                "\"gain\": -0.2",
                "CAR.A2-1 LOC.minus",
                "CAR.A2-2 LOC.plus",
                "LOC.out AMP.in",
                "LOC.out-return AMP.in-return"));
    }

    @Test
    void judgesByTheAdapterNotByTheNamesOfItsLeads() {
        TOLD.passes(intoAmplifier("CAR.A2-1 X.minus", "CAR.A2-2 X.plus", "X.to-plus AMP.plus", "X.to-minus AMP.minus")
                .inside("X", "\"conducts\": [[\"minus\", \"to-plus\"], [\"plus\", \"to-minus\"]]"));
    }

    @Test
    void reportsOneReversedCoilOfTwoInSeries() {
        Wiring series = new Wiring()
                .carFloating("A2-1", "A2-2", "subwoofer")
                .lead("SUB", "1-plus", facts(loudspeaker("subwoofer", "plus")))
                .lead("SUB", "1-minus", facts(loudspeaker("subwoofer", "minus")))
                .lead("SUB", "2-plus", facts(loudspeaker("subwoofer", "plus")))
                .lead("SUB", "2-minus", facts(loudspeaker("subwoofer", "minus")));

        assertThat(TOLD.finding(series.join("CAR.A2-1 SUB.1-plus", "SUB.1-minus SUB.2-minus", "CAR.A2-2 SUB.2-plus"))
                        .message())
                .isEqualTo(
                        "the coil at SUB.2-plus and SUB.2-minus is wired the wrong way round and works against the one at"
                                + " SUB.1-plus and SUB.1-minus");
    }

    @Test
    void acceptsTwoCoilsInSeriesPlusToMinus() {
        TOLD.passes(new Wiring()
                .carFloating("A2-1", "A2-2", "subwoofer")
                .lead("SUB", "1-plus", facts(loudspeaker("subwoofer", "plus")))
                .lead("SUB", "1-minus", facts(loudspeaker("subwoofer", "minus")))
                .lead("SUB", "2-plus", facts(loudspeaker("subwoofer", "plus")))
                .lead("SUB", "2-minus", facts(loudspeaker("subwoofer", "minus")))
                .join("CAR.A2-1 SUB.1-plus", "SUB.1-minus SUB.2-plus", "CAR.A2-2 SUB.2-minus"));
    }

    @Test
    void leavesALoneReversedConductorToTheHalfPair() {
        TOLD.leavesTo("pair-half-connected", intoAmplifier("CAR.A2-1 AMP.minus"));
    }

    @Test
    void isSilentWhereNoSignalArrives() {
        TOLD.doesNotApply(intoAmplifier());
    }

    @Test
    void isNotCheckedWhereASideIsUnknown() {
        TOLD.lacks(
                new Wiring()
                        .car("A2-1", facts("\"kind\": \"speaker-out\", \"channel\": \"left\", \"drive\": \"floating\""))
                        .lead("AMP", "plus", facts(speakerIn("left", "plus")))
                        .join("CAR.A2-1 AMP.plus"),
                "CAR.A2-1.side");
        TOLD.lacks(
                new Wiring()
                        .car("A2-1", facts(speakerOut("left", "plus", "\"drive\": \"floating\"")))
                        .lead("AMP", "in", facts("\"kind\": \"speaker-in\", \"channel\": \"left\""))
                        .join("CAR.A2-1 AMP.in"),
                "AMP.in.side");
    }

    @Test
    void namesTheStatesInWhichRelaysTurnThePairRound() {
        Wiring turned = intoAmplifier()
                .relayWhileRunning("K")
                .relay("J")
                .join("CAR.R1-1 J.86", "CAR.chassis J.85", "CAR.A2-1 K.30", "CAR.A2-2 J.30")
                .join("K.87a AMP.plus", "J.87a AMP.minus", "K.87 AMP.minus", "J.87 AMP.plus");

        assertThat(TOLD.finding(turned).states()).containsExactly(State.RUNNING);
    }

    @Test
    void reportsAnOutputAgainstGroundWhosePlusIsAtTheMinus() {
        String drive = "\"drive\": \"common-ground\"";
        Wiring crossed = new Wiring()
                .lead("HU", "plus", facts(speakerOut("left", "plus", drive)))
                .lead("HU", "minus", facts(speakerOut("left", "minus", drive)))
                .speakerInput("AMP", "plus", "minus", "left")
                .join("HU.plus AMP.minus", "CAR.chassis AMP.plus");

        assertThat(TOLD.finding(crossed).message()).isEqualTo("AMP.minus gets HU.plus the wrong way round");
    }

    @Test
    void tellsTwoReversedPairsApart() {
        Wiring both = door().carFloating("A2-3", "A2-4", "front-right")
                .speakerInput("AMP", "l-plus", "l-minus", "left")
                .speakerInput("AMP", "r-plus", "r-minus", "right")
                .join("CAR.A2-1 AMP.l-minus", "CAR.A2-2 AMP.l-plus", "CAR.A2-3 AMP.r-minus", "CAR.A2-4 AMP.r-plus");

        assertThat(TOLD.messages(both)).hasSize(2);
    }

    @Test
    void reportsAReversalThatAPlugMakes() {
        Wiring plugged = new Wiring()
                .car("C1-1", facts(loudspeaker("left", "plus")))
                .car("C1-2", facts(loudspeaker("left", "minus")))
                .lead("HU", "B-1", facts(speakerOut("left", "minus", "\"drive\": \"floating\"")))
                .lead("HU", "B-2", facts(speakerOut("left", "plus", "\"drive\": \"floating\"")))
                .plug("CAR.C1", "HU.B");

        assertThat(TOLD.finding(plugged).terminals())
                .containsExactlyInAnyOrder("CAR.C1-1", "CAR.C1-2", "HU.B-1", "HU.B-2");
    }

    @Test
    void isNotCheckedWhereASignalEndsAtACircuitOfWhichNothingIsKnown() {
        TOLD.lacks(
                new Wiring()
                        .car("R1-7", "{\"colour\": \"WH\"}")
                        .car("R1-8", "{\"colour\": \"WH/BK\"}")
                        .car("R1-9", "{\"colour\": \"GN\"}")
                        .unplug("R1")
                        .lead("HU", "plus", facts(floating("front-left", "plus")))
                        .lead("HU", "minus", facts(floating("front-left", "minus")))
                        .join("HU.plus CAR.R1-7", "HU.minus CAR.R1-8"),
                "CAR.R1-7.electrical",
                "CAR.R1-8.electrical");
    }

    @Test
    void findsACoilInTheMiddleOfAStringOfWhichNoEndIsAtTheOutput() {
        Wiring string = Speakers.single(Speakers.single(Speakers.single(Speakers.amplifier(), "A"), "B"), "C")
                .join("AMP.plus A.plus", "A.minus B.minus", "B.plus C.plus", "C.minus AMP.minus");

        assertThat(TOLD.finding(string).message())
                .isEqualTo("the coil at B.plus and B.minus is wired the wrong way round and works against the others on"
                        + " AMP.plus and AMP.minus");
    }

    @Test
    void acceptsLoudspeakersInSeriesPlusToMinus() {
        TOLD.passes(Speakers.single(Speakers.single(Speakers.amplifier(), "A"), "B")
                .join("AMP.plus A.plus", "A.minus B.plus", "B.minus AMP.minus"));
    }

    @Test
    void tellsBothCoilsOfALoudspeakerThatIsTurnedRoundOnce() {
        Wiring turned = Speakers.dual(Speakers.amplifier(), "SUB")
                .join("AMP.plus SUB.1-minus", "SUB.1-plus SUB.2-minus", "SUB.2-plus AMP.minus");

        assertThat(TOLD.finding(turned).terminals()).contains("SUB.1-minus", "SUB.2-plus", "AMP.plus", "AMP.minus");
    }

    @Test
    void acceptsATurnedLoudspeakerBehindATurnedInput() {
        Wiring wiring = Speakers.single(Speakers.amplifier(), "SUB")
                .carFloating("A2-1", "A2-2", "front-left")
                .inside("AMP", "\"couples\": [" + couple("in", "in-return", "plus", "minus", "\"maxVolts\": 30") + "]")
                .join("CAR.A2-1 AMP.in-return", "CAR.A2-2 AMP.in");

        TOLD.passes(wiring.join("AMP.plus SUB.minus", "AMP.minus SUB.plus"));
    }

    @Test
    void tellsTheTurnedInputAndNotEachCoilBehindIt() {
        Wiring wiring = Speakers.inSeries(
                Speakers.dual(Speakers.amplifier(), "SUB")
                        .carFloating("A2-1", "A2-2", "front-left")
                        .inside(
                                "AMP",
                                "\"couples\": [" + couple("in", "in-return", "plus", "minus", "\"maxVolts\": 30") + "]")
                        .join("CAR.A2-1 AMP.in-return", "CAR.A2-2 AMP.in"),
                "SUB");

        assertThat(TOLD.finding(wiring).terminals())
                .contains("AMP.in", "AMP.in-return")
                .doesNotContain("SUB.1-plus");
    }
}
