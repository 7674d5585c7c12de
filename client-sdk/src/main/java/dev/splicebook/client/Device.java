package dev.splicebook.client;

import java.time.Instant;

/**
 * A revision of a device of the catalogue.
 *
 * @param code by which hookups name it
 * @param revision of the document, 1 or more
 * @param latestRevision the latest there is, the same as {@code revision} or later
 * @param shared whether every firm may read it
 * @param createdAt when the revision was added
 * @param document the device, as it was sent
 */
public record Device(
        String code, int revision, int latestRevision, boolean shared, Instant createdAt, Document document) {

    public Device {
        Require.text("code", code);
        Require.present("createdAt", createdAt);
        Require.present("document", document);
    }
}
