package dev.splicebook.hookup.rule;

import dev.splicebook.electrics.Ampacity;
import dev.splicebook.electrics.ConductorMaterial;
import dev.splicebook.hookup.Connection;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.net.Coil;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.PriorityQueue;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** Follows the conductors that leave a supply, with what protects them. */
final class Conductors {

    /** Insulation where a connection states none. */
    static final double INSULATION_CELSIUS = 105;

    /** Current without a limit: nothing protects. */
    static final double UNFUSED = Double.POSITIVE_INFINITY;

    private Conductors() {}

    /**
     * A conductor as a supply reaches it.
     *
     * @param protectionAmps of what stands before it, {@link #UNFUSED} for nothing, NaN where unknown or without a figure
     * @param afterConductor whether another conductor lies between it and what protects it
     * @param bearableAmps what the thinnest of those conductors takes; infinity for none, or none of known size
     */
    record Exposed(Link link, Node near, double protectionAmps, boolean afterConductor, double bearableAmps) {}

    /** What protects at the terminal of a supply: a rating, {@link #UNFUSED}, or NaN where that is unknown. */
    static double protectionAmps(Node supply, Network network) {
        Electrical.Supply facts = (Electrical.Supply) supply.facts();
        if (facts == null) {
            throw new IllegalArgumentException(supply + " is no supply");
        }
        if (facts.fuseAmps() != null) {
            return facts.fuseAmps();
        }
        if (Boolean.TRUE.equals(facts.limited())) {
            return facts.maxAmps() == null ? Double.NaN : facts.maxAmps();
        }
        return network.isBattery(supply) ? UNFUSED : Double.NaN;
    }

    /** Whether a supply is known to protect what leaves it, though perhaps without a figure. */
    static boolean isProtected(Node supply) {
        return supply.facts() instanceof Electrical.Supply facts
                && (facts.fuseAmps() != null || Boolean.TRUE.equals(facts.limited()));
    }

    private record Stand(Node node, double protectionAmps, boolean afterConductor, double bearableAmps) {}

    /**
     * Every conductor that a supply can push current through, each once, with the weakest protection before it. What lies
     * behind another supply that can push as much is that one's.
     */
    static List<Exposed> from(Node supply, Network network) {
        List<Exposed> exposed = new ArrayList<>();
        settle(supply, network, exposed);
        return exposed;
    }

    /** The weakest protection between a supply and a node that it reaches; infinite if there is none, NaN if unknown. */
    static double protectionAt(Node node, Node supply, Network network) {
        return settle(supply, network, new ArrayList<>()).getOrDefault(node, Double.NaN);
    }

    /** The weakest protection before each node that a supply reaches, with the conductors on the ways. */
    private static Map<Node, Double> settle(Node supply, Network network, List<Exposed> exposed) {
        Map<Node, Double> settled = new HashMap<>();
        Set<Link> seen = new HashSet<>();
        // the weakest protection first, NaN before all, so that each node is met with the worst that can flow to it; of
        // equals the way of the thickest conductors, against which a thinner one shows
        PriorityQueue<Stand> queue = new PriorityQueue<>(Comparator.comparingDouble(Stand::protectionAmps)
                .thenComparingDouble(Stand::bearableAmps)
                .reversed());
        queue.add(new Stand(supply, protectionAmps(supply, network), false, Double.POSITIVE_INFINITY));
        while (!queue.isEmpty()) {
            Stand at = queue.remove();
            // at a ground the current has arrived; what leaves from there are returns
            if (settled.putIfAbsent(at.node(), at.protectionAmps()) != null
                    || at.node().isReference()
                    || (at.node() != supply && pushesAsMuch(at, network))) {
                continue;
            }
            for (Link link : network.linksOf(at.node())) {
                if (link.kind() == Link.Kind.RESISTOR || !link.passesFrom(at.node())) {
                    continue;
                }
                Node next = link.across(at.node());
                boolean conductor = link.kind() == Link.Kind.CONNECTION;
                if (conductor && seen.add(link)) {
                    exposed.add(
                            new Exposed(link, at.node(), at.protectionAmps(), at.afterConductor(), at.bearableAmps()));
                }
                double protection = at.protectionAmps();
                if (link.hasFuse() && !(protection <= link.fuseAmps())) {
                    protection = link.fuseAmps();
                }
                boolean after = conductor || (at.afterConductor() && !link.hasFuse());
                double bearable = link.hasFuse() ? Double.POSITIVE_INFINITY : at.bearableAmps();
                Double ampacity = conductor ? ampacity(link.connection()) : null;
                queue.add(
                        new Stand(next, protection, after, ampacity == null ? bearable : Math.min(bearable, ampacity)));
            }
        }
        return settled;
    }

