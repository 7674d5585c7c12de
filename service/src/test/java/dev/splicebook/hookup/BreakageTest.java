package dev.splicebook.hookup;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.electrics.ConductorSize;
import dev.splicebook.electrics.Length;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

/**
 * Every correct hookup, broken in every elementary way. {@link Oracle} tells from the facts whether a breakage matters;
 * then the checker must find something that it did not find before. {@code target/breakages.txt} keeps how many of each
 * kind were found.
 */
class BreakageTest {

    private static final List<String> JOBS =
            List.of("rear-entertainment/check-3-ready", "amplifier-and-subwoofers/check-2-ready");

    private static final long SEED = 20_260_314;
    /** Of the swaps and of the moves of one hookup, so that all of it stays well below a minute. */
    private static final int MOST_OF_A_KIND = 60;

    private static final double LEAST_SHARE_FOUND = 0.98;

    /** One hookup with one thing broken. */
    private record Breakage(String kind, String what, Hookup hookup) {}

    /** How the breakages of a kind came out. */
    private static final class Score {
        private int matter;
        private int found;
        private int electrical;
        private int electricalFound;
        private int harmless;
        private int accused;
    }

    @Test
    void findsEveryBreakageThatMattersElectrically() {
        Map<String, Score> scores = new TreeMap<>();
        List<String> missed = new ArrayList<>();
        List<String> accused = new ArrayList<>();
        // where the checker objects to what is right, nothing can be said of breakages; CorpusTest fails for it
        List<String> leftOut = new ArrayList<>();
        correct().forEach((name, right) -> {
            Set<Oracle.Fault> before = Oracle.faults(right);
            Set<List<Object>> told = told(right);
            if (!told.isEmpty()) {
                leftOut.add(name + ": " + told);
                return;
            }
            for (Breakage breakage : breakages(right, new Random(SEED + name.hashCode()))) {
                Set<Oracle.Fault> faults = new LinkedHashSet<>(Oracle.faults(breakage.hookup()));
                faults.removeAll(before);
                Set<List<Object>> findings = told(breakage.hookup());
                Score score = scores.computeIfAbsent(breakage.kind(), key -> new Score());
                String what = name + ": " + breakage.kind() + " " + breakage.what();
                if (faults.isEmpty()) {
                    score.harmless++;
                    score.accused += findings.isEmpty() ? 0 : 1;
                    if (!findings.isEmpty()) {
                        accused.add(what + ": " + findings);
                    }
                    continue;
                }
                boolean electrical =
                        faults.stream().anyMatch(fault -> fault.kind().isElectrical());
                score.matter++;
                score.electrical += electrical ? 1 : 0;
                if (findings.isEmpty()) {
                    missed.add(what + ": " + faults);
                } else {
                    score.found++;
                    score.electricalFound += electrical ? 1 : 0;
                }
            }
        });
        Score all = sum(scores);
        tell(table(scores, all, missed, accused, leftOut));

        assertThat(all.matter).isGreaterThan(1000);
        assertThat(leftOut).isEmpty();
        assertThat(all.found / (double) all.matter)
                .as("share of breakages found; target/breakages.txt lists the others")
                .isGreaterThanOrEqualTo(LEAST_SHARE_FOUND);
        assertThat(missed).as("breakages that matter and are not found").isEmpty();
    }

    @Test
    void readsNoFaultIntoACorrectHookupAndOneIntoEachThatIsWrongElectrically() {
        Set<String> beyond = Set.of(
                "battery-sensor-bypassed",
                "cable-too-long",
                "coil-unclamped",
                "coils-unequal",
                "entry-unverified",
                "fuse-below-load",
                "fuse-too-far",
                "ground-loop",
                "interlock-defeated",
                "live-lead-uncapped",
                "parasitic-draw-excessive",
                "safety-sound-lost",
                "setting-missing",
                "voltage-drop-excessive",
                "wish-unmet");
        Corpus.cases().forEach((name, one) -> {
            List<Oracle.Fault> faults = Oracle.faults(Corpus.read(one.hookup())).stream()
                    .filter(fault -> fault.kind() != Oracle.Kind.CONTROL)
                    .toList();
            boolean judges = one.expect().stream()
                    .anyMatch(expectation -> !beyond.contains(expectation.rule())
                            && !expectation.rule().startsWith("control-")
                            && !expectation.rule().equals("function-mismatched"));
            if (one.kind() == Corpus.Kind.CORRECT) {
                assertThat(faults).as(name).isEmpty();
            } else if (judges) {
                assertThat(faults).as(name).isNotEmpty();
            }
        });
    }

    private static Map<String, Hookup> correct() {
        Map<String, Hookup> correct = new TreeMap<>();
        Corpus.cases().forEach((name, one) -> {
            if (one.kind() == Corpus.Kind.CORRECT) {
                correct.put(name, Corpus.read(one.hookup()));
            }
        });
        JOBS.forEach(job -> correct.put(job, DemoFiles.example(job)));
        return correct;
    }

