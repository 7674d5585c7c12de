package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;

/**
 * What becomes of a lead that is not connected.
 *
 * @param value as it stands in JSON; one that this version does not know is kept as it came
 */
public record Fate(@JsonValue String value) {

    /** Insulated at its end. */
    public static final Fate CAPPED = new Fate("capped");

    /** Folded back into the loom. */
    public static final Fate TAPED_BACK = new Fate("taped-back");

    /** Left in the connector that it came in. */
    public static final Fate LEFT_PLUGGED = new Fate("left-plugged");

    /** Taken out of the connector. */
    public static final Fate REMOVED = new Fate("removed");

    @JsonCreator(mode = JsonCreator.Mode.DELEGATING)
    public Fate {
        Require.text("Fate", value);
    }

    @Override
    public String toString() {
        return value;
    }
}
