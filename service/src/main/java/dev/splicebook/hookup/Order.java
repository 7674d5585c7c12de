package dev.splicebook.hookup;

import dev.splicebook.function.Colour;
import dev.splicebook.function.Function;
import dev.splicebook.function.FunctionId;
import dev.splicebook.function.Functions;
import dev.splicebook.hookup.Report.Step;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * The order in which connections should be made: first those whose colour misleads, while there is most room and most
 * care; then connector by connector, the speaker leads together.
 */
final class Order {

    private static final FunctionId SPEAKERS = new FunctionId("audio.speaker");

    /** A circuit before battery and chassis. */
    private static final Comparator<Node> VEHICLE_END = Comparator.comparing(
                    (Node end) -> end.role() == Node.Role.REFERENCE)
            .thenComparing(Node.BY_FACTS)
            .thenComparing(Node::ref);

    private static final Comparator<Node> BY_FACTS = Node.BY_FACTS.thenComparing(Node::ref);

    private final Network network;
    private final Map<Colour, List<Node>> wearers = new HashMap<>();

    /** Tells owners apart by what they are, not by their names. */
    private final Map<String, List<String>> ownerFacts = new HashMap<>();

    private Order(Network network) {
        this.network = network;
        for (Node node : network.nodes()) {
            if (node.colour() != null && node.function() != null) {
                wearers.computeIfAbsent(node.colour(), key -> new ArrayList<>()).add(node);
            }
        }
    }

    private static int compareFunctions(Node one, Node other) {
        int order = String.valueOf(one.function()).compareTo(String.valueOf(other.function()));
        return order == 0 ? Node.BY_FACTS.compare(one, other) : order;
    }

    /**
     * The two ends of a connection, in an order that does not depend on which is which.
     *
     * @param first rank among all ends by what they are for and what they are; the same for two that are alike
     */
    private record Ends(int first, int second) implements Comparable<Ends> {

        @Override
        public int compareTo(Ends other) {
            int order = Integer.compare(first, other.first);
            return order == 0 ? Integer.compare(second, other.second) : order;
        }
    }

    private static Ends ends(Link link, int[] endOrder) {
        int one = endOrder[link.from().index()];
        int other = endOrder[link.to().index()];
        return new Ends(Math.min(one, other), Math.max(one, other));
    }

    /** Which end of a connection comes before which, by the index of the node; 0 for other nodes. */
    private int[] endOrder() {
        boolean[] seen = new boolean[network.nodes().size()];
        List<Node> ends = new ArrayList<>();
        for (Link link : network.links()) {
            if (link.kind() == Link.Kind.CONNECTION) {
                for (Node end : List.of(link.from(), link.to())) {
                    if (!seen[end.index()]) {
                        seen[end.index()] = true;
                        ends.add(end);
                    }
                }
            }
        }
        ends.sort(Order::compareFunctions);
        int[] order = new int[seen.length];
        for (int at = 1; at < ends.size(); at++) {
            int before = order[ends.get(at - 1).index()];
            boolean alike = compareFunctions(ends.get(at - 1), ends.get(at)) == 0;
            order[ends.get(at).index()] = alike ? before : before + 1;
        }
        return order;
    }

    /** A connection, with what is at its ends and where one stands to make it. */
    private record Task(Link link, Ends within, String place) {}

    /**
     * When a connection is made.
     *
     * @param group place by {@link #ranks}; 0 where it does not matter
     * @param last after the others of its group
     */
    private record Placed(Link link, int tier, int group, boolean last, Ends within, String why) {}

    private static final Comparator<Placed> FIRST_FIRST = Comparator.comparingInt(Placed::tier)
            .thenComparingInt(Placed::group)
            .thenComparing(Placed::last)
            .thenComparing(Placed::within)
            .thenComparing(one -> String.valueOf(one.link().ref()));

