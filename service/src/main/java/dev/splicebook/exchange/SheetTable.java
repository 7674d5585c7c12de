package dev.splicebook.exchange;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.jspecify.annotations.Nullable;

/** The lines of a spreadsheet, cell by cell, with the places that an editor shows. */
final class SheetTable {

    /** What the largest map can fill and some more; keeps a body of nothing but separators in bounds. */
    private static final int MOST_CELLS = 600_000;

    private final SheetText text;
    private final SheetFaults faults;
    private final char separator;
    private final Iterator<CSVRecord> records;
    private int line = 1;

    private SheetTable(SheetText text, SheetFaults faults, char separator, Iterator<CSVRecord> records) {
        this.text = text;
        this.faults = faults;
        this.separator = separator;
        this.records = records;
    }

    static SheetTable of(SheetText text, SheetFaults faults) {
        char separator = text.separator();
        long cells = text.text()
                .chars()
                .filter(letter -> letter == separator || letter == '\n' || letter == '\r')
                .count();
        if (cells > MOST_CELLS) {
            faults.ofAll("", "too-many-values", "the file has more than " + MOST_CELLS + " cells");
        }
        CSVFormat format = CSVFormat.RFC4180
                .builder()
                .setDelimiter(separator)
                .setIgnoreEmptyLines(false)
                .get();
        try {
            CSVParser parser = CSVParser.parse(cells > MOST_CELLS ? "" : text.text(), format);
            return new SheetTable(text, faults, separator, parser.iterator());
        } catch (IOException impossible) {
            throw new UncheckedIOException(impossible);
        }
    }

    /** The next line that is not blank; absent at the end, or where quotes are broken, which is told then. */
    @Nullable
    List<Cell> next() {
        try {
            while (records.hasNext()) {
                List<Cell> cells = cells(records.next());
                if (!cells.stream().allMatch(Cell::isBlank)) {
                    return cells;
                }
            }
            return null;
        } catch (UncheckedIOException broken) {
            tell(text.findBrokenQuotes(separator));
            return null;
        }
    }

    private List<Cell> cells(CSVRecord record) {
        List<Cell> cells = new ArrayList<>(record.size());
        for (String content : record) {
            cells.add(new Cell(line, cells.size() + 1, null, content));
            line += SheetText.lineBreaks(content);
        }
        line++;
        return cells;
    }

    private void tell(SheetText.BrokenQuotes broken) {
        faults.inCell(
                new Cell(broken.line(), broken.column(), null, ""),
                "",
                "bad-quoting",
                broken.closed()
                        ? "something stands between the closing quotes and the separator; quotes within quotes are doubled."
                                + " What follows is not read"
                        : "the quotes that open here are never closed, so that what follows is not read");
    }
}
