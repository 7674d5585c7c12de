package dev.splicebook.hookup.rule;

import static dev.splicebook.hookup.Wiring.couple;
import static dev.splicebook.hookup.Wiring.facts;
import static dev.splicebook.hookup.Wiring.floating;
import static dev.splicebook.hookup.Wiring.lineOut;
import static dev.splicebook.hookup.Wiring.speakerOut;
import static dev.splicebook.hookup.Wiring.supply;
import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.Wiring;
import org.junit.jupiter.api.Test;

/** Two sources of voltage on one node drive each other through nothing but their own resistance (Kirchhoff). */
class OutputsTiedTest {

    private static final Told TOLD = Told.by("outputs-tied");

    private static final String REMOTE =
            "\"kind\": \"control-out\", \"active\": \"12V\", \"maxAmps\": 0.3, \"live\": [\"accessory\", \"running\"]";

    private static Wiring twoFloating() {
        return new Wiring()
                .car("A2-1", facts(floating("front-left", "plus")))
                .lead("HU", "fl-plus", facts(floating("front-left", "plus")));
    }

    @Test
    void reportsTwoSpeakerOutputsOnOneNet() {
        Finding finding = TOLD.finding(twoFloating().join("CAR.A2-1 HU.fl-plus"));

        assertThat(finding.message()).isEqualTo("CAR.A2-1 and HU.fl-plus are outputs on one net");
        assertThat(finding.terminals()).containsExactlyInAnyOrder("CAR.A2-1", "HU.fl-plus");
        assertThat(finding.connections()).containsExactly("W1");
        assertThat(finding.states()).isEmpty();
    }

    @Test
    void keepsMinusesThatMeetInOnePlugToTheirPairs() {
        Finding finding = TOLD.finding(new Wiring()
                .car("A2-2", facts(floating("front-left", "minus")))
                .car("A2-4", facts(floating("front-right", "minus")))
                .lead("AMP", "return", facts(Wiring.lineIn("left", "return", "chassis")))
                .join("CAR.A2-2 AMP.return", "CAR.A2-4 AMP.return"));

        assertThat(finding.message()).isEqualTo("CAR.A2-2 and CAR.A2-4 are outputs on one net");
        assertThat(finding.help())
                .isEqualTo("keep each to its own pair: put a converter or an isolator into each pair before the returns"
                        + " meet.");
    }

    @Test
    void acceptsTheLoudspeakersOfAConnectorTakenOffTheFactoryAmplifier() {
        TOLD.passes(new Wiring()
                .car("C1-1", """
                        {"whenPlugged": {%s}, "whenUnplugged": {%s}}""".formatted(floating("front-left", "plus"), Wiring.loudspeaker("front-left", "plus")))
                .unplug("C1")
                .lead("HU", "fl-plus", facts(floating("front-left", "plus")))
                .join("CAR.C1-1 HU.fl-plus"));
    }

    @Test
    void acceptsAnyNumberOfInputsOnOneOutput() {
        TOLD.passes(twoFloating()
                .speakerInput("LOC", "in-plus", "in-minus", "left")
                .speakerInput("AMP", "in-plus", "in-minus", "left")
                .join("CAR.A2-1 LOC.in-plus", "CAR.A2-1 AMP.in-plus"));
    }

    @Test
    void reportsAnAdapterThatTiesTwoOutputsInside() {
        assertThat(TOLD.messages(twoFloating()
                        .inside("Y", "\"conducts\": [[\"one\", \"two\", \"both\"]]")
                        .join("CAR.A2-1 Y.one", "HU.fl-plus Y.two")))
                .containsExactly("CAR.A2-1 and HU.fl-plus are outputs on one net");
    }

    @Test
    void reportsOutputsThatMeetInThePinsOfAPlug() {
        Wiring mated = new Wiring()
                .car("A2-1", facts(floating("front-left", "plus")))
                .lead("HU", "B-1", facts(floating("front-left", "plus")))
                .plug("CAR.A2", "HU.B");

        assertThat(TOLD.finding(mated).terminals()).containsExactlyInAnyOrder("CAR.A2-1", "HU.B-1");
    }

    @Test
    void acceptsARelayThatPicksOneOfTwoSources() {
        TOLD.passes(twoFloating()
                .relayWhileRunning("K")
                .speakerInput("AMP", "in-plus", "in-minus", "left")
                .join("CAR.A2-1 K.87a", "HU.fl-plus K.87", "K.30 AMP.in-plus"));
    }

