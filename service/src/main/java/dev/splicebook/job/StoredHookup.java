package dev.splicebook.job;

import java.time.Instant;
import java.util.UUID;

/**
 * A revision of a stored hookup.
 *
 * @param latestRevision of the hookup, at least {@code revision}
 * @param createdAt when the revision was added
 * @param document exactly as it was sent, but for blanks between tokens
 * @param report as the check made it then, before any waiver
 */
public record StoredHookup(
        UUID id, int revision, int latestRevision, Instant createdAt, String document, String report) {

    /** As it was when it was added, and so the latest. */
    public StoredHookup asAdded() {
        return new StoredHookup(id, revision, revision, createdAt, document, report);
    }
}
