package dev.splicebook.hookup.rule;

import dev.splicebook.hookup.State;
import dev.splicebook.hookup.net.Coil;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Reach;
import dev.splicebook.hookup.net.Scenario;
import dev.splicebook.hookup.net.Scenario.Sure;
import java.util.ArrayDeque;
import java.util.BitSet;
import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * What keeps a source from a terminal: a diode against it, or a contact that no state closes.
 *
 * @param words like {@code the relay K between it and CAR.A-1 never pulls in: its coil gets no 12 V}
 * @param help what lets the source through, like {@code feed the coil of K}
 * @param terminals of the diode, or of the coil
 */
record Barrier(String words, String help, Set<Node> terminals) {

    /** Relays that are told in a row, each as the cause of the one before. */
    private static final int MOST_RELAYS = 3;

    /** The first one that is met from a terminal towards a source that would do; null if there is none. */
    static @Nullable Barrier find(Node node, Predicate<Node> source, Network network) {
        Found found = find(node, source, new BitSet(), network);
        return found == null
                ? null
                : new Barrier(
                        found.thing() + " between it and " + Say.name(found.beyond()) + " " + found.state(),
                        found.help(),
                        found.terminals());
    }

    /**
     * The contact that stands open before a terminal and keeps live sources from it in the first of some states in which any
     * does, like {@code K is released then, and its contact between them stands open}; null if there is none.
     */
    static @Nullable String findOpen(Node node, Collection<Node> sources, Set<State> states, Network network) {
        for (State state : states) {
            Scenario scenario = network.scenario(state);
            String open = findOpen(node, sources, scenario, network);
            if (open != null) {
                return open;
            }
        }
        return null;
    }

    private static @Nullable String findOpen(Node node, Collection<Node> sources, Scenario scenario, Network network) {
        for (Link link : openAt(scenario.netOf(node), scenario, network)) {
            if (reachesLive(link, scenario.netOf(node), sources, scenario, network)) {
                String relay = link.from().owner();
                return relay
                        + (link.kind() == Link.Kind.OPEN_CONTACT ? " is released" : " is pulled in")
                        + " then, and its contact between them stands open";
            }
        }
        return null;
    }

    /** Contacts at a net that stand open, by name. */
    private static List<Link> openAt(int net, Scenario scenario, Network network) {
        return scenario.members(net).stream()
                .flatMap(at -> network.linksOf(at).stream())
                .filter(link -> link.kind().isContact() && !scenario.isClosed(link))
                .sorted(Comparator.comparing((Link link) -> link.from().ref())
                        .thenComparing(link -> link.to().ref()))
                .toList();
    }

    /** Whether beyond an open contact, and beyond further ones, something live stands. */
    private static boolean reachesLive(
            Link first, int from, Collection<Node> sources, Scenario scenario, Network network) {
        Set<Integer> seen = new LinkedHashSet<>(Set.of(from));
        ArrayDeque<Integer> queue = new ArrayDeque<>();
        queue.add(scenario.netOf(first.from()) == from ? scenario.netOf(first.to()) : scenario.netOf(first.from()));
        while (!queue.isEmpty()) {
            int net = queue.remove();
            if (!seen.add(net)) {
                continue;
            }
            if (scenario.reaches(net).stream()
                    .map(Reach::source)
                    .anyMatch(source -> sources.contains(source) && scenario.isLive(source) == Sure.YES)) {
                return true;
            }
            for (Link link : openAt(net, scenario, network)) {
                queue.add(scenario.netOf(link.from()));
                queue.add(scenario.netOf(link.to()));
            }
        }
        return false;
    }

    /**
     * A diode or a contact.
     *
     * @param thing like {@code the relay K}
     * @param state like {@code never pulls in}, with its cause
     */
    private record Found(String thing, String state, String help, Set<Node> terminals, Node beyond) {}

    /** @param told relays whose contacts are the way already */
    private static @Nullable Found find(Node node, Predicate<Node> source, BitSet told, Network network) {
        for (Node at : network.netOf(node)) {
            for (Link link : network.linksOf(at)) {
                Node across = link.across(at);
                Node beyond = link.kind().isSolid()
                        ? null
                        : network.netOf(across).stream()
                                .filter(source)
                                .min(Say.BY_FACTS)
                                .orElse(null);
                Found found = beyond == null ? null : between(link, at, beyond, told, network);
                if (found != null) {
                    return found;
                }
            }
        }
        return null;
    }

