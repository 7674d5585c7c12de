package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonAnySetter;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/**
 * A circuit of a vehicle in a list.
 *
 * @param vehicle whose it is
 * @param revision of the vehicle's map, 1 or more
 * @param maker of the vehicle; absent if the map does not say
 * @param model of the vehicle; absent if the map does not say
 * @param yearFrom first model year; absent if the map does not say
 * @param yearTo last model year; absent if the map does not say
 * @param name by which hookups name it behind {@code CAR.}, like {@code C1-7}
 * @param connector like {@code C1}; absent for {@code chassis}
 * @param pin like {@code 7}; absent for {@code chassis}
 * @param connectorName what the connector is called; absent if the map does not say
 * @param location where the connector is; absent if the map does not say
 * @param circuit all that the map says of it
 * @param more fields that this version does not know
 */
public record CircuitEntry(
        UUID vehicle,
        int revision,
        @Nullable String maker,
        @Nullable String model,
        @Nullable Integer yearFrom,
        @Nullable Integer yearTo,
        String name,
        @Nullable String connector,
        @Nullable String pin,
        @Nullable String connectorName,
        @Nullable String location,
        Document circuit,
        @JsonAnySetter Map<String, JsonNode> more) {

    public CircuitEntry {
        Require.present("vehicle", vehicle);
        Require.text("name", name);
        Require.present("circuit", circuit);
        more = Require.mapOrEmpty(more);
    }

    /** Its terminal in a hookup of its vehicle, like {@code CAR.C1-7}. */
    public String terminal() {
        return "CAR." + name;
    }

    /** What it is for, like {@code power.battery}; empty if the map does not say. */
    public Optional<String> function() {
        return circuit.findText("function");
    }

    /** The colour of its wire, like {@code YE/RD}; empty if the map does not say. */
    public Optional<String> colour() {
        return circuit.findText("colour");
    }
}
