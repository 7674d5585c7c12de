package dev.splicebook.circuit;

import static dev.splicebook.circuit.Solutions.solved;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.circuit.Element.CurrentSource;
import dev.splicebook.circuit.Element.IdealTransformer;
import dev.splicebook.circuit.Element.Resistor;
import dev.splicebook.circuit.Element.VoltageSource;
import dev.splicebook.circuit.RandomNetworks.Kind;
import dev.splicebook.circuit.RandomNetworks.Sample;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What holds of every network. */
class SolverPropertyTest {

    private static final int ROUNDS = 100;

    // Tellegen's theorem: what sources give is what the rest takes
    @ParameterizedTest
    @EnumSource
    void balancesEnergy(Kind kind) {
        for (long seed = 5000; seed < 5000 + ROUNDS; seed++) {
            Sample sample = RandomNetworks.sample(kind, seed);
            double watts = 0;
            double reactive = 0;
            double turnedOver = 0;
            if (kind.ac) {
                for (AcResult.Branch branch :
                        solved(sample.network(), sample.hertz()).branches().values()) {
                    watts += branch.watts();
                    reactive += branch.reactiveVoltAmperes();
                    turnedOver += Math.hypot(branch.watts(), branch.reactiveVoltAmperes());
                }
            } else {
                for (DcResult.Branch branch :
                        solved(sample.network()).branches().values()) {
                    watts += branch.watts();
                    turnedOver += Math.abs(branch.watts());
                }
            }
            assertThat(turnedOver).as("W turned over in %s %s", kind, seed).isPositive();
            assertThat(Math.hypot(watts, reactive))
                    .as("W left over in %s %s of %s", kind, seed, turnedOver)
                    .isCloseTo(0, within(1e-9 * turnedOver));
        }
    }

    // Kirchhoff's current law, from the answer alone
    @ParameterizedTest
    @EnumSource(names = {"RESISTIVE", "SOURCES", "DIODES", "LOADS"})
    void letsNothingGatherAtANode(Kind kind) {
        for (long seed = 6000; seed < 6000 + ROUNDS; seed++) {
            Network network = RandomNetworks.sample(kind, seed).network();
            DcResult.Solved solved = solved(network);
            Map<String, Double> left = new HashMap<>();
            Map<String, Double> flowing = new HashMap<>();
            for (Element element : network.elements()) {
                double amps = solved.getBranch(element.name()).amps();
                left.merge(element.from(), amps, Double::sum);
                left.merge(element.to(), -amps, Double::sum);
                flowing.merge(element.from(), Math.abs(amps), Double::sum);
                flowing.merge(element.to(), Math.abs(amps), Double::sum);
            }
            double most = Collections.max(flowing.values());
            left.forEach((node, amps) -> assertThat(amps)
                    .as("A gathering at %s of %s %s", node, kind, network)
                    .isCloseTo(0, within(1e-9 * Named.get(flowing, node) + 1e-12 * most)));
        }
    }

    @ParameterizedTest
    @EnumSource
    void caresForNeitherOrderNorNames(Kind kind) {
        for (long seed = 7000; seed < 7000 + ROUNDS; seed++) {
            Sample sample = RandomNetworks.sample(kind, seed);
            Random random = new Random(seed);
            Map<String, String> names = new HashMap<>();
            UnaryOperator<String> renamed = node -> names.computeIfAbsent(node, any -> "k" + random.nextInt() + node);
            List<Element> elements = new ArrayList<>();
            sample.network().elements().forEach(element -> elements.add(renamed(element, renamed)));
            Collections.shuffle(elements, random);
            Network network = new Network(elements, renamed.apply("0"));

            Map<String, Phasor> volts = volts(sample.network(), sample.hertz());
            Map<String, Phasor> renamedVolts = volts(network, sample.hertz());

            double most =
                    volts.values().stream().mapToDouble(Phasor::magnitude).max().orElse(0);
            volts.forEach((node, phasor) -> {
                Phasor other = Named.get(renamedVolts, Named.get(names, node));
                assertThat(Math.hypot(phasor.real() - other.real(), phasor.imaginary() - other.imaginary()))
                        .as("V of %s in %s %s and renamed apart", node, kind, sample)
                        .isCloseTo(0, within(1e-8 * most));
            });
        }
    }

