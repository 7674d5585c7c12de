package dev.splicebook.device;

import java.time.Instant;

/**
 * A revision of a device as the catalogue keeps it.
 *
 * @param latestRevision of the device, at least {@code revision}
 * @param shared whether every firm may read it
 * @param createdAt when the revision was added
 * @param document exactly as it was sent, but for blanks between tokens
 */
public record StoredDevice(
        String code, int revision, int latestRevision, boolean shared, Instant createdAt, String document) {

    /** As it was when it was added, and so the latest. */
    public StoredDevice asAdded() {
        return new StoredDevice(code, revision, revision, shared, createdAt, document);
    }
}
