package dev.splicebook.vehicle;

import dev.splicebook.hookup.Circuit;
import dev.splicebook.hookup.FunctionMap;
import dev.splicebook.hookup.Names;
import dev.splicebook.web.Caller;
import dev.splicebook.web.ETags;
import dev.splicebook.web.PageOf;
import dev.splicebook.web.PageQuery;
import dev.splicebook.web.Positions;
import dev.splicebook.web.Problems;
import dev.splicebook.web.Sent;
import dev.splicebook.web.StoredDocuments;
import dev.splicebook.web.StrictReader;
import jakarta.persistence.EntityManager;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import tools.jackson.databind.JsonNode;

/** The book of vehicles, as one firm sees it: its own and what others share. */
@Service
public class Book {

    private final Vehicles vehicles;
    private final MapRevisions revisions;
    private final Summaries summaries;
    private final Circuits circuits;
    private final EntityManager entities;

    Book(Vehicles vehicles, MapRevisions revisions, Summaries summaries, Circuits circuits, EntityManager entities) {
        this.vehicles = vehicles;
        this.revisions = revisions;
        this.summaries = summaries;
        this.circuits = circuits;
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
        MappedVehicle vehicle = getOwn(caller, id);
        int latest = vehicle.latestRevision();
        ETags.requireMatch(ifMatch, latest);
        if (vehicles.advanceFrom(id, latest) == 0) {
            throw Problems.preconditionFailed(latest + 1);
        }
        return add(vehicle, latest + 1, caller, map, now());
    }

    /**
     * Adds a revision with the document of an earlier one, to a vehicle of the caller's firm.
     *
     * @param revision whose document it is; may be the latest
     * @param ifMatch tag of the latest revision
     * @throws dev.splicebook.web.ProblemException 404 for a vehicle that is absent or another firm's and for a revision that
     *     is absent, 428 without a tag, 412 if it is not the latest's, 422 for a document that is refused today
     */
    @Transactional
    public StoredMap restore(Caller caller, UUID id, int revision, @Nullable String ifMatch) {
        MappedVehicle vehicle = getOwn(caller, id);
        String document = getMap(caller, id, revision).document();
        ETags.requireMatch(ifMatch, vehicle.latestRevision());
        FunctionMap map =
                StoredDocuments.read(document, FunctionMap.class, "revision " + revision + " of vehicle " + id);
        return addRevision(caller, id, ifMatch, new Sent<>(map, document));
    }

    /**
     * Names of the housings that connectors of a vehicle's latest map mate by.
     *
     * @throws dev.splicebook.web.ProblemException 404 for a vehicle that the caller may not see
     */
    @Transactional(readOnly = true)
    public Set<String> listMates(Caller caller, UUID id) {
        MappedVehicle vehicle = getVisible(caller, id);
        return Set.copyOf(entities.createQuery(
                        "select distinct m.key.mate from VehicleMateRow m"
                                + " where m.key.vehicleId = :id and m.key.revision = :revision",
                        String.class)
                .setParameter("id", id)
                .setParameter("revision", vehicle.latestRevision())
                .getResultList());
    }

    /**
     * The latest revision of a vehicle of the caller's firm, for a change to be made to it.
     *
     * @param ifMatch its tag
     * @throws dev.splicebook.web.ProblemException as {@link #addRevision} does
     */
    @Transactional(readOnly = true)
    public StoredMap getForChange(Caller caller, UUID id, @Nullable String ifMatch) {
        int latest = getOwn(caller, id).latestRevision();
        ETags.requireMatch(ifMatch, latest);
        return getMap(caller, id, latest);
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
        return summaries.listRevisions(getVisible(caller, id).id(), page);
    }

    /** Vehicles that the caller may see, oldest first, by the latest revision of their map. */
    @Transactional(readOnly = true)
    public PageOf<VehicleSummary> listVehicles(Caller caller, VehicleFilter filter, PageQuery page) {
        return summaries.listVehicles(caller.firm().value(), filter, page);
    }

