package dev.splicebook.client;

import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import org.jspecify.annotations.Nullable;

/**
 * One call as it is to be sent.
 *
 * @param query with its question mark; empty if there is none
 * @param body absent for a GET
 * @param expectedRevision for If-Match; absent for a call without it
 * @param isRepeatable whether it changes nothing, so that it may be sent again
 */
record Call(
        String method,
        String path,
        String query,
        @Nullable Object body,
        @Nullable Integer expectedRevision,
        boolean isRepeatable) {

    static Call get(String path) {
        return new Call("GET", path, "", null, null, true);
    }

    static Call post(String path, Object body) {
        return new Call("POST", path, "", Require.present("body", body), null, false);
    }

    Call segment(String literal) {
        return new Call(method, path + "/" + literal, query, body, expectedRevision, isRepeatable);
    }

    /** A path segment from a caller's value, which must not be blank: without it the path would be another's. */
    Call segment(String name, Object value) {
        String text = Require.text(name, value.toString());
        if (text.equals(".") || text.equals("..")) {
            throw new IllegalArgumentException(name + " is " + text + ", which is no name");
        }
        return segment(encoded(text));
    }

    Call query(String name, @Nullable Object value) {
        if (value == null) {
            return this;
        }
        String more = query + (query.isEmpty() ? "?" : "&") + name + "=" + encoded(value.toString());
        return new Call(method, path, more, body, expectedRevision, isRepeatable);
    }

    Call ifMatch(int revision) {
        return new Call(method, path, query, body, Require.atLeastOne("expectedRevision", revision), isRepeatable);
    }

    Call repeatable() {
        return new Call(method, path, query, body, expectedRevision, true);
    }

    /** Method and path, to name it by; the query is left out, as it is a shop's own business. */
    @Override
    public String toString() {
        return method + " " + path;
    }

    private static String encoded(String text) {
        return URLEncoder.encode(text, StandardCharsets.UTF_8).replace("+", "%20");
    }
}
