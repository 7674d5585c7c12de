package dev.splicebook.hookup.rule;

import static dev.splicebook.hookup.Wiring.audio;
import static dev.splicebook.hookup.Wiring.facts;
import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.DemoFiles;
import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Hookups;
import dev.splicebook.hookup.Report;
import dev.splicebook.hookup.Speakers;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.Wiring;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Ohm's law: four coils of 4 ohms come to 4 ohms as two strings, and to 1 ohm side by side. */
class LoadBelowRatingTest {

    private static final Told TOLD = Told.by("load-below-rating");

    private static Wiring parallel() {
        return Speakers.dual(Speakers.amplifier(), "SUB")
                .join("AMP.plus SUB.1-plus", "AMP.plus SUB.2-plus", "AMP.minus SUB.1-minus", "AMP.minus SUB.2-minus");
    }

    @Test
    void reportsMoreCoilsSideBySideThanTheOutputDrives() {
        Wiring three = Speakers.single(parallel(), "MORE").join("AMP.plus MORE.plus", "AMP.minus MORE.minus");

        Finding finding = TOLD.finding(three);

        assertThat(finding.message())
                .isEqualTo(
                        "the load of AMP.plus and AMP.minus is 1.3 Ω, below the 2.0 Ω that this output drives at least");
        Bench.assertFigures(finding, 4.0 / 3, 2, "Ω");
        assertThat(finding.terminals()).hasSize(8).contains("AMP.plus", "AMP.minus", "MORE.plus");
    }

    @Test
    void acceptsMoreThanTheLeastLoad() {
        TOLD.passes(Speakers.inSeries(Speakers.dual(Speakers.amplifier(), "SUB"), "SUB"));
    }

    @Test
    void acceptsTheLeastLoadItself() {
        TOLD.passes(parallel());
    }

    @Test
    void isSilentWhereNoLoudspeakerIsConnected() {
        TOLD.doesNotApply(Speakers.single(Speakers.amplifier(), "SUB"));
        TOLD.doesNotApply(Speakers.amplifier()
                .speakerInput("LOC", "plus", "minus", "subwoofer")
                .join("AMP.plus LOC.plus", "AMP.minus LOC.minus"));
    }

    @Test
    void isNotCheckedWhereTheLeastLoadIsUnknown() {
        TOLD.lacks(
                Speakers.single(Speakers.amplifier("\"drive\": \"floating\""), "SUB")
                        .join("AMP.plus SUB.plus", "AMP.minus SUB.minus"),
                "AMP.plus.minOhms");
    }

    @Test
    void isNotCheckedWhereItIsUnknownWhichEndsAreOneCoil() {
        Wiring strays = Speakers.resistor(
                Speakers.resistor(Speakers.dualUndeclared(Speakers.amplifier(), "SUB"), "R1", 8), "R2", 2);

        TOLD.lacks(
                strays.join("AMP.plus SUB.1-plus", "AMP.minus SUB.1-minus")
                        .join("AMP.plus R1.a", "R1.b SUB.2-plus", "AMP.minus R2.a", "R2.b SUB.2-minus"),
                "SUB.1-plus.coil",
                "SUB.1-minus.coil",
                "SUB.2-plus.coil",
                "SUB.2-minus.coil");
    }

    @Test
    void listsTheAssumptionWhereTheWiringToldCoilsApart() {
        Report report = Speakers.inSeries(Speakers.dualUndeclared(Speakers.amplifier(), "SUB"), "SUB")
                .check();

        assertThat(report.assumptions()).extracting(Report.Assumption::name).contains("coil");
    }

    @Test
    void namesTheStatesInWhichARelayAddsALoudspeaker() {
        Wiring switched = Speakers.single(parallel(), "MORE")
                .relayWhileRunning("K")
                .join("AMP.plus K.30", "K.87 MORE.plus", "AMP.minus MORE.minus");

        assertThat(TOLD.finding(switched).states()).containsExactly(State.RUNNING);
    }

    @Test
    void judgesByTheModeOfThePart() {
        String connections = """
                {"W1": {"ends": ["AMP.out-1-plus", "SUB.coil-1-plus"]}, "W2": {"ends": ["AMP.out-1-plus", "SUB.coil-2-plus"]},
                 "W3": {"ends": ["AMP.%1$s", "SUB.coil-1-minus"]}, "W4": {"ends": ["AMP.%1$s", "SUB.coil-2-minus"]}}""";
        String hookup =
                "{\"parts\": {\"AMP\": {\"device\": \"AMP-4\"%s}, \"SUB\": {\"device\": \"SUB-D4\"}}, \"connections\": %s}";

        TOLD.finding(check(hookup.formatted(", \"mode\": \"bridged\"", connections.formatted("out-2-minus"))));
        Report plain = check(hookup.formatted("", connections.formatted("out-1-minus")));
        assertThat(Hookups.findings(plain, "load-below-rating")).isEmpty();
    }

