package dev.splicebook.hookup;

import java.util.Locale;

/** An audio channel; left and right as seen sitting in the vehicle and facing forward. */
public enum Channel {
    FRONT_LEFT,
    FRONT_RIGHT,
    REAR_LEFT,
    REAR_RIGHT,
    CENTRE,
    SUBWOOFER,
    LEFT,
    RIGHT;

    /** True unless the two name different sides, or different ends, of the vehicle. */
    public boolean agreesWith(Channel other) {
        return compatible(leftness(), other.leftness()) && compatible(frontness(), other.frontness());
    }

    private static boolean compatible(int one, int other) {
        return one == 0 || other == 0 || one == other;
    }

    private int leftness() {
        return switch (this) {
            case FRONT_LEFT, REAR_LEFT, LEFT -> 1;
            case FRONT_RIGHT, REAR_RIGHT, RIGHT -> -1;
            case CENTRE, SUBWOOFER -> 0;
        };
    }

    private int frontness() {
        return switch (this) {
            case FRONT_LEFT, FRONT_RIGHT -> 1;
            case REAR_LEFT, REAR_RIGHT -> -1;
            case CENTRE, SUBWOOFER, LEFT, RIGHT -> 0;
        };
    }

    @Override
    public String toString() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
