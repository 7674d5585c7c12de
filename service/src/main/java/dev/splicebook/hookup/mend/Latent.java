package dev.splicebook.hookup.mend;

import dev.splicebook.hookup.Hookup;
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

    private static Set<List<String>> shorts(Hookup hookup) {
        if (hookup.devices().values().stream()
                .allMatch(device -> device.relays().isEmpty())) {
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
