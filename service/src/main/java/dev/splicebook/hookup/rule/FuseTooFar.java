package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.electrics.Length;
import dev.splicebook.hookup.Connection;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** The first fuse sits further from its source, or that of a thinner conductor from where it begins, than the limit. */
@AutoService(Rule.class)
@About(
        code = "fuse-too-far",
        severity = Severity.ERROR,
        since = "0.2",
        condition =
                "The first fuse sits further from its source, or from where a thinner conductor begins, than the limit.",
        checks =
                "From every battery, a second one too, and every other supply without a fuse of its own: the length of"
                        + " conductor up to the first fuse on each way. A conductor between two batteries needs a fuse near"
                        + " each. Of a conductor that begins thinner than what protects it allows: the length up to its own fuse.",
        why =
                "What lies before the fuse has no protection. A metre of it under a carpet or over an edge of the firewall is"
                        + " where it chafes.",
        mend = "Move the fuse to the source, or to where the thinner conductor begins, or put a second one there.",
        source =
                "33 CFR 183.455 asks for 7 inches (18 cm), or 40 inches (1.02 m) where the conductor is sheathed or enclosed"
                        + " throughout. The 18 inches: common practice in vehicles, no source.",
        fails = """
                {"parts": {"AMP": {"inline": {"terminals": {
                   "plus": {"electrical": {"kind": "load", "typicalAmps": 20, "maxAmps": 50, "needs": "constant"}},
                   "minus": {"electrical": {"kind": "ground"}}}}}},
                 "connections": {
                   "W1": {"ends": ["CAR.battery-plus", "AMP.plus"], "conductor": {"size": "4 AWG"}, "length": {"value": 4, "unit": "m"},
                          "fuse": {"ratingAmps": 60, "fromSource": {"value": 3.5, "unit": "m"}}},
                   "W2": {"ends": ["CAR.chassis", "AMP.minus"], "conductor": {"size": "4 AWG"}, "length": {"value": 50, "unit": "cm"}}}}
                """,
        passes = """
                {"parts": {"AMP": {"inline": {"terminals": {
                   "plus": {"electrical": {"kind": "load", "typicalAmps": 20, "maxAmps": 50, "needs": "constant"}},
                   "minus": {"electrical": {"kind": "ground"}}}}}},
                 "connections": {
                   "W1": {"ends": ["CAR.battery-plus", "AMP.plus"], "conductor": {"size": "4 AWG"}, "length": {"value": 4, "unit": "m"},
                          "fuse": {"ratingAmps": 60, "fromSource": {"value": 30, "unit": "cm"}}},
                   "W2": {"ends": ["CAR.chassis", "AMP.minus"], "conductor": {"size": "4 AWG"}, "length": {"value": 50, "unit": "cm"}}}}
                """)
public final class FuseTooFar implements Rule {

    static final Threshold DISTANCE = new Threshold(
            "mostMetres",
            0.4572,
            "m",
            0.05,
            1.016,
            "18 inches of conductor: common practice in vehicles, no source; 33 CFR 183.455 asks for 7 inches (0.178 m), and"
                    + " 40 inches (1.016 m) where it is sheathed or enclosed throughout");

    /** Where a way from a source has got to, how much conductor it took, and which lengths it lacks. */
    private record Stand(Node node, double metres, Set<String> connections, Set<String> lacking) {}

    /** A first fuse: how far from its source at least and at most. */
    private record First(Link fuse, Node near, double least, double most, Stand before) {}

