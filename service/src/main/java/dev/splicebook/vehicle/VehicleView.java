package dev.splicebook.vehicle;

import dev.splicebook.hookup.FunctionMap;
import dev.splicebook.web.StrictReader;
import io.swagger.v3.oas.annotations.media.Schema;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.UUID;
import tools.jackson.databind.JsonNode;

/**
 * A revision of a vehicle's map as it is answered.
 *
 * @param document what was sent
 */
public record VehicleView(
        UUID id,
        int revision,
        int latestRevision,
        boolean shared,
        Instant createdAt,
        @Schema(implementation = FunctionMap.class) JsonNode document) {

    /** The answer for a revision of the book. */
    public static VehicleView of(StoredMap map) {
        return new VehicleView(
                map.id(),
                map.revision(),
                map.latestRevision(),
                map.shared(),
                map.createdAt(),
                StrictReader.parse(map.document().getBytes(StandardCharsets.UTF_8)));
    }
}
