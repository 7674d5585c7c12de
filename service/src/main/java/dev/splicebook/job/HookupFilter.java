package dev.splicebook.job;

import dev.splicebook.hookup.Report.Verdict;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * Which stored hookups are wanted, by their latest revision; everything given must hold.
 *
 * @param vehicle the vehicle of the book that it names
 * @param verdict by the report of the revision and the waivers in force today
 * @param text each of its words must be the beginning of one in the name
 */
public record HookupFilter(
        @Nullable UUID vehicle,
        @Nullable Verdict verdict,
        @Nullable String text) {}
