package dev.splicebook.hookup;

import dev.splicebook.function.Colour;
import dev.splicebook.guard.Guard;
import org.jspecify.annotations.Nullable;

/**
 * A connector of a vehicle or device.
 *
 * @param name what it is called
 * @param colour of its housing
 * @param pinCount 1 to 500
 * @param location where it is
 * @param access how it is reached
 */
public record Connector(
        @Nullable String name,
        @Nullable Colour colour,
        @Nullable Integer pinCount,
        @Nullable String location,
        @Nullable String access) {

    public Connector {
        new Guard()
                .text("name", name, 200)
                .between("pinCount", pinCount, 1, 500)
                .text("location", location, 1000)
                .text("access", access, 4000)
                .check();
    }
}
