package dev.splicebook.hookup.mend;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Connection;
import dev.splicebook.hookup.Connection.Conductor;
import dev.splicebook.hookup.mend.Defect.Place;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Node;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/** Parts two batteries by a contact that opens while the vehicle sleeps, with a fuse at the end that lay bare. */
@AutoService(Change.class)
public final class AddIsolatingRelay implements Change {

    /** Above a diode, which takes 0.7 V of the charge, and below taking the second battery off. */
    private static final double COST = 9;

    @Override
    public Set<String> rules() {
        return Set.of("supplies-tied");
    }

    @Override
    public List<Proposal> propose(Defect defect) {
        List<Proposal> proposals = new ArrayList<>();
        List<Node> batteries = batteries(defect);
        if (batteries.size() != 2) {
            return proposals;
        }
        for (Node battery : batteries) {
            Node other = batteries.get(battery == batteries.get(0) ? 1 : 0);
            Defect.Lead lead = battery.isVehicle() ? null : defect.firstLead(battery, other);
            if (lead != null) {
                // as much as the fuses that stand there already
                double fuseAmps = defect.way(battery, other).stream()
                        .filter(Link::hasFuse)
                        .mapToDouble(Link::fuseAmps)
                        .min()
                        .orElse(0);
                isolate(lead, other, fuseAmps, defect, proposals);
            }
        }
        return proposals;
    }

    /** The batteries among the terminals of a defect, of the vehicle and of parts. */
    static List<Node> batteries(Defect defect) {
        return defect.terminals().stream()
                .filter(node -> node.givesTwelveVolts() && defect.network().isBattery(node))
                .toList();
    }

    private static void isolate(Defect.Lead lead, Node other, double fuseAmps, Defect defect, List<Proposal> into) {
        String battery = lead.near().ref();
        for (Place switched : Sources.best(
                place -> Sources.isSwitched(place) && Sources.gives(place, AddRelay.COIL_AMPS), null, defect)) {
            Edit edit = defect.edit();
            Connection was = edit.wire(lead.ref());
            Conductor conductor = was.conductor();
            double rating = fuseAmps > 0 || conductor == null ? fuseAmps : Sizing.ratingOf(conductor);
            AddRelay.Relay relay = AddRelay.Relay.add(edit, rating, defect);
            edit.move(lead.ref(), battery, relay.common());
            if (fuseAmps == 0 && rating > 0) {
                edit.fuse(lead.ref(), Sizing.fuse(rating, was.length()));
            }
            edit.join(
                    relay.open(),
                    battery,
                    conductor,
                    Sizing.NEAR,
                    rating == 0 ? null : Sizing.fuse(rating, Sizing.NEAR));
            Sources.feed(edit, switched, relay.plus(), 1);
            edit.join(relay.minus(), Sources.CHASSIS, Sizing.LIGHT, Sizing.ROOM, null);
            into.add(new Proposal(
                    "Put the contact of a relay between " + battery + " and " + other.ref() + ", and let "
                            + switched.ref() + " drive its coil, so that the two part while the vehicle sleeps.",
                    COST,
                    edit));
        }
    }
}
