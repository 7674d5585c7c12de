package dev.splicebook.hookup;

import java.util.List;
import org.jspecify.annotations.Nullable;

/** The devices that a change may add. */
@FunctionalInterface
public interface Stock {

    /** No device at all, so that every part that is added is a plain component. */
    Stock NONE = kind -> List.of();

    /**
     * A device of the catalogue.
     *
     * @param revision of the device, null for the latest
     */
    record Item(Device device, @Nullable Integer revision) {}

    /** The devices of a kind, like {@code relay}; empty if there are none. */
    List<Item> listDevices(String kind);
}
