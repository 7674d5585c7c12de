package dev.splicebook.hookup.mend;

import com.google.auto.service.AutoService;
import dev.splicebook.function.FunctionId;
import dev.splicebook.hookup.Connection.Conductor;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.net.Node;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;

/** Two loose leads of one function are connected, and loose ends of voice coils to each other or to their output. */
@AutoService(Change.class)
public final class JoinLooseLeads implements Change {

    /** Less than to cap one of the two: that both are loose says that the connection was forgotten. */
    private static final double COST = 0.9;

    private static final double COST_BY_NEAR_FUNCTION = 1.9;

    /** Of one lead; more would be guesses. */
    private static final int MOST_MATES = 4;

    private static final FunctionId POWER = new FunctionId("power");
    private static final FunctionId BATTERY = new FunctionId("power.battery");
    private static final FunctionId GROUND = new FunctionId("ground");

    @Override
    public Set<String> rules() {
        return Set.of(
                "lead-unaccounted",
                "live-lead-uncapped",
                "pair-half-connected",
                "control-never-active",
                "load-without-supply",
                "load-without-ground");
    }

    @Override
    public List<Proposal> propose(Defect defect) {
        List<Proposal> proposals = new ArrayList<>();
        Set<Set<Node>> done = new HashSet<>();
        for (Node loose : looseAt(defect)) {
            List<Proposal> found = new ArrayList<>();
            for (Node other : defect.network().nodes()) {
                boolean coils = areCoilEnds(loose, other);
                if ((coils || !other.owner().equals(loose.owner()))
                        && defect.isLoose(other)
                        && (coils || belongs(loose, other))
                        && done.add(Set.of(loose, other))) {
                    found.add(join(loose, other, defect));
                }
            }
            boolean sure = found.stream().anyMatch(one -> one.cost() == COST);
            found.stream()
                    .filter(one -> !sure || one.cost() == COST)
                    .limit(MOST_MATES)
                    .forEach(proposals::add);
            joinToVehicle(loose, defect, proposals);
            if (loose.facts() instanceof Electrical.SpeakerIn in) {
                joinToOutput(loose, in, defect, proposals);
            }
        }
        return proposals;
    }

    /** What is loose of the terminals, and of what is one conductor with them, like the far end of a kit of wires. */
    private static Set<Node> looseAt(Defect defect) {
        Set<Node> loose = new LinkedHashSet<>();
        for (Node terminal : defect.terminals()) {
            defect.network().netOf(terminal).stream().filter(defect::isLoose).forEach(loose::add);
        }
        return loose;
    }

    private static boolean belongs(Node one, Node other) {
        return (Affinity.isNear(one.function(), other.function()) || Affinity.isAlike(one.function(), other.function()))
                && (Affinity.isOpen(one.facts())
                        || Affinity.isOpen(other.facts())
                        || Affinity.agree(one.facts(), other.facts()));
    }

    /** The plus of one coil and the minus of another of the same channel, which make a string. */
    private static boolean areCoilEnds(Node one, Node other) {
        return one.facts() instanceof Electrical.SpeakerIn first
                && other.facts() instanceof Electrical.SpeakerIn second
                && first.side() != null
                && second.side() != null
                && first.side() != second.side()
                && Objects.equals(first.channel(), second.channel())
                && !(one.owner().equals(other.owner()) && Objects.equals(first.coil(), second.coil()));
    }

    private static Proposal join(Node one, Node other, Defect defect) {
        Edit edit = defect.edit();
        if (isPower(one) || isPower(other)) {
            Conductor first = defect.thickestAt(one.owner());
            Conductor second = defect.thickestAt(other.owner());
            Conductor thicker = first == null
                            || (second != null
                                    && second.size().areaMm2() > first.size().areaMm2())
                    ? second
                    : first;
            edit.join(one.ref(), other.ref(), thicker == null ? Sizing.LIGHT : thicker, Sizing.NEAR, null);
        } else {
            edit.light(one.ref(), other.ref());
        }
        boolean sure = Affinity.isSame(one.function(), other.function()) || areCoilEnds(one, other);
        return new Proposal("Connect " + one + " to " + other + ".", sure ? COST : COST_BY_NEAR_FUNCTION, edit);
    }

    private static boolean isPower(Node node) {
        return node.facts() instanceof Electrical.Load
                || node.facts() instanceof Electrical.Ground
                || node.isFor(POWER)
                || node.isFor(GROUND);
    }

    /** A lead that brings power or ground to what is behind it goes to battery or chassis. */
    private static void joinToVehicle(Node lead, Defect defect, List<Proposal> into) {
        String point = lead.isFor(BATTERY) ? Sources.BATTERY : lead.isFor(GROUND) ? Sources.CHASSIS : null;
        Conductor conductor = defect.thickestAt(lead.owner());
        if (point != null && conductor != null && Affinity.isOpen(lead.facts())) {
            into.add(new Proposal(
                    "Connect " + lead + " to " + point + ".",
                    COST_BY_NEAR_FUNCTION,
                    defect.edit().join(lead.ref(), point, conductor, Sizing.NEAR, null)));
        }
    }

    /** A loose end of a coil goes to the same side of the output that drives its other end or its neighbours. */
    private static void joinToOutput(Node end, Electrical.SpeakerIn in, Defect defect, List<Proposal> into) {
        for (Node output : defect.network().nodes()) {
            if (output.facts() instanceof Electrical.SpeakerOut out
                    && defect.network().isConnected(output)
                    && out.side() == in.side()
                    && (out.channel() == null
                            || in.channel() == null
                            || out.channel().agreesWith(in.channel()))) {
                into.add(new Proposal(
                        "Connect " + end + " to " + output + ".",
                        COST_BY_NEAR_FUNCTION,
                        defect.edit().light(end.ref(), output.ref())));
            }
        }
    }
}
