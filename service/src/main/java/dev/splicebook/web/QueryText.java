package dev.splicebook.web;

import dev.splicebook.guard.InvalidValueException;
import org.jspecify.annotations.Nullable;

/**
 * A text to look for, as a parameter of a query.
 *
 * @param value not blank, at most 200 characters, no control characters
 */
public record QueryText(String value) {

    static final int LONGEST = 200;

    public QueryText {
        guard(value);
    }

    /** The text of a value that may be absent. */
    public static @Nullable String of(@Nullable QueryText given) {
        return given == null ? null : given.value;
    }

    static void guard(String value) {
        if (value.isBlank()) {
            throw new InvalidValueException("bad-text", "the text to look for is blank");
        }
        if (value.length() > LONGEST) {
            throw new InvalidValueException(
                    "bad-text", "the text to look for has " + value.length() + " characters, above " + LONGEST);
        }
        value.chars().filter(Character::isISOControl).findFirst().ifPresent(control -> {
            throw new InvalidValueException(
                    "bad-text", String.format("the text to look for holds the control character U+%04X", control));
        });
    }
}
