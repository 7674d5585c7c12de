package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;

/**
 * Whether something that the customer wants is there already.
 *
 * @param value as it stands in JSON; one that this version does not know is kept as it came
 */
public record Want(@JsonValue String value) {

    /** It is there and stays. */
    public static final Want KEEP = new Want("keep");

    /** It is new. */
    public static final Want ADD = new Want("add");

    @JsonCreator(mode = JsonCreator.Mode.DELEGATING)
    public Want {
        Require.text("Want", value);
    }

    @Override
    public String toString() {
        return value;
    }
}
