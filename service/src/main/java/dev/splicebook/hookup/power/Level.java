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
    private static final double RESTING_VOLTS = 12.6;
    /** Volts with the engine running where a vehicle gives no range. */
    public static final double RUNNING_VOLTS = 14.2;
    /** Volts while the starter turns the engine: ISO 16750-2 starting profile, level I, from memory. */
    private static final double STARTING_VOLTS = 9.5;
    /** Volts as the starter engages, of the same profile. */
    private static final double DIP_VOLTS = 8.0;
    /** The same of a vehicle for 24 V, of the same profile, from memory. */
    private static final double STARTING_VOLTS_OF_24 = 20;

    private static final double DIP_VOLTS_OF_24 = 10;

    /** A supply that states volts in here hangs on the battery, and moves with it; twice as many in a vehicle for 24 V. */
    private static final double LEAST_BATTERY_VOLTS = 10;

    private static final double MOST_BATTERY_VOLTS = 16;

    /** Stated volts up to here were read with the engine off, above it with the engine running. */
    private static final double CHARGING_VOLTS = 13;

    public static Level of(State state) {
        return switch (state) {
            case ASLEEP -> ASLEEP;
            case ACCESSORY, IGNITION -> RESTING;
            case RUNNING -> RUNNING;
            case CRANKING, RESTARTING -> STARTING;
        };
    }

    /** Volts of the battery of a vehicle that runs at some volts, for 12 V unless these say otherwise. */
    public double batteryVolts(Extent extent, @Nullable VoltRange running) {
        boolean doubled = isDoubled(running);
        return switch (this) {
            case ASLEEP, RESTING -> (doubled ? 2 : 1) * RESTING_VOLTS;
            case RUNNING -> running == null ? RUNNING_VOLTS : runningVolts(extent, running);
            case STARTING ->
                extent == Extent.TYPICAL
                        ? doubled ? STARTING_VOLTS_OF_24 : STARTING_VOLTS
                        : doubled ? DIP_VOLTS_OF_24 : DIP_VOLTS;
        };
    }

    private static double runningVolts(Extent extent, VoltRange running) {
        return switch (extent) {
            case TYPICAL -> (running.min() + running.max()) / 2;
            case WORST -> running.min();
            case HIGHEST -> running.max();
        };
    }

    private static boolean isDoubled(@Nullable VoltRange running) {
        return running != null && running.isOf24Volts();
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
        double batteries = isDoubled(running) ? 2 : 1;
        if (independent
                || Boolean.TRUE.equals(supply.regulated())
                || own < LEAST_BATTERY_VOLTS * batteries
                || own > MOST_BATTERY_VOLTS * batteries) {
            return own;
        }
        boolean charging = own > CHARGING_VOLTS * batteries;
        return switch (this) {
            case ASLEEP, RESTING -> charging ? battery : own;
            case RUNNING -> charging ? own : battery;
            case STARTING -> battery;
        };
    }
}
