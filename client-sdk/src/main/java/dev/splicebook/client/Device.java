package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonAnySetter;
import java.time.Instant;
import java.util.Map;
import tools.jackson.databind.JsonNode;

/**
 * A revision of a device of the catalogue.
 *
 * @param code by which hookups name it
 * @param revision of the document, 1 or more
 * @param latestRevision the latest there is, the same as {@code revision} or later
 * @param shared whether every firm may read it
 * @param createdAt when the revision was added
 * @param document the device, as it was sent
 * @param more fields that this version does not know
 */
public record Device(
        String code,
        int revision,
        int latestRevision,
        boolean shared,
        Instant createdAt,
        Document document,
        @JsonAnySetter Map<String, JsonNode> more) {

    public Device {
        Require.text("code", code);
        Require.present("createdAt", createdAt);
        Require.present("document", document);
        more = Require.mapOrEmpty(more);
    }
}
