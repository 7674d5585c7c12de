package dev.splicebook.client;

/**
 * Which circuits to list: those that meet all that is asked. Each method gives a new query.
 */
public final class CircuitQuery {

    private static final CircuitQuery ALL = new CircuitQuery(Filters.none(), Paging.start());

    private final Filters filters;
    private final Paging paging;

    private CircuitQuery(Filters filters, Paging paging) {
        this.filters = filters;
        this.paging = Require.present("paging", paging);
    }

    /** Every circuit. */
    public static CircuitQuery all() {
        return ALL;
    }

    /** Those of a function, like {@code audio.speaker}, or of one below it. */
    public CircuitQuery function(String id) {
        return new CircuitQuery(filters.with("function", id), paging);
    }

    /** Those of a wire colour, like {@code YE/RD}. */
    public CircuitQuery colour(String code) {
        return new CircuitQuery(filters.with("colour", code), paging);
    }

    /** Those of a connector, like {@code C1}. */
    public CircuitQuery connector(String ref) {
        return new CircuitQuery(filters.with("connector", ref), paging);
    }

    /** Those of which each word begins a word of the connector's name and location, or of the circuit's source, load end, test, note and what it carries. */
    public CircuitQuery text(String words) {
        return new CircuitQuery(filters.with("text", words), paging);
    }

    /** Those of vehicles whose maker's name starts so, whatever the case; over all vehicles only. */
    public CircuitQuery maker(String start) {
        return new CircuitQuery(filters.with("maker", start), paging);
    }

    /** Those of vehicles whose model's name starts so, whatever the case; over all vehicles only. */
    public CircuitQuery model(String start) {
        return new CircuitQuery(filters.with("model", start), paging);
    }

    /** Those of vehicles of a model year, 1950 to 2100; over all vehicles only. */
    public CircuitQuery year(int modelYear) {
        return new CircuitQuery(filters.with("year", modelYear), paging);
    }

    /** Those of a revision of the map, 1 or more; of one vehicle only, and of its latest unless this is asked. */
    public CircuitQuery revision(int revision) {
        return new CircuitQuery(filters.with("revision", revision), paging);
    }

    /** The same from another place on, or in pages of another size. */
    public CircuitQuery paging(Paging paging) {
        return new CircuitQuery(filters, paging);
    }

    Filters filters() {
        return filters;
    }

    Paging paging() {
        return paging;
    }
}
