package dev.splicebook.hookup;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.electrics.ConductorSize;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The ready jobs, broken in every elementary way. What a breakage does is worked out here from the facts alone: which
 * terminals become one conductor, and so what reaches each that takes something. The rules have no part in it.
 */
class MutationTest {

    /** 33 CFR 183.425 table 5, 105 °C column, for the sizes of the jobs; below 18 AWG by area. */
    private static final Map<String, Double> TABLE_AMPS = Map.of(
            "30 AWG", 1.2, "18 AWG", 20.0, "16 AWG", 25.0, "14 AWG", 35.0, "12 AWG", 45.0, "10 AWG", 60.0, "8 AWG",
            80.0, "4 AWG", 160.0);

    private static final String REAR = "rear-entertainment/check-3-ready";
    private static final String BASS = "amplifier-and-subwoofers/check-2-ready";

    @ParameterizedTest
    @ValueSource(strings = {REAR, BASS})
    void findsEverySwapOfTwoEndsThatChangesWhatReachesATerminal(String job) {
        Hookup ready = DemoFiles.example(job);
        List<String> right = reaching(ready);
        Set<Set<String>> nets = nets(ready);
        List<String> refs =
                List.copyOf(new TreeSet<>(ready.document().connections().keySet()));
        List<String> missed = new ArrayList<>();
        List<String> unnamed = new ArrayList<>();
        List<String> accused = new ArrayList<>();
        int harmful = 0;
        int harmless = 0;
        for (int one = 0; one < refs.size(); one++) {
            for (int other = one + 1; other < refs.size(); other++) {
                for (int end = 0; end < 2; end++) {
                    Connection first = connection(ready, refs.get(one));
                    Connection second = connection(ready, refs.get(other));
                    String a = first.ends().get(0);
                    String b = second.ends().get(end);
                    if (a.equals(b)
                            || first.ends().get(1).equals(b)
                            || second.ends().get(1 - end).equals(a)) {
                        continue;
                    }
                    Hookup swapped = Edits.of(ready)
                            .connection(
                                    refs.get(one),
                                    Edits.withEnds(first, b, first.ends().get(1)))
                            .connection(
                                    refs.get(other),
                                    Edits.withEnds(second, a, second.ends().get(1 - end)))
                            .hookup();
                    Report report = Hookups.checker().check(swapped);
                    boolean changed = !reaching(swapped).equals(right);
                    boolean same = nets(swapped).equals(nets);
                    harmful += changed ? 1 : 0;
                    harmless += same ? 1 : 0;
                    String what = a + " and " + b + ": " + report.findings();
                    if (changed && report.verdict() == Report.Verdict.READY) {
                        missed.add(what);
                    } else if (changed && !names(report, swapped, ready, Set.of(refs.get(one), refs.get(other)))) {
                        unnamed.add(what);
                    } else if (same && !report.findings().stream().allMatch(MutationTest::isAboutCapacity)) {
                        accused.add(what);
                    }
                }
            }
        }
        System.out.printf("%s: %d of %d harmful swaps found%n", job, harmful - missed.size(), harmful);
        assertThat(harmful).isGreaterThan(100);
        assertThat(harmless).isGreaterThan(0);
        assertThat(missed).as("harmful swaps that stay ready").isEmpty();
        assertThat(unnamed)
                .as("harmful swaps of which no finding names what was touched")
                .isEmpty();
        assertThat(accused).as("swaps that join the same and are reported").isEmpty();
    }

    /** A swap moves conductor, fuse and load too, and so asks for more of another source where nothing else is wrong. */
    private static boolean isAboutCapacity(Finding finding) {
        return finding.rule().startsWith("fuse-") || finding.rule().equals("supply-overloaded");
    }