    /**
     * Circuits of a vehicle that the caller may see, in the order of its map. The pages behind the first are of the same
     * revision, whatever is added meanwhile.
     *
     * @param revision absent for the latest
     * @throws dev.splicebook.web.ProblemException 404 if there is none
     */
    @Transactional(readOnly = true)
    public PageOf<FoundCircuit> listCircuits(
            Caller caller, UUID id, @Nullable Integer revision, CircuitFilter filter, PageQuery page) {
        int latest = getVisible(caller, id).latestRevision();
        List<String> after = page.after(2);
        int wanted = revision == null ? latest : revision;
        int afterPosition = -1;
        if (!after.isEmpty()) {
            wanted = Positions.number(after.get(0));
            afterPosition = Positions.number(after.get(1));
        }
        if (wanted < 1 || wanted > latest) {
            throw Problems.notFound("revision " + wanted + " of vehicle " + id);
        }
        return circuits.listCircuits(id, wanted, filter, afterPosition, page.limit());
    }

    /** Circuits of every vehicle that the caller may see, vehicle by vehicle, the oldest first, in the order of its map. */
    @Transactional(readOnly = true)
    public PageOf<FoundCircuit> listCircuits(Caller caller, CircuitFilter filter, PageQuery page) {
        return circuits.listCircuits(caller.firm().value(), filter, page);
    }

    /**
     * A vehicle in a list.
     *
     * @param createdAt when the revision was added
     * @param circuits how many there are
     */
    public record VehicleSummary(
            UUID id,
            int revision,
            boolean shared,
            Instant createdAt,
            @Nullable String maker,
            @Nullable String model,
            @Nullable Integer yearFrom,
            @Nullable Integer yearTo,
            @Nullable String market,
            List<String> equipment,
            int circuits) {}

    /** Adds a revision with all rows that it is found by. */
    StoredMap add(MappedVehicle vehicle, int revision, Caller caller, Sent<FunctionMap> map, Instant now) {
        MapRevision added = new MapRevision(vehicle, revision, map.value(), map.json(), caller, now);
        entities.persist(added);
        addRows(vehicle, revision, map);
        addMates(vehicle, revision, map.value());
        return stored(vehicle, added, revision);
    }

    private void addMates(MappedVehicle vehicle, int revision, FunctionMap map) {
        map.connectors()
                .forEach((name, connector) -> connector
                        .mates()
                        .forEach(mate -> entities.persist(new VehicleMateRow(vehicle, revision, name, mate))));
    }

    private MappedVehicle getOwn(Caller caller, UUID id) {
        MappedVehicle vehicle = getVisible(caller, id);
        if (!vehicle.ownerFirm().equals(caller.firm().value())) {
            throw notFound(id);
        }
        return vehicle;
    }

    private static StoredMap stored(MappedVehicle vehicle, MapRevision found, int latest) {
        return new StoredMap(
                vehicle.id(), found.key().revision(), latest, vehicle.isShared(), found.createdAt(), found.document());
    }

    private void addRows(MappedVehicle vehicle, int revision, Sent<FunctionMap> map) {
        JsonNode documents =
                StrictReader.parse(map.json().getBytes(StandardCharsets.UTF_8)).path("circuits");
        int position = 0;
        for (Map.Entry<String, JsonNode> document : documents.properties()) {
            String name = document.getKey();
            Circuit circuit = Objects.requireNonNull(map.value().circuits().get(name), name);
            entities.persist(new CircuitRow(
                    vehicle,
                    revision,
                    position++,
                    name,
                    circuit,
                    map.value().connectors().get(Names.connectorOf(name)),
                    document.getValue().toString()));
        }
        map.value()
                .vinPatterns()
                .forEach(pattern -> entities.persist(new VinPatternRow(vehicle, revision, pattern.value())));
    }

    private MappedVehicle getVisible(Caller caller, UUID id) {
        return vehicles.findVisible(id, caller.firm().value()).orElseThrow(() -> notFound(id));
    }

    /** As precise as the database keeps it, so that an answer is the same before and after it is stored. */
    private static Instant now() {
        return Instant.now().truncatedTo(ChronoUnit.MICROS);
    }

    private static RuntimeException notFound(UUID id) {
        return Problems.notFound("vehicle " + id);
    }
}