    /** The findings, told by rule and place. */
    private static Set<List<Object>> told(Hookup hookup) {
        Set<List<Object>> told = new LinkedHashSet<>();
        Hookups.checker()
                .check(hookup)
                .findings()
                .forEach(finding -> told.add(
                        List.of(finding.rule(), finding.terminals(), finding.connections(), finding.message())));
        return told;
    }

    // ---- ways to break

    private static List<Breakage> breakages(Hookup right, Random random) {
        List<Breakage> breakages = new ArrayList<>();
        breakages.addAll(some(swaps(right), random));
        breakages.addAll(some(moves(right), random));
        breakConnections(right, breakages);
        breakParts(right, breakages);
        right.document().unused().keySet().forEach(terminal -> {
            Map<String, Unused> unused = new LinkedHashMap<>(right.document().unused());
            unused.remove(terminal);
            breakages.add(new Breakage(
                    "unused lead not listed",
                    terminal,
                    with(right, right.document().connections(), right.document().parts(), unused)));
        });
        return breakages;
    }

    private static List<Breakage> some(List<Breakage> all, Random random) {
        List<Breakage> shuffled = new ArrayList<>(all);
        Collections.shuffle(shuffled, random);
        return shuffled.subList(0, Math.min(MOST_OF_A_KIND, shuffled.size()));
    }

    /** Two ends at one part change places. */
    private static List<Breakage> swaps(Hookup right) {
        List<Breakage> breakages = new ArrayList<>();
        Map<String, Connection> connections = right.document().connections();
        List<String> refs = List.copyOf(new TreeSet<>(connections.keySet()));
        for (int one = 0; one < refs.size(); one++) {
            for (int other = one + 1; other < refs.size(); other++) {
                for (int side = 0; side < 4; side++) {
                    Connection first = Objects.requireNonNull(connections.get(refs.get(one)));
                    Connection second = Objects.requireNonNull(connections.get(refs.get(other)));
                    String end = first.ends().get(side / 2);
                    String farther = first.ends().get(1 - side / 2);
                    String end2 = second.ends().get(side % 2);
                    String farther2 = second.ends().get(1 - side % 2);
                    if (place(end).equals(place(end2))
                            && !end.equals(end2)
                            && !farther.equals(end2)
                            && !farther2.equals(end)) {
                        Map<String, Connection> changed = new LinkedHashMap<>(connections);
                        changed.put(refs.get(one), Edits.withEnds(first, end2, farther));
                        changed.put(refs.get(other), Edits.withEnds(second, end, farther2));
                        breakages.add(new Breakage(
                                "two ends swapped",
                                end + " and " + end2,
                                with(
                                        right,
                                        changed,
                                        right.document().parts(),
                                        right.document().unused())));
                    }
                }
            }
        }
        return breakages;
    }

    /** An end goes to another terminal of the same part or connector. */
    private static List<Breakage> moves(Hookup right) {
        List<Breakage> breakages = new ArrayList<>();
        right.document().connections().forEach((ref, connection) -> {
            for (int side = 0; side < 2; side++) {
                String end = connection.ends().get(side);
                String far = connection.ends().get(1 - side);
                for (String other : terminals(right)) {
                    if (place(other).equals(place(end)) && !other.equals(end) && !other.equals(far)) {
                        Map<String, Connection> changed =
                                new LinkedHashMap<>(right.document().connections());
                        changed.put(ref, Edits.withEnds(connection, other, far));
                        Map<String, Unused> unused =
                                new LinkedHashMap<>(right.document().unused());
                        unused.remove(other);
                        breakages.add(new Breakage(
                                "an end moved",
                                ref + " from " + end + " to " + other,
                                with(right, changed, right.document().parts(), unused)));
                    }
                }
            }
        });
        return breakages;
    }

