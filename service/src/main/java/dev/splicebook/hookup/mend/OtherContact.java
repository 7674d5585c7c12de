package dev.splicebook.hookup.mend;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.net.Coil;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Node;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** What hangs on the contact of a relay that is closed at rest goes to the one that closes when it pulls, or the reverse. */
@AutoService(Change.class)
public final class OtherContact implements Change {

    @Override
    public Set<String> rules() {
        return Set.of(
                "load-without-supply",
                "switched-load-on-constant-supply",
                "constant-load-on-switched-supply",
                "parasitic-draw-excessive",
                "control-never-active",
                "control-always-active",
                "supplies-tied",
                "supply-shorted-to-ground",
                "wish-unmet");
    }

    @Override
    public List<Proposal> propose(Defect defect) {
        Set<String> relays = defect.relaysAhead();
        List<Proposal> proposals = new ArrayList<>();
        for (Link contact : defect.network().links()) {
            Node other =
                    contact.kind().isContact() && relays.contains(contact.to().owner())
                            ? otherThrow(contact, defect)
                            : null;
            if (other != null && !moves(contact, defect)) {
                continue;
            }
            List<Link> wires = other == null ? List.of() : defect.wiresAt(contact.to());
            if (other == null || wires.isEmpty() || !defect.wiresAt(other).isEmpty()) {
                continue;
            }
            Edit edit = defect.edit();
            wires.forEach(
                    wire -> edit.move(String.valueOf(wire.ref()), contact.to().ref(), other.ref()));
            boolean atRest = contact.kind() == Link.Kind.OPEN_CONTACT;
            proposals.add(new Proposal(
                    "Move what hangs on " + contact.to() + " to " + other + ", which is closed while the relay "
                            + (atRest ? "rests." : "pulls."),
                    2,
                    edit));
        }
        return proposals;
    }

    /** Whether its relay pulls at times and rests at times; of one that never moves the other contact is no better. */
    private static boolean moves(Link contact, Defect defect) {
        Coil coil = defect.network().coilOf(contact);
        return defect.network().scenarios().stream()
                        .map(scenario -> scenario.isEnergised(coil))
                        .distinct()
                        .count()
                > 1;
    }

    /** The other terminal of a changeover contact; null if it has but one. */
    private static @Nullable Node otherThrow(Link contact, Defect defect) {
        return defect.network().links().stream()
                .filter(link -> link.kind().isContact()
                        && link != contact
                        && link.relay() == contact.relay()
                        && link.from() == contact.from())
                .map(Link::to)
                .findFirst()
                .orElse(null);
    }
}
