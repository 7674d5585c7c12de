package dev.splicebook.hookup;

import java.util.List;
import java.util.Map;

/** The terminals that every vehicle has. */
public final class Vehicle {

    public static final String BATTERY_PLUS = "battery-plus";
    public static final String BATTERY_MINUS = "battery-minus";
    public static final String CHASSIS = "chassis";

    /** The battery gives what is asked of it, in every state, without a fuse; it and the chassis are the references. */
    public static final Map<String, Circuit> ALWAYS_THERE = Map.of(
            BATTERY_PLUS,
            Circuit.of(new Electrical.Supply(null, null, List.of(State.values()), List.of(), null, null, null)),
            BATTERY_MINUS,
            Circuit.of(new Electrical.Ground(null)),
            CHASSIS,
            Circuit.of(new Electrical.Ground(null)));

    private Vehicle() {}
}
