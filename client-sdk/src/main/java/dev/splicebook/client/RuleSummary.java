package dev.splicebook.client;

/**
 * A rule in a list.
 *
 * @param code what the rule finds, like {@code returns-tied}; never changes, and more may come
 * @param since the version that brought it
 * @param condition the bad condition, one sentence
 */
public record RuleSummary(String code, Severity severity, String since, String condition) {

    public RuleSummary {
        Require.text("code", code);
        Require.present("severity", severity);
        Require.present("since", since);
        Require.present("condition", condition);
    }
}
