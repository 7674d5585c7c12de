package dev.splicebook.client;

/** What to export. Each method gives a new one. */
public final class ExportQuery {

    private static final ExportQuery ALL = new ExportQuery(Filters.none());

    private final Filters filters;

    private ExportQuery(Filters filters) {
        this.filters = filters;
    }

    /** Every vehicle and device that may be seen, each in its latest revision. */
    public static ExportQuery all() {
        return ALL;
    }

    /** The vehicles alone. */
    public ExportQuery vehicles() {
        return new ExportQuery(filters.with("what", "vehicles"));
    }

    /** The devices alone. */
    public ExportQuery devices() {
        return new ExportQuery(filters.with("what", "devices"));
    }

    /** What is one's own firm's alone, without what others share. */
    public ExportQuery mine() {
        return new ExportQuery(filters.with("mine", true));
    }

    Filters filters() {
        return filters;
    }
}
