package dev.splicebook.hookup;

import java.util.Locale;

/** A state of the vehicle, in the order in which a drive meets them. */
public enum State {
    ASLEEP,
    ACCESSORY,
    IGNITION,
    CRANKING,
    RUNNING,
    /** An automatic restart: accessory feeds hold, volts dip. */
    RESTARTING;

    /** The name in JSON and prose. */
    @Override
    public String toString() {
        return name().toLowerCase(Locale.ROOT);
    }
}
