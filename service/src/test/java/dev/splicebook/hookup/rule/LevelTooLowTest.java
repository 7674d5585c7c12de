package dev.splicebook.hookup.rule;

import static dev.splicebook.hookup.Wiring.audio;
import static dev.splicebook.hookup.Wiring.couple;
import static dev.splicebook.hookup.Wiring.facts;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.Wiring;
import org.junit.jupiter.api.Test;

class LevelTooLowTest {

    private static final Told TOLD = Told.by("level-too-low");

    /** A line output of {@code volts} rms into an amplifier that needs 0.2 V; the pairs are all that is joined. */
    private static Wiring player(double volts, String more, String... pairs) {
        return pair(
                        pair(
                                new Wiring(),
                                "P",
                                "out",
                                "line-out",
                                "\"maxVolts\": " + volts + more + ", \"return\": \"isolated\""),
                        "AMP",
                        "in",
                        "line-in",
                        "\"minVolts\": 0.2, \"maxVolts\": 6, \"inputOhms\": 10000, \"return\": \"differential\"")
                .join(pairs);
    }

    private static Wiring pair(Wiring wiring, String part, String name, String kind, String more) {
        return wiring.lead(part, name, facts(audio(kind, "left", "signal", more)))
                .lead(part, name + "-return", facts(audio(kind, "left", "return", more)));
    }

    private static Wiring straight(double volts, String more) {
        return player(volts, more, "P.out AMP.in", "P.out-return AMP.in-return");
    }

    /** A divider of two resistors between the two. */
    private static Wiring divided(double seriesOhms, double shuntOhms) {
        return player(2, "", "P.out PAD.a", "P.out-return PAD.c", "PAD.b AMP.in", "PAD.c AMP.in-return")
                .inside(
                        "PAD",
                        "\"resistors\": [{\"between\": [\"a\", \"b\"], \"ohms\": " + seriesOhms
                                + "}, {\"between\": [\"b\", \"c\"], \"ohms\": " + shuntOhms + "}]");
    }

    @Test
    void reportsASourceThatGivesTooLittle() {
        Finding finding = TOLD.finding(straight(0.1, ""));

        assertThat(finding.message())
                .isEqualTo(
                        "P.out arrives at AMP.in with 0.10 V rms at most, below the 0.20 V that it needs for full output");
        Bench.assertFigures(finding, 0.1, 0.2, "V");
    }

    @Test
    void reportsAConverterThatTakesTooMuchAway() {
        Wiring converted = player(
                        2, "", "P.out C.in", "P.out-return C.back", "C.out AMP.in", "C.out-return AMP.in-return")
                .inside(
                        "C",
                        "\"couples\": [" + couple("in", "back", "out", "out-return", "\"gain\": 0.05, \"maxVolts\": 9")
                                + "]");

        Bench.assertFigures(TOLD.finding(converted), 0.1, 0.2, "V");
    }

    @Test
    void reportsADividerThatTakesTooMuchAwayWithTheInputBesideIt() {
        // 500 ohms and 10 kΩ side by side are 476.19 ohms
        double shunt = 500 * 10000.0 / 10500;
        Bench.assertFigures(TOLD.finding(divided(9500, 500)), 2 * shunt / (9500 + shunt), 0.2, "V");
        TOLD.passes(divided(9500, 5000));
    }

    @Test
    void countsTheLossInTheSourcesOwnImpedance() {
        // 0.21 V behind 1 kΩ at 10 kΩ are 0.1909 V
        Bench.assertFigures(TOLD.finding(straight(0.21, ", \"outputOhms\": 1000")), 0.21 * 10 / 11, 0.2, "V");
    }

    @Test
    void acceptsExactlyWhatTheInputNeeds() {
        TOLD.passes(straight(0.2, ""));
    }

    @Test
    void takesTheStrongestOfTwoThatAPartSums() {
        Wiring summed = pair(
                        player(
                                0.05,
                                "",
                                "P.out S.a",
                                "P.out-return S.a-return",
                                "S.out AMP.in",
                                "S.out-return AMP.in-return"),
                        "Q",
                        "out",
                        "line-out",
                        "\"maxVolts\": 1, \"return\": \"isolated\"")
                .inside(
                        "S",
                        "\"couples\": [" + couple("a", "a-return", "out", "out-return", "\"maxVolts\": 9") + ", "
                                + couple("b", "b-return", "out", "out-return", "\"maxVolts\": 9") + "]")
                .join("Q.out S.b", "Q.out-return S.b-return");

        TOLD.passes(summed);
    }

    @Test
    void namesTheStatesInWhichARelayPicksTheWeakSource() {
        Wiring picked = pair(player(0.05, ""), "Q", "out", "line-out", "\"maxVolts\": 1, \"return\": \"isolated\"")
                .relayWhileRunning("K")
                .relay("J")
                .join("CAR.R1-1 J.86", "CAR.chassis J.85", "K.30 AMP.in", "J.30 AMP.in-return")
                .join("P.out K.87", "P.out-return J.87", "Q.out K.87a", "Q.out-return J.87a");

        assertThat(TOLD.finding(picked).states()).containsExactly(State.RUNNING);
    }

    @Test
    void isSilentWhereNothingArrives() {
        TOLD.doesNotApply(player(0.1, ""));
    }

    @Test
    void isNotCheckedWhereALevelIsUnknown() {
        TOLD.lacks(
                pair(
                                pair(new Wiring(), "P", "out", "line-out", "\"return\": \"isolated\""),
                                "AMP",
                                "in",
                                "line-in",
                                "\"minVolts\": 0.2, \"maxVolts\": 2")
                        .join("P.out AMP.in", "P.out-return AMP.in-return"),
                "P.out.maxVolts");
        TOLD.lacks(
                pair(
                                pair(new Wiring(), "P", "out", "line-out", "\"maxVolts\": 1, \"return\": \"isolated\""),
                                "AMP",
                                "in",
                                "line-in",
                                "\"maxVolts\": 2")
                        .join("P.out AMP.in", "P.out-return AMP.in-return"),
                "AMP.in.minVolts");
    }

    @Test
    void dividesByAllInputsOfAnOutput() {
        // 4 V behind 200 Ω leave 3.64 V at one input of 2 kΩ, and 3.33 V at two side by side
        String input = "\"minVolts\": 3.5, \"maxVolts\": 6, \"inputOhms\": 2000";
        Wiring one = pair(
                        pair(
                                new Wiring(),
                                "P",
                                "out",
                                "line-out",
                                "\"maxVolts\": 4, \"outputOhms\": 200, \"return\": \"isolated\""),
                        "AMP",
                        "in",
                        "line-in",
                        input)
                .join("P.out AMP.in", "P.out-return AMP.in-return");
        TOLD.passes(one);
        Wiring two = pair(one, "SUB", "in", "line-in", "\"minVolts\": 1, \"maxVolts\": 6, \"inputOhms\": 2000")
                .join("P.out SUB.in", "P.out-return SUB.in-return");
        assertThat(TOLD.finding(two).measured()).isCloseTo(3.33, within(0.01));
    }
}
