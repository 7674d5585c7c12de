package dev.splicebook.web;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** Every kind of problem that this service answers with. The code is permanent; its page is {@code /problems/CODE}. */
public enum ProblemType {
    BAD_BODY(
            400,
            "The body cannot be read as what this endpoint takes",
            "The body is not well-formed JSON, or a field is unknown, missing, of the wrong type or out of range, or a"
                    + " reference leads nowhere. All faults of one stage are listed at once: syntax, then shape, then"
                    + " references.",
            "Mend each place that errors names by its JSON pointer, then send the body again.",
            "maxAmps is the text \"12\", where a number belongs"),
    BAD_PARAMETER(
            400,
            "A parameter cannot be read",
            "A path or query parameter or a header has a value of the wrong form or range, or a cursor was not given out"
                    + " by this service.",
            "Mend the parameter that errors names. A cursor is passed on exactly as it came in next.",
            "limit is 1000, outside 1 to 200"),
    BAD_REQUEST(
            400,
            "The request itself is malformed",
            "The path holds an encoded slash, a NUL, a step upwards or a broken percent encoding, or the request line or a"
                    + " header is not HTTP.",
            "Encode each path segment on its own, in UTF-8, and send well-formed HTTP/1.1.",
            "the request is not well-formed HTTP, or its path is not one that this service reads"),
    UNAUTHORIZED(
            401,
            "A valid key is needed",
            "The request carries no key, or one that is unknown or revoked.",
            "Send the header Authorization: Bearer KEY with a key of your shop.",
            "the request carries no key"),
    FORBIDDEN(
            403,
            "The key does not allow this",
            "The key is valid but does not cover this action.",
            "Use a key with the scope that the endpoint names.",
            "the key does not allow this action"),
    NOT_FOUND(
            404,
            "There is nothing here",
            "Nothing stands at this address, or what stands there belongs to another firm and is not shared. Both answer the"
                    + " same.",
            "Check the address and the id in it.",
            "there is no vehicle 5f0c6c1e-0d0e-4b6e-9a55-2a40cb1f3d10"),
    METHOD_NOT_ALLOWED(
            405,
            "The method is not offered here",
            "The address exists, but not for this method.",
            "Use one of the methods in the Allow header.",
            "PATCH is not offered here"),
    NOT_ACCEPTABLE(
            406,
            "No answer in a wanted form",
            "The Accept header leaves no form that this endpoint can answer in.",
            "Accept application/json, or leave the header out.",
            "this endpoint answers in application/json"),
    CONFLICT(
            409,
            "The change collides with what is stored",
            "What is to be created exists already, or another request changed it in the same moment.",
            "Read the present state, then decide again.",
            "a device with the code AMP-4 exists already"),
    PRECONDITION_FAILED(
            412,
            "It has changed since it was read",
            "The If-Match header names a revision that is not the latest one, or is a weak tag.",
            "Read the latest revision, apply the change to it, and send its ETag in If-Match.",
            "If-Match does not name the latest revision, which is \"4\""),
    BODY_TOO_LARGE(
            413,
            "The body is too large",
            "The body is larger than this service takes.",
            "Send less at once.",
            "the body is larger than 8388608 bytes"),
    URI_TOO_LONG(
            414,
            "The address is too long",
            "The request line is longer than this service reads.",
            "Shorten the query.",
            "the request line is too long"),
    UNSUPPORTED_MEDIA_TYPE(
            415,
            "The body is of a type that is not read here",
            "The Content-Type header is absent or names a type that this endpoint does not read.",
            "Send the body with the Content-Type that the detail names; for most endpoints it is application/json.",
            "text/plain is not read here; application/json is"),
    EXPECTATION_FAILED(
            417,
            "The expectation cannot be met",
            "The Expect header asks for something other than 100-continue.",
            "Leave the Expect header out.",
            "the Expect header cannot be met"),
    UNPROCESSABLE(
            422,
            "A good question without an answer",
            "The request is well-formed and its references exist, but there is no answer to it as it stands.",
            "Read the detail, which names what stands in the way.",
            "no source of the vehicle can feed AMP.remote"),
    IDEMPOTENCY_KEY_REUSED(
            422,
            "The idempotency key was used for another request",
            "A request with the same Idempotency-Key, but another method, address, body or If-Match, was answered within"
                    + " seven days. Nothing was changed.",
            "Make a new key for every new request, and keep a key only for sending the very same request again.",
            "another request of this firm used the Idempotency-Key order-1207 within seven days"),
    PRECONDITION_REQUIRED(
            428,
            "A change needs If-Match",
            "A change to something with revisions came without an If-Match header, so that it could overwrite another's.",
            "Send the ETag of the revision that the change is made to in If-Match.",
            "the If-Match header is missing"),
    TOO_MANY_REQUESTS(
            429,
            "Too many of these at once",
            "As many requests of this kind run as the service takes at once.",
            "Wait for the seconds that Retry-After names, then send the request again.",
            "4 imports and exports run already, which are as many as this service takes at once"),
    HEADERS_TOO_LARGE(
            431,
            "The headers are too large",
            "The request line and headers together are larger than this service reads.",
            "Send fewer or shorter headers.",
            "the headers are too large"),
    INTERNAL(
            500,
            "The service failed",
            "A fault of the service, not of the request. It is logged under the request id.",
            "Tell those who run the service the request id.",
            "the service failed"),
    NOT_IMPLEMENTED(
            501,
            "A part of HTTP that is not offered",
            "The request uses a transfer encoding that this service does not read.",
            "Send the body with a length, or chunked.",
            "the request uses a part of HTTP that is not offered"),
    DATABASE_AWAY(
            503,
            "The database is away",
            "The service runs but cannot reach its database at the moment. Nothing was changed.",
            "Wait for the seconds that Retry-After names, then send the request again.",
            "the database cannot be reached at the moment"),
    VERSION_NOT_SUPPORTED(
            505,
            "A version of HTTP that is not offered",
            "The request line names a version of HTTP that this service does not speak.",
            "Use HTTP/1.1.",
            "the request names a version of HTTP that is not offered");

    private final int status;
    private final String title;
    private final String cause;
    private final String mend;
    private final String exampleDetail;

    ProblemType(int status, String title, String cause, String mend, String exampleDetail) {
        this.status = status;
        this.title = title;
        this.cause = cause;
        this.mend = mend;
        this.exampleDetail = exampleDetail;
    }

    /** The permanent code, kebab-case. */
    public String code() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** The HTTP status, 400 to 599. */
    public int status() {
        return status;
    }

    /** One line for people, the same for every problem of the type. */
    public String title() {
        return title;
    }

    String cause() {
        return cause;
    }

    String mend() {
        return mend;
    }

    String exampleDetail() {
        return exampleDetail;
    }

    /** A detail for where nothing more is known than the type. */
    String generalDetail() {
        return title.substring(0, 1).toLowerCase(Locale.ROOT) + title.substring(1);
    }

    static Optional<ProblemType> findByCode(String code) {
        return Arrays.stream(values()).filter(type -> type.code().equals(code)).findFirst();
    }

    /** The type for a status that something below this service set, without knowing more. */
    static ProblemType ofStatus(int status) {
        if (status == 400) {
            return BAD_REQUEST;
        }
        return Arrays.stream(values())
                .filter(type -> type.status == status)
                .findFirst()
                .orElse(status < 500 ? BAD_REQUEST : INTERNAL);
    }
}
