package dev.splicebook.hookup.mend;

import java.util.List;
import java.util.Set;

/** One kind of change. It proposes; whether a proposal mends anything is for a check to say. */
public interface Change {

    /** Codes of the rules whose findings it may mend. */
    Set<String> rules();

    /** What might mend a finding of one of these rules, in no order. */
    List<Proposal> propose(Defect defect);
}
