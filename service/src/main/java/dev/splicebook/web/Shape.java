package dev.splicebook.web;

import com.fasterxml.jackson.annotation.JsonFormat;
import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonProperty;
import com.fasterxml.jackson.annotation.JsonSubTypes;
import com.fasterxml.jackson.annotation.JsonTypeInfo;
import com.fasterxml.jackson.annotation.JsonTypeName;
import dev.splicebook.guard.Invalid;
import dev.splicebook.guard.InvalidValueException;
import java.lang.reflect.Constructor;
import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.RecordComponent;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.springframework.core.ResolvableType;
import tools.jackson.databind.JsonNode;

/** What a type is in JSON, taken once from its declaration: for the reader, the writer and the schema alike. */
abstract sealed class Shape {

    /** Stands for a value that could not be read; its faults are with the walk. */
    static final Object UNREADABLE = new Object();

    private static final String OURS = "dev.splicebook.";
    private static final Map<ResolvableType, Shape> KNOWN = new ConcurrentHashMap<>();

    /** The value of a node, or {@link #UNREADABLE} with at least one fault told to the walk. */
    abstract Object read(JsonNode node, Walk walk);

    /** @throws IllegalStateException for a type that is not described by a shape */
    static Shape of(ResolvableType type) {
        Shape known = KNOWN.get(type);
        if (known != null) {
            return known;
        }
        Shape made = make(type);
        Shape earlier = KNOWN.putIfAbsent(type, made);
        return earlier == null ? made : earlier;
    }

    static boolean isOurs(Class<?> type) {
        return type.getName().startsWith(OURS);
    }

    /** Whether values of the type are texts in JSON: a record of this service with one component, a String. */
    static boolean isTextValue(Class<?> type) {
        if (!type.isRecord() || !isOurs(type)) {
            return false;
        }
        RecordComponent[] components = type.getRecordComponents();
        return components.length == 1 && components[0].getType() == String.class;
    }

    /** The name of a constant in JSON. */
    static String nameOf(Enum<?> constant) {
        try {
            JsonProperty given =
                    constant.getDeclaringClass().getField(constant.name()).getAnnotation(JsonProperty.class);
            return given != null && !given.value().isEmpty()
                    ? given.value()
                    : constant.name().toLowerCase(Locale.ROOT).replace('_', '-');
        } catch (NoSuchFieldException impossible) {
            throw new IllegalStateException(impossible);
        }
    }

    private static Shape make(ResolvableType type) {
        Class<?> raw = type.resolve();
        if (raw == null) {
            throw new IllegalStateException("no shape for the unresolved type " + type);
        }
        if (raw == List.class) {
            return new ListShape(of(type.getGeneric(0)), false);
        }
        if (raw == Set.class) {
            return new SetShape(of(type.getGeneric(0)), false);
        }
        if (raw == Map.class) {
            return new MapShape(of(type.getGeneric(0)), of(type.getGeneric(1)));
        }
        if (raw == JsonNode.class || raw == Object.class) {
            return new AnyShape();
        }
        if (raw.isEnum()) {
            return new EnumShape(raw);
        }
        if (isTextValue(raw)) {
            return new TextShape(raw);
        }
        if (raw.isRecord()) {
            JsonTypeInfo kinds = inheritedKinds(raw);
            ObjectShape object = new ObjectShape(raw, type);
            return kinds == null ? object : new OneOfShape(raw, kinds.property(), Map.of(kindOf(raw), object));
        }
        if (raw.isAnnotationPresent(JsonTypeInfo.class) && raw.isSealed()) {
            Map<String, ObjectShape> byKind = new LinkedHashMap<>();
            collectKinds(raw, byKind);
            return new OneOfShape(raw, raw.getAnnotation(JsonTypeInfo.class).property(), byKind);
        }
        Shape scalar = ScalarShape.find(raw);
        if (scalar == null) {
            throw new IllegalStateException("no shape for " + type);
        }
        return scalar;
    }

    private static void collectKinds(Class<?> sealed, Map<String, ObjectShape> byKind) {
        for (Class<?> permitted : sealed.getPermittedSubclasses()) {
            if (permitted.isRecord()) {
                byKind.put(kindOf(permitted), new ObjectShape(permitted, ResolvableType.forClass(permitted)));
            } else {
                collectKinds(permitted, byKind);
            }
        }
    }

    private static @Nullable JsonTypeInfo inheritedKinds(Class<?> type) {
        for (Class<?> above : type.getInterfaces()) {
            JsonTypeInfo kinds = above.getAnnotation(JsonTypeInfo.class);
            JsonTypeInfo found = kinds == null ? inheritedKinds(above) : kinds;
            if (found != null) {
                return found;
            }
        }
        return null;
    }

