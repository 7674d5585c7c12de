package dev.splicebook.vehicle;

import jakarta.persistence.Embeddable;
import jakarta.persistence.EmbeddedId;
import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.io.Serializable;
import java.util.UUID;

/** One housing that a connector of one revision mates by, as it is searched. */
@Entity
@Table(name = "vehicle_mates")
class VehicleMateRow {

    /** Which housing of which connector of which revision. */
    @Embeddable
    record Key(UUID vehicleId, int revision, String connector, String mate) implements Serializable {}

    @EmbeddedId
    private Key key;

    private UUID ownerFirm;

    /** For JPA. */
    @SuppressWarnings("NullAway.Init")
    protected VehicleMateRow() {}

    VehicleMateRow(MappedVehicle vehicle, int revision, String connector, String mate) {
        this.key = new Key(vehicle.id(), revision, connector, mate);
        this.ownerFirm = vehicle.ownerFirm();
    }

    @Override
    public String toString() {
        return key + " of firm " + ownerFirm;
    }
}
