package dev.splicebook.electrics;

import dev.splicebook.electrics.VoltageDrop.Run;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What a wire is sized for: the thinnest of a series that keeps both the drop and the current within their limits.
 *
 * @param currentAmps continuous, above 0
 * @param lengthMetres one way, above 0
 * @param chassisOhms at least 0; counts with {@link ReturnPath#CHASSIS} only
 * @param supplyVolts above 0
 * @param maxDropVolts over the whole run, above 0; infinite for no limit
 * @param insulationCelsius 60 to 250
 * @param ambientCelsius below the insulation's rating
 * @param temperatureCelsius of the conductor, for its resistance; absent where its own heating decides
 * @param bundledConductors that carry current in the bundle, itself among them, at least 1
 * @param like what the wire is made of; its size does not count
 */
public record WireSizing(
        double currentAmps,
        double lengthMetres,
        ReturnPath returnPath,
        double chassisOhms,
        double supplyVolts,
        double maxDropVolts,
        double insulationCelsius,
        double ambientCelsius,
        @Nullable Double temperatureCelsius,
        int bundledConductors,
        SizeSeries series,
        WireConductor like) {

    /** Which limit a size is chosen by. */
    public enum Governor {
        DROP,
        AMPACITY
    }

    /**
     * A size of the series under this load.
     *
     * @param allowableAmps corrected for ambient and bundle
     * @param conductorCelsius that it comes to; above the insulation's rating an extrapolation
     * @param dropMarginVolts what is left below the limit; negative above it
     * @param ampacityMarginAmps what is left below what is allowed; negative above it
     * @param marginPercent the lesser of both, of its limit
     */
    public record Candidate(
            ConductorSize size,
            double dropVolts,
            double dropPercent,
            double allowableAmps,
            double conductorCelsius,
            double dropMarginVolts,
            double ampacityMarginAmps,
            double marginPercent) {

        public boolean passesDrop() {
            return dropMarginVolts >= 0;
        }

        public boolean passesAmpacity() {
            return ampacityMarginAmps >= 0;
        }

        public boolean passes() {
            return passesDrop() && passesAmpacity();
        }
    }

    /**
     * The choice.
     *
     * @param chosen the thinnest that passes; null if none does
     * @param governedBy the limit that asks for the thicker wire, and where both ask for the same, the one with the lesser
     *     margin there; null if no size passes
     * @param thinner the size before the chosen one, or the thickest if none passes; null for the thinnest of the series
     * @param thicker the size after the chosen one; null if there is none
     */
    public record Choice(
            @Nullable Candidate chosen,
            @Nullable Governor governedBy,
            @Nullable Candidate thinner,
            @Nullable Candidate thicker) {}

    /** Every size of the series under this load, thinnest first. */
    public List<Candidate> candidates() {
        return series.sizes().stream().map(this::candidate).toList();
    }

    /** One size under this load. */
    public Candidate candidate(ConductorSize size) {
        WireConductor conductor = like.withSize(size);
        double allowable =
                conductor.allowableAmps(insulationCelsius, ambientCelsius) * Ampacity.bundleFactor(bundledConductors);
        double celsius = Ampacity.conductorCelsius(
                ambientCelsius, Ampacity.ratedCelsius(insulationCelsius), currentAmps, allowable);
        Run run = new Run(conductor, lengthMetres, returnPath, chassisOhms);
        double drop =
                VoltageDrop.dropVolts(currentAmps, run.ohms(temperatureCelsius == null ? celsius : temperatureCelsius));
        double dropMargin = maxDropVolts - drop;
        double ampacityMargin = allowable - currentAmps;
        double dropShare = Double.isInfinite(maxDropVolts) ? 1 : dropMargin / maxDropVolts;
        return new Candidate(
                size,
                drop,
                VoltageDrop.dropPercent(drop, supplyVolts),
                allowable,
                celsius,
                dropMargin,
                ampacityMargin,
                100 * Math.min(dropShare, ampacityMargin / allowable));
    }

    /** The thinnest size that passes, with its neighbours. */
    public Choice choose() {
        List<Candidate> all = candidates();
        int byDrop = first(all, true);
        int byAmpacity = first(all, false);
        int at = Math.max(byDrop, byAmpacity);
        if (at == all.size()) {
            return new Choice(null, null, all.get(at - 1), null);
        }
        Candidate chosen = all.get(at);
        boolean drop = byDrop != byAmpacity
                ? byDrop > byAmpacity
                : chosen.dropMarginVolts() / maxDropVolts < chosen.ampacityMarginAmps() / chosen.allowableAmps();
        return new Choice(
                chosen,
                drop ? Governor.DROP : Governor.AMPACITY,
                at == 0 ? null : all.get(at - 1),
                at + 1 == all.size() ? null : all.get(at + 1));
    }

    /** The first size that passes one limit. Both limits ease from size to size, so that every later one passes too. */
    private static int first(List<Candidate> all, boolean drop) {
        int at = 0;
        while (at < all.size()
                && !(drop ? all.get(at).passesDrop() : all.get(at).passesAmpacity())) {
            at++;
        }
        return at;
    }
}