    private static void breakConnections(Hookup right, List<Breakage> into) {
        Set<String> coils = new TreeSet<>();
        right.devices()
                .forEach((part, device) ->
                        device.relays().forEach(relay -> relay.coil().forEach(end -> coils.add(part + "." + end))));
        right.document().connections().forEach((ref, connection) -> {
            Map<String, Connection> without =
                    new LinkedHashMap<>(right.document().connections());
            without.remove(ref);
            boolean ground = connection.ends().stream().anyMatch(end -> isGround(right, end));
            boolean coil = connection.ends().stream().anyMatch(coils::contains);
            into.add(new Breakage(
                    coil ? "relay coil wire dropped" : ground ? "ground cut" : "connection removed",
                    ref + " " + connection.ends(),
                    with(
                            right,
                            without,
                            right.document().parts(),
                            right.document().unused())));
            Connection.WireFuse fuse = connection.fuse();
            Connection.Conductor conductor = connection.conductor();
            Length length = connection.length();
            if (fuse != null) {
                change(right, ref, "fuse removed", new Connection(connection.ends(), conductor, length, null), into);
            }
            if (fuse != null && conductor != null) {
                double large = Math.floor(Oracle.ampacity(conductor) * 1.2) + 1;
                change(
                        right,
                        ref,
                        "fuse enlarged",
                        new Connection(
                                connection.ends(),
                                conductor,
                                length,
                                new Connection.WireFuse(large, fuse.fromSource())),
                        into);
            }
            if (conductor != null) {
                Connection.Conductor thin = new Connection.Conductor(
                        new ConductorSize("26 AWG"), conductor.material(), conductor.insulationCelsius());
                change(right, ref, "conductor thinned", new Connection(connection.ends(), thin, length, fuse), into);
            }
            if (length != null) {
                Length longer = new Length(length.value() * 30, length.unit());
                change(
                        right,
                        ref,
                        "conductor lengthened",
                        new Connection(connection.ends(), conductor, longer, fuse),
                        into);
            }
        });
    }

    private static void change(Hookup right, String ref, String kind, Connection changed, List<Breakage> into) {
        Map<String, Connection> connections =
                new LinkedHashMap<>(right.document().connections());
        connections.put(ref, changed);
        into.add(new Breakage(
                kind,
                ref + " " + changed.ends(),
                with(
                        right,
                        connections,
                        right.document().parts(),
                        right.document().unused())));
    }

    private static void breakParts(Hookup right, List<Breakage> into) {
        right.devices().forEach((part, device) -> {
            for (int at = 0; at < device.diodes().size(); at++) {
                Device.Diode diode = device.diodes().get(at);
                List<Device.Diode> turned = new ArrayList<>(device.diodes());
                turned.set(
                        at, new Device.Diode(/* anode= */ diode.cathode(), /* cathode= */ diode.anode(), diode.amps()));
                replace(
                        right,
                        part,
                        "diode turned round",
                        changed(device, device.conducts(), device.couples(), turned),
                        into);
            }
            if (device.terminals().values().stream()
                            .noneMatch(terminal -> terminal.electrical() instanceof Electrical.Load)
                    && !device.couples().isEmpty()) {
                List<List<String>> through = new ArrayList<>(device.conducts());
                device.couples().forEach(couple -> {
                    through.add(List.of(couple.from().get(0), couple.to().get(0)));
                    through.add(List.of(couple.from().get(1), couple.to().get(1)));
                });
                Map<String, Device.Terminal> bare = new LinkedHashMap<>();
                device.terminals()
                        .forEach((name, terminal) -> bare.put(
                                name,
                                new Device.Terminal(
                                        terminal.function(),
                                        terminal.colour(),
                                        new Electrical.Passive(),
                                        terminal.note())));
                Device bypass = changed(device, through, List.of(), device.diodes());
                replace(right, part, "isolator removed", terminals(bypass, bare), into);
            }
            HookupDocument.PartUse use = right.document().parts().get(part);
            if (use != null) {
                List<@Nullable String> modes = new ArrayList<>(device.modes().keySet());
                modes.add(null);
                for (String mode : modes) {
                    if (!Objects.equals(mode, use.mode())) {
                        use(
                                right,
                                part,
                                "wrong mode",
                                new HookupDocument.PartUse(use.device(), use.revision(), use.inline(), mode),
                                device,
                                into);
                    }
                }
            }
        });
    }

    private static Device changed(
            Device device, List<List<String>> conducts, List<Device.Couple> couples, List<Device.Diode> diodes) {
        return new Device(
                device.code(),
                device.maker(),
                device.name(),
                device.kind(),
                device.terminals(),
                conducts,
                couples,
                device.relays(),
                device.fuses(),
                diodes,
                device.resistors(),
                device.settings(),
                device.modes(),
                device.connectors(),
                device.chassis(),
                device.accessories(),
                device.notes());
    }

    private static Device terminals(Device device, Map<String, Device.Terminal> terminals) {
        return new Device(
                device.code(),
                device.maker(),
                device.name(),
                device.kind(),
                terminals,
                device.conducts(),
                device.couples(),
                device.relays(),
                device.fuses(),
                device.diodes(),
                device.resistors(),
                device.settings(),
                device.modes(),
                device.connectors(),
                device.chassis(),
                device.accessories(),
                device.notes());
    }

    private static void replace(Hookup right, String part, String kind, Device device, List<Breakage> into) {
        HookupDocument.PartUse use = right.document().parts().get(part);
        use(
                right,
                part,
                kind,
                new HookupDocument.PartUse(null, null, device, use == null ? null : use.mode()),
                device,
                into);
    }

