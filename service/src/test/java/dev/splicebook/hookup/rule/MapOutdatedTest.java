package dev.splicebook.hookup.rule;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.DemoFiles;
import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Hookups;
import dev.splicebook.hookup.LatestRevisions;
import dev.splicebook.hookup.Report;
import dev.splicebook.hookup.Severity;
import java.util.Map;
import org.junit.jupiter.api.Test;

// common practice, no source
class MapOutdatedTest {

    private static final String RULE = "map-outdated";
    private static final String PIRROW = "e1f4b9c2-6d03-4a7e-9c58-2b8f71d0a603";

    @Test
    void reportsAnEarlierMap() {
        Finding finding = Bench.only(check(vehicle(2), "", new LatestRevisions(3, Map.of())), RULE);

        assertThat(finding.message())
                .isEqualTo("the hookup takes revision 2 of the vehicle's map, and revision 3 is the latest");
        assertThat(finding.severity()).isEqualTo(Severity.WARNING);
        Bench.assertFigures(finding, 2, 3, "revision");
    }

    @Test
    void acceptsTheLatestMap() {
        Bench.assertPassed(check(vehicle(3), "", new LatestRevisions(3, Map.of())), RULE);
    }

    @Test
    void tellsADeviceOnceHoweverManyPartsItIs() {
        String parts = "'K1': {'device': 'REL-30', 'revision': 1}, 'K2': {'device': 'REL-30', 'revision': 1}";
        Finding finding = Bench.only(check("", parts, new LatestRevisions(null, Map.of("K1", 2, "K2", 2))), RULE);
        assertThat(finding.message())
                .isEqualTo(
                        "the hookup takes revision 1 of the device REL-30 for K1 and K2, and revision 2 is the latest");
    }

    @Test
    void doesNotApplyWhereNoRevisionIsNamedOrNobodyKnowsTheLatest() {
        String latest = "'vehicle': {'id': '" + PIRROW + "'}";
        Bench.assertNotApplicable(check(latest, "", new LatestRevisions(3, Map.of())), RULE);
        Bench.assertNotApplicable(check(vehicle(1), "", LatestRevisions.UNKNOWN), RULE);
    }

    @Test
    void isNotCheckedWhereOneOfSeveralIsUnknown() {
        Bench.assertNotChecked(
                check("", "'K1': {'device': 'REL-30', 'revision': 1}", new LatestRevisions(4, Map.of())),
                RULE,
                "K1.latestRevision");
    }

    private static String vehicle(int revision) {
        return "'vehicle': {'id': '" + PIRROW + "', 'revision': " + revision + "}";
    }

    private static Report check(String vehicle, String parts, LatestRevisions latest) {
        String json = "{" + vehicle + (vehicle.isEmpty() ? "" : ", ") + "'parts': {" + parts + "}}";
        return Hookups.checker()
                .check(DemoFiles.resolve(Hookups.document(json.replace('\'', '"')))
                        .with(latest));
    }
}