    /** The kind that a record of a sealed type is told by. */
    private static String kindOf(Class<?> type) {
        String listed = listedKind(type, type);
        if (listed != null) {
            return listed;
        }
        JsonTypeName named = type.getAnnotation(JsonTypeName.class);
        if (named == null) {
            throw new IllegalStateException(
                    type.getName() + " has no name: list it in @JsonSubTypes of its sealed type");
        }
        return named.value();
    }

    private static @Nullable String listedKind(Class<?> from, Class<?> type) {
        for (Class<?> above : from.getInterfaces()) {
            JsonSubTypes subTypes = above.getAnnotation(JsonSubTypes.class);
            if (subTypes != null) {
                for (JsonSubTypes.Type subType : subTypes.value()) {
                    if (subType.value() == type && !subType.name().isEmpty()) {
                        return subType.name();
                    }
                }
            }
            String higher = listedKind(above, type);
            if (higher != null) {
                return higher;
            }
        }
        return null;
    }

    private static Object wrongType(JsonNode node, Walk walk, String wanted) {
        walk.fault(
                node.isNull() ? "null-value" : "wrong-type",
                () -> walk.here() + " is " + Words.describe(node) + ", where " + wanted + " belongs");
        return UNREADABLE;
    }

    private static Constructor<?> constructor(Class<?> type) {
        try {
            Constructor<?> canonical = type.getDeclaredConstructor(Arrays.stream(type.getRecordComponents())
                    .map(RecordComponent::getType)
                    .toArray(Class<?>[]::new));
            canonical.setAccessible(true);
            return canonical;
        } catch (NoSuchMethodException impossible) {
            throw new IllegalStateException(impossible);
        }
    }

    private static Object construct(Constructor<?> constructor, @Nullable Object[] arguments, Walk walk, boolean text) {
        try {
            return constructor.newInstance(arguments);
        } catch (InvocationTargetException refused) {
            Throwable cause = refused.getCause();
            if (cause instanceof InvalidValueException invalid) {
                for (Invalid each : invalid.invalids()) {
                    // a text has no places below it
                    walk.faultBelow(text ? "" : each.pointer(), each.code(), each::detail);
                }
                return UNREADABLE;
            }
            if (cause instanceof IllegalArgumentException illegal) {
                walk.fault("invalid", () -> walk.here() + " is refused: " + illegal.getMessage());
                return UNREADABLE;
            }
            throw new IllegalStateException("the constructor of " + constructor.getDeclaringClass() + " failed", cause);
        } catch (ReflectiveOperationException impossible) {
            throw new IllegalStateException(impossible);
        }
    }

    /** Text, numbers, truth values, ids and times. */
    static final class ScalarShape extends Shape {

        private static final Map<Class<?>, ScalarShape> ALL = scalars();

        private final String wanted;
        private final Function<JsonNode, @Nullable Object> reading;

        private ScalarShape(String wanted, Function<JsonNode, @Nullable Object> reading) {
            this.wanted = wanted;
            this.reading = reading;
        }

        static @Nullable Shape find(Class<?> type) {
            return ALL.get(type);
        }

        private static Map<Class<?>, ScalarShape> scalars() {
            Map<Class<?>, ScalarShape> all = new LinkedHashMap<>();
            all.put(String.class, new ScalarShape("text", node -> node.isString() ? node.stringValue() : null));
            ScalarShape truth = new ScalarShape("true or false", node -> node.isBoolean() ? node.booleanValue() : null);
            all.put(Boolean.class, truth);
            all.put(boolean.class, truth);
            ScalarShape number = new ScalarShape("a number", node -> node.isNumber() ? node.doubleValue() : null);
            all.put(Double.class, number);
            all.put(double.class, number);
            ScalarShape whole = new ScalarShape(
                    "a whole number from -2147483648 to 2147483647",
                    node -> isWhole(node, 0x1p31) ? (Object) (int) node.doubleValue() : null);
            all.put(Integer.class, whole);
            all.put(int.class, whole);
            ScalarShape longer = new ScalarShape(
                    "a whole number up to 9007199254740992",
                    node -> isWhole(node, 0x1p53) ? (Object) (long) node.doubleValue() : null);
            all.put(Long.class, longer);
            all.put(long.class, longer);
            all.put(UUID.class, parsed("an id like 123e4567-e89b-42d3-a456-426614174000", text -> {
                UUID id = UUID.fromString(text);
                return id.toString().equalsIgnoreCase(text) ? id : null;
            }));
            all.put(Instant.class, parsed("a time like 2026-11-25T09:30:00Z", Instant::parse));
            all.put(LocalDate.class, parsed("a day of the calendar like 2026-11-25", LocalDate::parse));
            return all;
        }

