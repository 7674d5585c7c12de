package dev.splicebook.hookup.mend;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Connection;
import dev.splicebook.hookup.Connection.Conductor;
import dev.splicebook.hookup.Connection.WireFuse;
import dev.splicebook.hookup.Device;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Stock;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Node;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** A conductor gets a fuse, another rating, a fuse nearer its source, or a thicker conductor behind the fuse it needs. */
@AutoService(Change.class)
public final class ChangeFuse implements Change {

    @Override
    public Set<String> rules() {
        return Set.of(
                "fuse-missing", "fuse-too-far", "fuse-exceeds-conductor", "fuse-below-load", "conductor-too-small");
    }

    @Override
    public List<Proposal> propose(Defect defect) {
        List<Proposal> proposals = new ArrayList<>();
        for (Link wire : defect.wires()) {
            Connection connection = wire.connection();
            Conductor conductor = connection == null ? null : connection.conductor();
            // a fuse in a lead to ground would leave the part to return by its signal leads
            boolean leadsToGround = defect.network().netOf(wire.from()).stream().anyMatch(Node::isReference);
            WireFuse fuse = connection == null ? null : connection.fuse();
            if (fuse != null && leadsToGround && defect.rule().equals("fuse-below-load")) {
                proposals.add(new Proposal(
                        "Take the fuse out of " + wire.ref() + ": a lead to ground needs none.",
                        2,
                        defect.edit().fuse(String.valueOf(wire.ref()), null)));
            }
            if (connection == null || conductor == null || leadsToGround) {
                continue;
            }
            if (fuse != null && defect.rule().equals("fuse-too-far")) {
                proposals.add(new Proposal(
                        "Move the fuse of " + wire.ref() + " to within 10 cm of its source.",
                        2,
                        defect.edit()
                                .fuse(
                                        String.valueOf(wire.ref()),
                                        Sizing.fuse(fuse.ratingAmps(), connection.length()))));
                continue;
            }
            proposeRatings(wire, connection, conductor, defect, proposals);
        }
        return proposals;
    }

    private static void proposeRatings(
            Link wire, Connection connection, Conductor conductor, Defect defect, List<Proposal> into) {
        if (feedsFactoryCircuit(wire, defect)) {
            return;
        }
        String ref = String.valueOf(wire.ref());
        double ampacity = Sizing.ampacity(conductor);
        double wanted = wantedAmps(wire, conductor, defect);
        WireFuse was = connection.fuse();
        if (wanted <= ampacity) {
            into.add(new Proposal(
                    (was == null
                                    ? "Put a "
                                    : "Change the " + Sizing.rating(was.ratingAmps()) + " fuse of " + ref + " for a ")
                            + Sizing.rating(wanted) + " fuse"
                            + (was == null ? " into " + ref + ", " + place(wire) : "") + ".",
                    was == null ? 3 : 2,
                    defect.edit().fuse(ref, fuse(wanted, was, connection))));
            if (was == null) {
                proposeHolder(wire, ref, wanted, ampacity, defect, into);
            }
            return;
        }
        Conductor thicker = Sizing.thicker(conductor).stream()
                .filter(one -> Sizing.ampacity(one) >= wanted)
                .findFirst()
                .orElse(null);
        if (thicker != null) {
            into.add(new Proposal(
                    "Lay " + ref + " in " + thicker.size() + " behind a " + Sizing.rating(wanted) + " fuse.",
                    5,
                    defect.edit().conductor(ref, thicker).fuse(ref, fuse(wanted, was, connection))));
        }
    }

    /** Whether a circuit of the vehicle hangs behind a conductor, of which nobody here knows what it takes. */
    private static boolean feedsFactoryCircuit(Link wire, Defect defect) {
        Node from = isSource(wire.to()) ? wire.from() : wire.to();
        return behind(from, wire, defect).stream()
                .anyMatch(node -> node.isVehicle()
                        && node.role() != Node.Role.REFERENCE
                        && !isSource(node)
                        && !(node.facts() instanceof Electrical.Load));
    }

