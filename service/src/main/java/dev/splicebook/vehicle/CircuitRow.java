package dev.splicebook.vehicle;

import dev.splicebook.hookup.Circuit;
import dev.splicebook.hookup.Connector;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Names;
import jakarta.persistence.Embeddable;
import jakarta.persistence.EmbeddedId;
import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.io.Serializable;
import java.util.Objects;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/** One circuit of one revision, as it is searched. */
@Entity
@Table(name = "vehicle_circuits")
class CircuitRow {

    /** Which circuit of which revision; the connector is empty for the chassis. */
    @Embeddable
    record Key(UUID vehicleId, int revision, String connector, String pin) implements Serializable {}

    @EmbeddedId
    private Key key;

    private UUID ownerFirm;
    private @Nullable String function;
    private @Nullable String colour;
    private @Nullable String kindPlugged;
    private @Nullable String kindUnplugged;
    private int position;
    private @Nullable String connectorName;
    private @Nullable String location;
    private String document;
    private String searchedText;

    /** For JPA. */
    @SuppressWarnings("NullAway.Init")
    protected CircuitRow() {}

    /**
     * @param position in the order of the map's circuits, from 0
     * @param connector of the circuit, if the map lists it
     * @param document of the circuit, as JSON
     */
    CircuitRow(
            MappedVehicle vehicle,
            int revision,
            int position,
            String name,
            Circuit circuit,
            @Nullable Connector connector,
            String document) {
        this.key = new Key(vehicle.id(), revision, Names.connectorOf(name), Names.pinOf(name));
        this.ownerFirm = vehicle.ownerFirm();
        this.function = circuit.function() == null ? null : circuit.function().value();
        this.colour = circuit.colour() == null ? null : circuit.colour().value();
        this.kindPlugged = kindOf(circuit.factsWhen(true));
        this.kindUnplugged = kindOf(circuit.factsWhen(false));
        this.position = position;
        this.connectorName = connector == null ? null : connector.name();
        this.location = connector == null ? null : connector.location();
        this.document = document;
        this.searchedText = Stream.concat(
                        Stream.of(
                                connectorName,
                                location,
                                circuit.source(),
                                circuit.loadEnd(),
                                circuit.test(),
                                circuit.note()),
                        circuit.carries().stream())
                .filter(Objects::nonNull)
                .collect(Collectors.joining("\n"));
    }

    @Override
    public String toString() {
        return key + " of firm " + ownerFirm + " at " + position + ": " + function + ", " + colour + ", " + kindPlugged
                + ", " + kindUnplugged + ", " + document + ", searched by " + searchedText;
    }

    private static @Nullable String kindOf(@Nullable Electrical facts) {
        return facts == null ? null : facts.kind();
    }
}
