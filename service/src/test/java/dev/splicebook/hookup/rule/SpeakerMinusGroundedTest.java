package dev.splicebook.hookup.rule;

import static dev.splicebook.hookup.Wiring.couple;
import static dev.splicebook.hookup.Wiring.facts;
import static dev.splicebook.hookup.Wiring.floating;
import static dev.splicebook.hookup.Wiring.lineIn;
import static dev.splicebook.hookup.Wiring.speakerOut;
import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.Wiring;
import org.junit.jupiter.api.Test;

/** Both sides of a floating output are driven against each other, so a side on ground is a short of half of it. */
class SpeakerMinusGroundedTest {

    private static final Told TOLD = Told.by("speaker-minus-grounded");

    private static Wiring door() {
        return new Wiring().carFloating("A2-1", "A2-2", "front-left");
    }

    @Test
    void reportsAFloatingMinusOnTheChassis() {
        Finding finding = TOLD.finding(door().join("CAR.A2-2 CAR.chassis"));

        assertThat(finding.message())
                .isEqualTo("CAR.A2-2 is a side of a floating output and stands on ground at CAR.chassis");
        assertThat(finding.help())
                .isEqualTo("take both sides to a converter or a differential input, and neither to ground.");
        assertThat(finding.terminals()).containsExactlyInAnyOrder("CAR.A2-2", "CAR.chassis");
        assertThat(finding.connections()).containsExactly("W1");
    }

    @Test
    void reportsAFloatingPlusOnGroundToo() {
        assertThat(TOLD.finding(door().join("CAR.A2-1 CAR.battery-minus")).terminals())
                .contains("CAR.A2-1");
    }

    @Test
    void acceptsBothSidesAtADifferentialInput() {
        TOLD.passes(
                door().lineInput("AMP", "in", "in-return", "left").join("CAR.A2-1 AMP.in", "CAR.A2-2 AMP.in-return"));
    }

    @Test
    void reportsALineInputsReturnThatIsTheVehiclesGround() {
        Wiring grounded = door().lead("AMP", "in-return", facts(lineIn("left", "return", "chassis")))
                .join("CAR.A2-2 AMP.in-return");

        assertThat(TOLD.finding(grounded).message())
                .isEqualTo("CAR.A2-2 is a side of a floating output and stands on ground at AMP.in-return");
    }

    @Test
    void reportsTheCommonMinusOfAnOutputThatIsGroundAnyway() {
        Wiring grounded = door().lead(
                        "BASS", "minus", facts(speakerOut("left", "minus", "\"drive\": \"common-ground\"")))
                .join("CAR.A2-2 BASS.minus");

        assertThat(TOLD.finding(grounded).terminals()).containsExactlyInAnyOrder("CAR.A2-2", "BASS.minus");
    }

    @Test
    void reportsAGroundThatAnAdapterMakesInside() {
        Wiring adapted = door().inside("HAR", "\"conducts\": [[\"minus\", \"ground\"]]")
                .join("CAR.A2-2 HAR.minus", "HAR.ground CAR.chassis");

        assertThat(TOLD.finding(adapted).terminals()).containsExactlyInAnyOrder("CAR.A2-2", "CAR.chassis");
    }

    @Test
    void reportsAGroundByARelayOnlyInTheStateInWhichItIsClosed() {
        Wiring switched = door().relayWhileRunning("K").join("CAR.A2-2 K.30", "K.87 CAR.chassis");

        assertThat(TOLD.finding(switched).states()).containsExactly(State.RUNNING);
    }

    @Test
    void reportsAGroundThatADiodeLeadsTo() {
        Wiring clamped = door().inside("D", "\"diodes\": [{\"anode\": \"a\", \"cathode\": \"c\"}]")
                .join("CAR.A2-2 D.a", "D.c CAR.chassis");

        assertThat(TOLD.finding(clamped).terminals()).containsExactlyInAnyOrder("CAR.A2-2", "CAR.chassis");
    }

    @Test
    void acceptsADiodeThatBlocksTheWayToGround() {
        TOLD.passes(door().inside("D", "\"diodes\": [{\"anode\": \"a\", \"cathode\": \"c\"}]")
                .join("CAR.A2-2 D.c", "D.a CAR.chassis"));
    }

    @Test
    void acceptsAConverterBetweenTheOutputAndGround() {
        TOLD.passes(door().inside("LOC", "\"couples\": [" + couple("plus", "minus", "out", "out-return", "") + "]")
                .join("CAR.A2-1 LOC.plus", "CAR.A2-2 LOC.minus", "LOC.out-return CAR.chassis"));
    }

    @Test
    void acceptsAMinusThatIsGroundByItsOwnMaking() {
        TOLD.passes(new Wiring()
                .car("A2-2", facts(speakerOut("left", "minus", "\"drive\": \"common-ground\"")))
                .join("CAR.A2-2 CAR.chassis"));
    }

    @Test
    void acceptsTheGroundOfAPartThatIsNotConnectedItself() {
        TOLD.passes(door().lead("AMP", "ground", facts("\"kind\": \"ground\"")).join("CAR.A2-2 AMP.ground"));
    }

    @Test
    void isSilentWhereThereIsNoSpeakerOutput() {
        TOLD.doesNotApply(new Wiring().carLoudspeaker("C1-1", "C1-2", "left").join("CAR.C1-2 CAR.chassis"));
    }

    @Test
    void isNotCheckedWhereTheDriveOfAGroundedSideIsUnknown() {
        TOLD.lacks(
                new Wiring().car("A2-2", facts(speakerOut("left", "minus", ""))).join("CAR.A2-2 CAR.chassis"),
                "CAR.A2-2.drive");
    }

    @Test
    void isNotCheckedWhereAnInputsReturnMayBeGround() {
        TOLD.lacks(
                door().lead(
                                "AMP",
                                "in-return",
                                facts("\"kind\": \"line-in\", \"channel\": \"left\", \"side\": \"return\""))
                        .join("CAR.A2-2 AMP.in-return"),
                "AMP.in-return.return");
    }

    @Test
    void leavesTwoOutputsThatMeetOnGroundToTheRuleOfTiedOutputs() {
        TOLD.leavesTo(
                "outputs-tied",
                new Wiring()
                        .car("A2-2", facts(floating("front-left", "minus")))
                        .car("A2-4", facts(floating("front-right", "minus")))
                        .join("CAR.A2-2 CAR.chassis", "CAR.A2-4 CAR.chassis"));
    }

    @Test
    void reportsTheMinusOfACutCircuitThatTheFactoryUnitStillDrives() {
        Wiring cut = new Wiring()
                .car("A2-2", """
                        {"whenPlugged": {%s}, "whenUnplugged": {"kind": "passive"}}""".formatted(floating("left", "minus")))
                .cut("A2-2");

        assertThat(TOLD.finding(cut.join("CAR.A2-2/unit CAR.chassis")).terminals())
                .containsExactlyInAnyOrder("CAR.A2-2/unit", "CAR.chassis");
    }

    @Test
    void acceptsTheHarnessSideOfACutThatNothingDrivesAnyMore() {
        Wiring cut = new Wiring()
                .car("A2-2", """
                        {"whenPlugged": {%s}, "whenUnplugged": {"kind": "passive"}}""".formatted(floating("left", "minus")))
                .cut("A2-2");

        TOLD.passes(cut.join("CAR.A2-2/harness CAR.chassis"));
    }
}
