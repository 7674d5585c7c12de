package dev.splicebook.hookup.rule;

import static dev.splicebook.hookup.Wiring.couple;
import static dev.splicebook.hookup.Wiring.facts;
import static dev.splicebook.hookup.Wiring.lineIn;
import static dev.splicebook.hookup.Wiring.lineOut;
import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.Wiring;
import org.junit.jupiter.api.Test;

/** A return that carries a signal of its own is a source; joined with another, it is shorted by it. */
class ReturnsTiedTest {

    private static final Told TOLD = Told.by("returns-tied");

    private static final String SLEEVE = "\"conducts\": [[\"sleeve\", \"left-return\", \"right-return\"]]";

    private static Wiring rearSeats() {
        return new Wiring().carDriven("C2-1", "C2-2", "left").carDriven("C2-3", "C2-4", "right");
    }

    @Test
    void reportsTwoDrivenReturnsThatMeetInTheSleeveOfAPlug() {
        Finding finding = TOLD.finding(
                rearSeats().inside("PLUG", SLEEVE).join("CAR.C2-2 PLUG.left-return", "CAR.C2-4 PLUG.right-return"));

        assertThat(finding.message()).isEqualTo("CAR.C2-2 and CAR.C2-4 are driven returns and meet on one net");
        assertThat(finding.help())
                .isEqualTo("put an isolator between CAR.C2-2 and CAR.C2-4 and whatever joins them, on the source's side"
                        + " of it.");
        assertThat(finding.terminals()).containsExactly("CAR.C2-2", "CAR.C2-4");
        assertThat(finding.connections()).containsExactly("W1", "W2");
    }

    @Test
    void acceptsAnIsolatorBeforeTheSleeve() {
        TOLD.passes(isolated(rearSeats().inside("PLUG", SLEEVE))
                .join("CAR.C2-1 ISO.l", "CAR.C2-2 ISO.lr", "CAR.C2-3 ISO.r", "CAR.C2-4 ISO.rr")
                .join("ISO.lor PLUG.left-return", "ISO.ror PLUG.right-return"));
    }

    @Test
    void reportsAnIsolatorBehindTheSleeveBecauseItIsTooLate() {
        Wiring late = isolated(rearSeats().inside("PLUG", SLEEVE))
                .join("CAR.C2-2 PLUG.left-return", "CAR.C2-4 PLUG.right-return", "PLUG.sleeve ISO.lr");

        assertThat(TOLD.finding(late).terminals()).containsExactly("CAR.C2-2", "CAR.C2-4");
    }

    @Test
    void reportsADrivenReturnOnTheChassis() {
        assertThat(TOLD.messages(rearSeats().join("CAR.C2-2 CAR.chassis")))
                .containsExactly("CAR.C2-2 is a driven return and stands on one net with CAR.chassis");
    }

    @Test
    void reportsADrivenReturnAtAnInputThatIsTheVehiclesGround() {
        Wiring grounded = rearSeats()
                .lead("HU", "sleeve", facts(lineIn("left", "return", "chassis")))
                .join("CAR.C2-2 HU.sleeve");

        assertThat(TOLD.finding(grounded).terminals()).containsExactlyInAnyOrder("CAR.C2-2", "HU.sleeve");
        assertThat(TOLD.finding(grounded).message())
                .isEqualTo("CAR.C2-2 is a driven return and stands on one net with HU.sleeve, which is chassis inside");
    }

    @Test
    void reportsADrivenReturnWithAnyOtherReturn() {
        Wiring mixed = rearSeats()
                .lead("PLAYER", "out-return", facts(lineOut("left", "return", "isolated")))
                .lead("CAMERA", "video-return", facts("\"kind\": \"video-out\", \"side\": \"return\""))
                .join("CAR.C2-2 PLAYER.out-return", "CAR.C2-4 CAMERA.video-return");

        assertThat(TOLD.messages(mixed))
                .containsExactlyInAnyOrder(
                        "CAR.C2-2 is a driven return and stands on one net with PLAYER.out-return",
                        "CAR.C2-4 is a driven return and stands on one net with CAMERA.video-return");
    }

    @Test
    void acceptsADrivenReturnAloneAtAnInputThatTiesNothing() {
        TOLD.passes(rearSeats()
                .lineInput("AMP", "l", "lr", "left")
                .lead("HU", "rr", facts(lineIn("right", "return", "isolated")))
                .join("CAR.C2-1 AMP.l", "CAR.C2-2 AMP.lr", "CAR.C2-4 HU.rr"));
    }

