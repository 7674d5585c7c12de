package dev.splicebook.hookup;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.electrics.ConductorSize;
import dev.splicebook.hookup.PairingQuestion.Preferences;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Small questions, each about one choice, with what a tradesman would answer. They stand in {@code /pairing/*.txt}:
 *
 * <pre>
 * # what it is about
 * CAR.C1-1 | power.battery | supply fuseAmps=10 live=all
 * HU {"relays": [...]}
 * ? keep audio.line
 * =
 * the choices, then the conductors, then what was given up, then what the check says
 * </pre>
 */
class PairingCasesTest {

    private static final Map<String, String> TIMES = Map.of(
            "all", "asleep,accessory,ignition,cranking,running,restarting",
            "on", "accessory,ignition,running,restarting",
            "ignition", "ignition,cranking,running,restarting",
            "never", "");

    private static final Pattern BLOCK = Pattern.compile("(?ms)^# (.*?)\\n(.*?)^=$(.*?)(?=^# |\\z)");

    private final Pairing pairing = new Pairing(Hookups.checker()::check);

    static Stream<Arguments> cases() throws IOException {
        List<Arguments> cases = new ArrayList<>();
        for (String file : List.of("feeds", "controls", "lines", "sounds")) {
            try (InputStream in = PairingCasesTest.class.getResourceAsStream("/pairing/" + file + ".txt")) {
                String text = new String(Objects.requireNonNull(in, file).readAllBytes(), StandardCharsets.UTF_8);
                Matcher block = BLOCK.matcher(text);
                while (block.find()) {
                    cases.add(Arguments.of(
                            block.group(1),
                            block.group(2).lines().toList(),
                            block.group(3).strip()));
                }
            }
        }
        assertThat(cases).hasSizeGreaterThan(60);
        return cases.stream();
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("cases")
    void answersAsATradesmanWould(String title, List<String> question, String answer) {
        Hookup asked = Hookups.hookup(json(question));
        Preferences preferences =
                new Preferences(new Connection.Conductor(new ConductorSize("18 AWG"), null, null), null, null, null, 0);

        assertThat(told(pairing.propose(asked, preferences, Stock.NONE)))
                .as(title)
                .isEqualTo(answer);
    }

    private static String told(Proposal proposal) {
        List<String> lines = new ArrayList<>(reasons(proposal));
        proposal.hookup().connections().values().stream()
                .map(PairingCasesTest::told)
                .sorted()
                .forEach(lines::add);
        proposal.gaveUp()
                .forEach(one -> lines.add("gave up " + one.wish().function() + ": " + one.why()
                        + (one.instead() == null ? "" : "; instead " + one.instead())));
        proposal.report().findings().stream()
                .filter(finding -> finding.severity() != Severity.NOTE)
                .forEach(finding -> lines.add("! " + finding.rule() + ": " + finding.message()));
        return String.join("\n", lines);
    }

    /** Each choice and each setting to make on a line. */
    static List<String> reasons(Proposal proposal) {
        List<String> reasons = new ArrayList<>();
        for (Proposal.Choice choice : proposal.choices()) {
            reasons.add(String.join(" ", choice.terminals()) + " -> " + String.join(" ", choice.to())
                    + (choice.through().isEmpty() ? "" : " by " + String.join(" ", choice.through())) + " | "
                    + choice.why() + (choice.against() == null ? "" : " | not " + choice.against()));
        }
        proposal.settingsToMake()
                .forEach(setting -> reasons.add(setting.part() + " " + setting.setting()
                        + (setting.value() == null ? "" : " = " + setting.value())
                        + (setting.why() == null ? "" : " | " + setting.why())));
        return reasons;
    }

    private static String told(Connection connection) {
        Connection.Conductor conductor = connection.conductor();
        Connection.WireFuse fuse = connection.fuse();
        return "- " + String.join(" ", connection.ends())
                + (conductor == null ? "" : ", " + conductor.size())
                + (connection.length() == null ? "" : ", " + connection.length().metres() + " m")
                + (fuse == null
                        ? ""
                        : ", " + fuse.ratingAmps() + " A at "
                                + (fuse.fromSource() == null
                                        ? "?"
                                        : fuse.fromSource().metres())
                                + " m");
    }

    private static String json(List<String> question) {
        Map<String, Map<String, String>> terminals = new LinkedHashMap<>();
        Map<String, String> more = new LinkedHashMap<>();
        List<String> wishes = new ArrayList<>();
        terminals.put(Names.VEHICLE, new LinkedHashMap<>());
        for (String line : question) {
            if (line.startsWith("? ")) {
                String[] wish = line.substring(2).split(" ", -1);
                wishes.add("{\"want\": \"" + wish[0] + "\", \"function\": \"" + wish[1] + "\"}");
            } else if (line.contains(" {")) {
                int at = line.indexOf(' ');
                more.put(line.substring(0, at), line.substring(at + 2, line.length() - 1));
            } else if (!line.isBlank()) {
                String[] cells = line.split("\\|", -1);
                String ref = cells[0].strip();
                String part = ref.substring(0, ref.indexOf('.'));
                terminals
                        .computeIfAbsent(part, key -> new LinkedHashMap<>())
                        .put(
                                ref.substring(ref.indexOf('.') + 1),
                                terminal(cells[1].strip(), cells.length < 3 ? "" : cells[2].strip()));
            }
        }
        List<String> parts = new ArrayList<>();
        terminals.forEach((part, facts) -> {
            if (!part.equals(Names.VEHICLE)) {
                parts.add("\"" + part + "\": {\"inline\": {" + (more.containsKey(part) ? more.get(part) + ", " : "")
                        + "\"terminals\": " + entries(facts) + "}}");
            }
        });
        String vehicle = more.containsKey(Names.VEHICLE) ? more.get(Names.VEHICLE) + ", " : "";
        String use = more.containsKey("VEHICLE") ? ", " + more.get("VEHICLE") : "";
        return "{\"vehicle\": {\"inline\": {" + vehicle + "\"circuits\": "
                + entries(terminals.getOrDefault(Names.VEHICLE, Map.of())) + "}"
                + use + "}, \"parts\": {" + String.join(", ", parts) + "}, \"wishes\": ["
                + String.join(", ", wishes) + "]}";
    }

    private static String entries(Map<String, String> terminals) {
        return terminals.entrySet().stream()
                .map(entry -> "\"" + entry.getKey() + "\": " + entry.getValue())
                .collect(Collectors.joining(", ", "{", "}"));
    }

    private static String terminal(String function, String facts) {
        List<String> fields = new ArrayList<>();
        if (!function.isEmpty()) {
            fields.add("\"function\": \"" + function + "\"");
        }
        if (!facts.isEmpty()) {
            String[] words = facts.split(" +", -1);
            String electrical =
                    Arrays.stream(words).skip(1).map(PairingCasesTest::field).collect(Collectors.joining(", "));
            fields.add("\"electrical\": {\"kind\": \"" + words[0] + "\"" + (electrical.isEmpty() ? "" : ", ")
                    + electrical + "}");
        }
        return "{" + String.join(", ", fields) + "}";
    }

    private static String field(String field) {
        String name = field.substring(0, field.indexOf('='));
        String value = field.substring(field.indexOf('=') + 1);
        if (name.equals("live") || name.equals("when")) {
            return "\"" + name + "\": "
                    + Arrays.stream(TIMES.getOrDefault(value, value).split(",", -1))
                            .filter(each -> !each.isEmpty())
                            .map(each -> "\"" + each + "\"")
                            .collect(Collectors.joining(", ", "[", "]"));
        }
        return "\"" + name + "\": " + (value.matches("[0-9.]+|true|false|\".*\"") ? value : "\"" + value + "\"");
    }
}
