package dev.splicebook.hookup;

/** A kind of data bus. */
public enum Bus {
    CAN,
    LIN,
    USB,
    OPTICAL,
    OTHER
}
