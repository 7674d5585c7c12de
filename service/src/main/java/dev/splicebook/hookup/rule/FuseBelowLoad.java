package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Scenario;
import dev.splicebook.hookup.power.Case;
import dev.splicebook.hookup.power.Power;
import dev.splicebook.hookup.power.Solved;
import dev.splicebook.hookup.power.Strand;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;

/** The continuous load of a fuse is above three quarters of its rating. */
@AutoService(Rule.class)
@About(
        code = "fuse-below-load",
        severity = Severity.WARNING,
        since = "0.1",
        sizes = true,
        condition = "The continuous load of a fuse is above three quarters of its rating.",
        checks =
                "For each fuse, in a conductor, inside a part or upstream of a vehicle circuit, the typical current of"
                        + " everything behind it, resistors too, in the worst state; for one in a lead to ground, of everything that returns by it.",
        why =
                "A fuse that runs near its rating ages, heats its holder and opens on a hot afternoon with nothing wrong.",
        mend =
                "Use a larger fuse if the conductor bears it, else a thicker conductor and a larger fuse; or share the load"
                        + " between two circuits.",
        source =
                "Continuous load of at most 75 % of the rating at 25 °C, as blade fuse makers publish for ISO 8820-3 fuses.",
        fails = """
                {"parts": {"AMP": {"inline": {"terminals": {
                   "plus": {"electrical": {"kind": "load", "typicalAmps": 9, "maxAmps": 12, "needs": "constant"}},
                   "minus": {"electrical": {"kind": "ground"}}}}}},
                 "connections": {
                   "W1": {"ends": ["CAR.battery-plus", "AMP.plus"], "conductor": {"size": "14 AWG"},
                          "fuse": {"ratingAmps": 10}},
                   "W2": {"ends": ["CAR.chassis", "AMP.minus"], "conductor": {"size": "14 AWG"}}}}
                """,
        passes = """
                {"parts": {"AMP": {"inline": {"terminals": {
                   "plus": {"electrical": {"kind": "load", "typicalAmps": 9, "maxAmps": 12, "needs": "constant"}},
                   "minus": {"electrical": {"kind": "ground"}}}}}},
                 "connections": {
                   "W1": {"ends": ["CAR.battery-plus", "AMP.plus"], "conductor": {"size": "14 AWG"},
                          "fuse": {"ratingAmps": 15}},
                   "W2": {"ends": ["CAR.chassis", "AMP.minus"], "conductor": {"size": "14 AWG"}}}}
                """)
public final class FuseBelowLoad implements Rule {

    static final Threshold CONTINUOUS_SHARE = new Threshold(
            "continuousShare",
            0.75,
            "",
            0.25,
            1,
            "share of its rating that a blade fuse carries for long at 25 °C, as fuse makers publish");

    @Override
    public void check(Examination examination) {
        Network network = examination.network();
        for (Link link : network.links()) {
            if (link.hasFuse()) {
                Worst worst = new Worst();
                Map<Object, Sides> sides = new HashMap<>();
                Set<Node> fedByIt = new HashSet<>();
                for (Scenario scenario : network.scenarios()) {
                    Set<Node> fed = sides.computeIfAbsent(
                                    scenario.partition(), partition -> new Sides(link, network, scenario))
                            .fed(scenario);
                    worst.add(scenario, Draws.among(fed, network, scenario));
                    fedByIt.addAll(fed);
                }
                boolean returning = network.netOf(link.from()).stream().anyMatch(Node::isReference) && !worst.isFed();
                Set<Node> resisting = resisting(fedByIt, network);
                if (returning || !resisting.isEmpty()) {
                    addSolved(link, worst, resisting, examination.reading().power());
                }
                worst.judge(
                        () -> "the " + Say.rating(link.fuseAmps()) + " fuse in " + where(link),
                        link.fuseAmps(),
                        List.of(link.from(), link.to()),
                        link.ref(),
                        returning
                                ? "take the fuse out: a lead to ground needs none, and when it opens the part returns by"
                                        + " its signal leads."
                                : "use a larger fuse if the conductor bears it, else a thicker conductor and a larger fuse.",
                        examination);
            }
        }
        for (SharedFuse fuse : examination.reading().sharedFuses()) {
            // what asks for more than the circuit gives at all is told by supply-overloaded
            if (Overload.of(fuse.circuits(), examination).isAbove(fuse.givesAmps())) {
                examination.applies();
                continue;
            }
            Worst worst = new Worst();
            for (Scenario scenario : network.scenarios()) {
                worst.add(scenario, examination.reading().draws().from(fuse.circuits(), scenario));
            }
            worst.judge(
                    () -> "the " + Say.rating(fuse.ratingAmps()) + " fuse upstream of " + Say.names(fuse.circuits()),
                    fuse.ratingAmps(),
                    fuse.circuits(),
                    null,
                    "feed part of the load from another circuit, or from the battery through a fuse of its own.",
                    examination);
        }
    }

