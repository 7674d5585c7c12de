package dev.splicebook.job.web;

import dev.splicebook.hookup.HookupDocument;
import dev.splicebook.job.StoredHookup;
import dev.splicebook.web.StrictReader;
import io.swagger.v3.oas.annotations.media.Schema;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.UUID;
import tools.jackson.databind.JsonNode;

/**
 * A revision of a stored hookup as it is answered.
 *
 * @param document what was sent
 */
record HookupView(
        UUID id,
        int revision,
        int latestRevision,
        Instant createdAt,
        @Schema(implementation = HookupDocument.class) JsonNode document) {

    static HookupView of(StoredHookup hookup) {
        return new HookupView(
                hookup.id(),
                hookup.revision(),
                hookup.latestRevision(),
                hookup.createdAt(),
                StrictReader.parse(hookup.document().getBytes(StandardCharsets.UTF_8)));
    }
}
