package dev.splicebook.exchange;

import dev.splicebook.hookup.FunctionMap;
import dev.splicebook.web.Fault;
import dev.splicebook.web.Sent;
import dev.splicebook.web.StrictReader;
import dev.splicebook.web.Words;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/**
 * Reads a spreadsheet into the circuits and connectors of a function map, and collects every fault on the way: those of
 * the table, those of the values, judged by the reader of bodies, and those of the map that it makes.
 */
final class SheetReader {

    /** Rows enough for the largest map and all its connectors, so that reading stops in time. */
    private static final int MOST_ROWS = 6000;

    /** A fault may hide another behind it: of a value, of the facts, of the circuit, of the map. */
    private static final int MOST_PASSES = 5;

    /** As many as are told of a file; to look for what is near costs time that a hostile header would multiply. */
    private static final int MOST_WITH_NEAREST = 100;

    private static final JsonNodeFactory NODES = JsonNodeFactory.instance;

    private final SheetFaults faults = new SheetFaults();
    private final Map<Integer, String> columns = new LinkedHashMap<>();
    private final Map<String, Cell> firstNamings = new HashMap<>();
    private final Set<Integer> unnamed = new HashSet<>();
    private final Map<String, Integer> lineByPin = new HashMap<>();
    private final Map<String, Cell> places = new HashMap<>();
    private final ObjectNode circuits = NODES.objectNode();
    private final Map<String, Map<String, JsonNode>> connectors = new LinkedHashMap<>();
    private SheetText text = new SheetText("", Collections.emptyNavigableSet());

    private SheetReader() {}

    /** Where a JSON pointer leads in the sheet. */
    interface Places {
        @Nullable
        Cell find(String pointer);
    }

    /**
     * The function map that a spreadsheet makes of a document: its circuits in place of the document's, its connector
     * columns over what the document says of those connectors.
     *
     * @param document is changed
     * @throws dev.splicebook.web.ProblemException 400 with every fault, by line and column
     */
    static Sent<FunctionMap> read(byte[] body, ObjectNode document) {
        SheetReader reader = new SheetReader();
        reader.read(body);
        return reader.onto(document);
    }

    SheetFaults faults() {
        return faults;
    }

    boolean hasColumn(String name) {
        return columns.containsValue(name);
    }

    /** Where a column stands, from 1; 0 if the header does not have it. */
    int positionOf(String name) {
        for (Map.Entry<Integer, String> column : columns.entrySet()) {
            if (column.getValue().equals(name)) {
                return column.getKey();
            }
        }
        return 0;
    }

    /** Whether a row has a cell in this column that could not be decoded, and has its fault. */
    boolean isBroken(List<Cell> row, String column) {
        int position = positionOf(column);
        return position > 0 && position <= row.size() && text.isBroken(row.get(position - 1));
    }

    /** Takes a circuit in. */
    void put(String pointer, String name, ObjectNode circuit, Map<String, Cell> ownPlaces) {
        circuits.set(name, circuit);
        ownPlaces.forEach((below, cell) -> places.put(pointer + below, cell));
    }

    /** The line that has a pin already; absent if this is the first. */
    @Nullable
    Integer firstLineOf(String pin, int line) {
        return lineByPin.putIfAbsent(pin, line);
    }

    /** What the sheet says of a connector, by field. */
    Map<String, JsonNode> connector(String name) {
        return connectors.computeIfAbsent(name, any -> new LinkedHashMap<>());
    }

    /** The cell that named a connector first, of those whose names differ in case alone. */
    Cell firstNaming(String connector, Cell cell) {
        return firstNamings.computeIfAbsent(connector.toLowerCase(Locale.ROOT), any -> cell);
    }

    /** Notes where a value of a connector stands; the first place of a connector is that of the whole. */
    void placeOfConnector(String pointer, String field, Cell cell) {
        places.putIfAbsent(pointer, cell);
        places.put(pointer + "/" + field, cell);
    }

