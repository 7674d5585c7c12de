package dev.splicebook.vehicle;

import jakarta.persistence.Embeddable;
import jakarta.persistence.EmbeddedId;
import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.io.Serializable;
import java.util.UUID;

/** How the VINs of one revision's vehicles may begin, as it is searched. */
@Entity
@Table(name = "vehicle_vin_patterns")
class VinPatternRow {

    /** Which pattern of which revision. */
    @Embeddable
    record Key(UUID vehicleId, int revision, String pattern) implements Serializable {}

    @EmbeddedId
    private Key key;

    private UUID ownerFirm;

    /** For JPA. */
    @SuppressWarnings("NullAway.Init")
    protected VinPatternRow() {}

    VinPatternRow(MappedVehicle vehicle, int revision, String pattern) {
        this.key = new Key(vehicle.id(), revision, pattern);
        this.ownerFirm = vehicle.ownerFirm();
    }

    @Override
    public String toString() {
        return key + " of firm " + ownerFirm;
    }
}