    @Test
    void namesTheStatesInWhichARelayTiesTwoSources() {
        Wiring tied = twoFloating().relayWhileRunning("K").join("CAR.A2-1 K.30", "HU.fl-plus K.87");

        assertThat(TOLD.finding(tied).states()).containsExactly(State.RUNNING);
    }

    @Test
    void acceptsTurnOnOutputsThatMeetBehindADiodeEach() {
        String diodes =
                "\"diodes\": [{\"anode\": \"a\", \"cathode\": \"out\"}, {\"anode\": \"b\", \"cathode\": \"out\"}]";

        TOLD.passes(new Wiring()
                .car("C1-5", facts(REMOTE))
                .lead("HU", "remote", facts(REMOTE))
                .lead("AMP", "on", facts("\"kind\": \"control-in\", \"active\": \"12V\", \"amps\": 0.01"))
                .inside("D", diodes)
                .join("CAR.C1-5 D.a", "HU.remote D.b", "D.out AMP.on"));
    }

    @Test
    void reportsATurnOnOutputOnASupply() {
        Wiring fed = new Wiring()
                .car("C1-8", facts(supply("accessory", "running")))
                .lead("HU", "remote", facts(REMOTE))
                .join("CAR.C1-8 HU.remote");

        assertThat(TOLD.finding(fed).terminals()).containsExactlyInAnyOrder("CAR.C1-8", "HU.remote");
    }

    @Test
    void acceptsOutputsThatSwitchToGroundOnOneNet() {
        String door =
                "\"kind\": \"control-out\", \"active\": \"ground\", \"live\": [\"asleep\"], \"when\": \"door-open\"";

        TOLD.doesNotApply(
                new Wiring().car("D1-1", facts(door)).car("D2-1", facts(door)).join("CAR.D1-1 CAR.D2-1"));
    }

    @Test
    void acceptsTwoCircuitsThatComeFromOneSource() {
        String fromRadio = "{\"source\": \"radio, amplifier turn-on\", \"electrical\": {" + REMOTE + "}}";

        TOLD.passes(new Wiring().car("C1-5", fromRadio).car("A1-3", fromRadio).join("CAR.C1-5 CAR.A1-3"));
    }

    @Test
    void acceptsMinusSidesThatAreGroundAnyway() {
        String minus = facts(speakerOut("left", "minus", "\"drive\": \"common-ground\""));

        TOLD.doesNotApply(new Wiring()
                .lead("AMP", "minus", minus)
                .lead("HU", "minus", minus)
                .join("AMP.minus HU.minus"));
    }

    @Test
    void isNotCheckedWhereTwoMinusSidesMayBeGround() {
        String minus = facts(speakerOut("left", "minus", ""));

        TOLD.lacks(
                new Wiring()
                        .lead("AMP", "minus", minus)
                        .lead("HU", "minus", minus)
                        .join("AMP.minus HU.minus"),
                "AMP.minus.drive",
                "HU.minus.drive");
    }

    @Test
    void reportsAPlusOnAMinusOfUnknownDriveBecauseItIsWrongEitherWay() {
        Wiring crossed = new Wiring()
                .car("A2-1", facts(floating("front-left", "plus")))
                .lead("HU", "minus", facts(speakerOut("front-left", "minus", "")))
                .join("CAR.A2-1 HU.minus");

        assertThat(TOLD.finding(crossed).terminals()).containsExactlyInAnyOrder("CAR.A2-1", "HU.minus");
    }

    @Test
    void isNotCheckedWhereAnOutputMayBeAReturnOrMayPullToGround() {
        TOLD.lacks(
                new Wiring()
                        .lead("P", "out", facts(lineOut("left", "signal", "isolated")))
                        .lead("Q", "out", facts("\"kind\": \"line-out\", \"channel\": \"left\""))
                        .lead("P", "on", facts(REMOTE))
                        .lead("Q", "on", facts("\"kind\": \"control-out\""))
                        .join("P.out Q.out", "P.on Q.on"),
                "Q.out.side",
                "Q.on.active");
    }

    @Test
    void reportsTheTwoSidesOfACouplingThatAreShorted() {
        Wiring shorted = new Wiring()
                .inside("ISO", "\"couples\": [" + couple("in", "in-return", "out", "out-return", "") + "]")
                .join("ISO.out ISO.out-return");

        assertThat(TOLD.finding(shorted).message())
                .isEqualTo("ISO.out and ISO.out-return are the two sides of one output and stand on one net");
    }

