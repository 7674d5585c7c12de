package dev.splicebook.hookup.rule;

import dev.splicebook.function.FunctionId;
import dev.splicebook.hookup.Circuit;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Hazard;
import dev.splicebook.hookup.Hookup;
import dev.splicebook.hookup.Names;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Scenario;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** Finds what touches a circuit that must be left alone: a connection, a cut, a plug, or taking its connector off. */
final class Untouchables {

    private static final FunctionId AIRBAG = new FunctionId("safety.airbag");
    private static final FunctionId HIGH_VOLTAGE = new FunctionId("safety.high-voltage");

    private Untouchables() {}

    /**
     * Reports every touch of one hazard.
     *
     * @param is what a circuit of that hazard does, like {@code belongs to the airbags}
     * @param are the same of several
     */
    static void check(Hazard hazard, String is, String are, String help, Examination examination) {
        Hookup hookup = examination.network().hookup();
        for (Circuit circuit : hookup.map().circuits().values()) {
            if (hazard == hazardOf(circuit, circuit.electrical())) {
                examination.applies();
                break;
            }
        }
        Map<String, List<Node>> byCut = new LinkedHashMap<>();
        Map<String, List<Node>> byConnector = new LinkedHashMap<>();
        for (Node node : examination.network().nodes()) {
            Circuit circuit = node.isVehicle() ? hookup.findCircuit(Names.circuitOf(node.name())) : null;
            if (hazard != hazardOf(circuit, node.facts())) {
                continue;
            }
            examination.applies();
            if (hazard == Hazard.AIRBAG && !isTold(circuit, node)) {
                examination.assume(
                        "reason",
                        null,
                        null,
                        "an untouchable circuit of which the map states no reason is taken for an airbag's");
            }
            String connector = Names.connectorOf(Names.circuitOf(node.name()));
            if (node.role() == Node.Role.CUT_END) {
                byCut.computeIfAbsent(Names.circuitOf(node.name()), key -> new ArrayList<>())
                        .add(node);
            } else if (examination.network().isWired(node)) {
                report(
                        List.of(node),
                        Say.name(node) + " " + is + " and is connected to " + mates(node, examination),
                        help,
                        examination);
            } else if (examination.network().isConnected(node)
                    || (node.isVehicle() && hookup.unplugged().contains(connector))) {
                byConnector
                        .computeIfAbsent(node.owner() + "." + connector, key -> new ArrayList<>())
                        .add(node);
            }
        }
        byCut.forEach((circuit, ends) ->
                report(ends, Say.names(ends) + " " + are + " and are the ends of a cut", help, examination));
        byConnector.forEach((connector, nodes) -> {
            boolean mated = examination.network().isMated(nodes.get(0));
            report(
                    nodes,
                    Say.names(nodes) + " " + (nodes.size() > 1 ? are + " and stand" : is + " and stands")
                            + " in the connector " + connector + ", which is "
                            + (mated ? "mated with a part" : "unplugged"),
                    mated || hazard != Hazard.AIRBAG
                            ? help
                            : "leave it alone, plug " + connector
                                    + " back in with the battery off, as the maker of the vehicle says, and work at"
                                    + " other connectors.",
                    examination);
        });
    }

    private static void report(List<Node> nodes, String message, String help, Examination examination) {
        Examination.Draft draft = examination
                .report(message, help)
                .at(nodes)
                .through(examination.reading().connectionsAt(nodes));
        for (Scenario scenario : examination.reading().partitions()) {
            nodes.forEach(touched -> draft.claims(scenario, scenario.netOf(touched)));
        }
    }

    private static String mates(Node node, Examination examination) {
        Set<Node> mates = new LinkedHashSet<>();
        for (Link link : examination.network().linksOf(node)) {
            mates.add(link.across(node));
        }
        return Say.names(mates);
    }

    /** An untouchable circuit that states no reason, nor a function, is taken for the hazard that is met more often. */
    private static @Nullable Hazard hazardOf(@Nullable Circuit circuit, @Nullable Electrical facts) {
        boolean untouchable = facts instanceof Electrical.Untouchable;
        Hazard hazard = reasonOf(facts);
        if (circuit != null) {
            Electrical plugged = circuit.factsWhen(true);
            Electrical unplugged = circuit.factsWhen(false);
            untouchable |= plugged instanceof Electrical.Untouchable || unplugged instanceof Electrical.Untouchable;
            hazard = hazard == null ? reasonOf(plugged) : hazard;
            hazard = hazard == null ? reasonOf(unplugged) : hazard;
            hazard = hazard == null ? hazardOf(circuit.function()) : hazard;
        }
        return hazard == null && untouchable ? Hazard.AIRBAG : hazard;
    }

    private static @Nullable Hazard hazardOf(@Nullable FunctionId function) {
        if (function == null) {
            return null;
        }
        return function.isAtOrBelow(AIRBAG)
                ? Hazard.AIRBAG
                : function.isAtOrBelow(HIGH_VOLTAGE) ? Hazard.HIGH_VOLTAGE : null;
    }

    private static @Nullable Hazard reasonOf(@Nullable Electrical facts) {
        return facts instanceof Electrical.Untouchable untouchable ? untouchable.reason() : null;
    }

    private static boolean isTold(@Nullable Circuit circuit, Node node) {
        return reasonOf(node.facts()) != null
                || (circuit != null
                        && (hazardOf(circuit.function()) != null
                                || reasonOf(circuit.factsWhen(true)) != null
                                || reasonOf(circuit.factsWhen(false)) != null));
    }
}