    static List<Step> of(Network network) {
        Order order = new Order(network);
        int[] endOrder = order.endOrder();
        List<Task> tasks = new ArrayList<>();
        for (Link link : network.links()) {
            if (link.kind() == Link.Kind.CONNECTION) {
                tasks.add(new Task(link, ends(link, endOrder), order.place(link)));
            }
        }
        Map<String, Integer> ranks = ranks(tasks);
        int speakers = firstWithSpeakers(tasks, ranks);
        List<Placed> placed = new ArrayList<>(tasks.size());
        for (Task task : tasks) {
            placed.add(order.place(task, ranks.getOrDefault(task.place(), 0), speakers));
        }
        placed.sort(FIRST_FIRST);
        List<Step> steps = new ArrayList<>(placed.size());
        for (Placed one : placed) {
            Link link = one.link();
            steps.add(new Step(
                    String.valueOf(link.ref()),
                    List.of(link.from().ref(), link.to().ref()),
                    one.why()));
        }
        return List.copyOf(steps);
    }

    /** All speaker leads are made at the first place that has any, wherever the others are. */
    private static int firstWithSpeakers(List<Task> tasks, Map<String, Integer> ranks) {
        int first = Integer.MAX_VALUE;
        for (Task task : tasks) {
            if (isFor(task.link(), SPEAKERS)) {
                first = Math.min(first, ranks.getOrDefault(task.place(), 0));
            }
        }
        return first == Integer.MAX_VALUE ? 0 : first;
    }

    private Placed place(Task task, int group, int speakers) {
        Link link = task.link();
        Ends within = task.within();
        String customary = misleadingCustom(link);
        if (customary != null) {
            return new Placed(link, 0, 0, false, within, customary);
        }
        String shared = sharedColour(link);
        if (shared != null) {
            return new Placed(link, 1, 0, false, within, shared);
        }
        String odd = oddAdapterLead(link);
        if (odd != null) {
            return new Placed(link, 2, 0, false, within, odd);
        }
        String place = task.place();
        if (isFor(link, SPEAKERS)) {
            return new Placed(link, 3, speakers, true, within, "at " + place + ", with the speaker leads together");
        }
        return new Placed(link, 3, group, false, within, "at " + place);
    }

    /** An end whose colour is customary for another function that is present too, while the two ends disagree. */
    private @Nullable String misleadingCustom(Link link) {
        if (!disagrees(link)) {
            return null;
        }
        for (Node end : ends(link)) {
            if (end.colour() == null || end.function() == null || isCustomary(end.colour(), end.function())) {
                continue;
            }
            Node other = firstOther(end, link, true);
            if (other != null) {
                return end.ref() + " wears " + end.colour() + ", the customary colour of " + other.ref() + " ("
                        + other.function() + "), which is present";
            }
        }
        return null;
    }

    /** An end whose colour another lead of another function wears too, while the two ends disagree. */
    private @Nullable String sharedColour(Link link) {
        if (!disagrees(link)) {
            return null;
        }
        for (Node end : ends(link)) {
            Node other = firstOther(end, link, false);
            if (other != null) {
                return end.ref() + " wears " + end.colour() + ", and so does " + other.ref() + " (" + other.function()
                        + ")";
            }
        }
        return null;
    }

    /** A lead of an adapter whose function is not that of the vehicle's circuit behind it. */
    private @Nullable String oddAdapterLead(Link link) {
        for (Node end : ends(link)) {
            if (end.isVehicle() || end.function() == null || !isPassedOn(end)) {
                continue;
            }
            Node behind = null;
            for (Node member : network.netOf(end)) {
                if (member.isVehicle()
                        && member.role() == Node.Role.CIRCUIT
                        && member.function() != null
                        && !member.isFor(end.function())
                        && !end.isFor(member.function())
                        && (behind == null || VEHICLE_END.compare(member, behind) < 0)) {
                    behind = member;
                }
            }
            if (behind != null) {
                return end.ref() + " says " + end.function() + ", and " + behind.ref() + " behind it is "
                        + behind.function();
            }
        }
        return null;
    }

