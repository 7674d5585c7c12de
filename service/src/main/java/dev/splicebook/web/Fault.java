package dev.splicebook.web;

import org.jspecify.annotations.Nullable;

/**
 * One fault of a request.
 *
 * @param pointer where in the body, as a JSON pointer; empty for the whole body; absent if the fault is not in the body
 * @param parameter the name of the path or query parameter or header at fault; absent if the fault is in the body
 * @param code the kind of fault, kebab-case, permanent
 * @param detail what is wrong, with the value, standing alone
 */
public record Fault(@Nullable String pointer, @Nullable String parameter, String code, String detail) {

    /** A fault in the body at a JSON pointer, like {@code /parts/HU}. */
    public static Fault at(String pointer, String code, String detail) {
        return new Fault(pointer, null, code, detail);
    }

    /** A fault of a path or query parameter or of a header. */
    public static Fault ofParameter(String parameter, String code, String detail) {
        return new Fault(null, parameter, code, detail);
    }

    /** The JSON pointer of these names and indices, escaped; empty without any. */
    public static String pointerTo(Object... tokens) {
        StringBuilder pointer = new StringBuilder();
        for (Object token : tokens) {
            pointer.append('/').append(token.toString().replace("~", "~0").replace("/", "~1"));
        }
        return pointer.toString();
    }
}
