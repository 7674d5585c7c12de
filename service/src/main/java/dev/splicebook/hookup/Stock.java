package dev.splicebook.hookup;

import dev.splicebook.function.FunctionId;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** The devices that a change may add, and the latest of what a hookup names. */
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

    /**
     * A function map of the book.
     *
     * @param revision 1 or above
     */
    record StockedMap(FunctionMap map, int revision) {}

    /** The devices of a kind, like {@code relay}; empty if there are none. */
    List<Item> listDevices(String kind);

    /** The latest of a device, null if there is none that can be used. */
    default @Nullable Item findDevice(String code) {
        return null;
    }

    /** The latest map of a vehicle, null if there is none that can be used. */
    default @Nullable StockedMap findMap(String vehicle) {
        return null;
    }

    /**
     * What the catalogue says of a device in a list.
     *
     * @param kind like {@code amplifier}
     */
    record Listed(String code, @Nullable String kind) {}

    /** A few devices that have a terminal for a function, by their codes; empty if there are none. */
    default List<Listed> listDevices(FunctionId function) {
        return List.of();
    }
}