    @Test
    void acceptsReturnsThatFloatOrAreGroundTogether() {
        TOLD.passes(new Wiring()
                .lead("P", "l-return", facts(lineOut("left", "return", "isolated")))
                .lead("P", "r-return", facts(lineOut("right", "return", "isolated")))
                .lead("Q", "l-return", facts(lineOut("left", "return", "chassis")))
                .inside("PLUG", SLEEVE)
                .join("P.l-return PLUG.left-return", "P.r-return PLUG.right-return", "Q.l-return CAR.chassis"));
    }

    @Test
    void namesTheStatesInWhichARelayJoinsTheReturns() {
        Wiring switched = rearSeats().relayWhileRunning("K").join("CAR.C2-2 K.30", "CAR.C2-4 K.87a");

        assertThat(TOLD.finding(switched).states())
                .containsExactly(State.ASLEEP, State.ACCESSORY, State.IGNITION, State.CRANKING, State.RESTARTING);
    }

    @Test
    void reportsReturnsOfACutCircuitThatTheFactoryUnitStillDrives() {
        Wiring cut = new Wiring()
                .car("C2-2", """
                        {"whenPlugged": {%s}, "whenUnplugged": {"kind": "passive"}}""".formatted(lineOut("left", "return", "driven")))
                .cut("C2-2")
                .join("CAR.C2-2/unit CAR.chassis");

        assertThat(TOLD.finding(cut).terminals()).containsExactlyInAnyOrder("CAR.C2-2/unit", "CAR.chassis");
    }

    @Test
    void isSilentWhereThereIsNoReturn() {
        TOLD.doesNotApply(new Wiring().carFloating("A2-1", "A2-2", "left").join("CAR.A2-2 CAR.chassis"));
    }

    @Test
    void isNotCheckedWhereReturnsMeetThatMayBeDriven() {
        String unknown = "\"kind\": \"line-out\", \"channel\": \"left\", \"side\": \"return\"";

        TOLD.lacks(
                new Wiring()
                        .lead("P", "out-return", facts(unknown))
                        .lead("Q", "out-return", facts(unknown))
                        .join("P.out-return Q.out-return"),
                "P.out-return.return",
                "Q.out-return.return");
        TOLD.lacks(
                new Wiring().lead("P", "out-return", facts(unknown)).join("P.out-return CAR.chassis"),
                "P.out-return.return");
    }

    @Test
    void isNotCheckedWhereTheInputMayBeGround() {
        TOLD.lacks(
                rearSeats()
                        .lead("HU", "sleeve", facts("\"kind\": \"line-in\", \"side\": \"return\""))
                        .join("CAR.C2-2 HU.sleeve"),
                "HU.sleeve.return");
    }

    @Test
    void acceptsOneReferenceOnTheFarSideOfAnIsolator() {
        TOLD.passes(isolated(rearSeats())
                .lead("HU", "av-left", facts(lineIn("left", "signal", "chassis")))
                .lead("HU", "sleeve", facts(lineIn("left", "return", "chassis")))
                .join("CAR.C2-1 ISO.l", "CAR.C2-2 ISO.lr", "ISO.lo HU.av-left", "ISO.lor HU.sleeve"));
    }

    @Test
    void leavesAReturnOnASignalToTheRuleOfTiedOutputs() {
        TOLD.leavesTo("outputs-tied", rearSeats().join("CAR.C2-2 CAR.C2-3"));
    }

    @Test
    void reportsReturnsThatMeetInThePinsOfAPlug() {
        Wiring plugged = new Wiring()
                .car("C2-2", facts(lineOut("left", "return", "driven")))
                .lead("PLAYER", "B-2", facts(lineOut("left", "return", "driven")))
                .plug("CAR.C2", "PLAYER.B");

        assertThat(TOLD.finding(plugged).terminals()).containsExactlyInAnyOrder("CAR.C2-2", "PLAYER.B-2");
    }

    private static Wiring isolated(Wiring wiring) {
        return wiring.inside(
                "ISO",
                "\"couples\": [" + couple("l", "lr", "lo", "lor", "") + ", " + couple("r", "rr", "ro", "ror", "")
                        + "]");
    }
}
