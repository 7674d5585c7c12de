package dev.splicebook.hookup;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.function.Colour;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Small vehicles and devices at random, each of which can be wired rightly. */
class PairingRandomTest {

    private static final List<String> CHANNELS = List.of("front-left", "front-right", "rear-left", "rear-right");
    private static final List<String> COLOURS = List.of("BK", "BN", "RD", "OG", "YE", "GN", "BU", "VT", "GY", "WH");
    private static final String ALWAYS =
            "\"live\": [\"asleep\", \"accessory\", \"ignition\", \"cranking\", \"running\", \"restarting\"]";
    private static final String SWITCHED = "\"live\": [\"accessory\", \"ignition\", \"running\", \"restarting\"]";

    private final Pairing pairing = new Pairing(Hookups.checker()::check);

    static Stream<Long> seeds() {
        return IntStream.range(0, 40).mapToObj(Long::valueOf);
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void proposesNothingThatIsAnError(long seed) {
        Proposal proposal = pairing.propose(hookup(seed, seed), null, Stock.NONE);

        assertThat(proposal.report().findings())
                .filteredOn(finding -> finding.severity().compareTo(Severity.WARNING) <= 0)
                .isEmpty();
        assertThat(proposal.hookup().connections()).hasSizeGreaterThan(4);
        for (Proposal.Alternative alternative : proposal.alternatives()) {
            assertThat(alternative.verdict()).isNotEqualTo(Report.Verdict.NOT_READY);
        }
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void feedsEveryLoadAndGroundsEveryPart(long seed) {
        Hookup asked = hookup(seed, seed);
        Set<String> ends = ends(pairing.propose(asked, null, Stock.NONE));

        asked.devices()
                .keySet()
                .forEach(part -> asked.terminalsOf(part).forEach((name, terminal) -> {
                    if (terminal.electrical() instanceof Electrical.Load
                            || terminal.electrical() instanceof Electrical.Ground) {
                        assertThat(ends).contains(part + "." + name);
                    }
                }));
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void looksAtNoColour(long seed) {
        Proposal one = pairing.propose(hookup(seed, 1000 + seed), null, Stock.NONE);
        Proposal other = pairing.propose(hookup(seed, 2000 + seed), null, Stock.NONE);

        assertThat(pairs(one)).isEqualTo(pairs(other));
        assertThat(one.cost()).isEqualTo(other.cost());
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void touchesNoUntouchableCircuitAndNoPlugOfOne(long seed) {
        Proposal proposal = pairing.propose(hookup(seed, seed), null, Stock.NONE);

        assertThat(ends(proposal)).noneMatch(end -> end.startsWith("CAR.AB-"));
        assertThat(Objects.requireNonNull(proposal.hookup().vehicle()).unplugged())
                .doesNotContain("AB");
        assertThat(proposal.hookup().plugs()).noneMatch(plug -> plug.contains("CAR.AB"));
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void feedsTheInterlockFromTheParkingBrakeOrNotAtAll(long seed) {
        Hookup asked = hookup(seed, seed);
        boolean there = asked.map().circuits().containsKey("BM-3");
        Proposal proposal = pairing.propose(asked, null, Stock.NONE);

        Set<String> mates = new TreeSet<>();
        proposal.hookup().connections().values().stream()
                .map(Connection::ends)
                .filter(ends -> ends.contains("HU.parking-brake"))
                .forEach(mates::addAll);
        mates.remove("HU.parking-brake");
        assertThat(mates).isEqualTo(there ? Set.of("CAR.BM-3") : Set.of());
    }

    private static Set<String> ends(Proposal proposal) {
        Set<String> ends = new TreeSet<>();
        proposal.hookup().connections().values().forEach(connection -> ends.addAll(connection.ends()));
        return ends;
    }

    private static Set<Set<String>> pairs(Proposal proposal) {
        Set<Set<String>> pairs = new java.util.HashSet<>();
        proposal.hookup().connections().values().forEach(connection -> pairs.add(Set.copyOf(connection.ends())));
        return pairs;
    }

    /** A radio's plug of 3 to 12 circuits, a body module, an airbag's plug, and a head unit with or without an amplifier. */
    private static Hookup hookup(long seed, long colours) {
        Random random = new Random(seed);
        Map<String, String> circuits = new LinkedHashMap<>();
        Map<String, String> radio = new LinkedHashMap<>();
        boolean harness = random.nextBoolean();
        int fuse = 10 + 5 * random.nextInt(3);
        radio.put("power.battery", supply(fuse, ALWAYS, ""));
        radio.put("ground.chassis", "\"kind\": \"ground\", \"maxAmps\": " + fuse);
        if (random.nextBoolean()) {
            radio.put("power.accessory", supply(5 + 5 * random.nextInt(2), SWITCHED, ""));
        } else {
            circuits.put("BM-1", Wiring.facts("power.ignition", supply(10, SWITCHED, "")));
        }
        if (random.nextBoolean()) {
            radio.put("power.illumination", supply(5, ALWAYS, ", \"when\": \"lamps\""));
        }
        if (random.nextBoolean()) {
            radio.put("control.reverse", supply(5, SWITCHED, ", \"when\": \"reverse\""));
        }
        List<String> channels = random.nextBoolean() ? CHANNELS : CHANNELS.subList(0, 2);
        int pin = 1;
        List<String> functions = new ArrayList<>(radio.keySet());
        java.util.Collections.shuffle(functions, random);
        Map<String, String> harnessTerminals = new LinkedHashMap<>();
        List<String> conducts = new ArrayList<>();
        for (String function : functions) {
            circuits.put("RA-" + pin, Wiring.facts(function, Objects.requireNonNull(radio.get(function))));
            addPin(function, pin, harnessTerminals, conducts);
            pin++;
        }
        for (String channel : channels) {
            for (String side : List.of("plus", "minus")) {
                String function = "audio.speaker." + channel + "." + side;
                circuits.put(
                        "RA-" + pin,
                        "{\"function\": \"" + function + "\", \"whenPlugged\": {" + factory(channel, side)
                                + "}, \"whenUnplugged\": {" + speaker(channel, side) + "}}");
                addPin(function, pin, harnessTerminals, conducts);
                pin++;
            }
        }
        circuits.put("BM-2", Wiring.facts("ground.chassis", "\"kind\": \"ground\", \"maxAmps\": 20"));
        if (random.nextBoolean()) {
            circuits.put(
                    "BM-3",
                    Wiring.facts(
                            "control.parking-brake",
                            "\"kind\": \"control-out\", \"active\": \"ground\", \"maxAmps\": 0.2, " + ALWAYS
                                    + ", \"when\": \"parking-brake\""));
        }
        circuits.put(
                "BM-4",
                Wiring.facts(
                        "control.door",
                        "\"kind\": \"control-out\", \"active\": \"ground\"," + " \"maxAmps\": 0.2, " + ALWAYS
                                + ", \"when\": \"door-open\""));
        circuits.put("AB-1", Wiring.facts("safety.airbag", "\"kind\": \"untouchable\", \"reason\": \"airbag\""));
        circuits.put("AB-2", Wiring.facts("power.battery", supply(30, ALWAYS, "")));
        circuits.put("AB-3", Wiring.facts("ground.chassis", "\"kind\": \"ground\", \"maxAmps\": 50"));

        Map<String, String> parts = new TreeMap<>();
        boolean amplifier = random.nextBoolean();
        parts.put("HU", part(headUnit(random, channels, amplifier), ""));
        if (harness) {
            parts.put(
                    "HAR",
                    part(
                            harnessTerminals,
                            ", \"conducts\": [" + String.join(", ", conducts)
                                    + "], \"connectors\": {\"P\": {\"mates\": [\"radio-plug\"]}}"));
        }
        if (amplifier) {
            parts.put("AMP", part(amplifier(), ", \"couples\": [" + couple("left") + ", " + couple("right") + "]"));
            parts.put("SUB", part(subwoofer(random), ""));
        }
        Random paint = new Random(colours);
        circuits.replaceAll((name, facts) ->
                facts.replaceFirst("\\{", "{\"colour\": \"" + COLOURS.get(paint.nextInt(COLOURS.size())) + "\", "));
        return Hookups.hookup("{\"vehicle\": {\"inline\": {\"circuits\": " + object(circuits)
                + ", \"connectors\": {\"RA\": {\"mates\": [\"radio-plug\"]}, \"AB\": {\"mates\": [\"radio-plug\"]}}}"
                + (harness ? "" : ", \"unplugged\": [\"RA\"]") + "}, \"parts\": " + object(parts) + "}");
    }

    private static Map<String, String> headUnit(Random random, List<String> channels, boolean lineOut) {
        Map<String, String> terminals = new LinkedHashMap<>();
        terminals.put("memory", Wiring.facts("power.battery", load("constant", 2, 7)));
        terminals.put("switched", Wiring.facts("power.accessory", load("switched", 0.1, 0.3)));
        terminals.put("ground", Wiring.facts("ground.chassis", "\"kind\": \"ground\", \"maxAmps\": 15"));
        terminals.put("parking-brake", Wiring.facts("control.parking-brake", input("ground")));
        terminals.put("reverse", Wiring.facts("control.reverse", input("12V")));
        terminals.put("illumination", Wiring.facts("power.illumination", input("12V")));
        terminals.put(
                "turn-on",
                Wiring.facts(
                        "control.amplifier-on",
                        "\"kind\": \"control-out\", \"active\": \"12V\", \"maxAmps\": 0.3, " + SWITCHED));
        for (String channel : channels) {
            for (String side : List.of("plus", "minus")) {
                terminals.put(
                        channel + "-" + side,
                        Wiring.facts(
                                "audio.speaker." + channel + "." + side,
                                "\"kind\": \"speaker-out\", \"channel\": \"" + channel + "\", \"side\": \"" + side
                                        + "\", \"drive\": \"floating\", \"maxVolts\": " + (8 + random.nextInt(3))
                                        + ", \"minOhms\": 4"));
            }
        }
        if (lineOut) {
            for (String side : List.of("signal", "return")) {
                terminals.put(
                        "subwoofer-" + side,
                        Wiring.facts(
                                "audio.line.subwoofer." + side,
                                "\"kind\": \"line-out\", \"channel\": \"subwoofer\", \"side\": \"" + side
                                        + "\", \"maxVolts\": 4, \"return\": \"chassis\""));
            }
        }
        return terminals;
    }

    private static Map<String, String> amplifier() {
        Map<String, String> terminals = new LinkedHashMap<>();
        terminals.put("power", Wiring.facts("power.battery", load("either", 8, 40)));
        terminals.put("ground", Wiring.facts("ground.chassis", "\"kind\": \"ground\", \"maxAmps\": 60"));
        terminals.put("remote", Wiring.facts("control.amplifier-on", input("12V")));
        for (String channel : List.of("left", "right")) {
            for (String side : List.of("signal", "return")) {
                terminals.put(
                        channel + "-" + side,
                        Wiring.facts(
                                "audio.line." + channel + "." + side,
                                "\"kind\": \"line-in\", \"channel\": \"" + channel + "\", \"side\": \"" + side
                                        + "\", \"minVolts\": 0.2, \"maxVolts\": 6, \"return\": \"differential\""));
            }
        }
        for (String side : List.of("plus", "minus")) {
            terminals.put(
                    "out-" + side,
                    Wiring.facts(
                            "audio.speaker.subwoofer." + side,
                            "\"kind\": \"speaker-out\", \"channel\": \"subwoofer\", \"side\": \"" + side
                                    + "\", \"drive\": \"floating\", \"maxVolts\": 30, \"minOhms\": 2"));
        }
        return terminals;
    }

    private static Map<String, String> subwoofer(Random random) {
        Map<String, String> terminals = new LinkedHashMap<>();
        int coils = 1 + random.nextInt(2);
        double ohms = coils == 1 ? 4 : 2 + 2 * random.nextInt(2);
        for (int coil = 1; coil <= coils; coil++) {
            for (String side : List.of("plus", "minus")) {
                terminals.put(
                        "coil-" + coil + "-" + side,
                        Wiring.facts(
                                "audio.speaker.subwoofer." + side,
                                "\"kind\": \"speaker-in\", \"channel\": \"subwoofer\", \"side\": \"" + side
                                        + "\", \"ohms\": " + ohms + ", \"maxVolts\": 40, \"maxWatts\": 500"));
            }
        }
        return terminals;
    }

    private static String couple(String channel) {
        return "{\"from\": [\"" + channel + "-signal\", \"" + channel
                + "-return\"], \"to\": [\"out-plus\", \"out-minus\"], \"gain\": 8}";
    }

    private static void addPin(String function, int pin, Map<String, String> terminals, List<String> conducts) {
        terminals.put("P-" + pin, Wiring.facts(function, "\"kind\": \"passive\""));
        terminals.put("lead" + pin, Wiring.facts(function, "\"kind\": \"passive\""));
        conducts.add("[\"P-" + pin + "\", \"lead" + pin + "\"]");
    }

    private static String factory(String channel, String side) {
        return "\"kind\": \"speaker-out\", \"channel\": \"" + channel + "\", \"side\": \"" + side
                + "\", \"drive\": \"floating\", \"maxVolts\": 9, \"minOhms\": 4";
    }

    private static String speaker(String channel, String side) {
        return "\"kind\": \"speaker-in\", \"channel\": \"" + channel + "\", \"side\": \"" + side
                + "\", \"ohms\": 4, \"maxVolts\": 13, \"maxWatts\": 40";
    }

    private static String supply(double amps, String live, String more) {
        return "\"kind\": \"supply\", \"maxAmps\": " + amps + ", \"fuseAmps\": " + amps + ", " + live + more;
    }

    private static String load(String needs, double typicalAmps, double maxAmps) {
        return "\"kind\": \"load\", \"needs\": \"" + needs + "\", \"typicalAmps\": " + typicalAmps + ", \"maxAmps\": "
                + maxAmps;
    }

    private static String input(String active) {
        return "\"kind\": \"control-in\", \"active\": \"" + active + "\", \"amps\": 0.01";
    }

    private static String part(Map<String, String> terminals, String more) {
        return "{\"inline\": {\"terminals\": " + object(terminals) + more + "}}";
    }

    private static String object(Map<String, String> entries) {
        return "{"
                + String.join(
                        ", ",
                        entries.entrySet().stream()
                                .map(entry -> "\"" + entry.getKey() + "\": " + entry.getValue())
                                .toList())
                + "}";
    }

    /** That the colours used are colours, so that a test about them is about something. */
    @org.junit.jupiter.api.Test
    void paintsInColours() {
        assertThat(COLOURS)
                .allSatisfy(colour -> assertThat(new Colour(colour).toString()).isEqualTo(colour));
        assertThat(Objects.requireNonNull(hookup(1, 1).map().circuits().get("RA-1"))
                        .colour())
                .isNotEqualTo(
                        Objects.requireNonNull(hookup(1, 3).map().circuits().get("RA-1"))
                                .colour());
    }
}
