package dev.splicebook.client;

import java.util.UUID;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.JsonNode;

/** The book of vehicles: function maps in immutable revisions. */
public final class Vehicles {

    private static final String PATH = "/v1/vehicles";

    private final Transport transport;

    Vehicles(Transport transport) {
        this.transport = transport;
    }

    /**
     * Adds a vehicle, with the first revision of its function map. Sent again only with an {@link IdempotencyKey}: without
     * one it is unknown after a {@link ConnectionException} whether the vehicle was added.
     *
     * @throws BadRequestException with every fault of the map
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Vehicle create(Document functionMap) {
        return transport.send(Call.post(PATH, functionMap), Vehicle.class);
    }

    /**
     * Judges a vehicle like {@link #create}, and stores nothing.
     *
     * @throws BadRequestException with every fault of the map
     * @throws SplicebookException if there is no answer, or another problem
     */
    public DryRun dryRunCreate(Document functionMap) {
        return transport.send(Call.post(PATH, functionMap).dryRun(), DryRun.class);
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
     * The latest revision of a vehicle that is held already: the same object if it is the latest still, which the service
     * then says without sending it again.
     *
     * @throws NotFoundException if there is no such vehicle, or it is another firm's
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Vehicle refresh(Vehicle held) {
        return transport.refresh(vehicle(Call.get(PATH), held.id()).ifNoneMatch(held.revision()), held, Vehicle.class);
    }

    /**
     * One revision of a vehicle, 1 or more.
     *
     * @throws NotFoundException if there is no such vehicle or revision, or it is another firm's
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Vehicle getRevision(UUID id, int revision) {
        return transport.send(revision(Call.get(PATH), id, revision), Vehicle.class);
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
     * @throws BadRequestException if what is asked for cannot be, like the year 20
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Page<VehicleSummary> list(VehicleQuery query) {
        return transport.page(Call.get(PATH).query(query.filters().parameters()), query.paging(), VehicleSummary.class);
    }

    /**
     * The vehicles that a vehicle identification number may be one of, oldest first, and what it says by itself.
     *
     * @param vin 17 characters, in capitals or not
     * @throws BadRequestException if it is none, saying which character is wrong and why
     * @throws SplicebookException if there is no answer, or another problem
     */
    public VinMatches listByVin(String vin) {
        return listByVin(vin, VehicleQuery.all());
    }

    /**
     * Those of the vehicles asked for that a vehicle identification number may be one of, oldest first, and what it says
     * by itself.
     *
     * @param vin 17 characters, in capitals or not
     * @throws BadRequestException if it is none, saying which character is wrong and why, or if what is asked for cannot
     *     be
     * @throws SplicebookException if there is no answer, or another problem
     */
    public VinMatches listByVin(String vin, VehicleQuery query) {
        Call call = Call.get(PATH).query(query.filters().parameters()).query("vin", Require.present("vin", vin));
        Page<VehicleSummary> page = transport.page(call, query.paging(), VehicleSummary.class);
        JsonNode told = page.more().get("vin");
        if (told == null) {
            throw Transport.unreadable(call, 200, "vin is missing", null);
        }
        try {
            return new VinMatches(Json.MAPPER.treeToValue(told, Vin.class), page);
        } catch (JacksonException e) {
            throw Transport.unreadable(call, 200, e.getOriginalMessage(), e);
        }
    }

    /**
     * The circuits of a vehicle's latest revision, in the order of its map.
     *
     * @throws NotFoundException if there is no such vehicle, or it is another firm's
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Page<CircuitEntry> listCircuits(UUID id) {
        return listCircuits(id, CircuitQuery.all());
    }

    /**
     * Circuits of a vehicle, in the order of its map.
     *
     * @throws IllegalArgumentException if maker, model or year are asked for, as the vehicle is given
     * @throws NotFoundException if there is no such vehicle or revision, or it is another firm's
     * @throws BadRequestException if what is asked for cannot be, like a function that there is none of
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Page<CircuitEntry> listCircuits(UUID id, CircuitQuery query) {
        Filters filters =
                query.filters().without("is asked of circuits over all vehicles only", "maker", "model", "year");
        return transport.page(
                vehicle(Call.get(PATH), id).segment("circuits").query(filters.parameters()),
                query.paging(),
                CircuitEntry.class);
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
     * What a revision changed of the one before it; the first is compared with an empty map.
     *
     * @throws NotFoundException if there is no such vehicle or revision, or it is another firm's
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Changes compare(UUID id, int revision) {
        return transport.send(revision(Call.get(PATH), id, revision).segment("changes"), Changes.class);
    }

    /**
     * What is different in one revision from another, whichever is the later.
     *
     * @param from the revision compared with, 1 or more; 0 for an empty map
     * @param to the revision compared, 1 or more
     * @throws NotFoundException if there is no such vehicle or revision, or it is another firm's
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Changes compare(UUID id, int from, int to) {
        return transport.send(
                revision(Call.get(PATH), id, to).segment("changes").query("from", Require.notNegative("from", from)),
                Changes.class);
    }

    /**
     * Adds a revision to a vehicle. Sent again only with an {@link IdempotencyKey}: without one it is unknown after a
     * {@link ConnectionException} whether it was added, and {@link #get} tells.
     *
     * @param expectedRevision the revision that the map was made from; if it is not the latest any more, nothing is added
     * @throws PreconditionFailedException if another revision was added since
     * @throws NotFoundException if there is no such vehicle, or it is another firm's
     * @throws BadRequestException with every fault of the map
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Vehicle addRevision(UUID id, int expectedRevision, Document functionMap) {
        return transport.send(adding(id, expectedRevision, functionMap), Vehicle.class);
    }

    /**
     * Adds a revision to a vehicle, as {@link #addRevision(UUID, int, Document)} does.
     *
     * @param held what the map was made from; if it is not the latest revision any more, nothing is added
     * @throws PreconditionFailedException if another revision was added since
     * @throws BadRequestException with every fault of the map
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Vehicle addRevision(Vehicle held, Document functionMap) {
        return addRevision(held.id(), held.revision(), functionMap);
    }

    /**
     * Judges a revision like {@link #addRevision(Vehicle, Document)}, and stores nothing.
     *
     * @param held what the map was made from
     * @throws PreconditionFailedException if another revision was added since
     * @throws BadRequestException with every fault of the map
     * @throws SplicebookException if there is no answer, or another problem
     */
    public DryRun dryRunAddRevision(Vehicle held, Document functionMap) {
        return transport.send(adding(held.id(), held.revision(), functionMap).dryRun(), DryRun.class);
    }

    /**
     * Adds a revision that is an earlier one again. Sent again only with an {@link IdempotencyKey}.
     *
     * @param held the vehicle as it was read; if there is a later revision than its latest by now, nothing is added
     * @param revision the earlier one, 1 or more
     * @throws PreconditionFailedException if another revision was added since
     * @throws NotFoundException if there is no such revision
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Vehicle restore(Vehicle held, int revision) {
        return transport.send(
                revision(Call.post(PATH), held.id(), revision)
                        .segment("restore")
                        .ifMatch(held.latestRevision()),
                Vehicle.class);
    }

    private static Call adding(UUID id, int expectedRevision, Document functionMap) {
        return vehicle(Call.post(PATH, functionMap), id).segment("revisions").ifMatch(expectedRevision);
    }

    private static Call vehicle(Call call, UUID id) {
        return call.segment("id", Require.present("id", id));
    }

    private static Call revision(Call call, UUID id, int revision) {
        return vehicle(call, id).segment("revisions").segment("revision", Require.atLeastOne("revision", revision));
    }
}
