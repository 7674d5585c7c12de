package dev.splicebook.hookup;

import dev.splicebook.function.FunctionId;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/** What to heed while doing the work that a report leads to. */
final class Cautions {

    private static final FunctionId SAFETY = new FunctionId("safety");
    private static final FunctionId PARKING_BRAKE = new FunctionId("control.parking-brake");

    private Cautions() {}

    static List<String> of(Network network, List<Finding> findings) {
        List<String> cautions = new ArrayList<>();
        cautions.add("The vehicle maker's service information, local law and qualified people come first; a map is what"
                + " shops know, so meter every circuit before you connect to it.");
        boolean battery = network.links().stream()
                .anyMatch(link ->
                        link.kind() == Link.Kind.CONNECTION && (isBattery(link.from()) || isBattery(link.to())));
        if (battery) {
            cautions.add(
                    "Disconnect the battery's negative terminal before working on its plus side, and fit the fuse last:"
                            + " a wrench across a battery burns.");
        } else if (!network.hookup().document().connections().isEmpty()) {
            cautions.add("Disconnect the battery's negative terminal before joining power wires; note what forgets its"
                    + " settings.");
        }
        boolean safety = network.hookup().map().circuits().entrySet().stream().anyMatch(Cautions::isSafety)
                || findings.stream().anyMatch(finding -> finding.rule().endsWith("-circuit-touched"));
        if (safety) {
            cautions.add(
                    "This vehicle's map shows airbag or high-voltage circuits. Do not probe, join, cut or unplug them;"
                            + " after disconnecting the battery wait as long as the vehicle maker says.");
        }
        if (network.nodes().stream().anyMatch(node -> node.isFor(PARKING_BRAKE))) {
            cautions.add("The parking-brake input keeps moving pictures from a driver under way. It belongs on the"
                    + " parking-brake circuit and nowhere else; local law applies.");
        }
        return cautions;
    }

    private static boolean isBattery(Node node) {
        return node.role() == Node.Role.REFERENCE && node.name().equals(Vehicle.BATTERY_PLUS);
    }

    private static boolean isSafety(Map.Entry<String, Circuit> entry) {
        Circuit circuit = entry.getValue();
        return (circuit.function() != null && circuit.function().isAtOrBelow(SAFETY))
                || circuit.factsWhen(true) instanceof Electrical.Untouchable
                || circuit.factsWhen(false) instanceof Electrical.Untouchable;
    }
}
