package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonAnySetter;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/**
 * A revision of a vehicle's function map in a list.
 *
 * @param id of the vehicle, the same for all revisions
 * @param revision 1 or more
 * @param shared whether every firm may read it
 * @param createdAt when the revision was added
 * @param maker absent if the map does not say
 * @param model absent if the map does not say
 * @param yearFrom first model year; absent if the map does not say
 * @param yearTo last model year; absent if the map does not say
 * @param market absent if the map does not say
 * @param equipment what sets the variant apart, like {@code rear-entertainment}
 * @param circuits how many the map has; absent if the service does not say
 * @param more fields that this version does not know
 */
public record VehicleSummary(
        UUID id,
        int revision,
        boolean shared,
        Instant createdAt,
        @Nullable String maker,
        @Nullable String model,
        @Nullable Integer yearFrom,
        @Nullable Integer yearTo,
        @Nullable String market,
        List<String> equipment,
        @Nullable Integer circuits,
        @JsonAnySetter Map<String, JsonNode> more) {

    public VehicleSummary {
        Require.present("id", id);
        Require.present("createdAt", createdAt);
        equipment = Require.listOrEmpty(equipment);
        more = Require.mapOrEmpty(more);
    }
}
