package dev.splicebook.hookup.mend;

import static dev.splicebook.hookup.mend.Proposing.after;
import static dev.splicebook.hookup.mend.Proposing.changed;
import static dev.splicebook.hookup.mend.Proposing.propose;
import static dev.splicebook.hookup.mend.Proposing.what;
import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Wiring;
import java.util.Comparator;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Leads that change places, move to another input or are taken off. */
class ExchangingTest {

    private static final String CONSTANT_LOAD = "\"kind\": \"load\", \"needs\": \"constant\", \"maxAmps\": 1";
    private static final String SWITCHED_LOAD = "\"kind\": \"load\", \"needs\": \"switched\", \"maxAmps\": 1";

    @Test
    void swapsTheTwoFeedsOfAPart() {
        Wiring wiring = new Wiring()
                .car("C1-1", Wiring.facts(Wiring.constant()))
                .car("C1-2", Wiring.facts(Wiring.supply("running")))
                .lead("HU", "memory", Wiring.facts(CONSTANT_LOAD))
                .lead("HU", "ignition", Wiring.facts(SWITCHED_LOAD))
                .join("CAR.C1-2 HU.memory", "CAR.C1-1 HU.ignition");
        List<Proposal> proposals =
                propose(new SwapLeads(), "constant-load-on-switched-supply", wiring, "HU.memory CAR.C1-2", "W1");

        assertThat(what(proposals)).containsExactly("Swap the leads of HU.memory and HU.ignition.");
        assertThat(changed(proposals.get(0), wiring))
                .containsExactly("W1: CAR.C1-2 - HU.ignition", "W2: CAR.C1-1 - HU.memory");
    }

    @Test
    void namesWhereTheyComeFromWhereAFeedHasSeveral() {
        Wiring wiring = new Wiring()
                .car("C1-1", Wiring.facts(Wiring.constant()))
                .car("C1-2", Wiring.facts(Wiring.supply("running")))
                .lead("HU", "memory", Wiring.facts(CONSTANT_LOAD))
                .lead("HU", "ignition", Wiring.facts(SWITCHED_LOAD))
                .lead("CAM", "plus", Wiring.facts(SWITCHED_LOAD))
                .join("CAR.C1-2 HU.memory", "CAR.C1-1 HU.ignition", "HU.ignition CAM.plus");

        assertThat(what(propose(new SwapLeads(), "constant-load-on-switched-supply", wiring, "HU.memory", "")))
                .containsExactly(
                        "Swap the leads of HU.memory and HU.ignition that come from CAR.C1-2 and CAR.C1-1.",
                        "Swap the leads of HU.memory and HU.ignition that come from CAR.C1-2 and CAM.plus.");
    }

    @Test
    void givesACoilNothingThatTheContactHad() {
        Wiring wiring = new Wiring()
                .car("C1-1", Wiring.facts(Wiring.constant()))
                .car("C1-2", Wiring.facts(Wiring.supply("running")))
                .relay("K")
                .join("CAR.C1-1 K.86", "CAR.C1-2 K.30");

        assertThat(propose(new SwapLeads(), "switched-load-on-constant-supply", wiring, "K.86 K.30", ""))
                .isEmpty();
        assertThat(what(propose(new SwapLeads(), "load-without-supply", wiring, "K.86 K.30", "")))
                .containsExactly("Swap the leads of K.86 and K.30.");
    }

    @Test
    void swapsTheEndsOfACoilWhateverTheFeedsAreAbout() {
        Wiring wiring = new Wiring()
                .car("C1-1", Wiring.facts(Wiring.constant()))
                .relay("K")
                .join("CAR.C1-1 K.86", "CAR.chassis K.85");

        assertThat(what(propose(new SwapLeads(), "switched-load-on-constant-supply", wiring, "K.86", "")))
                .containsExactly("Swap the leads of K.86 and K.85.");
    }

    @Test
    void leavesLeadsOfDifferentPartsAndTheParkingBrakeWhereTheyAre() {
        Wiring wiring = new Wiring()
                .car("C1-1", Wiring.facts(Wiring.constant()))
                .car("C1-2", Wiring.facts(Wiring.supply("running")))
                .lead("HU", "memory", Wiring.facts(CONSTANT_LOAD))
                .lead("CAM", "plus", Wiring.facts(SWITCHED_LOAD))
                .lead(
                        "HU",
                        "brake",
                        Wiring.facts("control.parking-brake", "\"kind\": \"control-in\", \"active\": \"ground\""))
                .join("CAR.C1-2 HU.memory", "CAR.C1-1 CAM.plus", "CAR.chassis HU.brake");

        assertThat(propose(
                        new SwapLeads(), "constant-load-on-switched-supply", wiring, "HU.memory CAM.plus HU.brake", ""))
                .isEmpty();
    }

