package dev.splicebook.web;

import jakarta.servlet.http.HttpServletRequest;
import java.util.UUID;
import java.util.regex.Pattern;

/** The id of a request: the caller's, if it is safe to log and to send back, else a new one. */
final class RequestIds {

    static final String HEADER = "X-Request-Id";

    private static final String ATTRIBUTE = RequestIds.class.getName();
    private static final Pattern SAFE = Pattern.compile("[A-Za-z0-9][A-Za-z0-9._:-]{0,63}");

    private RequestIds() {}

    /** The same id however often it is asked for within one request. */
    static String of(HttpServletRequest request) {
        if (request.getAttribute(ATTRIBUTE) instanceof String known) {
            return known;
        }
        String sent = request.getHeader(HEADER);
        String id = sent != null && SAFE.matcher(sent).matches()
                ? sent
                : UUID.randomUUID().toString();
        request.setAttribute(ATTRIBUTE, id);
        return id;
    }
}
