package dev.splicebook.hookup.mend;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.mend.Defect.Place;
import dev.splicebook.hookup.net.Coil;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Node;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** A relay that lacks an end of its coil or the feed of its contact gets it. */
@AutoService(Change.class)
public final class CompleteRelay implements Change {

    private static final double COST = 2.5;

    @Override
    public Set<String> rules() {
        return Set.of("load-without-supply", "control-never-active", "lead-unaccounted", "live-lead-uncapped");
    }

    @Override
    public List<Proposal> propose(Defect defect) {
        List<Proposal> proposals = new ArrayList<>();
        for (Coil coil : defect.network().coils()) {
            for (Node end : List.of(coil.one(), coil.other())) {
                Node across = end == coil.one() ? coil.other() : coil.one();
                if (isBare(end, defect) && !isBare(across, defect)) {
                    completeCoil(end, across, coil, defect, proposals);
                }
            }
        }
        for (Link contact : defect.network().links()) {
            if (contact.kind() == Link.Kind.OPEN_CONTACT && isBare(contact.from(), defect)) {
                feedContact(contact, defect, proposals);
            }
        }
        return proposals;
    }

    /** Whether a terminal of a relay is connected to nothing at all, and nobody meant it to be. */
    private static boolean isBare(Node node, Defect defect) {
        return defect.network().netOf(node).size() == 1 && !defect.network().isUnused(node);
    }

    /** Ground to the end across a feed, a switched feed to the end across ground. */
    private static void completeCoil(Node end, Node across, Coil coil, Defect defect, List<Proposal> into) {
        boolean grounded =
                defect.network().netOf(across).stream().anyMatch(node -> node.facts() instanceof Electrical.Ground);
        if (!grounded) {
            into.add(new Proposal(
                    "Connect " + end + " to " + Sources.CHASSIS + ".",
                    COST,
                    defect.edit().join(end.ref(), Sources.CHASSIS, Sizing.LIGHT, Sizing.ROOM, null)));
            return;
        }
        for (Place place : Sources.forCoil(coil, end.ref(), defect)) {
            Edit edit = defect.edit();
            Sources.feed(edit, place, end.ref(), 1);
            into.add(new Proposal("Connect " + end + " to " + place.ref() + ".", COST, edit));
        }
    }

    private static void feedContact(Link contact, Defect defect, List<Proposal> into) {
        Electrical.Load load = loadAt(contact.to(), defect);
        if (load == null) {
            return;
        }
        double amps = Sources.amps(load);
        for (Place place :
                Sources.best(place -> Sources.isConstant(place) && Sources.gives(place, amps), null, defect)) {
            Edit edit = defect.edit();
            Sources.feed(edit, place, contact.from().ref(), Sources.ratingFor(load));
            into.add(new Proposal("Connect " + contact.from() + " to " + place.ref() + ".", COST, edit));
        }
    }

    private static Electrical.@Nullable Load loadAt(Node node, Defect defect) {
        return defect.network().netOf(node).stream()
                .map(Node::facts)
                .filter(Electrical.Load.class::isInstance)
                .map(Electrical.Load.class::cast)
                .findFirst()
                .orElse(null);
    }
}
