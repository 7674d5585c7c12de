package dev.splicebook.exchange;

import dev.splicebook.hookup.Circuit;
import dev.splicebook.hookup.Names;
import dev.splicebook.hookup.Vehicle;
import dev.splicebook.web.Fault;
import dev.splicebook.web.Words;
import java.math.BigDecimal;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** One row of a spreadsheet: a circuit and what is known of its connector, or a connector alone. */
final class SheetRow {

    private static final JsonNodeFactory NODES = JsonNodeFactory.instance;
    private static final Pattern NUMBER =
            Pattern.compile("-?(0|[1-9][0-9]{0,29})(\\.[0-9]{1,30})?([eE][+-]?[0-9]{1,3})?");
    private static final Pattern WITH_COMMA = Pattern.compile("-?[0-9]+,[0-9]+");
    private static final Pattern WITH_PLUS = Pattern.compile("\\+[0-9].*");
    private static final Pattern PIN_NUMBER = Pattern.compile("0*[0-9]{1,9}");

    private final SheetReader sheet;
    private final List<Cell> all;
    private final Map<String, Cell> cells;
    private final ObjectNode circuit = NODES.objectNode();
    private final Map<String, Cell> places = new HashMap<>();
    private @Nullable String name;
    private String pointer = "";

    /** @param cells those that say something, by column */
    SheetRow(SheetReader sheet, List<Cell> all, Map<String, Cell> cells) {
        this.sheet = sheet;
        this.all = all;
        this.cells = cells;
    }

    void read() {
        String connector = readName(SheetColumns.CONNECTOR, Names.NAME, Names.FORM);
        String pin = readName(SheetColumns.PIN, Names.PIN, Names.PIN_FORM);
        name = nameOf(connector, pin);
        pointer = name == null ? "" : Fault.pointerTo("circuits", name);
        places.put("", place(SheetColumns.PIN));
        SheetColumns.ofCircuit().forEach((column, field) -> put(circuit, "", column, field));
        SheetColumns.facts().forEach(this::readFacts);
        sheet.judge(circuit, Circuit.class, pointer, name != null, this::placeOf);
        if (connector != null) {
            refuseOtherCase(connector);
            readConnector(connector);
        } else if (sheet.hasColumn(SheetColumns.CONNECTOR) && !isGiven(SheetColumns.CONNECTOR)) {
            refuseConnectorColumns();
        }
        if (name != null && isFirst(name)) {
            sheet.put(pointer, name, circuit, places);
        }
    }

    private boolean isGiven(String column) {
        return cells.containsKey(column) || sheet.isBroken(all, column);
    }

    /** The cell of a column, or where it would stand. */
    private Cell place(String column) {
        Cell cell = cells.get(column);
        if (cell != null) {
            return cell;
        }
        int at = sheet.positionOf(column);
        if (at == 0) {
            return all.get(0);
        }
        return at <= all.size()
                ? all.get(at - 1).named(column)
                : new Cell(all.get(all.size() - 1).line(), at, column, "");
    }

    private Cell placeOf(String below) {
        Cell cell = SheetReader.nearest(places, below);
        return cell == null ? place(SheetColumns.PIN) : cell;
    }

    private @Nullable String readName(String column, Pattern pattern, String form) {
        Cell cell = cells.get(column);
        String read = cell == null ? null : text(cell, "", SheetColumns.Form.TEXT);
        if (cell == null || read == null) {
            return null;
        }
        if (!pattern.matcher(read).matches()) {
            sheet.faults()
                    .inCell(
                            cell,
                            "",
                            "bad-form",
                            column + " is \"" + Words.shortened(read) + "\", which is not " + form);
            return null;
        }
        return read;
    }

    /** The name of the circuit; null if the row has none, or none that can be read. */
    private @Nullable String nameOf(@Nullable String connector, @Nullable String pin) {
        if (!sheet.hasColumn(SheetColumns.CONNECTOR) || !sheet.hasColumn(SheetColumns.PIN)) {
            return null;
        }
        if (!isGiven(SheetColumns.PIN)) {
            boolean connectorAlone = isGiven(SheetColumns.CONNECTOR)
                    && cells.size() > 1
                    && cells.keySet().stream()
                            .allMatch(column -> column.equals(SheetColumns.CONNECTOR)
                                    || SheetColumns.ofConnector().containsKey(column));
            if (!connectorAlone) {
                sheet.faults().inCell(place(SheetColumns.PIN), "", "missing-value", "the pin is empty");
            }
            return null;
        }
        if (!isGiven(SheetColumns.CONNECTOR)) {
            if (Vehicle.CHASSIS.equals(pin)) {
                return pin;
            }
            sheet.faults()
                    .inCell(
                            place(SheetColumns.CONNECTOR),
                            "",
                            "missing-value",
                            "the connector is empty; only the pin " + Vehicle.CHASSIS + " belongs to none");
            return null;
        }
        return connector == null || pin == null ? null : connector + "-" + pin;
    }

