package dev.splicebook.client;

/** The circuits of all vehicles, to look for what is alike; those of one are {@link Vehicles#listCircuits}. */
public final class Circuits {

    private final Transport transport;

    Circuits(Transport transport) {
        this.transport = transport;
    }

    /**
     * Circuits of the latest revision of every vehicle that may be seen: by vehicle, oldest first, and in the order of its
     * map.
     *
     * @throws IllegalArgumentException if a revision is asked for, which is one vehicle's
     * @throws BadRequestException if what is asked for cannot be, like a function that there is none of
     * @throws SplicebookException if there is no answer, or another problem
     */
    public Page<CircuitEntry> list(CircuitQuery query) {
        Filters filters = query.filters().without("is asked of the circuits of one vehicle only", "revision");
        return transport.page(Call.get("/v1/circuits").query(filters.parameters()), query.paging(), CircuitEntry.class);
    }
}
