package dev.splicebook.hookup.net;

import dev.splicebook.hookup.Device;
import dev.splicebook.hookup.Electrical;
import java.util.List;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/**
 * What one speaker output drives, solved: voice coils, resistors and wires between its two sides, each coil a resistance of
 * its rated impedance, as amplifier ratings have it.
 *
 * @param plus of the output
 * @param minus of the output; null where its other side is the vehicle's ground
 * @param ohms between the sides, above 0; infinite where nothing closes the circuit
 * @param detectedOhms the same with the inputs that listen there, which state their impedance, side by side
 * @param shares of every coil that hangs on the output, in the order of the hookup
 * @param resistors the resistors of parts that hang there
 */
public record OutputLoad(
        Node plus,
        @Nullable Node minus,
        double ohms,
        double detectedOhms,
        List<Share> shares,
        List<ResistorShare> resistors) {

    /** Volts and amps below this, for a volt of the output, are rounding. */
    private static final double NOTHING = 1e-9;

    public OutputLoad {
        shares = List.copyOf(shares);
        resistors = List.copyOf(resistors);
    }

    /**
     * What a resistor of a part gets.
     *
     * @param volts across it, for a volt of the output; −1 to 1
     */
    public record ResistorShare(Node one, Node other, Device.Resistor resistor, double volts) {

        /** Watts while the output gives {@code outputVolts} rms. */
        public double watts(double outputVolts) {
            return volts * volts * outputVolts * outputVolts / resistor.ohms();
        }
    }

    /**
     * A voice coil.
     *
     * @param ohms rated, above 0
     * @param within whether it is the factory loudspeaker of a circuit that is tapped, and no terminal of the hookup
     */
    public record VoiceCoil(Node plus, Node minus, double ohms, boolean within) {

        public List<Node> ends() {
            return List.of(plus, minus);
        }
    }

    /**
     * What a coil gets.
     *
     * @param volts of its plus against its minus, for a volt of the output's plus against its minus; −1 to 1
     * @param amps through it for a volt of the output
     * @param shorted whether one conductor joins its two ends
     */
    public record Share(VoiceCoil coil, double volts, double amps, boolean shorted) {

        /** Whether its cone moves at all. */
        public boolean isDriven() {
            return !shorted && Math.abs(volts) > NOTHING;
        }

        /** Whether it moves against what the output gives. */
        public boolean isTurned() {
            return isDriven() && volts < 0;
        }

        /** Watts while the output gives {@code outputVolts} rms. */
        public double watts(double outputVolts) {
            return volts * amps * outputVolts * outputVolts;
        }
    }

    /** Whether anything closes the circuit between the two sides. */
    public boolean isClosed() {
        return ohms < Double.POSITIVE_INFINITY;
    }

    /** Whether anything beside the factory's own loudspeaker hangs on it. */
    public boolean isOfTheHookup() {
        return !resistors.isEmpty()
                || shares.stream().anyMatch(share -> !share.coil().within());
    }

    /** Whether all that the output plays comes to it the wrong way round. */
    public boolean isFedTurned(Signals signals) {
        List<Signals.Arrival> arrivals = signals.arrivals(plus);
        return !arrivals.isEmpty() && arrivals.stream().allMatch(arrival -> Boolean.FALSE.equals(arrival.isPositive()));
    }

    /** The largest of what the sides state of a fact; null if neither does. */
    public @Nullable Double stated(Function<Electrical.SpeakerOut, @Nullable Double> fact) {
        Double most = null;
        for (Node side : sides()) {
            Double stated = side.facts() instanceof Electrical.SpeakerOut out ? fact.apply(out) : null;
            if (stated != null) {
                most = most == null ? stated : Double.valueOf(Math.max(most, stated));
            }
        }
        return most;
    }

    /** The sides of the output. */
    public List<Node> sides() {
        return minus == null ? List.of(plus) : List.of(plus, minus);
    }
}
