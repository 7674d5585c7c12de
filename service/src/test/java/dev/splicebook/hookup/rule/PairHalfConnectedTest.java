package dev.splicebook.hookup.rule;

import static dev.splicebook.hookup.Wiring.audio;
import static dev.splicebook.hookup.Wiring.couple;
import static dev.splicebook.hookup.Wiring.facts;
import static dev.splicebook.hookup.Wiring.floating;
import static dev.splicebook.hookup.Wiring.lineIn;
import static dev.splicebook.hookup.Wiring.lineOut;
import static dev.splicebook.hookup.Wiring.speakerOut;
import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.Speakers;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.Wiring;
import java.util.List;
import org.junit.jupiter.api.Test;

/** A signal is a voltage between two conductors: with one of them, no current flows. */
class PairHalfConnectedTest {

    private static final Told TOLD = Told.by("pair-half-connected");

    private static final String COUPLE =
            "\"couples\": [" + couple("plus", "minus", "out", "ret", "\"gain\": 0.2") + "]";

    private static Wiring fronts() {
        return new Wiring().carFloating("A2-1", "A2-2", "front-left").carFloating("A2-3", "A2-4", "front-right");
    }

    private static Wiring intoAmplifier(String... pairs) {
        return fronts().speakerInput("AMP", "plus", "minus", "left").join(pairs);
    }

    private static Wiring player(String returns) {
        return new Wiring()
                .lead("P", "out", facts(lineOut("left", "signal", returns)))
                .lead("AMP", "in", facts(lineIn("left", "signal", "chassis")))
                .lead("AMP", "in-return", facts(lineIn("left", "return", "chassis")))
                .join("P.out AMP.in");
    }

    @Test
    void reportsAPartOnOneLineOfABusAlone() {
        String high = facts("\"kind\": \"data\", \"bus\": \"can\", \"line\": \"high\"");
        String low = facts("\"kind\": \"data\", \"bus\": \"can\", \"line\": \"low\"");
        Wiring bus = new Wiring()
                .car("D1-1", high)
                .car("D1-2", low)
                .lead("IF", "high", high)
                .lead("IF", "low", low)
                .join("CAR.D1-2 IF.low");

        Finding finding = TOLD.finding(bus);
        assertThat(finding.message())
                .isEqualTo("IF.low is on the bus, and its other line IF.high is connected to nothing");
        assertThat(finding.terminals()).containsExactlyInAnyOrder("IF.low", "IF.high");
        TOLD.doesNotApply(bus.join("CAR.D1-1 IF.high"));
        TOLD.doesNotApply(new Wiring().lead("IF", "high", high).lead("IF", "low", low));
    }

    @Test
    void reportsAnInputOfWhichOneSideGetsNothing() {
        Finding finding = TOLD.finding(intoAmplifier("CAR.A2-1 AMP.plus"));

        assertThat(finding.message())
                .isEqualTo("AMP.plus gets CAR.A2-1, and its other side AMP.minus gets nothing instead of CAR.A2-2");
        assertThat(finding.help()).isEqualTo("connect AMP.minus to CAR.A2-2.");
        assertThat(finding.terminals()).containsExactlyInAnyOrder("AMP.plus", "AMP.minus", "CAR.A2-1", "CAR.A2-2");
        assertThat(finding.connections()).containsExactly("W1");
    }

    @Test
    void reportsAnInputOfWhichOneSideGetsAnotherOutput() {
        assertThat(TOLD.messages(intoAmplifier("CAR.A2-1 AMP.plus", "CAR.A2-4 AMP.minus")))
                .containsExactly(
                        "AMP.plus gets CAR.A2-1, and its other side AMP.minus gets CAR.A2-4 instead of CAR.A2-2");
    }

    @Test
    void acceptsBothConductorsOfOneOutput() {
        TOLD.passes(intoAmplifier("CAR.A2-1 AMP.plus", "CAR.A2-2 AMP.minus"));
    }

    @Test
    void isSilentWhereNeitherArrives() {
        TOLD.doesNotApply(intoAmplifier());
    }

    @Test
    void acceptsAMinusThatIsGroundAnywayFromTheChassis() {
        TOLD.passes(new Wiring()
                .lead("HU", "plus", facts(speakerOut("left", "plus", "\"drive\": \"common-ground\"")))
                .lead("HU", "minus", facts(speakerOut("left", "minus", "\"drive\": \"common-ground\"")))
                .speakerInput("AMP", "plus", "minus", "left")
                .join("HU.plus AMP.plus", "CAR.chassis AMP.minus"));
    }

