package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;

/**
 * What the check digit of a VIN says.
 *
 * @param value as it stands in JSON; one that this version does not know is kept as it came
 */
public record CheckDigit(@JsonValue String value) {

    /** It is the one reckoned from the other characters. */
    public static final CheckDigit RIGHT = new CheckDigit("right");

    /** It is not, and the makers of that region need not use it. */
    public static final CheckDigit NOT_USED = new CheckDigit("not-used");

    @JsonCreator(mode = JsonCreator.Mode.DELEGATING)
    public CheckDigit {
        Require.text("CheckDigit", value);
    }

    @Override
    public String toString() {
        return value;
    }
}
