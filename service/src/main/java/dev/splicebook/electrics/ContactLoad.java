package dev.splicebook.electrics;

/**
 * What a relay's contact switches, with the share of the contact's resistive rating that such a load may use, and how many
 * times its steady current it draws at first: common practice, no source; a contact's data sheet is better.
 */
public enum ContactLoad {
    RESISTIVE(1, 1),
    INDUCTIVE(0.6, 1),
    LAMP(0.5, 10),
    MOTOR(0.5, 6);

    private final double usableShare;
    private final double inrushTimes;

    ContactLoad(double usableShare, double inrushTimes) {
        this.usableShare = usableShare;
        this.inrushTimes = inrushTimes;
    }

    /** Share of the resistive rating that may be used, 0 to 1. */
    public double usableShare() {
        return usableShare;
    }

    /** First current as a multiple of the steady one, at least 1. */
    public double inrushTimes() {
        return inrushTimes;
    }

    /** Rating over load, of what may be used: at least 1 bears it. */
    public static double margin(double ratingAmps, double usableShare, double loadAmps) {
        return ratingAmps * usableShare / loadAmps;
    }
}
