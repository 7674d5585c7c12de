package dev.splicebook.hookup.mend;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Device;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.mend.Defect.Place;
import dev.splicebook.hookup.net.Coil;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Node;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;

/** A coil is fed from elsewhere: before the contact that it switches itself, or from what sleeps; or it returns to ground. */
@AutoService(Change.class)
public final class MoveCoil implements Change {

    /** Of a vehicle that charges its battery, at most. */
    private static final double MOST_VOLTS = 15;

    @Override
    public Set<String> rules() {
        return Set.of(
                "relay-restless",
                "switched-load-on-constant-supply",
                "control-always-active",
                "control-overloaded",
                "parasitic-draw-excessive",
                "line-back-fed",
                "supplies-tied",
                "load-without-supply",
                "control-never-active",
                "undervoltage");
    }

    @Override
    public List<Proposal> propose(Defect defect) {
        return switch (defect.rule()) {
            case "relay-restless" -> proposeBeforeContact(defect);
            case "line-back-fed" -> proposeGround(defect);
            case "load-without-supply", "control-never-active" -> {
                Set<String> relays = defect.relaysAhead();
                yield proposeFeed(coil -> relays.contains(coil.part()) && !pulls(coil, defect), defect);
            }
            case "undervoltage" ->
                proposeFeed(coil -> defect.terminals().contains(coil.one()) && pulls(coil, defect), defect);
            default -> proposeSwitched(defect);
        };
    }

    /** The coil that lets current into a line returns to ground instead. */
    private static List<Proposal> proposeGround(Defect defect) {
        List<Proposal> proposals = new ArrayList<>();
        for (Coil coil : defect.network().coils()) {
            for (Node end : List.of(coil.one(), coil.other())) {
                boolean grounded = defect.network().netOf(end == coil.one() ? coil.other() : coil.one()).stream()
                        .anyMatch(Node::isReference);
                for (Link wire : grounded ? List.<Link>of() : defect.wiresAt(end)) {
                    Node line = wire.across(end);
                    if (defect.wires().contains(wire) && line.givesTwelveVolts()) {
                        proposals.add(new Proposal(
                                returned(coil, end, line),
                                2,
                                defect.edit()
                                        .move(String.valueOf(wire.ref()), line.ref(), Sources.CHASSIS)
                                        .fuse(String.valueOf(wire.ref()), null)));
                    }
                }
            }
        }
        return proposals;
    }

    private static String returned(Coil coil, Node end, Node line) {
        return "Return the coil of " + coil.part() + " to ground: " + end.ref() + " to " + Sources.CHASSIS + ", not to "
                + line.ref() + ".";
    }

    private static boolean isFed(Node end, Defect defect) {
        return defect.network().netOf(end).stream().anyMatch(Node::givesTwelveVolts);
    }

    /** What a coil takes at most; what is usual where its ohms are unknown. */
    static double mostAmps(Coil coil) {
        return coil.ohms() == null ? AddRelay.COIL_AMPS : MOST_VOLTS / coil.ohms();
    }

    /** Whether a node is what the relay of a coil switches on when it pulls in. */
    private static boolean isOwnContact(Node node, Coil coil, Defect defect) {
        return defect.network().linksOf(node).stream()
                .anyMatch(link ->
                        link.kind() == Link.Kind.OPEN_CONTACT && link.relay() == coil.relay() && link.to() == node);
    }

    /** The coil of a relay on the way gets a feed that sleeps with the vehicle, or no longer one by its own contact. */
    private static List<Proposal> proposeSwitched(Defect defect) {
        Set<String> parts = new HashSet<>();
        defect.terminals().forEach(node -> parts.add(node.owner()));
        defect.wires().forEach(wire -> {
            parts.add(wire.from().owner());
            parts.add(wire.to().owner());
        });
        parts.addAll(defect.relaysAhead());
        List<Proposal> proposals = new ArrayList<>();
        for (Coil coil : defect.network().coils()) {
            for (Node end : parts.contains(coil.part()) ? List.of(coil.one(), coil.other()) : List.<Node>of()) {
                for (Link wire : defect.wiresAt(end)) {
                    Node from = wire.across(end);
                    boolean weak = from.facts() instanceof Electrical.ControlOut
                            && defect.rule().equals("control-overloaded");
                    if (weak || from.facts() instanceof Electrical.Supply) {
                        proposeSwitched(coil, end, wire, from, defect, proposals);
                    } else if (isOwnContact(from, coil, defect)) {
                        proposals.add(new Proposal(
                                "Take off " + wire.ref() + ", between " + from + " and " + end
                                        + ", by which the relay holds itself.",
                                2,
                                defect.edit().without(String.valueOf(wire.ref()))));
                    }
                }
            }
        }
        if (!defect.rule().equals("control-overloaded")) {
            addParting(parts, defect, proposals);
        }
        return proposals;
    }