    @Test
    void reportsAFloatingOutputOfWhichTheOtherSideIsGroundInstead() {
        assertThat(TOLD.messages(intoAmplifier("CAR.A2-1 AMP.plus", "CAR.chassis AMP.minus")))
                .hasSize(1);
    }

    @Test
    void acceptsALineOutputThatReturnsByTheChassisAtAnInputThatDoes() {
        TOLD.passes(player("chassis"));
    }

    @Test
    void reportsALineOutputWithAReturnOfItsOwnThatDoesNotArrive() {
        assertThat(TOLD.finding(player("isolated")).message())
                .isEqualTo(
                        "AMP.in gets P.out, and its other side AMP.in-return gets nothing instead of the other side of"
                                + " that output");
    }

    @Test
    void reportsAConverterThatGetsOneConductorThereAndNotAgainBehindIt() {
        Wiring half = fronts().inside("LOC", COUPLE)
                .lineInput("AMP", "in", "in-return", "left")
                .join("CAR.A2-1 LOC.plus", "LOC.out AMP.in", "LOC.ret AMP.in-return");

        assertThat(TOLD.messages(half))
                .containsExactly(
                        "LOC.plus gets CAR.A2-1, and its other side LOC.minus gets nothing instead of CAR.A2-2");
    }

    @Test
    void asksForTheConvertersReturnWhereItIsLackingBehindIt() {
        Finding finding = TOLD.finding(fronts().inside("LOC", COUPLE)
                .lineInput("AMP", "in", "in-return", "left")
                .join("CAR.A2-1 LOC.plus", "CAR.A2-2 LOC.minus", "LOC.out AMP.in"));

        assertThat(finding.message())
                .isEqualTo("AMP.in gets CAR.A2-1, and its other side AMP.in-return gets nothing instead of LOC.ret");
        assertThat(finding.help()).isEqualTo("connect AMP.in-return to LOC.ret.");
    }

    /** A camera's picture at a head unit, and what else is joined. */
    private static Wiring camera(String... joins) {
        return new Wiring()
                .lead("CAM", "video", facts("\"kind\": \"video-out\", \"side\": \"signal\""))
                .lead("CAM", "video-return", facts("\"kind\": \"video-out\", \"side\": \"return\""))
                .lead("HU", "camera", facts("\"kind\": \"video-in\", \"side\": \"signal\""))
                .lead("HU", "camera-return", facts("\"kind\": \"video-in\", \"side\": \"return\""))
                .join("CAM.video HU.camera")
                .join(joins);
    }

    @Test
    void warnsOfAPictureWhoseReturnIsLeftOff() {
        Finding finding = TOLD.finding(camera());

        assertThat(finding.severity()).isEqualTo(Severity.WARNING);
        assertThat(finding.message())
                .isEqualTo("HU.camera gets the picture of CAM.video, and its return HU.camera-return does not meet"
                        + " CAM.video-return: the picture rolls, hums or stays away");
        assertThat(finding.help()).isEqualTo("connect HU.camera-return to CAM.video-return.");
        assertThat(finding.terminals())
                .containsExactlyInAnyOrder("HU.camera", "HU.camera-return", "CAM.video", "CAM.video-return");
        assertThat(finding.connections()).containsExactly("W1");
    }

    @Test
    void acceptsAPictureThatReturnsByItsConductorOrByGroundAtBothEnds() {
        TOLD.passes(camera("CAM.video-return HU.camera-return"));
        TOLD.passes(camera("CAM.video-return CAR.chassis", "HU.camera-return CAR.chassis"));
        assertThat(TOLD.messages(camera("CAM.video-return CAR.chassis"))).hasSize(1);
    }

    @Test
    void tellsTheReturnsOfTwoPicturesApartByTheirFunctions() {
        Wiring two = new Wiring();
        for (String place : List.of("front", "rear")) {
            for (String side : List.of("signal", "return")) {
                String function = "video.camera-" + place + "." + side;
                two.lead(place, side, facts(function, "\"kind\": \"video-out\", \"side\": \"" + side + "\""))
                        .lead(
                                "HU",
                                place + "-" + side,
                                facts(function, "\"kind\": \"video-in\", \"side\": \"" + side + "\""));
            }
        }
        two.join("front.signal HU.front-signal", "front.return HU.front-return", "rear.signal HU.rear-signal");

        assertThat(TOLD.finding(two).help()).isEqualTo("connect HU.rear-return to rear.return.");
    }

