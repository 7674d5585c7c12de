package dev.splicebook.client;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A problem document (RFC 9457), as far as it is read.
 *
 * @param type permanent, like {@code /problems/bad-body}, with a page at that address of the service; {@code about:blank}
 *     if the answer was not a problem document
 * @param detail what is wrong this time
 * @param errors the single faults; may be empty
 * @param requestId by which those who run the service find the request; absent if the answer has none
 */
public record Problem(
        String type,
        String detail,
        List<Fault> errors,
        @Nullable String requestId) {

    static final String UNKNOWN_TYPE = "about:blank";

    public Problem {
        Require.text("type", type);
        Require.present("detail", detail);
        errors = Require.listOrEmpty(errors);
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
     * @param code the kind of fault, like {@code unknown-terminal}; more may come
     * @param detail what is wrong, standing alone
     */
    public record Fault(@Nullable String pointer, @Nullable String parameter, String code, String detail) {

        public Fault {
            Require.text("code", code);
            Require.present("detail", detail);
        }

        /** Where, and what is wrong. */
        @Override
        public String toString() {
            String place = parameter == null ? pointer : parameter;
            return (place == null || place.isEmpty() ? "" : place + ": ") + detail;
        }
    }
}
