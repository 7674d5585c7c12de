package dev.splicebook.exchange;

import dev.splicebook.web.Fault;
import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * An import: what was asked, how far it has come, and what came of it.
 *
 * @param lines read so far, blank ones included
 * @param vehicles added or revised, so far while it runs; 0 where nothing was stored, but for a dry run that found no
 *     fault, which tells what would have been
 * @param devices as {@code vehicles}
 * @param circuits of these vehicles
 * @param unchanged vehicles and devices of which the same is stored already
 * @param bytes read so far
 * @param endedAt absent while it runs
 * @param errors the first 100 faults
 * @param faults how many there are
 */
public record ImportView(
        UUID id,
        ImportState state,
        boolean dryRun,
        int lines,
        int vehicles,
        int devices,
        int circuits,
        int unchanged,
        long bytes,
        Instant startedAt,
        @Nullable Instant endedAt,
        List<Fault> errors,
        int faults) {}