    @Test
    void tellsTheTwoBridgesOfAnAmplifierApartByTheCouplingsOfItsMode() {
        String hookup = """
                {"parts": {"AMP": {"device": "AMP-4", "mode": "bridged"}, "SUB1": {"device": "SUB-D4"}, "SUB2": {"device": "SUB-D4"}},
                 "connections": {
                   "W1": {"ends": ["AMP.out-1-plus", "SUB1.coil-1-plus"]}, "W2": {"ends": ["SUB1.coil-1-minus", "SUB1.coil-2-plus"]},
                   "W3": {"ends": ["SUB1.coil-2-minus", "AMP.%s"]},
                   "W4": {"ends": ["AMP.out-3-plus", "SUB2.coil-1-plus"]}, "W5": {"ends": ["SUB2.coil-1-minus", "SUB2.coil-2-plus"]},
                   "W6": {"ends": ["SUB2.coil-2-minus", "AMP.%s"]}}}""";

        Report right = check(hookup.formatted("out-2-minus", "out-4-minus"));
        assertThat(Hookups.findings(right, "pair-half-connected")).isEmpty();
        assertThat(right.speakerLoads())
                .extracting(load -> load.output())
                .containsExactlyInAnyOrder(
                        List.of("AMP.out-1-plus", "AMP.out-2-minus"), List.of("AMP.out-3-plus", "AMP.out-4-minus"));

        Report crossed = check(hookup.formatted("out-4-minus", "out-2-minus"));
        assertThat(Hookups.findings(crossed, "pair-half-connected")).isNotEmpty();
        assertThat(crossed.verdict()).isEqualTo(Report.Verdict.NOT_READY);
    }

    @Test
    void acceptsTwoDualSubwoofersInSeriesAndParallelOnABridgedAmplifier() {
        Report report = check(bridged("SUB2.coil-1-minus", "SUB2.coil-2-plus", "SUB2.coil-2-minus"));

        assertThat(report.findings())
                .extracting(Finding::rule)
                .doesNotContain(
                        "load-below-rating",
                        "polarity-reversed",
                        "coils-unequal",
                        "pair-half-connected",
                        "level-too-high");
        assertThat(report.speakerLoads()).hasSize(1).first().satisfies(load -> {
            assertThat(load.output()).containsExactly("AMP.out-1-plus", "AMP.out-2-minus");
            assertThat(load.ohms()).isCloseTo(4.0, org.assertj.core.api.Assertions.within(1e-9));
            assertThat(load.minOhms()).isEqualTo(4.0);
            assertThat(load.coils())
                    .hasSize(4)
                    .allMatch(coil -> coil.polarity() == Report.Polarity.RIGHT)
                    // 34.6 V over two coils of 4 ohms: 17.3 V, 74.8 W
                    .allSatisfy(coil ->
                            assertThat(coil.watts()).isCloseTo(74.8, org.assertj.core.api.Assertions.within(0.05)));
        });
    }

    @Test
    void judgesALoneResistorToo() {
        Wiring lone = Speakers.resistor(Speakers.amplifier("\"minOhms\": 2, \"drive\": \"floating\""), "R", 1.9)
                .join("AMP.plus R.a", "AMP.minus R.b");

        Finding finding = TOLD.finding(lone);
        assertThat(finding.message())
                .isEqualTo(
                        "the load of AMP.plus and AMP.minus is 1.9 Ω, below the 2.0 Ω that this output drives at least");
        assertThat(finding.terminals()).containsExactlyInAnyOrder("AMP.plus", "AMP.minus", "R.a", "R.b");
        TOLD.passes(Speakers.resistor(Speakers.amplifier("\"minOhms\": 2, \"drive\": \"floating\""), "R", 2)
                .join("AMP.plus R.a", "AMP.minus R.b"));
    }

    @Test
    void findsTheOneCoilOfFourThatIsTurnedRound() {
        Report report = check(bridged("SUB2.coil-1-minus", "SUB2.coil-2-minus", "SUB2.coil-2-plus"));

        Finding finding = Bench.only(report, "polarity-reversed");
        assertThat(finding.message())
                .isEqualTo("the coil at SUB2.coil-2-plus and SUB2.coil-2-minus is wired the wrong way round and works"
                        + " against the one at SUB2.coil-1-plus and SUB2.coil-1-minus");
        assertThat(report.findings()).extracting(Finding::rule).doesNotContain("load-below-rating");
        assertThat(report.speakerLoads().get(0).coils())
                .filteredOn(coil -> coil.polarity() == Report.Polarity.REVERSED)
                .extracting(coil -> coil.terminals().get(0))
                .containsExactly("SUB2.coil-2-plus");
    }

    private static String bridged(String joint, String next, String last) {
        return """
                {"parts": {"AMP": {"device": "AMP-4", "mode": "bridged"}, "SUB1": {"device": "SUB-D4"}, "SUB2": {"device": "SUB-D4"}},
                 "connections": {
                   "W1": {"ends": ["AMP.out-1-plus", "SUB1.coil-1-plus"]}, "W2": {"ends": ["SUB1.coil-1-minus", "SUB1.coil-2-plus"]},
                   "W3": {"ends": ["SUB1.coil-2-minus", "AMP.out-2-minus"]}, "W4": {"ends": ["AMP.out-1-plus", "SUB2.coil-1-plus"]},
                   "W5": {"ends": ["%s", "%s"]}, "W6": {"ends": ["%s", "AMP.out-2-minus"]}}}""".formatted(joint, next, last);
    }

    private static Report check(String json) {
        return Hookups.checker().check(DemoFiles.resolve(Hookups.document(json)));
    }

    @Test
    void takesASpeakerLevelInputForNoLoad() {
        TOLD.passes(parallel()
                .lead("LOC", "in", facts(audio("speaker-in", "subwoofer", "plus", "\"maxVolts\": 40")))
                .lead("LOC", "in-minus", facts(audio("speaker-in", "subwoofer", "minus", "\"maxVolts\": 40")))
                .inside(
                        "LOC",
                        "\"couples\": [" + Wiring.couple("in", "in-minus", "out", "back", "\"inputOhms\": 100") + "]")
                .join("AMP.plus LOC.in", "AMP.minus LOC.in-minus"));
    }
}
