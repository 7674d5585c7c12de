package dev.splicebook.hookup.mend;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Hookup;
import dev.splicebook.hookup.Names;
import dev.splicebook.hookup.mend.Defect.Place;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Node;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/** A parking-brake input goes to the vehicle's parking-brake circuit, if the map has one, and nowhere else. */
@AutoService(Change.class)
public final class RestoreInterlock implements Change {

    @Override
    public Set<String> rules() {
        return Set.of("interlock-defeated", "control-polarity-mismatch", "control-never-active");
    }

    @Override
    public List<Proposal> propose(Defect defect) {
        List<Proposal> proposals = new ArrayList<>();
        for (Node input : defect.terminals()) {
            List<Link> wires = defect.wiresAt(input);
            if (!Defect.isParkingBrakeInput(input) || wires.isEmpty()) {
                continue;
            }
            for (Place place : defect.places()) {
                if (isBrakeCircuit(place.ref(), defect.hookup()) && place.facts() != null) {
                    String ref = String.valueOf(wires.get(0).ref());
                    Edit edit = defect.edit();
                    wires.subList(1, wires.size()).forEach(wire -> edit.without(String.valueOf(wire.ref())));
                    edit.move(ref, wires.get(0).across(input).ref(), place.ref());
                    if (place.facts() instanceof Electrical.ControlOut) {
                        edit.fuse(ref, null);
                    }
                    proposals.add(new Proposal(
                            "Move the lead of " + input.ref() + " to the vehicle's parking-brake circuit at "
                                    + place.ref() + ".",
                            2,
                            edit));
                }
            }
        }
        return proposals;
    }

    private static boolean isBrakeCircuit(String ref, Hookup hookup) {
        String prefix = Names.VEHICLE + ".";
        var circuit = ref.startsWith(prefix) ? hookup.findCircuit(ref.substring(prefix.length())) : null;
        return circuit != null
                && circuit.function() != null
                && circuit.function().isAtOrBelow(Defect.PARKING_BRAKE);
    }

    /**
     * Whether a change leaves every interlock alone or puts it right: whatever is newly connected to a parking-brake input
     * is the parking-brake circuit.
     */
    public static boolean isKept(Hookup before, Hookup after) {
        return after.document().connections().entrySet().stream()
                .filter(entry ->
                        !entry.getValue().equals(before.document().connections().get(entry.getKey())))
                .map(entry -> entry.getValue().ends())
                .allMatch(ends -> (!isInput(ends.get(0), after) || isBrakeCircuit(ends.get(1), after))
                        && (!isInput(ends.get(1), after) || isBrakeCircuit(ends.get(0), after)));
    }

    private static boolean isInput(String terminal, Hookup hookup) {
        int dot = terminal.indexOf('.');
        String part = terminal.substring(0, dot);
        if (part.equals(Names.VEHICLE)) {
            return false;
        }
        var found = hookup.terminalsOf(part).get(terminal.substring(dot + 1));
        return found != null
                && found.function() != null
                && found.function().isAtOrBelow(Defect.PARKING_BRAKE)
                && (found.electrical() == null || found.electrical() instanceof Electrical.ControlIn);
    }
}
