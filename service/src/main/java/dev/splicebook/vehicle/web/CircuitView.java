package dev.splicebook.vehicle.web;

import dev.splicebook.hookup.Circuit;
import dev.splicebook.vehicle.FoundCircuit;
import dev.splicebook.web.PageOf;
import dev.splicebook.web.StrictReader;
import io.swagger.v3.oas.annotations.media.Schema;
import java.nio.charset.StandardCharsets;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/**
 * A circuit that a search found, and where.
 *
 * @param name of the circuit in its map
 * @param connector absent for a circuit that has none
 * @param circuit exactly as it stands in the map
 */
record CircuitView(
        UUID vehicle,
        int revision,
        @Nullable String maker,
        @Nullable String model,
        @Nullable Integer yearFrom,
        @Nullable Integer yearTo,
        String name,
        @Nullable String connector,
        String pin,
        @Nullable String connectorName,
        @Nullable String location,
        @Schema(implementation = Circuit.class) JsonNode circuit) {

    static final String FUNCTION = "What the wire is for: this function and all below it.";
    static final String COLOUR = "What the wire wears, exactly.";
    static final String CONNECTOR = "The connector's name in the map, exactly.";
    static final String TEXT =
            "Words, each the beginning of one in the connector's name and location or the circuit's source,"
                    + " load end, test, note and what it carries, whatever the case.";

    static PageOf<CircuitView> of(PageOf<FoundCircuit> found) {
        return new PageOf<>(found.items().stream().map(CircuitView::of).toList(), found.next());
    }

    private static CircuitView of(FoundCircuit found) {
        return new CircuitView(
                found.vehicle(),
                found.revision(),
                found.maker(),
                found.model(),
                found.yearFrom(),
                found.yearTo(),
                found.name(),
                found.connector(),
                found.pin(),
                found.connectorName(),
                found.location(),
                StrictReader.parse(found.document().getBytes(StandardCharsets.UTF_8)));
    }
}
