package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonAnySetter;
import java.time.Instant;
import java.util.Map;
import tools.jackson.databind.JsonNode;

/**
 * A rule of the firm's own.
 *
 * @param code by which findings name it, beginning with {@code house-}
 * @param revision 1 or more
 * @param createdAt when the revision was added
 * @param document the rule, as it was sent
 * @param more fields that this version does not know
 */
public record HouseRule(
        String code,
        int revision,
        Instant createdAt,
        Document document,
        @JsonAnySetter Map<String, JsonNode> more) {

    public HouseRule {
        Require.text("code", code);
        Require.present("createdAt", createdAt);
        Require.present("document", document);
        more = Require.mapOrEmpty(more);
    }
}
