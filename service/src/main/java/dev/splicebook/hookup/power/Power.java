package dev.splicebook.hookup.power;

import dev.splicebook.hookup.Condition;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Report;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Scenario;
import dev.splicebook.hookup.net.Scenario.Sure;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * The power of a hookup in every state.
 *
 * <p>A live supply or output holds its volts, behind nothing; what an output of a part gives is not added to what the part
 * draws. The vehicle's grounds are zero, and so is a live output that switches to ground. Conductors have the resistance
 * of their material at the temperature that their current brings them to, in air of 30 °C; a fuse has the cold resistance
 * of a blade fuse of its rating; plugs, contacts and whatever states no size or length take nothing. Diodes go by
 * Shockley's law, about 0.8 V at an ampere. Loads and control inputs for 12 V take their amps at any volts, and none
 * unfed. Control inputs that are pulled to ground, and audio, are left out.
 */
public final class Power {

    /** Rounding alone says nothing. */
    public static final double SLACK_AMPS = 1e-9;

    private final Network network;
    private final Grid grid;
    private final List<Case> cases;
    private @Nullable Set<String> open;
    private @Nullable Set<Link> overloaded;

    private Power(Network network) {
        this.network = network;
        grid = new Grid(network);
        Map<List<Object>, Case> found = new LinkedHashMap<>();
        boolean restarts = !Boolean.FALSE.equals(network.hookup().map().automaticRestart());
        for (Scenario scenario : network.scenarios()) {
            if (scenario.state() != State.RESTARTING || restarts) {
                Level level = Level.of(scenario.state());
                found.computeIfAbsent(List.of(scenario.solution(), level), key -> new Case(grid, level))
                        .add(scenario);
            }
        }
        cases = List.copyOf(found.values());
    }

    public static Power of(Network network) {
        return new Power(network);
    }

    /** One for each way in which power flows. */
    public List<Case> cases() {
        return cases;
    }

    /** Facts without which nobody can tell whether something is fed, or where it returns. */
    public Set<String> openFeeds() {
        if (open == null) {
            open = workOutOpenFeeds();
        }
        return open;
    }

    private Set<String> workOutOpenFeeds() {
        Set<String> facts = new TreeSet<>();
        grid.returnless.forEach(node -> facts.add(node.owner() + ".ground"));
        for (Case each : cases) {
            Layout layout = each.layout();
            boolean[] drawing = new boolean[layout.clusters];
            for (Sink sink : grid.sinks) {
                for (int joint : new int[] {sink.from, sink.to}) {
                    if (layout.cluster[joint] != Layout.NONE) {
                        drawing[layout.cluster[joint]] = true;
                    }
                }
            }
            for (Node source : network.sources()) {
                int cluster = layout.cluster[grid.joint(source)];
                if (cluster != Layout.NONE
                        && drawing[cluster]
                        && each.scenario().isLive(source) == Sure.UNKNOWN
                        && lackedFact(source) != null) {
                    facts.add(source + "." + lackedFact(source));
                }
            }
            for (Node unknown : grid.unknown) {
                int cluster = layout.cluster[grid.joint(unknown)];
                if (cluster != Layout.NONE && drawing[cluster]) {
                    facts.add(unknown + ".electrical");
                }
            }
        }
        return facts;
    }

    private static @Nullable String lackedFact(Node source) {
        if (source.facts() instanceof Electrical.ControlOut out) {
            return out.active() == null ? "active" : out.live() == null ? "live" : null;
        }
        return source.facts() instanceof Electrical.Supply supply && supply.live() == null ? "live" : null;
    }

    /** Connections that carry more than they take, in some state at worst. */
    public Set<Link> overloaded() {
        if (overloaded == null) {
            overloaded = new HashSet<>();
            for (Case each : cases) {
                for (Strand strand : grid.strands) {
                    if (Math.abs(each.worst().amps(strand)) > strand.allowableAmps() + SLACK_AMPS) {
                        overloaded.add(strand.link);
                    }
                }
            }
        }
        return overloaded;
    }

    /** Whether anything is fed in any state. */
    public boolean isUsed() {
        return cases.stream().anyMatch(each -> grid.sinks.stream().anyMatch(each.worst()::isFed));
    }

    /** What was solved, as the report tells it. */
    public Report.Power report() {
        return new Report.Power(cases.stream().map(this::told).toList(), List.copyOf(leftOut()));
    }

    private Report.PowerCase told(Case each) {
        List<Condition> conditions = List.copyOf(each.conditions());
        Map<String, Double> offsets = new TreeMap<>();
        for (String part : grid.returnOf.keySet()) {
            double offset = each.worst().offsetVolts(part);
            if (!Double.isNaN(offset)) {
                offsets.put(part, offset);
            }
        }
        return new Report.PowerCase(
                List.copyOf(each.states()),
                conditions,
                each.level().batteryVolts(Extent.TYPICAL, network.hookup().map().runningVolts()),
                each.level().batteryVolts(Extent.WORST, network.hookup().map().runningVolts()),
                loads(each),
                conductors(each),
                fuses(each),
                offsets.entrySet().stream()
                        .map(offset -> new Report.GroundOffset(offset.getKey(), offset.getValue()))
                        .toList(),
                largest(offsets));
    }

