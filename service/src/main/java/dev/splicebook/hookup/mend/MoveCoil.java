package dev.splicebook.hookup.mend;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Device;
import dev.splicebook.hookup.net.Coil;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Node;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** A coil that its own contact switches is fed from before the contact. */
@AutoService(Change.class)
public final class MoveCoil implements Change {

    @Override
    public Set<String> rules() {
        return Set.of("relay-restless");
    }

    @Override
    public List<Proposal> propose(Defect defect) {
        List<Node> terminals = defect.terminals();
        List<Proposal> proposals = new ArrayList<>();
        for (Coil coil : defect.network().coils()) {
            for (Node end : List.of(coil.one(), coil.other())) {
                for (Link wire : terminals.contains(end) ? defect.wiresAt(end) : List.<Link>of()) {
                    String common = commonBehind(wire.across(end), defect);
                    if (common != null) {
                        proposals.add(new Proposal(
                                "Move the lead of " + end + " from " + wire.across(end) + " to " + common
                                        + ", before the contact.",
                                2,
                                defect.edit()
                                        .move(
                                                String.valueOf(wire.ref()),
                                                wire.across(end).ref(),
                                                common)));
                    }
                }
            }
        }
        return proposals;
    }

    /** The common of the contact that a terminal is; null if it is none. */
    private static @Nullable String commonBehind(Node node, Defect defect) {
        Device device = defect.hookup().devices().get(node.owner());
        return device == null
                ? null
                : device.relays().stream()
                        .filter(relay ->
                                node.name().equals(relay.open()) || node.name().equals(relay.closed()))
                        .map(relay -> node.owner() + "." + relay.common())
                        .findFirst()
                        .orElse(null);
    }
}
