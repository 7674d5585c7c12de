package dev.splicebook.job;

import dev.splicebook.hookup.Report.Verdict;
import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A revision of a stored hookup in a list.
 *
 * @param createdAt when the revision was added
 * @param name what the shop calls the job
 * @param vehicle the vehicle of the book that it names
 * @param verdict by the report made when the revision was added, and the waivers in force today
 */
public record HookupSummary(
        UUID id,
        int revision,
        Instant createdAt,
        @Nullable String name,
        @Nullable UUID vehicle,
        Verdict verdict) {}
