package dev.splicebook.hookup.mend;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.net.Node;
import java.util.List;
import java.util.Set;

/** A lead that is connected is listed as unused no more. */
@AutoService(Change.class)
public final class UnlistUnused implements Change {

    @Override
    public Set<String> rules() {
        return Set.of("lead-unaccounted");
    }

    @Override
    public List<Proposal> propose(Defect defect) {
        return defect.terminals().stream()
                .filter(defect.network()::isUsedAllTheSame)
                .map(Node::ref)
                .map(ref -> new Proposal(
                        "Take " + ref + " out of unused.", 1, defect.edit().used(ref)))
                .toList();
    }
}
