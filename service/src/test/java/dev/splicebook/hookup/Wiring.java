package dev.splicebook.hookup;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;

/** A hookup as a test puts it together, one lead after the other. Facts are JSON. */
public final class Wiring {

    private final Map<String, String> circuits = new LinkedHashMap<>();
    private final Map<String, Map<String, String>> terminals = new LinkedHashMap<>();
    private final Map<String, String> insides = new LinkedHashMap<>();
    private final List<String> connections = new ArrayList<>();
    private final Set<String> unplugged = new LinkedHashSet<>();
    private final Set<String> cuts = new LinkedHashSet<>();
    private final List<String> plugs = new ArrayList<>();
    private final List<String> unused = new ArrayList<>();
    private final List<String> wishes = new ArrayList<>();
    private String settings = "";

    /** A terminal or circuit of which all is known but its function. */
    public static String facts(String electrical) {
        return "{\"electrical\": {" + electrical + "}}";
    }

    /** A terminal or circuit for a function; {@code electrical} empty where unknown. */
    public static String facts(String function, String electrical) {
        return "{\"function\": \"" + function + "\""
                + (electrical.isEmpty() ? "" : ", \"electrical\": {" + electrical + "}") + "}";
    }

    /** A terminal or circuit for a function, in a colour. */
    public static String facts(String function, String colour, String electrical) {
        return facts(function, electrical).replaceFirst("\\{", "{\"colour\": \"" + colour + "\", ");
    }

    /** The side of a floating speaker output, 17.32 V at most: 75 W into 4 ohms. */
    public static String floating(String channel, String side) {
        return speakerOut(channel, side, "\"drive\": \"floating\", \"maxVolts\": 17.32");
    }

    public static String speakerOut(String channel, String side, String more) {
        return audio("speaker-out", channel, side, more);
    }

    /** The side of a speaker-level input that takes 20 V. */
    public static String speakerIn(String channel, String side) {
        return audio("speaker-in", channel, side, "\"maxVolts\": 20");
    }

    /** The side of a loudspeaker of 4 ohms. */
    public static String loudspeaker(String channel, String side) {
        return audio("speaker-in", channel, side, "\"ohms\": 4");
    }

    /** The side of a line output of 2 V. */
    public static String lineOut(String channel, String side, String returns) {
        return audio("line-out", channel, side, "\"maxVolts\": 2, \"return\": \"" + returns + "\"");
    }

    /** The side of a line input that takes 4 V. */
    public static String lineIn(String channel, String side, String returns) {
        return audio("line-in", channel, side, "\"maxVolts\": 4, \"return\": \"" + returns + "\"");
    }

    public static String audio(String kind, String channel, String side, String more) {
        return "\"kind\": \"" + kind + "\", \"channel\": \"" + channel + "\", \"side\": \"" + side + "\""
                + (more.isEmpty() ? "" : ", " + more);
    }

    /** A fused supply that is live in these states. */
    public static String supply(String... states) {
        return "\"kind\": \"supply\", \"maxAmps\": 10, \"fuseAmps\": 10, \"live\": " + list(List.of(states));
    }

    /** A fused supply that is live in every state. */
    public static String constant() {
        return supply("asleep", "accessory", "ignition", "cranking", "running", "restarting");
    }

    public static String couple(String from, String fromReturn, String to, String toReturn, String more) {
        return "{\"from\": [\"" + from + "\", \"" + fromReturn + "\"], \"to\": [\"" + to + "\", \"" + toReturn + "\"]"
                + (more.isEmpty() ? "" : ", " + more) + "}";
    }

    /** A circuit of the vehicle, as {@link #facts} makes it. */
    public Wiring car(String circuit, String facts) {
        circuits.put(circuit, facts);
        return this;
    }

    /** Both sides of a pair of the vehicle. */
    public Wiring carPair(String plus, String minus, Function<String, String> bySide, String... sides) {
        return car(plus, facts(bySide.apply(sides[0]))).car(minus, facts(bySide.apply(sides[1])));
    }

    /** A floating speaker output of the vehicle. */
    public Wiring carFloating(String plus, String minus, String channel) {
        return carPair(plus, minus, side -> floating(channel, side), "plus", "minus");
    }

    /** A loudspeaker of the vehicle. */
    public Wiring carLoudspeaker(String plus, String minus, String channel) {
        return carPair(plus, minus, side -> loudspeaker(channel, side), "plus", "minus");
    }