    private static @Nullable Found between(Link link, Node at, Node beyond, BitSet told, Network network) {
        String part = at.owner();
        if (link.kind() == Link.Kind.DIODE && link.from() == at) {
            return new Found(
                    "the diode " + part,
                    "conducts only the other way",
                    "turn the diode between " + link.from() + " and " + link.to() + " round",
                    Set.of(link.from(), link.to()),
                    beyond);
        }
        if (!link.kind().isContact()
                || told.get(link.relay())
                || network.scenarios().stream().anyMatch(scenario -> scenario.isClosed(link))) {
            return null;
        }
        List<Coil> coils = network.coils().stream()
                .filter(coil -> coil.relay() == link.relay())
                .toList();
        Set<Node> ends = new LinkedHashSet<>();
        coils.forEach(coil -> ends.addAll(List.of(coil.one(), coil.other())));
        if (link.kind() == Link.Kind.CLOSED_CONTACT) {
            return new Found("the relay " + part, "is pulled in in every state", release(link, network), ends, beyond);
        }
        BitSet all = (BitSet) told.clone();
        all.set(link.relay());
        Cause cause = cause(part, ends, all, network);
        return new Found("the relay " + part, "never pulls in: " + cause.words(), cause.help(), ends, beyond);
    }

    /** Why a relay never pulls in, and what makes it. */
    private record Cause(String words, String help) {}

    private static Cause cause(String part, Set<Node> ends, BitSet told, Network network) {
        boolean fed = false;
        boolean grounded = false;
        Set<Node> dead = new LinkedHashSet<>();
        for (Node end : ends) {
            for (Scenario scenario : network.scenarios()) {
                fed |= scenario.hasFeed(end) != Sure.NO;
                grounded |= scenario.hasGround(end) != Sure.NO;
                scenario.reaches(end).stream()
                        .map(Reach::source)
                        .filter(Node::givesTwelveVolts)
                        .forEach(dead::add);
            }
        }
        if (fed) {
            return grounded
                    ? new Cause(
                            "its coil never gets 12 V and ground at once",
                            "see that the coil of " + part + " gets 12 V and ground at once when it is wanted")
                    : new Cause("its coil has no return to ground", "give the coil of " + part + " a return to ground");
        }
        if (!dead.isEmpty()) {
            return new Cause(
                    Say.names(dead) + (dead.size() == 1 ? ", which feeds its coil, is" : ", which feed its coil, are")
                            + " never live" + whyDead(dead, network),
                    feed(part, dead, network));
        }
        for (Node end : ends) {
            Found before = told.cardinality() < MOST_RELAYS ? find(end, Node::givesTwelveVolts, told, network) : null;
            if (before != null) {
                return new Cause("its coil hangs on " + before.thing() + ", which " + before.state(), before.help());
            }
        }
        return new Cause("its coil gets no 12 V", "feed the coil of " + part);
    }

    /** What lets a lead get what a relay that always pulls keeps from it. */
    static String release(Link closed, Network network) {
        String part = closed.from().owner();
        return network.links().stream()
                .filter(link -> link.kind() == Link.Kind.OPEN_CONTACT && link.relay() == closed.relay())
                .map(link ->
                        "use " + link.to() + ", which closes when " + part + " pulls in, in place of " + closed.to())
                .findFirst()
                .orElse("let " + part + " release when it is wanted");
    }

    private static String feed(String part, Set<Node> dead, Network network) {
        List<String> unfed = dead.stream()
                .filter(output -> !output.isVehicle() && network.isLeftUnfed(output.owner()))
                .map(Node::owner)
                .distinct()
                .sorted()
                .toList();
        return "feed " + (unfed.isEmpty() ? "the coil of " + part + " from what is live then" : Say.list(unfed));
    }

    /** Like {@code , as every feed of HU is listed as unused}, where that is why outputs are dead. */
    static String whyDead(Collection<Node> outputs, Network network) {
        return outputs.stream()
                .filter(output -> !output.isVehicle() && network.isLeftUnfed(output.owner()))
                .map(output -> ", as every feed of " + output.owner() + " is listed as unused")
                .distinct()
                .collect(Collectors.joining());
    }
}
