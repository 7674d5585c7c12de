package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Bus;
import dev.splicebook.hookup.Electrical;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.net.Node;
import dev.splicebook.hookup.net.Reach;
import dev.splicebook.hookup.net.Scenario;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/** A bus line is joined to anything but its like. */
@AutoService(Rule.class)
@About(
        code = "bus-disturbed",
        severity = Severity.ERROR,
        since = "0.2",
        condition = "A bus line is joined to anything but its like.",
        checks =
                "Every net with a bus line on it, through adapters and closed contacts: only the same line of the same kind of"
                        + " bus may stand there. Another line, another bus, 12 V, ground, sound, a picture, a load or a control"
                        + " lead may not. The power and the ground of a USB cable are no bus lines.",
        why = "One wrong lead silences the whole bus: the engine may not start, warnings come up in the cluster, and a"
                + " module that sees 12 V on a bus pin fails.",
        mend = "Take the lead off the bus at once; high goes to high, low to low, and what is no bus line to none.",
        source = "ISO 11898-2 for CAN, ISO 17987 for LIN, the USB 2.0 specification; from memory.",
        fails = """
                {"vehicle": {"inline": {"circuits": {
                   "D1-1": {"function": "data.can.high", "electrical": {"kind": "data", "bus": "can", "line": "high"}},
                   "D1-2": {"function": "data.can.low", "electrical": {"kind": "data", "bus": "can", "line": "low"}}}}},
                 "parts": {"IFC": {"inline": {"terminals": {
                   "high": {"function": "data.can.high", "electrical": {"kind": "data", "bus": "can", "line": "high"}},
                   "low": {"function": "data.can.low", "electrical": {"kind": "data", "bus": "can", "line": "low"}}}}}},
                 "connections": {"W1": {"ends": ["CAR.D1-1", "IFC.low"]}},
                 "unused": {"IFC.high": {"as": "capped", "why": "to be tried later"}}}
                """,
        passes = """
                {"vehicle": {"inline": {"circuits": {
                   "D1-1": {"function": "data.can.high", "electrical": {"kind": "data", "bus": "can", "line": "high"}},
                   "D1-2": {"function": "data.can.low", "electrical": {"kind": "data", "bus": "can", "line": "low"}}}}},
                 "parts": {"IFC": {"inline": {"terminals": {
                   "high": {"function": "data.can.high", "electrical": {"kind": "data", "bus": "can", "line": "high"}},
                   "low": {"function": "data.can.low", "electrical": {"kind": "data", "bus": "can", "line": "low"}}}}}},
                 "connections": {"W1": {"ends": ["CAR.D1-1", "IFC.high"]}, "W2": {"ends": ["CAR.D1-2", "IFC.low"]}}}
                """,
        rank = Rank.BUS)
public final class BusDisturbed implements Rule {

    @Override
    public void check(Examination examination) {
        Map<Set<Node>, Examination.Draft> told = new HashMap<>();
        for (Scenario scenario : examination.reading().signalWays()) {
            for (int net = 0; net < scenario.netCount(); net++) {
                check(net, scenario, told, examination);
            }
        }
    }

    private static void check(
            int net, Scenario scenario, Map<Set<Node>, Examination.Draft> told, Examination examination) {
        if (scenario.members(net).size() < 2) {
            return;
        }
        List<Node> lines = new ArrayList<>(4);
        for (Node member : scenario.members(net)) {
            if (isBusLine(member)) {
                lines.add(member);
            }
        }
        if (lines.isEmpty()) {
            return;
        }
        examination.applies();
        Set<Node> foreign = foreign(net, lines, scenario);
        Set<Node> unlike = new LinkedHashSet<>();
        for (Node one : lines) {
            for (Node other : lines) {
                if (one != other && !isAllOneParts(one, other, examination)) {
                    Boolean alike = isAlike(one, other, examination);
                    if (Boolean.FALSE.equals(alike)) {
                        unlike.add(one);
                        unlike.add(other);
                    }
                }
            }
        }
        if (foreign.isEmpty() && unlike.isEmpty()) {
            scenario.members(net).stream()
                    .filter(member -> member.facts() == null)
                    .forEach(member -> examination.missing(member, "electrical"));
            return;
        }
        Set<Node> at = unlike.isEmpty() ? new LinkedHashSet<>(lines) : unlike;
        Set<Node> all = new LinkedHashSet<>(at);
        all.addAll(foreign);
        String help = foreign.isEmpty()
                ? "take one of them off, and connect each to the same line of the same bus."
                : "take " + Say.names(foreign) + " off the bus.";
        told.computeIfAbsent(all, key -> examination.report(message(at, foreign), help))
                .at(at)
                // an input that waits for what no bus gives waits because it is here
                .at(foreign.stream().filter(BusDisturbed::isWaiting).toList())
                .besides(foreign.stream().filter(node -> !isWaiting(node)).toList())
                .through(examination.reading().connectionsAt(at))
                .in(examination.reading().signalStates(scenario));
    }

