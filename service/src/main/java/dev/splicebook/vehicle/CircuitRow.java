package dev.splicebook.vehicle;

import dev.splicebook.hookup.Circuit;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Names;
import jakarta.persistence.Embeddable;
import jakarta.persistence.EmbeddedId;
import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.io.Serializable;
import java.util.UUID;
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

    /** For JPA. */
    @SuppressWarnings("NullAway.Init")
    protected CircuitRow() {}

    CircuitRow(MappedVehicle vehicle, int revision, String name, Circuit circuit) {
        this.key = new Key(vehicle.id(), revision, Names.connectorOf(name), Names.pinOf(name));
        this.ownerFirm = vehicle.ownerFirm();
        this.function = circuit.function() == null ? null : circuit.function().value();
        this.colour = circuit.colour() == null ? null : circuit.colour().value();
        this.kindPlugged = kindOf(circuit.factsWhen(true));
        this.kindUnplugged = kindOf(circuit.factsWhen(false));
    }

    @Override
    public String toString() {
        return key + " of firm " + ownerFirm + ": " + function + ", " + colour + ", " + kindPlugged + ", "
                + kindUnplugged;
    }

    private static @Nullable String kindOf(@Nullable Electrical facts) {
        return facts == null ? null : facts.kind();
    }
}
