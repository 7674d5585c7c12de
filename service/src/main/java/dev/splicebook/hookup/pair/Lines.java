package dev.splicebook.hookup.pair;

import dev.splicebook.function.FunctionId;
import dev.splicebook.function.Functions;
import dev.splicebook.hookup.Bus;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Names;
import dev.splicebook.hookup.net.Node;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Lines that have no direction: buses, antennas, and returns of which only the function is known. Like goes with like, the
 * closest first, and each terminal once.
 */
final class Lines {

    /** How what a line wants begins. */
    static final String LINE = "a line for ";

    private static final double LACK = 10;
    private static final double NO_LINE = 5;
    /** More than any splice or tap at the vehicle's own line takes. */
    private static final double NOT_THE_VEHICLES = 20;

    private static final FunctionId AUDIO = new FunctionId("audio");
    private static final FunctionId VIDEO = new FunctionId("video");

    private final Bench bench;
    private final Set<String> bans;

    private final List<Way> controls;

    /** @param controls that are chosen already: a return goes where its line goes */
    Lines(Bench bench, List<Way> controls, Set<String> bans) {
        this.bench = bench;
        this.controls = controls;
        this.bans = bans;
    }

    record Found(Map<Want, List<Way>> ways, Map<Want, Way> chosen) {}

    /** @param apart how far the names are from those of the line that it belongs to; decides between equals only */
    private record Match(Node one, Node other, List<Term> terms, Join.Run run, double apart) {
        double points() {
            return terms.stream().mapToDouble(Term::points).sum();
        }
    }

    Found find() {
        List<Node> lines = bench.nodes().stream()
                .filter(node -> bench.isTouchable(node) && isLine(node))
                .toList();
        Map<Node, Integer> places = new HashMap<>();
        lines.forEach(node -> places.put(node, places.size()));
        List<Match> matches = new ArrayList<>();
        for (Node one : lines) {
            for (Node other : lines) {
                // the part's terminal is the one that wants
                if (one != other
                        && !one.isVehicle()
                        && (other.isVehicle() || places.getOrDefault(one, 0) < places.getOrDefault(other, 0))
                        && !one.owner().equals(other.owner())
                        && !bench.network().isMated(one)) {
                    Match match = match(one, other);
                    if (match != null) {
                        matches.add(match);
                    }
                }
            }
        }
        matches.sort(Comparator.comparingDouble(Match::points)
                .thenComparingDouble(Match::apart)
                .thenComparing(Match::one, bench.order)
                .thenComparing(Match::other, bench.order));
        Map<Want, List<Way>> ways = new LinkedHashMap<>();
        Map<Want, Way> chosen = new LinkedHashMap<>();
        Map<Node, Want> wants = new HashMap<>();
        Set<Node> taken = new HashSet<>();
        Groups groups = new Groups();
        for (Match match : matches) {
            Want want =
                    wants.computeIfAbsent(match.one(), node -> new Want(List.of(node), LINE + node.function(), LACK));
            Node from = bench.access(match.other());
            Way way = new Way(
                    want,
                    List.of(match.other()),
                    List.of(),
                    match.terms(),
                    List.of(Join.of(from, match.one(), match.run())),
                    Map.of());
            ways.computeIfAbsent(want, key -> new ArrayList<>()).add(way);
            boolean free =
                    !taken.contains(match.one()) && (isShareable(match.other()) || !taken.contains(match.other()));
            if (free
                    && !bans.contains(way.key())
                    && groups.join(match.one().net(), match.other().net())) {
                chosen.put(want, way);
                taken.add(match.one());
                taken.add(match.other());
            }
        }
        // a line that serves another wants nothing more itself
        ways.keySet()
                .removeIf(want ->
                        !chosen.containsKey(want) && taken.contains(want.nodes().get(0)));
        return new Found(ways, chosen);
    }

    private boolean isLine(Node node) {
        Electrical facts = node.facts();
        if (facts instanceof Electrical.Data data) {
            return !node.isVehicle() || bench.isOff(node) || isShared(data.bus());
        }
        if (facts instanceof Electrical.Antenna) {
            // what the factory unit still uses is an antenna of its own
            return !node.isVehicle() || bench.isOff(node);
        }
        FunctionId function = node.function();
        // sound and pictures go in pairs, and power and ground by what they carry
        return facts instanceof Electrical.Passive
                && node.role() != Node.Role.INSIDE
                && function != null
                && (function.value().startsWith("control.") || function.value().startsWith("data."))
                && !function.isAtOrBelow(AUDIO)
                && !function.isAtOrBelow(VIDEO)
                && bench.isBlank(node)
                && bench.network().coils().stream().noneMatch(coil -> coil.one() == node || coil.other() == node)
                && (!node.isVehicle() || bench.isOff(node) || isBesideATap(node))
                && bench.network().netOf(node).stream()
                        .noneMatch(
                                other -> !other.owner().equals(node.owner()) && !node.isVehicle() && other.isVehicle());
    }

