package dev.splicebook.hookup.mend;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.net.Node;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/** A lead that nothing is connected to is capped and listed as unused. */
@AutoService(Change.class)
public final class CapLead implements Change {

    @Override
    public Set<String> rules() {
        return Set.of("lead-unaccounted", "live-lead-uncapped");
    }

    @Override
    public List<Proposal> propose(Defect defect) {
        List<Proposal> proposals = new ArrayList<>();
        for (Node node : defect.terminals()) {
            // a lead that takes and that a change took off would be lost without a word
            if (!defect.network().isConnected(node)
                    && !Defect.isTurnOnInput(node)
                    && !(takes(node) && defect.wasConnected(node))) {
                proposals.add(new Proposal(
                        "Cap " + node.ref() + " and list it as unused.",
                        1,
                        defect.edit().unused(node.ref(), "nothing of this job needs it")));
            }
        }
        return proposals;
    }

    private static boolean takes(Node node) {
        return !(node.facts() instanceof Electrical.Passive
                || node.facts() instanceof Electrical.Supply
                || node.facts() instanceof Electrical.ControlOut
                || node.facts() instanceof Electrical.VideoOut
                || (node.audio() != null && node.audio().isOutput()));
    }
}
