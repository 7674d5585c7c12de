package dev.splicebook.hookup;

import dev.splicebook.hookup.Report.Assumption;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.power.Extent;
import dev.splicebook.hookup.power.Level;
import dev.splicebook.hookup.power.Power;
import java.util.Set;
import java.util.TreeSet;

/** The defaults that the reading of a hookup itself uses, whatever the rules add. */
final class Assumptions {

    private Assumptions() {}

    /** The volts, temperatures and resistances that the power was solved with. */
    static void addPower(Network network, Power power, Set<Assumption> assumptions) {
        if (!power.isUsed()) {
            return;
        }
        FunctionMap map = network.hookup().map();
        assumptions.add(new Assumption(
                "restingVolts",
                Level.RESTING.batteryVolts(Extent.TYPICAL, map.runningVolts()),
                "V",
                "volts of the battery at rest"));
        if (map.runningVolts() == null) {
            assumptions.add(new Assumption(
                    "runningVolts", Level.RUNNING_VOLTS, "V", "volts of the battery while the engine runs"));
        }
        assumptions.add(new Assumption(
                "startingVolts",
                Level.STARTING.batteryVolts(Extent.TYPICAL, map.runningVolts()),
                "V",
                "volts of the battery while the starter turns, of the starting profile of ISO 16750-2, level I"));
        assumptions.add(new Assumption(
                "dipVolts",
                Level.STARTING.batteryVolts(Extent.WORST, map.runningVolts()),
                "V",
                "volts of the battery as the starter engages, of the same profile"));
        if (map.automaticRestart() == null) {
            assumptions.add(new Assumption(
                    "automaticRestart",
                    null,
                    null,
                    "a vehicle that does not say whether its engine restarts by itself is taken to do so"));
        }
        if (network.links().stream().anyMatch(Link::hasFuse)) {
            assumptions.add(
                    new Assumption(
                            "fuseOhms",
                            null,
                            null,
                            "a fuse has the cold resistance of a blade fuse of its rating: 7.70 mΩ at 10 A, 3.38 mΩ at 20 A, others by the curve through both"));
        }
        assumptions.add(new Assumption(
                "contactOhms",
                0.0,
                "Ω",
                "plugs, splices and closed contacts take no volts, nor does the vehicle's body"));
    }

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
        boolean ungained = network.hookup().devices().keySet().stream()
                .flatMap(part -> network.hookup().couplesOf(part).stream())
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
