package dev.splicebook.hookup.power;

import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.VoltRange;
import dev.splicebook.hookup.net.Node;
import org.jspecify.annotations.Nullable;

/** Where the volts of the vehicle's battery stand. */
public enum Level {
    /** At rest, and loads draw what they draw asleep. */
    ASLEEP,
    RESTING,
    RUNNING,
    /** The starter pulls. */
    STARTING;

    /** Volts of a rested lead-acid battery. */
    public static final double RESTING_VOLTS = 12.6;
    /** Volts with the engine running where a vehicle gives no range. */
    public static final double RUNNING_VOLTS = 14.2;
    /** Volts while the starter turns the engine: ISO 16750-2 starting profile, level I, from memory. */
    public static final double STARTING_VOLTS = 9.5;
    /** Volts as the starter engages, of the same profile. */
    public static final double DIP_VOLTS = 8.0;

    /** A supply that states volts in here hangs on the battery, and moves with it. */
    private static final double LEAST_BATTERY_VOLTS = 10;

    private static final double MOST_BATTERY_VOLTS = 16;

    /** Stated volts up to here were read with the engine off, above it with the engine running. */
    private static final double CHARGING_VOLTS = 13;

    static Level of(State state) {
        return switch (state) {
            case ASLEEP -> ASLEEP;
            case ACCESSORY, IGNITION -> RESTING;
            case RUNNING -> RUNNING;
            case CRANKING, RESTARTING -> STARTING;
        };
    }

    /** Volts of the battery. */
    double batteryVolts(Extent extent, @Nullable VoltRange running) {
        boolean typical = extent == Extent.TYPICAL;
        return switch (this) {
            case ASLEEP, RESTING -> RESTING_VOLTS;
            case RUNNING ->
                running == null ? RUNNING_VOLTS : typical ? (running.min() + running.max()) / 2 : running.min();
            case STARTING -> typical ? STARTING_VOLTS : DIP_VOLTS;
        };
    }

    /**
     * Volts of a live source. One that states volts near a battery's moves with the battery: a figure up to 13 V was read
     * with the engine off, one above it with the engine running. Other stated volts are regulated and stay, as do those that
     * say that they are.
     *
     * @param independent whether it is a source by itself, like a second battery, which no starter pulls down
     */
    double volts(Node source, Extent extent, @Nullable VoltRange running, boolean independent) {
        double battery = batteryVolts(extent, running);
        if (!(source.facts() instanceof Electrical.Supply supply) || supply.volts() == null) {
            return battery;
        }
        double own = supply.volts();
        if (independent
                || Boolean.TRUE.equals(supply.regulated())
                || own < LEAST_BATTERY_VOLTS
                || own > MOST_BATTERY_VOLTS) {
            return own;
        }
        return switch (this) {
            case ASLEEP, RESTING -> own <= CHARGING_VOLTS ? own : battery;
            case RUNNING -> own > CHARGING_VOLTS ? own : battery;
            case STARTING -> battery;
        };
    }
}
