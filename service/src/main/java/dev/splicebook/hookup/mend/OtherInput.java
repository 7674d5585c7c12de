package dev.splicebook.hookup.mend;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Node;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** A source goes to another input of the device, one that is free and takes its channel. */
@AutoService(Change.class)
public final class OtherInput implements Change {

    @Override
    public Set<String> rules() {
        return Set.of("input-contended", "level-too-high", "level-too-low", "signal-type-mismatch", "channels-swapped");
    }

    @Override
    public List<Proposal> propose(Defect defect) {
        List<Proposal> proposals = new ArrayList<>();
        Set<String> done = new LinkedHashSet<>();
        for (Node input : defect.terminals()) {
            if (input.audio() == null || input.audio().isOutput() || !isPositive(input)) {
                continue;
            }
            for (Node other : defect.network().nodesOf(input.owner())) {
                if (other != input && isFreeAlternative(other, input, defect)) {
                    for (Link wire : defect.wiresAt(input)) {
                        if (done.add(wire.ref() + " " + other.ref())) {
                            move(input, other, wire, defect, proposals);
                        }
                    }
                }
            }
        }
        return proposals;
    }

    private static boolean isPositive(Node node) {
        return node.audio() != null
                && node.audio().side() != null
                && node.audio().side().isPositive();
    }

    private static boolean isFreeAlternative(Node other, Node input, Defect defect) {
        return other.audio() != null
                && !other.audio().isOutput()
                && isPositive(other)
                && !defect.network().isConnected(other)
                && (other.audio().channel() == null
                        || input.audio() == null
                        || input.audio().channel() == null
                        || other.audio().channel().agreesWith(input.audio().channel()));
    }

    private static void move(Node input, Node other, Link wire, Defect defect, List<Proposal> into) {
        Edit edit = defect.edit().move(String.valueOf(wire.ref()), input.ref(), other.ref());
        Node back = defect.otherSide(input);
        Node otherBack = defect.otherSide(other);
        if (back != null
                && otherBack != null
                && back != otherBack
                && !defect.network().isConnected(otherBack)) {
            Link returning = sameWay(back, wire.across(input), defect);
            if (returning == null) {
                return;
            }
            edit.move(String.valueOf(returning.ref()), back.ref(), otherBack.ref());
        }
        into.add(new Proposal(
                "Move " + wire.across(input) + " from the input " + input.ref() + " to the input " + other.ref() + ".",
                3,
                edit));
    }

    private static @Nullable Link sameWay(Node back, Node far, Defect defect) {
        return defect.wiresAt(back).stream()
                .filter(link -> link.across(back).owner().equals(far.owner()))
                .findFirst()
                .orElse(null);
    }
}
