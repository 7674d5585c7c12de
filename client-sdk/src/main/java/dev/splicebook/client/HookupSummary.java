package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonAnySetter;
import java.time.Instant;
import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/**
 * A revision of a stored hookup in a list.
 *
 * @param id of the hookup, the same for all revisions
 * @param revision 1 or more
 * @param createdAt when the revision was added
 * @param name what the shop calls the job; absent if it has no name
 * @param vehicle the vehicle of the book that it names; absent if it names none
 * @param verdict by the report made when the revision was added, and the waivers in force today
 * @param more fields that this version does not know
 */
public record HookupSummary(
        UUID id,
        int revision,
        Instant createdAt,
        @Nullable String name,
        @Nullable UUID vehicle,
        Verdict verdict,
        @JsonAnySetter Map<String, JsonNode> more) {

    public HookupSummary {
        Require.present("id", id);
        Require.present("createdAt", createdAt);
        Require.present("verdict", verdict);
        more = Require.mapOrEmpty(more);
    }
}
