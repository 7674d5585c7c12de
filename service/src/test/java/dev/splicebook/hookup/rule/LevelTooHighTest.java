package dev.splicebook.hookup.rule;

import static dev.splicebook.hookup.Wiring.audio;
import static dev.splicebook.hookup.Wiring.couple;
import static dev.splicebook.hookup.Wiring.facts;
import static dev.splicebook.hookup.Wiring.lineOut;
import static dev.splicebook.hookup.Wiring.loudspeaker;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Speakers;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.Wiring;
import org.junit.jupiter.api.Test;

/** 17.32 V is 75 W into 4 ohms, by V = sqrt(P R); a coupling gives its gain times the volts that it gets. */
class LevelTooHighTest {

    private static final Told TOLD = Told.by("level-too-high");

    private static Wiring door() {
        return new Wiring().carFloating("A2-1", "A2-2", "front-left");
    }

    private static String input(String kind, String more) {
        return facts(audio(kind, "left", kind.equals("line-in") ? "signal" : "plus", more));
    }

    private static Wiring converter(String gain) {
        return door().inside("LOC", "\"couples\": [" + couple("plus", "minus", "out", "out-return", gain) + "]")
                .lineInput("AMP", "in", "in-return", "left")
                .join("CAR.A2-1 LOC.plus", "CAR.A2-2 LOC.minus", "LOC.out AMP.in", "LOC.out-return AMP.in-return");
    }

    @Test
    void reportsASpeakerOutputAboveWhatALineInputTakes() {
        Finding finding = TOLD.finding(
                door().lead("AMP", "in", input("line-in", "\"maxVolts\": 4")).join("CAR.A2-1 AMP.in"));

        assertThat(finding.message())
                .isEqualTo("CAR.A2-1 arrives at AMP.in with up to 17.32 V rms, above the 4.0 V that it takes");
        assertThat(finding.help()).isEqualTo("put a converter or divider between that brings it to 4.0 V or less.");
        assertThat(finding.measured()).isEqualTo(17.32);
        assertThat(finding.limit()).isEqualTo(4.0);
        assertThat(finding.unit()).isEqualTo("V");
        assertThat(finding.terminals()).containsExactlyInAnyOrder("CAR.A2-1", "AMP.in");
        assertThat(finding.connections()).containsExactly("W1");
    }

    @Test
    void acceptsAConverterThatBringsTheLevelDown() {
        TOLD.passes(converter("\"gain\": 0.2, \"maxVolts\": 30"));
    }

    @Test
    void acceptsExactlyWhatTheInputTakesAndReportsWhatIsAboveIt() {
        Wiring exact = door().lead("AMP", "in", input("line-in", "\"maxVolts\": 17.32"))
                .join("CAR.A2-1 AMP.in");
        Wiring above = door().lead("AMP", "in", input("line-in", "\"maxVolts\": 17.31"))
                .join("CAR.A2-1 AMP.in");

        TOLD.passes(exact);
        assertThat(TOLD.finding(above).limit()).isEqualTo(17.31);
    }

    @Test
    void reportsWhatIsLeftTooHighBehindAConverter() {
        Finding finding = TOLD.finding(converter("\"gain\": 0.25, \"maxVolts\": 30"));

        assertThat(finding.measured()).isCloseTo(17.32 / 4, within(1e-9));
        assertThat(finding.terminals()).containsExactlyInAnyOrder("CAR.A2-1", "AMP.in");
    }

    @Test
    void reportsAConverterThatIsGivenMoreThanItTakes() {
        Finding finding = TOLD.finding(converter("\"gain\": 0.2, \"maxVolts\": 12"));

        assertThat(finding.message())
                .isEqualTo("CAR.A2-1 arrives at LOC.plus with up to 17.32 V rms, above the 12.0 V that it takes");
    }

    @Test
    void reportsOneLevelOnceThoughBothSidesArrive() {
        assertThat(TOLD.messages(door().speakerInput("HI", "plus", "minus", "left")
                        .lead("HI", "plus", input("speaker-in", "\"maxVolts\": 10"))
                        .lead("HI", "minus", facts(audio("speaker-in", "left", "minus", "\"maxVolts\": 10")))
                        .join("CAR.A2-1 HI.plus", "CAR.A2-2 HI.minus")))
                .hasSize(1);
    }

