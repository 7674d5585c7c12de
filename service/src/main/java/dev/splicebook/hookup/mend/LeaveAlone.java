package dev.splicebook.hookup.mend;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Names;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Node;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;

/** An untouchable circuit is left alone: nothing is connected to it, it is not cut, and its connector stays where it is. */
@AutoService(Change.class)
public final class LeaveAlone implements Change {

    @Override
    public Set<String> rules() {
        return Set.of("airbag-circuit-touched", "high-voltage-circuit-touched");
    }

    @Override
    public List<Proposal> propose(Defect defect) {
        Edit edit = defect.edit();
        Set<String> left = new TreeSet<>();
        for (Node node : defect.terminals()) {
            for (Link wire : defect.wiresAt(node)) {
                edit.without(String.valueOf(wire.ref()));
            }
            left.add(node.ref());
            if (node.role() == Node.Role.CUT_END) {
                edit.leaveUncut(node.name().substring(0, node.name().indexOf('/')));
            } else if (node.isVehicle()) {
                edit.leavePlugged(Names.connectorOf(node.name()));
            }
        }
        return List.of(new Proposal(
                "Leave " + String.join(", ", left) + " alone: nothing connected, nothing cut, nothing unplugged.",
                2,
                edit));
    }
}