        private static ScalarShape parsed(String wanted, Function<String, @Nullable Object> parse) {
            return new ScalarShape(wanted, node -> {
                if (!node.isString()) {
                    return null;
                }
                try {
                    return parse.apply(node.stringValue());
                } catch (IllegalArgumentException | java.time.DateTimeException unreadable) {
                    return null;
                }
            });
        }

        private static boolean isWhole(JsonNode node, double below) {
            if (!node.isNumber()) {
                return false;
            }
            double value = node.doubleValue();
            return value == Math.rint(value) && value >= -below && value < below;
        }

        @Override
        Object read(JsonNode node, Walk walk) {
            Object value = reading.apply(node);
            return value == null ? wrongType(node, walk, wanted) : value;
        }
    }

    /** A node kept as it is. */
    static final class AnyShape extends Shape {

        @Override
        Object read(JsonNode node, Walk walk) {
            return node;
        }
    }

    /** A record of this service with one String. */
    static final class TextShape extends Shape {

        private final Class<?> type;
        private final Constructor<?> constructor;

        TextShape(Class<?> type) {
            this.type = type;
            this.constructor = constructor(type);
        }

        Class<?> type() {
            return type;
        }

        @Override
        Object read(JsonNode node, Walk walk) {
            return node.isString() ? of(node.stringValue(), walk) : wrongType(node, walk, "text");
        }

        Object of(String text, Walk walk) {
            return construct(constructor, new Object[] {text}, walk, true);
        }
    }

    /** One of named constants. */
    static final class EnumShape extends Shape {

        private final Class<?> type;
        private final Map<String, Object> byName = new LinkedHashMap<>();

        EnumShape(Class<?> type) {
            this.type = type;
            for (Object constant : type.getEnumConstants()) {
                byName.put(nameOf((Enum<?>) constant), constant);
            }
        }

        Class<?> type() {
            return type;
        }

        Set<String> names() {
            return Collections.unmodifiableSet(byName.keySet());
        }

        @Override
        Object read(JsonNode node, Walk walk) {
            return node.isString()
                    ? of(node.stringValue(), walk)
                    : wrongType(node, walk, "one of " + Words.listed(byName.keySet()));
        }

        Object of(String name, Walk walk) {
            Object constant = byName.get(name);
            if (constant != null) {
                return constant;
            }
            walk.fault(
                    "unknown-value",
                    () -> walk.here() + " is \"" + Words.shortened(name) + "\", which is not one of "
                            + String.join(", ", byName.keySet()));
            return UNREADABLE;
        }
    }

    /** A list; a bare value is a list of one where the component says so. */
    static final class ListShape extends Shape {

        private final Shape element;
        private final boolean bareAllowed;

        ListShape(Shape element, boolean bareAllowed) {
            this.element = element;
            this.bareAllowed = bareAllowed;
        }

        Shape element() {
            return element;
        }

        @Override
        Object read(JsonNode node, Walk walk) {
            List<Object> values = readAll(node, walk, element, bareAllowed);
            return values == null ? UNREADABLE : Collections.unmodifiableList(values);
        }

        private static @Nullable List<Object> readAll(JsonNode node, Walk walk, Shape element, boolean bareAllowed) {
            if (!node.isArray()) {
                if (!bareAllowed || node.isNull()) {
                    wrongType(node, walk, "a list");
                    return null;
                }
                Object single = element.read(node, walk);
                return single == UNREADABLE ? null : List.of(single);
            }
            List<Object> values = new ArrayList<>(node.size());
            boolean readable = true;
            int index = 0;
            for (JsonNode entry : node) {
                walk.enter(index++);
                Object value = element.read(entry, walk);
                walk.leave();
                readable &= value != UNREADABLE;
                values.add(value);
            }
            return readable ? values : null;
        }
    }

    /** A list without repeats. */
    static final class SetShape extends Shape {

        private final Shape element;
        private final boolean bareAllowed;

        SetShape(Shape element, boolean bareAllowed) {
            this.element = element;
            this.bareAllowed = bareAllowed;
        }

        Shape element() {
            return element;
        }

        @Override
        Object read(JsonNode node, Walk walk) {
            List<Object> values = ListShape.readAll(node, walk, element, bareAllowed);
            if (values == null) {
                return UNREADABLE;
            }
            Set<Object> distinct = new LinkedHashSet<>();
            boolean readable = true;
            for (int i = 0; i < values.size(); i++) {
                if (!distinct.add(values.get(i))) {
                    JsonNode repeated = node.get(i);
                    walk.enter(i);
                    walk.fault("duplicate-value", () -> walk.here() + " repeats " + Words.describe(repeated));
                    walk.leave();
                    readable = false;
                }
            }
            return readable ? Collections.unmodifiableSet(distinct) : UNREADABLE;
        }
    }

