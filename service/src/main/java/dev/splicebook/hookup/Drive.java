package dev.splicebook.hookup;

/** How an output drives a loudspeaker: both sides, or one side against ground. */
public enum Drive {
    FLOATING,
    COMMON_GROUND
}
