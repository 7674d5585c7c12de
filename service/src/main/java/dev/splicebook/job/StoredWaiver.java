package dev.splicebook.job;

import dev.splicebook.hookup.Waiver;
import java.time.Instant;

/**
 * A waiver of a stored hookup.
 *
 * @param rule of what was found when it was given
 * @param message of what was found when it was given
 * @param createdAt when it was given
 */
public record StoredWaiver(Waiver waiver, String rule, String message, Instant createdAt) {}