    /** An object with free keys. */
    static final class MapShape extends Shape {

        private final Shape key;
        private final Shape value;

        MapShape(Shape key, Shape value) {
            this.key = key;
            this.value = value;
        }

        Shape value() {
            return value;
        }

        @Override
        Object read(JsonNode node, Walk walk) {
            if (!node.isObject()) {
                return wrongType(node, walk, "an object");
            }
            Map<Object, Object> values = new LinkedHashMap<>();
            boolean readable = true;
            for (Map.Entry<String, JsonNode> entry : node.properties()) {
                walk.enter(entry.getKey());
                Object name = readKey(entry.getKey(), walk);
                Object content = value.read(entry.getValue(), walk);
                if (name != UNREADABLE && content != UNREADABLE && values.put(name, content) != null) {
                    walk.fault("duplicate-key", () -> walk.here() + " means the same as an earlier key");
                    readable = false;
                }
                readable &= name != UNREADABLE && content != UNREADABLE;
                walk.leave();
            }
            return readable ? Collections.unmodifiableMap(values) : UNREADABLE;
        }

        private Object readKey(String name, Walk walk) {
            if (key instanceof TextShape text) {
                return text.of(name, walk);
            }
            return key instanceof EnumShape constants ? constants.of(name, walk) : name;
        }
    }

    /** A record as an object. */
    static final class ObjectShape extends Shape {

        private final Class<?> type;
        private final ResolvableType resolved;
        private volatile @Nullable Fields fields;

        ObjectShape(Class<?> type, ResolvableType resolved) {
            this.type = type;
            this.resolved = resolved;
        }

        ResolvableType resolved() {
            return resolved;
        }

        Class<?> type() {
            return type;
        }

        /** In the order of declaration. Worked out late, so that a type may contain itself. */
        List<Field> fields() {
            return known().all;
        }

        private Fields known() {
            Fields present = fields;
            if (present == null) {
                present = new Fields(type, resolved);
                fields = present;
            }
            return present;
        }

        @Override
        Object read(JsonNode node, Walk walk) {
            return read(node, walk, null);
        }

        /** @param discriminator a field that belongs to the sealed type and not to the record */
        Object read(JsonNode node, Walk walk, @Nullable String discriminator) {
            if (!node.isObject()) {
                return wrongType(node, walk, "an object");
            }
            Fields present = known();
            int taken = 0;
            boolean readable = true;
            @Nullable Object[] arguments = new @Nullable Object[present.all.size()];
            for (int i = 0; i < arguments.length; i++) {
                Field field = present.all.get(i);
                JsonNode value = node.get(field.name());
                if (value == null) {
                    arguments[i] = field.absent();
                    if (field.isNeeded()) {
                        walk.enter(field.name());
                        walk.fault("missing-field", () -> field.name() + " is missing");
                        walk.leave();
                        readable = false;
                    }
                } else {
                    taken++;
                    walk.enter(field.name());
                    Object argument = field.shape().read(value, walk);
                    Fact fact = field.fact();
                    readable &= argument != UNREADABLE && (fact == null || FactCheck.passes(fact, argument, walk));
                    walk.leave();
                    arguments[i] = argument;
                }
            }
            if (taken < node.size()) {
                readable &= !refuseUnknown(node, walk, present, discriminator);
            }
            return readable ? construct(present.constructor, arguments, walk, false) : UNREADABLE;
        }

        private static boolean refuseUnknown(JsonNode node, Walk walk, Fields present, @Nullable String discriminator) {
            boolean found = false;
            for (String name : node.propertyNames()) {
                if (!present.byName.containsKey(name) && !name.equals(discriminator)) {
                    found = true;
                    walk.enter(name);
                    walk.fault(
                            "unknown-field",
                            () -> Words.shortened(name) + " is not a field here"
                                    + (present.byName.isEmpty()
                                            ? "; there are none"
                                            : "; the nearest are "
                                                    + String.join(", ", Words.nearest(name, present.byName.keySet()))));
                    walk.leave();
                }
            }
            return found;
        }
    }

    private static final class Fields {

        private final List<Field> all = new ArrayList<>();
        private final Map<String, Field> byName = new LinkedHashMap<>();
        private final Constructor<?> constructor;

