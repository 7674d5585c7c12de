package dev.splicebook.hookup;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * Something of a hookup as named fields, for expressions over it.
 *
 * @param fields those that are known, of those that {@link FactKind#fields} lists: a String, Double, Boolean, Fact, a list
 *     of String or of Fact, or a map of String
 * @param text all that is known of it but names, so that two that differ in nothing but names have the same
 */
public record Fact(FactKind kind, Map<String, Object> fields, String text) {

    public Fact {
        fields = Collections.unmodifiableMap(new LinkedHashMap<>(fields));
    }
}