    @Override
    public void check(Examination examination) {
        Network network = examination.network();
        Map<Link, Node> ends = examination.reading().fuseEnds();
        Map<Link, Map<Node, Node>> unplaced = new LinkedHashMap<>();
        for (Node supply : network.sources()) {
            if (supply.facts() instanceof Electrical.Supply
                    && Conductors.protectionAmps(supply, network) == Conductors.UNFUSED) {
                Map<Set<String>, List<First>> tooFar = new LinkedHashMap<>();
                for (First first : firstFuses(supply, ends, network)) {
                    examination.applies();
                    Connection connection = first.fuse().connection();
                    boolean isUnplaced = connection != null
                            && connection.fuse() != null
                            && connection.fuse().fromSource() == null;
                    if (first.least() > limit(examination)) {
                        Set<String> way = new LinkedHashSet<>(first.before().connections());
                        way.addAll(
                                first.fuse().ref() == null
                                        ? Set.of()
                                        : Set.of(first.fuse().ref()));
                        tooFar.computeIfAbsent(way, key -> new ArrayList<>(1)).add(first);
                    } else if (first.most() > limit(examination)) {
                        first.before().lacking().forEach(ref -> examination.missing("connection " + ref, "length"));
                        if (isUnplaced) {
                            examination.missing("connection " + first.fuse().ref(), "fromSource");
                            unplaced.computeIfAbsent(first.fuse(), link -> new HashMap<>())
                                    .put(first.near(), supply);
                        } else if (connection != null && connection.length() == null) {
                            examination.missing("connection " + first.fuse().ref(), "length");
                        }
                    }
                }
                tooFar.forEach((way, firsts) -> report(supply, way, firsts, examination));
            }
        }
        unplaced.forEach((link, byEnd) -> checkBetween(link, byEnd, examination));
        Set<Link> told = new HashSet<>();
        for (Node supply : network.sources()) {
            if (supply.facts() instanceof Electrical.Supply) {
                for (Conductors.Exposed exposed : examination.reading().exposedTo(supply)) {
                    checkReduction(exposed, ends, told, examination);
                }
            }
        }
    }

    /** A conductor that is too thin for what stands before it needs its fuse where it begins. */
    private static void checkReduction(
            Conductors.Exposed exposed, Map<Link, Node> ends, Set<Link> told, Examination examination) {
        Link link = exposed.link();
        Connection connection = link.connection();
        Double ampacity = Conductors.ampacity(connection);
        double before = exposed.protectionAmps();
        if (connection == null
                || connection.fuse() == null
                || ampacity == null
                || !exposed.afterConductor()
                || !ends.getOrDefault(link, exposed.near()).equals(exposed.near())
                || !Double.isFinite(before)
                || before <= ampacity
                || ampacity >= exposed.bearableAmps()) {
            return;
        }
        examination.applies();
        Length from = connection.fuse().fromSource();
        double metres = from != null
                ? from.metres()
                : connection.length() == null
                        ? Double.POSITIVE_INFINITY
                        : connection.length().metres();
        if (metres <= limit(examination)) {
            return;
        }
        if (from == null) {
            examination.missing("connection " + link.ref(), "fromSource");
        } else if (told.add(link)) {
            examination
                    .report(
                            Conductors.describe(link, exposed.near()) + " gets thinner, and its fuse sits "
                                    + Say.metres(metres) + " from there, further than the "
                                    + Say.metres(examination.value(DISTANCE))
                                    + " that it may be: what stands before it lets " + Say.rating(before)
                                    + " pass, above the " + Say.amps(ampacity) + " that it takes",
                            "put the fuse of " + link.ref() + " within " + Say.metres(examination.value(DISTANCE))
                                    + " of " + exposed.near() + ".")
                    .at(exposed.near(), link.across(exposed.near()))
                    .through(List.of(String.valueOf(link.ref())))
                    .figures(metres, examination.value(DISTANCE), "m");
        }
    }

    private static double limit(Examination examination) {
        return examination.value(DISTANCE) + 1e-9;
    }

