package dev.splicebook.hookup.mend;

import dev.splicebook.hookup.Hookup;
import dev.splicebook.hookup.net.Coil;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Scenario;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/** What no state shows, because the relay that would bring it about never moves. */
public final class Latent {

    private Latent() {}

    /** Whether a change brings a contact that would join a supply and ground if it closed. */
    public static boolean isShortAdded(Hookup before, Hookup after) {
        Set<List<String>> shorts = shorts(after);
        return !shorts.isEmpty() && !shorts(before).containsAll(shorts);
    }

    /** Whether a change joins the two ends of a coil, so that its relay never moves again. */
    public static boolean isCoilShorted(Hookup before, Hookup after) {
        Set<List<String>> shorted = shortedCoils(after);
        return !shorted.isEmpty() && !shortedCoils(before).containsAll(shorted);
    }

    private static Set<List<String>> shortedCoils(Hookup hookup) {
        if (isWithoutRelays(hookup)) {
            return Set.of();
        }
        Network network = new Network(hookup);
        Set<List<String>> shorted = new LinkedHashSet<>();
        for (Coil coil : network.coils()) {
            if (network.netOf(coil.one()) == network.netOf(coil.other())) {
                shorted.add(List.of(coil.one().ref(), coil.other().ref()));
            }
        }
        return shorted;
    }

    private static boolean isWithoutRelays(Hookup hookup) {
        return hookup.devices().values().stream()
                .allMatch(device -> device.relays().isEmpty());
    }

    private static Set<List<String>> shorts(Hookup hookup) {
        if (isWithoutRelays(hookup)) {
            return Set.of();
        }
        Network network = new Network(hookup);
        Set<List<String>> shorts = new LinkedHashSet<>();
        for (Link link : network.links()) {
            if (link.kind().isContact()
                    && (isShort(network, link.from(), link.to()) || isShort(network, link.to(), link.from()))) {
                shorts.add(List.of(link.from().ref(), link.to().ref()));
            }
        }
        return shorts;
    }

    private static boolean isShort(Network network, Node one, Node other) {
        return network.netOf(one).stream().anyMatch(Scenario::givesTwelveVolts)
                && network.netOf(other).stream().anyMatch(Scenario::isReference);
    }
}
