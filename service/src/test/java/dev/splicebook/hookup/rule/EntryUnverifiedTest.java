package dev.splicebook.hookup.rule;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Hookups;
import dev.splicebook.hookup.Report;
import dev.splicebook.hookup.Severity;
import org.junit.jupiter.api.Test;

// common practice, no source
class EntryUnverifiedTest {

    private static final String RULE = "entry-unverified";

    @Test
    void reportsEveryUnprovedEntryInOneNote() {
        Report report =
                check("", "", "'W1': {'ends': ['CAR.C1-4', 'HU.ground']}, 'W2': {'ends': ['CAR.C1-5', 'HU.ground']}");

        Finding finding = Bench.only(report, RULE);
        assertThat(finding.message())
                .isEqualTo(
                        "CAR.C1-4 and CAR.C1-5 are used as the map has them, and nobody is known to have proved those"
                                + " entries on a vehicle");
        assertThat(finding.severity()).isEqualTo(Severity.NOTE);
        assertThat(finding.terminals()).containsExactlyInAnyOrder("CAR.C1-4", "CAR.C1-5");
        assertThat(report.verdict()).isEqualTo(Report.Verdict.READY);
    }

    @Test
    void acceptsEntriesThatWereProved() {
        Report report = check(
                ", 'verifiedOn': '2026-03-14'",
                ", 'verifiedOn': '2020-01-01'",
                "'W1': {'ends': ['CAR.C1-4', 'HU.ground']}, 'W2': {'ends': ['CAR.C1-5', 'HU.ground']}");
        Bench.assertPassed(report, RULE);
    }

    @Test
    void namesOnlyThoseThatLackIt() {
        Report report = check(
                ", 'verifiedOn': '2026-03-14'",
                "",
                "'W1': {'ends': ['CAR.C1-4', 'HU.ground']}, 'W2': {'ends': ['CAR.C1-5', 'HU.ground']}");
        assertThat(Bench.only(report, RULE).terminals()).containsExactly("CAR.C1-5");
    }

    @Test
    void doesNotApplyToCircuitsThatNothingUses() {
        Bench.assertNotApplicable(check("", "", "'W1': {'ends': ['CAR.chassis', 'HU.ground']}"), RULE);
    }

    @Test
    void countsAMatedPinWhoseLeadIsUsed() {
        String harness = "{'vehicle': {'inline': {'circuits': {'C1-4': {'electrical': {'kind': 'ground'}},"
                + " 'C1-5': {'electrical': {'kind': 'ground'}}}}}, 'parts': {'HAR': {'inline': {'terminals': {'C1-4': {},"
                + " 'C1-5': {}, 'black': {}}, 'conducts': [['C1-4', 'black']]}}},"
                + " 'plugs': [['CAR.C1', 'HAR.C1']]}";
        assertThat(Bench.only(Hookups.check(harness.replace('\'', '"')), RULE).terminals())
                .containsExactly("CAR.C1-4");
    }

    private static Report check(String first, String second, String connections) {
        return Hookups.check(("{'vehicle': {'inline': {'circuits': {'C1-4': {'electrical': {'kind': 'ground'}" + first
                        + "}, 'C1-5': {'electrical': {'kind': 'ground'}" + second + "}}}}, 'parts': {'HU': {'inline':"
                        + " {'terminals': {'ground': {'electrical': {'kind': 'ground'}}}}}}, 'connections': {"
                        + connections
                        + "}}")
                .replace('\'', '"'));
    }
}
