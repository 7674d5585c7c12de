package dev.splicebook.client;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * A revision of a device in a list.
 *
 * @param code by which hookups name it
 * @param revision 1 or more
 * @param shared whether every firm may read it
 * @param createdAt when the revision was added
 * @param maker absent if the device does not say
 * @param name absent if the device does not say
 * @param kind of product, like {@code amplifier}; absent if the device does not say
 */
public record DeviceSummary(
        String code,
        int revision,
        boolean shared,
        Instant createdAt,
        @Nullable String maker,
        @Nullable String name,
        @Nullable String kind) {

    public DeviceSummary {
        Require.text("code", code);
        Require.present("createdAt", createdAt);
    }
}
