package dev.splicebook.web;

/**
 * A request body both ways: what was read from it, and what was sent. A controller takes it as
 * {@code @RequestBody Sent<FunctionMap>}.
 *
 * @param value the body as a value
 * @param json the body as text, without blanks between tokens and otherwise untouched, for documents that round-trip
 */
public record Sent<T>(T value, String json) {}
