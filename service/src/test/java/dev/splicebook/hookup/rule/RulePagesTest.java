package dev.splicebook.hookup.rule;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Hookups;
import dev.splicebook.hookup.Report;
import dev.splicebook.hookup.Report.Result;
import dev.splicebook.hookup.RulePage;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/** Every rule has a page, an example that it reports, and the same example mended. */
class RulePagesTest {

    @TestFactory
    Stream<DynamicTest> reportsItsFailingExampleAlone() {
        return pages().map(page -> DynamicTest.dynamicTest(page.code(), () -> {
            Report report = Hookups.check(page.fails());
            assertThat(Hookups.findings(report, page.code()))
                    .as("findings of %s in its own example", page.code())
                    .hasSize(1);
            Set<String> grave = report.findings().stream()
                    .filter(finding -> finding.severity().compareTo(page.severity()) <= 0)
                    .map(finding -> finding.rule())
                    .collect(Collectors.toCollection(TreeSet::new));
            assertThat(grave)
                    .as("rules as grave that speak of the example of %s; one cause is one finding", page.code())
                    .containsExactly(page.code());
        }));
    }

    @TestFactory
    Stream<DynamicTest> acceptsItsMendedExample() {
        return pages().map(page -> DynamicTest.dynamicTest(page.code(), () -> {
            Report report = Hookups.check(page.passes());
            assertThat(Hookups.findings(report, page.code()))
                    .as("findings of %s in its mended example", page.code())
                    .isEmpty();
            assertThat(Hookups.outcome(report, page.code()).result())
                    .as("the mended example of %s has something to judge", page.code())
                    .isEqualTo(Result.PASSED);
            assertThat(report.findings())
                    .as("the mended example of %s is no other mistake", page.code())
                    .noneMatch(finding -> finding.severity().compareTo(dev.splicebook.hookup.Severity.ERROR) <= 0);
        }));
    }

    @TestFactory
    Stream<DynamicTest> tellsTheInstallerWhatWhyAndHow() {
        return pages().map(page -> DynamicTest.dynamicTest(page.code(), () -> {
            for (String text : List.of(page.condition(), page.checks(), page.why(), page.mend(), page.source())) {
                assertThat(text).endsWith(".").doesNotContain("TODO").hasSizeGreaterThan(20);
            }
            assertThat(page.code()).matches("[a-z]+(-[a-z]+)*");
        }));
    }

    @Test
    void hasEveryRuleThatThisVersionPromises() {
        assertThat(pages().map(RulePage::code))
                .contains(
                        "supply-shorted-to-ground",
                        "supplies-tied",
                        "supply-overloaded",
                        "load-without-supply",
                        "load-without-ground",
                        "constant-load-on-switched-supply",
                        "switched-load-on-constant-supply",
                        "line-back-fed",
                        "fuse-missing",
                        "fuse-too-far",
                        "fuse-exceeds-conductor",
                        "fuse-below-load",
                        "control-overloaded",
                        "control-polarity-mismatch",
                        "control-never-active",
                        "control-always-active",
                        "coil-unclamped",
                        "interlock-defeated",
                        "setting-missing",
                        "outputs-tied",
                        "speaker-minus-grounded",
                        "returns-tied",
                        "level-too-high",
                        "polarity-reversed",
                        "channels-swapped",
                        "pair-half-connected",
                        "input-contended",
                        "airbag-circuit-touched",
                        "high-voltage-circuit-touched",
                        "bus-disturbed",
                        "cable-too-long",
                        "battery-sensor-bypassed",
                        "safety-sound-lost",
                        "entry-unverified",
                        "map-outdated",
                        "lead-unaccounted",
                        "live-lead-uncapped",
                        "wish-unmet",
                        "function-mismatched");
    }

    private static Stream<RulePage> pages() {
        return Hookups.checker().listPages().stream();
    }
}
