package dev.splicebook.hookup.pair;

import java.util.HashMap;
import java.util.Map;

/** Which nets have been joined so far. */
final class Groups {

    private final Map<Integer, Integer> parents = new HashMap<>();

    private int root(int net) {
        int at = net;
        while (parents.getOrDefault(at, at) != at) {
            at = parents.getOrDefault(at, at);
        }
        return at;
    }

    /** Joins two nets; false if they were joined already. */
    boolean join(int one, int other) {
        int from = root(one);
        int to = root(other);
        parents.put(from, to);
        return from != to;
    }
}