    @Test
    void namesThePlusOfAPairFirst() {
        Wiring wiring = new Wiring()
                .carFloating("C1-1", "C1-2", "left")
                .speakerInput("LOC", "plus", "minus", "left")
                .join("CAR.C1-2 LOC.plus", "CAR.C1-1 LOC.minus");
        List<Proposal> proposals =
                propose(new SwapLeads(), "polarity-reversed", wiring, "LOC.minus LOC.plus CAR.C1-1 CAR.C1-2", "");

        assertThat(what(proposals))
                .containsExactly(
                        "Connect LOC.minus to CAR.C1-2, LOC.plus to CAR.C1-1.",
                        "Swap the leads of LOC.plus and LOC.minus.");
        assertThat(changed(proposals.get(0), wiring))
                .containsExactly("W1: CAR.C1-1 - LOC.plus", "W2: CAR.C1-2 - LOC.minus");
        assertThat(changed(proposals.get(1), wiring))
                .containsExactly("W1: CAR.C1-2 - LOC.minus", "W2: CAR.C1-1 - LOC.plus");
    }

    @Test
    void turnsACoilWithMoreThanOneLeadAtAnEnd() {
        String coil = "\"ohms\": 4, \"coil\": \"%d\"";
        Wiring wiring = new Wiring().carFloating("C1-1", "C1-2", "subwoofer");
        for (int at = 1; at < 3; at++) {
            for (String side : List.of("plus", "minus")) {
                wiring.lead(
                        "SUB",
                        side + at,
                        Wiring.facts(Wiring.audio("speaker-in", "subwoofer", side, coil.formatted(at))));
            }
        }
        wiring.join("CAR.C1-1 SUB.minus1", "SUB.minus1 SUB.plus2", "SUB.plus1 SUB.minus2", "CAR.C1-2 SUB.minus2");
        List<Proposal> proposals =
                propose(new SwapLeads(), "polarity-reversed", wiring, "SUB.plus1 SUB.minus1 SUB.plus2", "");

        Proposal turned = proposals.stream()
                .filter(one -> one.what().equals("Swap all leads of SUB.plus1 and SUB.minus1."))
                .findFirst()
                .orElseThrow();
        assertThat(changed(turned, wiring))
                .containsExactly(
                        "W1: CAR.C1-1 - SUB.plus1", "W2: SUB.plus1 - SUB.plus2", "W3: SUB.minus1 - SUB.minus2");
        assertThat(what(proposals)).noneMatch(one -> one.startsWith("Swap all leads of SUB.plus2"));
    }

    @Test
    void movesASourceToAFreeInputOfItsChannelWithItsReturn() {
        Wiring wiring = new Wiring()
                .carPair("C1-1", "C1-2", side -> Wiring.lineOut("left", side, "chassis"), "signal", "return")
                .lineInput("HU", "aux", "aux-return", "left")
                .lineInput("HU", "line", "line-return", "left")
                .lineInput("HU", "right", "right-return", "right")
                .join("CAR.C1-1 HU.aux", "CAR.C1-2 HU.aux-return");
        List<Proposal> proposals =
                propose(new OtherInput(), "input-contended", wiring, "HU.aux HU.aux-return CAR.C1-1", "");

        assertThat(what(proposals)).containsExactly("Move CAR.C1-1 from the input HU.aux to the input HU.line.");
        assertThat(changed(proposals.get(0), wiring))
                .containsExactly("W1: CAR.C1-1 - HU.line", "W2: CAR.C1-2 - HU.line-return");
    }

    @Test
    void movesNoSourceToAnInputThatIsTakenOrLeavesItsReturnBehind() {
        Wiring wiring = new Wiring()
                .carPair("C1-1", "C1-2", side -> Wiring.lineOut("left", side, "chassis"), "signal", "return")
                .lineInput("HU", "aux", "aux-return", "left")
                .lineInput("HU", "line", "line-return", "left")
                .join("CAR.C1-1 HU.aux");

        // the return of the source is on nothing, so the pair cannot move as one
        assertThat(propose(new OtherInput(), "input-contended", wiring, "HU.aux", ""))
                .isEmpty();
        wiring.join("CAR.C1-2 HU.aux-return")
                .lineInput("PLAYER", "in", "in-return", "left")
                .join("HU.line PLAYER.in");
        assertThat(propose(new OtherInput(), "input-contended", wiring, "HU.aux", ""))
                .isEmpty();
    }

