package dev.splicebook.exchange;

import org.jspecify.annotations.Nullable;

/**
 * A cell of a spreadsheet.
 *
 * @param line where it begins, from 1, as an editor counts lines
 * @param column from 1
 * @param name what the header calls the column; absent where it calls it nothing
 * @param text as it stands there, without quotes
 */
record Cell(int line, int column, @Nullable String name, String text) {

    Cell named(@Nullable String columnName) {
        return new Cell(line, column, columnName, text);
    }

    boolean isBlank() {
        return text.isBlank();
    }
}
