package dev.splicebook.hookup;

/** What the return of a line output is: the vehicle's ground, afloat, or driven with something of its own. */
public enum OutputReturn {
    CHASSIS,
    ISOLATED,
    DRIVEN
}
