package dev.splicebook.client;

import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * One call as it is to be sent.
 *
 * @param query with its question mark; empty if there is none
 * @param headers beside those that every call has
 * @param body absent for a call without one
 * @param isLong whether it takes as long as what it carries is
 */
record Call(
        String method,
        String path,
        String query,
        Map<String, String> headers,
        @Nullable Source body,
        Repeat repeat,
        boolean isLong) {

    /** When a call may be sent again though it is not known what became of it. */
    enum Repeat {
        /** It changes nothing, or what was changed stays so. */
        ALWAYS,
        /** If it has an idempotency key. */
        WITH_KEY,
        NEVER
    }

    static final String JSON = "application/json";
    static final String CSV = "text/csv";
    static final String NDJSON = "application/x-ndjson";

    Call {
        headers = Map.copyOf(headers);
    }

    static Call get(String path) {
        return new Call("GET", path, "", Map.of(), null, Repeat.ALWAYS, false).accept(JSON);
    }

    /** A call that creates something. */
    static Call post(String path) {
        return new Call("POST", path, "", Map.of(), null, Repeat.WITH_KEY, false).accept(JSON);
    }

    static Call post(String path, Object body) {
        return post(path).body(JSON, Source.json(Require.present("body", body)));
    }

    static Call put(String path) {
        return new Call("PUT", path, "", Map.of(), null, Repeat.NEVER, false).accept(JSON);
    }

    static Call delete(String path) {
        return new Call("DELETE", path, "", Map.of(), null, Repeat.NEVER, false).accept(JSON);
    }

    Call accept(String type) {
        return header("Accept", type + ", application/problem+json");
    }

    Call body(String type, Source source) {
        Call typed = header("Content-Type", type);
        return new Call(method, path, query, typed.headers, Require.present("source", source), repeat, isLong);
    }

    Call segment(String literal) {
        return new Call(method, path + "/" + literal, query, headers, body, repeat, isLong);
    }

    /** A path segment from a caller's value, which must not be blank: without it the path would be another's. */
    Call segment(String name, Object value) {
        String text = Require.text(name, value.toString());
        if (text.equals(".") || text.equals("..")) {
            throw new IllegalArgumentException(name + " is " + text + ", which is no name");
        }
        return segment(encoded(text));
    }

    /** A parameter: once for each value of a collection, and left out where it is null. */
    Call query(String name, @Nullable Object value) {
        if (value == null) {
            return this;
        }
        if (value instanceof Collection<?> values) {
            Call all = this;
            for (Object each : values) {
                all = all.query(name, each);
            }
            return all;
        }
        String more = query + (query.isEmpty() ? "?" : "&") + name + "=" + encoded(value.toString());
        return new Call(method, path, more, headers, body, repeat, isLong);
    }

    Call query(Map<String, Object> parameters) {
        Call all = this;
        for (Map.Entry<String, Object> parameter : parameters.entrySet()) {
            all = all.query(parameter.getKey(), parameter.getValue());
        }
        return all;
    }

    Call dryRun() {
        return query("dryRun", true).repeatable();
    }

    Call ifMatch(int revision) {
        return header("If-Match", tag("expectedRevision", revision));
    }

    Call ifNoneMatch(int revision) {
        return header("If-None-Match", tag("revision", revision));
    }

    boolean isConditionalRead() {
        return headers.containsKey("If-None-Match");
    }

    Call repeatable() {
        return new Call(method, path, query, headers, body, Repeat.ALWAYS, isLong);
    }

    Call takingLong() {
        return new Call(method, path, query, headers, body, repeat, true);
    }

    private Call header(String name, String value) {
        Map<String, String> more = new LinkedHashMap<>(headers);
        more.put(name, value);
        return new Call(method, path, query, more, body, repeat, isLong);
    }

    /** Method and path, to name it by; the query is left out, as it is a shop's own business. */
    @Override
    public String toString() {
        return method + " " + path;
    }

    private static String tag(String name, int revision) {
        return "\"" + Require.atLeastOne(name, revision) + "\"";
    }

    private static String encoded(String text) {
        return URLEncoder.encode(text, StandardCharsets.UTF_8).replace("+", "%20");
    }
}
