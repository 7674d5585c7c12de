package dev.splicebook.function;

import dev.splicebook.guard.InvalidValueException;
import java.util.List;

/**
 * The id of a function of the vocabulary, like {@code audio.line.front-left.signal}, or of a group of them, like
 * {@code audio.line} or {@code lighting}.
 *
 * @param value dotted text, lower case
 */
public record FunctionId(String value) {

    private static final int QUOTED = 80;

    /**
     * Takes what the vocabulary has.
     *
     * @throws InvalidValueException with code {@code unknown-function} for anything else, naming up to three near ids
     */
    public FunctionId {
        if (!Vocabulary.isKnown(value)) {
            throw new InvalidValueException("unknown-function", unknown(value));
        }
    }

    /** True for the same id and for every id below {@code other}. */
    public boolean isAtOrBelow(FunctionId other) {
        String above = other.value;
        // the cheap question first: this is asked of every terminal by many rules
        return value.length() == above.length()
                ? value.equals(above)
                : value.length() > above.length() && value.charAt(above.length()) == '.' && value.startsWith(above);
    }

    /** Whether both stand straight below one function, like the two sides of one signal. */
    public boolean isBeside(FunctionId other) {
        int dot = value.lastIndexOf('.');
        return dot > 0 && dot == other.value.lastIndexOf('.') && value.regionMatches(0, other.value, 0, dot);
    }

    @Override
    public String toString() {
        return value;
    }

    private static String unknown(String value) {
        String quoted = value.length() > QUOTED ? value.substring(0, QUOTED) + "…" : value;
        List<String> nearest = Vocabulary.nearestTo(value);
        return "function \"" + quoted + "\" is not in the vocabulary; "
                + (nearest.isEmpty() ? "nothing in it is near" : "nearest: " + String.join(", ", nearest));
    }
}
