package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Condition;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.net.Coil;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Reach;
import dev.splicebook.hookup.net.Scenario;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/** A parking-brake input is fed by anything but the parking-brake circuit. */
@AutoService(Rule.class)
@About(
        code = "interlock-defeated",
        severity = Severity.ERROR,
        since = "0.1",
        condition = "A parking-brake input is fed by anything but the parking-brake circuit.",
        checks =
                "Every input for the parking brake: all that drives it, through relays, diodes and adapters as well, must be"
                        + " the vehicle's parking-brake circuit, or be switched by a relay that this circuit alone drives.",
        why =
                "The input keeps moving pictures from a driver under way. Tied to ground, or fed by a trick, it no longer does,"
                        + " and in many places that is against the law.",
        mend = "Connect the input to the parking-brake switch circuit and to nothing else.",
        source = "Common practice, no source; local law applies.",
        fails = """
                {"parts": {"HU": {"inline": {"terminals": {
                   "parking-brake": {"function": "control.parking-brake",
                                     "electrical": {"kind": "control-in", "active": "ground", "amps": 0.005}}}}}},
                 "connections": {"W1": {"ends": ["CAR.chassis", "HU.parking-brake"]}}}
                """,
        passes = """
                {"vehicle": {"inline": {"circuits": {"C6-4": {"function": "control.parking-brake", "electrical":
                   {"kind": "control-out", "active": "ground", "maxAmps": 0.5, "live": ["ignition", "running"], "when": "parking-brake"}}}}},
                 "parts": {"HU": {"inline": {"terminals": {
                   "parking-brake": {"function": "control.parking-brake",
                                     "electrical": {"kind": "control-in", "active": "ground", "amps": 0.005}}}}}},
                 "connections": {"W1": {"ends": ["CAR.C6-4", "HU.parking-brake"]}}}
                """,
        rank = Rank.INTERLOCK)
public final class InterlockDefeated implements Rule {

    @Override
    public void check(Examination examination) {
        for (Node input : examination.network().nodes()) {
            if (!Controls.isParkingBrakeInput(input)
                    || !(input.facts() == null || input.facts() instanceof Electrical.ControlIn)
                    || !examination.network().isConnected(input)) {
                continue;
            }
            examination.applies();
            List<Node> foreign = new ArrayList<>();
            List<Node> unnamed = new ArrayList<>();
            List<Node> feeds = new ArrayList<>(Controls.drivers(input, examination));
            // with its facts unknown a circuit may feed all the same
            feeds.addAll(Controls.unknownOn(input, examination).stream()
                    .filter(Node::isVehicle)
                    .toList());
            for (Node feed : feeds) {
                if (isBrake(feed) || isSwitchedByBrake(feed, input, examination)) {
                    continue;
                }
                boolean mayBeIt = feed.isVehicle()
                        && feed.function() == null
                        && (feed.facts() == null || feed.facts() instanceof Electrical.ControlOut);
                (mayBeIt ? unnamed : foreign).add(feed);
            }
            if (foreign.isEmpty()) {
                unnamed.forEach(feed -> examination.missing(feed, "function"));
                Controls.lackRelayFacts(input, examination);
            }
            if (!foreign.isEmpty()) {
                examination
                        .report(
                                Say.name(input) + " is the parking-brake input and is "
                                        + (foreign.stream().allMatch(Node::isReference) ? "tied to " : "fed by ")
                                        + Say.names(foreign)
                                        + ", which defeats the interlock",
                                "connect " + input.ref()
                                        + " to the vehicle's parking-brake circuit and to nothing else.")
                        .at(input)
                        .besides(foreign)
                        .through(examination.reading().connectionsAt(List.of(input)));
            }
        }
    }

    private static boolean isBrake(Node node) {
        return node.isVehicle() && node.isFor(Controls.PARKING_BRAKE);
    }

    /** Whether a feed arrives only while a relay pulls that nothing but the parking-brake circuit can pull. */
    private static boolean isSwitchedByBrake(Node feed, Node input, Examination examination) {
        List<Coil> driven = Controls.relaysBefore(input, examination).stream()
                .filter(coil -> isDrivenByBrake(coil.one(), examination) || isDrivenByBrake(coil.other(), examination))
                .toList();
        return !driven.isEmpty()
                && examination.network().scenarios().stream()
                        .filter(scenario -> scenario.reaches(input).stream().anyMatch(reach -> reach.source() == feed))
                        .allMatch(scenario -> driven.stream().anyMatch(scenario::isEnergised));
    }

    /** Whether all that can drive an end of a coil as the parking-brake circuit there does is that circuit. */
    private static boolean isDrivenByBrake(Node end, Examination examination) {
        Set<Node> brakes = new LinkedHashSet<>();
        Set<Node> others = new LinkedHashSet<>();
        for (Scenario scenario : examination.reading().partitions()) {
            for (Reach reach : scenario.reaches(end)) {
                (isBrake(reach.source()) ? brakes : others).add(reach.source());
            }
        }
        boolean toGround = brakes.stream().anyMatch(Node::pullsToGround);
        boolean known = brakes.stream()
                .allMatch(brake -> brake.facts() instanceof Electrical.ControlOut out
                        ? out.when().contains(Condition.PARKING_BRAKE)
                        : brake.facts() instanceof Electrical.Supply supply
                                && supply.when().contains(Condition.PARKING_BRAKE));
        return !brakes.isEmpty() && known && others.stream().noneMatch(other -> other.pullsToGround() == toGround);
    }
}
