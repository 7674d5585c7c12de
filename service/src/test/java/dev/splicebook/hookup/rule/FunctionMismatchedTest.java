package dev.splicebook.hookup.rule;

import static dev.splicebook.hookup.Wiring.constant;
import static dev.splicebook.hookup.Wiring.facts;
import static dev.splicebook.hookup.Wiring.supply;
import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.Wiring;
import org.junit.jupiter.api.Test;

/** What may feed what stands in the vocabulary; common practice, no source. */
class FunctionMismatchedTest {

    private static final Told TOLD = Told.by("function-mismatched");

    private static final String TWELVE = "\"kind\": \"control-in\", \"active\": \"12V\", \"amps\": 0.01";
    private static final String REVERSE = facts("control.reverse", TWELVE);

    private static Wiring accessory() {
        return new Wiring()
                .car("C1-8", facts("power.accessory", supply("accessory", "ignition", "running")))
                .lead("HU", "reverse", REVERSE);
    }

    @Test
    void reportsTheReverseInputOnTheAccessoryFeed() {
        Finding finding = TOLD.finding(accessory().join("CAR.C1-8 HU.reverse"));

        assertThat(finding.message())
                .isEqualTo("CAR.C1-8 is power.accessory and is joined with HU.reverse, which is control.reverse");
        assertThat(finding.help()).isEqualTo("connect HU.reverse to a circuit whose function is control.reverse.");
        assertThat(finding.severity()).isEqualTo(Severity.ERROR);
        assertThat(finding.terminals()).containsExactlyInAnyOrder("CAR.C1-8", "HU.reverse");
        assertThat(finding.connections()).containsExactly("W1");
    }

    @Test
    void acceptsTheReversingLampForTheReverseInput() {
        TOLD.passes(accessory()
                .car("C3-4", facts("lighting.reverse", supply("running") + ", \"when\": \"reverse\""))
                .join("CAR.C3-4 HU.reverse"));
    }

    @Test
    void acceptsTheReversingLampForTheFeedOfACameraAndOfNothingElse() {
        String lamp = facts(
                "control.reverse",
                "\"kind\": \"supply\", \"maxAmps\": 5, \"fuseAmps\": 5, \"live\": [\"ignition\", \"running\"], \"when\": \"reverse\"");
        String feed = facts("power.accessory", "\"kind\": \"load\", \"needs\": \"switched\", \"maxAmps\": 0.2");
        Wiring fed = new Wiring().car("R1-1", lamp).lead("CAM", "plus", feed).join("CAR.R1-1 CAM.plus");

        assertThat(TOLD.messages(fed))
                .containsExactly("CAR.R1-1 is control.reverse and is joined with CAM.plus, which is power.accessory");
        TOLD.passes(fed.lead("CAM", "video", facts("\"kind\": \"video-out\", \"side\": \"signal\"")));
    }

    @Test
    void findsPowerThatComesToASoundInputThroughADiodeThatLetsItThrough() {
        assertThat(TOLD.messages(diode().join("CAR.A1-1 D.a", "D.c AMP.in")))
                .containsExactly("CAR.A1-1 is power and is joined with AMP.in, which is for sound");
        assertThat(TOLD.messages(diode().join("CAR.A1-1 D.c", "D.a AMP.in"))).isEmpty();
    }

    private static Wiring diode() {
        return new Wiring()
                .car("A1-1", facts(Wiring.supply("accessory", "running")))
                .lead("AMP", "in", facts(Wiring.lineIn("left", "signal", "chassis")))
                .inside("D", "\"diodes\": [{\"anode\": \"a\", \"cathode\": \"c\"}]");
    }

    @Test
    void acceptsAGroupOfFunctionsAboveOrBelow() {
        TOLD.passes(new Wiring()
                .car("L1-1", facts("lighting", supply("running")))
                .lead("X", "in", facts("lighting.brake", TWELVE))
                .join("CAR.L1-1 X.in"));
    }

