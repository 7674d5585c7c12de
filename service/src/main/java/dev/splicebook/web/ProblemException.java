package dev.splicebook.web;

import java.util.List;
import java.util.Map;

/** Ends a request with a problem document. */
public final class ProblemException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    private final ProblemType type;
    private final String detail;
    private final transient List<Fault> errors;
    private final transient Map<String, String> headers;
    private final int faultCount;

    /**
     * @param detail what is wrong this time, without secrets
     * @param errors the single faults; may be empty
     * @param headers further response headers, like {@code Retry-After}
     */
    public ProblemException(ProblemType type, String detail, List<Fault> errors, Map<String, String> headers) {
        this(type, detail, errors, headers, errors.size());
    }

    /** Takes {@code faultCount} for how many there are, of which {@code errors} lists the first. */
    ProblemException(ProblemType type, String detail, List<Fault> errors, Map<String, String> headers, int faultCount) {
        super(type.code() + ": " + detail);
        this.type = type;
        this.detail = detail;
        this.errors = List.copyOf(errors);
        this.headers = Map.copyOf(headers);
        this.faultCount = faultCount;
    }

    public ProblemException(ProblemType type, String detail) {
        this(type, detail, List.of(), Map.of());
    }

    public ProblemType type() {
        return type;
    }

    public String detail() {
        return detail;
    }

    public List<Fault> errors() {
        return errors;
    }

    /** How many faults there are, at least as many as are listed. */
    public int faultCount() {
        return faultCount;
    }

    public Map<String, String> headers() {
        return headers;
    }
}
