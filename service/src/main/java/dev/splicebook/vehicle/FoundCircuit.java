package dev.splicebook.vehicle;

import dev.splicebook.hookup.Names;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A circuit that a search found, and where.
 *
 * @param yearFrom first model year of the vehicle
 * @param yearTo last model year of the vehicle
 * @param name of the circuit in its map, like {@code C1-7}
 * @param connectorName what the connector is called
 * @param location where the connector is
 * @param position in the order of the map's circuits, from 0
 * @param document of the circuit, as JSON
 */
public record FoundCircuit(
        UUID vehicle,
        int revision,
        @Nullable String maker,
        @Nullable String model,
        @Nullable Integer yearFrom,
        @Nullable Integer yearTo,
        String name,
        @Nullable String connectorName,
        @Nullable String location,
        int position,
        String document) {

    /** The connector's ref; null for a circuit that has none. */
    public @Nullable String connector() {
        String connector = Names.connectorOf(name);
        return connector.isEmpty() ? null : connector;
    }

    /** The pin, or the whole name of a circuit without a connector. */
    public String pin() {
        return Names.pinOf(name);
    }
}
