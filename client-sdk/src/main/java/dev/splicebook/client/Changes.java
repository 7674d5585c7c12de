package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonAnySetter;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/**
 * What differs between two revisions of a document, by what they mean: the order of fields, or 12.60 for 12.6, is no
 * change.
 *
 * @param from the revision that is compared with; 0 for an empty document
 * @param to the revision that is compared
 * @param changes in the order of the document; empty if both mean the same
 * @param more fields that this version does not know
 */
public record Changes(
        int from,
        int to,
        List<Change> changes,
        @JsonAnySetter Map<String, JsonNode> more) {

    public Changes {
        changes = Require.listOrEmpty(changes);
        more = Require.mapOrEmpty(more);
    }

    /**
     * One difference.
     *
     * @param op how it differs
     * @param pointer where, as a JSON pointer, like {@code /circuits/C1-7/colour}
     * @param was what stood there in {@code from}; absent if it was added
     * @param is what stands there in {@code to}; absent if it was removed
     * @param more fields that this version does not know
     */
    public record Change(
            ChangeKind op,
            String pointer,
            @Nullable JsonNode was,
            @Nullable JsonNode is,
            @JsonAnySetter Map<String, JsonNode> more) {

        public Change {
            Require.present("op", op);
            Require.present("pointer", pointer);
            more = Require.mapOrEmpty(more);
        }
    }
}