        Fields(Class<?> type, ResolvableType resolved) {
            constructor = constructor(type);
            for (RecordComponent component : type.getRecordComponents()) {
                Field field = Field.of(component, resolved);
                all.add(field);
                byName.put(field.name(), field);
            }
        }
    }

    /**
     * One field of an object.
     *
     * @param absent what stands for the field where it is left out: nothing, or an empty collection
     * @param alwaysWritten whether it is written although it is null
     * @param fact what is declared of it
     */
    record Field(
            String name,
            RecordComponent component,
            Shape shape,
            boolean required,
            @Nullable Object absent,
            boolean alwaysWritten,
            @Nullable Fact fact) {

        static Field of(RecordComponent component, ResolvableType owner) {
            ResolvableType type = ResolvableType.forType(component.getGenericType(), owner);
            JsonProperty renamed = annotation(component, JsonProperty.class);
            String name = renamed != null && !renamed.value().isEmpty() ? renamed.value() : component.getName();
            Shape shape = Shape.of(type);
            JsonFormat format = annotation(component, JsonFormat.class);
            if (format != null
                    && Arrays.asList(format.with()).contains(JsonFormat.Feature.ACCEPT_SINGLE_VALUE_AS_ARRAY)) {
                if (shape instanceof ListShape list) {
                    shape = new ListShape(list.element, true);
                } else if (shape instanceof SetShape set) {
                    shape = new SetShape(set.element, true);
                }
            }
            Object absent = null;
            if (shape instanceof ListShape) {
                absent = List.of();
            } else if (shape instanceof SetShape) {
                absent = Set.of();
            } else if (shape instanceof MapShape) {
                absent = Map.of();
            }
            boolean nullable = component.getAnnotatedType().isAnnotationPresent(Nullable.class);
            if (nullable) {
                absent = null;
            }
            JsonInclude include = annotation(component, JsonInclude.class);
            return new Field(
                    name,
                    component,
                    shape,
                    !nullable && absent == null,
                    absent,
                    include != null && include.value() == JsonInclude.Include.ALWAYS,
                    annotation(component, Fact.class));
        }

        /** Whether a body must have it: also a list of which at least one entry is asked. */
        boolean isNeeded() {
            return required || (fact != null && fact.leastEntries() > 0 && !nullable());
        }

        boolean nullable() {
            return component.getAnnotatedType().isAnnotationPresent(Nullable.class);
        }

        boolean bareAllowed() {
            if (shape instanceof ListShape list) {
                return list.bareAllowed;
            }
            return shape instanceof SetShape set && set.bareAllowed;
        }

        /** Jackson's annotations do not reach a component itself, only what is made from it. */
        static <A extends java.lang.annotation.Annotation> @Nullable A annotation(
                RecordComponent component, Class<A> annotation) {
            A onAccessor = component.getAccessor().getAnnotation(annotation);
            if (onAccessor != null) {
                return onAccessor;
            }
            try {
                return component
                        .getDeclaringRecord()
                        .getDeclaredField(component.getName())
                        .getAnnotation(annotation);
            } catch (NoSuchFieldException impossible) {
                throw new IllegalStateException(impossible);
            }
        }
    }

    /** Objects told apart by one field. */
    static final class OneOfShape extends Shape {

        private final Class<?> type;
        private final String discriminator;
        private final Map<String, ObjectShape> byKind;

        OneOfShape(Class<?> type, String discriminator, Map<String, ObjectShape> byKind) {
            this.type = type;
            this.discriminator = discriminator;
            this.byKind = byKind;
        }

        Class<?> type() {
            return type;
        }

        String discriminator() {
            return discriminator;
        }

        Map<String, ObjectShape> byKind() {
            return Collections.unmodifiableMap(byKind);
        }

        @Override
        Object read(JsonNode node, Walk walk) {
            if (!node.isObject()) {
                return wrongType(node, walk, "an object");
            }
            JsonNode kind = node.get(discriminator);
            ObjectShape shape = kind != null && kind.isString() ? byKind.get(kind.stringValue()) : null;
            if (shape != null) {
                return shape.read(node, walk, discriminator);
            }
            walk.enter(discriminator);
            if (kind == null) {
                walk.fault(
                        "missing-field",
                        () -> discriminator + " is missing; it is one of " + String.join(", ", byKind.keySet()));
            } else if (kind.isString()) {
                walk.fault(
                        "unknown-value",
                        () -> discriminator + " is \"" + Words.shortened(kind.stringValue())
                                + "\", which is not one of " + String.join(", ", byKind.keySet()));
            } else {
                wrongType(kind, walk, "one of " + String.join(", ", byKind.keySet()));
            }
            walk.leave();
            return UNREADABLE;
        }
    }
}
