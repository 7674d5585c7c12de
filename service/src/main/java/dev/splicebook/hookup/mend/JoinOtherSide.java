package dev.splicebook.hookup.mend;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Connection;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Names;
import dev.splicebook.hookup.mend.Defect.Place;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Node;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** The other side of an input goes to the other side of what it gets. */
@AutoService(Change.class)
public final class JoinOtherSide implements Change {

    private static final String LOOSE = "lead-unaccounted";

    /** Less than to cap one of the two. */
    private static final double COST_OF_TWO_LOOSE = 0.9;

    @Override
    public Set<String> rules() {
        return Set.of("pair-half-connected", "outputs-tied", "speaker-minus-grounded", LOOSE);
    }

    @Override
    public List<Proposal> propose(Defect defect) {
        List<Proposal> proposals = new ArrayList<>();
        Set<Node> outputs = new LinkedHashSet<>();
        for (Node node : defect.terminals()) {
            Node other = node.audio() == null ? null : defect.otherSide(node);
            if (other != null && isOutput(node)) {
                outputs.addAll(List.of(node, other));
            } else if (other != null && (defect.rule().equals(LOOSE) || other.net() == node.net())) {
                defect.network().netOf(other).stream()
                        .filter(JoinOtherSide::isOutput)
                        .forEach(outputs::add);
            }
        }
        for (Node output : outputs) {
            Node back = defect.otherSide(output);
            if (back == null) {
                continue;
            }
            for (Node input : defect.network().netOf(output)) {
                Node end = input.audio() == null || input.audio().isOutput() ? null : defect.otherSide(input);
                boolean apart =
                        end != null && (end.net() != back.net() || defect.rule().equals(LOOSE));
                if (end != null && apart && isSameSide(output, input)) {
                    join(output, input, back, end, defect, proposals);
                }
            }
        }
        closeStrings(defect, proposals);
        joinLines(defect, proposals);
        joinPictures(defect, proposals);
        return proposals;
    }

    /** The return of a picture goes to the return of the input that takes it; the first of each where there are several. */
    private static void joinPictures(Defect defect, List<Proposal> into) {
        Node given = returnOf(Electrical.VideoOut.class, defect);
        Node taken = returnOf(Electrical.VideoIn.class, defect);
        if (given == null || taken == null || given.net() == taken.net()) {
            return;
        }
        Node looseTaken = defect.looseLeadAt(taken, null);
        Node looseGiven = defect.looseLeadAt(given, null);
        if (looseTaken != null || looseGiven != null) {
            Node one = looseTaken == null ? taken : looseTaken;
            Node other = looseGiven == null ? given : looseGiven;
            into.add(new Proposal(
                    "Connect " + one + " to " + other + ".", 1.5, defect.edit().light(other.ref(), one.ref())));
        }
        for (Node end : List.of(taken, given)) {
            Node other = end == taken ? given : taken;
            for (Link wire : defect.wiresAt(end)) {
                into.add(new Proposal(
                        "Move the lead of " + end + " from " + wire.across(end) + " to " + other + ".",
                        2,
                        defect.edit()
                                .move(
                                        String.valueOf(wire.ref()),
                                        wire.across(end).ref(),
                                        other.ref())));
            }
        }
        into.add(new Proposal("Connect " + taken + " to " + given + ".", 2.5, asThePicture(given, taken, defect)));
    }

    /** With a conductor as long as that of the picture itself. */
    private static Edit asThePicture(Node given, Node taken, Defect defect) {
        return defect.wires().stream()
                .map(Link::connection)
                .filter(Objects::nonNull)
                .findFirst()
                .map(like -> defect.edit().join(given.ref(), taken.ref(), like.conductor(), like.length(), null))
                .orElseGet(() -> defect.edit().light(given.ref(), taken.ref()));
    }

    private static @Nullable Node returnOf(Class<? extends Electrical.Video> kind, Defect defect) {
        return defect.terminals().stream()
                .filter(node ->
                        kind.isInstance(node.facts()) && kind.cast(node.facts()).isReturn())
                .findFirst()
                .orElse(null);
    }

    /** A lead that goes from a coil to an output, where an end of the next coil of its loudspeaker hangs loose, goes there. */
    private static void closeStrings(Defect defect, List<Proposal> into) {
        for (Node end : defect.terminals()) {
            for (Link wire : isCoilEnd(end) ? defect.wiresAt(end) : List.<Link>of()) {
                Node wrong = wire.across(end);
                for (Node loose : isOutput(wrong) ? defect.network().nodesOf(end.owner()) : List.<Node>of()) {
                    if (isCoilEnd(loose) && !defect.network().isConnected(loose)) {
                        into.add(new Proposal(
                                "Move the lead of " + end + " from " + wrong + " to " + loose + ".",
                                2,
                                defect.edit().move(String.valueOf(wire.ref()), wrong.ref(), loose.ref())));
                    }
                }
            }
        }
    }

