package dev.splicebook.hookup.pair;

import dev.splicebook.electrics.Ampacity;
import dev.splicebook.electrics.ConductorMaterial;
import dev.splicebook.electrics.ConductorSize;
import dev.splicebook.electrics.FuseBody;
import dev.splicebook.electrics.FuseSizing;
import dev.splicebook.electrics.Length;
import dev.splicebook.electrics.LengthUnit;
import dev.splicebook.electrics.ReturnPath;
import dev.splicebook.electrics.SizeSeries;
import dev.splicebook.electrics.WireConductor;
import dev.splicebook.electrics.WireSizing;
import dev.splicebook.hookup.Connection;
import dev.splicebook.hookup.Connection.Conductor;
import dev.splicebook.hookup.Connection.WireFuse;
import dev.splicebook.hookup.PairingQuestion.Preferences;
import dev.splicebook.hookup.Report.Assumption;
import dev.splicebook.hookup.Vehicle;
import dev.splicebook.hookup.net.Node;
import java.util.ArrayList;
import java.util.List;
import java.util.NavigableSet;
import org.jspecify.annotations.Nullable;

/** How thick and long conductors are, and what fuses they get. */
final class Sizes {

    private static final double INSULATION_CELSIUS = 105;

    /** Of the supply, for each of feed and ground: common practice, no source; together 3 %. */
    private static final double MOST_DROP_SHARE = 0.015;

    private static final double SUPPLY_VOLTS = 12.6;

    /** What a loudspeaker's wires may add to its ohms: common practice, no source. */
    private static final double SPEAKER_DROP_SHARE = 0.05;

    private static final double SPEAKER_OHMS = 4;

    /** From here on a run of its own from the battery is usual: common practice, no source. */
    static final double HEAVY_AMPS = 15;

    private static final Length FUSE_FROM_SOURCE = new Length(10, LengthUnit.CM);
    private static final Length TO_FUSE_PART = new Length(30, LengthUnit.CM);
    private static final Length TO_BODY = new Length(50, LengthUnit.CM);

    private final Conductor least;
    private final ConductorMaterial material;
    private final double insulationCelsius;
    private final Length spliceLength;
    private final Length tapLength;
    private final Length powerRunLength;
    private final List<Assumption> assumptions = new ArrayList<>();

    Sizes(Preferences preferences) {
        Conductor preferred = preferences.leastConductor();
        least = preferred != null
                ? preferred
                : new Conductor(new ConductorSize("18 AWG"), ConductorMaterial.COPPER, INSULATION_CELSIUS);
        material = least.material() == null ? ConductorMaterial.COPPER : least.material();
        insulationCelsius = least.insulationCelsius() == null ? INSULATION_CELSIUS : least.insulationCelsius();
        if (preferred == null) {
            assumptions.add(new Assumption(
                    "leastConductor", null, null, "conductors are at least 18 AWG copper with 105 °C insulation"));
        }
        spliceLength = length(preferences.spliceLength(), "spliceLength", 0.25, "behind a panel, from lead to lead");
        tapLength = length(preferences.tapLength(), "tapLength", 1.5, "to a connector elsewhere, or from part to part");
        powerRunLength = length(preferences.powerRunLength(), "powerRunLength", 5, "from the battery");
    }

    private Length length(@Nullable Length preferred, String name, double metres, String about) {
        if (preferred != null) {
            return preferred;
        }
        assumptions.add(new Assumption(name, metres, "m", "length of a conductor " + about + ": measure it"));
        return new Length(metres, LengthUnit.M);
    }

    List<Assumption> assumptions() {
        return assumptions;
    }

    /** The rating that carries a load; at least 2 A. */
    static double fuseAmps(double typicalAmps, double maxAmps) {
        double needed = Math.max(2, FuseSizing.leastAmps(typicalAmps, maxAmps, 1));
        NavigableSet<Double> ratings = FuseBody.allRatingsAmps();
        Double rating = ratings.ceiling(needed * (1 - 1e-9));
        return rating == null ? ratings.last() : rating;
    }

    /** What stands before a conductor that follows another: the source's own protection, or the fuse that it gets. */
    double behindAmps(double guardAmps, double typicalAmps, double maxAmps) {
        return guardAmps <= ampacity(least.size()) ? guardAmps : fuseAmps(typicalAmps, maxAmps);
    }

