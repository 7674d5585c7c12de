package dev.splicebook.web;

import java.lang.reflect.Type;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.springframework.core.ResolvableType;
import tools.jackson.databind.JsonNode;

/**
 * Reads JSON into records and refuses everything that is not exactly what they say. Two stages: syntax, of which the
 * first fault is told with its line and column, and shape, of which all faults are told at once.
 *
 * <p>A record is an object whose components are its fields: required unless {@code @Nullable}, a list, a set or a map. A
 * record of this service with exactly one component, a String, is a text. Constants of an enum are kebab-case. A sealed
 * type is told apart by its {@code kind}. What a constructor refuses is told at the place it names.
 */
public final class StrictReader {

    private StrictReader() {}

    /**
     * A body as a value.
     *
     * @throws ProblemException 400 with the faults of the first stage that has any
     */
    public static <T> T read(byte[] body, Class<T> type) {
        return Objects.requireNonNull(type.cast(readType(body, type)));
    }

    /** As {@link #read(byte[], Class)}, from text. */
    public static <T> T read(String body, Class<T> type) {
        return read(body.getBytes(StandardCharsets.UTF_8), type);
    }

    /** As {@link #read(byte[], Class)}, together with the document as it was sent. */
    public static <T> Sent<T> readSent(byte[] body, Class<T> type) {
        String text = JsonText.decode(body);
        Object value = shape(JsonText.parse(text), Shape.of(ResolvableType.forClass(type)));
        return new Sent<>(Objects.requireNonNull(type.cast(value)), JsonText.compact(text));
    }

    /**
     * One line of a body that is read line by line, as a value, together with the line as it was sent.
     *
     * @param number of the line, from 1, which faults of syntax name as their place
     */
    public static <T> Sent<T> readLine(byte[] line, int number, Class<T> type) {
        String text = JsonText.decode(line, number);
        Object value = shape(JsonText.parse(text, number), Shape.of(ResolvableType.forClass(type)));
        return new Sent<>(Objects.requireNonNull(type.cast(value)), JsonText.compact(text));
    }

    /** The text of a member of a well-formed JSON object that has it. */
    public static String member(String object, String name) {
        return JsonText.member(object, name);
    }

    /** A body as a tree: only the stage of syntax. */
    public static JsonNode parse(byte[] body) {
        return JsonText.parse(JsonText.decode(body));
    }

    /** A tree as a value: only the stage of shape. Pointers are relative to the node. */
    public static <T> T shape(JsonNode node, Class<T> type) {
        return Objects.requireNonNull(type.cast(shape(node, Shape.of(ResolvableType.forClass(type)))));
    }

    /**
     * What the stage of shape says of a tree, for a reader that tells its faults together with faults of its own.
     *
     * @param value absent if there are faults
     * @param faults the first 100; pointers are relative to the node
     * @param count of all faults
     */
    public record Judged<T>(@Nullable T value, List<Fault> faults, int count) {}

    /** As {@link #shape(JsonNode, Class)}, without throwing. */
    public static <T> Judged<T> judge(JsonNode node, Class<T> type) {
        Walk walk = new Walk();
        Object value = Shape.of(ResolvableType.forClass(type)).read(node, walk);
        return walk.count() > 0
                ? new Judged<>(null, walk.faults(), walk.count())
                : new Judged<>(type.cast(value), List.of(), 0);
    }

    static Object readType(byte[] body, Type type) {
        ResolvableType resolved = ResolvableType.forType(type);
        String text = JsonText.decode(body);
        JsonNode node = JsonText.parse(text);
        if (resolved.resolve() == Sent.class) {
            return new Sent<>(shape(node, Shape.of(resolved.getGeneric(0))), JsonText.compact(text));
        }
        return shape(node, Shape.of(resolved));
    }

    /** Whether bodies of the type are read here: records of this service, alone, in lists or maps, or as sent. */
    static boolean reads(ResolvableType type) {
        @Nullable Class<?> raw = type.resolve();
        if (raw == null) {
            return false;
        }
        if (raw == Sent.class || raw == List.class) {
            return reads(type.getGeneric(0));
        }
        if (raw == Map.class) {
            return reads(type.getGeneric(1));
        }
        if (raw == JsonNode.class) {
            return true;
        }
        return Shape.isOurs(raw) && (raw.isRecord() || raw.isSealed());
    }

    private static Object shape(JsonNode node, Shape shape) {
        Walk walk = new Walk();
        Object value = shape.read(node, walk);
        if (walk.count() > 0) {
            throw Problems.badBody(walk.faults(), walk.count());
        }
        return value;
    }
}
