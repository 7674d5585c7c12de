package dev.splicebook.exchange;

import dev.splicebook.web.Fault;
import dev.splicebook.web.ProblemException;
import dev.splicebook.web.Problems;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Every fault of a spreadsheet, each with its place. */
final class SheetFaults {

    /** More than are told, so that those told are the first of the sheet, in whatever order they were found. */
    private static final int MOST_KEPT = 2000;

    private final List<Fault> faults = new ArrayList<>();
    private int count;

    /** @param pointer where the cell's value would stand in the document; empty for nowhere */
    void inCell(Cell cell, String pointer, String code, String detail) {
        String place = cell.name() == null
                ? "line " + cell.line() + ", column " + cell.column()
                : "line " + cell.line() + ", column " + cell.column() + " (" + cell.name() + ")";
        add(Fault.at(pointer, code, place + ": " + detail).inCell(cell.line(), cell.column(), cell.name()));
    }

    void inLine(int line, String pointer, String code, String detail) {
        add(Fault.at(pointer, code, "line " + line + ": " + detail).inLine(line));
    }

    /** A fault of no single line. */
    void ofAll(String pointer, String code, String detail) {
        add(Fault.at(pointer, code, detail));
    }

    /** Counts faults that are only known by number. */
    void further(int number) {
        count += number;
    }

    boolean any() {
        return count > 0;
    }

    /** Ends the request with what was found, line by line. */
    ProblemException problem() {
        List<Fault> inOrder = faults.stream()
                .sorted(Comparator.comparingInt((Fault fault) -> orFirst(fault.line()))
                        .thenComparingInt(fault -> orFirst(fault.column())))
                .toList();
        return Problems.badBody(inOrder, count);
    }

    private void add(Fault fault) {
        count++;
        if (faults.size() < MOST_KEPT) {
            faults.add(fault);
        }
    }

    private static int orFirst(@Nullable Integer number) {
        return number == null ? 0 : number;
    }
}
