package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;

/**
 * How bad a finding is.
 *
 * @param value as it stands in JSON; one that this version does not know is kept as it came
 */
public record Severity(@JsonValue String value) {

    /** Fire, injury, or damage to the vehicle. */
    public static final Severity DANGER = new Severity("danger");

    /** It will not work, or will break something. */
    public static final Severity ERROR = new Severity("error");

    /** It may disappoint. */
    public static final Severity WARNING = new Severity("warning");

    /** Worth knowing. */
    public static final Severity NOTE = new Severity("note");

    @JsonCreator(mode = JsonCreator.Mode.DELEGATING)
    public Severity {
        Require.text("Severity", value);
    }

    @Override
    public String toString() {
        return value;
    }
}
