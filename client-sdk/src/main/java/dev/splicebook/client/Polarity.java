package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;

/**
 * How a loudspeaker's cone moves, against the signal where that begins.
 *
 * @param value as it stands in JSON; one that this version does not know is kept as it came
 */
public record Polarity(@JsonValue String value) {

    /** As the signal wants it. */
    public static final Polarity RIGHT = new Polarity("right");

    /** The other way. */
    public static final Polarity REVERSED = new Polarity("reversed");

    /** Not at all. */
    public static final Polarity NONE = new Polarity("none");

    @JsonCreator(mode = JsonCreator.Mode.DELEGATING)
    public Polarity {
        Require.text("Polarity", value);
    }

    @Override
    public String toString() {
        return value;
    }
}
