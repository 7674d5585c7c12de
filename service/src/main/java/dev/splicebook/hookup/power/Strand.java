package dev.splicebook.hookup.power;

import dev.splicebook.electrics.Ampacity;
import dev.splicebook.electrics.ConductorMaterial;
import dev.splicebook.electrics.FuseResistance;
import dev.splicebook.electrics.WireConductor;
import dev.splicebook.hookup.Connection;
import dev.splicebook.hookup.Device;
import dev.splicebook.hookup.net.Link;
import java.util.HashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** A link that power can pass, with its resistance. A diode has none of its own. */
public final class Strand {

    /** Stands for a contact, and for a conductor of which size or length is unknown: what it takes does not show. */
    static final double LEAST_OHMS = 1e-6;

    private static final double INSULATION_CELSIUS = 105;

    /** As far as resistance goes by a straight line; beyond, the conductor is long lost. */
    private static final double MOST_CELSIUS = 400;

    final int index;
    final Link link;
    final int from;
    final int to;
    private final Make make;
    private final double metres;
    private final double fixedOhms;

    /**
     * What a conductor is, worked out once for all of its kind.
     *
     * @param ohmsPerMetre at 20 °C
     * @param allowableAmps at the ambient of the table
     */
    private record Make(ConductorMaterial material, double ohmsPerMetre, double allowableAmps, double ratedCelsius) {

        static final Make NONE = new Make(ConductorMaterial.COPPER, Double.NaN, Double.NaN, Double.NaN);

        static Make of(Connection.Conductor conductor) {
            ConductorMaterial material = conductor.material() == null ? ConductorMaterial.COPPER : conductor.material();
            double insulation =
                    conductor.insulationCelsius() == null ? INSULATION_CELSIUS : conductor.insulationCelsius();
            return new Make(
                    material,
                    WireConductor.of(conductor.size(), material).ohmsPerMetre(20),
                    Ampacity.allowableAmps(conductor.size(), material, insulation, Ampacity.TABLE_AMBIENT_CELSIUS),
                    Ampacity.ratedCelsius(insulation));
        }
    }

    /** Remembers the makes of conductors, of which a hookup has few. */
    static final class Makes {
        private final Map<Connection.Conductor, Make> known = new HashMap<>();

        private Make of(@Nullable Connection connection) {
            return connection == null || connection.conductor() == null
                    ? Make.NONE
                    : known.computeIfAbsent(connection.conductor(), Make::of);
        }
    }

    Strand(int index, Link link, int from, int to, Makes makes) {
        this.index = index;
        this.link = link;
        this.from = from;
        this.to = to;
        Connection connection = link.connection();
        make = makes.of(connection);
        metres = connection == null || connection.length() == null
                ? Double.NaN
                : connection.length().metres();
        double ohms = link.component() instanceof Device.Resistor resistor ? resistor.ohms() : 0;
        fixedOhms = ohms + (link.hasFuse() ? FuseResistance.coldOhms(link.fuseAmps()) : 0);
    }

    public Link link() {
        return link;
    }

    public boolean isResistor() {
        return link.kind() == Link.Kind.RESISTOR;
    }

    public boolean isDiode() {
        return link.kind() == Link.Kind.DIODE;
    }

    /** The joint at its other end. */
    int across(int joint) {
        return joint == from ? to : from;
    }

    /** The fact without which its resistance is unknown, null if none is lacking. */
    public @Nullable String lackedFact() {
        if (link.kind() != Link.Kind.CONNECTION) {
            return null;
        }
        return Double.isNaN(make.ohmsPerMetre) ? "conductor" : Double.isNaN(metres) ? "length" : null;
    }

    /** Temperature of its conductor under a current, NaN if it is none of known size. */
    public double celsius(double amps) {
        return Math.min(
                MOST_CELSIUS,
                Ampacity.conductorCelsius(
                        Ampacity.TABLE_AMBIENT_CELSIUS, make.ratedCelsius, Math.abs(amps), make.allowableAmps));
    }

    /** Ohms of its conductor alone under a current, 0 where unknown. */
    double wireOhms(double amps) {
        double ohms = make.ohmsPerMetre * metres;
        return Double.isNaN(ohms) ? 0 : ohms * make.material.resistanceFactor(celsius(amps));
    }

    /** Ohms under a current. */
    double ohms(double amps) {
        return Math.max(LEAST_OHMS, fixedOhms + wireOhms(amps));
    }

    /** Volts across it under a current that warms it for long. */
    public double dropVolts(double amps) {
        return Math.abs(amps) * ohms(amps);
    }

    /** Volts across its fuse alone under a current, 0 where it has none. */
    public double fuseVolts(double amps) {
        return link.hasFuse() ? Math.abs(amps) * FuseResistance.coldOhms(link.fuseAmps()) : 0;
    }

    /** Corrected ampacity, NaN if it is no conductor of known size. */
    public double allowableAmps() {
        return make.allowableAmps;
    }
}
