package dev.splicebook.hookup.rule;

import dev.splicebook.function.FunctionId;
import dev.splicebook.hookup.Active;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Reach;
import dev.splicebook.hookup.net.Scenario;
import dev.splicebook.hookup.net.Scenario.Sure;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
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
}
