package dev.splicebook.exchange;

/** What has become of an import. */
public enum ImportState {
    /** The body is being read. */
    RUNNING,
    /** All of it is stored, or would be. */
    DONE,
    /** Something in it cannot be taken, and nothing is stored. */
    REFUSED,
    /** The sender or the service broke off, and nothing is stored. */
    BROKEN_OFF
}
