package dev.splicebook.hookup.pair;

import dev.splicebook.hookup.net.Node;

/**
 * A conductor to be drawn.
 *
 * @param from the end that the power or the signal comes from
 * @param typicalAmps 0 for a signal
 * @param maxAmps 0 for a signal
 * @param run where it goes
 * @param guardAmps what protects it at {@code from}: infinite for nothing, NaN where unknown, 0 for electronics
 * @param fused whether the conductor is as thick as {@code guardAmps} asks for, and gets no fuse of its own; of a ground
 *     {@code guardAmps} is what the feed bears
 */
record Join(Node from, Node to, double typicalAmps, double maxAmps, Run run, double guardAmps, boolean fused) {

    /** What kind of conductor, which decides its size and length. */
    enum Run {
        SIGNAL,
        DATA,
        ANTENNA,
        SPEAKER,
        CONTROL,
        POWER,
        GROUND
    }

    static Join of(Node from, Node to, Run run) {
        return new Join(from, to, 0, 0, run, 0, false);
    }
}
