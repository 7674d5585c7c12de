package dev.splicebook.exchange;

import dev.splicebook.hookup.Names;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/** Writes the circuits of a function map, and what is known of their connectors, so that it is read back the same. */
final class SheetWriter {

    /** What a cell begins with that is text whatever follows. */
    static final String TEXT_MARK = "'";

    /** The word for a list without entries, where that says more than nothing. */
    static final String NONE = "none";

    private static final String BETWEEN_ENTRIES = "; ";

    private SheetWriter() {}

    /** The sheet, with the columns that hold anything. */
    static String write(ObjectNode document) {
        List<Map<String, String>> rows = rows(document);
        Set<String> held = new HashSet<>(Set.of(SheetColumns.CONNECTOR, SheetColumns.PIN));
        rows.forEach(row -> held.addAll(row.keySet()));
        List<String> columns =
                SheetColumns.all().stream().filter(held::contains).toList();
        StringBuilder text = new StringBuilder();
        writeLine(text, columns);
        for (Map<String, String> row : rows) {
            writeLine(
                    text,
                    columns.stream().map(column -> row.getOrDefault(column, "")).toList());
        }
        return text.toString();
    }

    private static void writeLine(StringBuilder text, List<String> cells) {
        text.append(cells.stream().map(SheetWriter::quoted).collect(Collectors.joining(",")))
                .append("\r\n");
    }

    /** Blanks at the edges are quoted too, since some programs drop them. */
    private static String quoted(String content) {
        boolean needed =
                content.chars().anyMatch(letter -> ",\"\r\n".indexOf(letter) >= 0) || !content.equals(content.strip());
        return needed ? "\"" + content.replace("\"", "\"\"") + "\"" : content;
    }

    /** Whether a spreadsheet program would reckon a cell instead of showing it. */
    static boolean isFormula(String content) {
        return !content.isEmpty() && "=+-@\t\r".indexOf(content.charAt(0)) >= 0;
    }

    /** The entries of a cell. Blanks around them do not count; behind a backslash a semicolon, blank or backslash does. */
    static List<String> split(String content) {
        List<String> entries = new ArrayList<>();
        StringBuilder entry = new StringBuilder();
        int kept = 0;
        for (int at = 0; at < content.length(); at++) {
            char letter = content.charAt(at);
            if (letter == '\\' && at + 1 < content.length() && isSpecial(content.charAt(at + 1))) {
                at++;
                entry.append(content.charAt(at));
                kept = entry.length();
            } else if (letter == ';') {
                entry.setLength(kept);
                entries.add(entry.toString());
                entry.setLength(0);
                kept = 0;
            } else if (!Character.isWhitespace(letter)) {
                entry.append(letter);
                kept = entry.length();
            } else if (!entry.isEmpty()) {
                entry.append(letter);
            }
        }
        entry.setLength(kept);
        entries.add(entry.toString());
        entries.removeIf(String::isEmpty);
        return entries;
    }

    private static String joined(List<String> entries) {
        return entries.stream().map(SheetWriter::escaped).collect(Collectors.joining(BETWEEN_ENTRIES));
    }

    private static String escaped(String entry) {
        StringBuilder escaped = new StringBuilder();
        for (int at = 0; at < entry.length(); at++) {
            char letter = entry.charAt(at);
            boolean atEdge = at == 0 || entry.substring(at).isBlank();
            if (letter == ';' || letter == '\\' || (atEdge && Character.isWhitespace(letter))) {
                escaped.append('\\');
            }
            escaped.append(letter);
        }
        return escaped.toString();
    }

    private static boolean isSpecial(char letter) {
        return letter == ';' || letter == '\\' || Character.isWhitespace(letter);
    }

    private static List<Map<String, String>> rows(ObjectNode document) {
        List<Map<String, String>> rows = new ArrayList<>();
        Set<String> told = new HashSet<>();
        JsonNode connectors = document.path("connectors");
        for (Map.Entry<String, JsonNode> circuit : document.path("circuits").properties()) {
            Map<String, String> row = new HashMap<>();
            String connector = Names.connectorOf(circuit.getKey());
            put(row, SheetColumns.CONNECTOR, connector);
            put(row, SheetColumns.PIN, Names.pinOf(circuit.getKey()));
            SheetColumns.ofCircuit().forEach((column, field) -> put(row, column, cell(circuit.getValue(), field)));
            for (String facts : SheetColumns.facts()) {
                putFacts(row, facts, circuit.getValue().path(facts));
            }
            if (told.add(connector)) {
                putConnector(row, connectors.path(connector));
            }
            rows.add(row);
        }
        for (Map.Entry<String, JsonNode> connector : connectors.properties()) {
            Map<String, String> row = new HashMap<>();
            putConnector(row, connector.getValue());
            if (!row.isEmpty() && told.add(connector.getKey())) {
                put(row, SheetColumns.CONNECTOR, connector.getKey());
                rows.add(row);
            }
        }
        return rows;
    }

    private static void putFacts(Map<String, String> row, String name, JsonNode facts) {
        String kind = facts.path(SheetColumns.KIND).asString("");
        Map<String, SheetColumns.Field> fields = SheetColumns.ofKind(kind);
        if (fields != null) {
            put(row, name + "." + SheetColumns.KIND, kind);
            fields.forEach((fact, field) -> put(row, name + "." + fact, cell(facts, field)));
        }
    }

    private static void putConnector(Map<String, String> row, JsonNode connector) {
        SheetColumns.ofConnector().forEach((column, field) -> put(row, column, cell(connector, field)));
    }

    private static void put(Map<String, String> row, String column, @Nullable String content) {
        if (content != null && !content.isEmpty()) {
            row.put(column, content);
        }
    }

    private static @Nullable String cell(JsonNode object, SheetColumns.Field field) {
        JsonNode value = object.get(field.name());
        if (value == null) {
            return null;
        }
        return switch (field.form()) {
            case TEXT -> marked(value.stringValue());
            case NUMBER, TRUTH -> value.asString();
            case WORDS -> words(value, field);
            case ENTRIES -> marked(joined(texts(value)));
        };
    }

    private static @Nullable String words(JsonNode value, SheetColumns.Field field) {
        List<String> words = texts(value);
        if (words.isEmpty()) {
            return field.emptyTold() ? NONE : null;
        }
        return String.join(" ", words);
    }

    /** The texts of a list, or the one that stands for a list of one. */
    private static List<String> texts(JsonNode value) {
        return value.isArray() ? value.valueStream().map(JsonNode::stringValue).toList() : List.of(value.stringValue());
    }

    private static String marked(String content) {
        boolean needed = isFormula(content) || content.startsWith(TEXT_MARK) || !content.equals(content.strip());
        return needed ? TEXT_MARK + content : content;
    }
}
