package dev.splicebook.hookup.rule;

import dev.splicebook.hookup.net.Coil;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Scenario;
import dev.splicebook.hookup.net.Scenario.Sure;
import java.util.Collection;
import java.util.Objects;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * The contact by which a terminal stays live; empty texts where there is none.
 *
 * @param text like {@code , through K1, which is pulled in then}
 * @param help what ends it, up to an {@code , or } that something else follows
 */
record KeptOn(String text, String help) {

    /** @param sources that are live then */
    static KeptOn find(Node node, Collection<Node> sources, Scenario scenario, Network network) {
        Ways.Way way = Ways.least(node, sources::contains, network, scenario);
        if (way == null || way.contacts().isEmpty()) {
            return new KeptOn("", "");
        }
        Link link = way.contacts().get(0);
        String relay = link.from().owner();
        String other = holder(link, scenario, network);
        return link.kind() == Link.Kind.CLOSED_CONTACT
                ? new KeptOn(
                        ", through the contact of " + relay + " that is closed while the relay rests",
                        Barrier.release(link, network) + ", or ")
                : new KeptOn(
                        ", through " + relay
                                + (holdsItself(link, scenario, network)
                                        ? ", which holds itself by its own contact once it has pulled in"
                                        : other != null
                                                ? ", which " + other + " and it hold pulled between them"
                                                : ", which is pulled in then"),
                        "see that the coil of " + relay + " goes dead when the vehicle sleeps, or ");
    }

    /** Whether the coil behind a contact is fed by way of a contact of its relay. */
    private static boolean holdsItself(Link contact, Scenario scenario, Network network) {
        return coils(contact.relay(), network).anyMatch(coil -> holdsItself(coil, scenario, network));
    }

    /** Whether a coil is fed by way of a contact of its relay. */
    static boolean holdsItself(Coil pulled, Scenario scenario, Network network) {
        return holders(pulled, scenario, network).anyMatch(link -> link.relay() == pulled.relay());
    }

    /** The part of another relay by whose contact the one behind a contact is fed, and that by it; null if there is none. */
    private static @Nullable String holder(Link contact, Scenario scenario, Network network) {
        return coils(contact.relay(), network)
                .flatMap(coil -> holders(coil, scenario, network))
                .filter(link -> coils(link.relay(), network)
                        .flatMap(coil -> holders(coil, scenario, network))
                        .anyMatch(back -> back.relay() == contact.relay()))
                .map(link -> link.from().owner())
                .findFirst()
                .orElse(null);
    }

    private static Stream<Coil> coils(int relay, Network network) {
        return network.coils().stream().filter(coil -> coil.relay() == relay);
    }

    /** The contacts by which a coil is fed. */
    private static Stream<Link> holders(Coil pulled, Scenario scenario, Network network) {
        return Stream.of(pulled.one(), pulled.other())
                .map(end -> Ways.least(
                        end,
                        source -> source.givesTwelveVolts() && scenario.isLive(source) == Sure.YES,
                        network,
                        scenario))
                .filter(Objects::nonNull)
                .flatMap(way -> way.contacts().stream());
    }
}