    private boolean isPassedOn(Node lead) {
        for (Link inside : network.linksOf(lead)) {
            if (inside.kind() == Link.Kind.CONDUCTION) {
                return true;
            }
        }
        return false;
    }

    /** What wears an end's colour too, is for something else and stands elsewhere; the first by what it is, null if none is. */
    private @Nullable Node firstOther(Node end, Link link, boolean customary) {
        if (end.colour() == null || end.function() == null) {
            return null;
        }
        Node first = null;
        for (Node other : wearers.getOrDefault(end.colour(), List.of())) {
            if (other != link.from()
                    && other != link.to()
                    && other.net() != end.net()
                    && other.function() != null
                    && !other.function().equals(end.function())
                    && (!customary || isCustomary(end.colour(), other.function()))
                    && (first == null || BY_FACTS.compare(other, first) < 0)) {
                first = other;
            }
        }
        return first;
    }

    private static boolean isCustomary(Colour colour, FunctionId function) {
        Optional<Function> entry = Functions.vocabulary().findFunction(function);
        return entry.isPresent() && colour.equals(entry.get().leadColour());
    }

    private static boolean disagrees(Link link) {
        return link.from().colour() == null
                || link.to().colour() == null
                || !link.from().colour().equals(link.to().colour());
    }

    private static boolean isFor(Link link, FunctionId function) {
        return link.from().isFor(function) || link.to().isFor(function);
    }

    private static List<Node> ends(Link link) {
        return List.of(link.from(), link.to());
    }

    /** Where one stands to make it: the vehicle's connector if it has an end there, else the part. */
    private String place(Link link) {
        Node one = link.from();
        Node other = link.to();
        if (one.isVehicle() != other.isVehicle()) {
            return vehiclePlace(one.isVehicle() ? one : other);
        }
        if (one.isVehicle()) {
            return vehiclePlace(VEHICLE_END.compare(one, other) <= 0 ? one : other);
        }
        int order = Node.BY_FACTS.compare(one, other);
        if (order == 0) {
            order = compareOwners(one.owner(), other.owner());
        }
        if (order == 0) {
            order = one.ref().compareTo(other.ref());
        }
        return order <= 0 ? one.owner() : other.owner();
    }

    private static String vehiclePlace(Node end) {
        if (end.role() == Node.Role.REFERENCE) {
            return end.name().equals(Vehicle.CHASSIS) ? "the chassis" : "the battery";
        }
        return "connector " + Names.connectorOf(end.name());
    }

    private int compareOwners(String one, String other) {
        int order = Integer.compare(
                network.nodesOf(one).size(), network.nodesOf(other).size());
        return order == 0 ? compare(ownerFacts(one), ownerFacts(other)) : order;
    }

    private List<String> ownerFacts(String owner) {
        return ownerFacts.computeIfAbsent(
                owner,
                key -> network.nodesOf(owner).stream()
                        .map(Node::factsText)
                        .sorted()
                        .toList());
    }

    /** The order of the places: by what is connected there, by their names only where that is the same. */
    private static Map<String, Integer> ranks(List<Task> tasks) {
        record Place(String name, List<Ends> within) {}
        Map<String, List<Ends>> withinAt = new HashMap<>();
        for (Task task : tasks) {
            withinAt.computeIfAbsent(task.place(), key -> new ArrayList<>()).add(task.within());
        }
        List<Place> places = new ArrayList<>();
        withinAt.forEach((name, within) -> {
            within.sort(null);
            places.add(new Place(name, within));
        });
        places.sort(Comparator.comparing(Place::within, Order::compare).thenComparing(Place::name));
        Map<String, Integer> ranks = new HashMap<>();
        places.forEach(place -> ranks.put(place.name(), ranks.size()));
        return ranks;
    }

    private static <T extends Comparable<T>> int compare(List<T> one, List<T> other) {
        for (int at = 0; at < Math.min(one.size(), other.size()); at++) {
            int order = one.get(at).compareTo(other.get(at));
            if (order != 0) {
                return order;
            }
        }
        return Integer.compare(one.size(), other.size());
    }
}
