package dev.splicebook.hookup;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Report.Outcome;
import dev.splicebook.hookup.Report.Result;
import dev.splicebook.hookup.Report.Step;
import dev.splicebook.hookup.Report.Verdict;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The two jobs of the examples, from their first drafts to what the bench can build. */
class JobsTest {

    private static final String REAR_DRAFT = "rear-entertainment/check-1-first-draft";
    private static final String REAR_LATE_ISOLATOR = "rear-entertainment/check-2-isolator-after-sleeve";
    private static final String REAR_READY = "rear-entertainment/check-3-ready";
    private static final String BASS_DRAFT = "amplifier-and-subwoofers/check-1-first-draft";
    private static final String BASS_READY = "amplifier-and-subwoofers/check-2-ready";

    @Test
    void findsTheReturnsThatMeetInOneSleeveAndTheGroundedParkingBrakeInput() {
        Report report = check(REAR_DRAFT);

        assertThat(report.verdict()).isEqualTo(Verdict.NOT_READY);
        assertThat(graveRules(report)).containsExactlyInAnyOrder("returns-tied", "interlock-defeated");
        assertThat(only(report, "returns-tied").terminals()).contains("CAR.C2-2", "CAR.C2-4");
        assertThat(only(report, "interlock-defeated").terminals()).contains("HU.parking-brake");
    }

    @Test
    void stillFindsTheReturnsTiedWithTheIsolatorBehindTheSleeve() {
        Report report = check(REAR_LATE_ISOLATOR);

        assertThat(report.verdict()).isEqualTo(Verdict.NOT_READY);
        assertThat(graveRules(report)).containsExactly("returns-tied");
        assertThat(only(report, "returns-tied").terminals()).containsExactlyInAnyOrder("CAR.C2-2", "CAR.C2-4");
    }

    @ParameterizedTest
    @ValueSource(strings = {REAR_READY, BASS_READY})
    void isReadyWithoutAFindingOrAnUncheckedErrorOnceMended(String job) {
        Report report = check(job);

        assertThat(report.findings()).isEmpty();
        assertThat(report.outcomes())
                .filteredOn(outcome -> outcome.result() == Result.NOT_CHECKED)
                .as("facts that the demo book lacks")
                .isEmpty();
        assertThat(report.verdict()).isEqualTo(Verdict.READY);
    }

    @Test
    void makesTheOddReversePairFirst() {
        for (String job : List.of(REAR_DRAFT, REAR_LATE_ISOLATOR, REAR_READY)) {
            Step first = check(job).order().get(0);

            assertThat(first.ends()).containsExactlyInAnyOrder("IFC.reverse", "HU.reverse");
            assertThat(first.why()).contains("BU/WH", "control.amplifier-on");
        }
    }

    @Test
    void makesTheEightSpeakerLeadsTogether() {
        List<Step> order = check(REAR_READY).order();
        List<Integer> places = java.util.stream.IntStream.range(0, order.size())
                .filter(at -> order.get(at).ends().stream().anyMatch(end -> end.matches("HU\\.(front|rear)-.*")))
                .boxed()
                .toList();

        assertThat(places).hasSize(8);
        assertThat(places.get(7) - places.get(0)).isEqualTo(7);
    }

    @Test
    void listsEveryConnectionOnceInTheOrder() {
        Hookup hookup = DemoFiles.example(REAR_READY);

        assertThat(Hookups.checker().check(hookup).order())
                .extracting(Step::connection)
                .containsExactlyInAnyOrderElementsOf(
                        hookup.document().connections().keySet());
    }

    @Test
    void missesEachSpareLeadThatTheListOfUnusedOnesForgets() {
        Hookup ready = DemoFiles.example(REAR_READY);
        List<String> spare = List.of(
                "HU.camera-signal",
                "HU.camera-return",
                "IFC.aux-left",
                "IFC.aux-right",
                "IFC.aux-return",
                "HU.subwoofer-2",
                "HU.subwoofer-2-return");
        assertThat(ready.document().unused()).containsKeys(spare.toArray(String[]::new));

        for (String lead : spare) {
            Map<String, Unused> unused = new TreeMap<>(ready.document().unused());
            unused.remove(lead);
            Report report =
                    Hookups.checker().check(Edits.of(ready).unused(unused).hookup());

            assertThat(report.findings()).extracting(Finding::rule).containsExactly("lead-unaccounted");
            assertThat(report.findings().get(0).terminals()).containsExactly(lead);
        }
    }