    /** The first fuse on each way; ways without one are a matter of fuse-missing. */
    private static List<First> firstFuses(Node supply, Map<Link, Node> ends, Network network) {
        List<First> firsts = new ArrayList<>();
        Set<Link> seen = new HashSet<>();
        ArrayDeque<Stand> queue = new ArrayDeque<>();
        queue.add(new Stand(supply, 0, Set.of(), Set.of()));
        while (!queue.isEmpty()) {
            Stand at = queue.remove();
            if (at.node().isReference()) {
                continue;
            }
            for (Link link : network.linksOf(at.node())) {
                if (link.kind() == Link.Kind.RESISTOR || !link.passesFrom(at.node()) || !seen.add(link)) {
                    continue;
                }
                if (link.hasFuse()) {
                    firsts.add(first(link, at, ends));
                } else if (link.kind() != Link.Kind.CONNECTION) {
                    queue.add(new Stand(link.across(at.node()), at.metres(), at.connections(), at.lacking()));
                } else if (Conductors.leadsToFuse(link, at.node(), network)) {
                    queue.add(along(link, at));
                }
            }
        }
        return firsts;
    }

    private static Stand along(Link link, Stand at) {
        Length length = link.connection() == null ? null : link.connection().length();
        Set<String> connections = new LinkedHashSet<>(at.connections());
        Set<String> lacking = new LinkedHashSet<>(at.lacking());
        connections.add(String.valueOf(link.ref()));
        if (length == null) {
            lacking.add(String.valueOf(link.ref()));
        }
        return new Stand(
                link.across(at.node()), at.metres() + (length == null ? 0 : length.metres()), connections, lacking);
    }

    private static First first(Link link, Stand at, Map<Link, Node> ends) {
        double least = 0;
        double most = 0;
        Connection connection = link.connection();
        if (connection != null && connection.fuse() != null) {
            Length from = connection.fuse().fromSource();
            double whole = connection.length() == null
                    ? Double.POSITIVE_INFINITY
                    : connection.length().metres();
            most = whole;
            if (from != null && ends.getOrDefault(link, at.node()).equals(at.node())) {
                least = from.metres();
                most = least;
            } else if (from != null && connection.length() != null) {
                least = whole - from.metres();
                most = least;
            }
        }
        return new First(
                link,
                at.node(),
                at.metres() + least,
                at.lacking().isEmpty() ? at.metres() + most : Double.POSITIVE_INFINITY,
                at);
    }

    /** One fuse of unknown place between two sources is far from one of them if the conductor is long enough. */
    private static void checkBetween(Link link, Map<Node, Node> byEnd, Examination examination) {
        Connection connection = link.connection();
        double half = connection == null || connection.length() == null
                ? 0
                : connection.length().metres() / 2;
        if (byEnd.size() > 1 && half > limit(examination)) {
            examination
                    .report(
                            "connection " + link.ref() + " lies between " + Say.names(byEnd.values())
                                    + ", and its one fuse sits " + Say.metres(half)
                                    + " or more from one of them, further than the "
                                    + Say.metres(examination.value(DISTANCE)) + " that a fuse may be from its source",
                            "put a fuse within " + Say.metres(examination.value(DISTANCE)) + " of each.")
                    .at(byEnd.values())
                    .through(List.of(String.valueOf(link.ref())))
                    .figures(half, examination.value(DISTANCE), "m");
        }
    }

    private static void report(Node supply, Set<String> way, List<First> firsts, Examination examination) {
        First nearest = firsts.get(0);
        Set<String> places = new LinkedHashSet<>();
        firsts.forEach(first -> places.add(place(first.fuse())));
        boolean atLeast = nearest.most() > nearest.least();
        examination
                .report(
                        "the first fuse behind " + Say.name(supply) + " is in " + Say.list(List.copyOf(places)) + ", "
                                + (atLeast ? "at least " : "") + Say.metres(nearest.least())
                                + " of conductor from it, further than the "
                                + Say.metres(examination.value(DISTANCE)) + " that it may be",
                        "put a fuse within " + Say.metres(examination.value(DISTANCE)) + " of " + supply.ref() + ".")
                .at(supply, nearest.near())
                .through(way)
                .figures(nearest.least(), examination.value(DISTANCE), "m");
    }

    private static String place(Link fuse) {
        @Nullable String ref = fuse.ref();
        return ref == null ? fuse.from().owner() : "connection " + ref;
    }
}
