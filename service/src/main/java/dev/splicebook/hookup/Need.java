package dev.splicebook.hookup;

/** The feed that a load needs. */
public enum Need {
    CONSTANT,
    SWITCHED,
    EITHER
}
