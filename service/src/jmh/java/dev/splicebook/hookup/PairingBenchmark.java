package dev.splicebook.hookup;

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
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/** How long a pairing takes: a job of the examples from the bare map, the parts and the wishes, with three alternatives. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 2)
@Measurement(iterations = 5, time = 2)
public class PairingBenchmark {

    @Param({"rear-entertainment/check-3-ready", "amplifier-and-subwoofers/check-2-ready"})
    private String job = "";

    private final Pairing pairing = new Pairing(new Checker()::check);

    @Benchmark
    public Proposal propose() {
        HookupDocument made = DemoFiles.example(job).document();
        HookupDocument.VehicleUse vehicle = made.vehicle();
        if (vehicle == null) {
            throw new IllegalStateException(job + " has no vehicle");
        }
        HookupDocument bare = new HookupDocument(
                new HookupDocument.VehicleUse(vehicle.id(), vehicle.revision(), vehicle.inline(), Set.of(), Set.of()),
                made.parts(),
                Map.of(),
                List.of(),
                Map.of(),
                Map.of(),
                made.wishes());
        return pairing.propose(DemoFiles.resolve(bare), null, Stock.NONE);
    }
}
