package dev.splicebook.hookup.pair;

import dev.splicebook.function.FunctionId;
import dev.splicebook.hookup.Channel;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Names;
import dev.splicebook.hookup.Side;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.pair.Port.Flow;
import dev.splicebook.hookup.pair.Port.Level;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** Finds which terminals make up one signal: by kind, channel and facts, and by names only where two pairs are equal. */
final class Ports {

    private static final FunctionId AUDIO = new FunctionId("audio");
    private static final FunctionId VIDEO = new FunctionId("video");
    private static final FunctionId SHIELD = new FunctionId("audio.shield");

    private Ports() {}

    static List<Port> of(Bench bench) {
        List<Port> ports = new ArrayList<>();
        for (List<Node> nodes : bench.network().byOwner().values()) {
            Map<List<Object>, List<Node>> groups = new LinkedHashMap<>();
            List<Node> wires = new ArrayList<>();
            for (Node node : nodes) {
                if (!bench.isTouchable(node) || node.role() == Node.Role.INSIDE) {
                    continue;
                }
                Level level = level(node);
                if (level == Level.WIRE) {
                    if (isSignalWire(node, bench)) {
                        wires.add(node);
                    }
                } else if (level != null) {
                    groups.computeIfAbsent(List.of(level, isOut(node)), key -> new ArrayList<>())
                            .add(node);
                }
            }
            groups.forEach((key, members) -> add(
                    (Level) key.get(0), Boolean.TRUE.equals(key.get(1)) ? Flow.OUT : Flow.IN, members, bench, ports));
            add(Level.WIRE, Flow.EITHER, wires, bench, ports);
        }
        return ports;
    }

    private static @Nullable Level level(Node node) {
        Electrical facts = node.facts();
        if (facts instanceof Electrical.SpeakerIn || facts instanceof Electrical.SpeakerOut) {
            return Level.SPEAKER;
        }
        if (facts instanceof Electrical.LineIn || facts instanceof Electrical.LineOut) {
            return Level.LINE;
        }
        if (facts instanceof Electrical.VideoIn || facts instanceof Electrical.VideoOut) {
            return Level.VIDEO;
        }
        return facts instanceof Electrical.Passive ? Level.WIRE : null;
    }

    private static boolean isOut(Node node) {
        Electrical facts = node.facts();
        return facts instanceof Electrical.VideoOut || (facts instanceof Electrical.Audio audio && audio.isOutput());
    }

    /** A wire of the vehicle that is off its unit, or a free lead of an adapter that no plug takes anywhere. */
    private static boolean isSignalWire(Node node, Bench bench) {
        FunctionId function = node.function();
        return function != null
                && (function.isAtOrBelow(AUDIO) || function.isAtOrBelow(VIDEO))
                && !function.isAtOrBelow(SHIELD)
                && bench.isBlank(node)
                && (node.isVehicle()
                        ? bench.isOff(node)
                        : bench.network().netOf(node).stream().noneMatch(Node::isVehicle)
                                && bench.network().linksOf(node).stream()
                                        .anyMatch(link -> link.kind() == Link.Kind.CONDUCTION));
    }

