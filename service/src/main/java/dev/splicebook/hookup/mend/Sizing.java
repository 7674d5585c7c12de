package dev.splicebook.hookup.mend;

import dev.splicebook.electrics.Ampacity;
import dev.splicebook.electrics.ConductorMaterial;
import dev.splicebook.electrics.ConductorSize;
import dev.splicebook.electrics.FuseBody;
import dev.splicebook.electrics.FuseSizing;
import dev.splicebook.electrics.Length;
import dev.splicebook.electrics.LengthUnit;
import dev.splicebook.electrics.SizeSeries;
import dev.splicebook.electrics.VoltageDrop;
import dev.splicebook.electrics.WireConductor;
import dev.splicebook.hookup.Connection.Conductor;
import dev.splicebook.hookup.Connection.WireFuse;
import java.util.List;
import java.util.NavigableSet;
import org.jspecify.annotations.Nullable;

/**
 * Sizes and lengths of what a change adds. The lengths are guesses, because where a part will sit is not known before it
 * is fitted.
 */
final class Sizing {

    /** Between two things that are fitted side by side. */
    static final Length NEAR = new Length(20, LengthUnit.CM);
    /** From a part to a circuit of the vehicle nearby. */
    static final Length ROOM = new Length(1, LengthUnit.M);
    /** From the battery to a part inside. */
    static final Length FROM_BATTERY = new Length(4, LengthUnit.M);

    /** Far below the 18 in (45 cm) of common practice. */
    private static final Length FUSE_AT = new Length(10, LengthUnit.CM);

    /** What a signal or a coil goes over: thinner copes, and breaks sooner; common practice, no source. */
    static final Conductor LIGHT = new Conductor(new ConductorSize("18 AWG"), ConductorMaterial.COPPER, 105.0);

    /** 2 % of 12.6 V, at the rating of the fuse, which is more than the load draws for long; common practice, no source. */
    private static final double MOST_DROP_VOLTS = 0.25;

    /** Some way above the air of 30 °C by the current in it; common practice, no source. */
    private static final double WARM_CELSIUS = 40;

    private static final NavigableSet<Double> RATINGS_AMPS = FuseBody.allRatingsAmps();

    private Sizing() {}

    /** The least rating that bears a load for long; the greatest there is if none does. */
    static double ratingFor(double typicalAmps, double maxAmps) {
        double least = FuseSizing.leastAmps(typicalAmps, maxAmps, 1);
        Double rating = RATINGS_AMPS.ceiling(least - 1e-9);
        return rating == null ? RATINGS_AMPS.last() : rating;
    }

    /** The greatest rating that protects a conductor; the least there is if none does. */
    static double ratingOf(Conductor conductor) {
        Double rating = RATINGS_AMPS.floor(ampacity(conductor));
        return rating == null ? RATINGS_AMPS.first() : rating;
    }

    /** What a conductor takes, with copper and 105 °C where it does not say. */
    static double ampacity(Conductor conductor) {
        return Ampacity.allowableAmps(
                conductor.size(),
                conductor.material() == null ? ConductorMaterial.COPPER : conductor.material(),
                conductor.insulationCelsius() == null ? 105 : conductor.insulationCelsius(),
                Ampacity.TABLE_AMBIENT_CELSIUS);
    }

    /**
     * The thinnest copper, 18 AWG or thicker, that a fuse of this rating protects and that takes no more than {@link
     * #MOST_DROP_VOLTS} at that rating, by Ohm's law at 40 °C over this length one way; the thickest there is if none does.
     */
    static Conductor conductorFor(double ratingAmps, Length length) {
        Conductor last = LIGHT;
        for (ConductorSize size : SizeSeries.AWG.sizes()) {
            if (size.areaMm2() >= LIGHT.size().areaMm2() * 0.999) {
                last = new Conductor(size, ConductorMaterial.COPPER, 105.0);
                double ohms = WireConductor.of(size, ConductorMaterial.COPPER).ohms(length.metres(), WARM_CELSIUS);
                if (ampacity(last) >= ratingAmps && VoltageDrop.dropVolts(ratingAmps, ohms) <= MOST_DROP_VOLTS) {
                    return last;
                }
            }
        }
        return last;
    }

    /** Sizes of its own series thicker than a conductor, thinnest first. */
    static List<Conductor> thicker(Conductor conductor) {
        return SizeSeries.of(conductor.size()).sizes().stream()
                .filter(size -> size.areaMm2() > conductor.size().areaMm2() * 1.001)
                .map(size -> new Conductor(size, conductor.material(), conductor.insulationCelsius()))
                .toList();
    }

    /** A fuse near the source's end of a conductor. */
    static WireFuse fuse(double ratingAmps, @Nullable Length of) {
        return new WireFuse(ratingAmps, of != null && of.metres() < FUSE_AT.metres() ? of : FUSE_AT);
    }

    /** Like {@code 7.5} or {@code 60}. */
    static String figure(double value) {
        return value == Math.rint(value) ? Long.toString((long) value) : Double.toString(value);
    }

    static String rating(double amps) {
        return figure(amps) + " A";
    }
}
