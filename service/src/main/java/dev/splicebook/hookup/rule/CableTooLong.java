package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.electrics.Length;
import dev.splicebook.electrics.UsbCable;
import dev.splicebook.hookup.Bus;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;

/** A USB cable is longer than its standard allows. */
@AutoService(Rule.class)
@About(
        code = "cable-too-long",
        severity = Severity.WARNING,
        since = "0.2",
        condition = "A USB cable is longer than its standard allows.",
        checks =
                "Between every two USB terminals that are one conductor, the lengths of all connections on the way together."
                        + " A hub or a repeater ends a way.",
        why = "The host stops waiting for the answer. The stick plays on the bench and drops out in the vehicle.",
        mend = "Shorten the way, or put a hub or an active cable in its middle.",
        source = "USB 2.0 specification: at most 26 ns from end to end, at 5.2 ns a metre.",
        fails = """
                {"parts": {"HU": {"inline": {"terminals": {"usb": {"function": "data.usb",
                     "electrical": {"kind": "data", "bus": "usb", "line": "cable"}}}}},
                   "SOCKET": {"inline": {"terminals": {"usb": {"function": "data.usb",
                     "electrical": {"kind": "data", "bus": "usb", "line": "cable"}}}}}},
                 "connections": {"W1": {"ends": ["HU.usb", "SOCKET.usb"], "length": {"value": 6, "unit": "m"}}}}
                """,
        passes = """
                {"parts": {"HU": {"inline": {"terminals": {"usb": {"function": "data.usb",
                     "electrical": {"kind": "data", "bus": "usb", "line": "cable"}}}}},
                   "SOCKET": {"inline": {"terminals": {"usb": {"function": "data.usb",
                     "electrical": {"kind": "data", "bus": "usb", "line": "cable"}}}}}},
                 "connections": {"W1": {"ends": ["HU.usb", "SOCKET.usb"], "length": {"value": 2, "unit": "m"}}}}
                """)
public final class CableTooLong implements Rule {

    static final Threshold USB = new Threshold(
            "mostUsbMetres",
            UsbCable.MOST_NS / UsbCable.NS_PER_METRE,
            "m",
            0.5,
            10,
            "26 ns from end to end at 5.2 ns a metre (USB 2.0 specification)");

    /** Where a way has got to, the connections on it, and those of them without a length. */
    private record Stand(Node node, double metres, Set<String> connections, Set<String> lacking) {}

    /** The longest way between two parts; the lines of one cable are one cable. */
    private static final class Longest {
        private final Set<Node> ends = new LinkedHashSet<>();
        private final Set<String> connections = new TreeSet<>();
        private double metres = -1;
        private boolean lacking;
    }

    @Override
    public void check(Examination examination) {
        double most = examination.value(USB);
        Map<Set<String>, Longest> cables = new LinkedHashMap<>();
        for (Node node : examination.network().nodes()) {
            if (isUsb(node)) {
                for (Stand end : ends(node, examination.network())) {
                    examination.applies();
                    add(
                            node,
                            end,
                            cables.computeIfAbsent(
                                    new TreeSet<>(
                                            List.of(node.owner(), end.node().owner())),
                                    key -> new Longest()));
                    if (!isAbove(end.metres(), most)) {
                        end.lacking().forEach(ref -> examination.missing("connection " + ref, "length"));
                    }
                }
            }
        }
        for (Longest cable : cables.values()) {
            if (isAbove(cable.metres, most)) {
                examination
                        .report(
                                "the USB cable between " + Say.names(cable.ends) + " is "
                                        + (cable.lacking ? "at least " : "") + Say.metres(cable.metres)
                                        + " long, above the " + Say.metres(most) + " that it may have",
                                "shorten it, or put a hub or an active cable in its middle.")
                        .at(cable.ends)
                        .through(cable.connections)
                        .figures(cable.metres, most, "m");
            }
        }
    }

    private static boolean isAbove(double metres, double most) {
        return metres > most * (1 + 1e-9);
    }

    private static void add(Node begin, Stand end, Longest cable) {
        if (end.metres() > cable.metres) {
            cable.metres = end.metres();
            cable.ends.clear();
            cable.connections.clear();
            cable.lacking = false;
        }
        if (end.metres() == cable.metres) {
            cable.ends.addAll(List.of(begin, end.node()));
            cable.connections.addAll(end.connections());
            cable.lacking |= !end.lacking().isEmpty();
        }
    }

    private static boolean isUsb(Node node) {
        return node.facts() instanceof Electrical.Data data && data.bus() == Bus.USB;
    }

    /** The USB terminals that are one conductor with one, each by its shortest way. */
    private static List<Stand> ends(Node start, Network network) {
        List<Stand> ends = new ArrayList<>();
        Set<Node> seen = new HashSet<>(Set.of(start));
        ArrayDeque<Stand> queue = new ArrayDeque<>();
        queue.add(new Stand(start, 0, Set.of(), Set.of()));
        while (!queue.isEmpty()) {
            Stand at = queue.remove();
            if (at.node() != start && isUsb(at.node()) && !at.connections().isEmpty()) {
                ends.add(at);
            }
            for (Link link : network.linksOf(at.node())) {
                if (link.kind().isSolid() && seen.add(link.across(at.node()))) {
                    queue.add(along(link, at));
                }
            }
        }
        return ends;
    }

    private static Stand along(Link link, Stand at) {
        if (link.connection() == null) {
            return new Stand(link.across(at.node()), at.metres(), at.connections(), at.lacking());
        }
        Length length = link.connection().length();
        Set<String> connections = new TreeSet<>(at.connections());
        Set<String> lacking = new TreeSet<>(at.lacking());
        connections.add(String.valueOf(link.ref()));
        if (length == null) {
            lacking.add(String.valueOf(link.ref()));
        }
        return new Stand(
                link.across(at.node()), at.metres() + (length == null ? 0 : length.metres()), connections, lacking);
    }
}
