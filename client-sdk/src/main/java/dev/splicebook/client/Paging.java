package dev.splicebook.client;

import org.jspecify.annotations.Nullable;

/**
 * Which part of a list to fetch.
 *
 * @param limit how many entries a page holds at most, 1 or more (the service takes up to 200); absent for its default
 * @param cursor where to begin, as {@link Page#nextCursor()} gave it; absent for the start
 */
public record Paging(@Nullable Integer limit, @Nullable String cursor) {

    public Paging {
        if (limit != null) {
            Require.atLeastOne("limit", limit);
        }
    }

    /** From the start, in pages of the service's size. */
    public static Paging start() {
        return new Paging(null, null);
    }

    /** From where another page ended. */
    public static Paging from(String cursor) {
        return new Paging(null, cursor);
    }

    /** The same in pages of at most this many entries, 1 to 200. */
    public Paging limit(int limit) {
        return new Paging(limit, cursor);
    }
}
