package dev.splicebook.hookup;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.web.JsonWriting;
import dev.splicebook.web.StrictReader;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;

/**
 * What is offered as a remedy is applied to the document as it was sent, by code that knows nothing of changes, and checked
 * again.
 */
class RemediesTest {

    private static final Mending MENDING = new Mending();

    @Test
    void mendsTheExamplesOfTheRules() {
        Map<String, Integer> found = new TreeMap<>();
        for (RulePage page : Hookups.checker().listPages()) {
            found.put(
                    page.code(),
                    assertRemediesHold(StrictReader.parse(page.fails().getBytes(StandardCharsets.UTF_8)))
                            .getOrDefault(page.code(), 0));
        }
        // those of which the example holds nothing else to connect to have none
        assertThat(found.entrySet().stream()
                        .filter(entry -> entry.getValue() > 0)
                        .map(Map.Entry::getKey))
                .contains(
                        "airbag-circuit-touched",
                        "constant-load-on-switched-supply",
                        "fuse-below-load",
                        "fuse-exceeds-conductor",
                        "fuse-missing",
                        "high-voltage-circuit-touched",
                        "input-contended",
                        "lead-unaccounted",
                        "live-lead-uncapped",
                        "load-without-ground",
                        "outputs-tied",
                        "polarity-reversed",
                        "relay-restless",
                        "returns-tied",
                        "speaker-minus-grounded",
                        "supplies-tied",
                        "supply-overloaded",
                        "supply-shorted-to-ground");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "rear-entertainment/check-3-ready",
                "amplifier-and-subwoofers/check-2-ready",
                "rear-entertainment/check-1-first-draft",
                "amplifier-and-subwoofers/check-1-first-draft"
            })
    void mendsRandomBreakagesOfTheJobs(String job) {
        Random random = new Random(20_250);
        HookupDocument whole = DemoFiles.example(job).document();
        int offered = 0;
        for (int round = 0; round < 25; round++) {
            JsonNode broken = StrictReader.parse(JsonWriting.mapper().writeValueAsBytes(broken(whole, random)));
            offered += assertRemediesHold(broken).values().stream()
                    .mapToInt(Integer::intValue)
                    .sum();
        }
        assertThat(offered).as("remedies over 25 breakages").isGreaterThan(25);
    }

    /** Two ends exchanged, or a connection left out, or joined to what it has nothing to do with. */
    private static HookupDocument broken(HookupDocument whole, Random random) {
        Map<String, Connection> connections = new TreeMap<>(whole.connections());
        List<String> refs = new ArrayList<>(connections.keySet());
        String one = refs.get(random.nextInt(refs.size()));
        String other = refs.get(random.nextInt(refs.size()));
        Connection a = Objects.requireNonNull(connections.get(one));
        Connection b = Objects.requireNonNull(connections.get(other));
        switch (random.nextInt(3)) {
            case 0 -> connections.remove(one);
            case 1 -> {
                if (!b.ends().contains(a.ends().get(0))
                        && !a.ends().contains(b.ends().get(0))) {
                    connections.put(
                            one, Edits.withEnds(a, b.ends().get(0), a.ends().get(1)));
                    connections.put(
                            other, Edits.withEnds(b, a.ends().get(0), b.ends().get(1)));
                }
            }
            default -> {
                if (!a.ends().get(0).equals(b.ends().get(1))) {
                    connections.put(
                            "X1", Edits.connection(a.ends().get(0), b.ends().get(1), "18 AWG"));
                }
            }
        }
        return new HookupDocument(
                whole.vehicle(),
                whole.parts(),
                connections,
                whole.plugs(),
                whole.unused(),
                whole.settings(),
                whole.wishes());
    }

    /** How many remedies were found by rule. */
    private static Map<String, Integer> assertRemediesHold(JsonNode sent) {
        Hookup hookup = DemoFiles.resolve(StrictReader.shape(sent, HookupDocument.class));
        Report report = Hookups.checker().check(hookup);
        Map<String, Integer> found = new TreeMap<>();
        for (Finding finding : MENDING.remedy(hookup, report, MendingTest.means(MendingTest.STOCK))
                .report()
                .findings()) {
            List<Remedy> remedies = Objects.requireNonNull(finding.remedies());
            assertThat(remedies).hasSizeLessThanOrEqualTo(3);
            for (Remedy remedy : remedies) {
                HookupDocument changed =
                        StrictReader.shape(JsonPatch.apply(sent, remedy.patch()), HookupDocument.class);
                assertHolds(finding, remedy, report, Hookups.checker().check(DemoFiles.resolve(changed)));
                assertThat(remedy.adds().stream().map(Remedy.Added::part).filter(part -> part != null))
                        .containsExactlyInAnyOrderElementsOf(without(
                                changed.parts().keySet(),
                                hookup.document().parts().keySet()));
                found.merge(finding.rule(), 1, Integer::sum);
            }
        }
        return found;
    }

    private static Set<String> without(Iterable<String> all, Iterable<String> some) {
        Set<String> left = new TreeSet<>();
        all.forEach(left::add);
        some.forEach(left::remove);
        return left;
    }

    private static void assertHolds(Finding finding, Remedy remedy, Report before, Report after) {
        String what = finding.message() + " / " + remedy.what();
        assertThat(remedy.what()).matches("[A-Z].*[.]");
        assertThat(remedy.removes()).as(what).contains(finding.fingerprint());
        assertThat(count(after, Finding::fingerprint).getOrDefault(finding.fingerprint(), 0L))
                .as(what)
                .isLessThan(count(before, Finding::fingerprint).get(finding.fingerprint()));
        Map<String, Long> graveBefore = count(before, RemediesTest::grave);
        Map<String, Long> graveAfter = count(after, RemediesTest::grave);
        graveAfter.remove("");
        graveAfter.forEach((grave, now) -> assertThat(now)
                .as("findings %s after: %s", grave, what)
                .isLessThanOrEqualTo(graveBefore.getOrDefault(grave, 0L)));
        Map<String, Long> ofRule = count(after, Finding::rule);
        assertThat(ofRule.getOrDefault(finding.rule(), 0L))
                .as(what)
                .isLessThan(count(before, Finding::rule).get(finding.rule()));
    }

    /** The rule and the terminals of an error or a danger. */
    private static String grave(Finding finding) {
        return finding.severity().compareTo(Severity.ERROR) <= 0
                ? finding.rule() + new TreeSet<>(finding.terminals())
                : "";
    }

    private static Map<String, Long> count(Report report, Function<Finding, String> by) {
        return report.findings().stream().collect(Collectors.groupingBy(by, TreeMap::new, Collectors.counting()));
    }
}
