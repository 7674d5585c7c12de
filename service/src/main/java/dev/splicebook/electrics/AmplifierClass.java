package dev.splicebook.electrics;

/** How an output stage works, with what it draws at full sine power and below. */
public enum AmplifierClass {
    /** Draws the same whatever it gives; 25 % at full power, the theoretical best. */
    A(0.25),
    /** About 50 % at full power is typical, 78.5 % the theoretical best. */
    B(0.5),
    /** As {@link #B}. */
    AB(0.5),
    /** 90 % at full power, and an idle loss that weighs more the less it gives. */
    D(0.9);

    /** What a class D stage loses at idle, of its rated power: an assumption, no source. */
    public static final double IDLE_SHARE = 0.03;

    private final double fullPowerEfficiency;

    AmplifierClass(double fullPowerEfficiency) {
        this.fullPowerEfficiency = fullPowerEfficiency;
    }

    /** Share of the supply's power that becomes rated sine power. */
    public double fullPowerEfficiency() {
        return fullPowerEfficiency;
    }

    /**
     * Power drawn from the supply.
     *
     * <p>A: constant. B and AB: the output stage takes the mean of the signal's current from a fixed voltage, so that the
     * power goes by the root of the output power. D: in proportion, above an idle loss, so that both give the efficiency at
     * full power.
     *
     * @param ratedWatts that it gives at full sine power
     * @param share of that which it gives, 0 to 1
     */
    public double supplyWatts(double ratedWatts, double share) {
        double full = ratedWatts / fullPowerEfficiency;
        return switch (this) {
            case A -> full;
            case B, AB -> full * Math.sqrt(share);
            case D -> {
                double idle = ratedWatts * IDLE_SHARE;
                yield idle + (full - idle) * share;
            }
        };
    }
}
