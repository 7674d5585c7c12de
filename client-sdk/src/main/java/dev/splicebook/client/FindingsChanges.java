package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonAnySetter;
import java.util.List;
import java.util.Map;
import tools.jackson.databind.JsonNode;

/**
 * What became of the findings from one revision of a stored hookup to another. A finding of which a fact has changed is
 * gone, and another has appeared.
 *
 * @param from the revision that is compared with; 0 for no findings
 * @param to the revision that is compared
 * @param appeared findings of {@code to} alone
 * @param gone findings of {@code from} alone
 * @param stayed findings of both
 * @param more fields that this version does not know
 */
public record FindingsChanges(
        int from,
        int to,
        List<Report.Finding> appeared,
        List<Report.Finding> gone,
        List<Report.Finding> stayed,
        @JsonAnySetter Map<String, JsonNode> more) {

    public FindingsChanges {
        appeared = Require.listOrEmpty(appeared);
        gone = Require.listOrEmpty(gone);
        stayed = Require.listOrEmpty(stayed);
        more = Require.mapOrEmpty(more);
    }
}
