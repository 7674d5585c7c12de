package dev.splicebook.electrics;

/**
 * Cold resistance of blade fuses, by which the drop across a fuse tells the current through it.
 *
 * <p>Published in a secondary copy of a maker's table: 7.70 mΩ at 10 A and 3.38 mΩ at 20 A. Any other rating is an
 * estimate of ours: ohms = k / amps^p through those two points, p about 1.19. Fuses of one rating differ between makers
 * and bodies, so that even the published figures are good for a tenth or so.
 */
public final class FuseResistance {

    private static final double LESSER_AMPS = 10;
    private static final double LESSER_OHMS = 0.00770;
    private static final double GREATER_AMPS = 20;
    private static final double GREATER_OHMS = 0.00338;

    private static final double POWER = Math.log(LESSER_OHMS / GREATER_OHMS) / Math.log(GREATER_AMPS / LESSER_AMPS);

    private FuseResistance() {}

    /**
     * Cold resistance in ohms, published or estimated.
     *
     * @param ratingAmps above 0; the estimate is meant for 1 to 100 A
     * @throws IllegalArgumentException if the rating is not above 0
     */
    public static double coldOhms(double ratingAmps) {
        if (!(ratingAmps > 0)) {
            throw new IllegalArgumentException("a fuse of " + ratingAmps + " A has no resistance");
        }
        if (ratingAmps == GREATER_AMPS) {
            return GREATER_OHMS;
        }
        return LESSER_OHMS * Math.pow(LESSER_AMPS / ratingAmps, POWER);
    }

    /** Whether {@link #coldOhms} of this rating is published, not estimated. */
    public static boolean isPublished(double ratingAmps) {
        return ratingAmps == LESSER_AMPS || ratingAmps == GREATER_AMPS;
    }

    /** Current in amperes through a fuse of {@code ohms} that drops {@code volts}: Ohm's law. */
    public static double amps(double volts, double ohms) {
        return volts / ohms;
    }
}