    @Test
    void asksWhatTheReturnOfAPictureEndsAt() {
        TOLD.lacks(camera("HU.camera-return CAR.Z1-1").car("Z1-1", "{\"colour\": \"WH\"}"), "CAR.Z1-1.electrical");
    }

    @Test
    void warnsOfTheReturnOfAPictureOfTheVehicle() {
        Wiring factory = new Wiring()
                .car("V1-1", facts("\"kind\": \"video-out\", \"side\": \"signal\""))
                .car("V1-2", facts("\"kind\": \"video-out\", \"side\": \"return\""))
                .car("V2-2", facts("\"kind\": \"video-out\", \"side\": \"return\""))
                .lead("HU", "camera", facts("\"kind\": \"video-in\", \"side\": \"signal\""))
                .lead("HU", "camera-return", facts("\"kind\": \"video-in\", \"side\": \"return\""))
                .join("CAR.V1-1 HU.camera");

        assertThat(TOLD.finding(factory).help()).isEqualTo("connect HU.camera-return to CAR.V1-2.");
        TOLD.passes(factory.join("CAR.V1-2 HU.camera-return"));
    }

    @Test
    void reportsASleeveThatNoReturnReaches() {
        Wiring socket = new Wiring()
                .carDriven("C2-1", "C2-2", "left")
                .inside("ISO", COUPLE)
                .lead("HU", "av-left", facts(lineIn("left", "signal", "isolated")))
                .lead("HU", "sleeve", facts("\"kind\": \"line-in\", \"side\": \"return\", \"return\": \"isolated\""))
                .join("CAR.C2-1 ISO.plus", "CAR.C2-2 ISO.minus", "ISO.out HU.av-left");

        assertThat(TOLD.finding(socket).help()).isEqualTo("connect HU.sleeve to ISO.ret.");
        TOLD.passes(socket.join("ISO.ret HU.sleeve"));
    }

    @Test
    void findsBothConductorsThroughAnAdapterAndAPlug() {
        TOLD.passes(fronts().lead("HAR", "A-1", facts("\"kind\": \"passive\""))
                .lead("HAR", "A-2", facts("\"kind\": \"passive\""))
                .inside("HAR", "\"conducts\": [[\"A-1\", \"plus\"], [\"A-2\", \"minus\"]]")
                .plug("CAR.A2", "HAR.A")
                .speakerInput("AMP", "plus", "minus", "left")
                .join("HAR.plus AMP.plus", "HAR.minus AMP.minus"));
    }

    @Test
    void namesTheStatesInWhichARelayOpensOneConductor() {
        Wiring opened = fronts().speakerInput("AMP", "plus", "minus", "left")
                .relayWhileRunning("K")
                .join("CAR.A2-1 AMP.plus", "CAR.A2-2 K.30", "K.87 AMP.minus");

        assertThat(TOLD.finding(opened).states())
                .containsExactly(State.ASLEEP, State.ACCESSORY, State.IGNITION, State.CRANKING, State.RESTARTING);
    }

    @Test
    void isTheOnlyOneToSpeakOfTheLeadThatIsLacking() {
        assertThat(intoAmplifier("CAR.A2-1 AMP.plus").check().findings())
                .extracting(Finding::rule)
                .containsExactly("pair-half-connected");
    }

    @Test
    void isNotCheckedWhereWhatIsConnectedInsteadIsUnknown() {
        TOLD.lacks(
                fronts().car("A2-9", "{\"colour\": \"BN\"}")
                        .speakerInput("AMP", "plus", "minus", "left")
                        .join("CAR.A2-1 AMP.plus", "CAR.A2-9 AMP.minus"),
                "CAR.A2-9.electrical");
    }

    @Test
    void isNotCheckedWhereAnOutputMayReturnByTheChassis() {
        TOLD.lacks(
                new Wiring()
                        .lead("P", "out", facts(audio("line-out", "left", "signal", "")))
                        .lineInput("AMP", "in", "in-return", "left")
                        .join("P.out AMP.in"),
                "P.out.return");
    }

    @Test
    void isNotCheckedWhereASideIsUnknown() {
        TOLD.lacks(
                new Wiring()
                        .car("A2-1", facts(floating("left", "plus")))
                        .lead("AMP", "in", facts("\"kind\": \"speaker-in\", \"channel\": \"left\""))
                        .join("CAR.A2-1 AMP.in"),
                "AMP.in.side");
    }

