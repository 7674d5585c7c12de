package dev.splicebook.hookup;

/** What the return of a line input is: the vehicle's ground, afloat, or the second side of a differential input. */
public enum InputReturn {
    CHASSIS,
    ISOLATED,
    DIFFERENTIAL
}
