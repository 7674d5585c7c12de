package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonAnyGetter;
import com.fasterxml.jackson.annotation.JsonAnySetter;
import com.fasterxml.jackson.annotation.JsonInclude;
import java.time.LocalDate;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/**
 * Says that a finding is accepted as it is. It lapses by itself when a fact changes that the finding is of, and never
 * holds for a danger.
 *
 * @param fingerprint of the finding
 * @param author who answers for it
 * @param reason why
 * @param expiresOn the last day, in UTC, on which it holds; absent if it holds for good
 * @param more fields that this version does not know
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
public record Waiver(
        String fingerprint,
        String author,
        String reason,
        @Nullable LocalDate expiresOn,
        @JsonAnySetter @JsonAnyGetter Map<String, JsonNode> more) {

    public Waiver {
        Require.text("fingerprint", fingerprint);
        Require.text("author", author);
        Require.text("reason", reason);
        more = Require.mapOrEmpty(more);
    }

    /** A waiver that holds for good. */
    public static Waiver of(String fingerprint, String author, String reason) {
        return new Waiver(fingerprint, author, reason, null, Map.of());
    }

    /** The same through a last day. */
    public Waiver until(LocalDate lastDay) {
        return new Waiver(fingerprint, author, reason, Require.present("lastDay", lastDay), more);
    }
}
