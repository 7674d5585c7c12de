package dev.splicebook.check;

import java.time.Instant;

/**
 * A rule of the house as it is kept.
 *
 * @param revision 1 or more; grows with each change
 * @param createdAt when the revision was added
 * @param document exactly as it was sent, but for blanks between tokens
 */
public record StoredHouseRule(String code, int revision, Instant createdAt, String document) {}