    private boolean isFirst(String circuitName) {
        String pin = Names.pinOf(circuitName);
        String key = PIN_NUMBER.matcher(pin).matches()
                ? Names.connectorOf(circuitName) + "-" + pin.replaceFirst("^0+(?=.)", "")
                : circuitName;
        Cell place = place(SheetColumns.PIN);
        Integer first = sheet.firstLineOf(key, place.line());
        if (first != null) {
            sheet.faults()
                    .inCell(
                            place,
                            pointer,
                            "duplicate-pin",
                            circuitName + " is a pin that line " + first + " has already");
        }
        return first == null;
    }

    private void readConnector(String connector) {
        String at = Fault.pointerTo("connectors", connector);
        Map<String, JsonNode> given = sheet.connector(connector);
        SheetColumns.ofConnector().forEach((column, field) -> {
            Cell cell = cells.get(column);
            JsonNode value = cell == null ? null : value(cell, at + "/" + field.name(), field);
            if (cell == null || value == null) {
                return;
            }
            JsonNode earlier = given.putIfAbsent(field.name(), value);
            if (earlier == null) {
                sheet.placeOfConnector(at, field.name(), cell);
            } else if (!earlier.equals(value)) {
                Cell first = Objects.requireNonNull(sheet.placeOf(at + "/" + field.name()));
                sheet.faults()
                        .inCell(
                                cell,
                                at + "/" + field.name(),
                                "inconsistent",
                                column + " of " + connector + " is " + quoted(cell) + ", and line " + first.line()
                                        + " says " + quoted(first));
            }
        });
    }

    /** Two connectors whose names differ in case alone are one that was typed twice. */
    private void refuseOtherCase(String connector) {
        Cell cell = place(SheetColumns.CONNECTOR);
        Cell first = sheet.firstNaming(connector, cell);
        if (!first.text().strip().equals(cell.text().strip())) {
            sheet.faults()
                    .inCell(
                            cell,
                            "",
                            "inconsistent",
                            "connector is " + quoted(cell) + ", and line " + first.line() + " says " + quoted(first)
                                    + ", which differs in case alone");
        }
    }

    private void refuseConnectorColumns() {
        SheetColumns.ofConnector().keySet().forEach(column -> {
            Cell cell = cells.get(column);
            if (cell != null) {
                sheet.faults()
                        .inCell(
                                cell,
                                pointer,
                                "inconsistent",
                                column + " is " + quoted(cell) + " in a row of no connector");
            }
        });
    }

    private void readFacts(String facts) {
        String prefix = facts + ".";
        List<Cell> given = cells.values().stream()
                .filter(cell -> String.valueOf(cell.name()).startsWith(prefix))
                .toList();
        String kindColumn = prefix + SheetColumns.KIND;
        if (given.isEmpty() || sheet.isBroken(all, kindColumn)) {
            return;
        }
        Cell kindCell = cells.get(kindColumn);
        if (kindCell == null) {
            Cell first = given.get(0);
            sheet.faults()
                    .inCell(
                            first,
                            pointerTo("/" + facts),
                            "missing-value",
                            first.name() + " is " + quoted(first) + ", and " + kindColumn + " is empty");
            return;
        }
        places.put("/" + facts, kindCell);
        String kind = text(kindCell, pointerTo("/" + facts + "/" + SheetColumns.KIND), SheetColumns.Form.TEXT);
        if (kind == null) {
            return;
        }
        ObjectNode node = circuit.putObject(facts);
        node.put(SheetColumns.KIND, kind);
        Map<String, SheetColumns.Field> fields = SheetColumns.ofKind(kind);
        if (fields == null) {
            // the kind is judged with the rest
            return;
        }
        for (Cell cell : given) {
            String column = String.valueOf(cell.name());
            String fact = column.substring(prefix.length());
            SheetColumns.Field field = fields.get(fact);
            if (field != null) {
                put(node, "/" + facts, column, field);
            } else if (!fact.equals(SheetColumns.KIND)) {
                sheet.faults()
                        .inCell(
                                cell,
                                pointerTo("/" + facts + "/" + fact),
                                "not-of-kind",
                                column + " is " + quoted(cell) + ", and the kind " + kind + " has no " + fact
                                        + "; it has "
                                        + (fields.isEmpty() ? "no facts" : String.join(", ", fields.keySet())));
            }
        }
    }

