package dev.splicebook.web;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** Writes problem documents (RFC 9457), also where Spring MVC is not: in filters and in Tomcat. */
public final class ProblemWriter {

    static final String MEDIA_TYPE = "application/problem+json";

    private static final JsonMapper MAPPER = JsonMapper.builder().build();
    private static final int LONGEST_INSTANCE = 500;

    private ProblemWriter() {}

    /** Answers the request with the problem, unless the response is already on its way. */
    public static void write(HttpServletRequest request, HttpServletResponse response, ProblemException problem)
            throws IOException {
        if (response.isCommitted()) {
            return;
        }
        response.resetBuffer();
        prepare(request, response, problem);
        byte[] body = body(request, problem).getBytes(StandardCharsets.UTF_8);
        response.setContentLength(body.length);
        response.getOutputStream().write(body);
        response.flushBuffer();
    }

    /** Sets status and headers, and no body. */
    static void prepare(HttpServletRequest request, HttpServletResponse response, ProblemException problem) {
        response.setStatus(problem.type().status());
        response.setContentType(MEDIA_TYPE);
        response.setHeader(RequestIds.HEADER, RequestIds.of(request));
        response.setHeader("Cache-Control", "no-store");
        problem.headers().forEach(response::setHeader);
    }

    static String body(HttpServletRequest request, ProblemException problem) {
        return MAPPER.writeValueAsString(document(problem, instance(request), RequestIds.of(request)));
    }

    static ObjectNode document(ProblemException problem, @Nullable String instance, String requestId) {
        ObjectNode document = MAPPER.createObjectNode();
        document.put("type", "/problems/" + problem.type().code());
        document.put("title", problem.type().title());
        document.put("status", problem.type().status());
        document.put("detail", problem.detail());
        if (instance != null) {
            document.put("instance", instance);
        }
        ArrayNode errors = document.putArray("errors");
        for (Fault fault : problem.errors()) {
            ObjectNode error = errors.addObject();
            if (fault.pointer() != null) {
                error.put("pointer", fault.pointer());
            }
            if (fault.parameter() != null) {
                error.put("parameter", fault.parameter());
            }
            if (fault.line() != null) {
                error.put("line", fault.line());
            }
            if (fault.column() != null) {
                error.put("column", fault.column());
            }
            if (fault.columnName() != null) {
                error.put("columnName", fault.columnName());
            }
            error.put("code", fault.code());
            error.put("detail", fault.detail());
        }
        document.put("requestId", requestId);
        return document;
    }

    /** The path as it came, without the query, with everything escaped that a URI reference may not hold. */
    private static @Nullable String instance(HttpServletRequest request) {
        String original = request.getAttribute("jakarta.servlet.error.request_uri") instanceof String dispatched
                ? dispatched
                : request.getRequestURI();
        if (original == null || original.isEmpty()) {
            return null;
        }
        String path = original.length() > LONGEST_INSTANCE ? original.substring(0, LONGEST_INSTANCE) : original;
        StringBuilder safe = new StringBuilder(path.length());
        for (byte octet : path.getBytes(StandardCharsets.UTF_8)) {
            char letter = (char) (octet & 0xff);
            boolean allowed =
                    letter < 0x80 && (Character.isLetterOrDigit(letter) || "/-._~!$&'()*+,;=:@%".indexOf(letter) >= 0);
            if (allowed) {
                safe.append(letter);
            } else {
                safe.append('%').append(String.format("%02X", (int) letter));
            }
        }
        return safe.toString();
    }
}
