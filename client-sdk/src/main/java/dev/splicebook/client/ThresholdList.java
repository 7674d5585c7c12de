package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonAnySetter;
import java.util.List;
import java.util.Map;
import tools.jackson.databind.JsonNode;

/**
 * Every figure that a firm may set, as it is in force.
 *
 * @param revision grows with each change; 1 where nothing was set yet
 * @param items by rule and name
 * @param more fields that this version does not know
 */
public record ThresholdList(
        int revision, List<Threshold> items, @JsonAnySetter Map<String, JsonNode> more) {

    public ThresholdList {
        items = Require.listOrEmpty(items);
        more = Require.mapOrEmpty(more);
    }
}
