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

class InputContendedTest {

    private static final Told TOLD = Told.by("input-contended");

    /** A player that is at hand, and the rear seats' sound behind an isolator. */
    private static Wiring sources() {
        return new Wiring()
                .carDriven("C2-1", "C2-2", "left")
                .inside("ISO", "\"couples\": [" + couple("l", "lr", "lo", "lor", "\"maxVolts\": 4") + "]")
                .lead("PLAYER", "out", facts(lineOut("left", "signal", "chassis")))
                .lead("HU", "av-left", facts(lineIn("left", "signal", "chassis")))
                .join("CAR.C2-1 ISO.l", "CAR.C2-2 ISO.lr");
    }

    @Test
    void reportsASourceBehindAnIsolatorBesideADirectOne() {
        Finding finding = TOLD.finding(sources().join("ISO.lo HU.av-left", "PLAYER.out HU.av-left"));

        assertThat(finding.message()).isEqualTo("CAR.C2-1 and PLAYER.out arrive at the one input HU.av-left");
        assertThat(finding.help()).isEqualTo("put a switch or a relay between that picks one, or use another input.");
        assertThat(finding.terminals()).containsExactlyInAnyOrder("HU.av-left", "PLAYER.out", "CAR.C2-1");
        assertThat(finding.connections()).containsExactly("W3", "W4");
    }

    @Test
    void acceptsOneSource() {
        TOLD.passes(sources().join("ISO.lo HU.av-left"));
    }

    @Test
    void acceptsARelayThatPicksOne() {
        TOLD.passes(sources().relayWhileRunning("K").join("ISO.lo K.87a", "PLAYER.out K.87", "K.30 HU.av-left"));
    }

    @Test
    void namesTheStatesInWhichARelayAddsTheSecondSource() {
        Wiring added = sources().relayWhileRunning("K").join("ISO.lo HU.av-left", "PLAYER.out K.87", "K.30 HU.av-left");

        assertThat(TOLD.finding(added).states()).containsExactly(State.RUNNING);
    }

    @Test
    void acceptsAPartThatSumsInside() {
        TOLD.passes(sources()
                .inside(
                        "SUM",
                        "\"couples\": [" + couple("a", "ar", "out", "outr", "\"maxVolts\": 4") + ", "
                                + couple("b", "br", "out", "outr", "\"maxVolts\": 4") + "]")
                .join("ISO.lo SUM.a", "PLAYER.out SUM.b", "SUM.out HU.av-left"));
    }

    @Test
    void reportsTwoSourcesAtTheInputOfAConverter() {
        Wiring shared = sources()
                .inside("LOC", "\"couples\": [" + couple("in", "inr", "out", "outr", "\"maxVolts\": 4") + "]")
                .join("ISO.lo LOC.in", "ISO.lor LOC.inr", "PLAYER.out LOC.in", "LOC.out HU.av-left");

        assertThat(TOLD.finding(shared).terminals()).containsExactlyInAnyOrder("LOC.in", "PLAYER.out", "CAR.C2-1");
    }

    @Test
    void acceptsOneOutputThatArrivesByTwoWays() {
        TOLD.passes(sources()
                .inside("ISO2", "\"couples\": [" + couple("l", "lr", "lo", "lor", "\"maxVolts\": 4") + "]")
                .join("CAR.C2-1 ISO2.l", "CAR.C2-2 ISO2.lr", "ISO.lo HU.av-left", "ISO2.lo HU.av-left"));
    }

    @Test
    void leavesOutputsThatMeetDirectlyToTheirOwnRule() {
        TOLD.leavesTo("outputs-tied", sources().join("CAR.C2-1 HU.av-left", "PLAYER.out HU.av-left"));
    }

    @Test
    void isSilentWhereNoSignalArrives() {
        TOLD.doesNotApply(new Wiring().lead("HU", "av-left", facts(lineIn("left", "signal", "chassis"))));
    }

    @Test
    void judgesAnInputOfUnknownSideToo() {
        Wiring sideless = sources()
                .lead("HU", "aux", facts("\"kind\": \"line-in\", \"channel\": \"left\", \"maxVolts\": 4"))
                .join("ISO.lo HU.aux", "PLAYER.out HU.aux");

        assertThat(TOLD.finding(sideless).terminals()).contains("HU.aux");
    }

    @Test
    void acceptsWhatComesBackRoundALoopOfEffects() {
        TOLD.passes(sources()
                .inside(
                        "MIX",
                        "\"couples\": [" + couple("dry", "dryr", "out", "outr", "\"maxVolts\": 4") + ", "
                                + couple("wet", "wetr", "out", "outr", "\"maxVolts\": 4") + "]")
                .inside("FX", "\"couples\": [" + couple("in", "inr", "out", "outr", "\"maxVolts\": 4") + "]")
                .lead("FX", "out", facts(lineOut("right", "signal", "isolated")))
                .join("ISO.lo MIX.dry", "ISO.lor MIX.dryr", "MIX.out FX.in", "FX.out MIX.wet", "MIX.out HU.av-left"));
    }
}