    private static boolean isWaiting(Node node) {
        return node.facts() instanceof Electrical.ControlIn || node.facts() instanceof Electrical.Load;
    }

    private static String message(Set<Node> at, Set<Node> foreign) {
        List<String> lines = at.stream()
                .sorted(Say.BY_FACTS)
                .map(node -> Say.name(node) + " (" + describe(node) + ")")
                .toList();
        if (foreign.isEmpty()) {
            return Say.list(lines) + " are joined, and a bus line bears nothing but its like";
        }
        return Say.list(lines) + (lines.size() == 1 ? " is" : " are") + " joined with "
                + Say.list(foreign.stream()
                        .sorted(Say.BY_FACTS)
                        .map(node -> Say.name(node) + ", " + what(node) + ",")
                        .toList())
                + " and a bus line bears nothing but its like";
    }

    static boolean isBusLine(Node node) {
        return node.facts() instanceof Electrical.Data data
                && !(data.bus() == Bus.USB && Set.of("power", "ground").contains(line(data)));
    }

    /** What stands on a bus line and is neither a bus line nor a mere conductor, or reaches it through a diode. */
    private static Set<Node> foreign(int net, List<Node> lines, Scenario scenario) {
        Set<Node> foreign = new LinkedHashSet<>();
        for (Node member : scenario.members(net)) {
            if (!lines.contains(member) && member.facts() != null && !(member.facts() instanceof Electrical.Passive)) {
                foreign.add(member);
            }
        }
        for (Reach reach : scenario.reaches(net)) {
            if (reach.hard()) {
                foreign.add(reach.source());
            }
        }
        return foreign;
    }

    private static boolean isAllOneParts(Node one, Node other, Examination examination) {
        return one.owner().equals(other.owner())
                && examination.reading().isJoinedInside(one)
                && examination.reading().isJoinedInside(other);
    }

    /** Whether two lines are the same line of the same kind of bus; null where a fact lacks. */
    private static @Nullable Boolean isAlike(Node one, Node other, Examination examination) {
        if (!(one.facts() instanceof Electrical.Data first) || !(other.facts() instanceof Electrical.Data second)) {
            return null;
        }
        if (first.bus() == null || second.bus() == null) {
            examination.missing(first.bus() == null ? one : other, "bus");
            return null;
        }
        if (first.bus() != second.bus()) {
            return false;
        }
        if (first.bus() == Bus.LIN || first.bus() == Bus.OPTICAL) {
            return true;
        }
        if (first.line() == null || second.line() == null) {
            examination.missing(first.line() == null ? one : other, "line");
            return null;
        }
        return line(first).equals(line(second))
                || Set.of(line(first), line(second)).equals(CROSSED);
    }

    /** What a serial line is joined with: the other's transmitter to one's own receiver. */
    private static final Pattern SEPARATORS = Pattern.compile("[ _.]");

    private static final Pattern BUS_NAME = Pattern.compile("^(can|usb|lin)-?");
    private static final Set<String> CROSSED = Set.of("transmit", "receive");

    /** One of the usual ways to write a line. */
    static String line(Electrical.Data data) {
        String text = data.line() == null
                ? ""
                : SEPARATORS.matcher(data.line().toLowerCase(Locale.ROOT)).replaceAll("");
        return switch (BUS_NAME.matcher(text).replaceFirst("")) {
            case "h", "hi", "high" -> "high";
            case "l", "lo", "low" -> "low";
            case "+", "d+", "dp", "plus" -> "plus";
            case "-", "d-", "dm", "minus" -> "minus";
            case "tx", "transmit" -> "transmit";
            case "rx", "receive" -> "receive";
            case "5v", "vbus", "power" -> "power";
            case "gnd", "ground" -> "ground";
            default -> text;
        };
    }

    private static String describe(Node node) {
        if (!(node.facts() instanceof Electrical.Data data) || data.bus() == null) {
            return "a bus line";
        }
        String bus = data.bus() == Bus.OTHER || data.bus() == Bus.OPTICAL
                ? data.bus().name().toLowerCase(Locale.ROOT) + " bus"
                : data.bus().name();
        return data.line() == null ? bus : bus + " " + data.line();
    }

    private static String what(Node node) {
        Electrical facts = node.facts();
        if (facts instanceof Electrical.Supply) {
            return "which gives power";
        }
        if (facts instanceof Electrical.Ground) {
            return "which is ground";
        }
        if (facts instanceof Electrical.Load) {
            return "which draws power";
        }
        if (facts instanceof Electrical.Audio) {
            return "which is for sound";
        }
        if (facts instanceof Electrical.Video) {
            return "which is for pictures";
        }
        return facts instanceof Electrical.ControlIn || facts instanceof Electrical.ControlOut
                ? "which is a control lead"
                : "which is no bus line";
    }
}
