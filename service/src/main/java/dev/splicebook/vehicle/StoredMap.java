package dev.splicebook.vehicle;

import java.time.Instant;
import java.util.UUID;

/**
 * A revision of a vehicle's map as the book keeps it.
 *
 * @param latestRevision of the vehicle, at least {@code revision}
 * @param shared whether every firm may read it
 * @param createdAt when the revision was added
 * @param document exactly as it was sent, but for blanks between tokens
 */
public record StoredMap(UUID id, int revision, int latestRevision, boolean shared, Instant createdAt, String document) {

    /** As it was when it was added, and so the latest. */
    public StoredMap asAdded() {
        return new StoredMap(id, revision, revision, shared, createdAt, document);
    }
}
