package dev.splicebook.client;

import java.util.UUID;

/**
 * Which devices to list: those that meet all that is asked. Each method gives a new query.
 */
public final class DeviceQuery {

    private static final DeviceQuery ALL = new DeviceQuery(Filters.none(), Paging.start());

    private final Filters filters;
    private final Paging paging;

    private DeviceQuery(Filters filters, Paging paging) {
        this.filters = filters;
        this.paging = Require.present("paging", paging);
    }

    /** Every device. */
    public static DeviceQuery all() {
        return ALL;
    }

    /** Those whose code starts so, whatever the case. */
    public DeviceQuery code(String start) {
        return new DeviceQuery(filters.with("code", start), paging);
    }

    /** Those whose maker's name starts so, whatever the case. */
    public DeviceQuery maker(String start) {
        return new DeviceQuery(filters.with("maker", start), paging);
    }

    /** Those whose name starts so, whatever the case. */
    public DeviceQuery name(String start) {
        return new DeviceQuery(filters.with("name", start), paging);
    }

    /** Those of a kind of product, like {@code amplifier}. */
    public DeviceQuery kind(String kind) {
        return new DeviceQuery(filters.with("kind", kind), paging);
    }

    /** Those with a terminal of a function, like {@code audio.line}, or of one below it. */
    public DeviceQuery function(String id) {
        return new DeviceQuery(filters.with("function", id), paging);
    }

    /** Those of which each word begins a word of code, maker, name, kind or notes. */
    public DeviceQuery text(String words) {
        return new DeviceQuery(filters.with("text", words), paging);
    }

    /** Those with a connector that mates a housing of this name. */
    public DeviceQuery mates(String housing) {
        return new DeviceQuery(filters.with("mates", housing), paging);
    }

    /** Those with a connector that mates one of a vehicle's, as its latest map says. */
    public DeviceQuery fits(UUID vehicle) {
        return new DeviceQuery(filters.with("fits", vehicle), paging);
    }

    /** Those that a device names as its accessories. */
    public DeviceQuery accessoryOf(String code) {
        return new DeviceQuery(filters.with("accessoryOf", code), paging);
    }

    /** The same from another place on, or in pages of another size. */
    public DeviceQuery paging(Paging paging) {
        return new DeviceQuery(filters, paging);
    }

    Filters filters() {
        return filters;
    }

    Paging paging() {
        return paging;
    }
}
