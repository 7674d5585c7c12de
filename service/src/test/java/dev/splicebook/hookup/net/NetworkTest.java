package dev.splicebook.hookup.net;

import static dev.splicebook.hookup.Wiring.constant;
import static dev.splicebook.hookup.Wiring.facts;
import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Wiring;
import org.junit.jupiter.api.Test;

/** What a network tells of a hookup before anything is live. */
class NetworkTest {

    private static Wiring bench() {
        return new Wiring()
                .carFloating("A2-1", "A2-2", "front-left")
                .speakerInput("AMP", "plus", "minus", "front-left")
                .relayWhileRunning("REL")
                .lead("AMP", "remote", facts("\"kind\": \"control-in\", \"active\": \"12V\", \"amps\": 0.01"));
    }

    private static boolean mayContactsMoveSignals(Wiring wiring) {
        return new Network(wiring.hookup()).mayContactsMoveSignals();
    }

    @Test
    void movesNoSignalByAContactInAFeed() {
        Wiring wiring =
                bench().join("CAR.A2-1 AMP.plus", "CAR.A2-2 AMP.minus", "CAR.battery-plus REL.30", "REL.87 AMP.remote");

        assertThat(mayContactsMoveSignals(wiring)).isFalse();
    }

    @Test
    void movesASignalByAContactInALeadOfALoudspeaker() {
        Wiring wiring = bench().join("CAR.A2-1 REL.30", "REL.87 AMP.plus", "CAR.A2-2 AMP.minus");

        assertThat(mayContactsMoveSignals(wiring)).isTrue();
    }

    @Test
    void movesASignalByAContactThatGroundsItThroughAResistor() {
        Wiring wiring = bench().inside(
                        "R", "\"resistors\": [{\"between\": [\"a\", \"b\"], \"ohms\": 47, \"watts\": 5}]")
                .join("CAR.A2-1 AMP.plus", "CAR.A2-2 AMP.minus", "CAR.A2-2 R.a", "R.b REL.30", "REL.87 CAR.chassis");

        assertThat(mayContactsMoveSignals(wiring)).isTrue();
    }

    @Test
    void movesASignalByAContactAtTheInputOfAPartThatTellsNothingOfItsLeads() {
        Wiring wiring = bench().inside("ISO", "\"couples\": [" + Wiring.couple("a", "b", "c", "d", "") + "]")
                .join("CAR.A2-1 AMP.plus", "CAR.A2-2 AMP.minus", "ISO.c REL.30");

        assertThat(mayContactsMoveSignals(wiring)).isTrue();
    }

    @Test
    void movesNoSignalWithoutAContact() {
        Wiring wiring = new Wiring()
                .carFloating("A2-1", "A2-2", "front-left")
                .speakerInput("AMP", "plus", "minus", "front-left")
                .car("B1-1", facts(constant()))
                .join("CAR.A2-1 AMP.plus", "CAR.A2-2 AMP.minus");

        assertThat(mayContactsMoveSignals(wiring)).isFalse();
    }
}
