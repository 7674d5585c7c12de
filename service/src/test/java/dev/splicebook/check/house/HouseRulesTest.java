package dev.splicebook.check.house;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import dev.splicebook.guard.Invalid;
import dev.splicebook.guard.InvalidValueException;
import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Hookup;
import dev.splicebook.hookup.Hookups;
import dev.splicebook.hookup.Report;
import dev.splicebook.hookup.Report.Outcome;
import dev.splicebook.hookup.Report.Result;
import dev.splicebook.hookup.Severity;
import java.time.Duration;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class HouseRulesTest {

    private static final String AMPLIFIER = """
            {"name": "Job 7",
             "parts": {"AMP": {"inline": {"kind": "amplifier", "terminals": {
               "plus": {"function": "power.battery", "colour": "RD",
                        "electrical": {"kind": "load", "typicalAmps": 20, "maxAmps": 50, "needs": "constant"}},
               "minus": {"function": "ground.chassis", "electrical": {"kind": "ground"}},
               "remote": {"electrical": {"kind": "control-in", "active": "12V", "amps": 0.01}}}}}},
             "connections": {
               "%s": {"ends": ["CAR.battery-plus", "AMP.plus"], "conductor": {"size": "8 AWG"},
                      "length": {"value": 5, "unit": "m"}, "fuse": {"ratingAmps": 60}},
               "%s": {"ends": ["AMP.minus", "CAR.chassis"], "conductor": {"size": "8 AWG"}}},
             "unused": {"AMP.remote": {"as": "capped"}},
             "wishes": [{"function": "audio.line.rear-entertainment", "want": "keep"}]}""";

    private static Hookup amplifier() {
        return Hookups.hookup(AMPLIFIER.formatted("W1", "W2"));
    }

    private static HouseRule rule(Subject each, String when, String message) {
        return new HouseRule("house-rule", Severity.WARNING, each, when, message, "do it otherwise.", List.of());
    }

    private static Report check(Hookup hookup, HouseRule rule) {
        return HouseRules.check(hookup, Hookups.checker().check(hookup), List.of(HouseRules.compile(rule)));
    }

    private static List<Finding> findings(HouseRule rule) {
        return Hookups.findings(check(amplifier(), rule), "house-rule");
    }

    private static Outcome outcome(Hookup hookup, HouseRule rule) {
        return Hookups.outcome(check(hookup, rule), "house-rule");
    }

    @Test
    void findsAConnectionAndSaysWhatIsWrong() {
        HouseRule rule = rule(
                Subject.CONNECTIONS,
                "it.to.kind == 'load' && it.lengthMetres > 4 && it.fuseAmps >= 60",
                "connection {it.ref} from {it.from.ref} is {it.lengthMetres} m of {it.areaMm2} mm², {{fused at {it.fuseAmps} A}}");

        Report report = check(amplifier(), rule);

        assertThat(Hookups.findings(report, "house-rule")).singleElement().satisfies(finding -> {
            assertThat(finding.message())
                    .isEqualTo("connection W1 from CAR.battery-plus is 5 m of 8.366 mm², {fused at 60 A}");
            assertThat(finding.severity()).isEqualTo(Severity.WARNING);
            assertThat(finding.help()).isEqualTo("do it otherwise.");
            assertThat(finding.connections()).containsExactly("W1");
            assertThat(finding.terminals()).containsExactly("CAR.battery-plus", "AMP.plus");
            assertThat(finding.fingerprint()).matches("[0-9a-f]{16}");
        });
        assertThat(Hookups.outcome(report, "house-rule").result()).isEqualTo(Result.FAILED);
        assertThat(report.findings()).isSortedAccordingTo(Finding.WORST_FIRST);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            quoteCharacter = '"',
            value = {
                "terminals; it.part == 'AMP' && !it.connected && it.unused != 'removed'; 1",
                "terminals; has(it.maxAmps) && it.maxAmps > 49.9; 1",
                "terminals; has(it.active) && it.active == '12V'; 1",
                "parts; it.kind == 'amplifier' && it.terminals.exists(t, t.function == 'power.battery'); 1",
                "nets; 'ground' in it.kinds && it.connections.exists(c, c.areaMm2 < 10.0); 1",
                "nets; it.terminals.exists(t, t.ref == 'AMP.plus') && size(it.terminals) == 2; 1",
                "findings; it.rule == 'wish-unmet' || it.rule.startsWith('fuse-'); 1",
                "wishes; it.want == 'keep'; 1",
                "hookup; sum(connections.filter(c, has(c.fuseAmps)).map(c, c.fuseAmps)) > 59.0; 1",
                "hookup; it.connections.size() == connections.size() && size(connections) == 2; 1",
                "connections; it.ref.matches('^W[0-9]+$'); 2",
                "connections; connections.exists(c, c.ref != it.ref && c.areaMm2 == it.areaMm2); 2",
                "connections; it.size == '10 AWG'; 0",
                // 50 A through 5 m of 8 AWG: 2.06 mΩ a metre at 20 °C, and warmer by the load
                "connections; has(it.power) && it.power.amps > 49.9 && it.power.amps < 50.1; 2",
                "connections; it.ref == 'W1' && it.power.typicalAmps < 20.1 && it.power.lossWatts > 25.7; 1",
                "connections; has(it.power) && it.power.celsius > 50.0 && it.power.celsius < 105.0; 2",
                "terminals; has(it.power) && it.power.volts < 12.2 && it.power.volts > 6.0 && it.power.amps > 49.9; 1",
                "parts; it.ref == 'AMP' && it.groundVolts >= 0.0 && it.groundVolts < 0.2; 1",
            })
    void asksOfAnything(String each, String when, int times) {
        assertThat(findings(rule(Subject.valueOf(each.toUpperCase(Locale.ROOT)), when, "so")))
                .hasSize(times);
    }

    @Test
    void takesAFieldThatThereIsNotForAnErrorAndNotForAMissingFact() {
        Outcome outcome = outcome(amplifier(), rule(Subject.HOOKUP, "dyn(it).wires == 1", "so"));

        assertThat(outcome.result()).isEqualTo(Result.NOT_CHECKED);
        assertThat(outcome.missing()).isEmpty();
        assertThat(outcome.error()).contains("Hookup has no field wires");
    }

    @Test
    void tellsWhichFactsAreMissing() {
        HouseRule rule = rule(Subject.CONNECTIONS, "it.fuseAmps > 100.0 || it.lengthMetres > 100.0", "so");

        Outcome outcome = outcome(amplifier(), rule);

        assertThat(outcome.result()).isEqualTo(Result.NOT_CHECKED);
        assertThat(outcome.missing()).containsExactly("W2.fuseAmps", "W2.lengthMetres");
        assertThat(outcome.error()).isNull();
    }

    @Test
    void doesNotMissWhatItOnlyAskedAfter() {
        HouseRule asking = rule(Subject.CONNECTIONS, "!has(it.fuseAmps) && it.lengthMetres > 1.0", "so");
        HouseRule failing = rule(Subject.CONNECTIONS, "1 / 0 == 1 && !has(it.fuseAmps)", "so");

        assertThat(outcome(amplifier(), asking).missing()).containsExactly("W2.lengthMetres");
        assertThat(outcome(amplifier(), failing).missing()).isEmpty();
        assertThat(outcome(amplifier(), failing).error()).isEqualTo("/ by zero");
    }

    @Test
    void keepsAnErrorToItself() {
        Hookup hookup = amplifier();
        Report without = Hookups.checker().check(hookup);

        Report report = check(hookup, rule(Subject.HOOKUP, "1 / (size(parts) - 1) > 0", "so"));

        Outcome outcome = Hookups.outcome(report, "house-rule");
        assertThat(outcome.result()).isEqualTo(Result.NOT_CHECKED);
        assertThat(outcome.error()).isEqualTo("/ by zero");
        assertThat(report.findings()).isEqualTo(without.findings());
        assertThat(report.verdict()).isEqualTo(without.verdict());
        assertThat(report.outcomes()).hasSize(without.outcomes().size() + 1).containsAll(without.outcomes());
    }

    @Test
    void saysUnknownForWhatAMessageCannotTell() {
        assertThat(findings(rule(Subject.CONNECTIONS, "it.ref == 'W2'", "{it.ref} has {it.fuseAmps} A")))
                .extracting(Finding::message)
                .containsExactly("W2 has unknown A");
    }

    @Test
    void isNotApplicableWhereThereIsNothingOfTheKind() {
        Hookup nothing = Hookups.hookup("{}");

        assertThat(outcome(nothing, rule(Subject.CONNECTIONS, "true", "so")).result())
                .isEqualTo(Result.NOT_APPLICABLE);
        assertThat(outcome(amplifier(), rule(Subject.CONNECTIONS, "false", "so"))
                        .result())
                .isEqualTo(Result.PASSED);
    }

    @Test
    void countsInTheVerdictBySeverity() {
        Hookup hookup = Hookups.hookup("{}");
        HouseRule error = new HouseRule("house-rule", Severity.ERROR, Subject.HOOKUP, "true", "m", "h", List.of());
        HouseRule note = new HouseRule("house-rule", Severity.NOTE, Subject.HOOKUP, "true", "m", "h", List.of());
        HouseRule failing =
                new HouseRule("house-rule", Severity.ERROR, Subject.HOOKUP, "1 / 0 == 1", "m", "h", List.of());

        assertThat(check(hookup, error).verdict()).isEqualTo(Report.Verdict.NOT_READY);
        assertThat(check(hookup, note).verdict()).isEqualTo(Report.Verdict.READY);
        assertThat(check(hookup, failing).verdict()).isEqualTo(Report.Verdict.READY_WITH_CAUTIONS);
    }

    @Test
    void hasAFingerprintOfRuleAndFactsAndNotOfNames() {
        HouseRule rule = rule(Subject.CONNECTIONS, "has(it.fuseAmps) && connections.exists(c, c.areaMm2 > 1.0)", "so");
        String first = onlyFingerprint(amplifier(), rule);
        String renamed = AMPLIFIER.formatted("B", "A").replace("AMP.", "X9.").replace("\"AMP\"", "\"X9\"");

        assertThat(onlyFingerprint(Hookups.hookup(renamed), rule)).isEqualTo(first);
        assertThat(onlyFingerprint(
                        Hookups.hookup(
                                AMPLIFIER.formatted("W1", "W2").replace("\"ratingAmps\": 60", "\"ratingAmps\": 50")),
                        rule))
                .isNotEqualTo(first);
        assertThat(onlyFingerprint(
                        amplifier(), rule(Subject.CONNECTIONS, "has(it.fuseAmps) && it.fuseAmps > 1.0", "so")))
                .isNotEqualTo(first);
    }

    @Test
    void hasAFingerprintOfWhatElseTheRuleReads() {
        HouseRule rule = rule(Subject.PARTS, "connections.exists(c, c.size == '8 AWG')", "so");
        String first = onlyFingerprint(amplifier(), rule);

        assertThat(onlyFingerprint(
                        Hookups.hookup(AMPLIFIER.formatted("W1", "W2").replace("8 AWG\"}}", "4 AWG\"}}")), rule))
                .isNotEqualTo(first);
    }

    private static String onlyFingerprint(Hookup hookup, HouseRule rule) {
        List<Finding> findings = Hookups.findings(check(hookup, rule), "house-rule");
        assertThat(findings).hasSize(1);
        return findings.get(0).fingerprint();
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            quoteCharacter = '"',
            value = {
                "it.fuzeAmps > 1.0; /when; undefined field 'fuzeAmps'",
                "it.fuseAmps; /when; where true or false belongs",
                "it.fuseAmps >; /when; column",
                "nothing.ref == ''; /when; nothing",
                "it.ref + it.ref == ''; /when; no matching overload",
                "size(connections + connections) > 1; /when; adds lists",
                "[1].map(a, [a] + [a]).size() > 1; /when; adds lists",
                "it.ref.matches(it.size); /when; not written out",
                "it.ref.matches('((a{100}){100}){100}'); /when; number of repeats",
                "it.ref.matches('('); /when; pattern",
                "Connection{ref: 'x'} == it; /when; of its own",
                "[1].all(a, [1].all(b, [1].all(c, true))); /when; nests more than 2 loops",
                "b'x' + b'y' == b'z'; /when; no matching overload",
            })
    void refusesWhatCannotBeUsed(String when, String pointer, String detail) {
        assertThatExceptionOfType(InvalidValueException.class)
                .isThrownBy(() -> HouseRules.compile(rule(Subject.CONNECTIONS, when, "so")))
                .satisfies(refused -> assertThat(refused.invalids())
                        .singleElement()
                        .satisfies(fault -> {
                            assertThat(fault.pointer()).isEqualTo(pointer);
                            assertThat(fault.detail()).contains(detail);
                        }));
    }

    @ParameterizedTest
    @ValueSource(strings = {"{it.fuzeAmps}", "lonely {", "lonely }", "{it}", "{}", "{it.ref"})
    void refusesAMessageThatCannotBeUsed(String message) {
        assertThatExceptionOfType(InvalidValueException.class)
                .isThrownBy(() -> HouseRules.compile(rule(Subject.CONNECTIONS, "true", message)))
                .satisfies(refused -> assertThat(refused.invalids())
                        .extracting(Invalid::pointer)
                        .containsExactly("/message"));
    }

    @Test
    void refusesDeepAndLongExpressions() {
        for (String when : List.of(
                "(".repeat(200) + "true" + ")".repeat(200), "!".repeat(999) + "true", "true" + " ".repeat(1000))) {
            assertThatExceptionOfType(InvalidValueException.class)
                    .isThrownBy(() -> HouseRules.compile(rule(Subject.CONNECTIONS, when, "so")));
        }
    }

    /** Loops in loops over 1,500 connections, of which each alone is allowed, end within the time that a rule has. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "connections.all(a, connections.all(b, a == b || a != b))",
                "connections.map(a, connections.map(b, b.ref)).size() > 0",
                "connections.filter(a, connections.exists(b, b.ref == a.ref + '')).size() > 0",
                "connections.all(a, a in connections)",
                "connections.all(a, connections == connections)",
                "connections.all(a, a.ref.matches('(a|b|c|W)*(1|2|3)*$') || true)",
                "connections.map(a, connections) == connections.map(a, connections)",
            })
    void stopsWhatTakesTooLong(String when) {
        String connections = IntStream.range(0, 1500)
                .mapToObj(at -> "\"W%d\": {\"ends\": [\"CAR.chassis\", \"P.t%d\"]}".formatted(at, at % 900))
                .collect(Collectors.joining(","));
        String terminals = IntStream.range(0, 900)
                .mapToObj(at -> "\"t%d\": {\"electrical\": {\"kind\": \"passive\"}}".formatted(at))
                .collect(Collectors.joining(","));
        Hookup hookup = Hookups.hookup("{\"parts\": {\"P\": {\"inline\": {\"terminals\": {" + terminals
                + "}}}}, \"connections\": {" + connections + "}}");
        Report report = Hookups.checker().check(hookup);
        List<HouseRules.Compiled> rules;
        try {
            rules = List.of(HouseRules.compile(rule(Subject.CONNECTIONS, when, "so")));
        } catch (InvalidValueException refused) {
            assertThat(when).contains("+ ''");
            return;
        }

        long before = System.nanoTime();
        Report checked = HouseRules.check(hookup, report, rules);
        Duration took = Duration.ofNanos(System.nanoTime() - before);

        assertThat(took).isLessThan(HouseRules.MOST_FOR_ONE.plusMillis(1500));
        Outcome outcome = Hookups.outcome(checked, "house-rule");
        assertThat(outcome.error()).isEqualTo("it takes longer than a rule of the house may, and was stopped");
        assertThat(Hookups.outcome(checked, "fuse-missing")).isEqualTo(Hookups.outcome(report, "fuse-missing"));
    }

    @Test
    void boundsAllRulesTogether() {
        Evaluation evaluation = new Evaluation(Duration.ZERO, 1);
        evaluation.beginRule(HouseRules.MOST_STEPS, HouseRules.MOST_FOR_ONE);

        assertThatExceptionOfType(Evaluation.SpentException.class).isThrownBy(() -> {
            for (int step = 0; step < 100; step++) {
                evaluation.step();
            }
        });
        assertThat(evaluation.isSpent()).isTrue();
    }

    @Test
    void leavesEachRuleItsShareOfTheTime() {
        Hookup hookup = terminals(400);
        String endless = "connections.all(a, connections.all(b, a == b || a != b))";
        List<HouseRules.Compiled> rules = List.of(
                HouseRules.compile(rule("house-a", Subject.CONNECTIONS, endless)),
                HouseRules.compile(rule("house-b", Subject.CONNECTIONS, endless)),
                HouseRules.compile(rule("house-c", Subject.HOOKUP, "size(connections) > 3")));

        Report checked = HouseRules.check(hookup, Hookups.checker().check(hookup), rules, Duration.ofMillis(300));

        assertThat(Hookups.outcome(checked, "house-b").result()).isEqualTo(Result.NOT_CHECKED);
        assertThat(Hookups.outcome(checked, "house-c").result()).isEqualTo(Result.FAILED);
    }

    @Test
    void fingerprintsAHouseRulesFindingByItsSeverityAndByTheCountsThatItRead() {
        HouseRule counts = rule("house-c", Subject.HOOKUP, "size(connections) > 3");
        HouseRule graver = new HouseRule(
                counts.code(),
                Severity.ERROR,
                counts.each(),
                counts.when(),
                counts.message(),
                counts.help(),
                counts.tests());

        assertThat(fingerprint(counts, 4)).isEqualTo(fingerprint(counts, 4));
        assertThat(fingerprint(counts, 4)).isNotEqualTo(fingerprint(counts, 11));
        assertThat(fingerprint(counts, 4)).isNotEqualTo(fingerprint(graver, 4));
    }

    private static String fingerprint(HouseRule rule, int connections) {
        Hookup hookup = terminals(connections);
        return HouseRules.check(hookup, Hookups.checker().check(hookup), List.of(HouseRules.compile(rule)))
                .findings()
                .stream()
                .filter(finding -> finding.rule().equals(rule.code()))
                .findFirst()
                .orElseThrow()
                .fingerprint();
    }

    private static HouseRule rule(String code, Subject each, String when) {
        return new HouseRule(code, Severity.WARNING, each, when, "so", "help.", List.of());
    }

    /** As many connections between the chassis and terminals of their own. */
    private static Hookup terminals(int count) {
        String connections = IntStream.range(0, count)
                .mapToObj(at -> "\"W%d\": {\"ends\": [\"CAR.chassis\", \"P.t%d\"]}".formatted(at, at))
                .collect(Collectors.joining(","));
        String terminals = IntStream.range(0, count)
                .mapToObj(at -> "\"t%d\": {\"electrical\": {\"kind\": \"passive\"}}".formatted(at))
                .collect(Collectors.joining(","));
        return Hookups.hookup("{\"parts\": {\"P\": {\"inline\": {\"terminals\": {" + terminals
                + "}}}}, \"connections\": {" + connections + "}}");
    }

    @Test
    void listsNoMoreFindingsThanAPersonReads() {
        Hookup hookup = terminals(300);

        Report report = check(hookup, rule(Subject.CONNECTIONS, "true", "{it.ref}"));

        assertThat(Hookups.findings(report, "house-rule")).hasSize(HouseRules.MOST_FINDINGS);
        assertThat(Hookups.outcome(report, "house-rule").error()).contains("300", "200");
    }
}
