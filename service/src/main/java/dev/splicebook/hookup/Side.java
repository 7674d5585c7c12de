package dev.splicebook.hookup;

/** Which conductor of a pair a terminal is. */
public enum Side {
    PLUS,
    MINUS,
    SIGNAL,
    RETURN;

    /** Plus and signal carry the same polarity, and so do minus and return. */
    public boolean isPositive() {
        return this == PLUS || this == SIGNAL;
    }
}
