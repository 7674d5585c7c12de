package dev.splicebook.web;

import java.util.UUID;

/** The id of a firm. */
public record FirmId(UUID value) {}
