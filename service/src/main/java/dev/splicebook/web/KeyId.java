package dev.splicebook.web;

import java.util.UUID;

/** The id of a key of a shop. */
public record KeyId(UUID value) {}
