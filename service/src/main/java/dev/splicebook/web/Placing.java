package dev.splicebook.web;

import org.jspecify.annotations.Nullable;

/**
 * What becomes of one entry of an import.
 *
 * @param unchanged whether the same is stored already, so that nothing was added
 * @param fault why the entry cannot be taken; absent if it can
 */
public record Placing(boolean unchanged, @Nullable Fault fault) {

    /** The entry is new, or a revision is. */
    public static final Placing ADDED = new Placing(false, null);

    /** What is stored means the same. */
    public static final Placing UNCHANGED = new Placing(true, null);

    /** The entry cannot be taken. */
    public static Placing refused(String pointer, String code, String detail) {
        return new Placing(false, Fault.at(pointer, code, detail));
    }

    /** A given revision is not the latest any more. */
    public static Placing revisionChanged(String what, int given, int latest) {
        return refused(
                "/revision",
                "revision-changed",
                "revision is " + given + ", and the latest of " + what + " is " + latest);
    }
}