    Connection connection(Join join) {
        Length length = length(join);
        List<String> ends = List.of(join.from().ref(), join.to().ref());
        if (join.run() == Join.Run.SIGNAL || join.run() == Join.Run.DATA || join.run() == Join.Run.ANTENNA) {
            return new Connection(ends, null, length, null);
        }
        ConductorSize size = sized(join, isHeavy(join) ? powerRunLength.metres() : length.metres());
        WireFuse fuse = null;
        double guard = join.guardAmps();
        if (join.fused()) {
            size = thickEnough(size, guard);
        } else if (guard != 0 && !(guard <= ampacity(size))) {
            double rating = fuseAmps(join.typicalAmps(), join.maxAmps());
            size = thickEnough(size, rating);
            // a thicker wire may suit the source's own fuse after all
            if (!(guard <= ampacity(size))) {
                fuse = new WireFuse(rating, FUSE_FROM_SOURCE.metres() <= length.metres() ? FUSE_FROM_SOURCE : length);
            }
        }
        return new Connection(ends, new Conductor(size, material, insulationCelsius), length, fuse);
    }

    /** What a run bears for long: the least of what fuses it and of its conductor; 0 where nothing fuses it. */
    double bearsAmps(Join join) {
        Connection connection = connection(join);
        double fuses = connection.fuse() != null
                ? connection.fuse().ratingAmps()
                : join.guardAmps() > 0 ? join.guardAmps() : Double.POSITIVE_INFINITY;
        return connection.conductor() == null || fuses == Double.POSITIVE_INFINITY
                ? 0
                : Math.min(fuses, ampacity(connection.conductor().size()));
    }

    private ConductorSize sized(Join join, double metres) {
        double amps = Math.max(join.maxAmps(), 0.01);
        boolean speaker = join.run() == Join.Run.SPEAKER;
        WireSizing.Candidate chosen = new WireSizing(
                        amps,
                        metres,
                        speaker ? ReturnPath.CONDUCTOR : ReturnPath.NONE,
                        0,
                        SUPPLY_VOLTS,
                        speaker ? SPEAKER_DROP_SHARE * SPEAKER_OHMS * amps : MOST_DROP_SHARE * SUPPLY_VOLTS,
                        insulationCelsius,
                        Ampacity.TABLE_AMBIENT_CELSIUS,
                        null,
                        1,
                        SizeSeries.of(least.size()),
                        WireConductor.of(least.size(), material))
                .choose()
                .chosen();
        List<ConductorSize> sizes = SizeSeries.of(least.size()).sizes();
        ConductorSize size = chosen == null ? sizes.get(sizes.size() - 1) : chosen.size();
        return size.areaMm2() < least.size().areaMm2() ? least.size() : size;
    }

    /** All of a heavy run, its ground too, is as thick as the whole length asks for. */
    private static boolean isHeavy(Join join) {
        return join.maxAmps() >= HEAVY_AMPS && (join.run() == Join.Run.POWER || join.run() == Join.Run.GROUND);
    }

    private ConductorSize thickEnough(ConductorSize from, double amps) {
        return SizeSeries.of(from).sizes().stream()
                .filter(size -> size.areaMm2() >= from.areaMm2() * 0.999 && ampacity(size) >= amps)
                .findFirst()
                .orElse(from);
    }

    private double ampacity(ConductorSize size) {
        return Ampacity.allowableAmps(size, material, insulationCelsius, Ampacity.TABLE_AMBIENT_CELSIUS);
    }

    private Length length(Join join) {
        Node from = join.from();
        Node to = join.to();
        boolean reference = from.role() == Node.Role.REFERENCE || to.role() == Node.Role.REFERENCE;
        boolean body = isBody(from) || isBody(to);
        boolean vehicle = from.isVehicle() || to.isVehicle();
        return switch (join.run()) {
            case GROUND -> body ? TO_BODY : vehicle ? tapLength : spliceLength;
            case POWER ->
                reference && join.fused()
                        ? TO_FUSE_PART
                        : reference || (join.fused() && isHeavy(join))
                                ? powerRunLength
                                : vehicle || join.fused() ? tapLength : spliceLength;
            case CONTROL -> vehicle ? tapLength : spliceLength;
            case DATA -> tapLength;
            case SPEAKER -> join.maxAmps() >= 3 ? tapLength : spliceLength;
            case SIGNAL, ANTENNA -> spliceLength;
        };
    }

    private static boolean isBody(Node node) {
        return node.role() == Node.Role.REFERENCE && node.name().equals(Vehicle.CHASSIS);
    }
}