    /** Whether a fuse is fed from one side alone, so that what is behind it tells what it carries. */
    static boolean isFedFromOneSide(Link fuse, Network network, Scenario scenario) {
        return !new Sides(fuse, network, scenario).fed(scenario).isEmpty();
    }

    private static String where(Link fuse) {
        return fuse.kind() == Link.Kind.CONNECTION
                ? "connection " + fuse.ref()
                : fuse.from().owner() + ", between " + fuse.from().name() + " and "
                        + fuse.to().name();
    }

    /** The ends of resistors that a fuse feeds. */
    private static Set<Node> resisting(Set<Node> fed, Network network) {
        Set<Node> ends = new LinkedHashSet<>();
        for (Link link : network.links()) {
            if (link.kind() == Link.Kind.RESISTOR && fed.contains(link.from()) && fed.contains(link.to())) {
                ends.addAll(List.of(link.from(), link.to()));
            }
        }
        return ends;
    }

    /** What flows by a fuse that feeds resistors too, or stands in a lead to ground, of which neither side feeds the other. */
    private static void addSolved(Link fuse, Worst worst, Set<Node> resisting, Power power) {
        for (Case each : power.cases()) {
            Solved solved = each.typical();
            for (Strand strand : solved.strands()) {
                if (strand.link() == fuse) {
                    if (resisting.isEmpty()) {
                        worst.lacking.addAll(solved.lacksOfMost(strand));
                    }
                    if (Math.abs(solved.amps(strand)) > Power.SLACK_AMPS) {
                        List<Node> by = new ArrayList<>(returningBy(strand, solved));
                        by.addAll(resisting);
                        worst.add(each.states(), Math.abs(solved.amps(strand)), by);
                    }
                }
            }
        }
    }

    private static List<Node> returningBy(Strand strand, Solved solved) {
        return solved.sinks().stream()
                .filter(solved::isFed)
                .filter(sink -> solved.path(sink).contains(strand)
                        || solved.returnPath(sink.node().owner()).contains(strand))
                .map(solved::fedEnd)
                .toList();
    }

    /** Both sides of a fuse while the contacts stand as in one scenario. */
    private static final class Sides {
        private final Side from;
        private final Side to;

        Sides(Link fuse, Network network, Scenario standing) {
            from = new Side(fuse.from(), fuse, network, standing);
            to = new Side(fuse.to(), fuse, network, standing);
        }

        /** The nodes that the fuse feeds; none if it is fed from neither side, or from both. */
        Set<Node> fed(Scenario scenario) {
            boolean fromFeeds = from.mayFeed(scenario);
            if (fromFeeds == to.mayFeed(scenario)) {
                return Set.of();
            }
            return (fromFeeds ? to : from).fed();
        }
    }

    /** What lies on one side of a fuse, seen without it. */
    private static final class Side {
        private final Node end;
        private final Link fuse;
        private final Network network;
        private final Scenario standing;
        private final List<Node> sources = new ArrayList<>();
        private @Nullable Set<Node> fed;

