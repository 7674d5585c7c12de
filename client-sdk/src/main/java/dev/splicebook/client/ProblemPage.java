package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonAnySetter;
import java.util.Map;
import tools.jackson.databind.JsonNode;

/**
 * The page of a kind of problem.
 *
 * @param code of the kind, like {@code bad-body}; never changes, and more may come
 * @param type where the page is at the service, like {@code /problems/bad-body}
 * @param title what is wrong, in general
 * @param status the HTTP status that it comes with
 * @param cause what causes it
 * @param mend what to do about it
 * @param example such a problem
 * @param more fields that this version does not know
 */
public record ProblemPage(
        String code,
        String type,
        String title,
        int status,
        String cause,
        String mend,
        Problem example,
        @JsonAnySetter Map<String, JsonNode> more) {

    public ProblemPage {
        Require.text("code", code);
        Require.text("type", type);
        Require.present("title", title);
        Require.present("cause", cause);
        Require.present("mend", mend);
        Require.present("example", example);
        more = Require.mapOrEmpty(more);
    }
}
