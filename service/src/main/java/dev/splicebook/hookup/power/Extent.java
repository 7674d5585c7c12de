package dev.splicebook.hookup.power;

/** How much is drawn. */
public enum Extent {
    /** What loads draw for long. */
    TYPICAL,
    /** What loads draw at most, from the least volts that the state brings. */
    WORST;

    /** Its place in a table of both. */
    int place() {
        return this == TYPICAL ? 0 : 1;
    }
}
