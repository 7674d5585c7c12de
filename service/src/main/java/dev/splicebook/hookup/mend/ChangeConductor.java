package dev.splicebook.hookup.mend;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Connection;
import dev.splicebook.hookup.Connection.Conductor;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Node;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** Conductors are laid in a thicker size. */
@AutoService(Change.class)
public final class ChangeConductor implements Change {

    private static final int MOST_STEPS = 6;

    @Override
    public Set<String> rules() {
        return Set.of(
                "conductor-too-small",
                "fuse-exceeds-conductor",
                "fuse-missing",
                "voltage-drop-excessive",
                "undervoltage",
                "ground-undersized",
                "component-overloaded");
    }

    @Override
    public List<Proposal> propose(Defect defect) {
        List<Proposal> proposals = new ArrayList<>();
        List<Link> wires = withThoseBeyondContacts(defect);
        for (int step = 0; step < MOST_STEPS; step++) {
            for (Link wire : wires) {
                Conductor thicker = thicker(wire, step);
                if (thicker != null) {
                    proposals.add(new Proposal(
                            "Lay " + wire.ref() + " in " + thicker.size() + ".",
                            4 + step * 0.5,
                            defect.edit().conductor(String.valueOf(wire.ref()), thicker)));
                }
            }
            if (wires.size() > 1) {
                proposeAll(wires, step, defect, proposals);
            }
        }
        return proposals;
    }

    /** With those that begin at the other side of a contact, where a fuse that was too large for one is so for the next. */
    private static List<Link> withThoseBeyondContacts(Defect defect) {
        Set<Link> wires = new LinkedHashSet<>(defect.wires());
        if (defect.rule().equals("fuse-exceeds-conductor")) {
            for (Link wire : defect.wires()) {
                for (Node end : List.of(wire.from(), wire.to())) {
                    defect.network().linksOf(end).stream()
                            .filter(link -> link.kind().isContact())
                            .flatMap(link -> defect.wiresAt(link.across(end)).stream())
                            .filter(beyond -> isAlike(beyond, wire))
                            .forEach(wires::add);
                }
            }
        }
        return List.copyOf(wires);
    }

    private static boolean isAlike(Link one, Link other) {
        return one.connection() != null
                && other.connection() != null
                && !one.hasFuse()
                && one.connection().conductor() != null
                && one.connection().conductor().equals(other.connection().conductor());
    }

    private static void proposeAll(List<Link> wires, int step, Defect defect, List<Proposal> into) {
        Edit edit = defect.edit();
        List<String> told = new ArrayList<>();
        for (Link wire : wires) {
            Conductor thicker = thicker(wire, step);
            if (thicker != null) {
                edit.conductor(String.valueOf(wire.ref()), thicker);
                told.add(wire.ref() + " in " + thicker.size());
            }
        }
        if (told.size() > 1) {
            // one run of wire that a contact parts is laid in one go
            double cost = defect.rule().equals("fuse-exceeds-conductor") ? 4.2 + step * 0.5 : 4.0 * told.size() + step;
            into.add(new Proposal("Lay " + String.join(", ", told) + ".", cost, edit));
        }
    }

    private static @Nullable Conductor thicker(Link wire, int step) {
        Connection connection = wire.connection();
        if (connection == null || connection.conductor() == null) {
            return null;
        }
        List<Conductor> sizes = Sizing.thicker(connection.conductor());
        return step < sizes.size() ? sizes.get(step) : null;
    }
}
