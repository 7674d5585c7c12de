package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Connection;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Reach;
import dev.splicebook.hookup.net.Scenario;
import dev.splicebook.hookup.power.Case;
import dev.splicebook.hookup.power.Lacks;
import dev.splicebook.hookup.power.Level;
import dev.splicebook.hookup.power.Power;
import dev.splicebook.hookup.power.Sink;
import dev.splicebook.hookup.power.Solved;
import dev.splicebook.hookup.power.Strand;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/** The return of a part is weaker than its feeds, lifts the part above the chassis, or overloads a ground of the vehicle. */
@AutoService(Rule.class)
@About(
        code = "ground-undersized",
        severity = Severity.WARNING,
        since = "0.2",
        sizes = true,
        condition =
                "The return of a part is weaker than its feeds, lifts the part above the chassis, or overloads a ground of the vehicle.",
        checks =
                "For each part with loads: the allowable current of the conductors on its way to ground, side by side together, against"
                        + " what the largest of its fused feeds bears; and how far its return stands above the chassis with every load drawing its most, solved, against 0.2 V. A"
                        + " conductor that is overloaded outright is told as that. For each ground of the vehicle that states what it bears:"
                        + " what returns by it at most. For each battery of a part: its minus leads against the largest fuse at its plus.",
        why =
                "A short inside the part flows back through its ground until the fuse opens, so that the ground has to bear what the feed"
                        + " does. A part that stands above the chassis hums through every signal lead, and the shield of one carries the"
                        + " rest.",
        mend = "Use the size of the feed for the ground, and keep it short.",
        source = "Kirchhoff's laws, 33 CFR 183.425 table 5; common practice, no source, for the 0.2 V.",
        fails = """
                {"parts": {"AMP": {"inline": {"terminals": {
                   "plus": {"electrical": {"kind": "load", "typicalAmps": 10, "maxAmps": 40, "needs": "constant",
                                           "minVolts": 6, "sleepAmps": 0.002}},
                   "minus": {"electrical": {"kind": "ground"}}}}}},
                 "connections": {
                   "W1": {"ends": ["CAR.battery-plus", "AMP.plus"], "conductor": {"size": "4 AWG"},
                          "length": {"value": 3, "unit": "m"}, "fuse": {"ratingAmps": 60}},
                   "W2": {"ends": ["CAR.chassis", "AMP.minus"], "conductor": {"size": "12 AWG"},
                          "length": {"value": 40, "unit": "cm"}}}}
                """,
        passes = """
                {"parts": {"AMP": {"inline": {"terminals": {
                   "plus": {"electrical": {"kind": "load", "typicalAmps": 10, "maxAmps": 40, "needs": "constant",
                                           "minVolts": 6, "sleepAmps": 0.002}},
                   "minus": {"electrical": {"kind": "ground"}}}}}},
                 "connections": {
                   "W1": {"ends": ["CAR.battery-plus", "AMP.plus"], "conductor": {"size": "4 AWG"},
                          "length": {"value": 3, "unit": "m"}, "fuse": {"ratingAmps": 60}},
                   "W2": {"ends": ["CAR.chassis", "AMP.minus"], "conductor": {"size": "4 AWG"},
                          "length": {"value": 40, "unit": "cm"}}}}
                """)
public final class GroundUndersized implements Rule {

    /** Links that a lead is followed by to its fuse. */
    private static final int MOST_STEPS = 10;

    static final Threshold OFFSET_VOLTS = new Threshold(
            "offsetVolts",
            0.2,
            "V",
            "what a ground may lose under full load: common practice, no source; ISO 16750-2 has devices stand 1 V, from memory");

    /** A part as its ground stands highest. */
    private static final class Lifted {
        private final Set<State> states = EnumSet.noneOf(State.class);
        private final Lacks lacks = new Lacks();
        private final Set<Strand> returns = new LinkedHashSet<>();
        /** By the way that the return takes: it may take another where a contact stands otherwise. */
        private final Map<List<Strand>, Solved> ways = new LinkedHashMap<>();

        private double volts;
        private double feedAmps;
        private @Nullable Solved solved;
    }