    /** A line output of the vehicle whose return is driven. */
    public Wiring carDriven(String signal, String back, String channel) {
        return carPair(signal, back, side -> lineOut(channel, side, "driven"), "signal", "return");
    }

    /** A terminal of a part, as {@link #facts} makes it. */
    public Wiring lead(String part, String terminal, String facts) {
        terminals.computeIfAbsent(part, key -> new LinkedHashMap<>()).put(terminal, facts);
        return this;
    }

    /** Both sides of a speaker-level input. */
    public Wiring speakerInput(String part, String plus, String minus, String channel) {
        return lead(part, plus, facts(speakerIn(channel, "plus")))
                .lead(part, minus, facts(speakerIn(channel, "minus")));
    }

    /** Both sides of a differential line input. */
    public Wiring lineInput(String part, String signal, String back, String channel) {
        return lead(part, signal, facts(lineIn(channel, "signal", "differential")))
                .lead(part, back, facts(lineIn(channel, "return", "differential")));
    }

    /** What is inside a part beside its terminals, like {@code "conducts": [["a", "b"]]}. */
    public Wiring inside(String part, String json) {
        terminals.computeIfAbsent(part, key -> new LinkedHashMap<>());
        insides.merge(part, json, (one, other) -> one + ", " + other);
        return this;
    }

    /** A relay {@code part} with the usual numbers. */
    public Wiring relay(String part) {
        return inside(part, """
                "relays": [{"coil": ["85", "86"], "coilOhms": 90, "common": "30", "open": "87", "closed": "87a"}]""");
    }

    /** A relay {@code part} that is energised while running. */
    public Wiring relayWhileRunning(String part) {
        return relay(part)
                .car("R1-1", facts(supply("running")))
                .join("CAR.R1-1 " + part + ".86", "CAR.chassis " + part + ".85");
    }

    /** Connections {@code W1}, {@code W2} and so on, each of two terminals apart by a space. */
    public Wiring join(String... pairs) {
        for (String pair : pairs) {
            joinBy(pair, "");
        }
        return this;
    }

    /** A connection of which more is known, like its conductor. */
    public Wiring joinBy(String pair, String more) {
        connections.add("\"W" + (connections.size() + 1) + "\": {\"ends\": " + list(List.of(pair.split(" ")))
                + (more.isEmpty() ? "" : ", " + more) + "}");
        return this;
    }

    public Wiring unplug(String connector) {
        unplugged.add(connector);
        return this;
    }

    public Wiring cut(String circuit) {
        cuts.add(circuit);
        return this;
    }

    public Wiring plug(String one, String other) {
        plugs.add(list(List.of(one, other)));
        return this;
    }

    public Wiring unused(String terminal, String as) {
        unused.add("\"" + terminal + "\": {\"as\": \"" + as + "\", \"why\": \"not wanted\"}");
        return this;
    }

    public Wiring wish(String function, String want) {
        wishes.add("{\"function\": \"" + function + "\", \"want\": \"" + want + "\"}");
        return this;
    }

    /** Settings by part, as JSON. */
    public Wiring settings(String json) {
        settings = json;
        return this;
    }

    public Report check() {
        return Hookups.checker().check(hookup());
    }

    public Hookup hookup() {
        return Hookups.verified(json());
    }

    /** The whole hookup. */
    public String json() {
        String parts = terminals.entrySet().stream()
                .map(part -> "\"" + part.getKey() + "\": {\"inline\": {\"terminals\": " + object(part.getValue())
                        + (insides.containsKey(part.getKey()) ? ", " + insides.get(part.getKey()) : "") + "}}")
                .collect(Collectors.joining(", "));
        return "{\"vehicle\": {\"inline\": {\"circuits\": " + object(circuits) + "}, \"unplugged\": " + list(unplugged)
                + ", \"cuts\": " + list(cuts) + "}, \"parts\": {" + parts + "}, \"connections\": {"
                + String.join(", ", connections) + "}, \"plugs\": [" + String.join(", ", plugs) + "], \"unused\": {"
                + String.join(", ", unused) + "}, \"settings\": {" + settings + "}, \"wishes\": ["
                + String.join(", ", wishes) + "]}";
    }

    private static String object(Map<String, String> members) {
        return members.entrySet().stream()
                .map(member -> "\"" + member.getKey() + "\": " + member.getValue())
                .collect(Collectors.joining(", ", "{", "}"));
    }

    private static String list(Iterable<String> texts) {
        List<String> quoted = new ArrayList<>();
        texts.forEach(text -> quoted.add("\"" + text + "\""));
        return "[" + String.join(", ", quoted) + "]";
    }
}
