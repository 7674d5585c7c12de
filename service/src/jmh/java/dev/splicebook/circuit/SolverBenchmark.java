package dev.splicebook.circuit;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * How long a network takes, from its elements to its answer: a ladder of 500 nodes (at most 1 ms) and a grid of 5,000 (at
 * most 200 ms), of wires and of resistors, with names and elements shuffled.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Fork(1)
@Warmup(iterations = 4, time = 2)
@Measurement(iterations = 5, time = 2)
public class SolverBenchmark {

    private static final int LADDER_NODES = 500;
    private static final int GRID_WIDTH = 100;
    private static final int GRID_HEIGHT = 50;

    @Param({"0.01", "10"})
    private double ohms;

    private List<Element> ladder = List.of();
    private List<Element> grid = List.of();

    @Setup
    public void build() {
        ladder = lattice(LADDER_NODES, 1, new Random(1));
        grid = lattice(GRID_WIDTH, GRID_HEIGHT, new Random(2));
        for (List<Element> elements : List.of(ladder, grid)) {
            if (!(Solver.dc(new Network(elements, "0")) instanceof DcResult.Solved)) {
                throw new IllegalStateException("the network is not solved");
            }
        }
    }

    @Benchmark
    public DcResult ladder() {
        return Solver.dc(new Network(ladder, "0"));
    }

    @Benchmark
    public DcResult grid() {
        return Solver.dc(new Network(grid, "0"));
    }

    private List<Element> lattice(int width, int height, Random random) {
        List<Integer> names = new ArrayList<>();
        for (int at = 0; at < width * height; at++) {
            names.add(at);
        }
        Collections.shuffle(names, random);
        List<Element> elements = new ArrayList<>();
        elements.add(new Element.VoltageSource("V", "n" + names.get(0), "0", 12));
        for (int at = 0; at < width * height; at++) {
            String here = "n" + names.get(at);
            elements.add(new Element.Resistor("G" + at, here, "0", 1e4 * (1 + random.nextDouble())));
            if (at % width + 1 < width) {
                elements.add(new Element.Resistor("H" + at, here, "n" + names.get(at + 1), some(random)));
            }
            if (at + width < width * height) {
                elements.add(new Element.Resistor("W" + at, here, "n" + names.get(at + width), some(random)));
            }
        }
        Collections.shuffle(elements, random);
        return elements;
    }

    private double some(Random random) {
        return ohms * (0.5 + random.nextDouble());
    }
}
