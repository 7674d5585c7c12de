package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;

/**
 * What an entry of an import or export is.
 *
 * @param value as it stands in JSON; one that this version does not know is kept as it came
 */
public record EntryKind(@JsonValue String value) {

    /** A vehicle, with its function map. */
    public static final EntryKind VEHICLE = new EntryKind("vehicle");

    /** A device of the catalogue. */
    public static final EntryKind DEVICE = new EntryKind("device");

    @JsonCreator(mode = JsonCreator.Mode.DELEGATING)
    public EntryKind {
        Require.text("EntryKind", value);
    }

    @Override
    public String toString() {
        return value;
    }
}
