package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonAnySetter;
import java.util.Map;
import tools.jackson.databind.JsonNode;

/**
 * A rule in a list.
 *
 * @param code what the rule finds, like {@code returns-tied}; never changes, and more may come
 * @param severity how bad it is
 * @param since the version that brought it
 * @param condition the bad condition, one sentence
 * @param more fields that this version does not know
 */
public record RuleSummary(
        String code,
        Severity severity,
        String since,
        String condition,
        @JsonAnySetter Map<String, JsonNode> more) {

    public RuleSummary {
        Require.text("code", code);
        Require.present("severity", severity);
        Require.present("since", since);
        Require.present("condition", condition);
        more = Require.mapOrEmpty(more);
    }
}
