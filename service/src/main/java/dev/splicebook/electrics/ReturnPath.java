package dev.splicebook.electrics;

/** How the current comes back. */
public enum ReturnPath {
    /** By a second conductor, as long and as thick. */
    CONDUCTOR,
    /** By the vehicle's body, whose ohms are given. */
    CHASSIS,
    /** Left out: one way only counts. */
    NONE
}
