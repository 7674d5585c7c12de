package dev.splicebook.web;

import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/** The problems that endpoints end with, ready to throw. */
public final class Problems {

    /** As many faults as a person mends in one go, and as keep an answer to a hostile body small. */
    static final int MOST_FAULTS = 100;

    private Problems() {}

    /** 400 for a body with these faults, at least one; the first 100 are listed. */
    public static ProblemException badBody(List<Fault> faults) {
        return badBody(faults, faults.size());
    }

    /**
     * As {@link #badBody(List)}, where more was found than was kept.
     *
     * @param count of all faults, at least as many as {@code faults} has
     */
    public static ProblemException badBody(List<Fault> faults, int count) {
        List<Fault> listed = faults.subList(0, Math.min(faults.size(), MOST_FAULTS));
        String detail;
        if (count == 1) {
            detail = listed.get(0).detail();
        } else if (count > listed.size()) {
            detail = "the body has " + count + " faults, of which the first " + listed.size() + " are listed; "
                    + (count - listed.size()) + " more are not";
        } else {
            detail = "the body has " + count + " faults";
        }
        return new ProblemException(ProblemType.BAD_BODY, detail, listed, Map.of(), count);
    }

    /** 400 for a path or query parameter or a header. */
    public static ProblemException badParameter(String parameter, String code, String detail) {
        return new ProblemException(
                ProblemType.BAD_PARAMETER, detail, List.of(Fault.ofParameter(parameter, code, detail)), Map.of());
    }

    /** 400 for several parameters, at least one. */
    static ProblemException badParameters(List<Fault> faults) {
        String detail = faults.stream().map(Fault::detail).collect(Collectors.joining("; "));
        return new ProblemException(ProblemType.BAD_PARAMETER, detail, faults, Map.of());
    }

    /** 404, the same whether it is absent or another firm's. {@code what} completes "there is no …". */
    public static ProblemException notFound(String what) {
        return new ProblemException(ProblemType.NOT_FOUND, "there is no " + what);
    }

    /** 412: If-Match does not name the latest revision. */
    public static ProblemException preconditionFailed(long latestRevision) {
        return new ProblemException(
                ProblemType.PRECONDITION_FAILED,
                "If-Match does not name the latest revision, which is " + ETags.of(latestRevision));
    }

    /** 428: a change without If-Match. */
    public static ProblemException preconditionRequired() {
        return new ProblemException(
                ProblemType.PRECONDITION_REQUIRED, ProblemType.PRECONDITION_REQUIRED.exampleDetail());
    }

    /** 422: a good question without an answer. */
    public static ProblemException unprocessable(String detail, List<Fault> errors) {
        return new ProblemException(ProblemType.UNPROCESSABLE, detail, errors, Map.of());
    }

    /** 409: what is to be created exists, or was changed in the same moment. */
    public static ProblemException conflict(String detail) {
        return new ProblemException(ProblemType.CONFLICT, detail);
    }

    /** 409 with Retry-After: another request holds what this one is to change. */
    public static ProblemException contended() {
        return new ProblemException(
                ProblemType.CONFLICT,
                "another request is changing the same entries; nothing was changed by this one",
                List.of(),
                Map.of("Retry-After", "1"));
    }

    /** 429 with Retry-After: as many of a costly kind of request run as are taken at once. */
    public static ProblemException tooMany(String detail) {
        return new ProblemException(ProblemType.TOO_MANY_REQUESTS, detail, List.of(), Map.of("Retry-After", "5"));
    }

    /** 401, with the challenge that belongs to it. */
    public static ProblemException unauthorized(String detail) {
        return new ProblemException(
                ProblemType.UNAUTHORIZED, detail, List.of(), Map.of("WWW-Authenticate", "Bearer realm=\"splicebook\""));
    }

    /** 403: a valid key that does not cover the action. */
    public static ProblemException forbidden(String detail) {
        return new ProblemException(ProblemType.FORBIDDEN, detail);
    }

    /** 503 with Retry-After: the database cannot be reached. */
    public static ProblemException databaseAway() {
        return new ProblemException(
                ProblemType.DATABASE_AWAY,
                ProblemType.DATABASE_AWAY.exampleDetail(),
                List.of(),
                Map.of("Retry-After", "5"));
    }

    /** 413. */
    static ProblemException bodyTooLarge(long mostBytes) {
        return new ProblemException(ProblemType.BODY_TOO_LARGE, "the body is larger than " + mostBytes + " bytes");
    }

    /** 415. {@code sent} is what the caller said the body is, {@code read} what is read instead. */
    public static ProblemException unsupportedMediaType(String sent, String read) {
        return new ProblemException(
                ProblemType.UNSUPPORTED_MEDIA_TYPE,
                sent + " is not read here; " + read + " is",
                List.of(),
                Map.of("Accept", read));
    }

    /** 415 for a Content-Type that names no single media type. */
    static ProblemException noMediaType(String sent) {
        return new ProblemException(ProblemType.UNSUPPORTED_MEDIA_TYPE, sent + " does not name a media type");
    }
}
