package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;

/**
 * What follows from the findings of a check.
 *
 * @param value as it stands in JSON; one that this version does not know is kept as it came
 */
public record Verdict(@JsonValue String value) {

    /** Nothing of weight was found. */
    public static final Verdict READY = new Verdict("ready");

    /** A warning was found, or a weighty rule could not be checked for want of facts. */
    public static final Verdict READY_WITH_CAUTIONS = new Verdict("ready-with-cautions");

    /** A danger or an error was found. */
    public static final Verdict NOT_READY = new Verdict("not-ready");

    @JsonCreator(mode = JsonCreator.Mode.DELEGATING)
    public Verdict {
        Require.text("Verdict", value);
    }

    @Override
    public String toString() {
        return value;
    }
}
