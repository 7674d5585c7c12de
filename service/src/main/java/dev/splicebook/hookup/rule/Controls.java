package dev.splicebook.hookup.rule;

import dev.splicebook.function.FunctionId;
import dev.splicebook.hookup.Active;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.net.Coil;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Reach;
import dev.splicebook.hookup.net.Scenario;
import dev.splicebook.hookup.net.Scenario.Sure;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** What drives a control input. */
final class Controls {

    static final FunctionId PARKING_BRAKE = new FunctionId("control.parking-brake");

    private Controls() {}

    /** The control inputs that something is connected to. */
    static List<Node> connectedInputs(Examination examination) {
        List<Node> inputs = new ArrayList<>();
        for (Node node : examination.network().nodes()) {
            if (node.facts() instanceof Electrical.ControlIn
                    && examination.network().isConnected(node)
                    && !examination.network().isUnused(node)) {
                inputs.add(node);
            }
        }
        return inputs;
    }

    /** How an input listens, null if unknown. */
    static @Nullable Active wants(Node input) {
        return input.facts() instanceof Electrical.ControlIn in ? in.active() : null;
    }

    /** How a source speaks: a supply with 12 V, a ground of the vehicle with ground; null if unknown. */
    static @Nullable Active speaks(Node source) {
        if (source.facts() instanceof Electrical.ControlOut out) {
            return out.active();
        }
        return source.facts() instanceof Electrical.Supply ? Active.TWELVE_VOLTS : Active.GROUND;
    }

    /** What a source that speaks that way gives, in prose. */
    static String gives(@Nullable Active active) {
        if (active == null) {
            return "something unknown";
        }
        return switch (active) {
            case TWELVE_VOLTS, GROUND -> active.toString();
            case PULSE -> "pulses";
            case PWM -> "PWM";
            case RESISTANCE -> "a resistance";
        };
    }

    /** Whether an input that listens one way is driven wrongly by what speaks another way. */
    static boolean clash(Active wants, Active speaks) {
        return switch (wants) {
            case TWELVE_VOLTS, GROUND -> speaks != wants && speaks != Active.RESISTANCE;
            case PULSE, PWM, RESISTANCE -> false;
        };
    }

    /** Says which facts leave open whether a source is live: its own, or those of what feeds its part. */
    static void lackLive(Node source, Examination examination) {
        lackLive(source, examination, new HashSet<>());
    }

    private static void lackLive(Node source, Examination examination, Set<Node> asked) {
        boolean doubtful = examination.network().scenarios().stream()
                .anyMatch(scenario -> scenario.isLive(source) == Sure.UNKNOWN);
        if (!doubtful || !asked.add(source)) {
            return;
        }
        boolean open = true;
        if (!source.isVehicle()) {
            for (Node node : examination.network().nodesOf(source.owner())) {
                boolean load = node.facts() instanceof Electrical.Load
                        && !examination.network().isUnused(node);
                if (load || node.facts() instanceof Electrical.Ground) {
                    open &= !lackOn(node, load, examination, asked);
                }
            }
        }
        if (open) {
            examination.missing(source, "live");
        }
    }

    private static boolean lackOn(Node node, boolean load, Examination examination, Set<Node> asked) {
        boolean found = false;
        for (Scenario scenario : examination.network().scenarios()) {
            for (Reach reach : scenario.reaches(node)) {
                boolean feeds = load
                        ? reach.source().givesTwelveVolts()
                        : reach.source().pullsToGround();
                if (speaks(reach.source()) == null) {
                    examination.missing(reach.source(), "active");
                    found = true;
                } else if (feeds && scenario.isLive(reach.source()) == Sure.UNKNOWN) {
                    lackLive(reach.source(), examination, asked);
                    found = true;
                }
            }
            for (Node member : scenario.members(scenario.netOf(node))) {
                if (examination.network().isUnknown(member)) {
                    examination.missing(member, "electrical");
                    found = true;
                }
            }
        }
        return found;
    }

    /**
     * Says which facts leave open whether relays pull that stand between an input and whatever may drive it.
     *
     * @return whether there are any
     */
    static boolean lackRelayFacts(Node input, Examination examination) {
        boolean lacking = false;
        for (Coil coil : relaysBefore(input, examination)) {
            for (Scenario scenario : examination.network().scenarios()) {
                boolean open = !scenario.isEnergised(coil)
                        && (mayPull(coil.one(), coil.other(), scenario, examination)
                                || mayPull(coil.other(), coil.one(), scenario, examination));
                if (open) {
                    lackOn(coil.one(), true, examination, new HashSet<>());
                    lackOn(coil.one(), false, examination, new HashSet<>());
                    lackOn(coil.other(), true, examination, new HashSet<>());
                    lackOn(coil.other(), false, examination, new HashSet<>());
                    lacking = true;
                }
            }
        }
        return lacking;
    }

