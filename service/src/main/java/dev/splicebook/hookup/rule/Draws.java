package dev.splicebook.hookup.rule;

import dev.splicebook.hookup.Active;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.State;
import dev.splicebook.hookup.net.Coil;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Scenario;
import dev.splicebook.hookup.power.Case;
import dev.splicebook.hookup.power.Extent;
import dev.splicebook.hookup.power.Level;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;

/** What is drawn from a source: loads, control inputs and relay coils. */
final class Draws {

    private final Network network;
    private final Reading reading;
    private final List<Link> resistors = new ArrayList<>();
    /** Draws by source, for each way in which scenarios differ in what they depend on. */
    private final Map<Standing, Map<Node, List<Draw>>> known = new HashMap<>();

    /** Less than this is rounding. */
    private static final double LEAST_AMPS = 1e-4;

    private final Map<List<Node>, Overload> overloads = new HashMap<>();

    Draws(Reading reading) {
        this.reading = reading;
        network = reading.network();
        for (Link link : network.links()) {
            if (link.kind() == Link.Kind.RESISTOR) {
                resistors.add(link);
            }
        }
    }

    /** What is live and how the contacts stand, and the volts that coils and resistors get; 0 where there are none. */
    private record Standing(Object solution, double volts) {}

    /**
     * One draw.
     *
     * @param typicalAmps for long, null if unknown
     * @param maxAmps at most, null if unknown
     * @param lacks name of the fact that would tell the most
     */
    record Draw(
            Node sink,
            @Nullable Double typicalAmps,
            @Nullable Double maxAmps,
            String lacks) {}

    /**
     * Everything that a source feeds in a scenario, or pulls to ground if it is an output that does. What coils draw depends
     * on the volts of the state. Behind a diode nothing is fed where another source holds the volts up.
     */
    private List<Draw> from(Node source, Scenario scenario) {
        double volts = network.coils().isEmpty() && resistors.isEmpty() ? 0 : volts(network, scenario.state());
        return known.computeIfAbsent(new Standing(scenario.solution(), volts), any -> new HashMap<>())
                .computeIfAbsent(source, any -> workOut(source, scenario));
    }

    private List<Draw> workOut(Node source, Scenario scenario) {
        List<Integer> nets = fed(source, scenario);
        boolean sinks = source.pullsToGround();
        List<Draw> draws = new ArrayList<>();
        for (int net : nets) {
            for (Node node : scenario.members(net)) {
                Draw draw = draw(node, network, sinks);
                if (draw != null) {
                    draws.add(draw);
                }
                if (sinks && !source.isReference()) {
                    addReturning(node, scenario, draws);
                }
            }
        }
        addCoils(draws, network, scenario, node -> isAmong(nets, scenario.netOf(node)));
        addResistors(source, scenario, draws);
        return draws;
    }

    /** Adds what resistors straight at a source let flow beside what goes by them to loads, inputs and coils. */
    private void addResistors(Node source, Scenario scenario, List<Draw> draws) {
        for (Link resistor : resistors) {
            Node near = scenario.isHardReach(source, resistor.from())
                    ? resistor.from()
                    : scenario.isHardReach(source, resistor.to()) ? resistor.to() : null;
            Case at = near == null ? null : reading.power().findCase(scenario);
            if (near != null && at != null) {
                double typical = at.typical().leakedAmps(resistor);
                double most = at.highest().leakedAmps(resistor);
                if (most > LEAST_AMPS) {
                    draws.add(new Draw(near, typical, most, "ohms"));
                }
            }
        }
    }

    /** Adds the loads of a part that returns by an output which switches to ground, and by no ground of the vehicle. */
    private void addReturning(Node ground, Scenario scenario, List<Draw> draws) {
        if (ground.isVehicle() || !(ground.facts() instanceof Electrical.Ground) || network.isUnused(ground)) {
            return;
        }
        for (Node own : network.nodesOf(ground.owner())) {
            if (own.facts() instanceof Electrical.Ground
                    && scenario.reaches(own).stream()
                            .anyMatch(reach -> reach.source().isReference())) {
                return;
            }
        }
        for (Node own : network.nodesOf(ground.owner())) {
            Draw draw = draw(own, network, false);
            boolean counted = draws.stream().anyMatch(each -> each.sink() == own);
            if (draw != null && !counted && scenario.hasFeed(own) != Scenario.Sure.NO) {
                draws.add(draw);
            }
        }
    }