    private static boolean pushesAsMuch(Stand at, Network network) {
        return at.node().facts() instanceof Electrical.Supply
                && protectionAmps(at.node(), network) >= at.protectionAmps();
    }

    /**
     * The end of each fused conductor that its fuse sits at: the one that is fed; of two the one whose source is protected the
     * least, of equals the one with fewer links to it, and then the one that the vehicle's battery feeds. Fuses on the way do
     * not count, so that a fuse stays where it is while others come and go. Conductors that nothing feeds are absent.
     */
    static Map<Link, Node> fuseEnds(Reading reading) {
        Map<Link, Map<Node, Set<Node>>> fed = new HashMap<>();
        for (Node supply : reading.network().sources()) {
            if (supply.facts() instanceof Electrical.Supply) {
                for (Exposed exposed : reading.exposedTo(supply)) {
                    if (exposed.link().hasFuse()) {
                        fed.computeIfAbsent(exposed.link(), link -> new HashMap<>())
                                .computeIfAbsent(exposed.near(), end -> new LinkedHashSet<>())
                                .add(supply);
                    }
                }
            }
        }
        Map<Node, Map<Node, Integer>> distances = new HashMap<>();
        Map<Link, Node> ends = new HashMap<>();
        fed.forEach((link, byEnd) -> {
            Set<Node> one = byEnd.get(link.from());
            Set<Node> other = byEnd.get(link.to());
            if (one == null || other == null) {
                ends.put(link, one == null ? link.to() : link.from());
            } else {
                boolean atFrom = nearest(link.from(), link, one, distances, reading.network())
                                .compareTo(nearest(link.to(), link, other, distances, reading.network()))
                        <= 0;
                ends.put(link, atFrom ? link.from() : link.to());
            }
        });
        return ends;
    }

    /**
     * A source as one end of a conductor has it.
     *
     * @param protectionAmps of the source itself, -1 where unknown
     * @param links between
     */
    private record Fed(double protectionAmps, int links, boolean vehicle) implements Comparable<Fed> {

        private static final Comparator<Fed> NEAREST = Comparator.comparingDouble(Fed::protectionAmps)
                .reversed()
                .thenComparingInt(Fed::links)
                .thenComparing(fed -> !fed.vehicle());

        @Override
        public int compareTo(Fed other) {
            return NEAREST.compare(this, other);
        }
    }

    private static Fed nearest(
            Node end, Link conductor, Set<Node> supplies, Map<Node, Map<Node, Integer>> distances, Network network) {
        return supplies.stream()
                .map(supply -> {
                    double protection = protectionAmps(supply, network);
                    int links = distances
                            .computeIfAbsent(supply, key -> distances(key, network))
                            .getOrDefault(end, Integer.MAX_VALUE);
                    return new Fed(
                            Double.isNaN(protection) ? -1 : protection, links, supply.role() == Node.Role.REFERENCE);
                })
                .min(Comparator.naturalOrder())
                .orElseThrow(() -> new IllegalArgumentException("nothing feeds " + conductor.ref()));
    }

    /** Links from a source to each node that it reaches. */
    private static Map<Node, Integer> distances(Node supply, Network network) {
        Map<Node, Integer> distances = new HashMap<>(Map.of(supply, 0));
        ArrayDeque<Node> queue = new ArrayDeque<>(distances.keySet());
        while (!queue.isEmpty()) {
            Node at = queue.remove();
            int next = distances.getOrDefault(at, 0) + 1;
            if (at != supply && at.isReference()) {
                continue;
            }
            for (Link link : network.linksOf(at)) {
                if (link.kind() != Link.Kind.RESISTOR
                        && link.passesFrom(at)
                        && distances.putIfAbsent(link.across(at), next) == null) {
                    queue.add(link.across(at));
                }
            }
        }
        return distances;
    }