    private static boolean mayPull(Node feed, Node ground, Scenario scenario, Examination examination) {
        return (scenario.hasFeed(feed) != Sure.NO || isUnknown(feed, scenario, examination))
                && (scenario.hasGround(ground) != Sure.NO || isUnknown(ground, scenario, examination));
    }

    private static boolean isUnknown(Node node, Scenario scenario, Examination examination) {
        return scenario.members(scenario.netOf(node)).stream().anyMatch(examination.network()::isUnknown)
                || scenario.reaches(node).stream().anyMatch(reach -> speaks(reach.source()) == null);
    }

    /** The relays whose contacts stand between an input and the first sources on its ways, however they stand. */
    static Set<Coil> relaysBefore(Node input, Examination examination) {
        Set<Integer> relays = new HashSet<>();
        Set<Node> seen = new HashSet<>(List.of(input));
        ArrayDeque<Node> queue = new ArrayDeque<>(seen);
        while (!queue.isEmpty()) {
            Node at = queue.remove();
            for (Link link : examination.network().linksOf(at)) {
                Node next = link.across(at);
                if (link.kind().isContact()) {
                    relays.add(link.relay());
                }
                if (seen.add(next) && !isFeedingNet(next, examination)) {
                    queue.add(next);
                }
            }
        }
        return examination.network().coils().stream()
                .filter(coil -> relays.contains(coil.relay()))
                .collect(Collectors.toCollection(LinkedHashSet::new));
    }

    private static boolean isFeedingNet(Node node, Examination examination) {
        return examination.network().netOf(node).stream()
                .anyMatch(member -> member.facts() instanceof Electrical.Supply || member.isReference());
    }

    /** Supplies, outputs and grounds that reach an input in any scenario, live or not; its own part's outputs too. */
    static Set<Node> drivers(Node input, Examination examination) {
        Set<Node> drivers = new LinkedHashSet<>();
        for (Scenario scenario : examination.reading().partitions()) {
            for (Reach reach : scenario.reaches(input)) {
                drivers.add(reach.source());
            }
        }
        return drivers;
    }

    /** Whether an input hears what it listens for: a source that speaks that way is live. */
    static Sure hears(Node input, Active wants, Scenario scenario) {
        Sure heard = Sure.NO;
        for (Reach reach : scenario.reaches(input)) {
            Active speaks = speaks(reach.source());
            if (speaks == wants || speaks == null) {
                Sure live = speaks == null ? Sure.UNKNOWN : scenario.isLive(reach.source());
                heard = live.compareTo(heard) > 0 ? live : heard;
            }
        }
        return heard;
    }

    /** Circuits of the vehicle on the input's net of which nothing electrical is known. */
    static List<Node> unknownOn(Node input, Examination examination) {
        List<Node> unknown = new ArrayList<>();
        for (Scenario scenario : examination.reading().partitions()) {
            for (Node member : scenario.members(scenario.netOf(input))) {
                if (member != input && member.facts() == null && !unknown.contains(member)) {
                    unknown.add(member);
                }
            }
        }
        return unknown;
    }

    static boolean isParkingBrakeInput(Node input) {
        return !input.isVehicle() && input.isFor(PARKING_BRAKE);
    }

    /**
     * The inputs that share a cause: those on one net that listen alike. An input that only repeats what is told of
     * another, as what drives it follows that one, is left out.
     *
     * @param told inputs with what drives them
     */
    static Collection<List<Node>> byCause(Map<Node, ? extends Collection<Node>> told, Examination examination) {
        Map<List<Object>, List<Node>> groups = new LinkedHashMap<>();
        for (Node input : told.keySet()) {
            if (!repeats(input, told, examination)) {
                groups.computeIfAbsent(
                                Arrays.asList(examination.network().netOf(input), wants(input)),
                                key -> new ArrayList<>(1))
                        .add(input);
            }
        }
        return groups.values();
    }

    private static boolean repeats(Node input, Map<Node, ? extends Collection<Node>> told, Examination examination) {
        Set<Node> seen = new LinkedHashSet<>(List.of(input));
        ArrayDeque<Node> queue = new ArrayDeque<>(seen);
        while (!queue.isEmpty()) {
            Node at = queue.remove();
            List<Node> followed = followed(told.get(at), told, examination);
            if (followed.isEmpty()) {
                return at != input;
            }
            followed.stream().filter(seen::add).forEach(queue::add);
        }
        // inputs that follow each other in a ring have no cause but themselves
        return false;
    }

    /** The inputs that all of some drivers follow, if those are told; else none. */
    private static List<Node> followed(@Nullable Collection<Node> drivers, Map<Node, ?> told, Examination examination) {
        List<Node> followed = new ArrayList<>();
        for (Node driver : drivers == null ? List.<Node>of() : drivers) {
            Node input = driver.facts() instanceof Electrical.ControlOut out && out.follows() != null
                    ? examination.network().findNode(driver.owner() + "." + out.follows())
                    : null;
            if (input == null || !told.containsKey(input)) {
                return List.of();
            }
            followed.add(input);
        }
        return followed;
    }
}
