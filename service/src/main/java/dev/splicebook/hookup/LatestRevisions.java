package dev.splicebook.hookup;

import dev.splicebook.guard.Guard;
import java.util.HashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * What is latest today of what a hookup names by revision.
 *
 * @param vehicle of the function map, 1 or above; null where the map is inline or nobody knows
 * @param parts by ref, 1 or above; parts of inline devices are absent
 */
public record LatestRevisions(@Nullable Integer vehicle, Map<String, Integer> parts) {

    /** Of a hookup of which nothing is stored, or nobody knows. */
    public static final LatestRevisions UNKNOWN = new LatestRevisions(null, Map.of());

    public LatestRevisions {
        parts = Map.copyOf(parts);
        Guard guard = new Guard().between("vehicle", vehicle, 1, Integer.MAX_VALUE);
        parts.forEach((part, revision) -> guard.between("parts/" + part, revision, 1, Integer.MAX_VALUE));
        guard.check();
    }

    /** The same with a part more, whose revision is the latest; as it is for an inline device. */
    public LatestRevisions and(String part, @Nullable Integer revision) {
        if (revision == null) {
            return this;
        }
        Map<String, Integer> more = new HashMap<>(parts);
        more.put(part, revision);
        return new LatestRevisions(vehicle, more);
    }
}
