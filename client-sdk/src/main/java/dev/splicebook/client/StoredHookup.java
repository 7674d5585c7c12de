package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonAnySetter;
import java.time.Instant;
import java.util.Map;
import java.util.UUID;
import tools.jackson.databind.JsonNode;

/**
 * A revision of a stored hookup.
 *
 * @param id of the hookup, the same for all revisions
 * @param revision of the document, 1 or more
 * @param latestRevision the latest there is, the same as {@code revision} or later
 * @param createdAt when the revision was added
 * @param document the hookup, as it was sent
 * @param more fields that this version does not know
 */
public record StoredHookup(
        UUID id,
        int revision,
        int latestRevision,
        Instant createdAt,
        Hookup document,
        @JsonAnySetter Map<String, JsonNode> more) {

    public StoredHookup {
        Require.present("id", id);
        Require.present("createdAt", createdAt);
        Require.present("document", document);
        more = Require.mapOrEmpty(more);
    }
}