    private static void use(
            Hookup right, String part, String kind, HookupDocument.PartUse use, Device device, List<Breakage> into) {
        Map<String, HookupDocument.PartUse> parts =
                new LinkedHashMap<>(right.document().parts());
        parts.put(part, use);
        Map<String, Device> devices = new LinkedHashMap<>(right.devices());
        devices.put(part, device);
        into.add(new Breakage(
                kind,
                part,
                Hookup.resolve(
                        document(
                                right,
                                right.document().connections(),
                                parts,
                                right.document().unused()),
                        right.map(),
                        devices,
                        List.of())));
    }

    private static Hookup with(
            Hookup right,
            Map<String, Connection> connections,
            Map<String, HookupDocument.PartUse> parts,
            Map<String, Unused> unused) {
        return Hookup.resolve(document(right, connections, parts, unused), right.map(), right.devices(), List.of());
    }

    private static HookupDocument document(
            Hookup right,
            Map<String, Connection> connections,
            Map<String, HookupDocument.PartUse> parts,
            Map<String, Unused> unused) {
        HookupDocument document = right.document();
        return new HookupDocument(
                document.vehicle(),
                parts,
                connections,
                document.plugs(),
                unused,
                document.settings(),
                document.wishes());
    }

    private static boolean isGround(Hookup hookup, String terminal) {
        String name = terminal.substring(terminal.indexOf('.') + 1);
        Circuit circuit = hookup.map().circuits().get(name);
        return terminal.startsWith("CAR.")
                && (Vehicle.CHASSIS.equals(name)
                        || Vehicle.BATTERY_MINUS.equals(name)
                        || (circuit != null && circuit.electrical() instanceof Electrical.Ground));
    }

    /** The part, and for the vehicle the connector: where a hand may slip from one terminal to another. */
    private static String place(String terminal) {
        String part = terminal.substring(0, terminal.indexOf('.'));
        String name = terminal.substring(terminal.indexOf('.') + 1);
        return part.equals("CAR") && !Vehicle.ALWAYS_THERE.containsKey(name)
                ? part + "." + Names.connectorOf(name)
                : part;
    }

    private static Set<String> terminals(Hookup hookup) {
        Set<String> all = new TreeSet<>();
        hookup.map().circuits().keySet().forEach(name -> all.add("CAR." + name));
        hookup.cuts().forEach(cut -> {
            all.remove("CAR." + cut);
            all.add("CAR." + cut + "/unit");
            all.add("CAR." + cut + "/harness");
        });
        Vehicle.ALWAYS_THERE.keySet().forEach(name -> all.add("CAR." + name));
        hookup.devices()
                .keySet()
                .forEach(part -> hookup.terminalsOf(part).keySet().forEach(name -> all.add(part + "." + name)));
        return all;
    }

    // ---- telling

    private static Score sum(Map<String, Score> scores) {
        Score all = new Score();
        scores.values().forEach(score -> {
            all.matter += score.matter;
            all.found += score.found;
            all.electrical += score.electrical;
            all.electricalFound += score.electricalFound;
            all.harmless += score.harmless;
            all.accused += score.accused;
        });
        return all;
    }

    private static String table(
            Map<String, Score> scores, Score all, List<String> missed, List<String> accused, List<String> leftOut) {
        StringBuilder text = new StringBuilder(String.format(
                Locale.ROOT,
                "%-26s %7s %7s %7s %11s %7s %9s %8s%n",
                "breakage",
                "matter",
                "found",
                "share",
                "electrical",
                "found",
                "harmless",
                "accused"));
        scores.forEach((kind, score) -> text.append(line(kind, score)));
        text.append(line("all", all));
        missed.forEach(one -> text.append("missed: ").append(one).append(System.lineSeparator()));
        leftOut.forEach(one -> text.append("left out: ").append(one).append(System.lineSeparator()));
        accused.forEach(one -> text.append("harmless and told: ").append(one).append(System.lineSeparator()));
        return text.toString();
    }

    private static String line(String kind, Score score) {
        return String.format(
                Locale.ROOT,
                "%-26s %7d %7d %7s %11d %7d %9d %8d%n",
                kind,
                score.matter,
                score.found,
                score.matter == 0 ? "-" : String.format(Locale.ROOT, "%.3f", score.found / (double) score.matter),
                score.electrical,
                score.electricalFound,
                score.harmless,
                score.accused);
    }

    private static void tell(String table) {
        System.out.print(table.lines()
                .filter(line -> !line.startsWith("harmless and"))
                .collect(Collectors.joining(System.lineSeparator(), "", System.lineSeparator())));
        Path file = DemoFiles.examples().resolveSibling("service").resolve("target/breakages.txt");
        try {
            Files.createDirectories(Objects.requireNonNull(file.getParent()));
            Files.writeString(file, table);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