    @Override
    public void check(Examination examination) {
        Power power = examination.reading().power();
        Map<String, Lifted> parts = new LinkedHashMap<>();
        for (Case each : power.cases()) {
            if (each.level() != Level.ASLEEP) {
                for (Sink sink : each.worst().sinks()) {
                    if (sink.load() != null
                            && !sink.node().isVehicle()
                            && each.worst().isFed(sink)) {
                        add(each, sink, parts, examination);
                    }
                }
            }
        }
        Set<String> told = new HashSet<>();
        // one finding for a lead that several share, and the same one whatever comes first
        parts.entrySet().stream()
                .sorted(Comparator.comparingDouble((Map.Entry<String, Lifted> one) -> -one.getValue().volts)
                        .thenComparing(one -> -one.getValue().feedAmps)
                        .thenComparing(Map.Entry::getKey))
                .forEach(one -> judge(one.getKey(), one.getValue(), parts, told, examination));
        checkVehicle(parts, examination);
        checkBatteries(examination);
        examination.missing(power.openFeeds());
    }

    /** The minus leads of batteries of parts, together against the largest fuse that the plus leads meet first. */
    private static void checkBatteries(Examination examination) {
        Network network = examination.network();
        for (String part : network.hookup().devices().keySet()) {
            List<Node> nodes = network.nodesOf(part);
            Node fused = nodes.stream()
                    .filter(node -> node.facts() instanceof Electrical.Supply && network.isBattery(node))
                    .max(Comparator.comparingDouble(node -> fusedAmps(node, network)))
                    .orElse(null);
            List<Link> returns = nodes.stream()
                    .filter(node -> node.facts() instanceof Electrical.Ground)
                    .flatMap(node -> connections(node, network))
                    .filter(link -> !link.from().owner().equals(link.to().owner()))
                    .distinct()
                    .toList();
            if (fused != null && fusedAmps(fused, network) > 0 && !returns.isEmpty()) {
                examination.applies();
                checkBattery(fused, fusedAmps(fused, network), returns, examination);
            }
        }
    }

    private static Stream<Link> connections(Node node, Network network) {
        return network.linksOf(node).stream().filter(link -> link.kind() == Link.Kind.CONNECTION);
    }

    /** The largest of the fuses that the leads at a terminal meet before they branch; 0 for none. */
    private static double fusedAmps(Node plus, Network network) {
        return connections(plus, network)
                .mapToDouble(link -> firstFuse(link, plus, network))
                .max()
                .orElse(0);
    }

    private static double firstFuse(Link first, Node from, Network network) {
        Link link = first;
        Node at = from;
        for (int step = 0; step < MOST_STEPS; step++) {
            if (link.hasFuse()) {
                return link.fuseAmps();
            }
            Link come = link;
            at = link.across(at);
            List<Link> further =
                    network.linksOf(at).stream().filter(other -> other != come).toList();
            if (further.size() != 1) {
                return 0;
            }
            link = further.get(0);
        }
        return 0;
    }

    private static void checkBattery(Node plus, double fusedAmps, List<Link> returns, Examination examination) {
        double bears = 0;
        for (Link link : returns) {
            Double amps = Conductors.ampacity(link.connection());
            if (amps == null) {
                examination.missing("connection " + link.ref(), "conductor");
                return;
            }
            bears += amps;
        }
        if (bears < fusedAmps - Power.SLACK_AMPS) {
            List<String> refs =
                    returns.stream().map(link -> String.valueOf(link.ref())).toList();
            boolean one = refs.size() == 1;
            examination
                    .report(
                            "the ground of " + plus.owner() + ", " + (one ? "connection " : "connections ")
                                    + Say.list(refs) + ", bears " + Say.apart(bears, fusedAmps, Say::amps)
                                    + ", below the "
                                    + Say.amps(fusedAmps) + " that its plus, " + Say.name(plus) + ", is fused for",
                            "use the size of the plus lead for the minus.")
                    .at(returns.stream()
                            .flatMap(link -> Stream.of(link.from(), link.to()))
                            .toList())
                    .through(refs)
                    .figures(Flows.figure(bears), Flows.figure(fusedAmps), "A");
        }
    }

