package dev.splicebook.hookup.power;

import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Report;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Scenario;
import dev.splicebook.hookup.net.Scenario.Sure;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/**
 * The power of a hookup in every state.
 *
 * <p>A live supply or output holds its volts, behind nothing; what an output of a part gives is not added to what the part
 * draws. The vehicle's grounds are zero; a live output that switches to ground conducts to its part's ground, and is zero
 * where the part has none that is connected. Conductors have the resistance of their material at the temperature that their current brings them to, in air of 30 °C; a fuse has the cold resistance
 * of a blade fuse of its rating; plugs, contacts and whatever states no size or length take nothing. Diodes go by
 * Shockley's law, about 0.8 V at an ampere. Loads and control inputs for 12 V take their amps at any volts, and none
 * unfed. Control inputs that are pulled to ground, and audio, are left out.
 */
public final class Power {

    /** Rounding alone says nothing. */
    public static final double SLACK_AMPS = 1e-9;

    private static final double MILLION = 1e6;

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
                found.computeIfAbsent(keyOf(scenario, level), key -> new Case(grid, level))
                        .add(scenario);
            }
        }
        cases = List.copyOf(found.values());
    }

    /** The same for scenarios between which nothing changes that power flows by. */
    private List<Object> keyOf(Scenario scenario, Level level) {
        List<Object> key = new ArrayList<>(grid.sources.size() + 2);
        key.add(level);
        key.add(scenario.partition());
        for (Node source : grid.sources) {
            key.add(scenario.isLive(source));
        }
        return key;
    }

    public static Power of(Network network) {
        return new Power(network);
    }

    /** The same for nodes that plugs and conducting groups join, 0 for those that carry no power. */
    public int joint(Node node) {
        return grid.joint(node);
    }

    /** One for each way in which power flows. */
    public List<Case> cases() {
        return cases;
    }

    /** The case that a scenario is one of, null if nothing in it carries power. */
    public @Nullable Case findCase(Scenario scenario) {
        return cases.stream()
                .filter(each -> each.scenarios().contains(scenario))
                .findFirst()
                .orElse(null);
    }

    /** Facts without which nobody can tell whether something is fed, or where it returns, and meshes that could not be solved. */
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
            each.worst().unsolved().forEach(ref -> facts.add("connection " + ref + ".solution"));
            each.typical().unsolved().forEach(ref -> facts.add("connection " + ref + ".solution"));
            Layout layout = each.worst().layout;
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
                    if (Math.abs(each.highest().amps(strand)) > strand.allowableAmps() + SLACK_AMPS) {
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
        List<Sink> sinks = grid.sinks.stream()
                .sorted(Comparator.comparing(sink -> sink.node().ref()))
                .toList();
        List<Strand> conductors = grid.strands.stream()
                .filter(strand -> strand.link.ref() != null)
                .sorted(Comparator.comparing(strand -> String.valueOf(strand.link.ref())))
                .toList();
        List<Fuse> fuses = fuses();
        List<String> parts = grid.returnOf.keySet().stream().sorted().toList();
        List<Report.PowerCase> all = new ArrayList<>();
        for (Case each : cases) {
            List<Report.GroundOffset> offsets = offsets(parts, each.worst());
            all.add(new Report.PowerCase(
                    List.copyOf(each.states()),
                    List.copyOf(each.conditions()),
                    each.isTogether(),
                    each.level()
                            .batteryVolts(Extent.TYPICAL, network.hookup().map().runningVolts()),
                    each.level()
                            .batteryVolts(Extent.WORST, network.hookup().map().runningVolts()),
                    loads(sinks, each),
                    conductors(conductors, each),
                    fuses(fuses, each),
                    offsets,
                    largest(offsets)));
        }
        return new Report.Power(all, List.copyOf(leftOut()));
    }

    private static List<Report.GroundOffset> offsets(List<String> parts, Solved worst) {
        List<Report.GroundOffset> offsets = new ArrayList<>(parts.size());
        for (String part : parts) {
            double offset = worst.offsetVolts(part);
            if (!Double.isNaN(offset)) {
                offsets.add(new Report.GroundOffset(part, told(offset)));
            }
        }
        return offsets;
    }

    private static Report.@Nullable OffsetBetween largest(List<Report.GroundOffset> offsets) {
        if (offsets.size() < 2) {
            return null;
        }
        Report.GroundOffset least = Collections.min(offsets, Comparator.comparing(Report.GroundOffset::worstVolts));
        Report.GroundOffset most = Collections.max(offsets, Comparator.comparing(Report.GroundOffset::worstVolts));
        return least.part().equals(most.part())
                ? null
                : new Report.OffsetBetween(
                        List.of(least.part(), most.part()), told(most.worstVolts() - least.worstVolts()));
    }

    private static List<Report.LoadPower> loads(List<Sink> sinks, Case each) {
        Solved typical = each.typical();
        Solved worst = each.worst();
        List<Report.LoadPower> loads = new ArrayList<>();
        for (Sink sink : sinks) {
            if (typical.isFed(sink) && worst.isFed(sink)) {
                loads.add(new Report.LoadPower(
                        sink.node().ref(),
                        told(typical.across(sink)),
                        known(sink, typical),
                        told(worst.across(sink)),
                        known(sink, worst)));
            }
        }
        return loads;
    }

    private static @Nullable Double known(Sink sink, Solved solved) {
        return solved.lackedFact(sink) == null ? told(solved.amps(sink)) : null;
    }

    private static List<Report.ConductorPower> conductors(List<Strand> strands, Case each) {
        List<Report.ConductorPower> conductors = new ArrayList<>();
        for (Strand strand : strands) {
            double typical = Math.abs(each.typical().amps(strand));
            double worst = Math.abs(each.worst().amps(strand));
            if (typical > 0 || worst > 0) {
                double celsius = strand.celsius(worst);
                conductors.add(new Report.ConductorPower(
                        String.valueOf(strand.link.ref()),
                        told(typical),
                        told(each.typical().lossWatts(strand)),
                        told(worst),
                        told(each.worst().lossWatts(strand)),
                        Double.isNaN(celsius) ? null : Double.valueOf(told(celsius))));
            }
        }
        return conductors;
    }

    /** To the millionth, so that the order in which currents were added up does not show; nothing where unknown. */
    private static double told(double figure) {
        return Double.isNaN(figure) ? 0 : Math.rint(figure * MILLION) / MILLION + 0.0;
    }

    /**
     * A fuse, in a strand or upstream of circuits of the vehicle.
     *
     * @param strand null where it is upstream
     * @param circuits empty where it is not
     */
    private record Fuse(
            List<String> at, double ratingAmps, @Nullable Strand strand, List<Node> circuits) {

        double amps(Solved solved) {
            if (strand != null) {
                return Math.abs(solved.amps(strand));
            }
            double given = 0;
            for (Node circuit : circuits) {
                given += solved.isHolding(circuit) ? solved.amps(circuit) : 0;
            }
            return given;
        }
    }

    private List<Fuse> fuses() {
        List<Fuse> fuses = new ArrayList<>();
        for (Strand strand : grid.strands) {
            Link link = strand.link;
            if (link.hasFuse()) {
                List<String> at = link.ref() != null
                        ? List.of(link.ref())
                        : List.of(link.from().ref(), link.to().ref());
                fuses.add(new Fuse(at, link.fuseAmps(), strand, List.of()));
            }
        }
        Map<Object, List<Node>> upstream = new LinkedHashMap<>();
        for (Node source : grid.sources) {
            if (source.facts() instanceof Electrical.Supply supply && supply.fuseAmps() != null) {
                Object fuse = source.source() == null ? source : source.source();
                upstream.computeIfAbsent(fuse, key -> new ArrayList<>(1)).add(source);
            }
        }
        upstream.values()
                .forEach(circuits -> fuses.add(new Fuse(
                        circuits.stream().map(Node::ref).sorted().toList(), ratingAmps(circuits), null, circuits)));
        fuses.sort(Comparator.comparing(fuse -> String.join(" ", fuse.at())));
        return fuses;
    }

    private static List<Report.FusePower> fuses(List<Fuse> fuses, Case each) {
        List<Report.FusePower> told = new ArrayList<>();
        for (Fuse fuse : fuses) {
            double typical = fuse.amps(each.typical());
            double worst = fuse.amps(each.worst());
            if (typical > 0 || worst > 0) {
                told.add(new Report.FusePower(fuse.at(), fuse.ratingAmps(), told(typical), told(worst)));
            }
        }
        return told;
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
            for (Solved solved : List.of(each.typical(), each.worst())) {
                for (Sink sink : grid.sinks) {
                    String fact = solved.lackedFact(sink);
                    if (fact != null && solved.isFed(sink)) {
                        facts.add(sink.node() + "." + fact);
                    }
                }
                for (Strand strand : grid.strands) {
                    String ref = strand.link.ref();
                    double amps = ref == null ? 0 : solved.amps(strand);
                    if (Double.isNaN(amps)) {
                        facts.add("connection " + ref + ".solution");
                    } else if (amps != 0 && strand.lackedFact() != null) {
                        facts.add("connection " + ref + "." + strand.lackedFact());
                    }
                }
                solved.charged().forEach(source -> facts.add(source + ".chargingAmps"));
            }
        }
        return facts;
    }
}