    /** Whether a finding names a moved connection, or a terminal that is one conductor with an end of it, contacts closed. */
    private static boolean names(Report report, Hookup broken, Hookup ready, Set<String> moved) {
        Set<String> touched = new TreeSet<>();
        for (Hookup hookup : List.of(broken, ready)) {
            Map<String, String> parents = joined(hookup);
            hookup.devices()
                    .forEach((part, device) -> device.relays()
                            .forEach(relay -> join(parents, part + "." + relay.common(), part + "." + relay.open())));
            Set<String> roots = new TreeSet<>();
            moved.forEach(ref -> connection(hookup, ref).ends().forEach(end -> roots.add(root(parents, end))));
            // what a coil no longer does shows where its contact leads
            hookup.devices()
                    .forEach((part, device) -> device.relays().forEach(relay -> {
                        if (relay.coil().stream().anyMatch(end -> roots.contains(root(parents, part + "." + end)))) {
                            roots.add(root(parents, part + "." + relay.common()));
                        }
                    }));
            terminals(hookup).stream()
                    .filter(terminal -> roots.contains(root(parents, terminal)))
                    .forEach(touched::add);
        }
        return report.findings().stream()
                .anyMatch(finding -> finding.connections().stream().anyMatch(moved::contains)
                        || finding.terminals().stream().anyMatch(touched::contains));
    }

