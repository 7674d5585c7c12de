package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonAnySetter;
import com.fasterxml.jackson.annotation.JsonIgnoreProperties;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/**
 * What would be stored. Everything was judged as if it were, and nothing is.
 *
 * @param document the function map or the device
 * @param circuits how many circuits a spreadsheet has; absent for anything else
 * @param connectors how many connectors a spreadsheet has; absent for anything else
 * @param more fields that this version does not know
 */
@JsonIgnoreProperties("dryRun")
public record DryRun(
        Document document,
        @Nullable Integer circuits,
        @Nullable Integer connectors,
        @JsonAnySetter Map<String, JsonNode> more) {

    public DryRun {
        Require.present("document", document);
        more = Require.mapOrEmpty(more);
    }
}
