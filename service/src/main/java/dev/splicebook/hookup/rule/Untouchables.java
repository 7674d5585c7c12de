package dev.splicebook.hookup.rule;

import dev.splicebook.function.FunctionId;
import dev.splicebook.hookup.Circuit;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Hazard;
import dev.splicebook.hookup.Hookup;
import dev.splicebook.hookup.Names;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Node;
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

    static void check(Hazard hazard, String what, String help, Examination examination) {
        Hookup hookup = examination.network().hookup();
        Map<String, List<Node>> byConnector = new LinkedHashMap<>();
        for (Node node : examination.network().nodes()) {
            if (hazard != hazardOf(node, hookup)) {
                continue;
            }
            examination.applies();
            String connector = Names.connectorOf(circuitOf(node));
            boolean cut = node.role() == Node.Role.CUT_END;
            boolean unplugged = node.isVehicle() && hookup.unplugged().contains(connector);
            if (examination.network().isConnected(node) || cut) {
                report(
                        List.of(node),
                        cut ? "is cut" : "is connected to " + mates(node, examination),
                        what,
                        help,
                        examination);
            } else if (unplugged) {
                byConnector.computeIfAbsent(connector, key -> new ArrayList<>()).add(node);
            }
        }
        byConnector.forEach((connector, nodes) -> report(
                nodes, "stands in the connector CAR." + connector + ", which is unplugged", what, help, examination));
    }

    private static void report(List<Node> nodes, String how, String what, String help, Examination examination) {
        Node node = nodes.get(0);
        if (node.role() == Node.Role.CUT_END && !node.name().endsWith("/unit")) {
            return;
        }
        Examination.Draft draft = examination
                .report(Say.names(nodes) + " " + what + " and " + how, help)
                .at(nodes)
                .through(examination.reading().connectionsAt(nodes));
        for (Node touched : nodes) {
            draft.claims(
                    examination.network().scenarios().get(0),
                    examination.network().scenarios().get(0).netOf(touched));
        }
    }

    private static String mates(Node node, Examination examination) {
        Set<Node> mates = new LinkedHashSet<>();
        for (Link link : examination.network().linksOf(node)) {
            mates.add(link.across(node));
        }
        return Say.names(mates);
    }

    private static String circuitOf(Node node) {
        int slash = node.name().indexOf('/');
        return slash < 0 ? node.name() : node.name().substring(0, slash);
    }

    private static @Nullable Hazard hazardOf(Node node, Hookup hookup) {
        Hazard hazard = hazardOf(node.facts());
        Circuit circuit = node.isVehicle() ? hookup.findCircuit(circuitOf(node)) : null;
        if (hazard == null && circuit != null) {
            hazard = hazardOf(circuit.factsWhen(true));
            hazard = hazard == null ? hazardOf(circuit.factsWhen(false)) : hazard;
        }
        if (hazard == null && node.isVehicle() && node.isFor(AIRBAG)) {
            hazard = Hazard.AIRBAG;
        }
        if (hazard == null && node.isVehicle() && node.isFor(HIGH_VOLTAGE)) {
            hazard = Hazard.HIGH_VOLTAGE;
        }
        return hazard;
    }

    /** An untouchable circuit that states no reason is taken for the one that is met more often. */
    private static @Nullable Hazard hazardOf(@Nullable Electrical facts) {
        if (!(facts instanceof Electrical.Untouchable untouchable)) {
            return null;
        }
        return untouchable.reason() == null ? Hazard.AIRBAG : untouchable.reason();
    }
}