    private static boolean pulls(Coil coil, Defect defect) {
        return defect.network().scenarios().stream().anyMatch(scenario -> scenario.isEnergised(coil));
    }

    /** A coil that gets nothing, or too little, gets a switched feed in place of what is at one of its ends. */
    private static List<Proposal> proposeFeed(Predicate<Coil> lacks, Defect defect) {
        List<Proposal> proposals = new ArrayList<>();
        for (Coil coil : defect.network().coils()) {
            if (!lacks.test(coil)) {
                continue;
            }
            for (Node end : List.of(coil.one(), coil.other())) {
                Node other = end == coil.one() ? coil.other() : coil.one();
                boolean grounded = defect.network().netOf(other).stream().anyMatch(Node::isReference);
                List<Link> wires = defect.wiresAt(end);
                if (grounded && wires.size() == 1) {
                    proposeSwitched(coil, end, wires.get(0), wires.get(0).across(end), defect, proposals);
                } else if (wires.size() == 1 && isFed(end, defect) && isFed(other, defect)) {
                    Node line = wires.get(0).across(end);
                    String ref = String.valueOf(wires.get(0).ref());
                    proposals.add(new Proposal(
                            returned(coil, end, line),
                            Sources.isConstant(line.facts()) ? 2 : 2.5,
                            defect.edit().move(ref, line.ref(), Sources.CHASSIS).fuse(ref, null)));
                }
            }
        }
        return proposals;
    }

    /** Takes off what a contact passes on to a coil, by which a relay keeps itself pulled, or another. */
    private static void addParting(Set<String> parts, Defect defect, List<Proposal> into) {
        for (Coil coil : defect.network().coils()) {
            for (Link contact : defect.network().links()) {
                boolean onTheWay = parts.contains(coil.part())
                        || parts.contains(contact.to().owner());
                if (contact.kind() != Link.Kind.OPEN_CONTACT || !onTheWay) {
                    continue;
                }
                boolean own = contact.relay() == coil.relay();
                for (Link wire : defect.wiresAt(contact.to())) {
                    Node to = wire.across(contact.to());
                    // a wire straight to its own coil is taken off above
                    if (leadsTo(to, coil, defect) && !(own && isEnd(to, coil))) {
                        into.add(new Proposal(
                                "Take off " + wire.ref() + ", between " + contact.to() + " and " + to + ", by which "
                                        + contact.to().owner() + " keeps " + (own ? "itself" : coil.part())
                                        + " pulled.",
                                2.5,
                                defect.edit().without(String.valueOf(wire.ref()))));
                    }
                }
            }
        }
    }

    private static boolean isEnd(Node node, Coil coil) {
        return node == coil.one() || node == coil.other();
    }

    /** Whether a node is an end of a coil, or a diode stands between. */
    private static boolean leadsTo(Node node, Coil coil, Defect defect) {
        List<Node> ends = List.of(coil.one(), coil.other());
        return isEnd(node, coil)
                || defect.network().linksOf(node).stream()
                        .anyMatch(link -> link.kind() == Link.Kind.DIODE
                                && link.from() == node
                                && ends.stream()
                                        .anyMatch(end -> end.net() == link.to().net()));
    }

    private static void proposeSwitched(Coil coil, Node end, Link wire, Node from, Defect defect, List<Proposal> into) {
        for (Place place : Sources.forCoil(coil, from.ref(), defect)) {
            Edit edit = defect.edit().move(String.valueOf(wire.ref()), from.ref(), place.ref());
            if (place.facts() instanceof Electrical.ControlOut) {
                edit.fuse(String.valueOf(wire.ref()), null);
            }
            into.add(new Proposal(
                    "Move the lead of " + end + " from " + from + " to " + place.ref()
                            + (from.facts() instanceof Electrical.Supply
                                    ? ", so that the relay rests when the vehicle does."
                                    : "."),
                    2,
                    edit));
        }
    }

    private static List<Proposal> proposeBeforeContact(Defect defect) {
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
