package dev.splicebook.hookup;

import static dev.splicebook.hookup.Wiring.constant;
import static dev.splicebook.hookup.Wiring.facts;
import static dev.splicebook.hookup.Wiring.floating;
import static dev.splicebook.hookup.Wiring.loudspeaker;
import static dev.splicebook.hookup.Wiring.supply;
import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Report.Step;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Lead colours are the customary ones of the aftermarket; common practice, no source. */
class OrderTest {

    private static final String TWELVE = "\"kind\": \"control-in\", \"active\": \"12V\", \"amps\": 0.01";
    private static final List<String> CHANNELS = List.of("front-left", "front-right", "rear-left", "rear-right");

    private static Wiring feeds() {
        return new Wiring()
                .car("C1-7", facts("power.battery", "YE/RD", constant()))
                .car("C1-8", facts("power.accessory", "VT", supply("running")))
                .lead("HU", "memory", facts("power.battery", "YE", "\"kind\": \"load\", \"maxAmps\": 5"))
                .lead("HU", "accessory", facts("power.accessory", "RD", "\"kind\": \"load\", \"maxAmps\": 1"))
                .join("CAR.C1-7 HU.memory", "CAR.C1-8 HU.accessory");
    }

    private static Wiring withSpeakers(Wiring wiring, String connectorOfRears) {
        int pin = 1;
        for (String channel : CHANNELS) {
            String connector = channel.startsWith("rear") ? connectorOfRears : "C1";
            for (String side : List.of("plus", "minus")) {
                String circuit = connector + "-" + (20 + pin);
                String function = "audio.speaker." + channel + "." + side;
                wiring.car(circuit, facts(function, loudspeaker(channel, side)))
                        .lead("HU", "s" + pin, facts(function, floating(channel, side)))
                        .join("CAR." + circuit + " HU.s" + pin);
                pin++;
            }
        }
        return wiring;
    }

    @Test
    void beginsWithTheLeadThatWearsAnothersCustomaryColourAndSaysWhy() {
        Wiring reverse = feeds().car("C3-4", facts("lighting.reverse", "GN", supply("running")))
                .lead("HU", "reverse", facts("control.reverse", "VT/WH", TWELVE))
                .lead("HU", "rear-left", facts("audio.speaker.rear-left.plus", "GN", floating("rear-left", "plus")))
                .join("CAR.C3-4 HU.reverse");

        Step first = reverse.check().order().get(0);

        assertThat(first.connection()).isEqualTo("W3");
        assertThat(first.ends()).containsExactly("CAR.C3-4", "HU.reverse");
        assertThat(first.why())
                .isEqualTo(
                        "CAR.C3-4 wears GN, the customary colour of HU.rear-left (audio.speaker.rear-left.plus), which"
                                + " is present");
    }

    @Test
    void putsALeadNextWhoseColourAnotherLeadWearsToo() {
        Wiring shared = feeds().car(
                        "C4-1",
                        facts("control.vehicle-speed", "BN", "\"kind\": \"control-out\", \"active\": \"pulse\""))
                .car("C4-2", facts("control.brake", "BN", supply("running")))
                .lead(
                        "HU",
                        "speed",
                        facts("control.vehicle-speed", "PK", "\"kind\": \"control-in\", \"active\": \"pulse\""))
                .unplug("C4")
                .unused("CAR.C4-2", "capped")
                .join("CAR.C4-1 HU.speed");

        assertThat(shared.check().order().get(0))
                .isEqualTo(new Step(
                        "W3",
                        List.of("CAR.C4-1", "HU.speed"),
                        "CAR.C4-1 wears BN, and so does CAR.C4-2 (control.brake)"));
    }

    @Test
    void putsAPairForwardThatGoesThroughAnAdaptersOddLead() {
        Wiring odd = feeds().car("C3-4", facts("lighting.reverse", supply("running")))
                .lead("HAR", "A-4", facts("\"kind\": \"passive\""))
                .lead("HAR", "dimmer", facts("power.illumination", "\"kind\": \"passive\""))
                .inside("HAR", "\"conducts\": [[\"A-4\", \"dimmer\"]]")
                .plug("CAR.C3", "HAR.A")
                .lead("HU", "reverse", facts("control.reverse", TWELVE))
                .join("HAR.dimmer HU.reverse");

        assertThat(odd.check().order().get(0).why())
                .isEqualTo("HAR.dimmer says power.illumination, and CAR.C3-4 behind it is lighting.reverse");
    }

