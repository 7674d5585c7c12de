package dev.splicebook.hookup.power;

/** How much is drawn. */
public enum Extent {
    /** What loads draw for long. */
    TYPICAL,
    /** What loads draw at most, from the least volts that the state brings. */
    WORST,
    /** What loads draw at most, from the most volts that the state brings: what resistors and coils take is most then. */
    HIGHEST
}
