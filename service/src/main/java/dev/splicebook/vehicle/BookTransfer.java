package dev.splicebook.vehicle;

import dev.splicebook.hookup.FunctionMap;
import dev.splicebook.web.Caller;
import dev.splicebook.web.Groups;
import dev.splicebook.web.Outlet;
import dev.splicebook.web.Placing;
import dev.splicebook.web.ProblemException;
import dev.splicebook.web.Sent;
import dev.splicebook.web.StrictReader;
import jakarta.persistence.EntityManager;
import jakarta.persistence.FlushModeType;
import jakarta.persistence.LockModeType;
import java.io.IOException;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Stream;
import org.hibernate.jpa.HibernateHints;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;

/** Many vehicles at once, into the book and out of it, as a part of the caller's transaction and in bounded memory. */
@Service
public class BookTransfer {

    private static final int KEYS_FETCHED = 1000;

    private final Book book;
    private final EntityManager entities;

    BookTransfer(Book book, EntityManager entities) {
        this.book = book;
        this.entities = entities;
    }

    /**
     * A vehicle on its way in.
     *
     * @param id absent for a new vehicle
     * @param revision that must be the latest where the vehicle exists; absent to add to any
     */
    public record Incoming(@Nullable UUID id, @Nullable Integer revision, Sent<FunctionMap> map) {}

    /**
     * A vehicle on its way out.
     *
     * @param id absent for another firm's
     * @param revision the latest; absent for another firm's
     */
    public record Outgoing(@Nullable UUID id, @Nullable Integer revision, String document) {}

    /**
     * Adds each map to the caller's firm: as a new vehicle, as a revision, or not at all where the latest means the same.
     *
     * @param entries few enough to be held at once; no id twice
     * @param write false to judge only
     * @return one for each entry; where one is refused, the transaction is not to be committed
     */
    @Transactional(propagation = Propagation.MANDATORY)
    public List<Placing> place(Caller caller, List<Incoming> entries, boolean write) {
        List<UUID> ids =
                entries.stream().flatMap(entry -> Stream.ofNullable(entry.id())).toList();
        Map<UUID, MappedVehicle> own = ids.isEmpty() ? Map.of() : own(caller, ids, write);
        Set<UUID> foreign = ids.isEmpty() ? Set.of() : foreign(caller, ids);
        List<UUID> revised = new ArrayList<>();
        List<Placing> placings = new ArrayList<>(entries.size());
        Instant now = Instant.now().truncatedTo(ChronoUnit.MICROS);
        for (Incoming entry : entries) {
            UUID id = entry.id() == null ? UUID.randomUUID() : entry.id();
            MappedVehicle vehicle = own.get(id);
            if (foreign.contains(id)) {
                placings.add(
                        Placing.refused("/id", "id-taken", "the id " + id + " is taken by another firm's vehicle"));
            } else if (vehicle == null) {
                if (write) {
                    MappedVehicle added = new MappedVehicle(id, caller.firm().value(), false, now);
                    entities.persist(added);
                    book.add(added, 1, caller, entry.map(), now);
                }
                placings.add(Placing.ADDED);
            } else if (entry.revision() != null && entry.revision() != vehicle.latestRevision()) {
                placings.add(Placing.revisionChanged("vehicle " + id, entry.revision(), vehicle.latestRevision()));
            } else if (isSame(vehicle, entry.map())) {
                placings.add(Placing.UNCHANGED);
            } else {
                if (write) {
                    revised.add(id);
                    book.add(vehicle, vehicle.latestRevision() + 1, caller, entry.map(), now);
                }
                placings.add(Placing.ADDED);
            }
        }
        if (write) {
            entities.flush();
            if (!revised.isEmpty()) {
                entities.createQuery(
                                "update MappedVehicle v set v.latestRevision = v.latestRevision + 1 where v.id in :ids")
                        .setParameter("ids", revised)
                        .executeUpdate();
            }
        }
        entities.clear();
        return placings;
    }

