package dev.splicebook.calculation.trade;

import com.fasterxml.jackson.annotation.JsonSubTypes;
import com.fasterxml.jackson.annotation.JsonTypeInfo;
import dev.splicebook.circuit.Element;
import dev.splicebook.guard.Guard;
import dev.splicebook.web.Fact;
import io.swagger.v3.oas.annotations.media.Schema;
import org.jspecify.annotations.Nullable;

/** An element of a network as a question states it; amps are positive from {@code from} to {@code to} through it. */
@JsonTypeInfo(use = JsonTypeInfo.Id.NAME, property = "kind")
@JsonSubTypes({
    @JsonSubTypes.Type(value = NetworkElement.NetworkResistor.class, name = "resistor"),
    @JsonSubTypes.Type(value = NetworkElement.NetworkVoltageSource.class, name = "voltage-source"),
    @JsonSubTypes.Type(value = NetworkElement.NetworkCurrentSource.class, name = "current-source"),
    @JsonSubTypes.Type(value = NetworkElement.NetworkCapacitor.class, name = "capacitor"),
    @JsonSubTypes.Type(value = NetworkElement.NetworkInductor.class, name = "inductor"),
    @JsonSubTypes.Type(value = NetworkElement.NetworkTransformer.class, name = "ideal-transformer"),
    @JsonSubTypes.Type(value = NetworkElement.NetworkDiode.class, name = "diode"),
    @JsonSubTypes.Type(value = NetworkElement.NetworkConstantPowerLoad.class, name = "constant-power-load"),
    @JsonSubTypes.Type(value = NetworkElement.NetworkConstantCurrentLoad.class, name = "constant-current-load")
})
@Schema(
        description =
                "An element between two nodes. Amps are positive from from to to through it, and watts where it takes"
                        + " power.")
public sealed interface NetworkElement {

    String name();

    String from();

    String to();

    /** The element of a DC network or, if {@code ac}, of one at AC. */
    Element element(boolean ac);

    /** Ohm's law. */
    record NetworkResistor(
            @Fact("name, unique in the network") String name,
            @Fact("node that amps come from") String from,
            @Fact("node that amps go to") String to,

            @Fact(value = "resistance", unit = "Ω", least = 1e-9, most = 1e12)
            double ohms)
            implements NetworkElement {

        @Override
        public Element element(boolean ac) {
            return new Element.Resistor(name, from, to, ohms);
        }
    }

    /** Holds {@code from} above {@code to}. */
    record NetworkVoltageSource(
            @Fact("name, unique in the network") String name,
            @Fact("positive node") String from,
            @Fact("negative node") String to,

            @Fact(value = "volts of from above to; at AC the effective value", unit = "V", least = -1e6, most = 1e6)
            double volts,

            @Fact(value = "phase at AC", unit = "°", least = -360, most = 360, usual = "0") @Nullable
            Double phaseDegrees,

            @Fact(value = "steady volts beneath the AC", unit = "V", least = -1e6, most = 1e6, usual = "0") @Nullable
            Double biasVolts)
            implements NetworkElement {

        @Override
        public Element element(boolean ac) {
            return ac
                    ? new Element.VoltageSource(
                            name, from, to, orZero(biasVolts), Math.abs(volts), phase(volts, phaseDegrees))
                    : new Element.VoltageSource(name, from, to, volts);
        }
    }

    /** Drives its amps from {@code from} to {@code to} through itself. */
    record NetworkCurrentSource(
            @Fact("name, unique in the network") String name,
            @Fact("node that amps are taken from") String from,
            @Fact("node that amps are driven to") String to,

            @Fact(value = "amps; at AC the effective value", unit = "A", least = -1e6, most = 1e6)
            double amps,

            @Fact(value = "phase at AC", unit = "°", least = -360, most = 360, usual = "0") @Nullable
            Double phaseDegrees,

            @Fact(value = "steady amps beneath the AC", unit = "A", least = -1e6, most = 1e6, usual = "0") @Nullable
            Double biasAmps)
            implements NetworkElement {

        @Override
        public Element element(boolean ac) {
            return ac
                    ? new Element.CurrentSource(
                            name, from, to, orZero(biasAmps), Math.abs(amps), phase(amps, phaseDegrees))
                    : new Element.CurrentSource(name, from, to, amps);
        }
    }