    private static Report.@Nullable OffsetBetween largest(Map<String, Double> offsets) {
        if (offsets.size() < 2) {
            return null;
        }
        List<Map.Entry<String, Double>> byVolts = offsets.entrySet().stream()
                .sorted(Map.Entry.comparingByValue())
                .toList();
        Map.Entry<String, Double> least = byVolts.get(0);
        Map.Entry<String, Double> most = byVolts.get(byVolts.size() - 1);
        return new Report.OffsetBetween(List.of(least.getKey(), most.getKey()), most.getValue() - least.getValue());
    }

    private List<Report.LoadPower> loads(Case each) {
        List<Report.LoadPower> loads = new ArrayList<>();
        for (Sink sink : grid.sinks) {
            if (each.typical().isFed(sink) && each.worst().isFed(sink)) {
                loads.add(new Report.LoadPower(
                        sink.node().ref(),
                        each.typical().across(sink),
                        known(sink, each.typical()),
                        each.worst().across(sink),
                        known(sink, each.worst())));
            }
        }
        loads.sort((one, other) -> one.terminal().compareTo(other.terminal()));
        return loads;
    }

    private static @Nullable Double known(Sink sink, Solved solved) {
        return solved.lackedFact(sink) == null ? solved.amps(sink) : null;
    }

    private List<Report.ConductorPower> conductors(Case each) {
        List<Report.ConductorPower> conductors = new ArrayList<>();
        for (Strand strand : grid.strands) {
            double typical = Math.abs(each.typical().amps(strand));
            double worst = Math.abs(each.worst().amps(strand));
            String ref = strand.link.ref();
            if (ref != null && (typical > 0 || worst > 0)) {
                Double celsius = strand.celsius(worst);
                conductors.add(new Report.ConductorPower(
                        ref,
                        typical,
                        each.typical().lossWatts(strand),
                        worst,
                        each.worst().lossWatts(strand),
                        Double.isNaN(celsius) ? null : celsius));
            }
        }
        conductors.sort((one, other) -> one.connection().compareTo(other.connection()));
        return conductors;
    }

    private List<Report.FusePower> fuses(Case each) {
        List<Report.FusePower> fuses = new ArrayList<>();
        for (Strand strand : grid.strands) {
            Link link = strand.link;
            double typical = Math.abs(each.typical().amps(strand));
            double worst = Math.abs(each.worst().amps(strand));
            if (link.hasFuse() && (typical > 0 || worst > 0)) {
                List<String> at = link.ref() != null
                        ? List.of(link.ref())
                        : List.of(link.from().ref(), link.to().ref());
                fuses.add(new Report.FusePower(at, link.fuseAmps(), typical, worst));
            }
        }
        Map<Object, List<Node>> upstream = new LinkedHashMap<>();
        for (Node source : network.sources()) {
            if (source.facts() instanceof Electrical.Supply supply
                    && supply.fuseAmps() != null
                    && each.scenario().isLive(source) == Sure.YES) {
                Object fuse = source.source() == null ? source : source.source();
                upstream.computeIfAbsent(fuse, key -> new ArrayList<>(1)).add(source);
            }
        }
        upstream.values().forEach(sources -> {
            double typical = given(sources, each.typical());
            double worst = given(sources, each.worst());
            if (typical > 0 || worst > 0) {
                fuses.add(new Report.FusePower(
                        sources.stream().map(Node::ref).sorted().toList(), ratingAmps(sources), typical, worst));
            }
        });
        fuses.sort((one, other) ->
                String.join(" ", one.at()).compareTo(String.join(" ", other.at())));
        return fuses;
    }

    private static double given(List<Node> sources, Solved solved) {
        return sources.stream().mapToDouble(solved::amps).sum();
    }

    private static double ratingAmps(List<Node> sources) {
        double least = Double.POSITIVE_INFINITY;
        for (Node source : sources) {
            if (source.facts() instanceof Electrical.Supply supply && supply.fuseAmps() != null) {
                least = Math.min(least, supply.fuseAmps());
            }
        }
        return least;
    }

    /** The facts without which something was left out or taken without resistance, like {@code connection W3.length}. */
    public Set<String> leftOut() {
        Set<String> facts = new TreeSet<>(openFeeds());
        for (Case each : cases) {
            for (Extent extent : Extent.values()) {
                Solved solved = each.at(extent);
                for (Sink sink : grid.sinks) {
                    String fact = solved.lackedFact(sink);
                    if (fact != null && solved.isFed(sink)) {
                        facts.add(sink.node() + "." + fact);
                    }
                }
                for (Strand strand : grid.strands) {
                    String fact = strand.lackedFact();
                    if (fact != null && Math.abs(solved.amps(strand)) > 0) {
                        facts.add("connection " + strand.link.ref() + "." + fact);
                    }
                }
                facts.addAll(solved.charged().stream()
                        .map(source -> source + ".chargingAmps")
                        .collect(Collectors.toSet()));
                facts.addAll(solved.unsolved().stream()
                        .map(ref -> "connection " + ref + ".solution")
                        .collect(Collectors.toSet()));
            }
        }
        return facts;
    }
}