    private String pointerTo(String below) {
        return name == null ? "" : pointer + below;
    }

    private void put(ObjectNode node, String above, String column, SheetColumns.Field field) {
        Cell cell = cells.get(column);
        if (cell != null) {
            String at = above + "/" + field.name();
            places.put(at, cell);
            JsonNode value = value(cell, pointerTo(at), field);
            if (value != null) {
                node.set(field.name(), value);
            }
        }
    }

    /** A cell as a value of a field; null with the fault told where it is none. */
    private @Nullable JsonNode value(Cell cell, String at, SheetColumns.Field field) {
        String content = text(cell, at, field.form());
        if (content == null) {
            return null;
        }
        return switch (field.form()) {
            case TEXT -> NODES.stringNode(content);
            case NUMBER -> number(cell, at, content);
            case TRUTH -> truth(cell, at, content);
            case WORDS -> words(content);
            case ENTRIES -> list(SheetWriter.split(content));
        };
    }

    /** What a cell says, without the mark that keeps it from being a formula; null with the fault told. */
    private @Nullable String text(Cell cell, String at, SheetColumns.Form form) {
        String content = cell.text();
        if (content.indexOf('\0') >= 0) {
            sheet.faults().inCell(cell, at, "bad-character", cell.name() + " holds the character U+0000");
            return null;
        }
        if (content.startsWith(SheetWriter.TEXT_MARK)) {
            return content.substring(SheetWriter.TEXT_MARK.length());
        }
        String stripped = content.strip();
        boolean number = form == SheetColumns.Form.NUMBER
                && (NUMBER.matcher(stripped).matches()
                        || WITH_PLUS.matcher(stripped).matches());
        if (!number && (SheetWriter.isFormula(content) || SheetWriter.isFormula(stripped))) {
            sheet.faults()
                    .inCell(
                            cell,
                            at,
                            "formula-like",
                            cell.name() + " is \"" + Words.shortened(visible(content))
                                    + "\", which spreadsheet programs take for a formula; behind a leading ' it is text");
            return null;
        }
        return stripped;
    }

    private @Nullable JsonNode number(Cell cell, String at, String content) {
        if (!NUMBER.matcher(content).matches()) {
            boolean comma = WITH_COMMA.matcher(content).matches();
            sheet.faults()
                    .inCell(
                            cell,
                            at,
                            "wrong-type",
                            cell.name() + " is " + quoted(cell) + ", where a number belongs"
                                    + (comma ? "; the decimal sign is a point" : "")
                                    + (WITH_PLUS.matcher(content).matches() ? "; it stands without a plus" : ""));
            return null;
        }
        if (Double.isInfinite(Double.parseDouble(content))) {
            sheet.faults()
                    .inCell(
                            cell,
                            at,
                            "number-out-of-range",
                            cell.name() + " is " + quoted(cell) + ", beyond what is computed with, 1.8e308");
            return null;
        }
        BigDecimal number = new BigDecimal(content);
        return number.scale() == 0 ? NODES.numberNode(number.toBigIntegerExact()) : NODES.numberNode(number);
    }

    private @Nullable JsonNode truth(Cell cell, String at, String content) {
        String lower = content.toLowerCase(Locale.ROOT);
        if (!lower.equals("true") && !lower.equals("false")) {
            sheet.faults()
                    .inCell(
                            cell,
                            at,
                            "wrong-type",
                            cell.name() + " is " + quoted(cell) + ", where true or false belongs");
            return null;
        }
        return NODES.booleanNode(lower.equals("true"));
    }

    private static JsonNode words(String content) {
        return list(
                content.equals(SheetWriter.NONE)
                        ? List.of()
                        : List.of(content.strip().split("\\s+", -1)));
    }

    private static JsonNode list(List<String> entries) {
        ArrayNode list = NODES.arrayNode();
        entries.forEach(list::add);
        return list;
    }

    private static String quoted(Cell cell) {
        return "\"" + Words.shortened(visible(cell.text().strip())) + "\"";
    }

    private static String visible(String content) {
        return content.replace("\t", "\\t").replace("\r", "\\r").replace("\n", "\\n");
    }
}
