package dev.splicebook.hookup.rule;

import static dev.splicebook.hookup.Wiring.audio;
import static dev.splicebook.hookup.Wiring.couple;
import static dev.splicebook.hookup.Wiring.facts;
import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.Wiring;
import org.junit.jupiter.api.Test;

class GroundLoopTest {

    private static final Told TOLD = Told.by("ground-loop");
    private static final String GROUND = facts("\"kind\": \"ground\"");

    /** A head unit and an amplifier with returns of these kinds, the head unit grounded at a pin of its harness. */
    private static Wiring pair(String output, String input, String... pairs) {
        return new Wiring()
                .car("C1-8", GROUND)
                .lead("HU", "ground", GROUND)
                .lead("AMP", "ground", GROUND)
                .lead("HU", "out", facts(line("line-out", "signal", output)))
                .lead("HU", "out-return", facts(line("line-out", "return", output)))
                .lead("AMP", "in", facts(line("line-in", "signal", input)))
                .lead("AMP", "in-return", facts(line("line-in", "return", input)))
                .join("HU.ground CAR.C1-8")
                .join(pairs);
    }

    private static String line(String kind, String side, String returns) {
        return audio(
                kind, "left", side, "\"maxVolts\": 2" + (returns.isEmpty() ? "" : ", \"return\": \"" + returns + "\""));
    }

    private static Wiring straight(String output, String input) {
        return pair(output, input, "HU.out AMP.in", "HU.out-return AMP.in-return");
    }

    @Test
    void reportsAReturnBetweenTwoGroundPoints() {
        Finding finding = TOLD.finding(straight("chassis", "chassis").join("AMP.ground CAR.chassis"));

        assertThat(finding.message())
                .isEqualTo(
                        "HU.out-return and AMP.in-return are returns that are chassis at both ends: HU is grounded at CAR.C1-8"
                                + " and AMP at CAR.chassis, and the volts between the two grounds drive a current"
                                + " through the return, which is heard as hum");
        assertThat(finding.terminals())
                .containsExactlyInAnyOrder("HU.out-return", "AMP.in-return", "CAR.C1-8", "CAR.chassis");
    }

    @Test
    void acceptsOneGroundPointForBoth() {
        TOLD.passes(straight("chassis", "chassis").join("AMP.ground CAR.C1-8"));
        TOLD.passes(straight("chassis", "chassis").join("AMP.ground HU.ground"));
    }

    @Test
    void acceptsADifferentialOrIsolatedEnd() {
        for (String input : new String[] {"differential", "isolated"}) {
            TOLD.passes(straight("chassis", input).join("AMP.ground CAR.chassis"));
        }
        TOLD.passes(straight("isolated", "chassis").join("AMP.ground CAR.chassis"));
    }

    @Test
    void acceptsAnIsolatorBetween() {
        TOLD.doesNotApply(pair(
                        "chassis",
                        "chassis",
                        "HU.out ISO.in",
                        "HU.out-return ISO.back",
                        "ISO.out AMP.in",
                        "ISO.out-return AMP.in-return",
                        "AMP.ground CAR.chassis")
                .inside("ISO", "\"couples\": [" + couple("in", "back", "out", "out-return", "\"maxVolts\": 5") + "]"));
    }

    @Test
    void reportsAFactoryUnitsReturnAtAnAmplifierOnTheBody() {
        Wiring factory = new Wiring()
                .car("C2-1", facts(line("line-out", "signal", "chassis")))
                .car("C2-2", facts(line("line-out", "return", "chassis")))
                .lead("AMP", "ground", GROUND)
                .lead("AMP", "in", facts(line("line-in", "signal", "chassis")))
                .lead("AMP", "in-return", facts(line("line-in", "return", "chassis")))
                .join("CAR.C2-1 AMP.in", "CAR.C2-2 AMP.in-return", "AMP.ground CAR.chassis");

        assertThat(TOLD.finding(factory).message()).contains("CAR is grounded at the factory unit's own ground");
    }

    @Test
    void reportsTwoChannelsOfOnePairOfPartsOnce() {
        Wiring stereo = straight("chassis", "chassis")
                .join("AMP.ground CAR.chassis")
                .lead("HU", "right-return", facts(audio("line-out", "right", "return", "\"return\": \"chassis\"")))
                .lead("AMP", "right-return", facts(audio("line-in", "right", "return", "\"return\": \"chassis\"")))
                .join("HU.right-return AMP.right-return");

        assertThat(TOLD.finding(stereo).terminals()).contains("HU.out-return", "HU.right-return");
    }

    @Test
    void namesTheStatesInWhichARelayClosesTheReturn() {
        Wiring switched = pair("chassis", "chassis", "HU.out AMP.in", "AMP.ground CAR.chassis")
                .relayWhileRunning("K")
                .join("HU.out-return K.30", "K.87 AMP.in-return");

        assertThat(TOLD.finding(switched).states()).containsExactly(State.RUNNING);
    }

    @Test
    void isSilentWhereAPartIsNotGroundedOrNoReturnsMeet() {
        TOLD.passes(straight("chassis", "chassis"));
        TOLD.doesNotApply(pair("chassis", "chassis", "HU.out AMP.in", "AMP.ground CAR.chassis"));
    }

    @Test
    void isNotCheckedWhereAReturnIsUnknown() {
        TOLD.lacks(straight("chassis", "").join("AMP.ground CAR.chassis"), "AMP.in-return.return");
        TOLD.lacks(straight("", "chassis").join("AMP.ground CAR.chassis"), "HU.out-return.return");
    }
}
