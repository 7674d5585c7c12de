package dev.splicebook.device;

import dev.splicebook.hookup.Device;
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
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.stream.Stream;
import org.hibernate.jpa.HibernateHints;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;

/** Many devices at once, into the catalogue and out of it, as a part of the caller's transaction and in bounded memory. */
@Service
public class CatalogueTransfer {

    private static final int KEYS_FETCHED = 1000;

    private final Catalogue catalogue;
    private final EntityManager entities;

    CatalogueTransfer(Catalogue catalogue, EntityManager entities) {
        this.catalogue = catalogue;
        this.entities = entities;
    }

    /**
     * A device on its way in.
     *
     * @param code as in the document
     * @param revision that must be the latest where the device exists; absent to add to any
     */
    public record Incoming(String code, @Nullable Integer revision, Sent<Device> device) {}

    /**
     * A device on its way out.
     *
     * @param revision the latest; absent for another firm's
     */
    public record Outgoing(@Nullable Integer revision, String document) {}

    /**
     * Adds each device to the caller's firm: as a new one, as a revision, or not at all where the latest means the same.
     *
     * @param entries few enough to be held at once; no code twice
     * @param write false to judge only
     * @return one for each entry; where one is refused, the transaction is not to be committed
     */
    @Transactional(propagation = Propagation.MANDATORY)
    public List<Placing> place(Caller caller, List<Incoming> entries, boolean write) {
        Map<String, CatalogueDevice> own = entries.isEmpty() ? Map.of() : own(caller, entries, write);
        List<UUID> revised = new ArrayList<>();
        List<Placing> placings = new ArrayList<>(entries.size());
        Instant now = Instant.now().truncatedTo(ChronoUnit.MICROS);
        for (Incoming entry : entries) {
            CatalogueDevice device = own.get(entry.code());
            if (device == null) {
                if (write) {
                    CatalogueDevice added =
                            new CatalogueDevice(UUID.randomUUID(), caller.firm().value(), false, entry.code(), now);
                    entities.persist(added);
                    catalogue.add(added, 1, caller, entry.device(), now);
                }
                placings.add(Placing.ADDED);
            } else if (entry.revision() != null && entry.revision() != device.latestRevision()) {
                placings.add(
                        Placing.revisionChanged("device " + entry.code(), entry.revision(), device.latestRevision()));
            } else if (isSame(device, entry.device())) {
                placings.add(Placing.UNCHANGED);
            } else {
                if (write) {
                    revised.add(device.id());
                    catalogue.add(device, device.latestRevision() + 1, caller, entry.device(), now);
                }
                placings.add(Placing.ADDED);
            }
        }
        if (write) {
            entities.flush();
            if (!revised.isEmpty()) {
                entities.createQuery(
                                "update CatalogueDevice d set d.latestRevision = d.latestRevision + 1 where d.id in :ids")
                        .setParameter("ids", revised)
                        .executeUpdate();
            }
        }
        entities.clear();
        return placings;
    }

    /**
     * The latest revisions of the devices that the caller may see, by code; of those that share a code, the one that the
     * code leads to.
     *
     * @param mine whether to leave out what other firms share
     */
    @Transactional(propagation = Propagation.MANDATORY, readOnly = true)
    public void export(Caller caller, boolean mine, Outlet<Outgoing> outlet) throws IOException {
        String others = " or (d.shared and not exists (select 1 from CatalogueDevice o where o.code = d.code"
                + " and (o.ownerFirm = :firm or (o.shared and (o.createdAt < d.createdAt"
                + " or (o.createdAt = d.createdAt and o.id < d.id))))))";
        try (Stream<Object[]> keys = entities.createQuery(
                        "select d.id, length(r.document) from CatalogueDevice d join DeviceRevision r"
                                + " on r.key.deviceId = d.id and r.key.revision = d.latestRevision where d.ownerFirm = :firm"
                                + (mine ? "" : others) + " order by d.code",
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
                        "select d.id, d.ownerFirm, r.key.revision, r.document from CatalogueDevice d join DeviceRevision r"
                                + " on r.key.deviceId = d.id and r.key.revision = d.latestRevision where d.id in :ids",
                        Object[].class)
                .setParameter("ids", ids)
                .getResultStream()
                .forEach(row -> {
                    boolean own = caller.firm().value().equals(row[1]);
                    found.put((UUID) row[0], new Outgoing(own ? (Integer) row[2] : null, (String) row[3]));
                });
        for (UUID id : ids) {
            Outgoing outgoing = found.get(id);
            if (outgoing != null) {
                outlet.take(outgoing);
            }
        }
    }

    /**
     * Locked if they are to be written, in one order among those placed together; two imports that meet the same devices in
     * another order end as a conflict of one of them.
     */
    private Map<String, CatalogueDevice> own(Caller caller, List<Incoming> entries, boolean locked) {
        Map<String, CatalogueDevice> own = new HashMap<>();
        entities.createQuery(
                        "select d from CatalogueDevice d where d.ownerFirm = :firm and d.code in :codes order by d.id",
                        CatalogueDevice.class)
                .setParameter("firm", caller.firm().value())
                .setParameter("codes", entries.stream().map(Incoming::code).toList())
                .setLockMode(locked ? LockModeType.PESSIMISTIC_WRITE : LockModeType.NONE)
                .getResultStream()
                .forEach(device -> own.put(device.code(), device));
        return own;
    }

    private boolean isSame(CatalogueDevice device, Sent<Device> sent) {
        String stored = entities.createQuery("select r.document from DeviceRevision r where r.key = :key", String.class)
                .setParameter("key", new DeviceRevision.Key(device.id(), device.latestRevision()))
                // what is waiting to be written is of other devices
                .setFlushMode(FlushModeType.COMMIT)
                .getSingleResult();
        if (stored.equals(sent.json())) {
            return true;
        }
        try {
            return StrictReader.read(stored, Device.class).equals(sent.value());
        } catch (ProblemException strictSince) {
            // what would be refused today cannot mean the same as what was just taken
            return false;
        }
    }
}
