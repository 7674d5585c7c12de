package dev.splicebook.shop;

import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.time.Instant;
import java.util.UUID;

/** One location of a firm. */
@Entity
@Table(name = "shops")
class Shop {

    @Id
    private UUID id;

    private UUID ownerFirm;
    private String name;
    private Instant createdAt;

    /** For JPA. */
    @SuppressWarnings("NullAway.Init")
    protected Shop() {}

    Shop(UUID id, Firm owner, String name, Instant createdAt) {
        this.id = id;
        this.ownerFirm = owner.id();
        this.name = name;
        this.createdAt = createdAt;
    }

    UUID id() {
        return id;
    }

    UUID ownerFirm() {
        return ownerFirm;
    }

    @Override
    public String toString() {
        return "shop " + id + " (" + name + " of firm " + ownerFirm + ", since " + createdAt + ")";
    }
}
