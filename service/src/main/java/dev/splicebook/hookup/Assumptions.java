package dev.splicebook.hookup;

import dev.splicebook.hookup.Report.Assumption;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import java.util.Set;
import java.util.TreeSet;

/** The defaults that the reading of a hookup itself uses, whatever the rules add. */
final class Assumptions {

    private Assumptions() {}

    static void addGeneral(Network network, Set<Assumption> assumptions) {
        boolean follows = false;
        boolean unstated = false;
        for (Node source : network.sources()) {
            boolean part = !source.isVehicle();
            if (source.facts() instanceof Electrical.ControlOut out) {
                follows |= out.follows() != null;
                unstated |= part && out.live() == null && out.follows() == null;
            } else if (source.facts() instanceof Electrical.Supply supply) {
                unstated |= part && supply.live() == null;
            }
        }
        if (follows) {
            assumptions.add(
                    new Assumption(
                            "playing",
                            null,
                            null,
                            "a factory unit plays in every state but asleep and cranking, so that a turn-on that follows its signal is live then"));
        }
        if (unstated) {
            assumptions.add(new Assumption(
                    "live", null, null, "an output of a part that states no states is live whenever its part is fed"));
        }
        boolean ungained = network.hookup().devices().values().stream()
                .flatMap(device -> device.couples().stream())
                .anyMatch(couple -> couple.gain() == null);
        if (ungained) {
            assumptions.add(new Assumption(
                    "gain", 1.0, null, "a coupling that states no gain gives as many volts as it is given"));
        }
        Set<String> implied = new TreeSet<>(network.hookup().unplugged());
        HookupDocument.VehicleUse vehicle = network.hookup().document().vehicle();
        if (vehicle != null) {
            implied.removeAll(vehicle.unplugged());
        }
        if (!implied.isEmpty()) {
            assumptions.add(new Assumption(
                    "unplugged",
                    null,
                    null,
                    "a connector of the vehicle that is mated with a part is off the factory unit, though it is not listed"
                            + " as unplugged: " + String.join(", ", implied)));
        }
    }
}