    /** Grounds of the vehicle that bear a stated current, against what returns by them. */
    private static void checkVehicle(Map<String, Lifted> parts, Examination examination) {
        Power power = examination.reading().power();
        Map<Integer, List<Node>> grounds = new LinkedHashMap<>();
        Set<Integer> boundless = new HashSet<>(Set.of(0));
        for (Node node : examination.network().nodes()) {
            if (node.isReference()) {
                if (node.facts() instanceof Electrical.Ground ground && ground.maxAmps() != null) {
                    grounds.computeIfAbsent(power.joint(node), key -> new ArrayList<>(1))
                            .add(node);
                } else {
                    boundless.add(power.joint(node));
                }
            }
        }
        grounds.keySet().removeAll(boundless);
        for (List<Node> joined : grounds.values()) {
            double bears = joined.stream()
                    .mapToDouble(node -> node.facts() instanceof Electrical.Ground ground && ground.maxAmps() != null
                            ? ground.maxAmps()
                            : 0)
                    .sum();
            examination.applies();
            double most = 0;
            Set<State> states = EnumSet.noneOf(State.class);
            for (Case each : power.cases()) {
                double amps = each.worst().returnedAmps(joined.get(0));
                if (amps > bears + Power.SLACK_AMPS) {
                    states.addAll(each.states());
                    most = Math.max(most, amps);
                }
            }
            Map<String, Lifted> returning = new TreeMap<>(parts);
            returning
                    .values()
                    .removeIf(lifted -> lifted.returns.stream()
                            .flatMap(strand -> Stream.of(ends(strand)))
                            .noneMatch(end -> power.joint(end) == power.joint(joined.get(0))));
            if (states.isEmpty()) {
                returning.values().forEach(lifted -> lifted.lacks.forEach(examination::missing));
            } else {
                tellVehicle(joined, most, bears, states, List.copyOf(returning.keySet()), examination);
            }
        }
    }

    private static void tellVehicle(
            List<Node> grounds,
            double amps,
            double bears,
            Set<State> states,
            List<String> returning,
            Examination examination) {
        examination
                .report(
                        Say.names(grounds) + (grounds.size() == 1 ? " takes " : " together take ")
                                + Say.apart(amps, bears, Say::amps) + " back"
                                + (returning.isEmpty() ? "" : " from " + Say.list(returning)) + ", above the "
                                + Say.amps(bears) + " that "
                                + (grounds.size() == 1 ? "this ground" : "these grounds") + " of the vehicle "
                                + (grounds.size() == 1 ? "bears" : "bear"),
                        "return " + (returning.isEmpty() ? "it" : Say.list(returning))
                                + " at a ground point of the chassis.")
                .at(grounds)
                .through(examination.reading().connectionsAt(grounds))
                .in(states)
                .figures(Flows.figure(amps), Flows.figure(bears), "A");
    }

    private static void add(Case at, Sink sink, Map<String, Lifted> parts, Examination examination) {
        Solved solved = at.worst();
        String part = sink.node().owner();
        Lifted lifted = parts.computeIfAbsent(part, key -> new Lifted());
        double volts = solved.offsetVolts(part);
        List<Strand> back = solved.returnPath(part);
        lifted.returns.addAll(back);
        lifted.ways.putIfAbsent(back, solved);
        solved.addLacks(back, lifted.lacks);
        lifted.feedAmps = Math.max(lifted.feedAmps, feedAmps(sink, solved, examination));
        if (volts > examination.value(OFFSET_VOLTS) + 1e-9) {
            lifted.states.addAll(at.states());
        }
        if (lifted.solved == null || volts > lifted.volts) {
            lifted.volts = volts;
            lifted.solved = solved;
        }
    }

    /** What the feed of a load bears for long: the least of its fuses and conductors; 0 where nothing fuses it. */
    private static double feedAmps(Sink sink, Solved solved, Examination examination) {
        double fuses = Double.POSITIVE_INFINITY;
        double conductors = Double.POSITIVE_INFINITY;
        for (Strand strand : solved.feedPath(sink)) {
            if (strand.link().hasFuse()) {
                fuses = Math.min(fuses, strand.link().fuseAmps());
            }
            if (!Double.isNaN(strand.allowableAmps())) {
                conductors = Math.min(conductors, strand.allowableAmps());
            }
        }
        for (Scenario scenario : examination.reading().partitions()) {
            for (Reach reach : scenario.reaches(sink.node())) {
                if (reach.source().facts() instanceof Electrical.Supply supply) {
                    Double limit = supply.fuseAmps() != null
                            ? supply.fuseAmps()
                            : Boolean.TRUE.equals(supply.limited()) ? supply.maxAmps() : null;
                    fuses = limit == null ? fuses : Math.min(fuses, limit);
                }
            }
        }
        return fuses == Double.POSITIVE_INFINITY ? 0 : Math.min(fuses, conductors);
    }

