package dev.splicebook.hookup;

/** Why a circuit must not be touched. */
public enum Hazard {
    AIRBAG,
    HIGH_VOLTAGE
}
