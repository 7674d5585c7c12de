package dev.splicebook.shop;

import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.time.Instant;
import java.util.UUID;

/** A business that owns shops, and everything that they keep for themselves. */
@Entity
@Table(name = "firms")
class Firm {

    @Id
    private UUID id;

    private String name;
    private Instant createdAt;

    /** For JPA. */
    @SuppressWarnings("NullAway.Init")
    protected Firm() {}

    Firm(UUID id, String name, Instant createdAt) {
        this.id = id;
        this.name = name;
        this.createdAt = createdAt;
    }

    UUID id() {
        return id;
    }

    @Override
    public String toString() {
        return "firm " + id + " (" + name + ", since " + createdAt + ")";
    }
}
