package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;

/**
 * How something in a document differs from what was there before.
 *
 * @param value as it stands in JSON; one that this version does not know is kept as it came
 */
public record ChangeKind(@JsonValue String value) {

    /** It was not there. */
    public static final ChangeKind ADDED = new ChangeKind("added");

    /** It is not there any more. */
    public static final ChangeKind REMOVED = new ChangeKind("removed");

    /** It is there in both and means something else. */
    public static final ChangeKind CHANGED = new ChangeKind("changed");

    @JsonCreator(mode = JsonCreator.Mode.DELEGATING)
    public ChangeKind {
        Require.text("ChangeKind", value);
    }

    @Override
    public String toString() {
        return value;
    }
}
