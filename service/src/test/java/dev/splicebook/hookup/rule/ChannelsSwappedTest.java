package dev.splicebook.hookup.rule;

import static dev.splicebook.hookup.Wiring.couple;
import static dev.splicebook.hookup.Wiring.facts;
import static dev.splicebook.hookup.Wiring.floating;
import static dev.splicebook.hookup.Wiring.loudspeaker;
import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Hookups;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.Wiring;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ChannelsSwappedTest {

    private static final Told TOLD = Told.by("channels-swapped");

    /** Two floating outputs of the vehicle and an amplifier with a left and a right input. */
    private static Wiring fronts() {
        return new Wiring()
                .carFloating("A2-1", "A2-2", "front-left")
                .carFloating("A2-3", "A2-4", "front-right")
                .speakerInput("AMP", "l-plus", "l-minus", "left")
                .speakerInput("AMP", "r-plus", "r-minus", "right");
    }

    private static Wiring one(String from, String to) {
        return new Wiring()
                .carFloating("A2-1", "A2-2", from)
                .lead("SPK", "plus", facts(loudspeaker(to, "plus")))
                .lead("SPK", "minus", facts(loudspeaker(to, "minus")))
                .join("CAR.A2-1 SPK.plus", "CAR.A2-2 SPK.minus");
    }

    @Test
    void reportsLeftAndRightSwappedAsOneSwap() {
        Finding finding = TOLD.finding(fronts().join(
                        "CAR.A2-1 AMP.r-plus", "CAR.A2-2 AMP.r-minus", "CAR.A2-3 AMP.l-plus", "CAR.A2-4 AMP.l-minus"));

        assertThat(finding.message())
                .isEqualTo("front-left of CAR arrives at right of AMP and front-right of CAR arrives at left of AMP");
        assertThat(finding.severity()).isEqualTo(Severity.WARNING);
        assertThat(finding.connections()).containsExactly("W1", "W2", "W3", "W4");
        assertThat(finding.terminals()).hasSize(8);
    }

    @Test
    void reportsTwoLoudspeakersThatChangedPlacesAsOneSwap() {
        Wiring swapped = new Wiring().carFloating("A2-1", "A2-2", "left").carFloating("A2-3", "A2-4", "right");
        for (String channel : new String[] {"left", "right"}) {
            swapped.lead(channel, "plus", facts(loudspeaker(channel, "plus")))
                    .lead(channel, "minus", facts(loudspeaker(channel, "minus")));
        }
        swapped.join("CAR.A2-1 right.plus", "CAR.A2-2 right.minus", "CAR.A2-3 left.plus", "CAR.A2-4 left.minus");

        assertThat(TOLD.messages(swapped))
                .containsExactly("left of CAR arrives at right of right and right of CAR arrives at left of left");
    }

    @Test
    void callsNoSwapWhatOneChannelDoesAtTwoLoudspeakersOfAnother() {
        Wiring twice = new Wiring()
                .carFloating("A2-1", "A2-2", "left")
                .lead("TW", "plus", facts(loudspeaker("right", "plus")))
                .lead("TW", "minus", facts(loudspeaker("right", "minus")))
                .lead("MID", "plus", facts(loudspeaker("right", "plus")))
                .lead("MID", "minus", facts(loudspeaker("right", "minus")))
                .join("CAR.A2-1 TW.plus", "CAR.A2-2 TW.minus", "CAR.A2-1 MID.plus", "CAR.A2-2 MID.minus");

        assertThat(Hookups.findings(twice.check(), "channels-swapped"))
                .hasSize(2)
                .allSatisfy(finding ->
                        assertThat(finding.help()).isEqualTo("connect the pair of the same channel instead."));
    }

    @Test
    void acceptsEachChannelAtItsOwnSide() {
        TOLD.passes(fronts().join(
                        "CAR.A2-1 AMP.l-plus", "CAR.A2-2 AMP.l-minus", "CAR.A2-3 AMP.r-plus", "CAR.A2-4 AMP.r-minus"));
    }

    @ParameterizedTest
    @CsvSource({"front-left, front-right", "front-left, rear-left", "rear-right, left", "left, right"})
    void reportsAChannelAtAnotherSideOrEndOfTheVehicle(String from, String to) {
        assertThat(TOLD.messages(one(from, to))).containsExactly(from + " of CAR arrives at " + to + " of SPK");
    }

    @ParameterizedTest
    @CsvSource({
        "front-left, left",
        "rear-left, left",
        "right, rear-right",
        "centre, left",
        "rear-right, subwoofer",
        "subwoofer, front-left"
    })
    void acceptsChannelsThatSayNothingAgainstEachOther(String from, String to) {
        TOLD.passes(one(from, to));
    }

    @Test
    void acceptsASwapThatAnotherBehindAConverterUndoes() {
        TOLD.passes(new Wiring()
                .carFloating("A2-1", "A2-2", "front-left")
                .speakerInput("LOC", "r-plus", "r-minus", "right")
                .inside("LOC", "\"couples\": [" + couple("r-plus", "r-minus", "ro", "ror", "\"gain\": 0.2") + "]")
                .lineInput("AMP", "in", "in-return", "left")
                .join("CAR.A2-1 LOC.r-plus", "CAR.A2-2 LOC.r-minus", "LOC.ro AMP.in", "LOC.ror AMP.in-return"));
    }

    @Test
    void namesTheSwapWhereTheSignalEndsNotAtTheConverter() {
        Wiring ends = new Wiring()
                .carFloating("A2-1", "A2-2", "front-left")
                .inside("LOC", "\"couples\": [" + couple("plus", "minus", "out", "ret", "\"gain\": 0.2") + "]")
                .lineInput("AMP", "in", "in-return", "right")
                .join("CAR.A2-1 LOC.plus", "CAR.A2-2 LOC.minus", "LOC.out AMP.in", "LOC.ret AMP.in-return");

        assertThat(TOLD.messages(ends)).containsExactly("front-left of CAR arrives at right of AMP");
    }

    @Test
    void reportsASwapThatAPlugMakes() {
        Wiring plugged = new Wiring()
                .car("C1-1", facts(loudspeaker("front-left", "plus")))
                .car("C1-2", facts(loudspeaker("front-left", "minus")))
                .lead("HU", "B-1", facts(floating("front-right", "plus")))
                .lead("HU", "B-2", facts(floating("front-right", "minus")))
                .plug("CAR.C1", "HU.B");

        assertThat(TOLD.messages(plugged)).containsExactly("front-right of HU arrives at front-left of CAR");
    }

    @Test
    void leavesOneSideOfEachPairToTheHalfPair() {
        TOLD.leavesTo(
                "pair-half-connected",
                fronts().join(
                                "CAR.A2-1 AMP.r-plus",
                                "CAR.A2-4 AMP.r-minus",
                                "CAR.A2-3 AMP.l-plus",
                                "CAR.A2-2 AMP.l-minus"));
    }

    @Test
    void isSilentWhereNoSignalArrives() {
        TOLD.doesNotApply(fronts());
    }

    @Test
    void namesTheStatesInWhichARelaySwaps() {
        Wiring switched = new Wiring()
                .carFloating("A2-1", "A2-2", "front-left")
                .lead("SPK", "plus", facts(loudspeaker("front-right", "plus")))
                .relayWhileRunning("K")
                .join("CAR.A2-1 K.30", "K.87 SPK.plus");

        assertThat(TOLD.finding(switched).states()).containsExactly(State.RUNNING);
    }

    @Test
    void isNotCheckedWhereAChannelIsUnknown() {
        TOLD.lacks(
                new Wiring()
                        .car("A2-1", facts("\"kind\": \"speaker-out\", \"side\": \"plus\""))
                        .lead("SPK", "plus", facts(loudspeaker("left", "plus")))
                        .join("CAR.A2-1 SPK.plus"),
                "CAR.A2-1.channel");
        TOLD.lacks(
                new Wiring()
                        .car("A2-1", facts(floating("left", "plus")))
                        .lead("SPK", "plus", facts("\"kind\": \"speaker-in\", \"side\": \"plus\", \"ohms\": 4"))
                        .join("CAR.A2-1 SPK.plus"),
                "SPK.plus.channel");
    }

    private static Wiring summed(String one, String other, String to) {
        return new Wiring()
                .carFloating("A2-1", "A2-2", one)
                .carFloating("A2-3", "A2-4", other)
                .inside(
                        "SUM",
                        "\"couples\": [" + couple("a", "am", "out", "ret", "\"gain\": 0.1") + ", "
                                + couple("b", "bm", "out", "ret", "\"gain\": 0.1") + "]")
                .lineInput("AMP", "in", "in-return", to)
                .join("CAR.A2-1 SUM.a", "CAR.A2-2 SUM.am", "CAR.A2-3 SUM.b", "CAR.A2-4 SUM.bm")
                .join("SUM.out AMP.in", "SUM.ret AMP.in-return");
    }

    @ParameterizedTest
    @CsvSource({"front-left, rear-left, front-left", "front-left, front-right, right", "left, right, left"})
    void acceptsASumInWhichTheRightChannelIs(String one, String other, String to) {
        TOLD.passes(summed(one, other, to));
    }

    @Test
    void reportsASumOfWrongChannels() {
        assertThat(TOLD.messages(summed("front-left", "rear-left", "right")))
                .containsExactly(
                        "front-left of CAR arrives at right of AMP and rear-left of CAR arrives at right of AMP");
    }

    @Test
    void asksForTheChannelOfASummandThatMayBeTheRightOne() {
        Wiring unknown = summed("front-left", "rear-left", "front-right")
                .car("A2-3", facts("\"kind\": \"speaker-out\", \"side\": \"plus\", \"drive\": \"floating\""));

        TOLD.lacks(unknown, "CAR.A2-3.channel");
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
}
