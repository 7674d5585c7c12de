package dev.splicebook.device;

import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.time.Instant;
import java.util.UUID;

/** A device of the catalogue: whose it is, its code, and which revision is the latest. */
@Entity
@Table(name = "devices")
class CatalogueDevice {

    @Id
    private UUID id;

    private UUID ownerFirm;
    private boolean shared;
    private String code;
    private int latestRevision;
    private Instant createdAt;

    /** For JPA. */
    @SuppressWarnings("NullAway.Init")
    protected CatalogueDevice() {}

    CatalogueDevice(UUID id, UUID ownerFirm, boolean shared, String code, Instant createdAt) {
        this.id = id;
        this.ownerFirm = ownerFirm;
        this.shared = shared;
        this.code = code;
        this.latestRevision = 1;
        this.createdAt = createdAt;
    }

    UUID id() {
        return id;
    }

    UUID ownerFirm() {
        return ownerFirm;
    }

    boolean isShared() {
        return shared;
    }

    String code() {
        return code;
    }

    int latestRevision() {
        return latestRevision;
    }

    @Override
    public String toString() {
        return "device " + code + " of firm " + ownerFirm + ", revision " + latestRevision + ", since " + createdAt;
    }
}
