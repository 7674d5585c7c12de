package dev.splicebook.hookup.mend;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Connection.Conductor;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.mend.Defect.Lead;
import dev.splicebook.hookup.net.Coil;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Node;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** Leads that were taken for each other change places: the two of a pair, those of two channels, of two feeds, of a coil. */
@AutoService(Change.class)
public final class SwapLeads implements Change {

    private static final Set<String> FEEDS =
            Set.of("switched-load-on-constant-supply", "constant-load-on-switched-supply");

    private static final int MOST_LEADS = 10;

    /** Of the area of a power run over that of a signal lead: six sizes of AWG. */
    private static final double MOST_RATIO = 4.1;

    private static final int MOST_SORTED = 16;

    /** Of an amplifier and a converter before it. */
    private static final int MOST_BEFORE = 3;

    @Override
    public Set<String> rules() {
        return Set.of(
                "polarity-reversed",
                "channels-swapped",
                "pair-half-connected",
                "constant-load-on-switched-supply",
                "switched-load-on-constant-supply",
                "supply-shorted-to-ground",
                "outputs-tied",
                "control-polarity-mismatch",
                "function-mismatched",
                "coil-unclamped",
                "bus-disturbed",
                "signal-type-mismatch",
                "control-never-active",
                "load-without-supply",
                "load-without-ground");
    }

    @Override
    public List<Proposal> propose(Defect defect) {
        List<Proposal> proposals = new ArrayList<>();
        sortAudio(defect, proposals);
        turnCoils(defect, proposals);
        List<Lead> leads = leads(defect);
        for (int one = 0; one < leads.size(); one++) {
            for (int other = one + 1; other < leads.size(); other++) {
                Lead a = leads.get(one);
                Lead b = leads.get(other);
                boolean alike = defect.rule().equals("signal-type-mismatch")
                        && isPicture(a.near()) == isPicture(b.near())
                        && isReturnOfPicture(a.near()) == isReturnOfPicture(b.near());
                if (!alike
                        && !(FEEDS.contains(defect.rule()) && isCoilAndContact(a, b, defect))
                        && a.wire() != b.wire()
                        && a.near() != b.near()
                        && a.far() != b.far()
                        && !losesItsRun(a, b)
                        && !losesItsRun(b, a)
                        && a.near().owner().equals(b.near().owner())) {
                    proposals.add(swap(a, b, defect));
                }
            }
        }
        return proposals;
    }

    private static boolean isPicture(Node node) {
        return node.facts() instanceof Electrical.Video;
    }

    private static boolean isReturnOfPicture(Node node) {
        return node.facts() instanceof Electrical.Video video && video.isReturn();
    }

    /** The minus of a pair, and a return. */
    private static boolean isNamedLast(Node node) {
        return node.facts() instanceof Electrical.Ground
                || (node.audio() != null
                        && node.audio().side() != null
                        && !node.audio().side().isPositive());
    }

    /** Whether the power run of a load or ground would end at what takes next to nothing, and the load on that one's thin lead. */
    private static boolean losesItsRun(Lead power, Lead other) {
        Conductor run = conductor(power.wire());
        Conductor thin = conductor(other.wire());
        return takesPower(power.near())
                && !takesPower(other.near())
                && run != null
                && thin != null
                && run.size().areaMm2() > MOST_RATIO * thin.size().areaMm2();
    }

    private static boolean takesPower(Node node) {
        return node.facts() instanceof Electrical.Load || node.facts() instanceof Electrical.Ground;
    }

    private static @Nullable Conductor conductor(Link wire) {
        return wire.connection() == null ? null : wire.connection().conductor();
    }

    /** A coil that gets what the contact had is no relay any more. */
    private static boolean isCoilAndContact(Lead a, Lead b, Defect defect) {
        return isCoil(a.near(), defect) != isCoil(b.near(), defect)
                && isContact(a.near(), defect) != isContact(b.near(), defect);
    }

    private static boolean isCoil(Node node, Defect defect) {
        return defect.network().coils().stream().anyMatch(coil -> coil.one() == node || coil.other() == node);
    }

    private static boolean isContact(Node node, Defect defect) {
        return defect.network().linksOf(node).stream()
                .anyMatch(link -> link.kind().isContact());
    }

