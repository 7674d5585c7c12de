package dev.splicebook.vehicle;

import dev.splicebook.hookup.FunctionMap;
import dev.splicebook.web.Caller;
import dev.splicebook.web.ETags;
import dev.splicebook.web.PageOf;
import dev.splicebook.web.PageQuery;
import dev.splicebook.web.Positions;
import dev.splicebook.web.Problems;
import dev.splicebook.web.Sent;
import jakarta.persistence.EntityManager;
import jakarta.persistence.TypedQuery;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** The book of vehicles, as one firm sees it: its own and what others share. */
@Service
public class Book {

    private final Vehicles vehicles;
    private final MapRevisions revisions;
    private final EntityManager entities;

    Book(Vehicles vehicles, MapRevisions revisions, EntityManager entities) {
        this.vehicles = vehicles;
        this.revisions = revisions;
        this.entities = entities;
    }

    /** Adds a vehicle with the first revision of its map, for the caller's firm. */
    @Transactional
    public StoredMap create(Caller caller, Sent<FunctionMap> map) {
        return create(caller, UUID.randomUUID(), false, map);
    }

    /** Adds a vehicle under a given id. */
    @Transactional
    public StoredMap create(Caller caller, UUID id, boolean shared, Sent<FunctionMap> map) {
        Instant now = now();
        MappedVehicle vehicle = new MappedVehicle(id, caller.firm().value(), shared, now);
        entities.persist(vehicle);
        return add(vehicle, 1, caller, map, now);
    }

    /**
     * Adds a revision to a vehicle of the caller's firm.
     *
     * @param ifMatch tag of the latest revision
     * @throws dev.splicebook.web.ProblemException 404 for a vehicle that is absent or another firm's, 428 without a tag,
     *     412 if it is not the latest's
     */
    @Transactional
    public StoredMap addRevision(Caller caller, UUID id, @Nullable String ifMatch, Sent<FunctionMap> map) {
        MappedVehicle vehicle = vehicles.findVisible(id, caller.firm().value())
                .filter(found -> found.ownerFirm().equals(caller.firm().value()))
                .orElseThrow(() -> notFound(id));
        int latest = vehicle.latestRevision();
        ETags.requireMatch(ifMatch, latest);
        if (vehicles.advanceFrom(id, latest) == 0) {
            throw Problems.preconditionFailed(latest + 1);
        }
        return add(vehicle, latest + 1, caller, map, now());
    }

    /**
     * A revision of a vehicle that the caller may see.
     *
     * @param revision absent for the latest
     * @throws dev.splicebook.web.ProblemException 404 if there is none
     */
    @Transactional(readOnly = true)
    public StoredMap getMap(Caller caller, UUID id, @Nullable Integer revision) {
        StoredMap map = findMap(caller, id, revision).orElse(null);
        if (map == null) {
            throw revision == null ? notFound(id) : Problems.notFound("revision " + revision + " of vehicle " + id);
        }
        return map;
    }

    /** As {@link #getMap}, empty if there is none. */
    @Transactional(readOnly = true)
    public Optional<StoredMap> findMap(Caller caller, UUID id, @Nullable Integer revision) {
        return vehicles.findVisible(id, caller.firm().value())
                .flatMap(vehicle -> revisions
                        .findByKey(new MapRevision.Key(id, revision == null ? vehicle.latestRevision() : revision))
                        .map(found -> stored(vehicle, found, vehicle.latestRevision())));
    }

    /** Revisions of a vehicle, latest first. */
    @Transactional(readOnly = true)
    public PageOf<VehicleSummary> listRevisions(Caller caller, UUID id, PageQuery page) {
        MappedVehicle vehicle = vehicles.findVisible(id, caller.firm().value()).orElseThrow(() -> notFound(id));
        int below = vehicle.latestRevision() + 1;
        List<String> after = page.after().isEmpty() ? List.of() : page.after(1);
        if (!after.isEmpty()) {
            below = Positions.number(after.get(0));
        }
        TypedQuery<MapRevision> query = entities.createQuery(
                "select r from MapRevision r where r.key.vehicleId = :id and r.key.revision < :below"
                        + " order by r.key.revision desc",
                MapRevision.class);
        List<VehicleSummary> fetched = query.setParameter("id", id)
                .setParameter("below", below)
                .setMaxResults(page.limit() + 1)
                .getResultStream()
                .map(found -> summary(vehicle.isShared(), found))
                .toList();
        return PageOf.ofFetched(fetched, page.limit(), last -> List.of(Integer.toString(last.revision())));
    }

