package dev.splicebook.client;

import java.util.UUID;

/** Which stored hookups are wanted, by their latest revision; everything given must hold. */
public final class HookupQuery {

    private static final HookupQuery ALL = new HookupQuery(Filters.none(), Paging.start());

    private final Filters filters;
    private final Paging paging;

    private HookupQuery(Filters filters, Paging paging) {
        this.filters = filters;
        this.paging = Require.present("paging", paging);
    }

    /** Every hookup of the firm. */
    public static HookupQuery all() {
        return ALL;
    }

    /** Those that name a vehicle of the book. */
    public HookupQuery vehicle(UUID id) {
        return new HookupQuery(filters.with("vehicle", id), paging);
    }

    /** Those with a verdict, by the waivers in force today. */
    public HookupQuery verdict(Verdict verdict) {
        return new HookupQuery(filters.with("verdict", verdict), paging);
    }

    /** Those of which each word begins a word of the name. */
    public HookupQuery text(String words) {
        return new HookupQuery(filters.with("text", words), paging);
    }

    /** The same from another place on, or in pages of another size. */
    public HookupQuery paging(Paging paging) {
        return new HookupQuery(filters, paging);
    }

    Filters filters() {
        return filters;
    }

    Paging paging() {
        return paging;
    }
}
