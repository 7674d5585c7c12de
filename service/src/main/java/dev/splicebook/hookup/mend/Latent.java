package dev.splicebook.hookup.mend;

import dev.splicebook.hookup.Hookup;
import dev.splicebook.hookup.net.Coil;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import java.util.LinkedHashSet;
import java.util.Set;

/**
 * What no state shows, because the relay that would bring it about never moves.
 *
 * @param faults contacts that would join a supply and ground if they closed, and coils with both ends on one net, as text
 */
public record Latent(Set<String> faults) {

    /** What waits in a hookup. */
    public static Latent of(Hookup hookup) {
        Set<String> faults = new LinkedHashSet<>();
        if (hookup.devices().values().stream()
                .anyMatch(device -> !device.relays().isEmpty())) {
            Network network = new Network(hookup);
            for (Link link : network.links()) {
                if (link.kind().isContact()
                        && (isShort(link.from(), link.to(), network) || isShort(link.to(), link.from(), network))) {
                    faults.add(link.from() + " " + link.to());
                }
            }
            for (Coil coil : network.coils()) {
                if (coil.one().net() == coil.other().net()) {
                    faults.add(coil.one() + " " + coil.other());
                }
            }
        }
        return new Latent(faults);
    }

    private static boolean isShort(Node one, Node other, Network network) {
        return network.netOf(one).stream().anyMatch(Node::givesTwelveVolts)
                && network.netOf(other).stream().anyMatch(Node::isReference);
    }
}