    @Test
    void reportsADrivenReturnOnAnotherOutput() {
        Wiring rear = new Wiring().carDriven("C2-1", "C2-2", "left").carDriven("C2-3", "C2-4", "right");

        assertThat(TOLD.messages(rear.join("CAR.C2-2 CAR.C2-3")))
                .containsExactly("CAR.C2-2 and CAR.C2-3 are outputs on one net");
        assertThat(TOLD.finding(new Wiring()
                                .carDriven("C2-1", "C2-2", "left")
                                .carFloating("A2-1", "A2-2", "left")
                                .join("CAR.C2-2 CAR.A2-2"))
                        .terminals())
                .containsExactlyInAnyOrder("CAR.C2-2", "CAR.A2-2");
    }

    @Test
    void reportsADrivenReturnOnASupply() {
        Wiring fed = new Wiring()
                .carDriven("C2-1", "C2-2", "left")
                .car("C1-7", facts(Wiring.constant()))
                .join("CAR.C2-2 CAR.C1-7");

        assertThat(TOLD.finding(fed).terminals()).containsExactlyInAnyOrder("CAR.C2-2", "CAR.C1-7");
    }

    @Test
    void leavesDrivenReturnsThatMeetEachOtherToTheirOwnRule() {
        TOLD.leavesTo(
                "returns-tied",
                new Wiring()
                        .carDriven("C2-1", "C2-2", "left")
                        .carDriven("C2-3", "C2-4", "right")
                        .join("CAR.C2-2 CAR.C2-4"));
    }

    @Test
    void reportsTheTwoSidesOfOneOutputOnce() {
        assertThat(TOLD.messages(new Wiring().carDriven("C2-1", "C2-2", "left").join("CAR.C2-1 CAR.C2-2")))
                .hasSize(1);
        assertThat(TOLD.messages(
                        new Wiring().carFloating("A2-1", "A2-2", "left").join("CAR.A2-1 CAR.A2-2")))
                .hasSize(1);
    }

    @Test
    void reportsThePlusOfAnOutputAgainstGroundOnTheChassisOrOnItsOwnMinus() {
        String drive = "\"drive\": \"common-ground\"";
        Wiring grounded = new Wiring()
                .lead("HU", "plus", facts(speakerOut("left", "plus", drive)))
                .join("HU.plus CAR.chassis");
        Wiring shorted = new Wiring()
                .lead("HU", "plus", facts(speakerOut("left", "plus", drive)))
                .lead("HU", "minus", facts(speakerOut("left", "minus", drive)))
                .join("HU.plus HU.minus");

        assertThat(TOLD.messages(grounded))
                .containsExactly("HU.plus is an output against ground and stands on ground at CAR.chassis");
        assertThat(TOLD.messages(shorted))
                .containsExactly("HU.plus is an output against ground and stands on ground at HU.minus");
    }

    @Test
    void reportsTheSignalOfALineOrVideoOutputOnTheChassis() {
        for (String returns : new String[] {"chassis", "driven"}) {
            Finding finding = TOLD.finding(new Wiring()
                    .car("A1-1", facts(lineOut("left", "signal", returns)))
                    .join("CAR.A1-1 CAR.chassis"));
            assertThat(finding.message())
                    .isEqualTo("CAR.A1-1 is an output against ground and stands on ground at CAR.chassis");
        }
        TOLD.finding(new Wiring()
                .car("V1-1", facts("\"kind\": \"video-out\", \"side\": \"signal\""))
                .join("CAR.V1-1 CAR.chassis"));
        // of an isolated output the signal may stand on ground in place of its return
        assertThat(TOLD.messages(new Wiring()
                        .car("A1-1", facts(lineOut("left", "signal", "isolated")))
                        .join("CAR.A1-1 CAR.chassis")))
                .isEmpty();
    }

    @Test
    void namesTheStatesInWhichAContactGroundsAnOutput() {
        Wiring switched = new Wiring()
                .lead("HU", "plus", facts(speakerOut("left", "plus", "\"drive\": \"common-ground\"")))
                .relayWhileRunning("K")
                .join("HU.plus K.30", "K.87 CAR.chassis");

        assertThat(TOLD.finding(switched).states()).containsExactly(State.RUNNING);
    }

    @Test
    void leavesSuppliesThatMeetToTheirOwnRule() {
        TOLD.doesNotApply(new Wiring()
                .car("C1-7", facts(Wiring.constant()))
                .car("C1-8", facts(supply("running")))
                .join("CAR.C1-7 CAR.C1-8"));
    }
}