    @Test
    void leavesAColourInItsPlaceWhereBothEndsWearIt() {
        Wiring agreed = new Wiring()
                .car("C1-7", facts("power.battery", "YE", constant()))
                .lead("HU", "memory", facts("power.battery", "YE", "\"kind\": \"load\", \"maxAmps\": 5"))
                .lead("AMP", "gain", facts("power.amplifier", "YE", "\"kind\": \"load\", \"maxAmps\": 5"))
                .join("CAR.C1-7 HU.memory");

        assertThat(agreed.check().order()).extracting(Step::why).containsExactly("at connector C1");
    }

    @Test
    void goesConnectorByConnectorAndNamesBatteryAndChassis() {
        Wiring spread = feeds().car("C5-1", facts("control.brake", supply("running")))
                .lead("HU", "ground", facts("ground.chassis", "\"kind\": \"ground\""))
                .lead("HU", "brake", facts("control.brake", TWELVE))
                .lead("AMP", "power", facts("power.amplifier", "\"kind\": \"load\", \"maxAmps\": 5"))
                .join("CAR.chassis HU.ground", "CAR.C5-1 HU.brake", "CAR.battery-plus AMP.power");

        List<String> whys = spread.check().order().stream().map(Step::why).toList();

        assertThat(whys)
                .containsExactlyInAnyOrder(
                        "at connector C1", "at connector C1", "at connector C5", "at the chassis", "at the battery");
        assertThat(whys.lastIndexOf("at connector C1") - whys.indexOf("at connector C1"))
                .isEqualTo(1);
    }

    @Test
    void keepsTheEightSpeakerLeadsTogetherAtOneConnector() {
        assertSpeakersTogether(withSpeakers(feeds(), "C1"));
    }

    @Test
    void keepsTheEightSpeakerLeadsTogetherThoughTheyStandInTwoConnectors() {
        Wiring two = withSpeakers(feeds(), "C2")
                .car("C2-1", facts("control.brake", supply("running")))
                .lead("HU", "brake", facts("control.brake", TWELVE))
                .join("CAR.C2-1 HU.brake");

        assertSpeakersTogether(two);
    }

    @Test
    void keepsTheTwoConductorsOfEachPairSideBySide() {
        List<String> speakers = withSpeakers(feeds(), "C1").check().order().stream()
                .map(step -> step.ends().get(1))
                .filter(end -> end.startsWith("HU.s"))
                .toList();

        for (int pair = 0; pair < 8; pair += 2) {
            int one = Integer.parseInt(speakers.get(pair).substring(4));
            int other = Integer.parseInt(speakers.get(pair + 1).substring(4));
            assertThat((one - 1) / 2).isEqualTo((other - 1) / 2);
        }
    }

    @Test
    void goesFromPlaceToPlaceByWhatIsMadeThere() {
        Wiring spread = feeds().car("C5-1", facts("control.brake", supply("running")))
                .lead("HU", "ground", facts("ground.chassis", "\"kind\": \"ground\""))
                .lead("HU", "brake", facts("control.brake", TWELVE))
                .join("CAR.chassis HU.ground", "CAR.C5-1 HU.brake");

        assertThat(spread.check().order())
                .extracting(step -> step.ends().get(1))
                .containsExactly("HU.brake", "HU.ground", "HU.accessory", "HU.memory");
    }

    @Test
    void putsTheSpeakersAtTheFirstPlaceThatHasAny() {
        Wiring two = withSpeakers(feeds(), "C2")
                .car("C0-1", facts("control.brake", supply("running")))
                .lead("HU", "brake", facts("control.brake", TWELVE))
                .join("CAR.C0-1 HU.brake");

        List<String> ends =
                two.check().order().stream().map(step -> step.ends().get(1)).toList();

        // audio comes before control, so that C1 with its fronts is the first place, and all rears are made there too
        assertThat(ends).hasSize(11);
        assertThat(ends.subList(0, 2)).containsExactly("HU.accessory", "HU.memory");
        assertThat(ends.subList(2, 10)).allMatch(end -> end.startsWith("HU.s"));
        assertThat(ends.get(10)).isEqualTo("HU.brake");
    }

