package dev.splicebook.vehicle;

import dev.splicebook.hookup.FunctionMap;
import dev.splicebook.web.Caller;
import jakarta.persistence.Embeddable;
import jakarta.persistence.EmbeddedId;
import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.io.Serializable;
import java.time.Instant;
import java.util.List;
import java.util.Objects;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.hibernate.annotations.JdbcTypeCode;
import org.hibernate.type.SqlTypes;
import org.jspecify.annotations.Nullable;

/** One revision of a vehicle's map; never changes. */
@Entity
@Table(name = "vehicle_revisions")
class MapRevision {

    /** Which vehicle, which revision. */
    @Embeddable
    record Key(UUID vehicleId, int revision) implements Serializable {}

    @EmbeddedId
    private Key key;

    private UUID ownerFirm;
    private String document;
    private @Nullable String maker;
    private @Nullable String model;
    private @Nullable Integer yearFrom;
    private @Nullable Integer yearTo;
    private @Nullable String market;

    @JdbcTypeCode(SqlTypes.ARRAY)
    private String[] equipment;

    private int circuits;
    private String searchedText;
    private Instant createdAt;
    private UUID createdBy;

    /** For JPA. */
    @SuppressWarnings("NullAway.Init")
    protected MapRevision() {}

    MapRevision(MappedVehicle vehicle, int revision, FunctionMap map, String document, Caller by, Instant at) {
        this.key = new Key(vehicle.id(), revision);
        this.ownerFirm = vehicle.ownerFirm();
        this.document = document;
        this.maker = map.maker();
        this.model = map.model();
        if (map.modelYears() != null) {
            this.yearFrom = map.modelYears().from();
            this.yearTo = map.modelYears().to() == null
                    ? this.yearFrom
                    : map.modelYears().to();
        }
        this.market = map.market();
        this.equipment = map.equipment().toArray(String[]::new);
        this.circuits = map.circuits().size();
        this.searchedText = Stream.concat(
                        Stream.of(map.maker(), map.model(), map.market(), map.notes()), map.equipment().stream())
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

    Instant createdAt() {
        return createdAt;
    }

    @Override
    public String toString() {
        return "revision " + key + " of firm " + ownerFirm + " (" + maker + " " + model + " " + yearFrom + "-" + yearTo
                + ", "
                + market + ", " + List.of(equipment) + ", " + circuits + " circuits, searched by " + searchedText
                + "), by key " + createdBy;
    }
}
