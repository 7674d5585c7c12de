package dev.splicebook.circuit;

import dev.splicebook.guard.Guard;
import java.util.List;

/**
 * What joins nodes of a network. Volts across an element are those of {@code from} less those of {@code to}, amps are
 * positive from {@code from} to {@code to} through the element, and so watts are positive where it takes power. Names of
 * elements and nodes are free text of 1 to 100 characters; both ends may be one node.
 */
public sealed interface Element {

    /** Unique in its network. */
    String name();

    String from();

    String to();

    /** All nodes that it joins: {@code from}, {@code to}, and what else it has. */
    default List<String> ends() {
        return List.of(from(), to());
    }

    /** Whether one of its ends is that node. */
    default boolean hasEndAt(String node) {
        return ends().contains(node);
    }

    /**
     * Ohm's law.
     *
     * @param ohms 1e-9 to 1e12
     */
    record Resistor(String name, String from, String to, double ohms) implements Element {

        public Resistor {
            named(name, from, to).between("ohms", ohms, 1e-9, 1e12).check();
        }
    }

    /**
     * Holds {@code from} above {@code to}. Delivering, its amps and watts are negative.
     *
     * @param volts at DC, −1e6 to 1e6; 0 is a perfect conductor, or an ammeter
     * @param acVolts at AC, rms, 0 to 1e6
     * @param acPhaseDegrees at AC, −360 to 360
     */
    record VoltageSource(String name, String from, String to, double volts, double acVolts, double acPhaseDegrees)
            implements Element {

        public VoltageSource {
            named(name, from, to)
                    .between("volts", volts, -1e6, 1e6)
                    .between("acVolts", acVolts, 0, 1e6)
                    .between("acPhaseDegrees", acPhaseDegrees, -360, 360)
                    .check();
        }

        /** One that gives DC only. */
        public VoltageSource(String name, String from, String to, double volts) {
            this(name, from, to, volts, 0, 0);
        }
    }

    /**
     * Drives its amps from {@code from} to {@code to} through itself, whatever the volts.
     *
     * @param amps at DC, −1e6 to 1e6
     * @param acAmps at AC, rms, 0 to 1e6
     * @param acPhaseDegrees at AC, −360 to 360
     */
    record CurrentSource(String name, String from, String to, double amps, double acAmps, double acPhaseDegrees)
            implements Element {

        public CurrentSource {
            named(name, from, to)
                    .between("amps", amps, -1e6, 1e6)
                    .between("acAmps", acAmps, 0, 1e6)
                    .between("acPhaseDegrees", acPhaseDegrees, -360, 360)
                    .check();
        }

        /** One that gives DC only. */
        public CurrentSource(String name, String from, String to, double amps) {
            this(name, from, to, amps, 0, 0);
        }
    }

    /**
     * Open at DC.
     *
     * @param farads 1e-18 to 1e6
     */
    record Capacitor(String name, String from, String to, double farads) implements Element {

        public Capacitor {
            named(name, from, to).between("farads", farads, 1e-18, 1e6).check();
        }
    }

    /**
     * A perfect conductor at DC; its winding's resistance is a resistor of its own.
     *
     * @param henries 1e-15 to 1e6
     */
    record Inductor(String name, String from, String to, double henries) implements Element {

        public Inductor {
            named(name, from, to).between("henries", henries, 1e-15, 1e6).check();
        }
    }

    /**
     * Two windings without loss, leakage or magnetising current: primary volts are {@code ratio} times secondary volts,
     * and secondary amps are −{@code ratio} times primary amps, each winding counted from its {@code from} to its
     * {@code to}. As a law it holds at DC too; a real transformer, which passes no DC, has an inductor beside its
     * primary. The amps of an answer are the primary's.
     *
     * @param from the primary's dotted end
     * @param to the primary's other end
     * @param secondaryFrom the secondary's dotted end
     * @param secondaryTo the secondary's other end
     * @param ratio turns of the primary for one of the secondary, 1e-6 to 1e6
     */
    record IdealTransformer(String name, String from, String to, String secondaryFrom, String secondaryTo, double ratio)
            implements Element {

        public IdealTransformer {
            named(name, from, to)
                    .text("secondaryFrom", secondaryFrom, MOST_CHARACTERS)
                    .text("secondaryTo", secondaryTo, MOST_CHARACTERS)
                    .between("ratio", ratio, 1e-6, 1e6)
                    .check();
        }

        @Override
        public List<String> ends() {
            return List.of(from, to, secondaryFrom, secondaryTo);
        }
    }

    /**
     * A junction at 27 °C, anode {@code from}, by Shockley's law with a leak of 1e-12 S beside it, which is the default
     * model of Berkeley SPICE (from memory). Its series resistance is a resistor of its own. At AC it is its slope at the
     * DC operating point.
     *
     * @param saturationAmps 1e-30 to 1
     * @param emission ideality factor, 0.1 to 20
     */
    record Diode(String name, String from, String to, double saturationAmps, double emission) implements Element {

        public Diode {
            named(name, from, to)
                    .between("saturationAmps", saturationAmps, 1e-30, 1)
                    .between("emission", emission, 0.1, 20)
                    .check();
        }

        /** The default of Berkeley SPICE: 1e-14 A, emission 1. */
        public Diode(String name, String from, String to) {
            this(name, from, to, 1e-14, 1);
        }
    }

    /**
     * Takes the same watts at any volts of either sign, as what regulates its own supply does. Of the volts at which it
     * takes them, the answer has those that are reached as the load grows from nothing. At AC it is its slope at the DC
     * operating point, which is a negative conductance.
     *
     * @param watts 0 to 1e6
     */
    record ConstantPowerLoad(String name, String from, String to, double watts) implements Element {

        public ConstantPowerLoad {
            named(name, from, to).between("watts", watts, 0, 1e6).check();
        }
    }

    /**
     * Takes the same amps at any volts above some, in the direction of the volts, and none without volts: amps ×
     * tanh(volts / 10 mV), so that it never delivers power; from 0.1 V on the amps are whole within 1e-8. At AC it is its
     * slope at the DC operating point.
     *
     * @param amps 0 to 1e6
     */
    record ConstantCurrentLoad(String name, String from, String to, double amps) implements Element {

        public ConstantCurrentLoad {
            named(name, from, to).between("amps", amps, 0, 1e6).check();
        }
    }

    /** Longest name of an element or a node. */
    int MOST_CHARACTERS = 100;

    private static Guard named(String name, String from, String to) {
        return new Guard()
                .text("name", name, MOST_CHARACTERS)
                .text("from", from, MOST_CHARACTERS)
                .text("to", to, MOST_CHARACTERS);
    }
}
