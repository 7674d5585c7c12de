package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonAnySetter;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/**
 * An import, and how far it is.
 *
 * @param id that the client gave it
 * @param state how far it is
 * @param dryRun whether it was judged only, and nothing of it is stored
 * @param lines read so far
 * @param vehicles read so far
 * @param devices read so far
 * @param circuits read so far
 * @param unchanged vehicles and devices that mean what their latest revision does, so that none was added
 * @param bytes read so far
 * @param startedAt when it began
 * @param endedAt when it ended; absent while it runs
 * @param errors the first faults, at most 100
 * @param faults how many there are
 * @param more fields that this version does not know
 */
public record Import(
        UUID id,
        ImportState state,
        boolean dryRun,
        long lines,
        long vehicles,
        long devices,
        long circuits,
        long unchanged,
        long bytes,
        Instant startedAt,
        @Nullable Instant endedAt,
        List<Problem.Fault> errors,
        long faults,
        @JsonAnySetter Map<String, JsonNode> more) {

    public Import {
        Require.present("id", id);
        Require.present("state", state);
        Require.present("startedAt", startedAt);
        errors = Require.listOrEmpty(errors);
        more = Require.mapOrEmpty(more);
    }

    /** Whether it is still being read. */
    public boolean isRunning() {
        return state.equals(ImportState.RUNNING);
    }
}
