package dev.splicebook.hookup.mend;

import static dev.splicebook.hookup.mend.Proposing.after;
import static dev.splicebook.hookup.mend.Proposing.changed;
import static dev.splicebook.hookup.mend.Proposing.propose;
import static dev.splicebook.hookup.mend.Proposing.what;
import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Connection;
import dev.splicebook.hookup.Wiring;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Test;

/** Connections that somebody forgot. */
class ForgottenTest {

    private static final String PASSIVE = "\"kind\": \"passive\"";
    private static final String GROUND = "\"kind\": \"ground\"";

    private static String load(String function, double amps) {
        return Wiring.facts(function, "\"kind\": \"load\", \"needs\": \"either\", \"maxAmps\": " + amps);
    }

    @Test
    void joinsTwoLooseLeadsOfOneFunction() {
        Wiring wiring = new Wiring()
                .lead("HAR", "lamps", Wiring.facts("power.illumination", PASSIVE))
                .lead("HAR", "mute", Wiring.facts("control.mute", PASSIVE))
                .lead(
                        "HU",
                        "lamps",
                        Wiring.facts("power.illumination", "\"kind\": \"control-in\", \"active\": \"12V\""))
                .lead("HU", "mute", Wiring.facts("control.mute", "\"kind\": \"control-in\", \"active\": \"12V\""))
                .unused("HU.mute", "capped");
        List<Proposal> proposals =
                propose(new JoinLooseLeads(), "lead-unaccounted", wiring, "HAR.lamps HAR.mute HU.lamps", "");

        assertThat(what(proposals)).containsExactly("Connect HAR.lamps to HU.lamps.");
        assertThat(proposals.get(0).cost()).isEqualTo(0.9);
    }

    @Test
    void asksMoreForLeadsOfNearlyTheSameFunction() {
        Wiring wiring = new Wiring()
                .lead(
                        "ISO",
                        "out",
                        Wiring.facts("audio.line.left.signal", Wiring.lineOut("left", "signal", "isolated")))
                .lead("ADA", "left", Wiring.facts("audio.line.auxiliary.left.signal", PASSIVE))
                .lead("ADA", "right", Wiring.facts("audio.line.auxiliary.right.signal", PASSIVE))
                .lead("ADA", "speaker", Wiring.facts("audio.speaker.left.plus", PASSIVE))
                .lead("HU", "any", Wiring.facts("audio.line", Wiring.lineIn("left", "signal", "chassis")));
        List<Proposal> proposals = propose(new JoinLooseLeads(), "live-lead-uncapped", wiring, "ISO.out", "");

        assertThat(what(proposals)).containsExactly("Connect ISO.out to ADA.left.", "Connect ISO.out to HU.any.");
        assertThat(proposals).extracting(Proposal::cost).containsOnly(1.9);
    }

    @Test
    void joinsNoTwoThatBothTakeAndNoneThatIsConnected() {
        String takes = "\"kind\": \"control-in\", \"active\": \"12V\"";
        Wiring wiring = new Wiring()
                .lead("HU", "mute", Wiring.facts("control.mute", takes))
                .lead("AMP", "mute", Wiring.facts("control.mute", takes))
                .lead("HAR", "mute", Wiring.facts("control.mute", PASSIVE))
                .lead("IFC", "mute", Wiring.facts("control.mute", "\"kind\": \"control-out\", \"active\": \"12V\""))
                .join("HAR.mute IFC.mute");

        assertThat(propose(new JoinLooseLeads(), "lead-unaccounted", wiring, "HU.mute AMP.mute", ""))
                .isEmpty();
    }

    @Test
    void joinsPowerWithTheThickestWireThatIsThere() {
        Wiring wiring = new Wiring()
                .inside("KIT", "\"fuses\": [{\"between\": [\"battery\", \"feed\"], \"ratingAmps\": 60}]")
                .lead("KIT", "battery", Wiring.facts("power.battery", PASSIVE))
                .lead("KIT", "feed", Wiring.facts("power.battery", PASSIVE))
                .lead("KIT", "return", Wiring.facts("ground.chassis", PASSIVE))
                .lead("AMP", "plus", load("power.battery", 40))
                .lead("AMP", "minus", Wiring.facts("ground.chassis", GROUND))
                .joinBy("KIT.feed AMP.plus", "\"conductor\": {\"size\": \"4 AWG\"}")
                .joinBy("AMP.minus CAR.chassis", "\"conductor\": {\"size\": \"8 AWG\"}");

        // what is loose hangs on the amplifier's own conductor
        List<Proposal> feed = propose(new JoinLooseLeads(), "load-without-supply", wiring, "AMP.plus", "");
        assertThat(what(feed)).containsExactly("Connect KIT.battery to CAR.battery-plus.");
        Connection wire = Objects.requireNonNull(
                after(feed.get(0)).document().connections().get("W3"));
        assertThat(Objects.requireNonNull(wire.conductor()).size().value()).isEqualTo("4 AWG");
        assertThat(what(propose(new JoinLooseLeads(), "lead-unaccounted", wiring, "KIT.return", "")))
                .containsExactly("Connect KIT.return to CAR.chassis.");
    }

