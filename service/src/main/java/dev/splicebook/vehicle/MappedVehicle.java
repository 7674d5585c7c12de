package dev.splicebook.vehicle;

import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.time.Instant;
import java.util.UUID;

/** A vehicle of the book: whose it is, and which revision of its map is the latest. */
@Entity
@Table(name = "vehicles")
class MappedVehicle {

    @Id
    private UUID id;

    private UUID ownerFirm;
    private boolean shared;
    private int latestRevision;
    private Instant createdAt;

    /** For JPA. */
    @SuppressWarnings("NullAway.Init")
    protected MappedVehicle() {}

    MappedVehicle(UUID id, UUID ownerFirm, boolean shared, Instant createdAt) {
        this.id = id;
        this.ownerFirm = ownerFirm;
        this.shared = shared;
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

    int latestRevision() {
        return latestRevision;
    }

    @Override
    public String toString() {
        return "vehicle " + id + " of firm " + ownerFirm + ", revision " + latestRevision + ", since " + createdAt;
    }
}
