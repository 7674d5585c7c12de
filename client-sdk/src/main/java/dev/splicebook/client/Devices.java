package dev.splicebook.client;

/** The catalogue: devices with their terminals, in immutable revisions. */
public final class Devices {

    private static final String PATH = "/v1/devices";

    private final Transport transport;

    Devices(Transport transport) {
        this.transport = transport;
    }

    /**
     * Adds a device, with its first revision. Sent again only with an {@link IdempotencyKey}: without one it is unknown
     * after a {@link ConnectionException} whether the device was added.
     *
     * @param device with the code that hookups are to name it by
     * @throws BadRequestException with every fault of the device
     * @throws ConflictException if there is a device of that code already
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Device create(Document device) {
        return transport.send(Call.post(PATH, device), Device.class);
    }

    /**
     * Judges a device like {@link #create}, and stores nothing.
     *
     * @param device with the code that hookups are to name it by
     * @throws BadRequestException with every fault of the device
     * @throws ConflictException if there is a device of that code already
     * @throws SplicebookException if there is no answer, or another problem
     */
    public DryRun dryRunCreate(Document device) {
        return transport.send(Call.post(PATH, device).dryRun(), DryRun.class);
    }

    /**
     * The latest revision of a device.
     *
     * @throws NotFoundException if there is no such device, or it is another firm's
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Device get(String code) {
        return transport.send(device(Call.get(PATH), code), Device.class);
    }

    /**
     * The latest revision of a device that is held already: the same object if it is the latest still, which the service
     * then says without sending it again.
     *
     * @throws NotFoundException if there is no such device, or it is another firm's
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Device refresh(Device held) {
        return transport.refresh(device(Call.get(PATH), held.code()).ifNoneMatch(held.revision()), held, Device.class);
    }

    /**
     * One revision of a device, 1 or more.
     *
     * @throws NotFoundException if there is no such device or revision, or it is another firm's
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Device getRevision(String code, int revision) {
        return transport.send(revision(Call.get(PATH), code, revision), Device.class);
    }

    /**
     * Every device that may be seen, by code.
     *
     * @throws SplicebookException if there is no answer, or a problem
     */
    public Page<DeviceSummary> list() {
        return list(DeviceQuery.all());
    }

    /**
     * Devices, by code.
     *
     * @throws NotFoundException if there is no vehicle that they are to fit, or device whose accessories they are to be
     * @throws BadRequestException if what is asked for cannot be, like a function that there is none of
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Page<DeviceSummary> list(DeviceQuery query) {
        return transport.page(Call.get(PATH).query(query.filters().parameters()), query.paging(), DeviceSummary.class);
    }

    /**
     * The revisions of a device, latest first.
     *
     * @throws NotFoundException if there is no such device, or it is another firm's
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Page<DeviceSummary> listRevisions(String code) {
        return listRevisions(code, Paging.start());
    }

    /**
     * The revisions of a device, latest first.
     *
     * @throws NotFoundException if there is no such device, or it is another firm's
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Page<DeviceSummary> listRevisions(String code, Paging paging) {
        return transport.page(device(Call.get(PATH), code).segment("revisions"), paging, DeviceSummary.class);
    }

    /**
     * What a revision changed of the one before it; the first is compared with an empty device.
     *
     * @throws NotFoundException if there is no such device or revision, or it is another firm's
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Changes compare(String code, int revision) {
        return transport.send(revision(Call.get(PATH), code, revision).segment("changes"), Changes.class);
    }

    /**
     * What is different in one revision from another, whichever is the later.
     *
     * @param from the revision compared with, 1 or more; 0 for an empty device
     * @param to the revision compared, 1 or more
     * @throws NotFoundException if there is no such device or revision, or it is another firm's
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Changes compare(String code, int from, int to) {
        return transport.send(
                revision(Call.get(PATH), code, to).segment("changes").query("from", Require.notNegative("from", from)),
                Changes.class);
    }

    /**
     * Adds a revision to a device. Sent again only with an {@link IdempotencyKey}: without one it is unknown after a
     * {@link ConnectionException} whether it was added, and {@link #get} tells.
     *
     * @param expectedRevision the revision that the device was made from; if it is not the latest any more, nothing is added
     * @throws PreconditionFailedException if another revision was added since
     * @throws NotFoundException if there is no such device, or it is another firm's
     * @throws BadRequestException with every fault of the device
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Device addRevision(String code, int expectedRevision, Document device) {
        return transport.send(adding(code, expectedRevision, device), Device.class);
    }

    /**
     * Adds a revision to a device, as {@link #addRevision(String, int, Document)} does.
     *
     * @param held what the device was made from; if it is not the latest revision any more, nothing is added
     * @throws PreconditionFailedException if another revision was added since
     * @throws BadRequestException with every fault of the device
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Device addRevision(Device held, Document device) {
        return addRevision(held.code(), held.revision(), device);
    }

    /**
     * Judges a revision like {@link #addRevision(Device, Document)}, and stores nothing.
     *
     * @param held what the device was made from
     * @throws PreconditionFailedException if another revision was added since
     * @throws BadRequestException with every fault of the device
     * @throws SplicebookException if there is no answer, or another problem
     */
    public DryRun dryRunAddRevision(Device held, Document device) {
        return transport.send(adding(held.code(), held.revision(), device).dryRun(), DryRun.class);
    }

    /**
     * Adds a revision that is an earlier one again. Sent again only with an {@link IdempotencyKey}.
     *
     * @param held the device as it was read; if there is a later revision than its latest by now, nothing is added
     * @param revision the earlier one, 1 or more
     * @throws PreconditionFailedException if another revision was added since
     * @throws NotFoundException if there is no such revision
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Device restore(Device held, int revision) {
        return transport.send(
                revision(Call.post(PATH), held.code(), revision)
                        .segment("restore")
                        .ifMatch(held.latestRevision()),
                Device.class);
    }

    private static Call adding(String code, int expectedRevision, Document device) {
        return device(Call.post(PATH, device), code).segment("revisions").ifMatch(expectedRevision);
    }

    private static Call device(Call call, String code) {
        return call.segment("code", Require.present("code", code));
    }

    private static Call revision(Call call, String code, int revision) {
        return device(call, code).segment("revisions").segment("revision", Require.atLeastOne("revision", revision));
    }
}