    private static void add(Level level, Flow flow, List<Node> members, Bench bench, List<Port> ports) {
        List<Node> positives = new ArrayList<>();
        List<Node> negatives = new ArrayList<>();
        for (Node node : members) {
            (isPositive(node, members) ? positives : negatives).add(node);
        }
        positives.sort(bench.order);
        Map<Node, Node> negativeOf = new LinkedHashMap<>();
        Set<Node> taken = new HashSet<>();
        // the closest pairs first: one coupling, equal channel, equal facts, near names
        Map<Object, Set<Node>> candidates = new HashMap<>();
        for (Node negative : negatives) {
            candidates
                    .computeIfAbsent(stem(negative), key -> new LinkedHashSet<>())
                    .add(negative);
            Channel channel = channel(negative);
            if (channel != null) {
                candidates
                        .computeIfAbsent(channel, key -> new LinkedHashSet<>())
                        .add(negative);
            }
        }
        Map<Node, String> sideless = new HashMap<>();
        members.forEach(node -> sideless.put(node, sideless(node)));
        List<Node[]> pairs = new ArrayList<>();
        for (Node positive : positives) {
            Set<Node> own = new LinkedHashSet<>(candidates.getOrDefault(stem(positive), Set.of()));
            Channel channel = channel(positive);
            if (channel != null) {
                own.addAll(candidates.getOrDefault(channel, Set.of()));
            }
            // a pair of the vehicle shares its connector, if any of them does
            String connector = positive.isVehicle() ? Names.connectorOf(positive.name()) : "";
            boolean near = positive.isVehicle()
                    && own.stream()
                            .anyMatch(negative ->
                                    Names.connectorOf(negative.name()).equals(connector));
            own.stream()
                    .filter(negative ->
                            !near || Names.connectorOf(negative.name()).equals(connector))
                    .forEach(negative -> pairs.add(new Node[] {positive, negative}));
        }
        pairs.sort(Comparator.comparing((Node[] pair) -> bench.network().coupledWith(pair[0]) != pair[1])
                .thenComparing(pair -> !Objects.equals(sideless.get(pair[0]), sideless.get(pair[1])))
                .thenComparing(pair -> distance(pair[0], pair[1]))
                .thenComparing((one, other) -> bench.order.compare(one[0], other[0]))
                .thenComparing((one, other) -> bench.order.compare(one[1], other[1])));
        for (Node[] pair : pairs) {
            if (!negativeOf.containsKey(pair[0]) && taken.add(pair[1])) {
                negativeOf.put(pair[0], pair[1]);
            }
        }
        List<Node> left =
                negatives.stream().filter(node -> !taken.contains(node)).toList();
        for (Node positive : positives) {
            if (!negativeOf.containsKey(positive)) {
                left.stream()
                        .filter(node -> channel(node) == null)
                        .min(Comparator.comparing((Node node) -> -commonSegments(positive, node))
                                .thenComparing(node -> distance(positive, node))
                                .thenComparing(bench.order))
                        .ifPresent(node -> negativeOf.put(positive, node));
            }
        }
        for (Node positive : positives) {
            Node negative = negativeOf.get(positive);
            boolean shared = negative != null
                    && negativeOf.values().stream()
                                    .filter(other -> other == negative)
                                    .count()
                            > 1;
            ports.add(new Port(level, flow, channel(positive), positive, negative, shared));
        }
    }

    private static boolean isPositive(Node node, List<Node> members) {
        Side side = side(node);
        if (side != null) {
            return side.isPositive();
        }
        FunctionId function = node.function();
        if (function == null) {
            return true;
        }
        String last = function.value().substring(function.value().lastIndexOf('.') + 1);
        if (last.equals("return") || last.equals("minus")) {
            return false;
        }
        // a group of functions that others stand below is what they have in common: their return
        return members.stream()
                .noneMatch(other -> other.function() != null
                        && !other.function().equals(function)
                        && other.function().isAtOrBelow(function));
    }

    private static @Nullable Side side(Node node) {
        Electrical facts = node.facts();
        if (facts instanceof Electrical.Audio audio) {
            return audio.side();
        }
        if (facts instanceof Electrical.VideoIn in) {
            return in.side();
        }
        return facts instanceof Electrical.VideoOut out ? out.side() : null;
    }

    static @Nullable Channel channel(Node node) {
        if (node.facts() instanceof Electrical.Audio audio) {
            return audio.channel();
        }
        if (node.function() != null && node.facts() instanceof Electrical.Passive) {
            for (String segment : node.function().value().split("\\.", -1)) {
                for (Channel channel : Channel.values()) {
                    if (channel.toString().equals(segment)) {
                        return channel;
                    }
                }
            }
        }
        return null;
    }

    /** The function without its side. */
    static String stem(Node node) {
        return node.function() == null
                ? ""
                : node.function().value().replaceFirst("\\.(signal|return|plus|minus)$", "");
    }

    private static String sideless(Node node) {
        return String.valueOf(node.facts()).replaceFirst("side=\\w+", "");
    }

    private static int commonSegments(Node one, Node other) {
        String[] ours = stem(one).split("\\.", -1);
        String[] theirs = stem(other).split("\\.", -1);
        int common = 0;
        while (common < Math.min(ours.length, theirs.length) && ours[common].equals(theirs[common])) {
            common++;
        }
        return common;
    }

    /** How far two names are apart: pins of one connector by their numbers, others by how soon they differ. */
    static int distance(Node one, Node other) {
        String pin = Names.pinOf(one.name());
        String otherPin = Names.pinOf(other.name());
        if (one.isVehicle()
                && Names.connectorOf(one.name()).equals(Names.connectorOf(other.name()))
                && pin.matches("[0-9]{1,4}")
                && otherPin.matches("[0-9]{1,4}")) {
            return Math.abs(Integer.parseInt(pin) - Integer.parseInt(otherPin));
        }
        int common = 0;
        int least = Math.min(one.name().length(), other.name().length());
        while (common < least && one.name().charAt(common) == other.name().charAt(common)) {
            common++;
        }
        return 1000 - common;
    }
}
