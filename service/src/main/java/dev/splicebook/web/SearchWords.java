package dev.splicebook.web;

import dev.splicebook.guard.InvalidValueException;
import org.jspecify.annotations.Nullable;

/**
 * Words to look for, as a parameter of a query: each is the beginning of a word of what is found.
 *
 * @param value at least one letter or digit, at most 200 characters, no control characters
 */
public record SearchWords(String value) {

    public SearchWords {
        QueryText.guard(value);
        if (value.codePoints().noneMatch(Character::isLetterOrDigit)) {
            throw new InvalidValueException(
                    "bad-text", "the text to look for has no word in it, only \"" + value + "\"");
        }
    }

    /** The text of a value that may be absent. */
    public static @Nullable String of(@Nullable SearchWords given) {
        return given == null ? null : given.value;
    }
}