    @Test
    void reportsASpeakerOutputStraightIntoALineInputThoughNoFigureIsKnown() {
        Wiring straight = door().lead("AMP", "in", input("line-in", "")).join("CAR.A2-1 AMP.in");

        assertThat(TOLD.finding(straight).message())
                .isEqualTo("CAR.A2-1 is a speaker output and goes straight into the line input AMP.in");
        assertThat(TOLD.finding(straight).measured()).isNull();
    }

    @Test
    void reportsALevelThatArrivesThroughAnAdapterAndAContact() {
        Wiring switched = door().inside("Y", "\"conducts\": [[\"one\", \"two\"]]")
                .relay("K")
                .lead("AMP", "in", input("line-in", "\"maxVolts\": 4"))
                .join("CAR.A2-1 Y.one", "Y.two K.30", "K.87a AMP.in");

        assertThat(TOLD.finding(switched).terminals()).containsExactlyInAnyOrder("CAR.A2-1", "AMP.in");
    }

    @Test
    void acceptsALoudspeakerBecauseWattsAreNotVolts() {
        TOLD.passes(door().lead("SUB", "plus", facts(loudspeaker("left", "plus")))
                .lead("SUB", "minus", facts(loudspeaker("left", "minus")))
                .join("CAR.A2-1 SUB.plus", "CAR.A2-2 SUB.minus"));
    }

    @Test
    void judgesAnInputOfUnknownSideByItsLevel() {
        Wiring sideless = door().lead(
                        "AMP", "in", facts("\"kind\": \"line-in\", \"channel\": \"left\", \"maxVolts\": 4"))
                .join("CAR.A2-1 AMP.in");

        assertThat(TOLD.finding(sideless).measured()).isEqualTo(17.32);
    }

    @Test
    void isSilentWhereNoSignalArrives() {
        TOLD.doesNotApply(door().lead("AMP", "in", input("line-in", "\"maxVolts\": 4")));
    }

    @Test
    void isNotCheckedWhereALimitOrALevelIsUnknown() {
        String source = facts(lineOut("left", "signal", "isolated"));

        TOLD.lacks(
                new Wiring()
                        .lead("P", "out", source)
                        .lead("AMP", "in", input("line-in", ""))
                        .join("P.out AMP.in"),
                "AMP.in.maxVolts");
        TOLD.lacks(
                new Wiring()
                        .lead("P", "out", facts(audio("line-out", "left", "signal", "")))
                        .lead("AMP", "in", input("line-in", "\"maxVolts\": 4"))
                        .join("P.out AMP.in"),
                "P.out.maxVolts");
        TOLD.lacks(
                new Wiring()
                        .lead("P", "out", source)
                        .inside("ISO", "\"couples\": [" + couple("in", "in-return", "out", "out-return", "") + "]")
                        .join("P.out ISO.in"),
                "ISO.in.maxVolts");
    }

    @Test
    void judgesAnUnknownLevelByTheOutputThatCapsItOnTheWay() {
        Wiring capped = new Wiring()
                .lead("P", "out", facts(audio("line-out", "left", "signal", "")))
                .lead("DSP", "out", facts(lineOut("left", "signal", "isolated")))
                .lead("AMP", "in", input("line-in", "\"maxVolts\": 1"))
                .inside("DSP", "\"couples\": [" + couple("in", "in-return", "out", "out-return", "\"gain\": 10") + "]")
                .join("P.out DSP.in", "DSP.out AMP.in");

        assertThat(TOLD.finding(capped).measured()).isEqualTo(2.0);
    }

    @Test
    void tellsTheWorstOfTheLevelsThatContactsMake() {
        String couples = "\"couples\": ["
                + couple("plus", "minus", "out", "out-return", "\"gain\": 0.5, \"maxVolts\": 30") + "]";
        Wiring bypassed = door().inside("LOC", couples)
                .lineInput("AMP", "in", "in-return", "left")
                .relayWhileRunning("K")
                .join("CAR.A2-1 LOC.plus", "CAR.A2-2 LOC.minus", "LOC.out-return AMP.in-return")
                .join("LOC.out K.87a", "CAR.A2-1 K.87", "K.30 AMP.in");

        assertThat(TOLD.finding(bypassed).measured()).isEqualTo(17.32);
    }

