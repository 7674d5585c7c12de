package dev.splicebook.client;

import java.util.UUID;

/** The book of vehicles: function maps in immutable revisions. */
public final class Vehicles {

    private static final String PATH = "/v1/vehicles";

    private final Transport transport;

    Vehicles(Transport transport) {
        this.transport = transport;
    }

    /**
     * Adds a vehicle, with the first revision of its function map. Never sent twice: after a {@link ConnectionException}
     * it is unknown whether the vehicle was added.
     *
     * @throws BadRequestException with every fault of the map
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Vehicle create(Document functionMap) {
        return transport.send(Call.post(PATH, functionMap), Vehicle.class);
    }

    /**
     * The latest revision of a vehicle.
     *
     * @throws NotFoundException if there is no such vehicle, or it is another firm's
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Vehicle get(UUID id) {
        return transport.send(vehicle(Call.get(PATH), id), Vehicle.class);
    }

    /**
     * One revision of a vehicle, 1 or more.
     *
     * @throws NotFoundException if there is no such vehicle or revision, or it is another firm's
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Vehicle getRevision(UUID id, int revision) {
        return transport.send(
                vehicle(Call.get(PATH), id).segment("revisions").segment("revision", revision), Vehicle.class);
    }

    /**
     * Every vehicle that may be seen, oldest first.
     *
     * @throws SplicebookException if there is no answer, or a problem
     */
    public Page<VehicleSummary> list() {
        return list(VehicleQuery.all());
    }

    /**
     * Vehicles, oldest first.
     *
     * @throws SplicebookException if there is no answer, or a problem
     */
    public Page<VehicleSummary> list(VehicleQuery query) {
        return transport.page(
                Call.get(PATH).query("maker", query.maker()).query("model", query.model()),
                query.paging(),
                VehicleSummary.class);
    }

    /**
     * The revisions of a vehicle, latest first.
     *
     * @throws NotFoundException if there is no such vehicle, or it is another firm's
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Page<VehicleSummary> listRevisions(UUID id) {
        return listRevisions(id, Paging.start());
    }

    /**
     * The revisions of a vehicle, latest first.
     *
     * @throws NotFoundException if there is no such vehicle, or it is another firm's
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Page<VehicleSummary> listRevisions(UUID id, Paging paging) {
        return transport.page(vehicle(Call.get(PATH), id).segment("revisions"), paging, VehicleSummary.class);
    }

    /**
     * Adds a revision to a vehicle. Never sent twice: after a {@link ConnectionException} it is unknown whether it was
     * added, and {@link #get} tells.
     *
     * @param expectedRevision the revision that the map was made from; if it is not the latest any more, nothing is added
     * @throws PreconditionFailedException if another revision was added since
     * @throws NotFoundException if there is no such vehicle, or it is another firm's
     * @throws BadRequestException with every fault of the map
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Vehicle addRevision(UUID id, int expectedRevision, Document functionMap) {
        return transport.send(
                vehicle(Call.post(PATH, functionMap), id).segment("revisions").ifMatch(expectedRevision),
                Vehicle.class);
    }

    private static Call vehicle(Call call, UUID id) {
        return call.segment("id", Require.present("id", id));
    }
}
