package dev.splicebook.circuit;

import dev.splicebook.circuit.Element.Capacitor;
import dev.splicebook.circuit.Element.ConstantCurrentLoad;
import dev.splicebook.circuit.Element.ConstantPowerLoad;
import dev.splicebook.circuit.Element.CurrentSource;
import dev.splicebook.circuit.Element.Diode;
import dev.splicebook.circuit.Element.IdealTransformer;
import dev.splicebook.circuit.Element.Inductor;
import dev.splicebook.circuit.Element.Resistor;
import dev.splicebook.circuit.Element.VoltageSource;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;

/** Networks that have exactly one solution, the same for the same seed. */
final class RandomNetworks {

    /** What a network is made of, beside resistors. */
    enum Kind {
        RESISTIVE(false, false),
        SOURCES(false, false),
        DIODES(false, true),
        LOADS(false, true),
        TRANSFORMERS(false, false),
        REACTIVE(true, false),
        REACTIVE_TRANSFORMERS(true, false),
        BIASED_DIODES(true, true);

        final boolean ac;
        final boolean curved;

        Kind(boolean ac, boolean curved) {
            this.ac = ac;
            this.curved = curved;
        }
    }

    /** A network and, at AC, its frequency; 0 at DC. */
    record Sample(Network network, double hertz) {}

    private final Random random;
    private final List<Element> elements = new ArrayList<>();
    private final int nodes;

    private RandomNetworks(long seed) {
        random = new Random(seed);
        nodes = 3 + random.nextInt(12);
    }

    static Sample sample(Kind kind, long seed) {
        RandomNetworks made = new RandomNetworks(seed * 31 + kind.name().hashCode());
        made.skeleton(kind);
        made.fill(kind);
        double hertz = kind.ac ? made.between(20, 20_000) : 0;
        return new Sample(new Network(made.elements, "0"), hertz);
    }

    /** A tree of resistors, some of which are milliohms, that reaches every node from ground, and a source. */
    private void skeleton(Kind kind) {
        for (int node = 1; node <= nodes; node++) {
            String inner = node(random.nextInt(node));
            double ohms = node > 1 && random.nextInt(4) == 0 ? between(1e-4, 0.5) : between(1, 1e4);
            add(new Resistor(name("R"), inner, node(node), ohms));
        }
        add(source("s", node(1 + random.nextInt(nodes)), kind.ac));
        add(new Resistor(name("R"), "s", node(1 + random.nextInt(nodes)), between(0.01, 100)));
    }

    private Element source(String from, String to, boolean ac) {
        return ac
                ? new VoltageSource(name("V"), from, to, between(1, 20), between(0.1, 20), random.nextInt(720) - 360)
                : new VoltageSource(name("V"), from, to, random.nextBoolean() ? between(1, 20) : -between(1, 20));
    }

    private void fill(Kind kind) {
        int extras = 2 + random.nextInt(2 * nodes);
        for (int extra = 0; extra < extras; extra++) {
            String from = node(random.nextInt(nodes + 1));
            String to = node(random.nextInt(nodes + 1));
            if (random.nextInt(3) == 0) {
                add(new Resistor(name("R"), from, to, between(0.01, 1e5)));
                continue;
            }
            switch (kind) {
                case RESISTIVE -> add(new Resistor(name("R"), from, to, between(1, 1e6)));
                case SOURCES -> addLinear(from, to);
                case DIODES -> addDiode(from, to);
                case LOADS -> addLoad(from);
                case TRANSFORMERS -> addTransformer(from, to);
                case REACTIVE -> addReactive(from, to);
                case REACTIVE_TRANSFORMERS -> {
                    if (random.nextBoolean()) {
                        addTransformer(from, to);
                    } else {
                        addReactive(from, to);
                    }
                }
                case BIASED_DIODES -> {
                    if (random.nextBoolean()) {
                        addDiode(from, to);
                    } else {
                        addReactive(from, to);
                    }
                }
            }
        }
    }

    private void addLinear(String from, String to) {
        switch (random.nextInt(3)) {
            case 0 -> add(new CurrentSource(name("I"), from, to, between(1e-3, 5)));
            case 1 -> {
                // behind ohms of its own, so that sources cannot form a loop
                String own = "x" + elements.size();
                add(source(from, own, false));
                add(new Resistor(name("R"), own, to, between(0.1, 1000)));
            }
            default -> {
                String own = "x" + elements.size();
                add(new Inductor(name("L"), from, own, between(1e-6, 1)));
                add(new Resistor(name("R"), own, to, between(0.1, 1000)));
            }
        }
    }

    private void addDiode(String from, String to) {
        add(
                random.nextBoolean()
                        ? new Diode(name("D"), from, to)
                        : new Diode(name("D"), from, to, between(1e-15, 1e-8), 1 + random.nextDouble()));
    }

    /** At a node with a source of its own that holds it near 12 V, so that the load has one solution only. */
    private void addLoad(String to) {
        String own = "x" + elements.size();
        String load = "y" + elements.size();
        add(new VoltageSource(name("V"), own, "0", between(10, 15)));
        add(new Resistor(name("R"), own, load, between(0.01, 0.5)));
        add(new Resistor(name("R"), load, to, between(100, 1e4)));
        add(
                random.nextBoolean()
                        ? new ConstantPowerLoad(name("P"), load, "0", between(0.1, 20))
                        : new ConstantCurrentLoad(name("C"), load, "0", between(0.01, 5)));
    }

    /** Behind ohms on both sides, so that transformers cannot form a loop. */
    private void addTransformer(String from, String to) {
        String primary = "x" + elements.size();
        String secondary = "y" + elements.size();
        add(new Resistor(name("R"), from, primary, between(0.1, 100)));
        add(new Resistor(name("R"), secondary, to, between(0.1, 100)));
        add(new IdealTransformer(
                name("T"), primary, node(random.nextInt(nodes + 1)), secondary, "0", between(0.1, 20)));
    }

    private void addReactive(String from, String to) {
        switch (random.nextInt(4)) {
            case 0, 1 -> add(new Capacitor(name("C"), from, to, between(1e-10, 1e-3)));
            case 2 -> {
                String own = "x" + elements.size();
                add(new Inductor(name("L"), from, own, between(1e-7, 0.1)));
                add(new Resistor(name("R"), own, to, between(0.01, 100)));
            }
            default -> add(new CurrentSource(name("I"), from, to, 0, between(1e-3, 1), random.nextInt(720) - 360));
        }
    }

    private void add(Element element) {
        elements.add(element);
    }

    private String name(String letter) {
        return letter + elements.size();
    }

    private static String node(int number) {
        return number == 0 ? "0" : "n" + number;
    }

    /** Evenly by order of magnitude. */
    private double between(double least, double most) {
        return least * Math.pow(most / least, random.nextDouble());
    }
}
