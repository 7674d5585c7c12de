package dev.splicebook.hookup;

import dev.splicebook.web.StrictReader;
import java.nio.charset.StandardCharsets;
import java.util.List;

/** Hookups as tests write them: JSON in, report out. */
public final class Hookups {

    private static final Checker CHECKER = new Checker();

    private Hookups() {}

    public static Checker checker() {
        return CHECKER;
    }

    public static HookupDocument document(String json) {
        return StrictReader.read(json.getBytes(StandardCharsets.UTF_8), HookupDocument.class);
    }

    public static Hookup hookup(String json) {
        return Hookup.resolve(document(json));
    }

    public static Report check(String json) {
        return CHECKER.check(hookup(json));
    }

    /** The findings of one rule. */
    public static List<Finding> findings(Report report, String rule) {
        return report.findings().stream()
                .filter(finding -> finding.rule().equals(rule))
                .toList();
    }

    /** How one rule ended. */
    public static Report.Outcome outcome(Report report, String rule) {
        return report.outcomes().stream()
                .filter(outcome -> outcome.rule().equals(rule))
                .findFirst()
                .orElseThrow();
    }
}
