package dev.splicebook.web;

import java.util.List;

/**
 * Which page is asked for; a controller takes it as an argument, from {@code ?cursor=&limit=}.
 *
 * @param limit how many entries at most, 1 to 200
 * @param after the position that the previous page ended at, as given to {@link PageOf#ofFetched}; empty for the first page
 */
public record PageQuery(int limit, List<String> after) {

    static final int LEAST = 1;
    static final int MOST = 200;
    static final int DEFAULT = 50;

    public PageQuery {
        after = List.copyOf(after);
    }

    /**
     * The position of the previous page's end in {@code parts} parts.
     *
     * @throws ProblemException 400 if the cursor is not one of this list
     */
    public List<String> after(int parts) {
        if (!after.isEmpty() && after.size() != parts) {
            throw Cursors.broken();
        }
        return after;
    }
}
