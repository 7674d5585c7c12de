package dev.splicebook.hookup.rule;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Hookups;
import dev.splicebook.hookup.Report;
import dev.splicebook.hookup.Report.Result;
import dev.splicebook.hookup.Wiring;
import java.util.List;

/** What one rule says of a hookup. */
final class Told {

    private final String rule;

    private Told(String rule) {
        this.rule = rule;
    }

    static Told by(String rule) {
        return new Told(rule);
    }

    /** The one finding of the rule. */
    Finding finding(Wiring wiring) {
        return finding(wiring.check());
    }

    Finding finding(Report report) {
        List<Finding> findings = Hookups.findings(report, rule);
        assertThat(findings).as("findings of %s", rule).hasSize(1);
        return findings.get(0);
    }

    List<String> messages(Wiring wiring) {
        return Hookups.findings(wiring.check(), rule).stream()
                .map(Finding::message)
                .toList();
    }

    void passes(Wiring wiring) {
        Report report = wiring.check();
        assertThat(Hookups.findings(report, rule)).isEmpty();
        assertThat(Hookups.outcome(report, rule).result()).isEqualTo(Result.PASSED);
    }

    void doesNotApply(Wiring wiring) {
        assertThat(Hookups.outcome(wiring.check(), rule).result()).isEqualTo(Result.NOT_APPLICABLE);
    }

    /** Not checked, for want of just these facts. */
    void lacks(Wiring wiring, String... missing) {
        Report.Outcome outcome = Hookups.outcome(wiring.check(), rule);
        assertThat(outcome.result()).isEqualTo(Result.NOT_CHECKED);
        assertThat(outcome.missing()).containsExactlyInAnyOrder(missing);
    }

    /** Silent, because another rule tells it. */
    void leavesTo(String other, Wiring wiring) {
        Report report = wiring.check();
        assertThat(Hookups.findings(report, other)).as("findings of %s", other).isNotEmpty();
        assertThat(Hookups.findings(report, rule)).isEmpty();
    }
}
