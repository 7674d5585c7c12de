package dev.splicebook.exchange;

import com.fasterxml.jackson.annotation.JsonProperty;
import com.fasterxml.jackson.annotation.JsonSubTypes;
import com.fasterxml.jackson.annotation.JsonTypeInfo;
import dev.splicebook.hookup.Circuit;
import dev.splicebook.hookup.Connector;
import dev.splicebook.hookup.Electrical;
import java.lang.reflect.ParameterizedType;
import java.lang.reflect.RecordComponent;
import java.lang.reflect.Type;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * The columns of a spreadsheet of circuits, taken from the records of the model: a fact that is added there is a column
 * here.
 */
public final class SheetColumns {

    static final String CONNECTOR = "connector";
    static final String PIN = "pin";
    static final String KIND =
            Electrical.class.getAnnotation(JsonTypeInfo.class).property();

    /** What a cell holds. */
    enum Form {
        /** Text, or one of the constants of an enum. */
        TEXT,
        /** A number as in JSON. */
        NUMBER,
        /** {@code true} or {@code false}. */
        TRUTH,
        /** Constants of an enum, separated by blanks. */
        WORDS,
        /** Texts, separated by semicolons. */
        ENTRIES
    }

    /**
     * What stands behind a column.
     *
     * @param name in the document
     * @param emptyTold whether an empty list says something else than an absent one
     */
    record Field(String name, Form form, boolean emptyTold) {}

    /** The fields of a circuit but its facts, by column. */
    private static final Map<String, Field> CIRCUIT = new LinkedHashMap<>();
    /** The fields of a circuit that hold facts. */
    private static final List<String> FACTS = new ArrayList<>();
    /** The facts of each kind, by kind, then by name. */
    private static final Map<String, Map<String, Field>> BY_KIND = byKind();
    /** The fields of a connector, by column. */
    private static final Map<String, Field> OF_CONNECTOR = connectorColumns();

    private static final List<String> ALL;
    private static final Map<String, String> BY_LOWER_CASE;

    static {
        for (RecordComponent component : Circuit.class.getRecordComponents()) {
            if (component.getType() == Electrical.class) {
                FACTS.add(name(component));
            } else {
                CIRCUIT.put(name(component), field(component));
            }
        }
        List<String> all = new ArrayList<>(List.of(CONNECTOR, PIN));
        all.addAll(CIRCUIT.keySet());
        for (String facts : FACTS) {
            all.add(facts + "." + KIND);
            factNames().forEach(fact -> all.add(facts + "." + fact));
        }
        all.addAll(OF_CONNECTOR.keySet());
        ALL = List.copyOf(all);
        BY_LOWER_CASE =
                ALL.stream().collect(Collectors.toUnmodifiableMap(name -> name.toLowerCase(Locale.ROOT), name -> name));
    }

    private SheetColumns() {}

    /** Every column in the order in which they are written. */
    static List<String> all() {
        return ALL;
    }

    /** The column that a name means, whatever its case; the name itself if it means none. */
    static String named(String name) {
        return BY_LOWER_CASE.getOrDefault(name.toLowerCase(Locale.ROOT), name);
    }

    static Map<String, Field> ofCircuit() {
        return Collections.unmodifiableMap(CIRCUIT);
    }

    /** The fields of a circuit that hold facts, like {@code whenPlugged}. */
    static List<String> facts() {
        return Collections.unmodifiableList(FACTS);
    }

    /** The facts of a kind by name; absent for no kind. */
    static @Nullable Map<String, Field> ofKind(String kind) {
        return BY_KIND.get(kind);
    }

    static Map<String, Field> ofConnector() {
        return OF_CONNECTOR;
    }

