package dev.splicebook.web;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;

/** Gathers keys of documents into groups that are small enough to be held at once. */
public final class Groups<K> {

    private static final int MOST_KEYS = 100;
    private static final long MOST_CHARACTERS = 1_000_000;

    private final Outlet<List<K>> outlet;
    private final List<K> keys = new ArrayList<>();
    private long characters;

    /** @param outlet takes each group; not empty, and of one key where that is a large one */
    public Groups(Outlet<List<K>> outlet) {
        this.outlet = outlet;
    }

    /** Adds a key whose document has so many characters. */
    public void add(K key, int length) throws IOException {
        if (keys.size() == MOST_KEYS || characters + length > MOST_CHARACTERS) {
            end();
        }
        keys.add(key);
        characters += length;
    }

    /** Hands over what is left. */
    public void end() throws IOException {
        if (!keys.isEmpty()) {
            outlet.take(List.copyOf(keys));
            keys.clear();
            characters = 0;
        }
    }
}
