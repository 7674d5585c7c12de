package dev.splicebook.web;

import org.jspecify.annotations.Nullable;

/**
 * One fault of a request.
 *
 * @param pointer where in the body, as a JSON pointer; empty for the whole body; absent if the fault is not in the body
 * @param parameter the name of the path or query parameter or header at fault; absent if the fault is in the body
 * @param code the kind of fault, kebab-case, permanent
 * @param detail what is wrong, with the value, standing alone
 * @param line the line of a body that is read line by line, from 1; absent for any other
 * @param column the cell of that line, from 1; absent where it is the whole line or not a table
 * @param columnName what the header calls that column; absent with {@code column}
 */
public record Fault(
        @Nullable String pointer,
        @Nullable String parameter,
        String code,
        String detail,
        @Nullable Integer line,
        @Nullable Integer column,
        @Nullable String columnName) {

    /** A fault in the body at a JSON pointer, like {@code /parts/HU}. */
    public static Fault at(String pointer, String code, String detail) {
        return new Fault(pointer, null, code, detail, null, null, null);
    }

    /** A fault of a path or query parameter or of a header. */
    public static Fault ofParameter(String parameter, String code, String detail) {
        return new Fault(null, parameter, code, detail, null, null, null);
    }

    /** The same fault, told of a line of the body, from 1. */
    public Fault inLine(int at) {
        return new Fault(pointer, parameter, code, detail, at, column, columnName);
    }

    /** The same fault, told of a cell of a table: line and column from 1, and what the header calls the column. */
    public Fault inCell(int atLine, int atColumn, @Nullable String name) {
        return new Fault(pointer, parameter, code, detail, atLine, atColumn, name);
    }

    /** The JSON pointer of these names and indices, escaped; empty without any. */
    public static String pointerTo(Object... tokens) {
        StringBuilder pointer = new StringBuilder();
        for (Object token : tokens) {
            pointer.append('/').append(token.toString().replace("~", "~0").replace("/", "~1"));
        }
        return pointer.toString();
    }
}