    /**
     * Vehicles that the caller may see, oldest first, by the latest revision of their map.
     *
     * @param maker what the maker's name starts with, whatever the case; absent for any
     * @param model what the model's name starts with, whatever the case; absent for any
     */
    @Transactional(readOnly = true)
    public PageOf<VehicleSummary> listVehicles(
            Caller caller, @Nullable String maker, @Nullable String model, PageQuery page) {
        List<String> after = page.after().isEmpty() ? List.of() : page.after(2);
        StringBuilder where = new StringBuilder("(v.ownerFirm = :firm or v.shared)");
        if (maker != null) {
            where.append(" and lower(r.maker) like :maker escape '!'");
        }
        if (model != null) {
            where.append(" and lower(r.model) like :model escape '!'");
        }
        if (!after.isEmpty()) {
            where.append(" and (v.createdAt > :at or (v.createdAt = :at and v.id > :id))");
        }
        TypedQuery<Object[]> query = entities.createQuery(
                "select v.shared, r, v.createdAt from MappedVehicle v join MapRevision r"
                        + " on r.key.vehicleId = v.id and r.key.revision = v.latestRevision where "
                        + where + " order by v.createdAt, v.id",
                Object[].class);
        query.setParameter("firm", caller.firm().value());
        if (maker != null) {
            query.setParameter("maker", Positions.startsWith(maker));
        }
        if (model != null) {
            query.setParameter("model", Positions.startsWith(model));
        }
        if (!after.isEmpty()) {
            query.setParameter("at", Positions.instant(after.get(0))).setParameter("id", Positions.uuid(after.get(1)));
        }
        List<Row> fetched = query.setMaxResults(page.limit() + 1)
                .getResultStream()
                .map(row -> new Row(summary((Boolean) row[0], (MapRevision) row[1]), (Instant) row[2]))
                .toList();
        PageOf<Row> rows = PageOf.ofFetched(
                fetched,
                page.limit(),
                last -> List.of(last.createdAt().toString(), last.summary().id().toString()));
        return new PageOf<>(rows.items().stream().map(Row::summary).toList(), rows.next());
    }

    private record Row(VehicleSummary summary, Instant createdAt) {}

    /**
     * A vehicle in a list.
     *
     * @param createdAt when the revision was added
     */
    public record VehicleSummary(
            UUID id,
            int revision,
            boolean shared,
            Instant createdAt,
            @Nullable String maker,
            @Nullable String model,
            @Nullable Integer yearFrom,
            @Nullable Integer yearTo) {}

    private StoredMap add(MappedVehicle vehicle, int revision, Caller caller, Sent<FunctionMap> map, Instant now) {
        MapRevision added = new MapRevision(vehicle, revision, map.value(), map.json(), caller, now);
        entities.persist(added);
        map.value()
                .circuits()
                .forEach((name, circuit) -> entities.persist(new CircuitRow(vehicle, revision, name, circuit)));
        return stored(vehicle, added, revision);
    }

    private static StoredMap stored(MappedVehicle vehicle, MapRevision found, int latest) {
        return new StoredMap(
                vehicle.id(), found.key().revision(), latest, vehicle.isShared(), found.createdAt(), found.document());
    }

    private static VehicleSummary summary(boolean shared, MapRevision found) {
        return new VehicleSummary(
                found.key().vehicleId(),
                found.key().revision(),
                shared,
                found.createdAt(),
                found.maker(),
                found.model(),
                found.yearFrom(),
                found.yearTo());
    }

    /** As precise as the database keeps it, so that an answer is the same before and after it is stored. */
    private static Instant now() {
        return Instant.now().truncatedTo(ChronoUnit.MICROS);
    }

    private static RuntimeException notFound(UUID id) {
        return Problems.notFound("vehicle " + id);
    }
}
