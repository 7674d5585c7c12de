package dev.splicebook.hookup.net;

import org.jspecify.annotations.Nullable;

/** The coil of a relay between two nodes; its ohms, and the volts that it is made for, null if unknown. */
public record Coil(
        String part,
        int relay,
        Node one,
        Node other,
        @Nullable Double ohms,
        @Nullable Double volts) {}