    /** Whether all that an unfused conductor leads to, from its far end, is a fuse. */
    static boolean leadsToFuse(Link conductor, Node near, Network network) {
        return !Double.isNaN(fusesAhead(conductor, near, network));
    }

    /** What the fuses let pass that are all that an unfused conductor leads to, together; NaN if it leads elsewhere. */
    static double fusesAhead(Link conductor, Node near, Network network) {
        Set<Node> seen = new HashSet<>();
        Set<Link> fuses = new HashSet<>();
        ArrayDeque<Node> queue = new ArrayDeque<>();
        queue.add(conductor.across(near));
        seen.add(near);
        seen.add(conductor.across(near));
        while (!queue.isEmpty()) {
            Node at = queue.remove();
            if (isConsumer(at, network)) {
                return Double.NaN;
            }
            for (Link link : network.linksOf(at)) {
                if (link == conductor) {
                    continue;
                }
                if (link.hasFuse()) {
                    fuses.add(link);
                } else if (!link.kind().isSolid()) {
                    return Double.NaN;
                } else if (seen.add(link.across(at))) {
                    queue.add(link.across(at));
                }
            }
        }
        return fuses.isEmpty()
                ? Double.NaN
                : fuses.stream().mapToDouble(Link::fuseAmps).sum();
    }

    private static boolean isConsumer(Node node, Network network) {
        if (node.facts() != null && !(node.facts() instanceof Electrical.Passive)) {
            return true;
        }
        for (Coil coil : network.coils()) {
            if (coil.one() == node || coil.other() == node) {
                return true;
            }
        }
        return false;
    }

    /** Corrected ampacity of a connection's conductor; null if its size is unknown. */
    static @Nullable Double ampacity(@Nullable Connection connection) {
        if (connection == null || connection.conductor() == null) {
            return null;
        }
        Connection.Conductor conductor = connection.conductor();
        return Ampacity.allowableAmps(
                conductor.size(),
                conductor.material() == null ? ConductorMaterial.COPPER : conductor.material(),
                insulation(conductor),
                Ampacity.TABLE_AMBIENT_CELSIUS);
    }

    static double insulation(Connection.Conductor conductor) {
        return conductor.insulationCelsius() == null ? INSULATION_CELSIUS : conductor.insulationCelsius();
    }

    /** Lists the defaults that an ampacity rests on. */
    static void assumeDefaults(Examination examination, Connection.Conductor conductor) {
        examination.assume(
                "ambientCelsius",
                Ampacity.TABLE_AMBIENT_CELSIUS,
                "°C",
                "air around conductors, the ambient of 33 CFR 183.425 table 5");
        examination.assume(
                "fuseShareOfAmpacity", 1.0, null, "a fuse may be rated at most at the conductor's corrected ampacity");
        if (conductor.insulationCelsius() == null) {
            examination.assume(
                    "insulationCelsius", INSULATION_CELSIUS, "°C", "insulation of conductors that state none");
        }
        if (conductor.material() == null) {
            examination.assume("material", null, null, "conductors that state no material are copper");
        }
    }

    /** Like {@code 10 AWG with 105 °C insulation}. */
    static String describe(Connection.Conductor conductor) {
        double insulation = insulation(conductor);
        String figure = insulation == Math.rint(insulation) ? Long.toString((long) insulation) : "" + insulation;
        return conductor.size() + material(conductor) + " with " + figure + " °C insulation";
    }

    private static String material(Connection.Conductor conductor) {
        ConductorMaterial material = conductor.material() == null ? ConductorMaterial.COPPER : conductor.material();
        return switch (material) {
            case COPPER -> "";
            case TINNED_COPPER -> " tinned copper";
            case CCA_10 -> " CCA (10 % copper)";
            case CCA_15 -> " CCA (15 % copper)";
        };
    }

    /** Like {@code connection W12 (CAR.battery-plus to AMP.plus)}. */
    static String describe(Link link, Node near) {
        return "connection " + link.ref() + " (" + near + " to " + link.across(near) + ")";
    }
}