    @Test
    void movesEachOfTwoSourcesOfOneInput() {
        Wiring wiring = new Wiring()
                .car("C1-1", Wiring.facts(Wiring.lineOut("left", "signal", "chassis")))
                .car("C1-3", Wiring.facts(Wiring.lineOut("left", "signal", "chassis")))
                .lead("HU", "aux", Wiring.facts(Wiring.lineIn("left", "signal", "chassis")))
                .lead("HU", "line", Wiring.facts(Wiring.lineIn("left", "signal", "chassis")))
                .join("CAR.C1-1 HU.aux", "CAR.C1-3 HU.aux");

        assertThat(what(propose(new OtherInput(), "input-contended", wiring, "HU.aux", "")))
                .containsExactly(
                        "Move CAR.C1-1 from the input HU.aux to the input HU.line.",
                        "Move CAR.C1-3 from the input HU.aux to the input HU.line.");
    }

    @Test
    void movesAPictureToTheFreeInputForPicturesWithItsReturnAndCapsTheOneForSound() {
        Wiring wiring = new Wiring()
                .lead("CAM", "out", picture("video-out", "signal"))
                .lead("CAM", "out-return", picture("video-out", "return"))
                .lead("HU", "camera", picture("video-in", "signal"))
                .lead("HU", "camera-return", picture("video-in", "return"))
                .lineInput("HU", "aux", "aux-return", "left")
                .join("CAM.out HU.aux", "CAM.out-return HU.aux-return");
        List<Proposal> proposals = propose(new OtherInput(), "signal-type-mismatch", wiring, "CAM.out HU.aux", "W1");

        assertThat(what(proposals)).containsExactly("Move CAM.out from the input HU.aux to the input HU.camera.");
        assertThat(changed(proposals.get(0), wiring))
                .containsExactly("W1: CAM.out - HU.camera", "W2: CAM.out-return - HU.camera-return");
        assertThat(after(proposals.get(0)).document().unused()).containsOnlyKeys("HU.aux", "HU.aux-return");

        wiring.lead("CAM2", "out", picture("video-out", "signal")).join("CAM2.out HU.camera");
        assertThat(propose(new OtherInput(), "signal-type-mismatch", wiring, "CAM.out HU.aux", "W1"))
                .as("the input for pictures is taken")
                .isEmpty();
    }

    private static String picture(String kind, String side) {
        return Wiring.facts("video.camera-rear." + side, "\"kind\": \"" + kind + "\", \"side\": \"" + side + "\"");
    }

    @Test
    void leavesALoudspeakerToTheOutputThatGivesMore() {
        Wiring wiring = new Wiring();
        for (String part : List.of("AMP", "HU")) {
            wiring.lead(
                    part,
                    "plus",
                    Wiring.facts("\"kind\": \"speaker-out\", \"side\": \"plus\", \"channel\": \"left\", \"maxVolts\": "
                            + (part.equals("AMP") ? 20 : 9)));
        }
        wiring.lead("SP", "plus", Wiring.facts("\"kind\": \"speaker-in\", \"side\": \"plus\", \"ohms\": 4"))
                .join("AMP.plus SP.plus", "HU.plus SP.plus");
        List<Proposal> proposals =
                propose(new RemoveConnection(), "outputs-tied", wiring, "AMP.plus HU.plus SP.plus", "W1 W2");

        assertThat(proposals.stream()
                        .min(Comparator.comparingDouble(Proposal::cost))
                        .map(Proposal::what))
                .contains("Take off W2, between HU.plus and SP.plus.");
    }

    @Test
    void takesOffWhatLiesBetweenTheTerminalsFirst() {
        Wiring wiring = new Wiring()
                .car("C1-1", Wiring.facts(Wiring.constant()))
                .car("C1-2", Wiring.facts(Wiring.supply("running")))
                .inside("Y", "\"conducts\": [[\"a\", \"b\", \"c\"]]")
                .join("CAR.C1-1 Y.a", "CAR.C1-2 Y.b", "Y.c CAR.C1-1");

        assertThat(what(propose(new RemoveConnection(), "supplies-tied", wiring, "CAR.C1-1 CAR.C1-2", "W3")))
                .containsExactly(
                        "Take off W1, between CAR.C1-1 and Y.a.",
                        "Take off W2, between CAR.C1-2 and Y.b.",
                        "Take off W3, between Y.c and CAR.C1-1.");
    }

    @Test
    void leavesTheCoilConnectedWhereItsContactIsShort() {
        Wiring wiring = new Wiring()
                .car("C1-1", Wiring.facts(Wiring.constant()))
                .relay("K")
                .join("CAR.C1-1 K.86", "K.85 CAR.chassis", "CAR.C1-1 K.30", "K.87 CAR.chassis");

        assertThat(what(propose(
                        new RemoveConnection(),
                        "supply-shorted-to-ground",
                        wiring,
                        "CAR.C1-1 CAR.chassis",
                        "W1 W2 W3 W4")))
                .containsExactlyInAnyOrder(
                        "Take off W3, between CAR.C1-1 and K.30.", "Take off W4, between K.87 and CAR.chassis.");
    }
}