    /** The columns in words, for the written API. */
    public static String describe() {
        StringBuilder text = new StringBuilder();
        text.append(
                "The first line names the columns, in any order and case; those that are not needed are left out. Separated by"
                        + " comma, semicolon or tab, as that line shows; UTF-8; quoted as in RFC 4180; at most 8 MB; blank lines"
                        + " are skipped. An empty cell says nothing.\n\n");
        text.append("- `connector` and `pin` are needed. `battery` and `plus` or `minus` are the battery's posts; the"
                + " chassis is the pin `chassis` of no connector.\n");
        text.append("- Of the circuit: ").append(listed(CIRCUIT.keySet())).append(".\n");
        text.append("- Of its connector, on any of its rows, or on one without a pin: ")
                .append(listed(OF_CONNECTOR.keySet()))
                .append(".\n");
        text.append("- The facts, as `")
                .append(FACTS.get(0))
                .append('.')
                .append(KIND)
                .append("`, and so on, or, where it"
                        + " makes a difference whether the connector is plugged in, the same names behind ");
        text.append(FACTS.stream().skip(1).map(facts -> "`" + facts + ".`").collect(Collectors.joining(" and ")));
        text.append(":\n");
        BY_KIND.forEach((kind, fields) -> text.append("    - `")
                .append(kind)
                .append("`: ")
                .append(fields.isEmpty() ? "none" : listed(fields.keySet()))
                .append(".\n"));
        text.append("\nSeveral entries of ")
                .append(listed(of(Form.ENTRIES)))
                .append(" are separated by a semicolon, and `\\;` is a semicolon within one. Several words of ")
                .append(listed(of(Form.WORDS)))
                .append(
                        " are separated by blanks, and `none` is a list without any. The decimal sign is a point. A text"
                                + " that begins with `=`, `+`, `-`, `@`, a tab or a carriage return is refused, because spreadsheet"
                                + " programs take it for a formula; behind a leading `'`, which is not kept, it is text.");
        return text.toString();
    }

    private static Set<String> of(Form form) {
        Set<String> names = new LinkedHashSet<>();
        Map<String, Field> all = new LinkedHashMap<>(CIRCUIT);
        BY_KIND.values().forEach(all::putAll);
        all.forEach((name, field) -> {
            if (field.form() == form) {
                names.add(name);
            }
        });
        return names;
    }

    private static String listed(Collection<String> names) {
        return names.stream().map(name -> "`" + name + "`").collect(Collectors.joining(", "));
    }

    private static Set<String> factNames() {
        Set<String> names = new LinkedHashSet<>();
        BY_KIND.values().forEach(fields -> names.addAll(fields.keySet()));
        return names;
    }

    private static Map<String, Map<String, Field>> byKind() {
        Map<String, Map<String, Field>> byKind = new LinkedHashMap<>();
        for (JsonSubTypes.Type type :
                Electrical.class.getAnnotation(JsonSubTypes.class).value()) {
            Map<String, Field> fields = new LinkedHashMap<>();
            for (RecordComponent component : type.value().getRecordComponents()) {
                fields.put(name(component), field(component));
            }
            byKind.put(type.name(), Collections.unmodifiableMap(fields));
        }
        return Collections.unmodifiableMap(byKind);
    }

    private static Map<String, Field> connectorColumns() {
        Map<String, Field> columns = new LinkedHashMap<>();
        for (RecordComponent component : Connector.class.getRecordComponents()) {
            boolean plain = !Set.of("access", "face", "mates").contains(component.getName());
            if (plain) {
                String name = name(component);
                columns.put(CONNECTOR + Character.toUpperCase(name.charAt(0)) + name.substring(1), field(component));
            }
        }
        return Collections.unmodifiableMap(columns);
    }

    /** Jackson's annotations do not reach a component itself, only what is made from it. */
    private static String name(RecordComponent component) {
        JsonProperty renamed = component.getAccessor().getAnnotation(JsonProperty.class);
        return renamed == null || renamed.value().isEmpty() ? component.getName() : renamed.value();
    }

    private static Field field(RecordComponent component) {
        boolean nullable = component.getAnnotatedType().isAnnotationPresent(Nullable.class);
        Form form = Objects.requireNonNull(
                form(component.getGenericType()), () -> "no form of a cell for " + component + " of a circuit");
        return new Field(name(component), form, nullable && form == Form.WORDS);
    }

    private static @Nullable Form form(Type type) {
        if (type instanceof ParameterizedType list && list.getRawType() == List.class) {
            Type entry = list.getActualTypeArguments()[0];
            if (entry == String.class) {
                return Form.ENTRIES;
            }
            return entry instanceof Class<?> constants && constants.isEnum() ? Form.WORDS : null;
        }
        if (type == Double.class || type == Integer.class || type == Long.class) {
            return Form.NUMBER;
        }
        if (type == Boolean.class) {
            return Form.TRUTH;
        }
        boolean text = type instanceof Class<?> raw
                && (raw == String.class
                        || raw == LocalDate.class
                        || raw.isEnum()
                        || (raw.isRecord()
                                && raw.getRecordComponents().length == 1
                                && raw.getRecordComponents()[0].getType() == String.class));
        return text ? Form.TEXT : null;
    }
}
