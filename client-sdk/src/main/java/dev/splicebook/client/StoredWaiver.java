package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonAnySetter;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/**
 * A waiver of a stored hookup.
 *
 * @param fingerprint of the finding
 * @param author who answers for it
 * @param reason why
 * @param expiresOn the last day, in UTC, on which it holds; absent if it holds for good
 * @param rule of what was found when it was given
 * @param message of what was found when it was given
 * @param createdAt when it was given
 * @param more fields that this version does not know
 */
public record StoredWaiver(
        String fingerprint,
        String author,
        String reason,
        @Nullable LocalDate expiresOn,
        String rule,
        String message,
        Instant createdAt,
        @JsonAnySetter Map<String, JsonNode> more) {

    public StoredWaiver {
        Require.text("fingerprint", fingerprint);
        Require.text("author", author);
        Require.text("reason", reason);
        Require.text("rule", rule);
        Require.text("message", message);
        Require.present("createdAt", createdAt);
        more = Require.mapOrEmpty(more);
    }
}
