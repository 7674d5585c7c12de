package dev.splicebook.hookup;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.net.Link;
import dev.splicebook.hookup.net.Network;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.UnaryOperator;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;

/** Names carry no meaning: the report of a renamed and shuffled hookup is the same up to the names. */
class RenamingTest {

    private static final int SEEDS = 8;
    private static final Pattern TERMINAL =
            Pattern.compile("\\b[A-Za-z0-9][\\w+-]*\\.[A-Za-z0-9](?:[\\w+-]*[\\w+])?(?:/unit|/harness)?");

    @TestFactory
    Stream<DynamicTest> reportsTheSameOfARenamedHookup() {
        Stream<Map.Entry<String, Hookup>> pages = Hookups.checker().listPages().stream()
                .flatMap(page -> Stream.of(
                        Map.entry(page.code() + " fails", Hookups.hookup(page.fails())),
                        Map.entry(page.code() + " passes", Hookups.hookup(page.passes()))));
        Stream<Map.Entry<String, Hookup>> jobs = Stream.of(
                        "rear-entertainment/check-1-first-draft",
                        "rear-entertainment/check-3-ready",
                        "amplifier-and-subwoofers/check-1-first-draft",
                        "amplifier-and-subwoofers/check-2-ready")
                .map(name -> Map.entry(name, DemoFiles.example(name)));
        return Stream.concat(pages, jobs)
                .map(entry -> DynamicTest.dynamicTest(entry.getKey(), () -> {
                    for (long seed = 0; seed < SEEDS; seed++) {
                        assertSame(entry.getValue(), seed);
                    }
                }));
    }

    private static void assertSame(Hookup hookup, long seed) {
        Renaming renaming = new Renaming(seed);
        Hookup renamed = renaming.apply(hookup);
        Report before = Hookups.checker().check(hookup);
        Report after = Hookups.checker().check(renamed);

        assertThat(after.verdict()).isEqualTo(before.verdict());
        assertThat(after.findings().stream().map(finding -> told(finding, name -> name, name -> name, Set.of())))
                .as("findings with seed %s", seed)
                .containsExactlyInAnyOrderElementsOf(before.findings().stream()
                        .map(finding -> told(
                                finding,
                                renaming::terminal,
                                renaming::connection,
                                hookup.devices().keySet()))
                        .toList());
        assertThat(after.findings().stream().map(Finding::fingerprint).toList())
                .as("order of the findings with seed %s", seed)
                .isEqualTo(before.findings().stream().map(Finding::fingerprint).toList());
        assertThat(after.outcomes().stream()
                        .map(outcome -> outcome.rule()
                                + outcome.result()
                                + outcome.missing().size()))
                .isEqualTo(before.outcomes().stream()
                        .map(outcome -> outcome.rule()
                                + outcome.result()
                                + outcome.missing().size())
                        .toList());
        assertThat(facts(after, renamed))
                .as("order of the work with seed %s", seed)
                .isEqualTo(facts(before, hookup));
        assertThat(after.assumptions().stream().map(Report.Assumption::name))
                .isEqualTo(before.assumptions().stream()
                        .map(Report.Assumption::name)
                        .toList());
        assertThat(after.cautions()).isEqualTo(before.cautions());
    }

    /** A finding as text, its names mapped; names of equal facts may stand in another order, so the words are sorted. */
    private static String told(
            Finding finding, UnaryOperator<String> terminal, UnaryOperator<String> connection, Set<String> parts) {
        TreeSet<String> terminals = new TreeSet<>();
        finding.terminals().forEach(name -> terminals.add(terminal.apply(name)));
        TreeSet<String> connections = new TreeSet<>();
        finding.connections().forEach(ref -> connections.add(connection.apply(ref)));
        Matcher names = TERMINAL.matcher(finding.message());
        String message = names.replaceAll(match -> Matcher.quoteReplacement(
                finding.terminals().contains(match.group()) ? terminal.apply(match.group()) : match.group()));
        String[] words = message.split("[ ,]+");
        for (int word = 0; word < words.length; word++) {
            words[word] = parts.contains(words[word]) ? terminal.apply(words[word]) : words[word];
        }
        Arrays.sort(words);
        return finding.rule()
                + terminals
                + connections
                + finding.measured()
                + finding.limit()
                + finding.unit()
                + finding.states()
                + finding.fingerprint()
                + (connections.isEmpty() ? String.join(" ", words) : "");
    }

    /** What is connected at each step, without names. */
    private static List<String> facts(Report report, Hookup hookup) {
        Map<String, String> byRef = new HashMap<>();
        for (Link link : new Network(hookup).links()) {
            if (link.ref() != null) {
                TreeSet<String> ends =
                        new TreeSet<>(List.of(link.from().factsText(), link.to().factsText()));
                byRef.put(link.ref(), ends.toString());
            }
        }
        return report.order().stream()
                .map(step -> String.valueOf(byRef.get(step.connection())))
                .toList();
    }
}
