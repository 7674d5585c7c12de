package dev.splicebook.hookup.rule;

import dev.splicebook.hookup.net.Coil;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Scenario;
import dev.splicebook.hookup.net.Scenario.Sure;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;

/**
 * What keeps a source from a terminal: a diode against it, or a contact that no state closes.
 *
 * @param words like {@code the relay K between it and CAR.A-1 never pulls in: its coil gets no 12 V}
 * @param terminals of the diode, or of the coil
 */
record Barrier(String words, Set<Node> terminals) {

    /** The first one that is met from a terminal towards a source that would do; null if there is none. */
    static @Nullable Barrier find(Node node, Predicate<Node> source, Network network) {
        for (Node at : network.netOf(node)) {
            for (Link link : network.linksOf(at)) {
                Node across = link.across(at);
                Node beyond = link.kind().isSolid()
                        ? null
                        : network.netOf(across).stream()
                                .filter(source)
                                .min(Say.BY_FACTS)
                                .orElse(null);
                Barrier barrier = beyond == null ? null : between(link, at, beyond, network);
                if (barrier != null) {
                    return barrier;
                }
            }
        }
        return null;
    }

    private static @Nullable Barrier between(Link link, Node at, Node beyond, Network network) {
        if (link.kind() == Link.Kind.DIODE && link.from() == at) {
            return new Barrier(
                    "the diode " + at.owner() + " between it and " + Say.name(beyond) + " conducts only the other way",
                    Set.of(link.from(), link.to()));
        }
        if (!link.kind().isContact() || network.scenarios().stream().anyMatch(scenario -> scenario.isClosed(link))) {
            return null;
        }
        List<Coil> coils = network.coils().stream()
                .filter(coil -> coil.relay() == link.relay())
                .toList();
        Set<Node> ends = new LinkedHashSet<>();
        coils.forEach(coil -> ends.addAll(List.of(coil.one(), coil.other())));
        boolean pulls = link.kind() == Link.Kind.CLOSED_CONTACT;
        return new Barrier(
                "the relay " + at.owner() + " between it and " + Say.name(beyond)
                        + (pulls ? " is pulled in in every state" : " never pulls in")
                        + (pulls ? "" : why(coils, network)),
                ends);
    }

    private static String why(List<Coil> coils, Network network) {
        boolean fed = false;
        boolean grounded = false;
        for (Coil coil : coils) {
            for (Scenario scenario : network.scenarios()) {
                fed |= scenario.hasFeed(coil.one()) != Sure.NO || scenario.hasFeed(coil.other()) != Sure.NO;
                grounded |= scenario.hasGround(coil.one()) != Sure.NO || scenario.hasGround(coil.other()) != Sure.NO;
            }
        }
        return !fed
                ? ": its coil gets no 12 V"
                : !grounded ? ": its coil has no return to ground" : ": its coil never gets 12 V and ground at once";
    }
}