    /** The return of a line that is tapped at a connector which stays on: a ladder is read between the two. */
    private boolean isBesideATap(Node node) {
        return node.function() != null
                && node.function().value().endsWith("-return")
                && controls.stream()
                        .map(way -> way.sources().get(0))
                        .anyMatch(source -> source.isVehicle()
                                && source.role() == node.role()
                                && Names.connectorOf(source.name()).equals(Names.connectorOf(node.name())));
    }

    /** A bus of the vehicle has room for more than one part; USB goes from one to one, and so does light. */
    private static boolean isShareable(Node node) {
        return node.isVehicle() && node.facts() instanceof Electrical.Data data && isShared(data.bus());
    }

    private static boolean isShared(@Nullable Bus bus) {
        return bus != Bus.USB && bus != Bus.OPTICAL;
    }

    /** Whether the vehicle has the bus line that two parts have too: each belongs on it. */
    private boolean isOfTheVehicle(Node line, Electrical.Data data) {
        return isShared(data.bus())
                && bench.nodes().stream()
                        .anyMatch(node -> node.isVehicle()
                                && bench.isTouchable(node)
                                && isLine(node)
                                && Objects.equals(node.function(), line.function())
                                && node.facts() instanceof Electrical.Data bus
                                && Objects.equals(data.bus(), bus.bus())
                                && agree(data.line(), bus.line()));
    }

    private @Nullable Match match(Node one, Node other) {
        Electrical ours = one.facts();
        Electrical theirs = other.facts();
        FunctionId function = one.function();
        FunctionId otherFunction = other.function();
        List<Term> terms = new ArrayList<>();
        if (function != null && function.equals(otherFunction)) {
            terms.add(new Term(0, "both are " + function));
        } else if (theirs instanceof Electrical.Data && other.isVehicle() && !bench.isOff(other)) {
            // nobody taps a bus that is in use for something else
            return null;
        } else if (function != null
                && otherFunction != null
                && Functions.vocabulary().mayFeed(otherFunction, function)) {
            terms.add(Term.inPlaceOf(6, otherFunction, function));
        } else {
            return null;
        }
        Term reach = bench.reach(other);
        if (reach.points() > 0) {
            terms.add(reach);
        }
        if (ours instanceof Electrical.Data data && theirs instanceof Electrical.Data line) {
            if (!Objects.equals(data.bus(), line.bus()) || !agree(data.line(), line.line())) {
                return null;
            }
            if (!other.isVehicle() && isOfTheVehicle(one, data)) {
                terms.add(new Term(NOT_THE_VEHICLES, "the vehicle has that line too"));
            }
            return new Match(one, other, terms, Join.Run.DATA, 0);
        }
        if (ours instanceof Electrical.Antenna && theirs instanceof Electrical.Antenna) {
            if (isPassedOn(one) || isPassedOn(other)) {
                if (!leadsToAnAntenna(one) || !leadsToAnAntenna(other)) {
                    return null;
                }
                return new Match(one, other, terms, Join.Run.ANTENNA, 0);
            }
            terms.add(new Term(5, "no adapter is between"));
            return new Match(one, other, terms, Join.Run.ANTENNA, 0);
        }
        if (!(ours instanceof Electrical.Passive && theirs instanceof Electrical.Passive)) {
            return null;
        }
        double apart = controls.stream()
                .mapToDouble(way -> apart(way, one, other))
                .min()
                .orElse(NO_LINE);
        boolean along = apart < NO_LINE;
        if (along) {
            terms.add(new Term(0, "its line goes the same way"));
        } else if (function.value().endsWith("-return")) {
            terms.add(new Term(NO_LINE, "its line goes elsewhere"));
        }
        return new Match(one, other, terms, Join.Run.SIGNAL, apart);
    }

    /** Whether a line goes from the owner of one to the owner of the other, and how near its ends are to them. */
    private static double apart(Way way, Node one, Node other) {
        Node sink = way.want().nodes().get(0);
        Node source = way.sources().get(0);
        if (sink.owner().equals(one.owner()) && source.owner().equals(other.owner())) {
            return Ports.distance(sink, one) / 1000.0 + Ports.distance(source, other) / 1000.0;
        }
        if (sink.owner().equals(other.owner()) && source.owner().equals(one.owner())) {
            return Ports.distance(sink, other) / 1000.0 + Ports.distance(source, one) / 1000.0;
        }
        return NO_LINE;
    }

    /** An adapter of which the other end hangs in the air is no antenna. */
    private boolean leadsToAnAntenna(Node node) {
        return node.isVehicle()
                || !isPassedOn(node)
                || bench.nodes().stream()
                        .anyMatch(other -> other.isVehicle()
                                && bench.isTouchable(other)
                                && other.facts() instanceof Electrical.Antenna
                                && (bench.isOff(other) || bench.areJoined(node, other)));
    }

    private boolean isPassedOn(Node node) {
        return !node.isVehicle()
                && bench.network().netOf(node).stream()
                        .anyMatch(other -> other != node && other.owner().equals(node.owner()));
    }

    private static boolean agree(@Nullable String one, @Nullable String other) {
        return one == null || other == null || one.equals(other);
    }
}
