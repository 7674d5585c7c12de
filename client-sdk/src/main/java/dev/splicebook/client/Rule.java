package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonAnySetter;
import java.util.List;
import java.util.Map;
import tools.jackson.databind.JsonNode;

/**
 * A rule's page.
 *
 * @param code what the rule finds, like {@code returns-tied}; never changes
 * @param severity how bad it is
 * @param since the version that brought it
 * @param condition the bad condition, one sentence
 * @param checks what it checks
 * @param why why it matters
 * @param mend what to do about it
 * @param source where the rule comes from
 * @param parameters the figures that it compares with
 * @param fails a hookup that it reports
 * @param passes the same hookup mended
 * @param more fields that this version does not know
 */
public record Rule(
        String code,
        Severity severity,
        String since,
        String condition,
        String checks,
        String why,
        String mend,
        String source,
        List<Parameter> parameters,
        Hookup fails,
        Hookup passes,
        @JsonAnySetter Map<String, JsonNode> more) {

    public Rule {
        Require.text("code", code);
        Require.present("severity", severity);
        Require.present("since", since);
        Require.present("condition", condition);
        Require.present("checks", checks);
        Require.present("why", why);
        Require.present("mend", mend);
        Require.present("source", source);
        parameters = Require.listOrEmpty(parameters);
        Require.present("fails", fails);
        Require.present("passes", passes);
        more = Require.mapOrEmpty(more);
    }

    /**
     * A figure that the rule compares with.
     *
     * @param name of the figure
     * @param value in {@code unit}
     * @param unit empty for a ratio
     * @param reason why it is this figure
     * @param least that a shop may set in its place
     * @param most that a shop may set in its place
     * @param more fields that this version does not know
     */
    public record Parameter(
            String name,
            double value,
            String unit,
            String reason,
            double least,
            double most,
            @JsonAnySetter Map<String, JsonNode> more) {

        public Parameter {
            Require.text("name", name);
            Require.present("unit", unit);
            Require.present("reason", reason);
            more = Require.mapOrEmpty(more);
        }
    }
}