    @Test
    void asksForTheSettingOfTheInterface() {
        Report report = Hookups.checker()
                .check(Edits.of(DemoFiles.example(REAR_READY))
                        .settings(Map.of())
                        .hookup());

        assertThat(report.findings()).extracting(Finding::rule).containsExactly("setting-missing");
    }

    @Test
    void overloadsTheInterfaceWithoutTheRelay() {
        Edits edits = Edits.of(DemoFiles.example(REAR_READY));
        edits.connection("overload", Edits.connection("IFC.accessory", "USB.power", "16 AWG"));
        String fed = edits.connectionBetween("REL.87", "USB.power");
        edits.without(fed).unused("REL.87", Unused.Fate.CAPPED);

        Report report = Hookups.checker().check(edits.hookup());

        assertThat(graveRules(report)).containsExactly("supply-overloaded");
        Finding finding = only(report, "supply-overloaded");
        assertThat(finding.limit()).isEqualTo(1.0);
        assertThat(finding.terminals()).contains("IFC.accessory", "USB.power");
    }

    @Test
    void findsTheFiveMistakesOfTheFirstDraftWithOneFindingEach() {
        Report report = check(BASS_DRAFT);

        assertThat(report.verdict()).isEqualTo(Verdict.NOT_READY);
        assertThat(report.findings())
                .filteredOn(finding -> finding.severity().compareTo(Severity.WARNING) <= 0)
                .extracting(Finding::rule)
                .containsExactlyInAnyOrder(
                        "polarity-reversed",
                        "control-always-active",
                        "level-too-high",
                        "fuse-missing",
                        "speaker-minus-grounded");
        assertThat(only(report, "polarity-reversed").terminals())
                .containsExactlyInAnyOrder("CAR.A2-1", "CAR.A2-2", "LOC.in-left-plus", "LOC.in-left-minus");
        assertThat(only(report, "control-always-active").terminals())
                .containsExactlyInAnyOrder("AMP.remote", "CAR.FB-5");
        assertThat(only(report, "level-too-high").terminals()).containsExactlyInAnyOrder("CAR.A2-3", "AMP.in-right");
        assertThat(only(report, "fuse-missing").terminals()).containsExactlyInAnyOrder("CAR.battery-plus", "AMP.power");
        assertThat(only(report, "speaker-minus-grounded").terminals())
                .containsExactlyInAnyOrder("CAR.A2-4", "CAR.chassis");
    }

    @Test
    void turnsTheAmplifierOnBySignalAndListsThatAssumption() {
        assertThat(check(BASS_READY).assumptions())
                .extracting(Report.Assumption::name)
                .contains("playing", "ambientCelsius");
    }

    @Test
    void judgesWhatTheMendedJobsExercise() {
        assertThat(check(REAR_READY).outcomes())
                .filteredOn(outcome -> outcome.result() == Result.PASSED)
                .extracting(Outcome::rule)
                .contains("returns-tied", "interlock-defeated", "supply-overloaded", "wish-unmet", "setting-missing");
        assertThat(check(BASS_READY).outcomes())
                .filteredOn(outcome -> outcome.result() == Result.PASSED)
                .extracting(Outcome::rule)
                .contains("polarity-reversed", "level-too-high", "fuse-missing", "fuse-exceeds-conductor");
    }

    private static Report check(String example) {
        return Hookups.checker().check(DemoFiles.example(example));
    }

    private static List<String> graveRules(Report report) {
        return report.findings().stream()
                .filter(finding -> finding.severity().compareTo(Severity.ERROR) <= 0)
                .map(Finding::rule)
                .toList();
    }

    private static Finding only(Report report, String rule) {
        List<Finding> findings = Hookups.findings(report, rule);
        assertThat(findings).as("findings of %s", rule).hasSize(1);
        return findings.get(0);
    }
}
