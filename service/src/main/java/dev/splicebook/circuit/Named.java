package dev.splicebook.circuit;

import java.util.Map;

/** Look-up of what an answer tells by name. */
final class Named {

    private Named() {}

    static <T> T get(Map<String, T> map, String name) {
        T value = map.get(name);
        if (value == null) {
            throw new IllegalArgumentException("the network has nothing named \"" + name + "\"");
        }
        return value;
    }
}
