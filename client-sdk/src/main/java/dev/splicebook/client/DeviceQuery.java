package dev.splicebook.client;

import org.jspecify.annotations.Nullable;

/**
 * Which devices to list. Each method gives a new query.
 *
 * @param kind of product, like {@code amplifier}; absent for any
 * @param maker what the maker's name starts with, whatever the case; absent for any
 * @param paging where to begin, and how many a page holds
 */
public record DeviceQuery(@Nullable String kind, @Nullable String maker, Paging paging) {

    public DeviceQuery {
        Require.present("paging", paging);
    }

    /** Every device. */
    public static DeviceQuery all() {
        return new DeviceQuery(null, null, Paging.start());
    }

    /** Those of a kind of product, like {@code amplifier}. */
    public DeviceQuery kind(String kind) {
        return new DeviceQuery(kind, maker, paging);
    }

    /** Those whose maker's name starts so, whatever the case. */
    public DeviceQuery maker(String start) {
        return new DeviceQuery(kind, start, paging);
    }

    public DeviceQuery paging(Paging paging) {
        return new DeviceQuery(kind, maker, paging);
    }
}
