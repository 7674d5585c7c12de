package dev.splicebook.device;

import jakarta.persistence.Embeddable;
import jakarta.persistence.EmbeddedId;
import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.io.Serializable;
import java.util.UUID;

/** One accessory that one revision lists, as it is searched. */
@Entity
@Table(name = "device_accessories")
class AccessoryRow {

    /** Which accessory, by its code, of which revision. */
    @Embeddable
    record Key(UUID deviceId, int revision, String accessory) implements Serializable {}

    @EmbeddedId
    private Key key;

    private UUID ownerFirm;

    /** For JPA. */
    @SuppressWarnings("NullAway.Init")
    protected AccessoryRow() {}

    AccessoryRow(CatalogueDevice device, int revision, String accessory) {
        this.key = new Key(device.id(), revision, accessory);
        this.ownerFirm = device.ownerFirm();
    }

    @Override
    public String toString() {
        return key + " of firm " + ownerFirm;
    }
}