    private static Proposal swap(Lead a, Lead b, Defect defect) {
        if (isNamedLast(a.near()) && !isNamedLast(b.near())) {
            return swap(b, a, defect);
        }
        boolean several =
                defect.wiresAt(a.near()).size() > 1 || defect.wiresAt(b.near()).size() > 1;
        return new Proposal(
                "Swap the leads of " + a.near() + " and " + b.near()
                        + (several ? " that come from " + a.far() + " and " + b.far() : "") + ".",
                2,
                defect.edit()
                        .move(a.ref(), a.near().ref(), b.near().ref())
                        .move(b.ref(), b.near().ref(), a.near().ref()));
    }

    /** Leads at the terminals, and at those of the same parts that want power, coils and diodes, or pictures beside sound. */
    private static List<Lead> leads(Defect defect) {
        Set<Node> nodes = new LinkedHashSet<>();
        Set<String> owners = new LinkedHashSet<>();
        for (Node node : defect.terminals()) {
            if (!node.isVehicle()) {
                nodes.add(node);
                owners.add(node.owner());
            }
        }
        for (Link wire : defect.wires()) {
            for (Node node : List.of(wire.from(), wire.to())) {
                if (!node.isVehicle()) {
                    nodes.add(node);
                    owners.add(node.owner());
                }
            }
        }
        boolean audio = nodes.stream().anyMatch(node -> node.audio() != null);
        for (String owner : owners) {
            if (!audio) {
                defect.network().nodesOf(owner).stream()
                        .filter(node -> node.facts() instanceof Electrical.Load
                                || node.facts() instanceof Electrical.ControlIn
                                || node.facts() instanceof Electrical.Ground
                                || node.facts() instanceof Electrical.Data)
                        .forEach(nodes::add);
            }
        }
        if (defect.rule().equals("signal-type-mismatch")) {
            // sound where a picture belongs has most often changed places with it
            owners.forEach(owner -> defect.network().nodesOf(owner).stream()
                    .filter(node -> node.audio() != null || isPicture(node))
                    .sorted(Comparator.comparing(node -> !isPicture(node)))
                    .forEach(nodes::add));
        }
        for (Coil coil : defect.network().coils()) {
            if (owners.contains(coil.part())) {
                nodes.add(coil.one());
                nodes.add(coil.other());
            }
        }
        List<Lead> leads = new ArrayList<>();
        for (Node node : nodes) {
            for (Link wire : defect.wiresAt(node)) {
                if (!Defect.isParkingBrakeInput(node) && leads.size() < MOST_LEADS) {
                    leads.add(new Lead(wire, node));
                }
            }
        }
        return leads;
    }

    /** Every lead at an audio input goes to where its own side and channel come from: at the ends, or before what feeds them. */
    private static void sortAudio(Defect defect, List<Proposal> into) {
        if (!defect.rule().equals("channels-swapped")) {
            sortAudio(defect.terminals(), defect, into);
            return;
        }
        Set<Node> ends = withTheirLike(defect);
        Set<String> givers = givers(defect.terminals(), defect);
        for (int before = 0; before < MOST_BEFORE && !sortAudio(ends, defect, into); before++) {
            ends = new LinkedHashSet<>();
            for (String giver : givers) {
                ends.addAll(defect.network().nodesOf(giver));
            }
            givers = givers(ends, defect);
        }
    }

    /** Whether any of the leads is where it does not belong. */
    private static boolean sortAudio(Collection<Node> ends, Defect defect, List<Proposal> into) {
        List<Lead> leads = new ArrayList<>();
        for (Node node : ends) {
            if (node.audio() != null
                    && !node.audio().isOutput()
                    && defect.wiresAt(node).size() == 1
                    && leads.size() < MOST_SORTED) {
                leads.add(new Lead(defect.wiresAt(node).get(0), node));
            }
        }
        Map<Lead, Lead> takesFrom = new LinkedHashMap<>();
        // what is of the very channel first, as centre and subwoofer agree with all
        for (boolean exactly : new boolean[] {true, false}) {
            for (Lead lead : leads) {
                leads.stream()
                        .filter(other -> !takesFrom.containsKey(lead)
                                && !takesFrom.containsValue(other)
                                && brings(other, lead.near(), exactly, defect))
                        .findFirst()
                        .ifPresent(other -> takesFrom.put(lead, other));
            }
        }
        List<Lead> moved = takesFrom.entrySet().stream()
                .filter(entry -> !entry.getKey().equals(entry.getValue()))
                .map(Map.Entry::getKey)
                .toList();
        if (moved.isEmpty() || takesFrom.size() != leads.size()) {
            return !moved.isEmpty();
        }
        Edit edit = defect.edit();
        List<String> told = new ArrayList<>();
        for (Lead lead : moved) {
            Lead from = takesFrom.get(lead);
            if (from != null) {
                String far = from.far().ref();
                edit.move(lead.ref(), lead.far().ref(), far);
                told.add(lead.near() + " to " + far);
            }
        }
        into.add(new Proposal("Connect " + String.join(", ", told) + ".", 1 + moved.size() * 0.5, edit));
        return true;
    }

