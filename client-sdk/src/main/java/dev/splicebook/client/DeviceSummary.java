package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonAnySetter;
import java.time.Instant;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/**
 * A revision of a device in a list.
 *
 * @param code by which hookups name it
 * @param revision 1 or more
 * @param shared whether every firm may read it
 * @param createdAt when the revision was added
 * @param maker absent if the device does not say
 * @param name absent if the device does not say
 * @param kind of product, like {@code amplifier}; absent if the device does not say
 * @param terminals how many it has; absent if the service does not say
 * @param more fields that this version does not know
 */
public record DeviceSummary(
        String code,
        int revision,
        boolean shared,
        Instant createdAt,
        @Nullable String maker,
        @Nullable String name,
        @Nullable String kind,
        @Nullable Integer terminals,
        @JsonAnySetter Map<String, JsonNode> more) {

    public DeviceSummary {
        Require.text("code", code);
        Require.present("createdAt", createdAt);
        more = Require.mapOrEmpty(more);
    }
}
