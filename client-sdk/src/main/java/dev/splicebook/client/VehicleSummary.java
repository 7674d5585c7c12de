package dev.splicebook.client;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A revision of a vehicle's function map in a list.
 *
 * @param revision 1 or more
 * @param shared whether every firm may read it
 * @param createdAt when the revision was added
 * @param maker absent if the map does not say
 * @param model absent if the map does not say
 * @param yearFrom first model year; absent if the map does not say
 * @param yearTo last model year; absent if the map does not say
 */
public record VehicleSummary(
        UUID id,
        int revision,
        boolean shared,
        Instant createdAt,
        @Nullable String maker,
        @Nullable String model,
        @Nullable Integer yearFrom,
        @Nullable Integer yearTo) {

    public VehicleSummary {
        Require.present("id", id);
        Require.present("createdAt", createdAt);
    }
}