    private static Map<String, Phasor> volts(Network network, double hertz) {
        if (hertz > 0) {
            return solved(network, hertz).volts();
        }
        Map<String, Phasor> phasors = new HashMap<>();
        solved(network).volts().forEach((node, volts) -> phasors.put(node, new Phasor(volts, 0)));
        return phasors;
    }

    /** The element between other nodes. */
    private static Element renamed(Element element, UnaryOperator<String> name) {
        String from = name.apply(element.from());
        String to = name.apply(element.to());
        String is = element.name();
        if (element instanceof Resistor e) {
            return new Resistor(is, from, to, e.ohms());
        }
        if (element instanceof VoltageSource e) {
            return new VoltageSource(is, from, to, e.volts(), e.acVolts(), e.acPhaseDegrees());
        }
        if (element instanceof CurrentSource e) {
            return new CurrentSource(is, from, to, e.amps(), e.acAmps(), e.acPhaseDegrees());
        }
        if (element instanceof Element.Capacitor e) {
            return new Element.Capacitor(is, from, to, e.farads());
        }
        if (element instanceof Element.Inductor e) {
            return new Element.Inductor(is, from, to, e.henries());
        }
        if (element instanceof IdealTransformer e) {
            return new IdealTransformer(
                    is, from, to, name.apply(e.secondaryFrom()), name.apply(e.secondaryTo()), e.ratio());
        }
        if (element instanceof Element.Diode e) {
            return new Element.Diode(is, from, to, e.saturationAmps(), e.emission());
        }
        if (element instanceof Element.ConstantPowerLoad e) {
            return new Element.ConstantPowerLoad(is, from, to, e.watts());
        }
        if (element instanceof Element.ConstantCurrentLoad e) {
            return new Element.ConstantCurrentLoad(is, from, to, e.amps());
        }
        throw new IllegalArgumentException("unknown " + element);
    }

    // superposition: the answer to all sources is the sum of the answers to each
    @ParameterizedTest
    @EnumSource(names = {"SOURCES", "TRANSFORMERS", "REACTIVE"})
    void addsWhatEachSourceMakes(Kind kind) {
        for (long seed = 8000; seed < 8000 + ROUNDS; seed++) {
            Sample sample = RandomNetworks.sample(kind, seed);
            List<Element> elements = sample.network().elements();
            Map<String, Phasor> sum = new HashMap<>();
            for (Element alone : elements) {
                if (alone instanceof VoltageSource || alone instanceof CurrentSource) {
                    List<Element> others = elements.stream()
                            .map(element -> element.equals(alone) ? element : silent(element))
                            .toList();
                    volts(new Network(others, "0"), sample.hertz())
                            .forEach((node, part) -> sum.merge(node, part, SolverPropertyTest::plus));
                }
            }
            Map<String, Phasor> volts = volts(sample.network(), sample.hertz());
            double most =
                    sum.values().stream().mapToDouble(Phasor::magnitude).max().orElse(0);
            volts.forEach((node, whole) -> assertThat(Math.hypot(
                            whole.real() - Named.get(sum, node).real(),
                            whole.imaginary() - Named.get(sum, node).imaginary()))
                    .as("V of %s in %s %s beside the sum", node, kind, sample)
                    .isCloseTo(0, within(1e-9 * most)));
        }
    }

    private static Element silent(Element element) {
        if (element instanceof VoltageSource e) {
            return new VoltageSource(e.name(), e.from(), e.to(), 0);
        }
        return element instanceof CurrentSource e ? new CurrentSource(e.name(), e.from(), e.to(), 0) : element;
    }