        Side(Node end, Link fuse, Network network, Scenario standing) {
            this.end = end;
            this.fuse = fuse;
            this.network = network;
            this.standing = standing;
            for (Node node : reach(false)) {
                if (node.givesTwelveVolts()) {
                    sources.add(node);
                }
            }
        }

        boolean mayFeed(Scenario scenario) {
            for (Node source : sources) {
                if (scenario.isLive(source) != Scenario.Sure.NO) {
                    return true;
                }
            }
            return false;
        }

        /** The nodes to which current from the fuse can flow. */
        Set<Node> fed() {
            if (fed == null) {
                fed = reach(true);
            }
            return fed;
        }

        /** The nodes to which current can flow from the end, or from which it can come. */
        private Set<Node> reach(boolean downstream) {
            Set<Node> reach = new LinkedHashSet<>();
            ArrayDeque<Node> queue = new ArrayDeque<>();
            queue.add(end);
            reach.add(end);
            while (!queue.isEmpty()) {
                Node at = queue.remove();
                for (Link link : network.linksOf(at)) {
                    Node next = link.across(at);
                    boolean passes =
                            link.kind().isContact() ? standing.isClosed(link) : link.passesFrom(downstream ? at : next);
                    if (link != fuse && passes && !next.isReference() && reach.add(next)) {
                        queue.add(next);
                    }
                }
            }
            return reach;
        }
    }

    /** The largest continuous load over the scenarios. */
    private static final class Worst {
        private double amps = -1;
        private final Set<Node> sinks = new LinkedHashSet<>();
        private final Map<Node, String> lacks = new LinkedHashMap<>();
        /** Like {@code lacks}, named in full. */
        private final Set<String> lacking = new TreeSet<>();

        private final Set<State> states = EnumSet.noneOf(State.class);
        private double certain;

        void add(Scenario scenario, List<Draws.Draw> draws) {
            if (draws.isEmpty()) {
                return;
            }
            double known = 0;
            double bound = 0;
            for (Draws.Draw draw : draws) {
                if (draw.typicalAmps() == null) {
                    lacks.putIfAbsent(
                            draw.sink(), draw.sink().facts() instanceof Electrical.Load ? "typicalAmps" : draw.lacks());
                }
                if (draw.typicalAmps() != null) {
                    known += draw.typicalAmps();
                    bound += draw.typicalAmps();
                } else if (draw.maxAmps() != null) {
                    bound += draw.maxAmps();
                } else {
                    bound = Double.POSITIVE_INFINITY;
                }
            }
            certain = Math.max(certain, bound);
            add(
                    Set.of(scenario.state()),
                    known,
                    draws.stream().map(Draws.Draw::sink).toList());
        }

        void add(Set<State> when, double known, List<Node> by) {
            if (known > amps + 1e-9) {
                amps = known;
                states.clear();
                sinks.clear();
            }
            if (known >= amps - 1e-9) {
                states.addAll(when);
                sinks.addAll(by);
            }
        }

        boolean isFed() {
            return amps >= 0;
        }

        void judge(
                Supplier<String> fuse,
                double ratingAmps,
                List<Node> at,
                @Nullable String ref,
                String help,
                Examination examination) {
            if (amps < 0) {
                examination.missing(lacking);
                return;
            }
            examination.applies();
            double share = examination.value(CONTINUOUS_SHARE);
            double limit = share * ratingAmps;
            if (amps > limit + 1e-9) {
                examination
                        .report(
                                fuse.get() + " carries " + Say.apart(amps, limit, Say::amps) + " for long, above the "
                                        + Say.amps(limit) + " ("
                                        + Math.round(share * 100)
                                        + " % of its rating) that it bears",
                                help)
                        .at(at)
                        .at(sinks)
                        .through(ref == null ? examination.reading().connectionsAt(at) : List.of(ref))
                        .in(states)
                        .figures(amps, limit, "A");
            } else if (certain > limit + 1e-9) {
                lacks.forEach(examination::missing);
            } else {
                examination.missing(lacking);
            }
        }
    }
}
