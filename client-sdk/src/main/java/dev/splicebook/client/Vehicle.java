package dev.splicebook.client;

import java.time.Instant;
import java.util.UUID;

/**
 * A revision of a vehicle's function map.
 *
 * @param revision of the document, 1 or more
 * @param latestRevision the latest there is, the same as {@code revision} or later
 * @param shared whether every firm may read it
 * @param createdAt when the revision was added
 * @param document the function map, as it was sent
 */
public record Vehicle(UUID id, int revision, int latestRevision, boolean shared, Instant createdAt, Document document) {

    public Vehicle {
        Require.present("id", id);
        Require.present("createdAt", createdAt);
        Require.present("document", document);
    }
}
