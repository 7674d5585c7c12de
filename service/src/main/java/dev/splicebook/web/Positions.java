package dev.splicebook.web;

import java.time.Instant;
import java.time.format.DateTimeParseException;
import java.util.Locale;
import java.util.UUID;

/** Reads the parts of a cursor's position, and writes patterns for what a text starts with. */
public final class Positions {

    /** A database knows fewer times than an instant can be. */
    private static final Instant EARLIEST = Instant.EPOCH;

    private static final Instant LATEST = Instant.parse("9999-12-31T23:59:59Z");

    private Positions() {}

    /** @throws ProblemException 400 if the part is no time, so that the cursor is not one of this list */
    public static Instant instant(String part) {
        try {
            Instant instant = Instant.parse(part);
            if (instant.isBefore(EARLIEST) || instant.isAfter(LATEST)) {
                throw Cursors.broken();
            }
            return instant;
        } catch (DateTimeParseException unreadable) {
            throw Cursors.broken();
        }
    }

    /** @throws ProblemException 400 if the part is no UUID */
    public static UUID uuid(String part) {
        try {
            return UUID.fromString(part);
        } catch (IllegalArgumentException unreadable) {
            throw Cursors.broken();
        }
    }

    /** @throws ProblemException 400 if the part is no whole number */
    public static int number(String part) {
        try {
            return Integer.parseInt(part);
        } catch (NumberFormatException unreadable) {
            throw Cursors.broken();
        }
    }

    /** The pattern, with {@code !} as its escape, that lower-case texts starting with {@code text} match. */
    public static String startsWith(String text) {
        return text.toLowerCase(Locale.ROOT)
                        .replace("!", "!!")
                        .replace("%", "!%")
                        .replace("_", "!_") + "%";
    }
}