    @Test
    void acceptsAConstantFeedBecauseASwitchOrRelayMayStandBetween() {
        TOLD.passes(accessory().car("C1-7", facts("power.battery", constant())).join("CAR.C1-7 HU.reverse"));
    }

    @Test
    void findsTheMismatchThroughAnAdapterAndAPlug() {
        Wiring adapted = new Wiring()
                .car("C1-8", facts("power.accessory", supply("running")))
                .lead("HAR", "A-8", facts("\"kind\": \"passive\""))
                .inside("HAR", "\"conducts\": [[\"A-8\", \"green\"]]")
                .plug("CAR.C1", "HAR.A")
                .lead("HU", "reverse", REVERSE)
                .join("HAR.green HU.reverse");

        assertThat(TOLD.finding(adapted).terminals()).containsExactlyInAnyOrder("CAR.C1-8", "HU.reverse");
    }

    @Test
    void takesAContactForWhatMakesOneFunctionOfAnother() {
        TOLD.doesNotApply(accessory().relay("K").join("CAR.C1-8 K.30", "K.87 HU.reverse"));
    }

    @Test
    void reportsAJoinOfTwoCircuitsOfTheVehicle() {
        Wiring jumper = new Wiring()
                .car("C1-8", facts("power.accessory", supply("running")))
                .car("C7-2", facts("control.brake", TWELVE))
                .join("CAR.C1-8 CAR.C7-2");

        assertThat(TOLD.messages(jumper))
                .containsExactly("CAR.C1-8 is power.accessory and is joined with CAR.C7-2, which is control.brake");
    }

    @Test
    void leavesAFeedOnABusLineToItsOwnRule() {
        Wiring bus = new Wiring()
                .car("C1-8", facts("power.accessory", supply("running")))
                .lead("IFC", "high", facts("data.can.high", "\"kind\": \"data\", \"bus\": \"can\", \"line\": \"high\""))
                .join("CAR.C1-8 IFC.high");

        TOLD.leavesTo("bus-disturbed", bus);
    }

    @Test
    void leavesAudioAtAudioToTheRulesOfSignals() {
        TOLD.doesNotApply(new Wiring()
                .car("A2-1", facts("audio.speaker.left.plus", Wiring.floating("left", "plus")))
                .lead("AMP", "in", facts("audio.line.right.signal", Wiring.lineIn("right", "signal", "chassis")))
                .join("CAR.A2-1 AMP.in"));
    }

    @Test
    void leavesTheParkingBrakeToTheInterlock() {
        TOLD.leavesTo(
                "interlock-defeated",
                new Wiring()
                        .car("C1-8", facts("power.accessory", supply("running")))
                        .lead("HU", "brake", facts("control.parking-brake", TWELVE))
                        .join("CAR.C1-8 HU.brake"));
    }

    @Test
    void isSilentWhereAFunctionIsUnknown() {
        TOLD.doesNotApply(new Wiring()
                .car("C1-8", facts(supply("running")))
                .lead("HU", "reverse", REVERSE)
                .join("CAR.C1-8 HU.reverse"));
    }

    @Test
    void isNotCheckedWhereTheFunctionsDifferAndWhatACircuitGivesIsUnknown() {
        TOLD.lacks(
                new Wiring()
                        .car("C1-8", facts("power.accessory", ""))
                        .lead("HU", "reverse", REVERSE)
                        .join("CAR.C1-8 HU.reverse"),
                "CAR.C1-8.electrical");
        TOLD.lacks(accessory().lead("HU", "in", facts("control.brake", "")).join("CAR.C1-8 HU.in"), "HU.in.electrical");
    }

    @Test
    void needsNoElectricalFactsWhereTheFunctionsBelongTogether() {
        TOLD.doesNotApply(new Wiring()
                .car("C3-4", facts("lighting.reverse", ""))
                .lead("HU", "reverse", facts("control.reverse", ""))
                .join("CAR.C3-4 HU.reverse"));
    }
}