    @Test
    void standsBetweenPartsAtThePartOfWhichLessIsToBeRead() {
        Wiring parts = new Wiring()
                .lead("HU", "out", facts("control.amplifier-on", "\"kind\": \"control-out\", \"active\": \"12V\""))
                .lead("AMP", "in", facts("control.amplifier-on", TWELVE))
                .join("HU.out AMP.in");
        Wiring turned = new Wiring()
                .lead("HU", "out", facts("control.amplifier-on", "\"kind\": \"control-out\", \"active\": \"12V\""))
                .lead("AMP", "in", facts("control.amplifier-on", TWELVE))
                .join("AMP.in HU.out");

        // by facts, and a control input comes before an output
        assertThat(parts.check().order()).extracting(Step::why).containsExactly("at AMP");
        assertThat(turned.check().order()).extracting(Step::why).containsExactly("at AMP");
    }

    @Test
    void standsBetweenLeadsThatAreAlikeAtThePartWithFewer() {
        Wiring alike = new Wiring()
                .lead("ABC", "bus", facts("data.can.high", "\"kind\": \"data\", \"bus\": \"can\""))
                .lead("ABC", "more", facts("data.can.low", "\"kind\": \"data\", \"bus\": \"can\""))
                .lead("XYZ", "bus", facts("data.can.high", "\"kind\": \"data\", \"bus\": \"can\""))
                .join("ABC.bus XYZ.bus");
        Wiring same = new Wiring()
                .lead("XYZ", "bus", facts("data.can.high", "\"kind\": \"data\", \"bus\": \"can\""))
                .lead("ABC", "bus", facts("data.can.high", "\"kind\": \"data\", \"bus\": \"can\""))
                .join("XYZ.bus ABC.bus");
        Wiring others = new Wiring()
                .lead("ABC", "bus", facts("data.can.high", "\"kind\": \"data\", \"bus\": \"can\""))
                .lead("ABC", "more", facts("data.can.low", "\"kind\": \"data\", \"bus\": \"lin\""))
                .lead("XYZ", "bus", facts("data.can.high", "\"kind\": \"data\", \"bus\": \"can\""))
                .lead("XYZ", "more", facts("data.can.low", "\"kind\": \"data\", \"bus\": \"can\""))
                .join("ABC.bus XYZ.bus");

        assertThat(alike.check().order()).extracting(Step::why).containsExactly("at XYZ");
        assertThat(same.check().order()).extracting(Step::why).containsExactly("at ABC");
        assertThat(others.check().order()).extracting(Step::why).containsExactly("at XYZ");
    }

    @Test
    void namesOfSeveralThatWearTheColourTheOneThatIsReadFirst() {
        Wiring shared = new Wiring()
                .car("C4-1", facts("control.vehicle-speed", "BN", supply("running")))
                .car("C4-2", facts("control.fan", "BN", supply("running")))
                .car("C4-3", facts("control.brake", "BN", supply("running")))
                .lead("HU", "speed", facts("control.vehicle-speed", "PK", TWELVE))
                .unplug("C4")
                .unused("CAR.C4-2", "capped")
                .unused("CAR.C4-3", "capped")
                .join("CAR.C4-1 HU.speed");

        assertThat(shared.check().order())
                .extracting(Step::why)
                .containsExactly("CAR.C4-1 wears BN, and so does CAR.C4-3 (control.brake)");
    }

    @Test
    void listsEveryConnectionOnceAndNothingElse() {
        assertThat(withSpeakers(feeds(), "C2").check().order())
                .extracting(Step::connection)
                .containsExactlyInAnyOrder("W1", "W2", "W3", "W4", "W5", "W6", "W7", "W8", "W9", "W10");
        assertThat(new Wiring().check().order()).isEmpty();
    }

    private static void assertSpeakersTogether(Wiring wiring) {
        List<Boolean> speaker = wiring.check().order().stream()
                .map(step -> step.why().endsWith(", with the speaker leads together"))
                .toList();
        int first = speaker.indexOf(true);

        assertThat(speaker).filteredOn(is -> is).hasSize(8);
        assertThat(speaker.subList(first, first + 8)).containsOnly(true);
    }
}
