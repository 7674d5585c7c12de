package dev.splicebook.client;

import org.jspecify.annotations.Nullable;

/**
 * Which vehicles to list. Each method gives a new query.
 *
 * @param maker what the maker's name starts with, whatever the case; absent for any
 * @param model what the model's name starts with, whatever the case; absent for any
 * @param paging where to begin, and how many a page holds
 */
public record VehicleQuery(@Nullable String maker, @Nullable String model, Paging paging) {

    public VehicleQuery {
        Require.present("paging", paging);
    }

    /** Every vehicle. */
    public static VehicleQuery all() {
        return new VehicleQuery(null, null, Paging.start());
    }

    /** Those whose maker's name starts so, whatever the case. */
    public VehicleQuery maker(String start) {
        return new VehicleQuery(start, model, paging);
    }

    /** Those whose model's name starts so, whatever the case. */
    public VehicleQuery model(String start) {
        return new VehicleQuery(maker, start, paging);
    }

    public VehicleQuery paging(Paging paging) {
        return new VehicleQuery(maker, model, paging);
    }
}
