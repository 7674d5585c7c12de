package dev.splicebook.hookup;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
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
 * How long a check takes. Sixty connections are the two ready jobs of the examples in one vehicle; six hundred are ten
 * copies of both, with parts and connectors of their own, that share battery and chassis, and draw too much asleep.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Fork(1)
@Warmup(iterations = 30, time = 3)
@Measurement(iterations = 5, time = 3)
public class CheckBenchmark {

    @Param({"60", "600"})
    private int connections;

    private final Checker checker = new Checker();
    private Hookup hookup = Hookup.resolve(nothing(), FunctionMap.of(Map.of()), Map.of(), List.of());

    @Setup
    public void build() {
        List<Hookup> copies = new ArrayList<>();
        for (int copy = 0; copies.stream().mapToInt(CheckBenchmark::size).sum() < connections; copy++) {
            copies.add(new Renaming(copy).apply(DemoFiles.example("rear-entertainment/check-3-ready")));
            copies.add(new Renaming(-1 - copy).apply(DemoFiles.example("amplifier-and-subwoofers/check-2-ready")));
        }
        hookup = together(copies);
        Report report = checker.check(hookup);
        if (size(hookup) != connections || report.verdict() == Report.Verdict.NOT_READY) {
            throw new IllegalStateException(
                    "the hookup is not " + connections + " connections without a mistake: " + report.findings());
        }
    }

    @Benchmark
    public Report check() {
        return checker.check(hookup);
    }

    private static int size(Hookup hookup) {
        return hookup.document().connections().size();
    }

    /** Copies have fuses of their own too; one fuse for ten radios would be overloaded. */
    private static Circuit withOwnSource(Circuit circuit, int copy) {
        return new Circuit(
                circuit.function(),
                circuit.colour(),
                circuit.electrical(),
                circuit.whenPlugged(),
                circuit.whenUnplugged(),
                circuit.source() == null ? null : circuit.source() + " of copy " + copy,
                circuit.loadEnd(),
                circuit.test(),
                circuit.note(),
                circuit.carries(),
                circuit.verifiedOn());
    }

    private static HookupDocument nothing() {
        return new HookupDocument(null, Map.of(), Map.of(), List.of(), Map.of(), Map.of(), List.of());
    }

    private static Hookup together(List<Hookup> copies) {
        Map<String, Circuit> circuits = new LinkedHashMap<>();
        Map<String, Connector> connectors = new LinkedHashMap<>();
        Set<String> unplugged = new LinkedHashSet<>();
        Map<String, Device> devices = new HashMap<>();
        Map<String, HookupDocument.PartUse> parts = new LinkedHashMap<>();
        Map<String, Connection> wires = new LinkedHashMap<>();
        List<List<String>> plugs = new ArrayList<>();
        Map<String, Unused> unused = new LinkedHashMap<>();
        Map<String, Map<String, String>> settings = new LinkedHashMap<>();
        Set<Wish> wishes = new LinkedHashSet<>();
        for (Hookup copy : copies) {
            int number = copies.indexOf(copy);
            copy.map().circuits().forEach((name, circuit) -> circuits.put(name, withOwnSource(circuit, number)));
            connectors.putAll(copy.map().connectors());
            unplugged.addAll(copy.unplugged());
            devices.putAll(copy.devices());
            parts.putAll(copy.document().parts());
            wires.putAll(copy.document().connections());
            plugs.addAll(copy.document().plugs());
            unused.putAll(copy.document().unused());
            settings.putAll(copy.document().settings());
            wishes.addAll(copy.document().wishes());
        }
        FunctionMap map = new FunctionMap(
                null,
                null,
                null,
                null,
                null,
                Set.of(),
                Set.of(),
                null,
                copies.get(0).map().runningVolts(),
                null,
                copies.get(0).map().automaticRestart(),
                connectors,
                circuits,
                null);
        return Hookup.resolve(
                new HookupDocument(
                        new HookupDocument.VehicleUse(null, null, map, unplugged, Set.of()),
                        parts,
                        wires,
                        plugs,
                        unused,
                        settings,
                        new ArrayList<>(wishes)),
                map,
                devices,
                List.of());
    }
}