    /** Open at DC. */
    record NetworkCapacitor(
            @Fact("name, unique in the network") String name,
            @Fact("node that amps come from") String from,
            @Fact("node that amps go to") String to,

            @Fact(value = "capacitance", unit = "F", least = 1e-15, most = 1e4) @Nullable
            Double farads,

            @Fact(value = "capacitance, instead of farads", unit = "µF", least = 1e-9, most = 1e10) @Nullable
            Double microfarads)
            implements NetworkElement {

        public NetworkCapacitor {
            eitherOr("farads", farads, "microfarads", microfarads);
        }

        @Override
        public Element element(boolean ac) {
            return new Element.Capacitor(name, from, to, scaled(farads, microfarads, 1e-6));
        }
    }

    /** A perfect conductor at DC. */
    record NetworkInductor(
            @Fact("name, unique in the network") String name,
            @Fact("node that amps come from") String from,
            @Fact("node that amps go to") String to,

            @Fact(value = "inductance", unit = "H", least = 1e-12, most = 1e4) @Nullable
            Double henries,

            @Fact(value = "inductance, instead of henries", unit = "mH", least = 1e-9, most = 1e7) @Nullable
            Double millihenries)
            implements NetworkElement {

        public NetworkInductor {
            eitherOr("henries", henries, "millihenries", millihenries);
        }

        @Override
        public Element element(boolean ac) {
            return new Element.Inductor(name, from, to, scaled(henries, millihenries, 1e-3));
        }
    }

    /** Two windings without loss. */
    record NetworkTransformer(
            @Fact("name, unique in the network") String name,
            @Fact("dotted end of the primary") String from,
            @Fact("other end of the primary") String to,
            @Fact("dotted end of the secondary") String secondaryFrom,
            @Fact("other end of the secondary") String secondaryTo,

            @Fact(value = "turns of the primary for one of the secondary", least = 1e-6, most = 1e6)
            double ratio)
            implements NetworkElement {

        @Override
        public Element element(boolean ac) {
            return new Element.IdealTransformer(name, from, to, secondaryFrom, secondaryTo, ratio);
        }
    }

    /** A junction at 27 °C. */
    record NetworkDiode(
            @Fact("name, unique in the network") String name,
            @Fact("anode") String from,
            @Fact("cathode") String to,

            @Fact(value = "saturation current", unit = "A", least = 1e-30, most = 1, usual = "1e-14") @Nullable
            Double saturationAmps,

            @Fact(value = "emission coefficient", least = 0.1, most = 20, usual = "1") @Nullable
            Double emission)
            implements NetworkElement {

        static final double USUAL_SATURATION_AMPS = 1e-14;
        static final double USUAL_EMISSION = 1;

        @Override
        public Element element(boolean ac) {
            return new Element.Diode(
                    name,
                    from,
                    to,
                    saturationAmps == null ? USUAL_SATURATION_AMPS : saturationAmps,
                    emission == null ? USUAL_EMISSION : emission);
        }
    }

    /** Takes the same watts at any volts. */
    record NetworkConstantPowerLoad(
            @Fact("name, unique in the network") String name,
            @Fact("node that amps come from") String from,
            @Fact("node that amps go to") String to,

            @Fact(value = "power taken", unit = "W", least = 0, most = 1e6)
            double watts)
            implements NetworkElement {

        @Override
        public Element element(boolean ac) {
            return new Element.ConstantPowerLoad(name, from, to, watts);
        }
    }

    /** Takes the same amps at any volts, and none without volts. */
    record NetworkConstantCurrentLoad(
            @Fact("name, unique in the network") String name,
            @Fact("node that amps come from") String from,
            @Fact("node that amps go to") String to,

            @Fact(value = "current taken", unit = "A", least = 0, most = 1e6)
            double amps)
            implements NetworkElement {

        @Override
        public Element element(boolean ac) {
            return new Element.ConstantCurrentLoad(name, from, to, amps);
        }
    }

    private static double orZero(@Nullable Double given) {
        return given == null ? 0 : given;
    }

    /** A negative amplitude is a positive one half a turn on. */
    private static double phase(double amplitude, @Nullable Double degrees) {
        double given = orZero(degrees);
        if (amplitude >= 0) {
            return given;
        }
        return given > 0 ? given - 180 : given + 180;
    }

    private static void eitherOr(String one, @Nullable Double first, String other, @Nullable Double second) {
        new Guard()
                .refuseIf(
                        first == null && second == null,
                        one,
                        "missing-field",
                        () -> one + " is missing; either " + one + " or " + other + " is given")
                .refuseIf(
                        first != null && second != null,
                        other,
                        "either-or",
                        () -> other + " stands beside " + one + "; one of the two is given")
                .check();
    }

    private static double scaled(@Nullable Double whole, @Nullable Double part, double scale) {
        if (whole != null) {
            return whole;
        }
        return part == null ? Double.NaN : part * scale;
    }
}
