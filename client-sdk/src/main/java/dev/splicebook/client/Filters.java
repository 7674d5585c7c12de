package dev.splicebook.client;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Parameters of a call by name, in the order in which they were given.
 *
 * @param parameters a list stands for a parameter that is given several times
 */
record Filters(Map<String, Object> parameters) {

    private static final Filters NONE = new Filters(Map.of());

    Filters {
        parameters = Collections.unmodifiableMap(new LinkedHashMap<>(parameters));
    }

    static Filters none() {
        return NONE;
    }

    /** The same with one value of a parameter, in place of any that it had. */
    Filters with(String name, Object value) {
        Map<String, Object> more = new LinkedHashMap<>(parameters);
        more.put(name, Require.present(name, value));
        return new Filters(more);
    }

    /** The same with one more value of a parameter. */
    Filters plus(String name, Object value) {
        List<Object> values = new ArrayList<>();
        if (parameters.get(name) instanceof List<?> before) {
            values.addAll(before);
        }
        values.add(Require.present(name, value));
        return with(name, List.copyOf(values));
    }

    /** Refuses parameters that do not belong in a call. */
    Filters without(String why, String... names) {
        for (String name : names) {
            if (parameters.containsKey(name)) {
                throw new IllegalArgumentException(name + " " + why);
            }
        }
        return this;
    }
}
