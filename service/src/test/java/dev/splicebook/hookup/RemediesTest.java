package dev.splicebook.hookup;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.web.StrictReader;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/** What is offered as a remedy is applied to the document as it was sent, by other code, and checked again. */
class RemediesTest {

    private static final Mending MENDING = new Mending();

    @Test
    void mendsTheExampleOfEveryRuleThatAChangeCanMend() {
        Map<String, Integer> remedies = new TreeMap<>();
        for (RulePage page : Hookups.checker().listPages()) {
            int found = assertRemediesHold(page.fails(), page.code());
            remedies.put(page.code(), found);
        }
        System.out.println(remedies);
    }

    private static int assertRemediesHold(String json, String rule) {
        JsonNode sent = StrictReader.parse(json.getBytes(StandardCharsets.UTF_8));
        Hookup hookup = DemoFiles.resolve(StrictReader.shape(sent, HookupDocument.class));
        Report report = Hookups.checker().check(hookup);
        int found = 0;
        for (Finding finding : MENDING.remedy(hookup, report, MendingTest.means(Mending.FOR_REMEDIES))
                .report()
                .findings()) {
            assertThat(finding.remedies()).hasSizeLessThanOrEqualTo(3);
            for (Remedy remedy : finding.remedies()) {
                Report after = Hookups.checker()
                        .check(DemoFiles.resolve(
                                StrictReader.shape(JsonPatch.apply(sent, remedy.patch()), HookupDocument.class)));
                assertHolds(finding, remedy, report, after);
                found += finding.rule().equals(rule) ? 1 : 0;
                System.out.println(rule + " / " + finding.rule() + ": " + remedy.what()+" "+remedy.adds());
            }
        }
        return found;
    }

    static void assertHolds(Finding finding, Remedy remedy, Report before, Report after) {
        assertThat(remedy.removes()).as(remedy.what()).contains(finding.fingerprint());
        assertThat(count(after, Finding::fingerprint).getOrDefault(finding.fingerprint(), 0L))
                .as("%s: %s", finding.message(), remedy.what())
                .isLessThan(count(before, Finding::fingerprint).get(finding.fingerprint()));
        count(after, one -> one.severity().compareTo(Severity.ERROR) <= 0 ? one.rule() : "")
                .forEach((rule, now) -> assertThat(rule.isEmpty() ? 0 : now)
                        .as("findings of %s after: %s", rule, remedy.what())
                        .isLessThanOrEqualTo(count(before, Finding::rule).getOrDefault(rule, 0L)));
    }

    private static Map<String, Long> count(Report report, Function<Finding, String> by) {
        return report.findings().stream().collect(Collectors.groupingBy(by, Collectors.counting()));
    }
}