    @Nullable
    Cell placeOf(String pointer) {
        return nearest(places, pointer);
    }

    /** The place of a pointer or of the nearest above it. */
    static @Nullable Cell nearest(Map<String, Cell> places, String pointer) {
        for (String at = pointer; !at.isEmpty(); at = at.substring(0, at.lastIndexOf('/'))) {
            Cell cell = places.get(at);
            if (cell != null) {
                return cell;
            }
        }
        return null;
    }

    private void read(byte[] body) {
        SheetText decoded = SheetText.decode(body, faults);
        if (decoded == null) {
            return;
        }
        text = decoded;
        SheetTable table = SheetTable.of(text, faults);
        List<Cell> header = table.next();
        if (header == null) {
            if (!faults.any()) {
                faults.ofAll("", "empty-body", "the file is empty; its first line names the columns");
            }
            return;
        }
        if (header.stream().noneMatch(cell -> isColumn(cell) || text.isBroken(cell))) {
            faults.inLine(
                    header.get(0).line(),
                    "",
                    "missing-header",
                    "the line names no column that is known; the first line names the columns, "
                            + SheetColumns.CONNECTOR + " and " + SheetColumns.PIN
                            + " among them, separated by comma, semicolon or tab");
            return;
        }
        readHeader(header);
        int rows = 0;
        for (List<Cell> row = table.next(); row != null; row = table.next()) {
            if (++rows > MOST_ROWS) {
                faults.inLine(
                        row.get(0).line(),
                        "",
                        "too-many-rows",
                        "the file goes on behind " + MOST_ROWS + " rows, more than a map has");
                return;
            }
            new SheetRow(this, row, cells(row, header.size())).read();
        }
        if (rows == 0 && !faults.any()) {
            faults.inLine(header.get(0).line(), "", "no-rows", "the header stands alone, without a row of a circuit");
        }
    }

    private static boolean isColumn(Cell cell) {
        return SheetColumns.all().contains(SheetColumns.named(cell.text().strip()));
    }

    private void readHeader(List<Cell> header) {
        Map<String, Cell> seen = new HashMap<>();
        int unknown = 0;
        for (Cell cell : header) {
            String name = SheetColumns.named(cell.text().strip());
            Cell named = cell.named(Words.shortened(name));
            if (text.isBroken(cell)) {
                unnamed.add(cell.column());
                continue;
            }
            if (name.isEmpty()) {
                continue;
            }
            Cell first = seen.putIfAbsent(name, cell);
            if (!SheetColumns.all().contains(name)) {
                faults.inCell(
                        named,
                        "",
                        "unknown-column",
                        "there is no column \"" + Words.shortened(name) + "\""
                                + (++unknown > MOST_WITH_NEAREST
                                        ? ""
                                        : "; the nearest are "
                                                + String.join(", ", Words.nearest(name, SheetColumns.all()))));
            } else if (first != null) {
                faults.inCell(
                        named,
                        "",
                        "duplicate-column",
                        "the column " + name + " stands in column " + first.column() + " already");
            }
            columns.put(cell.column(), name);
        }
        for (String needed : List.of(SheetColumns.CONNECTOR, SheetColumns.PIN)) {
            if (!seen.containsKey(needed) && unnamed.isEmpty()) {
                faults.inLine(
                        header.get(0).line(),
                        "",
                        "missing-column",
                        "the header has no column " + needed
                                + (isColumn(header.get(0)) ? "" : "; the first line names the columns"));
            }
        }
    }

