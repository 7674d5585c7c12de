package dev.splicebook.client;

/** The catalogue: devices with their terminals, in immutable revisions. */
public final class Devices {

    private static final String PATH = "/v1/devices";

    private final Transport transport;

    Devices(Transport transport) {
        this.transport = transport;
    }

    /**
     * Adds a device, with its first revision. Never sent twice: after a {@link ConnectionException}
     * it is unknown whether the device was added.
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
     * The latest revision of a device.
     *
     * @throws NotFoundException if there is no such device, or it is another firm's
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Device get(String code) {
        return transport.send(device(Call.get(PATH), code), Device.class);
    }

    /**
     * One revision of a device, 1 or more.
     *
     * @throws NotFoundException if there is no such device or revision, or it is another firm's
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Device getRevision(String code, int revision) {
        return transport.send(
                device(Call.get(PATH), code).segment("revisions").segment("revision", revision), Device.class);
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
     * @throws SplicebookException if there is no answer, or a problem
     */
    public Page<DeviceSummary> list(DeviceQuery query) {
        return transport.page(
                Call.get(PATH).query("kind", query.kind()).query("maker", query.maker()),
                query.paging(),
                DeviceSummary.class);
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
     * Adds a revision to a device. Never sent twice: after a {@link ConnectionException} it is unknown whether it was
     * added, and {@link #get} tells.
     *
     * @param expectedRevision the revision that the device was made from; if it is not the latest any more, nothing is added
     * @throws PreconditionFailedException if another revision was added since
     * @throws NotFoundException if there is no such device, or it is another firm's
     * @throws BadRequestException with every fault of the device
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Device addRevision(String code, int expectedRevision, Document device) {
        return transport.send(
                device(Call.post(PATH, device), code).segment("revisions").ifMatch(expectedRevision), Device.class);
    }

    private static Call device(Call call, String code) {
        return call.segment("id", Require.present("id", code));
    }
}