    private static Phasor plus(Phasor one, Phasor other) {
        return new Phasor(one.real() + other.real(), one.imaginary() + other.imaginary());
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 2, 10, 60, 200})
    void agreesWithDenseEliminationOnLadders(int rungs) {
        for (long seed = 0; seed < 10; seed++) {
            Random random = new Random(seed);
            List<Element> elements = new ArrayList<>(List.of(new VoltageSource("V", "n0", "0", 12)));
            for (int at = 1; at <= rungs; at++) {
                elements.add(new Resistor("R" + at, "n" + (at - 1), "n" + at, 0.001 + random.nextDouble()));
                elements.add(new Resistor("G" + at, "n" + at, "0", 10 + 1000 * random.nextDouble()));
            }
            assertAgreesWithDense(elements, random);
        }
    }

    @ParameterizedTest
    @ValueSource(ints = {2, 5, 12})
    void agreesWithDenseEliminationOnGrids(int side) {
        for (long seed = 0; seed < 10; seed++) {
            Random random = new Random(seed);
            List<Element> elements = new ArrayList<>(List.of(
                    new VoltageSource("V", "x0y0", "0", 12),
                    new Resistor("LOAD", "x" + (side - 1) + "y" + (side - 1), "0", 5),
                    new CurrentSource("I", "x0y" + (side - 1), "x" + (side - 1) + "y0", 3),
                    new IdealTransformer("T", "x1y0", "x0y1", "x1y1", "0", 2)));
            for (int x = 0; x < side; x++) {
                for (int y = 0; y < side; y++) {
                    String here = "x" + x + "y" + y;
                    if (x + 1 < side) {
                        elements.add(
                                new Resistor("H" + here, here, "x" + (x + 1) + "y" + y, random.nextDouble() + 0.01));
                    }
                    if (y + 1 < side) {
                        elements.add(new Resistor(
                                "W" + here, here, "x" + x + "y" + (y + 1), 20 * random.nextDouble() + 0.01));
                    }
                }
            }
            assertAgreesWithDense(elements, random);
        }
    }

    private static void assertAgreesWithDense(List<Element> elements, Random random) {
        Collections.shuffle(elements, random);
        Network network = new Network(elements, "0");
        Map<String, Double> dense = dense(network);
        solved(network)
                .volts()
                .forEach((node, volts) ->
                        assertThat(volts).as("V of %s", node).isCloseTo(Named.get(dense, node), within(1e-9)));
    }

    /** Nodal equations with extra rows for sources and transformers, by Gaussian elimination of the whole matrix. */
    private static Map<String, Double> dense(Network network) {
        double[][] matrix = matrix(network);
        double[] solution = eliminate(matrix, matrix.length - 1);
        List<String> nodes = nodes(network);
        Map<String, Double> volts = new HashMap<>(Map.of(network.ground(), 0.0));
        for (int node = 0; node < nodes.size(); node++) {
            volts.put(nodes.get(node), solution[node]);
        }
        return volts;
    }

    private static List<String> nodes(Network network) {
        List<String> nodes = new ArrayList<>(network.nodes());
        nodes.remove(network.ground());
        return nodes;
    }

    private static double[][] matrix(Network network) {
        List<String> nodes = nodes(network);
        long extra = network.elements().stream()
                .filter(element -> element instanceof VoltageSource || element instanceof IdealTransformer)
                .count();
        int size = nodes.size() + (int) extra;
        // ground is one row and column more, which elimination leaves out
        double[][] matrix = new double[size + 1][size + 2];
        int next = nodes.size();
        for (Element element : network.elements()) {
            int from = numbered(nodes, element.from(), size);
            int to = numbered(nodes, element.to(), size);
            if (element instanceof Resistor resistor) {
                matrix[from][from] += 1 / resistor.ohms();
                matrix[to][to] += 1 / resistor.ohms();
                matrix[from][to] -= 1 / resistor.ohms();
                matrix[to][from] -= 1 / resistor.ohms();
            } else if (element instanceof CurrentSource source) {
                matrix[from][size + 1] -= source.amps();
                matrix[to][size + 1] += source.amps();
            } else {
                incidence(matrix, from, to, next, 1);
                if (element instanceof VoltageSource source) {
                    matrix[next][size + 1] = source.volts();
                } else if (element instanceof IdealTransformer transformer) {
                    incidence(
                            matrix,
                            numbered(nodes, transformer.secondaryFrom(), size),
                            numbered(nodes, transformer.secondaryTo(), size),
                            next,
                            -transformer.ratio());
                }
                next++;
            }
        }
        return matrix;
    }

    private static int numbered(List<String> nodes, String node, int ground) {
        int number = nodes.indexOf(node);
        return number < 0 ? ground : number;
    }

    private static void incidence(double[][] matrix, int from, int to, int current, double turns) {
        matrix[from][current] += turns;
        matrix[to][current] -= turns;
        matrix[current][from] += turns;
        matrix[current][to] -= turns;
    }

    private static double[] eliminate(double[][] matrix, int size) {
        for (int step = 0; step < size; step++) {
            int pivot = step;
            for (int row = step; row < size; row++) {
                pivot = Math.abs(matrix[row][step]) > Math.abs(matrix[pivot][step]) ? row : pivot;
            }
            double[] swapped = matrix[pivot];
            matrix[pivot] = matrix[step];
            matrix[step] = swapped;
            for (int row = step + 1; row < size; row++) {
                double factor = matrix[row][step] / matrix[step][step];
                for (int column = step; factor != 0 && column < size + 2; column++) {
                    matrix[row][column] -= factor * matrix[step][column];
                }
            }
        }
        double[] solution = new double[size];
        for (int row = size - 1; row >= 0; row--) {
            double sum = matrix[row][size + 1];
            for (int column = row + 1; column < size; column++) {
                sum -= matrix[row][column] * solution[column];
            }
            solution[row] = sum / matrix[row][row];
        }
        return solution;
    }

    /** Resistors that reach every node from ground, and a source behind ohms. */
    private static List<Element> skeleton(Random random, int nodes) {
        List<Element> elements =
                new ArrayList<>(List.of(new VoltageSource("V", "s", "0", 12), new Resistor("RS", "s", "n1", 0.1)));
        for (int at = 1; at <= nodes; at++) {
            String inner = at == 1 ? "0" : node(random, at - 1);
            elements.add(new Resistor("T" + at, inner, "n" + at, Math.pow(10, 5 * random.nextDouble() - 2)));
        }
        return elements;
    }

    private static String node(Random random, int nodes) {
        int number = random.nextInt(nodes + 1);
        return number == 0 ? "0" : "n" + number;
    }

    // junctions and constant-current loads always have an answer; constant-power loads have one, or are told to have
    // none
    @ParameterizedTest
    @ValueSource(booleans = {false, true})
    void neverGivesUpOnAnyMixture(boolean withPower) {
        Map<Class<?>, Integer> results = new HashMap<>();
        for (long seed = 0; seed < 300; seed++) {
            Random random = new Random(seed);
            int nodes = 2 + random.nextInt(12);
            List<Element> elements = skeleton(random, nodes);
            int extras = 1 + random.nextInt(2 * nodes);
            for (int at = 0; at < extras; at++) {
                String from = node(random, nodes);
                String to = node(random, nodes);
                double size = Math.pow(10, 4 * random.nextDouble() - 3);
                elements.add(
                        switch (random.nextInt(withPower ? 3 : 2)) {
                            case 0 -> new Element.Diode("E" + at, from, to, 1e-9 * size, 1 + random.nextDouble());
                            case 1 -> new Element.ConstantCurrentLoad("E" + at, from, to, size);
                            default -> new Element.ConstantPowerLoad("E" + at, from, to, size);
                        });
            }

            DcResult result = Solver.dc(new Network(elements, "0"));

            assertThat(result).as("result of %s, %s", seed, elements).isNotInstanceOf(IterationLimit.class);
            results.merge(result.getClass(), 1, Integer::sum);
        }
        assertThat(results.keySet())
                .isEqualTo(
                        withPower
                                ? Set.of(DcResult.Solved.class, NoOperatingPoint.class)
                                : Set.of(DcResult.Solved.class));
    }

    // by the rank of the dense matrix, found with full pivoting
    @Test
    void tellsWhichTransformersLeaveNoSolution() {
        int singular = 0;
        for (long seed = 0; seed < 300; seed++) {
            Random random = new Random(seed);
            int nodes = 2 + random.nextInt(8);
            List<Element> elements = skeleton(random, nodes);
            int transformers = 1 + random.nextInt(nodes);
            for (int at = 0; at < transformers; at++) {
                elements.add(new IdealTransformer(
                        "E" + at,
                        node(random, nodes),
                        node(random, nodes),
                        node(random, nodes),
                        node(random, nodes),
                        0.1 + 5 * random.nextDouble()));
            }
            Network network = new Network(elements, "0");

            DcResult result = Solver.dc(network);

            boolean regular = isRegular(matrix(network));
            assertThat(result)
                    .as("result of %s, %s", seed, elements)
                    .isInstanceOf(regular ? DcResult.Solved.class : Singular.class);
            singular += regular ? 0 : 1;
        }
        assertThat(singular).as("networks without a solution").isBetween(20, 480);
    }

    private static boolean isRegular(double[][] matrix) {
        int size = matrix.length - 1;
        for (int step = 0; step < size; step++) {
            int pivotRow = step;
            int pivotColumn = step;
            for (int row = step; row < size; row++) {
                for (int column = step; column < size; column++) {
                    if (Math.abs(matrix[row][column]) > Math.abs(matrix[pivotRow][pivotColumn])) {
                        pivotRow = row;
                        pivotColumn = column;
                    }
                }
            }
            if (Math.abs(matrix[pivotRow][pivotColumn]) < 1e-11) {
                return false;
            }
            double[] swappedRow = matrix[pivotRow];
            matrix[pivotRow] = matrix[step];
            matrix[step] = swappedRow;
            for (double[] row : matrix) {
                double swapped = row[pivotColumn];
                row[pivotColumn] = row[step];
                row[step] = swapped;
            }
            for (int row = step + 1; row < size; row++) {
                double factor = matrix[row][step] / matrix[step][step];
                for (int column = step; column < size; column++) {
                    matrix[row][column] -= factor * matrix[step][column];
                }
            }
        }
        return true;
    }

    @Test
    void losesNoDigitsWhereWiresJoinWhatHardlyLeaks() {
        // 12 V through 1 GΩ to a bundle of milliohm wires in loops, and 2 GΩ to ground: 8 V everywhere, 4 nA
        Random random = new Random(3);
        for (double ohms : new double[] {1e-9, 1e-6, 1e-3}) {
            List<Element> elements = new ArrayList<>(List.of(
                    new VoltageSource("V", "a", "0", 12),
                    new Resistor("IN", "a", "n0", 1e9),
                    new Resistor("OUT", "n9", "0", 2e9)));
            for (int at = 1; at < 10; at++) {
                elements.add(new Resistor("W" + at, "n" + (at - 1), "n" + at, ohms * (1 + random.nextDouble())));
                elements.add(
                        new Resistor("X" + at, "n" + random.nextInt(at), "n" + at, ohms * (1 + random.nextDouble())));
            }
            Collections.shuffle(elements, random);

            DcResult.Solved solved = solved(new Network(elements, "0"));

            for (int at = 0; at < 10; at++) {
                Solutions.assertVolts(solved, "n" + at, 8, 8e-6);
            }
            Solutions.assertAmps(solved, "OUT", 4e-9, 4e-15);
            assertThat(Stream.of("W1", "X1")
                            .mapToDouble(name -> solved.getBranch(name).watts())
                            .min()
                            .orElse(-1))
                    .isNotNegative();
        }
    }
}
