package dev.splicebook.device;

import dev.splicebook.hookup.Device;
import dev.splicebook.vehicle.Book;
import dev.splicebook.web.Caller;
import dev.splicebook.web.ETags;
import dev.splicebook.web.Fault;
import dev.splicebook.web.PageOf;
import dev.splicebook.web.PageQuery;
import dev.splicebook.web.Positions;
import dev.splicebook.web.ProblemException;
import dev.splicebook.web.Problems;
import dev.splicebook.web.Sent;
import dev.splicebook.web.StoredDocuments;
import jakarta.persistence.EntityManager;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.dao.DataIntegrityViolationException;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** The catalogue of devices, as one firm sees it: its own and what others share. */
@Service
public class Catalogue {

    private final Devices devices;
    private final DeviceRevisions revisions;
    private final Summaries summaries;
    private final Book book;
    private final EntityManager entities;

    Catalogue(Devices devices, DeviceRevisions revisions, Summaries summaries, Book book, EntityManager entities) {
        this.devices = devices;
        this.revisions = revisions;
        this.summaries = summaries;
        this.book = book;
        this.entities = entities;
    }

    /**
     * Adds a device with its first revision, for the caller's firm.
     *
     * @throws ProblemException 400 without a code, 409 if the firm has the code already
     */
    @Transactional
    public StoredDevice create(Caller caller, Sent<Device> device) {
        return create(caller, false, device);
    }

    /** As {@link #create(Caller, Sent)}, for all firms to read if {@code shared}. */
    @Transactional
    public StoredDevice create(Caller caller, boolean shared, Sent<Device> device) {
        String code = device.value().code();
        if (code == null) {
            throw Problems.badBody(
                    List.of(Fault.at("/code", "required", "code is missing, by which hookups name the device")));
        }
        if (devices.existsByOwnerFirmAndCode(caller.firm().value(), code)) {
            throw exists(code);
        }
        Instant now = now();
        CatalogueDevice added =
                new CatalogueDevice(UUID.randomUUID(), caller.firm().value(), shared, code, now);
        entities.persist(added);
        try {
            entities.flush();
        } catch (RuntimeException e) {
            throw isDuplicate(e) ? exists(code) : e;
        }
        return add(added, 1, caller, device, now);
    }

    /**
     * Adds a revision to a device of the caller's firm.
     *
     * @param ifMatch tag of the latest revision
     * @throws ProblemException 404 for a device that is absent or another firm's, 428 without a tag, 412 if it is not the
     *     latest's, 400 if the document has another code
     */
    @Transactional
    public StoredDevice addRevision(Caller caller, String code, @Nullable String ifMatch, Sent<Device> device) {
        CatalogueDevice found = getOwn(caller, code);
        int latest = found.latestRevision();
        ETags.requireMatch(ifMatch, latest);
        if (!code.equals(device.value().code())) {
            throw Problems.badBody(List.of(Fault.at(
                    "/code", "inconsistent", "code is " + device.value().code() + ", and the device is " + code)));
        }
        if (devices.advanceFrom(found.id(), latest) == 0) {
            throw Problems.preconditionFailed(latest + 1);
        }
        return add(found, latest + 1, caller, device, now());
    }

    /**
     * Adds a revision with the document of an earlier one, to a device of the caller's firm.
     *
     * @param revision whose document it is; may be the latest
     * @param ifMatch tag of the latest revision
     * @throws ProblemException 404 for a device that is absent or another firm's and for a revision that is absent, 428
     *     without a tag, 412 if it is not the latest's, 422 for a document that is refused today
     */
    @Transactional
    public StoredDevice restore(Caller caller, String code, int revision, @Nullable String ifMatch) {
        CatalogueDevice own = getOwn(caller, code);
        String document = getDevice(caller, code, revision).document();
        ETags.requireMatch(ifMatch, own.latestRevision());
        Device device = StoredDocuments.read(document, Device.class, "revision " + revision + " of device " + code);
        return addRevision(caller, code, ifMatch, new Sent<>(device, document));
    }

    /**
     * A revision of a device that the caller may see.
     *
     * @param revision absent for the latest
     * @throws ProblemException 404 if there is none
     */
    @Transactional(readOnly = true)
    public StoredDevice getDevice(Caller caller, String code, @Nullable Integer revision) {
        StoredDevice device = findDevice(caller, code, revision).orElse(null);
        if (device == null) {
            throw revision == null ? notFound(code) : Problems.notFound("revision " + revision + " of device " + code);
        }
        return device;
    }