    /** The loose line of a bus goes to a free one of its like: beside what the other line hangs on, or the only one there is. */
    private static void joinLines(Defect defect, List<Proposal> into) {
        for (Node loose : defect.terminals()) {
            if (!(loose.facts() instanceof Electrical.Data line)
                    || loose.isVehicle()
                    || defect.network().isWired(loose)) {
                continue;
            }
            Set<String> beside = defect.terminals().stream()
                    .flatMap(other -> defect.wiresAt(other).stream().map(wire -> wire.across(other)))
                    .map(end -> Names.connectorOf(end.ref()))
                    .collect(Collectors.toSet());
            List<Place> alike = defect.places().stream()
                    .filter(place -> place.facts() instanceof Electrical.Data theirs
                            && theirs.bus() == line.bus()
                            && Objects.equals(theirs.line(), line.line())
                            && !place.ref().startsWith(loose.owner() + "."))
                    .toList();
            List<Place> near = alike.stream()
                    .filter(place -> beside.contains(place.connector()))
                    .toList();
            for (Place place : near.isEmpty() && alike.size() == 1 ? alike : near) {
                into.add(new Proposal(
                        "Connect " + loose.ref() + " to " + place.ref() + ".",
                        2,
                        defect.edit().light(place.ref(), loose.ref())));
            }
        }
    }

    private static boolean isCoilEnd(Node node) {
        return node.facts() instanceof Electrical.SpeakerIn in && in.ohms() != null;
    }

    private static boolean isOutput(Node node) {
        return node.audio() != null && node.audio().isOutput();
    }

    private static boolean isSameSide(Node output, Node input) {
        return output.audio() != null
                && output.audio().side() != null
                && input.audio() != null
                && input.audio().side() != null
                && output.audio().side().isPositive() == input.audio().side().isPositive();
    }

    private static void join(Node output, Node input, Node back, Node end, Defect defect, List<Proposal> into) {
        List<Link> atEnd = defect.wiresAt(end);
        if (defect.rule().equals(LOOSE)) {
            if (atEnd.isEmpty() && defect.wiresAt(back).isEmpty()) {
                into.add(connect(input, back, end, COST_OF_TWO_LOOSE, defect));
            }
            return;
        }
        joinLoose(input, back, end, defect, into);
        Link stray = strayWire(back, output, defect);
        if (stray != null && atEnd.isEmpty()) {
            Node wrong = stray.across(back);
            into.add(new Proposal(
                    "Move the lead of " + back + " from " + wrong + " to " + end + ".",
                    2,
                    defect.edit().move(String.valueOf(stray.ref()), wrong.ref(), end.ref())));
        } else if (atEnd.isEmpty()) {
            into.add(connect(input, back, end, 3, defect));
        } else if (atEnd.size() == 1) {
            Node wrong = atEnd.get(0).across(end);
            into.add(new Proposal(
                    "Move the lead of " + end + " from " + wrong + " to " + back + ".",
                    2,
                    defect.edit().move(String.valueOf(atEnd.get(0).ref()), wrong.ref(), back.ref())));
        }
    }

    /** As the first side is wired. */
    private static Proposal connect(Node input, Node back, Node end, double cost, Defect defect) {
        Connection like = defect.wiresAt(input).stream()
                .map(Link::connection)
                .filter(Objects::nonNull)
                .findFirst()
                .orElse(null);
        Edit edit = defect.edit();
        if (like == null) {
            edit.light(back.ref(), end.ref());
        } else {
            edit.join(back.ref(), end.ref(), like.conductor(), like.length(), null);
        }
        return new Proposal("Connect " + end + " to " + back + ".", cost, edit);
    }

    /** By leads that hang loose for it: of an adapter at the input, or of what brings the first side. */
    private static void joinLoose(Node input, Node back, Node end, Defect defect, List<Proposal> into) {
        List<Link> wires = defect.wiresAt(input);
        String bringer = wires.size() == 1 ? wires.get(0).across(input).owner() : null;
        Node atBack = defect.looseLeadAt(back, bringer);
        atBack = atBack == null ? defect.looseLeadAt(back, null) : atBack;
        Node from = atBack == null ? back : atBack;
        Node atEnd = defect.network().isConnected(end) ? defect.looseLeadAt(end, null) : null;
        Node to = atEnd == null ? end : atEnd;
        boolean takesTwo = atEnd == null && defect.network().isConnected(end);
        if ((atBack != null || atEnd != null) && from != to && !takesTwo) {
            into.add(new Proposal(
                    "Connect " + to + " to " + from + ".", 1.5, defect.edit().light(from.ref(), to.ref())));
        }
    }

    /** A wire that brings the other side to ground, or to where this side is already. */
    private static @Nullable Link strayWire(Node back, Node output, Defect defect) {
        return defect.wiresAt(back).stream()
                .filter(wire -> wire.across(back).facts() instanceof Electrical.Ground
                        || wire.across(back).net() == output.net())
                .findFirst()
                .orElse(null);
    }
}