    /**
     * The latest maps of the vehicles that the caller may see, oldest vehicle first.
     *
     * @param mine whether to leave out what other firms share
     */
    @Transactional(propagation = Propagation.MANDATORY, readOnly = true)
    public void export(Caller caller, boolean mine, Outlet<Outgoing> outlet) throws IOException {
        try (Stream<Object[]> keys = entities.createQuery(
                        "select v.id, length(r.document) from MappedVehicle v join MapRevision r"
                                + " on r.key.vehicleId = v.id and r.key.revision = v.latestRevision where v.ownerFirm = :firm"
                                + (mine ? "" : " or v.shared") + " order by v.createdAt, v.id",
                        Object[].class)
                .setParameter("firm", caller.firm().value())
                .setHint(HibernateHints.HINT_FETCH_SIZE, KEYS_FETCHED)
                .getResultStream()) {
            Groups<UUID> groups = new Groups<>(ids -> write(caller, ids, outlet));
            for (Object[] key : (Iterable<Object[]>) keys::iterator) {
                groups.add((UUID) key[0], ((Number) key[1]).intValue());
            }
            groups.end();
        }
    }

    private void write(Caller caller, List<UUID> ids, Outlet<Outgoing> outlet) throws IOException {
        Map<UUID, Outgoing> found = new HashMap<>();
        entities.createQuery(
                        "select v.id, v.ownerFirm, r.key.revision, r.document from MappedVehicle v join MapRevision r"
                                + " on r.key.vehicleId = v.id and r.key.revision = v.latestRevision where v.id in :ids",
                        Object[].class)
                .setParameter("ids", ids)
                .getResultStream()
                .forEach(row -> {
                    boolean own = caller.firm().value().equals(row[1]);
                    found.put(
                            (UUID) row[0],
                            new Outgoing(own ? (UUID) row[0] : null, own ? (Integer) row[2] : null, (String) row[3]));
                });
        for (UUID id : ids) {
            Outgoing outgoing = found.get(id);
            if (outgoing != null) {
                outlet.take(outgoing);
            }
        }
    }

    /**
     * Locked if they are to be written, in one order among those placed together; two imports that meet the same vehicles in
     * another order end as a conflict of one of them.
     */
    private Map<UUID, MappedVehicle> own(Caller caller, List<UUID> ids, boolean locked) {
        Map<UUID, MappedVehicle> own = new HashMap<>();
        entities.createQuery(
                        "select v from MappedVehicle v where v.ownerFirm = :firm and v.id in :ids order by v.id",
                        MappedVehicle.class)
                .setParameter("firm", caller.firm().value())
                .setParameter("ids", ids)
                .setLockMode(locked ? LockModeType.PESSIMISTIC_WRITE : LockModeType.NONE)
                .getResultStream()
                .forEach(vehicle -> own.put(vehicle.id(), vehicle));
        return own;
    }

    private Set<UUID> foreign(Caller caller, List<UUID> ids) {
        return new HashSet<>(entities.createQuery(
                        "select v.id from MappedVehicle v where v.ownerFirm <> :firm and v.id in :ids", UUID.class)
                .setParameter("firm", caller.firm().value())
                .setParameter("ids", ids)
                .getResultList());
    }

    private boolean isSame(MappedVehicle vehicle, Sent<FunctionMap> map) {
        String stored = entities.createQuery("select r.document from MapRevision r where r.key = :key", String.class)
                .setParameter("key", new MapRevision.Key(vehicle.id(), vehicle.latestRevision()))
                // what is waiting to be written is of other vehicles
                .setFlushMode(FlushModeType.COMMIT)
                .getSingleResult();
        if (stored.equals(map.json())) {
            return true;
        }
        try {
            return StrictReader.read(stored, FunctionMap.class).equals(map.value());
        } catch (ProblemException strictSince) {
            // what would be refused today cannot mean the same as what was just taken
            return false;
        }
    }
}