    private static WireFuse fuse(double ratingAmps, @Nullable WireFuse was, Connection connection) {
        return was == null ? Sizing.fuse(ratingAmps, connection.length()) : new WireFuse(ratingAmps, was.fromSource());
    }

    /** A holder of the stock, at the source's end of the conductor. */
    private static void proposeHolder(
            Link wire, String ref, double wanted, double ampacity, Defect defect, List<Proposal> into) {
        Node source = isSource(wire.from()) ? wire.from() : isSource(wire.to()) ? wire.to() : null;
        if (source == null) {
            return;
        }
        defect.stock("fuse-holder").stream()
                .filter(item -> item.device().fuses().size() == 1
                        && item.device().fuses().get(0).ratingAmps() >= wanted
                        && item.device().fuses().get(0).ratingAmps() <= ampacity)
                .min(java.util.Comparator.comparingDouble(
                        item -> item.device().fuses().get(0).ratingAmps()))
                .ifPresent(item -> into.add(holder(source, ref, item, defect)));
    }

    private static Proposal holder(Node source, String ref, Stock.Item item, Defect defect) {
        Edit edit = defect.edit();
        Device.Fuse inside = item.device().fuses().get(0);
        String part = edit.add("FUSE", item);
        Conductor conductor = edit.wire(ref).conductor();
        edit.move(ref, source.ref(), part + "." + inside.between().get(1));
        edit.join(source.ref(), part + "." + inside.between().get(0), conductor, Sizing.NEAR, null);
        return new Proposal(
                "Put a holder with a " + Sizing.rating(inside.ratingAmps()) + " fuse between " + source.ref() + " and "
                        + ref + ".",
                4,
                edit);
    }

    /** Where a fuse goes: of two ends, neither or both of which are a supply, the one that the current comes from. */
    private static String place(Link wire) {
        return isSource(wire.from()) == isSource(wire.to())
                ? "at its source"
                : "close to " + (isSource(wire.from()) ? wire.from() : wire.to());
    }

    private static boolean isSource(Node node) {
        return node.facts() instanceof Electrical.Supply;
    }

    /**
     * The least rating that bears all that hangs behind a conductor; what the conductor takes, if another source hangs there,
     * as batteries charge each other with what they like; 1 A if nothing is known of it.
     */
    private static double wantedAmps(Link wire, Conductor conductor, Defect defect) {
        Node from = isSource(wire.to()) ? wire.from() : wire.to();
        double typical = 0;
        double most = 0;
        boolean joinsSources = isSource(wire.from()) && isSource(wire.to());
        for (Node node : behind(from, wire, defect)) {
            joinsSources |= defect.network().linksOf(node).stream()
                    .anyMatch(link -> link != wire
                            && (link.passesFrom(node)
                                    ? isSource(link.across(node))
                                    : link.kind() == Link.Kind.DIODE && isFed(link.across(node), defect)));
            if (node.facts() instanceof Electrical.Load load) {
                typical += load.typicalAmps() == null ? 0 : load.typicalAmps();
                most += Sources.amps(load);
            } else if (node.facts() instanceof Electrical.ControlIn in && in.amps() != null) {
                typical += in.amps();
                most += in.amps();
            }
        }
        return joinsSources ? Sizing.ratingOf(conductor) : Sizing.ratingFor(typical, most);
    }

    /** Whether a source stands there, so that a diode from there feeds, and none across a coil is taken for that. */
    private static boolean isFed(Node node, Defect defect) {
        return defect.network().netOf(node).stream().anyMatch(ChangeFuse::isSource);
    }

    private static Set<Node> behind(Node start, Link wire, Defect defect) {
        Set<Node> seen = new LinkedHashSet<>(Set.of(start));
        ArrayDeque<Node> queue = new ArrayDeque<>(seen);
        while (!queue.isEmpty()) {
            Node at = queue.remove();
            for (Link link : defect.network().linksOf(at)) {
                Node next = link.across(at);
                if (link != wire
                        && link.passesFrom(at)
                        && next.role() != Node.Role.REFERENCE
                        && !isSource(next)
                        && seen.add(next)) {
                    queue.add(next);
                }
            }
        }
        return seen;
    }
}
