package dev.splicebook.client;

/**
 * Which vehicles to list: those that meet all that is asked. Each method gives a new query.
 */
public final class VehicleQuery {

    private static final VehicleQuery ALL = new VehicleQuery(Filters.none(), Paging.start());

    private final Filters filters;
    private final Paging paging;

    private VehicleQuery(Filters filters, Paging paging) {
        this.filters = filters;
        this.paging = Require.present("paging", paging);
    }

    /** Every vehicle. */
    public static VehicleQuery all() {
        return ALL;
    }

    /** Those whose maker's name starts so, whatever the case. */
    public VehicleQuery maker(String start) {
        return new VehicleQuery(filters.with("maker", start), paging);
    }

    /** Those whose model's name starts so, whatever the case. */
    public VehicleQuery model(String start) {
        return new VehicleQuery(filters.with("model", start), paging);
    }

    /** Those of a model year, 1950 to 2100; a map that names no model years is not among them. */
    public VehicleQuery year(int modelYear) {
        return new VehicleQuery(filters.with("year", modelYear), paging);
    }

    /** Those with a piece of equipment, like {@code rear-entertainment}; asked again, those with both. */
    public VehicleQuery equipment(String name) {
        return new VehicleQuery(filters.plus("equipment", name), paging);
    }

    /** Those of which each word begins a word of maker, model, market, equipment or notes. */
    public VehicleQuery text(String words) {
        return new VehicleQuery(filters.with("text", words), paging);
    }

    /** The same from another place on, or in pages of another size. */
    public VehicleQuery paging(Paging paging) {
        return new VehicleQuery(filters, paging);
    }

    Filters filters() {
        return filters;
    }

    Paging paging() {
        return paging;
    }
}