    private static void judge(
            String part, Lifted lifted, Map<String, Lifted> parts, Set<String> told, Examination examination) {
        examination.applies();
        Solved solved = lifted.solved;
        Power power = examination.reading().power();
        boolean overloaded =
                lifted.returns.stream().anyMatch(strand -> power.overloaded().contains(strand.link()));
        if (overloaded || solved == null) {
            return;
        }
        Strand weakest = null;
        Strand longest = null;
        for (Strand strand : lifted.returns) {
            if (strand.allowableAmps() < lifted.feedAmps - Power.SLACK_AMPS
                    && (weakest == null || strand.allowableAmps() < weakest.allowableAmps())) {
                weakest = strand;
            }
            if (longest == null || solved.lossWatts(strand) > solved.lossWatts(longest)) {
                longest = strand;
            }
        }
        double together = Double.POSITIVE_INFINITY;
        if (weakest != null) {
            for (Map.Entry<List<Strand>, Solved> way : lifted.ways.entrySet()) {
                if (!way.getKey().isEmpty()) {
                    together = Math.min(together, way.getValue().bearableAmps(part, way.getKey()));
                }
            }
        }
        if (weakest != null && together < lifted.feedAmps - Power.SLACK_AMPS) {
            tellWeak(part, weakest, together, lifted, told, examination);
        } else if (!lifted.states.isEmpty() && longest != null) {
            tellLifted(lifted, longest, solved, parts, told, examination);
        } else {
            lifted.lacks.forEach(examination::missing);
        }
    }

    private static void tellWeak(
            String part, Strand weakest, double together, Lifted lifted, Set<String> told, Examination examination) {
        if (together > weakest.allowableAmps() + Power.SLACK_AMPS) {
            tellWeakTogether(part, together, lifted, told, examination);
            return;
        }
        Connection connection = weakest.link().connection();
        if (connection == null
                || connection.conductor() == null
                || !told.add(String.valueOf(weakest.link().ref()))) {
            return;
        }
        examination
                .report(
                        "the ground of " + part + ", connection "
                                + weakest.link().ref() + ", bears "
                                + Say.apart(weakest.allowableAmps(), lifted.feedAmps, Say::amps) + " as "
                                + Conductors.describe(connection.conductor()) + ", below the "
                                + Say.amps(lifted.feedAmps) + " that the feed bears",
                        "use the size of the feed for the ground.")
                .at(ends(weakest))
                .through(List.of(String.valueOf(weakest.link().ref())))
                .figures(Flows.figure(weakest.allowableAmps()), Flows.figure(lifted.feedAmps), "A");
    }

    private static void tellWeakTogether(
            String part, double together, Lifted lifted, Set<String> told, Examination examination) {
        List<Strand> weak = lifted.returns.stream()
                .filter(strand -> strand.allowableAmps() < lifted.feedAmps - Power.SLACK_AMPS)
                .toList();
        List<String> refs = Undervoltage.refs(weak);
        if (!told.addAll(refs)) {
            return;
        }
        examination
                .report(
                        "the grounds of " + part + ", connections " + Say.list(refs) + ", together bear "
                                + Say.apart(together, lifted.feedAmps, Say::amps) + ", below the "
                                + Say.amps(lifted.feedAmps) + " that the feed bears",
                        "use thicker wire for the grounds, or one of the size of the feed.")
                .at(weak.stream().flatMap(strand -> Stream.of(ends(strand))).toList())
                .through(refs)
                .figures(Flows.figure(together), Flows.figure(lifted.feedAmps), "A");
    }

    private static void tellLifted(
            Lifted lifted,
            Strand longest,
            Solved solved,
            Map<String, Lifted> parts,
            Set<String> told,
            Examination examination) {
        if (!told.add(String.valueOf(longest.link().ref()))) {
            return;
        }
        List<String> sharing = parts.entrySet().stream()
                .filter(other -> !other.getValue().states.isEmpty()
                        && other.getValue().returns.stream()
                                .anyMatch(strand -> strand.link().equals(longest.link())))
                .map(Map.Entry::getKey)
                .sorted()
                .toList();
        examination
                .report(
                        (sharing.size() == 1 ? "the ground of " : "the grounds of ") + Say.list(sharing)
                                + (sharing.size() == 1 ? " stands " : " stand up to ")
                                + Say.apart(lifted.volts, examination.value(OFFSET_VOLTS), Say::finerVolts)
                                + " above the chassis with " + Say.amps(Math.abs(solved.amps(longest)))
                                + ", above the " + Say.finerVolts(examination.value(OFFSET_VOLTS))
                                + " that a ground may lose",
                        "use thicker wire for the ground, or a ground point that is nearer.")
                .at(ends(longest))
                .through(Undervoltage.refs(List.copyOf(lifted.returns)))
                .in(lifted.states)
                .figures(Flows.figure(lifted.volts), examination.value(OFFSET_VOLTS), "V");
    }

    private static Node[] ends(Strand strand) {
        return new Node[] {strand.link().from(), strand.link().to()};
    }
}