    @ParameterizedTest
    @ValueSource(strings = {REAR, BASS})
    void findsEveryDroppedConnection(String job) {
        Hookup ready = DemoFiles.example(job);
        for (String ref : ready.document().connections().keySet()) {
            Report report = Hookups.checker().check(Edits.of(ready).without(ref).hookup());

            assertThat(report.verdict()).as("without %s", ref).isNotEqualTo(Report.Verdict.READY);
            assertThat(report.findings())
                    .as("without %s %s", ref, connection(ready, ref).ends())
                    .isNotEmpty();
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {REAR, BASS})
    void findsEveryPairReversedAtOneEndAndAcceptsItReversedAtBoth(String job) {
        Hookup ready = DemoFiles.example(job);
        int pairs = 0;
        for (Map.Entry<String, Connection> one : ready.document().connections().entrySet()) {
            for (Map.Entry<String, Connection> other :
                    ready.document().connections().entrySet()) {
                String plus = one.getValue().ends().get(0);
                String minus = other.getValue().ends().get(0);
                if (!isOtherSide(ready, plus, minus)) {
                    continue;
                }
                pairs++;
                String farPlus = one.getValue().ends().get(1);
                String farMinus = other.getValue().ends().get(1);
                Report reversed = Hookups.checker()
                        .check(Edits.of(ready)
                                .connection(one.getKey(), Edits.withEnds(one.getValue(), minus, farPlus))
                                .connection(other.getKey(), Edits.withEnds(other.getValue(), plus, farMinus))
                                .hookup());
                assertThat(reversed.verdict())
                        .as("%s and %s reversed", plus, minus)
                        .isEqualTo(Report.Verdict.NOT_READY);

                Report twice = Hookups.checker()
                        .check(Edits.of(ready)
                                .connection(one.getKey(), Edits.withEnds(other.getValue(), minus, farMinus))
                                .connection(other.getKey(), Edits.withEnds(one.getValue(), plus, farPlus))
                                .hookup());
                assertThat(twice.findings())
                        .as("%s and %s reversed twice", plus, minus)
                        .isEmpty();
            }
        }
        assertThat(pairs).isGreaterThan(0);
    }

    @ParameterizedTest
    @ValueSource(strings = {REAR, BASS})
    void findsEveryFuseAboveItsConductorAndEveryConductorBelowItsFuse(String job) {
        Hookup ready = DemoFiles.example(job);
        int fused = 0;
        for (Map.Entry<String, Connection> entry :
                ready.document().connections().entrySet()) {
            Connection connection = entry.getValue();
            if (connection.fuse() == null || connection.conductor() == null) {
                continue;
            }
            fused++;
            double table = TABLE_AMPS.getOrDefault(connection.conductor().size().value(), Double.NaN);
            assertThat(table)
                    .as("ampacity of %s", connection.conductor().size())
                    .isNotNaN();
            Report raised = Hookups.checker()
                    .check(Edits.of(ready)
                            .connection(entry.getKey(), fusedAt(connection, table + 1))
                            .hookup());
            assertNames(raised, "fuse-exceeds-conductor", entry.getKey());
            Report atTheTable = Hookups.checker()
                    .check(Edits.of(ready)
                            .connection(entry.getKey(), fusedAt(connection, table))
                            .hookup());
            assertThat(Hookups.findings(atTheTable, "fuse-exceeds-conductor")).isEmpty();

            Report thinned = Hookups.checker()
                    .check(Edits.of(ready)
                            .connection(entry.getKey(), sized(connection, "30 AWG"))
                            .hookup());
            assertNames(thinned, "fuse-exceeds-conductor", entry.getKey());
        }
        assertThat(fused).isGreaterThan(0);
    }

    @ParameterizedTest
    @ValueSource(strings = {REAR, BASS})
    void findsEveryFloatingSideAndDrivenReturnAtGround(String job) {
        Hookup ready = DemoFiles.example(job);
        int grounded = 0;
        for (Map.Entry<String, Electrical> entry : facts(ready).entrySet()) {
            boolean floating = entry.getValue() instanceof Electrical.SpeakerOut out && out.drive() == Drive.FLOATING;
            boolean driven = entry.getValue() instanceof Electrical.LineOut line
                    && line.side() == Side.RETURN
                    && line.returns() == OutputReturn.DRIVEN;
            if (floating || driven) {
                grounded++;
                Report report = Hookups.checker()
                        .check(Edits.of(ready)
                                .connection("to-ground", Edits.connection(entry.getKey(), "CAR.chassis", null))
                                .hookup());
                assertThat(Hookups.findings(report, floating ? "speaker-minus-grounded" : "returns-tied"))
                        .as("%s at ground", entry.getKey())
                        .hasSize(1)
                        .allMatch(finding -> finding.terminals().contains(entry.getKey()));
            }
        }
        assertThat(grounded).isGreaterThan(0);
    }

    @ParameterizedTest
    @ValueSource(strings = {REAR, BASS})
    void findsEveryTurnOnThatIsMovedToTheBattery(String job) {
        Hookup ready = DemoFiles.example(job);
        Map<String, Electrical> facts = facts(ready);
        int moved = 0;
        for (Map.Entry<String, Connection> entry :
                ready.document().connections().entrySet()) {
            for (int end = 0; end < 2; end++) {
                String input = entry.getValue().ends().get(end);
                if (facts.get(input) instanceof Electrical.ControlIn in && in.active() == Active.TWELVE_VOLTS) {
                    moved++;
                    Report report = Hookups.checker()
                            .check(Edits.of(ready)
                                    .connection(
                                            entry.getKey(),
                                            Edits.withEnds(
                                                    fusedAt(sized(entry.getValue(), "18 AWG"), 3),
                                                    input,
                                                    "CAR.battery-plus"))
                                    .hookup());
                    assertThat(report.findings())
                            .as("%s on the battery", input)
                            .anyMatch(finding -> finding.terminals().contains(input));
                }
            }
        }
        assertThat(moved).isGreaterThan(0);
    }

    @ParameterizedTest
    @ValueSource(strings = {REAR, BASS})
    void findsEverySignalInputThatGetsTwelveVoltsInstead(String job) {
        Hookup ready = DemoFiles.example(job);
        Map<String, Electrical> facts = facts(ready);
        Map<String, String> parents = joined(ready);
        int moved = 0;
        for (Map.Entry<String, Connection> entry :
                ready.document().connections().entrySet()) {
            for (int end = 0; end < 2; end++) {
                String input = entry.getValue().ends().get(end);
                if (facts.get(input) instanceof Electrical.Audio audio && !audio.isOutput()) {
                    moved++;
                    Report report = Hookups.checker()
                            .check(Edits.of(ready)
                                    .connection(
                                            entry.getKey(),
                                            Edits.withEnds(
                                                    fusedAt(sized(entry.getValue(), "18 AWG"), 3),
                                                    input,
                                                    "CAR.battery-plus"))
                                    .hookup());
                    assertThat(report.verdict()).as("%s on the battery", input).isEqualTo(Report.Verdict.NOT_READY);
                    assertThat(report.findings())
                            .as("%s on the battery", input)
                            .anyMatch(finding -> finding.terminals().stream()
                                    .anyMatch(
                                            terminal -> root(parents, terminal).equals(root(parents, input))));
                }
            }
        }
        assertThat(moved).isGreaterThan(0);
    }

    @ParameterizedTest
    @ValueSource(strings = {REAR, BASS})
    void findsEveryFuseThatIsDroppedWhereAConductorNeedsItAndNoOther(String job) {
        Hookup ready = DemoFiles.example(job);
        int dropped = 0;
        for (Map.Entry<String, Connection> entry :
                ready.document().connections().entrySet()) {
            Connection connection = entry.getValue();
            if (connection.fuse() != null) {
                dropped++;
                Hookup bare = Edits.of(ready)
                        .connection(
                                entry.getKey(),
                                new Connection(connection.ends(), connection.conductor(), connection.length(), null))
                        .hookup();
                List<Finding> findings = Hookups.checker().check(bare).findings();
                List<String> exposed = exposed(bare);
                assertThat(findings.stream()
                                .filter(finding -> finding.rule().startsWith("fuse-"))
                                .flatMap(finding -> finding.connections().stream()))
                        .as("conductors that %s no longer protects", entry.getKey())
                        .containsExactlyInAnyOrderElementsOf(exposed);
                assertThat(findings).hasSize(exposed.size());
            }
        }
        assertThat(dropped).isGreaterThan(0);
    }

    @ParameterizedTest
    @ValueSource(strings = {REAR, BASS})
    void findsEveryThinConductorThatAFuseUpstreamDoesNotProtect(String job) {
        Hookup ready = DemoFiles.example(job);
        int found = 0;
        for (Map.Entry<String, Connection> entry :
                ready.document().connections().entrySet()) {
            Connection connection = entry.getValue();
            if (connection.fuse() == null && connection.conductor() != null) {
                Hookup thin = Edits.of(ready)
                        .connection(entry.getKey(), sized(connection, "30 AWG"))
                        .hookup();
                Report report = Hookups.checker().check(thin);
                boolean harmful = exposed(thin).contains(entry.getKey());
                found += harmful ? 1 : 0;
                assertThat(report.findings().stream()
                                .filter(finding -> finding.severity() == Severity.DANGER)
                                .flatMap(finding -> finding.connections().stream()))
                        .as("%s of 30 AWG", entry.getKey())
                        .isEqualTo(harmful ? List.of(entry.getKey()) : List.of());
            }
        }
        System.out.printf("%s: %d thinned conductors are harmful, and all found%n", job, found);
        assertThat(found).isGreaterThan(0);
    }

    @Test
    void findsEveryTieOfTwoDrivenReturns() {
        Hookup ready = DemoFiles.example(REAR);
        Map<String, String> parents = joined(ready);
        List<String> driven = facts(ready).entrySet().stream()
                .filter(entry -> entry.getValue() instanceof Electrical.LineOut line
                        && line.side() == Side.RETURN
                        && line.returns() == OutputReturn.DRIVEN)
                .map(Map.Entry::getKey)
                .filter(name -> terminals(ready).stream()
                        .anyMatch(other ->
                                !other.equals(name) && root(parents, other).equals(root(parents, name))))
                .toList();
        assertThat(driven).hasSize(2);

        for (String one : terminals(ready)) {
            for (String other : terminals(ready)) {
                if (root(parents, one).equals(root(parents, driven.get(0)))
                        && root(parents, other).equals(root(parents, driven.get(1)))) {
                    Report report = Hookups.checker()
                            .check(Edits.of(ready)
                                    .connection("tie", Edits.connection(one, other, null))
                                    .hookup());

                    assertThat(report.findings())
                            .extracting(Finding::rule)
                            .as("%s tied with %s", one, other)
                            .containsExactly("returns-tied");
                    assertThat(report.findings().get(0).terminals()).containsExactlyInAnyOrderElementsOf(driven);
                }
            }
        }
    }

    /**
     * The connections that take less than what supplies and fuses before them, or else their own fuse, let pass. Looks
     * from supplies towards loads and through open contacts, and so is good for hookups in which nothing else conducts.
     */
    private static List<String> exposed(Hookup hookup) {
        Map<String, Double> letsPass = new TreeMap<>();
        facts(hookup).forEach((name, known) -> {
            if (known instanceof Electrical.Supply supply) {
                Double amps = supply.fuseAmps() == null && Boolean.TRUE.equals(supply.limited())
                        ? supply.maxAmps()
                        : supply.fuseAmps();
                letsPass.put(name, amps == null ? Double.POSITIVE_INFINITY : amps);
            }
        });
        Map<String, Connection> connections = hookup.document().connections();
        for (boolean grown = true; grown; ) {
            grown = false;
            for (String terminal : List.copyOf(letsPass.keySet())) {
                double amps = letsPass.getOrDefault(terminal, 0.0);
                Map<String, Double> next = new TreeMap<>();
                connections.values().forEach(connection -> {
                    int at = connection.ends().indexOf(terminal);
                    if (at >= 0) {
                        double own = connection.fuse() == null
                                ? Double.POSITIVE_INFINITY
                                : connection.fuse().ratingAmps();
                        next.merge(connection.ends().get(1 - at), Math.min(amps, own), Math::max);
                    }
                });
                inside(hookup, terminal).forEach((other, own) -> next.merge(other, Math.min(amps, own), Math::max));
                for (Map.Entry<String, Double> reached : next.entrySet()) {
                    if (reached.getValue() > letsPass.getOrDefault(reached.getKey(), -1.0)) {
                        letsPass.put(reached.getKey(), reached.getValue());
                        grown = true;
                    }
                }
            }
        }
        List<String> exposed = new ArrayList<>();
        connections.forEach((ref, connection) -> {
            double passes = connection.ends().stream()
                    .mapToDouble(end -> letsPass.getOrDefault(end, 0.0))
                    .max()
                    .orElse(0);
            double own = connection.fuse() == null
                    ? Double.POSITIVE_INFINITY
                    : connection.fuse().ratingAmps();
            // from an unfused source to a fuse holder, the fuse in the holder is the conductor's own
            for (String end : passes == Double.POSITIVE_INFINITY ? connection.ends() : List.<String>of()) {
                own = inside(hookup, end).values().stream()
                        .mapToDouble(amps -> amps)
                        .reduce(own, Math::min);
            }
            if (connection.conductor() != null
                    && Math.min(passes, own)
                            > TABLE_AMPS.getOrDefault(
                                    connection.conductor().size().value(), Double.NaN)) {
                exposed.add(ref);
            }
        });
        return exposed;
    }

    /** Where current gets from a terminal without a connection, and what fuse lets it: plugs and the insides of parts. */
    private static Map<String, Double> inside(Hookup hookup, String terminal) {
        Map<String, Double> next = new TreeMap<>();
        String part = owner(terminal);
        String name = terminal.substring(part.length() + 1);
        for (List<String> plug : hookup.document().plugs()) {
            for (int end = 0; end < 2; end++) {
                if (terminal.startsWith(plug.get(end) + "-")) {
                    next.put(
                            plug.get(1 - end) + terminal.substring(plug.get(end).length()), Double.POSITIVE_INFINITY);
                }
            }
        }
        Device device = hookup.devices().get(part);
        if (device != null) {
            device.conducts().stream()
                    .filter(group -> group.contains(name))
                    .forEach(group -> group.stream()
                            .filter(other -> !other.equals(name))
                            .forEach(other -> next.put(part + "." + other, Double.POSITIVE_INFINITY)));
            device.relays().stream()
                    .filter(relay -> relay.common().equals(name))
                    .forEach(relay -> next.put(part + "." + relay.open(), Double.POSITIVE_INFINITY));
            device.fuses().stream()
                    .filter(fuse -> fuse.between().contains(name))
                    .forEach(fuse -> next.put(
                            part + "." + fuse.between().get(1 - fuse.between().indexOf(name)), fuse.ratingAmps()));
        }
        return next;
    }

    private static void assertNames(Report report, String rule, String connection) {
        assertThat(report.verdict()).isEqualTo(Report.Verdict.NOT_READY);
        assertThat(Hookups.findings(report, rule))
                .as("%s of %s", rule, connection)
                .anyMatch(finding -> finding.connections().contains(connection));
    }

    private static Connection connection(Hookup hookup, String ref) {
        Connection connection = hookup.document().connections().get(ref);
        if (connection == null) {
            throw new IllegalArgumentException(ref);
        }
        return connection;
    }

    private static Connection fusedAt(Connection connection, double amps) {
        return new Connection(
                connection.ends(), connection.conductor(), connection.length(), new Connection.WireFuse(amps, null));
    }

    private static Connection sized(Connection connection, String size) {
        return new Connection(
                connection.ends(),
                new Connection.Conductor(new ConductorSize(size), null, 105.0),
                connection.length(),
                connection.fuse());
    }

    /** Whether two terminals are plus and minus, or signal and return, of the same channel of one owner. */
    private static boolean isOtherSide(Hookup hookup, String one, String other) {
        Map<String, Electrical> facts = facts(hookup);
        return facts.get(one) instanceof Electrical.Audio first
                && facts.get(other) instanceof Electrical.Audio second
                && first.getClass() == second.getClass()
                && owner(one).equals(owner(other))
                && first.channel() != null
                && first.channel() == second.channel()
                && first.side() != null
                && second.side() != null
                && first.side().isPositive()
                && !second.side().isPositive()
                && one.replaceAll("(plus|minus|-return)$", "").equals(other.replaceAll("(plus|minus|-return)$", ""));
    }

    private static String owner(String terminal) {
        return terminal.substring(0, terminal.indexOf('.'));
    }

    /** The facts of every terminal, by name, as they hold in the hookup. */
    private static Map<String, Electrical> facts(Hookup hookup) {
        Map<String, Electrical> facts = new TreeMap<>();
        hookup.map().circuits().forEach((name, circuit) -> {
            Electrical known = circuit.factsWhen(!hookup.unplugged().contains(Names.connectorOf(name)));
            if (known != null) {
                facts.put("CAR." + name, known);
            }
        });
        Vehicle.ALWAYS_THERE.forEach((name, circuit) -> {
            Electrical known = circuit.electrical();
            if (known != null) {
                facts.put("CAR." + name, known);
            }
        });
        for (String part : hookup.devices().keySet()) {
            hookup.terminalsOf(part).forEach((name, terminal) -> {
                if (terminal.electrical() != null) {
                    facts.put(part + "." + name, terminal.electrical());
                }
            });
        }
        return facts;
    }

    /** For each terminal that takes something, the givers that reach it, told by what they give. */
    private static List<String> reaching(Hookup hookup) {
        Map<String, Electrical> facts = facts(hookup);
        Map<String, String> parents = joined(hookup);
        Map<String, Set<String>> given = new HashMap<>();
        facts.forEach((name, known) -> {
            String token = gives(hookup, name, known);
            if (token != null) {
                given.computeIfAbsent(root(parents, name), key -> new TreeSet<>())
                        .add(token);
            }
        });
        // a closed contact or a coupling hands on what stands before it; a coupled output gives nothing of its own
        for (int pass = 0; pass < 4; pass++) {
            hookup.devices().forEach((part, device) -> {
                device.relays().forEach(relay -> {
                    hand(
                            given,
                            parents,
                            part + "." + relay.common(),
                            part + "." + relay.open(),
                            "switched by " + coil(part, relay, given, parents) + " ");
                    hand(
                            given,
                            parents,
                            part + "." + relay.open(),
                            part + "." + relay.common(),
                            "switched by " + coil(part, relay, given, parents) + " ");
                });
                device.couples().forEach(couple -> {
                    for (int end = 0; end < 2; end++) {
                        hand(
                                given,
                                parents,
                                part + "." + couple.from().get(end),
                                part + "." + couple.to().get(end),
                                "");
                    }
                });
            });
        }
        // what one version without a solved load cannot tell apart counts as equal: coils with the same facts, and, for
        // what only wants 12 V, whose output gives it
        List<String> reaching = new ArrayList<>();
        facts.forEach((name, known) -> {
            if (takes(known)) {
                Device device = hookup.devices().get(owner(name));
                String who = device == null ? "CAR" : String.valueOf(device.code());
                Set<String> reached = new TreeSet<>();
                given.getOrDefault(root(parents, name), Set.of())
                        .forEach(token -> reached.add(
                                known instanceof Electrical.ControlIn ? token : token.replaceAll("#[^ ,\\]]*", "")));
                reaching.add(who + known + reached);
            }
        });
        reaching.sort(null);
        return reaching;
    }

    /** Terminals that are one conductor, by a common root. */
    private static Map<String, String> joined(Hookup hookup) {
        Map<String, String> parents = new HashMap<>();
        for (Connection connection : hookup.document().connections().values()) {
            join(parents, connection.ends().get(0), connection.ends().get(1));
        }
        Set<String> terminals = terminals(hookup);
        hookup.document().plugs().forEach(plug -> {
            for (String one : terminals) {
                if (one.startsWith(plug.get(0) + "-")) {
                    String other = plug.get(1) + one.substring(plug.get(0).length());
                    if (terminals.contains(other)) {
                        join(parents, one, other);
                    }
                }
            }
        });
        hookup.devices().forEach((part, device) -> {
            device.conducts()
                    .forEach(group ->
                            group.forEach(name -> join(parents, part + "." + group.get(0), part + "." + name)));
            device.fuses()
                    .forEach(fuse -> join(
                            parents,
                            part + "." + fuse.between().get(0),
                            part + "." + fuse.between().get(1)));
        });
        return parents;
    }

    /** Terminals that are one conductor. */
    private static Set<Set<String>> nets(Hookup hookup) {
        Map<String, String> parents = joined(hookup);
        Map<String, Set<String>> nets = new TreeMap<>();
        for (String terminal : terminals(hookup)) {
            nets.computeIfAbsent(root(parents, terminal), key -> new TreeSet<>())
                    .add(terminal);
        }
        return Set.copyOf(nets.values());
    }

    private static String coil(
            String part, Device.Relay relay, Map<String, Set<String>> given, Map<String, String> parents) {
        Set<String> ends = new TreeSet<>();
        relay.coil()
                .forEach(end -> ends.add(given.getOrDefault(root(parents, part + "." + end), Set.of())
                        .toString()));
        return ends.toString();
    }

    private static void hand(
            Map<String, Set<String>> given, Map<String, String> parents, String from, String to, String how) {
        Set<String> more = given.getOrDefault(root(parents, from), Set.of());
        Set<String> all = new TreeSet<>(given.getOrDefault(root(parents, to), Set.of()));
        more.stream().filter(token -> !token.startsWith("switched")).forEach(token -> all.add(how + token));
        given.put(root(parents, to), all);
    }

    private static @org.jspecify.annotations.Nullable String gives(Hookup hookup, String name, Electrical known) {
        if (known instanceof Electrical.Supply supply) {
            return "12 V " + supply.live() + supply.when() + "#" + owner(name);
        }
        if (known instanceof Electrical.Ground) {
            return name.startsWith("CAR.") ? "ground" : null;
        }
        if (known instanceof Electrical.ControlOut out) {
            return out.active() + " " + out.live() + out.when() + "#" + owner(name);
        }
        if (known instanceof Electrical.Audio audio && audio.isOutput()) {
            return isCoupled(hookup, name)
                    ? null
                    : known.kind()
                            + owner(name)
                            + audio.channel()
                            + (audio.side() != null && audio.side().isPositive());
        }
        if (known instanceof Electrical.VideoOut video) {
            return "video " + owner(name) + video.side();
        }
        return known instanceof Electrical.Data data ? "data " + data : null;
    }

    private static boolean isCoupled(Hookup hookup, String name) {
        Device device = hookup.devices().get(owner(name));
        return device != null
                && device.couples().stream()
                        .anyMatch(couple -> couple.to().contains(name.substring(name.indexOf('.') + 1)));
    }

    private static boolean takes(Electrical known) {
        return known instanceof Electrical.Load
                || known instanceof Electrical.ControlIn
                || known instanceof Electrical.VideoIn
                || known instanceof Electrical.Data
                || known instanceof Electrical.Ground
                || (known instanceof Electrical.Audio audio && !audio.isOutput());
    }

    private static Set<String> terminals(Hookup hookup) {
        Set<String> all = new TreeSet<>();
        hookup.map().circuits().keySet().forEach(name -> all.add("CAR." + name));
        Vehicle.ALWAYS_THERE.keySet().forEach(name -> all.add("CAR." + name));
        hookup.devices()
                .keySet()
                .forEach(part -> hookup.terminalsOf(part).keySet().forEach(name -> all.add(part + "." + name)));
        return all;
    }

    private static void join(Map<String, String> parents, String one, String other) {
        parents.put(root(parents, one), root(parents, other));
    }

    private static String root(Map<String, String> parents, String name) {
        String at = name;
        while (!parents.getOrDefault(at, at).equals(at)) {
            at = parents.getOrDefault(at, at);
        }
        return at;
    }
}
