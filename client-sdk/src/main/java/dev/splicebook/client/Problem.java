package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonAnySetter;
import java.util.List;
import java.util.Map;
import java.util.StringJoiner;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/**
 * A problem document (RFC 9457), as far as it is read.
 *
 * @param type permanent, like {@code /problems/bad-body}, with a page at that address of the service; {@code about:blank}
 *     if the answer was not a problem document
 * @param detail what is wrong this time
 * @param errors the single faults; may be empty
 * @param requestId by which those who run the service find the request; absent if the answer has none
 * @param more everything else of the document, its title among it
 */
public record Problem(
        String type,
        String detail,
        List<Fault> errors,
        @Nullable String requestId,
        @JsonAnySetter Map<String, JsonNode> more) {

    static final String UNKNOWN_TYPE = "about:blank";

    public Problem {
        Require.text("type", type);
        Require.present("detail", detail);
        errors = Require.listOrEmpty(errors);
        more = Require.mapOrEmpty(more);
    }

    /** The end of the type, like {@code bad-body}; {@code about:blank} if the answer was not a problem document. */
    public String code() {
        return type.substring(type.lastIndexOf('/') + 1);
    }

    /**
     * One fault of a request.
     *
     * @param pointer where in the body, as a JSON pointer; empty for the whole body; absent if it is not in the body
     * @param parameter the parameter or header at fault; absent if the fault is in the body
     * @param line of a spreadsheet or an import, 1 or more; absent elsewhere
     * @param column of a spreadsheet, its place among the cells of the line, 1 or more; absent elsewhere
     * @param columnName what heads the column; absent elsewhere
     * @param code the kind of fault, like {@code unknown-terminal}; more may come
     * @param detail what is wrong, standing alone
     * @param more fields that this version does not know
     */
    public record Fault(
            @Nullable String pointer,
            @Nullable String parameter,
            @Nullable Integer line,
            @Nullable Integer column,
            @Nullable String columnName,
            String code,
            String detail,
            @JsonAnySetter Map<String, JsonNode> more) {

        public Fault {
            Require.text("code", code);
            Require.present("detail", detail);
            more = Require.mapOrEmpty(more);
        }

        /** Where, and what is wrong. */
        @Override
        public String toString() {
            StringJoiner place = new StringJoiner(", ", "", ": ").setEmptyValue("");
            if (line != null) {
                place.add("line " + line);
            }
            if (column != null) {
                place.add("column " + column + (columnName == null ? "" : " (" + columnName + ")"));
            }
            if (parameter != null) {
                place.add(parameter);
            } else if (pointer != null && !pointer.isEmpty()) {
                place.add(pointer);
            }
            return place + detail;
        }
    }
}
