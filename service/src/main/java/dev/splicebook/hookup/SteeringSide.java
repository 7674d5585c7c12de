package dev.splicebook.hookup;

/** The side on which the driver sits, seen facing forward. */
public enum SteeringSide {
    LEFT,
    RIGHT
}
