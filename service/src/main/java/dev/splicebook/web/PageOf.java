package dev.splicebook.web;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/**
 * One page of a list.
 *
 * @param items the entries of this page, at most as many as the limit
 * @param next the cursor of the next page; null on the last one, and always written
 */
public record PageOf<T>(
        @JsonInclude(JsonInclude.Include.ALWAYS) List<T> items,
        @JsonInclude(JsonInclude.Include.ALWAYS) @Nullable String next) {

    public PageOf {
        items = List.copyOf(items);
    }

    /**
     * A page from rows fetched with one more than the limit, so that a further page is known without counting.
     *
     * @param fetched at most {@code limit + 1} rows, in the order of the list
     * @param position what {@link PageQuery#after()} gives back for the page behind a row
     */
    public static <T> PageOf<T> ofFetched(List<T> fetched, int limit, Function<T, List<String>> position) {
        if (fetched.size() <= limit) {
            return new PageOf<>(fetched, null);
        }
        List<T> items = fetched.subList(0, limit);
        return new PageOf<>(items, Cursors.encode(position.apply(items.get(limit - 1))));
    }
}