    /** The parts whose outputs are on the nets of some inputs. */
    private static Set<String> givers(Collection<Node> ends, Defect defect) {
        Set<String> givers = new LinkedHashSet<>();
        for (Node end : ends) {
            if (end.audio() != null && !end.audio().isOutput()) {
                defect.network().netOf(end).stream()
                        .filter(other -> other.audio() != null && other.audio().isOutput())
                        .forEach(other -> givers.add(other.owner()));
            }
        }
        return givers;
    }

    /** The terminals of the finding, and every input that hangs on an output of the same parts, in other parts too. */
    private static Set<Node> withTheirLike(Defect defect) {
        Set<String> givers = givers(defect.terminals(), defect);
        Set<Node> all = new LinkedHashSet<>(defect.terminals());
        for (Node node : defect.network().nodes()) {
            if (node.audio() != null
                    && !node.audio().isOutput()
                    && defect.network().netOf(node).stream()
                            .anyMatch(other -> other.audio() != null
                                    && other.audio().isOutput()
                                    && givers.contains(other.owner()))) {
                all.add(node);
            }
        }
        return all;
    }

    /** Everything at one end of a coil goes to its other end, and the reverse. */
    private static void turnCoils(Defect defect, List<Proposal> into) {
        List<Node> ends = defect.terminals().stream()
                .filter(node -> node.facts() instanceof Electrical.SpeakerIn)
                .toList();
        for (Node plus : ends) {
            for (Node minus : ends) {
                if (isCoilOf(plus, minus)
                        && defect.wiresAt(plus).size() + defect.wiresAt(minus).size() > 2) {
                    Edit edit = defect.edit();
                    moveAll(plus, minus, defect, edit);
                    moveAll(minus, plus, defect, edit);
                    into.add(new Proposal("Swap all leads of " + plus + " and " + minus + ".", 3, edit));
                }
            }
        }
    }

    private static boolean isCoilOf(Node plus, Node minus) {
        return plus.facts() instanceof Electrical.SpeakerIn one
                && minus.facts() instanceof Electrical.SpeakerIn other
                && plus.owner().equals(minus.owner())
                && one.side() != null
                && other.side() != null
                && one.side().isPositive()
                && !other.side().isPositive()
                && Objects.equals(one.channel(), other.channel())
                && Objects.equals(one.coil(), other.coil());
    }

    private static void moveAll(Node from, Node to, Defect defect, Edit edit) {
        for (Link wire : defect.wiresAt(from)) {
            if (wire.across(from) != to) {
                edit.move(String.valueOf(wire.ref()), from.ref(), to.ref());
            }
        }
    }

    private static boolean brings(Lead lead, Node input, boolean exactly, Defect defect) {
        return defect.joinedWithout(lead.far(), lead.wire()).stream()
                .anyMatch(node -> node.audio() != null
                        && node.audio().isOutput()
                        && node.audio().side() != null
                        && input.audio() != null
                        && input.audio().side() != null
                        && (node.facts() instanceof Electrical.SpeakerOut)
                                == (input.facts() instanceof Electrical.SpeakerIn)
                        && node.audio().side().isPositive()
                                == input.audio().side().isPositive()
                        && (exactly
                                ? node.audio().channel() == input.audio().channel()
                                : node.audio().channel() == null
                                        || input.audio().channel() == null
                                        || node.audio()
                                                .channel()
                                                .agreesWith(input.audio().channel())));
    }
}
