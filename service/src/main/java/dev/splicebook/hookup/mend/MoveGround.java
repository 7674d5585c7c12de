package dev.splicebook.hookup.mend;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Connection.Conductor;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Names;
import dev.splicebook.hookup.Vehicle;
import dev.splicebook.hookup.mend.Defect.Place;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Node;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/** A device gets a ground, another one, or the one that another device has. */
@AutoService(Change.class)
public final class MoveGround implements Change {

    private static final String BATTERY_MINUS = Names.VEHICLE + "." + Vehicle.BATTERY_MINUS;

    @Override
    public Set<String> rules() {
        return Set.of(
                "load-without-ground",
                "ground-loop",
                "battery-sensor-bypassed",
                "ground-undersized",
                "conductor-too-small");
    }

    @Override
    public List<Proposal> propose(Defect defect) {
        Set<Node> grounds = new LinkedHashSet<>();
        Set<String> owners = new LinkedHashSet<>();
        for (Node node : defect.terminals()) {
            owners.add(node.owner());
            // what is grounded at another part's ground loads that one's lead too
            defect.wiresAt(node).stream()
                    .map(wire -> wire.across(node))
                    .filter(other -> other.facts() instanceof Electrical.Ground)
                    .forEach(other -> owners.add(other.owner()));
        }
        for (Node node : defect.network().nodes()) {
            if (node.facts() instanceof Electrical.Ground && !node.isVehicle() && owners.contains(node.owner())) {
                grounds.add(node);
            }
        }
        List<String> points = points(grounds, defect);
        List<Proposal> proposals = new ArrayList<>();
        for (Node ground : grounds) {
            List<Link> wires = defect.wiresAt(ground);
            for (String point : points) {
                if (wires.isEmpty()) {
                    Conductor thickest = defect.thickestAt(ground.owner());
                    Edit edit = defect.edit();
                    edit.join(ground.ref(), point, thickest == null ? Sizing.LIGHT : thickest, Sizing.ROOM, null);
                    proposals.add(new Proposal("Ground " + ground.ref() + " at " + point + ".", 3, edit));
                } else if (wires.size() == 1
                        && !wires.get(0).across(ground).ref().equals(point)) {
                    proposals.add(new Proposal(
                            "Move the ground lead of " + ground.ref() + " to " + point + ".",
                            2,
                            defect.edit()
                                    .move(
                                            String.valueOf(wires.get(0).ref()),
                                            wires.get(0).across(ground).ref(),
                                            point)));
                }
            }
        }
        return proposals;
    }

    /** The chassis, where the devices themselves are grounded, and where else the hookup uses a ground of the vehicle. */
    private static List<String> points(Set<Node> grounds, Defect defect) {
        Set<String> points = new LinkedHashSet<>(List.of(Sources.CHASSIS));
        grounds.forEach(ground -> defect.wiresAt(ground).stream()
                .map(wire -> wire.across(ground))
                .filter(Node::isVehicle)
                .forEach(point -> points.add(point.ref())));
        defect.places().stream()
                .filter(place -> place.isVehicle() && place.used() && place.facts() instanceof Electrical.Ground)
                .map(Place::ref)
                .limit(2)
                .forEach(points::add);
        points.remove(BATTERY_MINUS);
        return List.copyOf(points);
    }
}
