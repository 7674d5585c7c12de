package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Scenario;
import java.util.ArrayDeque;
import java.util.EnumSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** The continuous load of a fuse is above three quarters of its rating. */
@AutoService(Rule.class)
@About(
        code = "fuse-below-load",
        severity = Severity.WARNING,
        since = "0.1",
        condition = "The continuous load of a fuse is above three quarters of its rating.",
        checks = "For each fuse, in a conductor, inside a part or upstream of a vehicle circuit, the typical current of"
                + " everything behind it, in the worst state.",
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
            "share of its rating that a blade fuse carries for long at 25 °C, as fuse makers publish");

    @Override
    public void check(Examination examination) {
        Network network = examination.network();
        for (Link link : network.links()) {
            if (link.hasFuse()) {
                String what = link.kind() == Link.Kind.CONNECTION
                        ? "the fuse in connection " + link.ref()
                        : "the fuse in " + link.from().owner() + " between " + link.from() + " and " + link.to();
                Worst worst = new Worst();
                for (Scenario scenario : examination.reading().solutions()) {
                    Set<Node> behind = behind(link, network, scenario);
                    if (behind != null) {
                        worst.add(scenario, Draws.among(behind, behind, network, scenario));
                    }
                }
                worst.judge(what, link.fuseAmps(), List.of(link.from(), link.to()), link.ref(), examination);
            }
        }
        for (Node source : network.sources()) {
            if (source.facts() instanceof Electrical.Supply supply && supply.fuseAmps() != null) {
                Worst worst = new Worst();
                for (Scenario scenario : examination.reading().solutions()) {
                    if (scenario.isLive(source) != Scenario.Sure.NO) {
                        worst.add(scenario, Draws.from(source, network, scenario));
                    }
                }
                worst.judge(
                        "the fuse upstream of " + Say.name(source),
                        supply.fuseAmps(),
                        List.of(source),
                        null,
                        examination);
            }
        }
    }

    /** The nodes on the load's side of a fuse; null if both sides have a live source, or neither has. */
    private static @Nullable Set<Node> behind(Link fuse, Network network, Scenario scenario) {
        Set<Node> one = side(fuse, fuse.from(), network, scenario);
        Set<Node> other = side(fuse, fuse.to(), network, scenario);
        boolean oneFeeds = hasLiveSource(one, scenario);
        boolean otherFeeds = hasLiveSource(other, scenario);
        if (oneFeeds == otherFeeds) {
            return null;
        }
        return oneFeeds ? other : one;
    }

    private static Set<Node> side(Link fuse, Node start, Network network, Scenario scenario) {
        Set<Node> side = new LinkedHashSet<>();
        ArrayDeque<Node> queue = new ArrayDeque<>();
        queue.add(start);
        side.add(start);
        while (!queue.isEmpty()) {
            Node at = queue.remove();
            for (Link link : network.linksOf(at)) {
                boolean closed = link.kind().isContact() ? scenario.isClosed(link) : link.passesFrom(at);
                if (link != fuse && closed && side.add(link.across(at))) {
                    queue.add(link.across(at));
                }
            }
        }
        return side;
    }

    private static boolean hasLiveSource(Set<Node> nodes, Scenario scenario) {
        for (Node node : nodes) {
            if ((node.facts() instanceof Electrical.Supply || node.facts() instanceof Electrical.ControlOut)
                    && Scenario.givesTwelveVolts(node)
                    && scenario.isLive(node) != Scenario.Sure.NO) {
                return true;
            }
        }
        return false;
    }

    /** The largest continuous load over the scenarios. */
    private static final class Worst {
        private double amps = -1;
        private final Set<Node> sinks = new LinkedHashSet<>();
        private final Set<Node> unknown = new LinkedHashSet<>();
        private final Set<State> states = EnumSet.noneOf(State.class);
        private double certain;

        void add(Scenario scenario, List<Draws.Draw> draws) {
            double known = 0;
            double bound = 0;
            for (Draws.Draw draw : draws) {
                if (draw.typicalAmps() != null) {
                    known += draw.typicalAmps();
                    bound += draw.typicalAmps();
                } else if (draw.maxAmps() != null) {
                    bound += draw.maxAmps();
                    unknown.add(draw.sink());
                } else {
                    bound = Double.POSITIVE_INFINITY;
                    unknown.add(draw.sink());
                }
            }
            if (draws.isEmpty()) {
                return;
            }
            certain = Math.max(certain, bound);
            if (known > amps + 1e-9) {
                amps = known;
                states.clear();
                sinks.clear();
            }
            if (known >= amps - 1e-9) {
                states.add(scenario.state());
                draws.forEach(draw -> sinks.add(draw.sink()));
            }
        }

        void judge(String what, double ratingAmps, List<Node> at, @Nullable String ref, Examination examination) {
            if (amps < 0) {
                return;
            }
            examination.applies();
            double limit = CONTINUOUS_SHARE.value() * ratingAmps;
            if (amps > limit + 1e-9) {
                examination
                        .report(
                                what + " of " + Say.rating(ratingAmps) + " carries " + Say.amps(amps)
                                        + " for long, above the " + Say.amps(limit) + " that it bears for long",
                                "use a fuse of at least " + Say.amps(amps / CONTINUOUS_SHARE.value())
                                        + ", with a conductor that bears it.")
                        .at(at)
                        .at(sinks)
                        .through(ref == null ? List.of() : List.of(ref))
                        .in(states)
                        .figures(amps, limit, "A");
            } else if (certain > limit + 1e-9) {
                unknown.forEach(node -> examination.missing(node, "typicalAmps"));
            }
        }
    }
}
