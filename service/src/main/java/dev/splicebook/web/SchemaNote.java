package dev.splicebook.web;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What the written API says of a type beyond its declaration; as a bean, for types that may not carry such words
 * themselves.
 *
 * @param type a record or enum of this service
 * @param property the name in JSON of one of its fields; absent if the note is about the type
 * @param description one or two sentences; may be absent
 * @param pattern the regular expression that a text matches; may be absent
 * @param example a value as text; may be absent
 * @param extensibleEnum the values known today of a text that readers must tolerate growing; empty for any other
 */
public record SchemaNote(
        Class<?> type,
        @Nullable String property,
        @Nullable String description,
        @Nullable String pattern,
        @Nullable String example,
        List<String> extensibleEnum) {

    public SchemaNote {
        extensibleEnum = List.copyOf(extensibleEnum);
    }

    /** What a type is. */
    public static SchemaNote of(Class<?> type, String description) {
        return new SchemaNote(type, null, description, null, null, List.of());
    }

    /** What a text value is. */
    public static SchemaNote ofText(Class<?> type, String description, @Nullable String pattern, String example) {
        return new SchemaNote(type, null, description, pattern, example, List.of());
    }

    /** The values known today of a field that readers must tolerate growing. */
    public static SchemaNote ofGrowing(Class<?> type, String property, List<String> values) {
        return new SchemaNote(type, property, null, null, null, values);
    }
}
