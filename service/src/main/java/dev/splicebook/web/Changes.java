package dev.splicebook.web;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.function.IntFunction;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.JsonNodeFactory;

/**
 * What is different in meaning from one revision of a document to another.
 *
 * @param from the revision compared against, 0 for a document with nothing in it
 * @param to the revision compared
 * @param changes in the order of the document {@code to}; what was removed stands behind what it stood behind in the
 *     other
 */
public record Changes(int from, int to, List<Change> changes) {

    /** Lists without repeats, in which order means nothing. */
    private static final Set<String> SETS = Set.of("equipment", "vinPatterns", "mates");

    public Changes {
        changes = List.copyOf(changes);
    }

    /**
     * One change.
     *
     * @param pointer where, as a JSON pointer into both documents
     * @param was absent for what was added
     * @param is absent for what was removed
     */
    public record Change(
            ChangeOp op,
            String pointer,
            @Nullable JsonNode was,
            @Nullable JsonNode is) {}

    /** What happened at a place. */
    public enum ChangeOp {
        ADDED,
        REMOVED,
        CHANGED
    }

    /**
     * Compares two revisions of one document.
     *
     * @param from at least 0, which is a document with nothing in it; absent for the revision before {@code to}; may be
     *     above {@code to}, which compares backwards
     * @param document the text of a revision; throws what a revision that is absent ends with
     * @throws ProblemException 400 for a {@code from} below 0, and what {@code document} throws
     */
    public static Changes ofRevisions(@Nullable Integer from, int to, IntFunction<String> document) {
        JsonNode is = parse(document.apply(to));
        int base = from == null ? to - 1 : from;
        if (base < 0) {
            throw Problems.badParameter(
                    "from",
                    "out-of-range",
                    "from is " + base + ", below 0, which stands for a document with nothing in it");
        }
        JsonNode was = base == 0 ? JsonNodeFactory.instance.objectNode() : parse(document.apply(base));
        return new Changes(base, to, between(was, is));
    }

    /**
     * The changes that turn one document into another in meaning; none if they mean the same. The order of fields and the
     * way that a number is written mean nothing, nor does the order within {@code equipment}, {@code vinPatterns} and
     * {@code mates}. A field with an empty list is the same as none, and so is a field of the document itself with an
     * empty object; a bare value is a list of one. Lists are compared as a whole.
     */
    public static List<Change> between(JsonNode was, JsonNode is) {
        List<Change> changes = new ArrayList<>();
        if (was.isObject() && is.isObject()) {
            compareFields("", was, is, changes);
        } else {
            compare("", "", was, is, changes);
        }
        return changes;
    }

    private static void compare(String pointer, String name, JsonNode was, JsonNode is, List<Change> changes) {
        if (was.isObject() && is.isObject()) {
            compareFields(pointer, was, is, changes);
        } else if (!isSame(name, was, is)) {
            changes.add(new Change(ChangeOp.CHANGED, pointer, was, is));
        }
    }

    private static void compareFields(String pointer, JsonNode was, JsonNode is, List<Change> changes) {
        boolean whole = pointer.isEmpty();
        Map<String, JsonNode> before = fieldsOf(was, whole);
        Map<String, JsonNode> after = fieldsOf(is, whole);
        Map<String, List<String>> removedBehind = new LinkedHashMap<>();
        List<String> removedFirst = new ArrayList<>();
        List<String> removed = removedFirst;
        for (String name : before.keySet()) {
            if (after.containsKey(name)) {
                removed = removedBehind.computeIfAbsent(name, none -> new ArrayList<>());
            } else {
                removed.add(name);
            }
        }
        addRemoved(pointer, removedFirst, before, changes);
        after.forEach((name, value) -> {
            String place = pointer + Fault.pointerTo(name);
            JsonNode old = before.get(name);
            if (old == null) {
                changes.add(new Change(ChangeOp.ADDED, place, null, value));
            } else {
                compare(place, name, old, value, changes);
            }
            addRemoved(pointer, removedBehind.getOrDefault(name, List.of()), before, changes);
        });
    }

    private static void addRemoved(
            String pointer, List<String> names, Map<String, JsonNode> before, List<Change> changes) {
        for (String name : names) {
            changes.add(new Change(ChangeOp.REMOVED, pointer + Fault.pointerTo(name), before.get(name), null));
        }
    }

    /** The fields that say something. */
    private static Map<String, JsonNode> fieldsOf(JsonNode object, boolean whole) {
        Map<String, JsonNode> fields = new LinkedHashMap<>();
        object.forEachEntry((name, value) -> {
            boolean empty = value.isEmpty() && (value.isArray() || (whole && value.isObject()));
            if (!empty) {
                fields.put(name, value);
            }
        });
        return fields;
    }

    private static boolean isSame(String name, JsonNode was, JsonNode is) {
        if (was.isNumber() && is.isNumber()) {
            return was.decimalValue().compareTo(is.decimalValue()) == 0;
        }
        if (was.isObject() && is.isObject()) {
            return isSameObject(fieldsOf(was, false), fieldsOf(is, false));
        }
        if (was.isArray() && is.isArray()) {
            return isSameList(name, was, is);
        }
        if (was.isArray()) {
            return was.size() == 1 && is.isValueNode() && isSame("", was.get(0), is);
        }
        if (is.isArray()) {
            return isSame(name, is, was);
        }
        return was.equals(is);
    }

    private static boolean isSameObject(Map<String, JsonNode> was, Map<String, JsonNode> is) {
        return was.keySet().equals(is.keySet())
                && is.entrySet().stream()
                        .allMatch(field -> isSame(
                                field.getKey(), Objects.requireNonNull(was.get(field.getKey())), field.getValue()));
    }

    private static boolean isSameList(String name, JsonNode was, JsonNode is) {
        if (SETS.contains(name)) {
            return isWithin(was, is) && isWithin(is, was);
        }
        if (was.size() != is.size()) {
            return false;
        }
        for (int i = 0; i < was.size(); i++) {
            if (!isSame("", was.get(i), is.get(i))) {
                return false;
            }
        }
        return true;
    }

    private static boolean isWithin(JsonNode some, JsonNode all) {
        return some.valueStream().allMatch(one -> all.valueStream().anyMatch(other -> isSame("", one, other)));
    }

    private static JsonNode parse(String document) {
        return StrictReader.parse(document.getBytes(StandardCharsets.UTF_8));
    }
}