    /** The cells that say something, by column; what is wrong with a column is told of its header alone. */
    private Map<String, Cell> cells(List<Cell> row, int width) {
        Map<String, Cell> cells = new LinkedHashMap<>();
        for (Cell cell : row) {
            if (cell.isBlank() || text.isBroken(cell)) {
                continue;
            }
            String column = columns.get(cell.column());
            if (column != null) {
                if (SheetColumns.all().contains(column)) {
                    cells.putIfAbsent(column, cell.named(column));
                }
            } else if (cell.column() > width) {
                faults.inCell(
                        cell,
                        "",
                        "too-many-cells",
                        "the row has " + row.size() + " cells, and the header " + width + "; \""
                                + Words.shortened(cell.text()) + "\" belongs to no column");
                break;
            } else if (unnamed.add(cell.column())) {
                faults.inCell(
                        cell,
                        "",
                        "unnamed-column",
                        "\"" + Words.shortened(cell.text()) + "\" stands in a column that the header does not name");
            }
        }
        return cells;
    }

    private Sent<FunctionMap> onto(ObjectNode document) {
        ObjectNode all = document.get("connectors") instanceof ObjectNode known ? known : NODES.objectNode();
        connectors.forEach((name, given) -> {
            ObjectNode connector = all.get(name) instanceof ObjectNode known ? known : NODES.objectNode();
            SheetColumns.ofConnector().forEach((column, field) -> {
                JsonNode value = given.get(field.name());
                if (value != null) {
                    connector.set(field.name(), value);
                } else if (hasColumn(column)) {
                    connector.remove(field.name());
                }
            });
            if (!connector.isEmpty()) {
                all.set(name, connector);
            }
        });
        if (!all.isEmpty()) {
            document.set("connectors", all);
        }
        document.set("circuits", circuits);
        FunctionMap map = judge(document, FunctionMap.class, "", true, this::placeOf);
        if (map == null || faults.any()) {
            throw faults.problem();
        }
        return new Sent<>(map, Documents.write(document));
    }

    /**
     * A node as a value, or null with its faults told. What is at fault is taken out of the node and the rest judged again,
     * since constructors only speak once everything that they are given can be read.
     *
     * @param base pointer of the node in the document
     * @param inDocument whether the node has a place in the document at all
     */
    <T> @Nullable T judge(ObjectNode node, Class<T> type, String base, boolean inDocument, Places cells) {
        Set<Fault> told = new HashSet<>();
        boolean goesOn = true;
        for (int pass = 0; pass < MOST_PASSES && goesOn; pass++) {
            StrictReader.Judged<T> judged = StrictReader.judge(node, type);
            if (judged.count() == 0) {
                return told.isEmpty() ? judged.value() : null;
            }
            // the faults that are not listed would only be told again
            goesOn = judged.count() == judged.faults().size();
            faults.further(judged.count() - judged.faults().size());
            boolean removed = false;
            for (Fault fault : judged.faults()) {
                if (told.add(fault)) {
                    tell(fault, base, inDocument, cells);
                }
            }
            for (Fault fault : judged.faults()) {
                removed |= remove(node, Objects.requireNonNullElse(fault.pointer(), ""));
            }
            goesOn &= removed;
        }
        return null;
    }

    private void tell(Fault fault, String base, boolean inDocument, Places cells) {
        String below = Objects.requireNonNullElse(fault.pointer(), "");
        String pointer = inDocument ? base + below : "";
        Cell cell = cells.find(below);
        if (cell == null) {
            faults.ofAll(pointer, fault.code(), fault.detail());
        } else {
            faults.inCell(cell, pointer, fault.code(), fault.detail());
        }
    }

    /** Takes out what a pointer names: a list as a whole, and facts too where their kind is at fault. */
    private static boolean remove(ObjectNode root, String pointer) {
        String[] tokens =
                pointer.isEmpty() ? new String[0] : pointer.substring(1).split("/", -1);
        ObjectNode parent = root;
        for (int at = 0; at < tokens.length; at++) {
            boolean kindBelow = at + 2 == tokens.length && tokens[at + 1].equals(SheetColumns.KIND);
            if (at + 1 < tokens.length && !kindBelow && parent.get(tokens[at]) instanceof ObjectNode below) {
                parent = below;
            } else {
                return parent.remove(tokens[at]) != null;
            }
        }
        return false;
    }
}
