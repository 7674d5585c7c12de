package dev.splicebook.device;

import dev.splicebook.hookup.Device;
import dev.splicebook.web.Caller;
import jakarta.persistence.Embeddable;
import jakarta.persistence.EmbeddedId;
import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.io.Serializable;
import java.time.Instant;
import java.util.Objects;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/** One revision of a device; never changes. */
@Entity
@Table(name = "device_revisions")
class DeviceRevision {

    /** Which device, which revision. */
    @Embeddable
    record Key(UUID deviceId, int revision) implements Serializable {}

    @EmbeddedId
    private Key key;

    private UUID ownerFirm;
    private String document;
    private @Nullable String maker;
    private @Nullable String name;
    private @Nullable String kind;
    private String searchedText;
    private Instant createdAt;
    private UUID createdBy;

    /** For JPA. */
    @SuppressWarnings("NullAway.Init")
    protected DeviceRevision() {}

    DeviceRevision(CatalogueDevice device, int revision, Device facts, String document, Caller by, Instant at) {
        this.key = new Key(device.id(), revision);
        this.ownerFirm = device.ownerFirm();
        this.document = document;
        this.maker = facts.maker();
        this.name = facts.name();
        this.kind = facts.kind();
        this.searchedText = Stream.of(device.code(), facts.maker(), facts.name(), facts.kind(), facts.notes())
                .filter(Objects::nonNull)
                .collect(Collectors.joining("\n"));
        this.createdAt = at;
        this.createdBy = by.key().value();
    }

    Key key() {
        return key;
    }

    String document() {
        return document;
    }

    @Nullable
    String maker() {
        return maker;
    }

    @Nullable
    String name() {
        return name;
    }

    @Nullable
    String kind() {
        return kind;
    }

    Instant createdAt() {
        return createdAt;
    }

    @Override
    public String toString() {
        return "revision " + key + " of firm " + ownerFirm + " (" + name + ", " + searchedText.length()
                + " characters searched), by key " + createdBy;
    }
}
