package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;

/**
 * How far an import is.
 *
 * @param value as it stands in JSON; one that this version does not know is kept as it came
 */
public record ImportState(@JsonValue String value) {

    /** It is being read; its figures grow. */
    public static final ImportState RUNNING = new ImportState("running");

    /** All of it is stored, or, for a dry run, would be. */
    public static final ImportState DONE = new ImportState("done");

    /** It has faults, and nothing of it is stored. It may be tried again. */
    public static final ImportState REFUSED = new ImportState("refused");

    /** It ended before its end, and nothing of it is stored. It may be tried again. */
    public static final ImportState BROKEN_OFF = new ImportState("broken-off");

    @JsonCreator(mode = JsonCreator.Mode.DELEGATING)
    public ImportState {
        Require.text("ImportState", value);
    }

    @Override
    public String toString() {
        return value;
    }
}
