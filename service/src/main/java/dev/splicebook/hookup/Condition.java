package dev.splicebook.hookup;

import java.util.Locale;

/** What must hold beside the state for a circuit to be live. */
public enum Condition {
    REVERSE,
    LAMPS,
    PARKING_BRAKE,
    BRAKE,
    DOOR_OPEN;

    @Override
    public String toString() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
