package dev.splicebook.client;

import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.NoSuchElementException;
import java.util.Optional;
import java.util.stream.Stream;
import java.util.stream.StreamSupport;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/**
 * One page of a list. It is walked by hand with {@link #items()} and {@link #findNext()}, or whole: to iterate over it,
 * or to {@link #stream()} it, goes through its entries and those of all pages behind it, fetching each page when it is
 * reached, with the exceptions that a fetch can end with.
 *
 * @param <T> what is listed
 */
public final class Page<T> implements Iterable<T> {

    /** Fetches the page that begins at a cursor. */
    @FunctionalInterface
    interface Fetch<T> {
        Page<T> at(String cursor);
    }

    private final List<T> items;
    private final @Nullable String next;
    private final Map<String, JsonNode> more;
    private final Fetch<T> fetch;

    Page(List<T> items, @Nullable String next, Map<String, JsonNode> more, Fetch<T> fetch) {
        this.items = List.copyOf(items);
        this.next = next;
        this.more = Map.copyOf(more);
        this.fetch = fetch;
    }

    /** The entries of this page alone. */
    public List<T> items() {
        return items;
    }

    /** What stands beside the entries of this page; empty unless the service says more of the list. */
    public Map<String, JsonNode> more() {
        return more;
    }

    /** Where the next page begins, to be kept and passed on in {@link Paging#from}; empty on the last page. */
    public Optional<String> nextCursor() {
        return Optional.ofNullable(next);
    }

    /**
     * Fetches the next page; empty on the last one.
     *
     * @throws SplicebookException if it cannot be fetched
     */
    public Optional<Page<T>> findNext() {
        return next == null ? Optional.empty() : Optional.of(fetch.at(next));
    }

    @Override
    public Iterator<T> iterator() {
        return new Walk<>(this);
    }

    /** The entries of this page and of all behind it, each page fetched when it is reached. */
    public Stream<T> stream() {
        return StreamSupport.stream(spliterator(), false);
    }

    /** Everything from this page on, fetched at once. */
    List<T> toList() {
        List<T> all = new ArrayList<>();
        forEach(all::add);
        return List.copyOf(all);
    }

    private static final class Walk<T> implements Iterator<T> {

        private @Nullable Page<T> page;
        private int at;

        Walk(Page<T> first) {
            this.page = first;
        }

        @Override
        public boolean hasNext() {
            // a page may be empty and still have one behind it
            while (page != null && at == page.items.size()) {
                page = page.findNext().orElse(null);
                at = 0;
            }
            return page != null;
        }

        @Override
        public T next() {
            if (!hasNext() || page == null) {
                throw new NoSuchElementException("the list has ended");
            }
            return page.items.get(at++);
        }
    }
}
