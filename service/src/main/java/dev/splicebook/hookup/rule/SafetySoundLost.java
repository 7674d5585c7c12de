package dev.splicebook.hookup.rule;

import com.google.auto.service.AutoService;
import dev.splicebook.hookup.Circuit;
import dev.splicebook.hookup.Hookup;
import dev.splicebook.hookup.Names;
import dev.splicebook.hookup.Severity;
import dev.splicebook.hookup.net.Network;
import dev.splicebook.hookup.net.Node;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/** A warning sound, a prompt or a call goes with an unplugged factory unit, and nothing takes its circuit. */
@AutoService(Rule.class)
@About(
        code = "safety-sound-lost",
        severity = Severity.WARNING,
        since = "0.2",
        condition =
                "A warning sound, a prompt or a call goes with an unplugged factory unit, and nothing takes its circuit.",
        checks =
                "Every circuit of a connector that is off its unit, mated with a part or not, of which the map says that it"
                        + " carries chimes, tones, prompts, warnings or calls: something must be connected to it.",
        why =
                "Chimes for a key left in or a belt left open, tones of the parking aid and hands-free calls often come through"
                        + " the radio. Nobody misses them until they are needed.",
        mend =
                "Use an interface that keeps them, or bring the circuit to a loudspeaker of its own; otherwise tell the customer"
                        + " before the job and have it signed.",
        source = "Common practice, no source.",
        fails = """
                {"vehicle": {"inline": {"circuits": {"C1-6": {"function": "audio.chime", "electrical": {"kind": "passive"},
                     "carries": ["warning chimes"]}}}, "unplugged": ["C1"]},
                 "unused": {"CAR.C1-6": {"as": "capped", "why": "no place for it"}}}
                """,
        passes = """
                {"vehicle": {"inline": {"circuits": {"C1-6": {"function": "audio.chime", "electrical": {"kind": "passive"},
                     "carries": ["warning chimes"]}}}, "unplugged": ["C1"]},
                 "parts": {"IFC": {"inline": {"terminals": {"chime": {"function": "audio.chime", "electrical": {"kind": "passive"}}}}}},
                 "connections": {"W1": {"ends": ["CAR.C1-6", "IFC.chime"]}}}
                """)
public final class SafetySoundLost implements Rule {

    /** What a map writes of sounds that somebody's safety hangs on; a socket, a clock or a picture is none. */
    private static final Pattern SAFETY = Pattern.compile(
            "\\b(chime|gong|beep|buzz|bleep|tone|alarm|alert|warn|prompt|announce|voice|parking[- ]?(aid|sensor|assist|sound|distance)"
                    + "|park distance|reversing[- ]?(aid|sound|sensor)|hands-?free|handsfree|telephone|phone call|call|emergency|e-?call"
                    + "|seat-?\\s?belt|belt|collision|lane|blind[- ]spot|turn signal|indicator|pedestrian)",
            Pattern.CASE_INSENSITIVE);

    @Override
    public void check(Examination examination) {
        Hookup hookup = examination.network().hookup();
        Map<String, Map<String, List<String>>> lost = new TreeMap<>();
        hookup.map().circuits().forEach((name, circuit) -> {
            String connector = Names.connectorOf(name);
            List<String> sounds = hookup.unplugged().contains(connector) ? sounds(circuit) : List.of();
            if (!sounds.isEmpty()) {
                examination.applies();
                if (ends(name, examination.network()).stream()
                        .noneMatch(end -> examination.network().isConnected(end))) {
                    lost.computeIfAbsent(connector, key -> new TreeMap<>()).put(name, sounds);
                }
            }
        });
        lost.values().forEach(circuits -> report(circuits, examination));
    }

    private static List<String> sounds(Circuit circuit) {
        return circuit.carries().stream()
                .filter(what -> SAFETY.matcher(what).find())
                .toList();
    }

    private static List<Node> ends(String circuit, Network network) {
        String ref = Names.VEHICLE + "." + circuit;
        return Stream.of(ref, ref + "/unit", ref + "/harness")
                .map(network::findNode)
                .filter(Objects::nonNull)
                .toList();
    }

    private static void report(Map<String, List<String>> circuits, Examination examination) {
        Set<Node> nodes = new LinkedHashSet<>();
        Set<String> sounds = new TreeSet<>();
        circuits.forEach((circuit, what) -> {
            nodes.addAll(ends(circuit, examination.network()));
            sounds.addAll(what);
        });
        examination
                .report(
                        "nothing is connected to " + Say.names(nodes)
                                + ", whose connector is off the factory unit, and with that is lost: "
                                + Say.list(new ArrayList<>(sounds)),
                        "use an interface that keeps it, or give the circuit a loudspeaker of its own; otherwise tell the"
                                + " customer before the job.")
                .at(nodes);
    }
}
