package dev.splicebook.web;

import java.util.UUID;

/** The id of a shop of a firm. */
public record ShopId(UUID value) {}
