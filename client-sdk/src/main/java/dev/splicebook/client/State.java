package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;

/**
 * A state of the vehicle.
 *
 * @param value as it stands in JSON; one that this version does not know is kept as it came
 */
public record State(@JsonValue String value) {

    /** Locked and left. */
    public static final State ASLEEP = new State("asleep");

    /** Key in accessory. */
    public static final State ACCESSORY = new State("accessory");

    /** Ignition on, engine off. */
    public static final State IGNITION = new State("ignition");

    /** Starter turning. */
    public static final State CRANKING = new State("cranking");

    /** Engine running. */
    public static final State RUNNING = new State("running");

    /** An automatic restart: accessory feeds hold, volts dip. */
    public static final State RESTARTING = new State("restarting");

    @JsonCreator(mode = JsonCreator.Mode.DELEGATING)
    public State {
        Require.text("State", value);
    }

    @Override
    public String toString() {
        return value;
    }
}