    /** As {@link #getDevice}, empty if there is none. */
    @Transactional(readOnly = true)
    public Optional<StoredDevice> findDevice(Caller caller, String code, @Nullable Integer revision) {
        return visible(caller, code)
                .flatMap(device -> revisions
                        .findByKey(new DeviceRevision.Key(
                                device.id(), revision == null ? device.latestRevision() : revision))
                        .map(found -> stored(device, found, device.latestRevision())));
    }

    /** Revisions of a device, latest first. */
    @Transactional(readOnly = true)
    public PageOf<DeviceSummary> listRevisions(Caller caller, String code, PageQuery page) {
        CatalogueDevice device = visible(caller, code).orElseThrow(() -> notFound(code));
        int below = page.after().isEmpty()
                ? device.latestRevision() + 1
                : Positions.number(page.after(1).get(0));
        List<DeviceSummary> fetched = entities.createQuery(
                        "select r from DeviceRevision r where r.key.deviceId = :id and r.key.revision < :below"
                                + " order by r.key.revision desc",
                        DeviceRevision.class)
                .setParameter("id", device.id())
                .setParameter("below", below)
                .setMaxResults(page.limit() + 1)
                .getResultStream()
                .map(found -> summary(device, found))
                .toList();
        return PageOf.ofFetched(fetched, page.limit(), last -> List.of(Integer.toString(last.revision())));
    }

    /**
     * Devices that the caller may see, by code, as their latest revision is.
     *
     * @throws ProblemException 404 for a vehicle or a device in the filter that the caller may not see
     */
    @Transactional(readOnly = true)
    public PageOf<DeviceSummary> listDevices(Caller caller, DeviceFilter filter, PageQuery page) {
        Set<String> mates = filter.fits() == null ? null : book.listMates(caller, filter.fits());
        DeviceRevision.Key accessoriesOf = null;
        String main = filter.accessoryOf();
        if (main != null) {
            CatalogueDevice device = visible(caller, main).orElseThrow(() -> notFound(main));
            accessoriesOf = new DeviceRevision.Key(device.id(), device.latestRevision());
        }
        return summaries.listDevices(caller.firm().value(), filter, mates, accessoriesOf, page);
    }

    /**
     * A device in a list.
     *
     * @param createdAt when the revision was added
     */
    public record DeviceSummary(
            String code,
            int revision,
            boolean shared,
            Instant createdAt,
            @Nullable String maker,
            @Nullable String name,
            @Nullable String kind) {}

    private Optional<CatalogueDevice> visible(Caller caller, String code) {
        return devices.listVisible(code, caller.firm().value()).stream().findFirst();
    }

    private CatalogueDevice getOwn(Caller caller, String code) {
        return visible(caller, code)
                .filter(found -> found.ownerFirm().equals(caller.firm().value()))
                .orElseThrow(() -> notFound(code));
    }

    /** Adds a revision with all rows that it is found by. */
    StoredDevice add(CatalogueDevice device, int revision, Caller caller, Sent<Device> sent, Instant now) {
        DeviceRevision added = new DeviceRevision(device, revision, sent.value(), sent.json(), caller, now);
        entities.persist(added);
        sent.value()
                .terminals()
                .forEach((name, terminal) -> entities.persist(new TerminalRow(device, revision, name, terminal)));
        sent.value()
                .connectors()
                .forEach((name, connector) -> connector
                        .mates()
                        .forEach(mate -> entities.persist(new DeviceMateRow(device, revision, name, mate))));
        sent.value().accessories().stream()
                .map(Device.Accessory::device)
                .distinct()
                .forEach(accessory -> entities.persist(new AccessoryRow(device, revision, accessory)));
        return stored(device, added, revision);
    }

    private static StoredDevice stored(CatalogueDevice device, DeviceRevision found, int latest) {
        return new StoredDevice(
                device.code(), found.key().revision(), latest, device.isShared(), found.createdAt(), found.document());
    }

    private static DeviceSummary summary(CatalogueDevice device, DeviceRevision found) {
        return new DeviceSummary(
                device.code(),
                found.key().revision(),
                device.isShared(),
                found.createdAt(),
                found.maker(),
                found.name(),
                found.kind());
    }

    private static boolean isDuplicate(RuntimeException failure) {
        return failure instanceof DataIntegrityViolationException
                || failure.getCause() instanceof org.hibernate.exception.ConstraintViolationException
                || failure instanceof org.hibernate.exception.ConstraintViolationException;
    }

    /** As precise as the database keeps it, so that an answer is the same before and after it is stored. */
    private static Instant now() {
        return Instant.now().truncatedTo(ChronoUnit.MICROS);
    }

    private static RuntimeException exists(String code) {
        return Problems.conflict("a device with the code " + code + " exists already");
    }

    private static RuntimeException notFound(String code) {
        return Problems.notFound("device " + code);
    }
}
