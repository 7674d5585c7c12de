package dev.splicebook.hookup.pair;

import org.jspecify.annotations.Nullable;

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

    /** Something else of a kind that will do. */
    static Term inPlaceOf(double points, @Nullable Object giver, @Nullable Object taker) {
        if (giver == null) {
            return new Term(points, "what it is for is not known");
        }
        return taker == null
                ? new Term(points, "it is " + giver)
                : new Term(points, giver + " serves for " + taker, "it is " + giver + " and not " + taker);
    }
}
