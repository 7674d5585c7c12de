package dev.splicebook.hookup.mend;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Side;
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
        if (defect.rule().equals("signal-type-mismatch")) {
            defect.terminals().stream()
                    .filter(node -> node.facts() instanceof Electrical.VideoOut)
                    .forEach(giver -> movePicture(giver, defect, proposals));
        }
        return proposals;
    }

    /** A picture goes to a free input for pictures of the part at which it arrives. */
    private static void movePicture(Node giver, Defect defect, List<Proposal> into) {
        for (Link wire : defect.wiresAt(giver)) {
            Node wrong = wire.across(giver);
            if (wrong.isVehicle() || !defect.terminals().contains(wrong)) {
                continue;
            }
            for (Node input : pictures(wrong.owner(), Electrical.VideoIn.class, Side.SIGNAL, defect)) {
                if (defect.network().isConnected(input)) {
                    continue;
                }
                Edit edit = defect.edit();
                move(wire, wrong, input, defect, edit);
                moveReturn(giver, wrong, defect, edit);
                into.add(new Proposal(
                        "Move " + giver + " from the input " + wrong.ref() + " to the input " + input.ref() + ".",
                        giver.function() != null && giver.function().equals(input.function()) ? 3 : 3.5,
                        edit));
            }
        }
    }

    /** The return of a picture goes to the return of the pictures, where there is one of each. */
    private static void moveReturn(Node giver, Node wrong, Defect defect, Edit edit) {
        List<Node> given = pictures(giver.owner(), Electrical.VideoOut.class, Side.RETURN, defect);
        List<Node> taken = pictures(wrong.owner(), Electrical.VideoIn.class, Side.RETURN, defect);
        if (given.size() != 1 || taken.size() != 1) {
            return;
        }
        for (Link wire : defect.wiresAt(given.get(0))) {
            Node at = wire.across(given.get(0));
            if (at.owner().equals(wrong.owner()) && at != taken.get(0)) {
                move(wire, at, taken.get(0), defect, edit);
            }
        }
    }

    /** Moves an end of a connection, and caps what nothing else is connected to. */
    private static void move(Link wire, Node from, Node to, Defect defect, Edit edit) {
        edit.move(String.valueOf(wire.ref()), from.ref(), to.ref());
        if (defect.wiresAt(from).size() == 1) {
            edit.unused(from.ref(), "nothing here is for this input");
        }
    }

    private static List<Node> pictures(String part, Class<? extends Electrical> kind, Side side, Defect defect) {
        return defect.network().nodesOf(part).stream()
                .filter(node -> kind.isInstance(node.facts())
                        && node.facts() instanceof Electrical.Video video
                        && video.side() == side)
                .toList();
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
        Edit edit = defect.edit();
        move(wire, input, other, defect, edit);
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
            move(returning, back, otherBack, defect, edit);
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
