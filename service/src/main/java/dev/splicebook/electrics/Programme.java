package dev.splicebook.electrics;

/** What an amplifier plays, as the share of its rated power that it gives on average. */
public enum Programme {
    /** A steady tone at full power. */
    SINE(1),
    /** Loud music, heavily compressed: common practice, no source. */
    ONE_THIRD(1.0 / 3),
    /** Music just below clipping, as safety tests take it (EN 60065). */
    ONE_EIGHTH(1.0 / 8);

    private final double share;

    Programme(double share) {
        this.share = share;
    }

    /** Of rated power. */
    public double share() {
        return share;
    }
}
