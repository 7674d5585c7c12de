package dev.splicebook.hookup;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

/**
 * Hookups whose findings were worked out from the facts, before the rules and without them. Each lies in a file of its
 * own under {@code corpus}: what is wrong with it, where, and why. A finding that no expectation names and an
 * expectation that no finding meets are both told, and go into a table of precision and recall for each rule, which
 * {@code target/corpus.txt} keeps.
 */
class CorpusTest {

    /** What no document can say by itself: that the book has a later revision than the hookup names. */
    private static final Set<String> OUTSIDE_A_DOCUMENT = Set.of("map-outdated");

    private static final int FEWEST_HOOKUPS = 60;

    /** How a rule did. */
    private static final class Score {
        private int expected;
        private int met;
        private int missed;
        private int right;
        private int wrong;
        private int unchecked;
    }

    @Test
    void findsWhatFollowsFromTheFactsAndNothingElse() {
        Map<String, Score> scores = new TreeMap<>();
        List<String> disagreements = new ArrayList<>();
        for (Map.Entry<String, Corpus.Case> entry : Corpus.cases().entrySet()) {
            Report report = Hookups.checker().check(Corpus.read(entry.getValue().hookup()));
            for (Corpus.Expectation expectation : entry.getValue().expect()) {
                Score score = score(scores, expectation.rule());
                score.expected++;
                boolean met = report.findings().stream().anyMatch(expectation::isMetBy);
                if (met) {
                    score.met++;
                } else if (expectation.disputed() == null) {
                    score.missed++;
                    disagreements.add(entry.getKey() + ": " + expectation.rule() + " at " + expectation.at()
                            + " is not found. " + entry.getValue().why());
                }
                report.outcomes().stream()
                        .filter(outcome -> outcome.rule().equals(expectation.rule())
                                && outcome.result() == Report.Result.NOT_CHECKED)
                        .forEach(outcome -> score.unchecked++);
            }
            for (Finding finding : report.findings()) {
                Score score = score(scores, finding.rule());
                if (entry.getValue().expect().stream().anyMatch(expectation -> expectation.isMetBy(finding))) {
                    score.right++;
                } else {
                    score.wrong++;
                    disagreements.add(entry.getKey() + ": " + finding.rule() + " is told and not expected: "
                            + finding.message() + ". " + entry.getValue().why());
                }
            }
        }
        writtenRules().forEach(rule -> score(scores, rule));
        tell(table(scores, disagreements));

        assertThat(disagreements)
                .as("either the rule is wrong, or the file reasons wrongly: mend one, or mark the expectation disputed")
                .isEmpty();
    }

    @Test
    void leavesNoFactOpenInCorrectHookups() {
        List<String> open = new ArrayList<>();
        Corpus.cases().forEach((name, one) -> {
            Report report = Hookups.checker().check(Corpus.read(one.hookup()));
            if (one.kind() == Corpus.Kind.CORRECT && one.expect().isEmpty()) {
                report.outcomes().stream()
                        .filter(outcome -> outcome.result() == Report.Result.NOT_CHECKED)
                        .forEach(outcome -> open.add(name + ": " + outcome.rule() + " lacks " + outcome.missing()));
            }
        });

        assertThat(open).as("facts to add to the files").isEmpty();
    }

    @Test
    void holdsHookupsOfEachKindAndAtLeastOneForEachRule() {
        Map<String, Corpus.Case> cases = Corpus.cases();
        Set<String> expected = cases.values().stream()
                .flatMap(one -> one.expect().stream().map(Corpus.Expectation::rule))
                .collect(Collectors.toCollection(TreeSet::new));
        Set<String> known = new TreeSet<>(writtenRules());
        known.removeAll(OUTSIDE_A_DOCUMENT);

        assertThat(cases).hasSizeGreaterThanOrEqualTo(FEWEST_HOOKUPS);
        for (Corpus.Kind kind : Corpus.Kind.values()) {
            assertThat(cases.values().stream().filter(one -> one.kind() == kind).count())
                    .as("hookups that are %s", kind)
                    .isGreaterThan(cases.size() / 4);
        }
        assertThat(expected)
                .as("rules that some file expects; a new rule needs one")
                .isEqualTo(known);
        assertThat(cases.values())
                .allMatch(one ->
                        (one.kind() == Corpus.Kind.CORRECT) == one.expect().isEmpty());
    }

    private static String table(Map<String, Score> scores, List<String> told) {
        StringBuilder text = new StringBuilder(String.format(
                Locale.ROOT,
                "%-34s %8s %6s %6s %6s %10s %7s %10s%n",
                "rule",
                "expected",
                "met",
                "missed",
                "wrong",
                "precision",
                "recall",
                "unchecked"));
        Score sum = new Score();
        scores.forEach((rule, score) -> {
            text.append(line(rule, score));
            sum.expected += score.expected;
            sum.met += score.met;
            sum.missed += score.missed;
            sum.right += score.right;
            sum.wrong += score.wrong;
            sum.unchecked += score.unchecked;
        });
        text.append(line("all", sum));
        told.forEach(one -> text.append("! ").append(one).append(System.lineSeparator()));
        return text.toString();
    }

    private static String line(String rule, Score score) {
        return String.format(
                Locale.ROOT,
                "%-34s %8d %6d %6d %6d %10s %7s %10d%n",
                rule,
                score.expected,
                score.met,
                score.missed,
                score.wrong,
                share(score.right, score.right + score.wrong),
                share(score.met, score.met + score.missed),
                score.unchecked);
    }

    private static String share(int part, int whole) {
        return whole == 0 ? "-" : String.format(Locale.ROOT, "%.3f", part / (double) whole);
    }

    private static void tell(String table) {
        System.out.print(table);
        Path file = DemoFiles.examples().resolveSibling("service").resolve("target/corpus.txt");
        try {
            Files.createDirectories(Objects.requireNonNull(file.getParent()));
            Files.writeString(file, table);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static Score score(Map<String, Score> scores, String rule) {
        return scores.computeIfAbsent(rule, key -> new Score());
    }

    private static Set<String> writtenRules() {
        return Hookups.checker().listPages().stream()
                .map(RulePage::code)
                .collect(Collectors.toCollection(TreeSet::new));
    }
}