    @Test
    void namesOnlyTheStatesInWhichTheLevelIsTooHigh() {
        String couples = "\"couples\": ["
                + couple("plus", "minus", "out", "out-return", "\"gain\": 0.2, \"maxVolts\": 30") + "]";
        Wiring bypassed = door().inside("LOC", couples)
                .lineInput("AMP", "in", "in-return", "left")
                .relayWhileRunning("K")
                .join("CAR.A2-1 LOC.plus", "CAR.A2-2 LOC.minus", "LOC.out-return AMP.in-return")
                .join("LOC.out K.87a", "CAR.A2-1 K.87", "K.30 AMP.in");

        assertThat(TOLD.finding(bypassed).states()).containsExactly(State.RUNNING);
    }

    @Test
    void judgesATerminalAndTheCouplingBehindItByTheLowerLimit() {
        Wiring behind = door().speakerInput("LOC", "plus", "minus", "left")
                .inside(
                        "LOC",
                        "\"couples\": [" + couple("plus", "minus", "out", "out-return", "\"maxVolts\": 12") + "]")
                .join("CAR.A2-1 LOC.plus", "CAR.A2-2 LOC.minus");

        assertThat(TOLD.finding(behind).limit()).isEqualTo(12.0);
    }

    @Test
    void givesEachCoilOfAStringItsShare() {
        String coil = "\"ohms\": 4, \"maxVolts\": 12";
        Wiring two = Speakers.single(Speakers.single(Speakers.amplifier(), "A", coil), "B", coil);
        Wiring one = Speakers.single(Speakers.amplifier(), "A", coil);

        TOLD.passes(two.join("AMP.plus A.plus", "A.minus B.plus", "B.minus AMP.minus"));
        assertThat(TOLD.finding(one.join("AMP.plus A.plus", "A.minus AMP.minus"))
                        .measured())
                .isEqualTo(20.0);
    }

    /** A floating output with a bias into a differential input that takes any level. */
    private static Wiring biased(String biasVolts, double commonModeVolts) {
        String in = "\"maxVolts\": 30, \"return\": \"differential\", \"commonModeVolts\": " + commonModeVolts;
        return new Wiring()
                .lead(
                        "HU",
                        "plus",
                        facts(audio(
                                "speaker-out", "left", "plus", "\"drive\": \"floating\", \"maxVolts\": 9" + biasVolts)))
                .lead(
                        "HU",
                        "minus",
                        facts(audio(
                                "speaker-out",
                                "left",
                                "minus",
                                "\"drive\": \"floating\", \"maxVolts\": 9" + biasVolts)))
                .lead("AMP", "in", facts(audio("line-in", "left", "signal", in)))
                .lead("AMP", "in-return", facts(audio("line-in", "left", "return", in)))
                .join("HU.plus AMP.in", "HU.minus AMP.in-return");
    }

    @Test
    void reportsABiasAboveWhatTheReturnOfTheInputBears() {
        assertThat(TOLD.finding(biased(", \"biasVolts\": 6.5", 5)).message())
                .isEqualTo(
                        "HU.minus lifts AMP.in-return to 6.5 V against ground, above the 5.0 V that this input bears there");
        TOLD.passes(biased(", \"biasVolts\": 6.5", 6.5));
        TOLD.lacks(biased("", 5), "HU.minus.biasVolts");
    }

    @Test
    void readsTheLevelBehindADivider() {
        Wiring divided = door().inside(
                        "PAD",
                        "\"resistors\": [{\"between\": [\"a\", \"b\"], \"ohms\": 900}, {\"between\": [\"b\", \"c\"], \"ohms\": 100}]")
                .lead("AMP", "in", input("line-in", "\"maxVolts\": 1.5"))
                .lead("AMP", "in-return", facts(audio("line-in", "left", "return", "\"maxVolts\": 1.5")))
                .join("CAR.A2-1 PAD.a", "CAR.A2-2 PAD.c", "PAD.b AMP.in", "PAD.c AMP.in-return");

        assertThat(TOLD.finding(divided).measured()).isCloseTo(1.732, org.assertj.core.api.Assertions.within(1e-9));
    }
}
