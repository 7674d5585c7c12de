package dev.splicebook.hookup.power;

/** How much is drawn. */
public enum Extent {
    /** What loads draw for long. */
    TYPICAL,
    /** What loads draw at most, from the least volts that the state brings. */
    WORST
}