    private static List<Integer> fed(Node source, Scenario scenario) {
        List<Integer> nets = scenario.reachedBy(source);
        if (nets.size() == 1) {
            return nets;
        }
        int own = scenario.netOf(source);
        return nets.stream()
                .filter(net -> net == own || !(isHeld(net, scenario) || scenario.isGrounded(net)))
                .toList();
    }

    /** Whether a source stands on a net and is live, so that no current comes there through a diode from another. */
    private static boolean isHeld(int net, Scenario scenario) {
        for (Node member : scenario.members(net)) {
            if (member.givesTwelveVolts() && scenario.isLive(member) == Scenario.Sure.YES) {
                return true;
            }
        }
        return false;
    }

    /** Everything that several sources feed while they are or may be live; what two of them feed counts once. */
    List<Draw> from(List<Node> sources, Scenario scenario) {
        if (sources.size() == 1) {
            Node source = sources.get(0);
            return scenario.isLive(source) == Scenario.Sure.NO ? List.of() : from(source, scenario);
        }
        List<Draw> draws = new ArrayList<>();
        Set<Node> fedBefore = new HashSet<>();
        for (Node source : sources) {
            if (scenario.isLive(source) != Scenario.Sure.NO) {
                int before = draws.size();
                for (Draw draw : from(source, scenario)) {
                    if (!fedBefore.contains(draw.sink())) {
                        draws.add(draw);
                    }
                }
                draws.subList(before, draws.size()).forEach(draw -> fedBefore.add(draw.sink()));
            }
        }
        return draws;
    }

    /** What sources are asked for together at worst. */
    Overload overload(List<Node> sources) {
        return overloads.computeIfAbsent(sources, all -> new Overload(all, network.scenarios(), this));
    }

    /** Looks in the middle first, as nets rise, and without a box: this is asked for every coil, source and scenario. */
    private static boolean isAmong(List<Integer> nets, int net) {
        int low = 0;
        int high = nets.size();
        while (low < high) {
            int middle = (low + high) / 2;
            if (nets.get(middle) < net) {
                low = middle + 1;
            } else {
                high = middle;
            }
        }
        return low < nets.size() && nets.get(low) == net;
    }

    /** Everything that draws 12 V among some nodes. */
    static List<Draw> among(Set<Node> nodes, Network network, Scenario scenario) {
        List<Draw> draws = new ArrayList<>();
        for (Node node : nodes) {
            Draw draw = draw(node, network, false);
            if (draw != null) {
                draws.add(draw);
            }
        }
        addCoils(draws, network, scenario, nodes::contains);
        return draws;
    }

    private static void addCoils(List<Draw> draws, Network network, Scenario scenario, Predicate<Node> on) {
        for (Coil coil : network.coils()) {
            if (scenario.isEnergised(coil) && on.test(coil.one()) != on.test(coil.other())) {
                Double amps = coil.ohms() == null ? null : volts(network, scenario.state()) / coil.ohms();
                draws.add(new Draw(on.test(coil.one()) ? coil.one() : coil.other(), amps, amps, "coilOhms"));
            }
        }
    }

    private static @Nullable Draw draw(Node node, Network network, boolean sinks) {
        if (network.isUnused(node)) {
            return null;
        }
        if (!sinks && node.facts() instanceof Electrical.Load load) {
            return new Draw(node, load.typicalAmps(), load.maxAmps(), "maxAmps");
        }
        if (node.facts() instanceof Electrical.ControlIn in && (in.active() == Active.GROUND) == sinks) {
            return new Draw(node, in.amps(), in.amps(), "amps");
        }
        return null;
    }

    /** Volts of the vehicle's supplies in a state. */
    static double volts(Network network, State state) {
        return Level.of(state)
                .batteryVolts(
                        state == State.RUNNING ? Extent.HIGHEST : Extent.TYPICAL,
                        network.hookup().map().runningVolts());
    }

    /** Lists the volts under assumptions if a coil's current was worked out with them. */
    static void assumeVolts(Examination examination) {
        if (!examination.network().coils().isEmpty()
                && examination.network().hookup().map().runningVolts() == null) {
            examination.assume("runningVolts", Level.RUNNING_VOLTS, "V", "volts of the battery while the engine runs");
        }
    }
}