    @Test
    void reportsAConductorThatACutLeavesBehind() {
        Wiring cut = new Wiring()
                .car("A2-1", facts(floating("left", "plus")))
                .car("A2-2", """
                        {"whenPlugged": {%s}, "whenUnplugged": {"kind": "passive"}}""".formatted(floating("left", "minus")))
                .cut("A2-2")
                .speakerInput("AMP", "plus", "minus", "left")
                .join("CAR.A2-1 AMP.plus", "CAR.A2-2/harness AMP.minus");

        assertThat(TOLD.messages(cut))
                .containsExactly(
                        "AMP.plus gets CAR.A2-1, and its other side AMP.minus gets nothing instead of CAR.A2-2/unit");
    }

    @Test
    void acceptsLoudspeakersInSeries() {
        TOLD.passes(Speakers.single(Speakers.single(Speakers.amplifier(), "A"), "B")
                .join("AMP.plus A.plus", "A.minus B.plus", "B.minus AMP.minus"));
    }

    @Test
    void reportsACoilThatIsShortByItsOwnWiring() {
        Wiring shorted = Speakers.dual(Speakers.amplifier(), "SUB")
                .join(
                        "AMP.plus SUB.1-plus",
                        "SUB.1-minus SUB.2-plus",
                        "SUB.2-plus SUB.2-minus",
                        "SUB.2-minus AMP.minus");

        assertThat(TOLD.finding(shorted).message())
                .isEqualTo(
                        "SUB.2-plus and SUB.2-minus stand on one net, so that the coil between them is short and moves"
                                + " nothing");
    }

    @Test
    void reportsACoilOfAStringThatEndsNowhere() {
        Wiring open = Speakers.dual(Speakers.amplifier(), "SUB").join("AMP.plus SUB.1-plus", "SUB.1-minus SUB.2-plus");

        assertThat(TOLD.finding(open).message())
                .isEqualTo(
                        "SUB.1-plus gets AMP.plus, and the other end of its coil, SUB.1-minus, leads to nothing that closes"
                                + " the circuit");
    }

    @Test
    void reportsTwoCoilsByWhichTwoOutputsDriveEachOther() {
        Wiring outputs = Speakers.output(Speakers.amplifier(), "B", "\"drive\": \"floating\"");
        Wiring crossed = Speakers.dual(Speakers.single(outputs, "DOOR"), "SUB")
                .join("B.plus DOOR.plus", "B.minus DOOR.minus")
                .join("AMP.plus SUB.1-plus", "SUB.1-minus B.minus", "B.plus SUB.2-plus", "SUB.2-minus AMP.minus");

        assertThat(TOLD.messages(crossed))
                .containsExactlyInAnyOrder(
                        "the coil at SUB.1-plus and SUB.1-minus hangs between AMP.plus and B.minus, which are sides of"
                                + " different outputs, so that each drives the other through it",
                        "the coil at SUB.2-plus and SUB.2-minus hangs between B.plus and AMP.minus, which are sides of"
                                + " different outputs, so that each drives the other through it");
    }

    @Test
    void blamesNoLoudspeakerThatHangsRightlyBesideOneThatDoesNot() {
        Wiring crossed = Speakers.dual(
                        Speakers.dual(Speakers.output(Speakers.amplifier(), "B", "\"drive\": \"floating\""), "SUB"),
                        "OK")
                .join("AMP.plus OK.1-plus", "OK.1-minus OK.2-plus", "OK.2-minus AMP.minus")
                .join("AMP.plus SUB.1-plus", "B.plus SUB.2-plus", "SUB.2-minus AMP.minus");

        assertThat(TOLD.messages(crossed))
                .isNotEmpty()
                .allSatisfy(message -> assertThat(message).contains("SUB.").doesNotContain("OK."));
    }

    @Test
    void reportsAStringOfCoilsBetweenTwoOutputs() {
        Wiring crossed = Speakers.dual(Speakers.output(Speakers.amplifier(), "B", "\"drive\": \"floating\""), "SUB")
                .join("AMP.plus SUB.1-plus", "SUB.1-minus SUB.2-plus", "SUB.2-minus B.minus");

        assertThat(TOLD.finding(crossed).message())
                .isEqualTo(
                        "the coils at SUB.1-plus and SUB.1-minus, and at SUB.2-plus and SUB.2-minus hang between AMP.plus and"
                                + " B.minus, which are sides of different outputs, so that no circuit closes");
    }
}
