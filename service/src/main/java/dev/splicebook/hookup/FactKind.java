package dev.splicebook.hookup;

import com.fasterxml.jackson.annotation.JsonProperty;
import java.lang.reflect.RecordComponent;
import java.util.Arrays;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/** The kinds of {@link Fact}, and what each may tell. */
public enum FactKind {
    /** The whole of it. */
    HOOKUP(Map.of(
            "vehicle", FactType.one("VEHICLE"),
            "parts", FactType.many("PART"),
            "terminals", FactType.many("TERMINAL"),
            "connections", FactType.many("CONNECTION"),
            "nets", FactType.many("NET"),
            "findings", FactType.many("FINDING"),
            "wishes", FactType.many("WISH"))),
    /** The vehicle. */
    VEHICLE(Map.of(
            "maker", FactType.TEXT,
            "model", FactType.TEXT,
            "market", FactType.TEXT,
            "equipment", FactType.TEXTS,
            "unplugged", FactType.TEXTS,
            "cuts", FactType.TEXTS)),
    /** One part. */
    PART(Map.of(
            "ref", FactType.TEXT,
            "device", FactType.TEXT,
            "maker", FactType.TEXT,
            "name", FactType.TEXT,
            "kind", FactType.TEXT,
            "mode", FactType.TEXT,
            "settings", FactType.SETTINGS,
            "terminals", FactType.many("TERMINAL"))),
    /** One terminal of a part or circuit of the vehicle, with the figures, choices and truth values of its electrical facts. */
    TERMINAL(terminal()),
    /** One connection. */
    CONNECTION(Map.of(
            "ref", FactType.TEXT,
            "from", FactType.one("TERMINAL"),
            "to", FactType.one("TERMINAL"),
            "size", FactType.TEXT,
            "areaMm2", FactType.NUMBER,
            "material", FactType.TEXT,
            "insulationCelsius", FactType.NUMBER,
            "lengthMetres", FactType.NUMBER,
            "fuseAmps", FactType.NUMBER,
            "fuseFromSourceMetres", FactType.NUMBER)),
    /** Terminals that are one conductor by connections, plugs, fuses and what joins them inside parts, relays at rest. */
    NET(Map.of(
            "terminals",
            FactType.many("TERMINAL"),
            "connections",
            FactType.many("CONNECTION"),
            "kinds",
            FactType.TEXTS,
            "functions",
            FactType.TEXTS)),
    /** One finding of the rules of the service. */
    FINDING(Map.of(
            "rule", FactType.TEXT,
            "severity", FactType.TEXT,
            "message", FactType.TEXT,
            "terminals", FactType.TEXTS,
            "connections", FactType.TEXTS,
            "measured", FactType.NUMBER,
            "limit", FactType.NUMBER,
            "unit", FactType.TEXT,
            "states", FactType.TEXTS)),
    /** One wish. */
    WISH(Map.of("function", FactType.TEXT, "want", FactType.TEXT));

    /** Fields that name something, and tell no fact of it. */
    private static final Set<String> NAMES = Set.of("ref", "part", "message");

    private final Map<String, FactType> fields;

    FactKind(Map<String, FactType> fields) {
        this.fields = Collections.unmodifiableMap(fields);
    }

    /** What a fact of this kind may tell, by name. */
    public Map<String, FactType> fields() {
        return fields;
    }

    /** Whether a field only names something, so that its value is no fact. */
    public boolean isName(String field) {
        return NAMES.contains(field)
                || (this == TERMINAL && field.equals("name"))
                || (this == FINDING && isList(field));
    }

    private boolean isList(String field) {
        return field.equals("terminals") || field.equals("connections");
    }

    /** What is asked of a field. */
    public enum Form {
        TEXT,
        NUMBER,
        TRUTH,
        TEXTS,
        /** Texts by text. */
        SETTINGS,
        /** A fact. */
        ONE,
        /** Facts. */
        MANY
    }

    /** The type of a field; {@code of} is the kind of its facts, absent where it has none. */
    public record FactType(Form form, @Nullable String of) {

        static final FactType TEXT = new FactType(Form.TEXT, null);
        static final FactType NUMBER = new FactType(Form.NUMBER, null);
        static final FactType TRUTH = new FactType(Form.TRUTH, null);
        static final FactType TEXTS = new FactType(Form.TEXTS, null);
        static final FactType SETTINGS = new FactType(Form.SETTINGS, null);

        // by name, as the kinds refer to each other
        static FactType one(String kind) {
            return new FactType(Form.ONE, kind);
        }

        static FactType many(String kind) {
            return new FactType(Form.MANY, kind);
        }

        /** @throws IllegalArgumentException for a field without facts */
        public FactKind kind() {
            return valueOf(String.valueOf(of));
        }
    }

    @Override
    public String toString() {
        return name().charAt(0) + name().substring(1).toLowerCase(Locale.ROOT);
    }

    private static Map<String, FactType> terminal() {
        Map<String, FactType> fields = new LinkedHashMap<>();
        for (String text : new String[] {"ref", "part", "name", "function", "colour", "kind", "unused"}) {
            fields.put(text, FactType.TEXT);
        }
        fields.put("connected", FactType.TRUTH);
        electricalKinds(Electrical.class)
                .flatMap(kind -> Arrays.stream(kind.getRecordComponents()))
                .forEach(component -> {
                    FactType type = scalar(component);
                    if (type != null) {
                        fields.putIfAbsent(nameOf(component), type);
                    }
                });
        return fields;
    }

    private static Stream<Class<?>> electricalKinds(Class<?> sealed) {
        return Arrays.stream(sealed.getPermittedSubclasses())
                .flatMap(kind -> kind.isRecord() ? Stream.of(kind) : electricalKinds(kind));
    }

    /** As in JSON. */
    static String nameOf(RecordComponent component) {
        JsonProperty given = component.getAccessor().getAnnotation(JsonProperty.class);
        return given == null ? component.getName() : given.value();
    }

    /** As in JSON. */
    static String nameOf(Enum<?> constant) {
        try {
            JsonProperty given =
                    constant.getDeclaringClass().getField(constant.name()).getAnnotation(JsonProperty.class);
            return given == null ? constant.name().toLowerCase(Locale.ROOT).replace('_', '-') : given.value();
        } catch (NoSuchFieldException impossible) {
            throw new IllegalStateException(impossible);
        }
    }

    /** Null for a component that is neither a figure, nor a choice, nor a truth value. */
    static @Nullable FactType scalar(RecordComponent component) {
        Class<?> type = component.getType();
        if (type == Double.class || type == double.class) {
            return FactType.NUMBER;
        }
        if (type == Boolean.class || type == boolean.class) {
            return FactType.TRUTH;
        }
        return type.isEnum() ? FactType.TEXT : null;
    }
}
