package dev.splicebook.hookup.mend;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Node;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/** A connection that joins what must stay apart is taken off. */
@AutoService(Change.class)
public final class RemoveConnection implements Change {

    private static final int MOST = 12;

    private static final double COST = 3;

    /** Of a feed, or of what charges a battery: dearer than the two diodes, or the relay, that keep both. */
    private static final double COST_OF_A_FEED = 11;

    /** Of two outputs at one loudspeaker the one that gives more is there to drive it. */
    private static final double STRONGEST_COST = 0.5;

    @Override
    public Set<String> rules() {
        return Set.of(
                "supply-shorted-to-ground",
                "supplies-tied",
                "outputs-tied",
                "returns-tied",
                "speaker-minus-grounded",
                "signal-type-mismatch",
                "bus-disturbed",
                "line-back-fed",
                "ground-loop",
                "function-mismatched",
                "input-contended");
    }

    @Override
    public List<Proposal> propose(Defect defect) {
        List<Node> terminals = defect.terminals();
        Set<Link> wires = new LinkedHashSet<>();
        // those that lie between two of the terminals come first
        for (Node one : terminals.subList(0, Math.min(4, terminals.size()))) {
            for (Node other : terminals) {
                if (one != other) {
                    defect.way(one, other).stream()
                            .filter(link -> link.ref() != null)
                            .forEach(wires::add);
                }
            }
        }
        wires.addAll(defect.wires());
        if (defect.rule().equals("supply-shorted-to-ground")) {
            // a relay that no longer pulls in has its contact at the short still
            defect.network().coils().forEach(coil -> {
                wires.removeAll(defect.wiresAt(coil.one()));
                wires.removeAll(defect.wiresAt(coil.other()));
            });
        }
        // two outputs of 12 V on one lead are both wanted, as a rule
        boolean feeds = defect.rule().equals("line-back-fed")
                || (defect.rule().equals("outputs-tied")
                        && terminals.stream().filter(Node::givesTwelveVolts).count() > 1)
                || (defect.rule().equals("supplies-tied")
                        && AddIsolatingRelay.batteries(defect).size() == 2);
        double cost = feeds ? COST_OF_A_FEED : COST;
        List<Proposal> proposals = new ArrayList<>();
        wires.stream()
                .limit(MOST)
                .forEach(wire -> proposals.add(new Proposal(
                        "Take off " + wire.ref() + ", between " + wire.from() + " and " + wire.to() + ".",
                        cost + (isStrongest(wire, defect) ? STRONGEST_COST : 0),
                        defect.edit().without(String.valueOf(wire.ref())))));
        return proposals;
    }

    private static boolean isStrongest(Link wire, Defect defect) {
        double most = defect.terminals().stream()
                .mapToDouble(RemoveConnection::mostVolts)
                .max()
                .orElse(0);
        return most > 0 && Math.max(mostVolts(wire.from()), mostVolts(wire.to())) == most;
    }

    private static double mostVolts(Node node) {
        return node.facts() instanceof Electrical.SpeakerOut out && out.maxVolts() != null ? out.maxVolts() : 0;
    }
}
