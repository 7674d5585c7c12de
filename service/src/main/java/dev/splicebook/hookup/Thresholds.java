package dev.splicebook.hookup;

import java.util.Collections;
import java.util.Map;
import java.util.TreeMap;

/**
 * The figures that a shop sets in place of those that rules come with. {@link Checker#listThresholds} names them all, with
 * their ranges.
 *
 * @param values by rule and name, like {@code fuse-too-far.mostMetres}
 */
public record Thresholds(Map<String, Double> values) {

    /** Every rule's own figures. */
    public static final Thresholds NONE = new Thresholds(Map.of());

    public Thresholds {
        values = Collections.unmodifiableMap(new TreeMap<>(values));
    }
}