    @Test
    void joinsTheLooseEndsOfAString() {
        Wiring wiring = new Wiring().carFloating("C1-1", "C1-2", "subwoofer");
        for (int at = 1; at < 3; at++) {
            for (String side : List.of("plus", "minus")) {
                wiring.lead(
                        "SUB",
                        side + at,
                        Wiring.facts(Wiring.audio(
                                "speaker-in", "subwoofer", side, "\"ohms\": 4, \"coil\": \"" + at + "\"")));
            }
        }
        wiring.join("CAR.C1-1 SUB.plus1", "CAR.C1-2 SUB.minus2");

        assertThat(what(propose(new JoinLooseLeads(), "pair-half-connected", wiring, "SUB.minus1", "")))
                .containsExactly("Connect SUB.minus1 to SUB.plus2.", "Connect SUB.minus1 to CAR.C1-2.");
        assertThat(what(propose(new JoinLooseLeads(), "pair-half-connected", wiring, "SUB.plus2", "")))
                .containsExactly("Connect SUB.plus2 to SUB.minus1.", "Connect SUB.plus2 to CAR.C1-1.");
    }

    @Test
    void movesTheEndOfACoilThatIsShortToTheOtherSideOfItsOutput() {
        Wiring wiring = new Wiring().carFloating("C1-1", "C1-2", "subwoofer");
        for (String side : List.of("plus", "minus")) {
            wiring.lead("SUB", side, Wiring.facts(Wiring.audio("speaker-in", "subwoofer", side, "\"ohms\": 4")));
        }
        wiring.join("CAR.C1-1 SUB.plus", "SUB.minus SUB.plus");

        assertThat(what(propose(new JoinOtherSide(), "pair-half-connected", wiring, "SUB.plus SUB.minus", "W2")))
                .contains("Move the lead of SUB.minus from SUB.plus to CAR.C1-2.");
    }

    private static Wiring relay() {
        return new Wiring()
                .car("C1-1", Wiring.facts(Wiring.constant()))
                .car("C1-2", Wiring.facts(Wiring.supply("accessory", "running")))
                .relay("K")
                .lead("FAN", "plus", load("power", 5))
                .join("K.87 FAN.plus");
    }

    @Test
    void groundsACoilThatIsFedAndFeedsOneThatIsGrounded() {
        Wiring fed = relay().join("CAR.C1-2 K.86", "CAR.C1-1 K.30");
        assertThat(what(propose(new CompleteRelay(), "load-without-supply", fed, "FAN.plus", "")))
                .containsExactly("Connect K.85 to CAR.chassis.");
        Wiring grounded = relay().join("CAR.chassis K.85", "CAR.C1-1 K.30");
        List<Proposal> proposals = propose(new CompleteRelay(), "load-without-supply", grounded, "FAN.plus", "");
        assertThat(what(proposals)).containsExactly("Connect K.86 to CAR.C1-2.");
        assertThat(changed(proposals.get(0), grounded)).containsExactly("W4: CAR.C1-2 - K.86");
    }

    @Test
    void feedsAContactForWhatHangsBehindIt() {
        Wiring wiring = relay().join("CAR.chassis K.85", "CAR.C1-2 K.86");
        List<Proposal> proposals = propose(new CompleteRelay(), "load-without-supply", wiring, "FAN.plus", "");

        assertThat(what(proposals)).containsExactly("Connect K.30 to CAR.C1-1.", "Connect K.30 to CAR.battery-plus.");
        Connection wire = Objects.requireNonNull(
                after(proposals.get(1)).document().connections().get("W4"));
        assertThat(Objects.requireNonNull(wire.fuse()).ratingAmps()).isEqualTo(5);
    }

    @Test
    void completesNothingThatIsWholeOrHangsOnNothing() {
        Wiring whole = relay().join("CAR.chassis K.85", "CAR.C1-2 K.86", "CAR.C1-1 K.30");
        assertThat(propose(new CompleteRelay(), "lead-unaccounted", whole, "FAN.plus", ""))
                .isEmpty();
        Wiring meant = relay().join("CAR.chassis K.85", "CAR.C1-1 K.30").lead("K", "86", Wiring.facts(PASSIVE));
        assertThat(propose(new CompleteRelay(), "lead-unaccounted", meant.unused("K.86", "capped"), "FAN.plus", ""))
                .isEmpty();
        Wiring bare = new Wiring().car("C1-1", Wiring.facts(Wiring.constant())).relay("K");
        assertThat(propose(new CompleteRelay(), "lead-unaccounted", bare, "", ""))
                .isEmpty();
    }

    @Test
    void joinsTheOtherSideByTheLeadThatHangsLooseForIt() {
        Wiring wiring = new Wiring()
                .carPair("C2-1", "C2-2", side -> Wiring.lineOut("left", side, "chassis"), "signal", "return")
                .inside("HAR", "\"conducts\": [[\"P-1\", \"left\"], [\"P-2\", \"left-return\"]]")
                .lead("HAR", "P-1", Wiring.facts(PASSIVE))
                .lead("HAR", "P-2", Wiring.facts(PASSIVE))
                .lead("HAR", "left", Wiring.facts(PASSIVE))
                .lead("HAR", "left-return", Wiring.facts(PASSIVE))
                .lineInput("HU", "in", "in-return", "left")
                .join("CAR.C2-1 HAR.P-1", "CAR.C2-2 HAR.P-2", "HAR.left HU.in");

        assertThat(what(propose(new JoinOtherSide(), "pair-half-connected", wiring, "HU.in CAR.C2-1", "")))
                .containsExactly("Connect HU.in-return to HAR.left-return.", "Connect HU.in-return to CAR.C2-2.");
    }
}
