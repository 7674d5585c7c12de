package dev.splicebook.hookup.pair;

/**
 * One thing that speaks for or against a way.
 *
 * @param points 0 for what costs nothing, below that for what is gained
 * @param why in words that follow a colon, where the way was chosen; empty for what only speaks against it
 * @param against the same where another was chosen; of a gain without a why, what it says against that other
 */
record Term(double points, String why, String against) {

    Term(double points, String why) {
        this(points, why, why);
    }
}
