package dev.splicebook.check.house;

import dev.cel.common.CelErrorCode;
import dev.cel.common.types.SimpleType;
import dev.cel.runtime.CelEvaluationException;
import dev.cel.runtime.CelVariableResolver;
import dev.splicebook.check.house.Expressions.Expression;
import dev.splicebook.guard.Invalid;
import dev.splicebook.guard.InvalidValueException;
import dev.splicebook.hookup.Fact;
import dev.splicebook.hookup.Facts;
import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Fingerprint;
import dev.splicebook.hookup.Hookup;
import dev.splicebook.hookup.Report;
import dev.splicebook.hookup.Report.Outcome;
import dev.splicebook.hookup.Report.Result;
import dev.splicebook.hookup.Severity;
import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/** Compiles house rules, and checks hookups by them. */
public final class HouseRules {

    /** The most findings of one rule in one hookup. */
    public static final int MOST_FINDINGS = 200;

    static final long MOST_STEPS = 2_000_000;
    static final Duration MOST_FOR_ONE = Duration.ofMillis(400);
    static final Duration MOST_FOR_ALL = Duration.ofSeconds(1);

    private static final int MOST_MISSING = 50;

    private HouseRules() {}

    /** A rule that is ready to run; it holds no state. */
    public static final class Compiled {

        private final HouseRule rule;
        private final Expression when;
        private final Template message;

        private Compiled(HouseRule rule, Expression when, Template message) {
            this.rule = rule;
            this.when = when;
            this.message = message;
        }

        public HouseRule rule() {
            return rule;
        }
    }

    /**
     * Makes a rule ready to run.
     *
     * @throws InvalidValueException with what is wrong with its expressions
     */
    public static Compiled compile(HouseRule rule) {
        List<Invalid> invalids = new ArrayList<>();
        Expression when = null;
        Template message = null;
        try {
            when = Expressions.compile(rule.each(), rule.when(), "when");
            if (!when.type().equals(SimpleType.BOOL)) {
                throw new InvalidValueException(
                        "bad-expression", "when is a " + when.type().name() + ", where true or false belongs");
            }
        } catch (InvalidValueException refused) {
            refused.invalids().forEach(each -> invalids.add(new Invalid("/when", each.code(), each.detail())));
        }
        try {
            message = new Template(rule.each(), rule.message());
        } catch (InvalidValueException refused) {
            refused.invalids().forEach(each -> invalids.add(new Invalid("/message", each.code(), each.detail())));
        }
        if (when == null || message == null || !invalids.isEmpty()) {
            throw new InvalidValueException(invalids);
        }
        return new Compiled(rule, when, message);
    }

    /**
     * Adds to a report what rules of the house find. A rule that fails or costs too much is not checked, which its outcome
     * tells, and changes nothing else.
     *
     * @param report of the rules of the service
     */
    public static Report check(Hookup hookup, Report report, List<Compiled> rules) {
        return check(hookup, report, rules, MOST_FOR_ALL);
    }

    /**
     * The same, where less time than usual may be left.
     *
     * @param left what the rules may take together; {@link #MOST_FOR_ALL} at most
     */
    public static Report check(Hookup hookup, Report report, List<Compiled> rules, Duration left) {
        if (rules.isEmpty()) {
            return report;
        }
        Fact whole = Facts.of(hookup, report);
        Evaluation evaluation = new Evaluation(left.compareTo(MOST_FOR_ALL) < 0 ? left : MOST_FOR_ALL, rules.size());
        List<Finding> findings = new ArrayList<>(report.findings());
        List<Outcome> outcomes = new ArrayList<>(report.outcomes());
        for (Compiled rule : rules) {
            evaluation.beginRule(MOST_STEPS, MOST_FOR_ONE);
            outcomes.add(check(rule, whole, evaluation, findings));
        }
        return report.with(findings.stream().sorted(Finding.WORST_FIRST).toList(), outcomes);
    }

    /** What an expression may name: the fields of the hookup, which it reads as any field, and {@code it}. */
    private static final class Variables implements CelVariableResolver {

        private final FactValue hookup;
        private @Nullable FactValue it;

        Variables(FactValue hookup) {
            this.hookup = hookup;
        }

        void next(FactValue thing) {
            it = thing;
        }

        @Override
        public Optional<Object> find(String name) {
            return name.equals("it") ? Optional.ofNullable(it) : hookup.find(name);
        }
    }

    /** Adds the findings of one rule; those before an error stay. */
    private static Outcome check(Compiled compiled, Fact whole, Evaluation evaluation, List<Finding> findings) {
        HouseRule rule = compiled.rule();
        Variables variables = new Variables(evaluation.valueOf(whole));
        List<Fact> subjects = rule.each().in(whole);
        Set<String> missing = new LinkedHashSet<>();
        String error = null;
        int found = 0;
        for (Fact each : subjects) {
            variables.next(evaluation.valueOf(each));
            evaluation.begin(false);
            try {
                boolean isSo = Boolean.TRUE.equals(compiled.when.evaluate(variables, evaluation));
                if (isSo && !evaluation.isSpent()) {
                    Finding finding = finding(compiled, each, variables, evaluation);
                    // one whose words ran out of time would say "unknown" of what is known
                    if (!evaluation.isSpent()) {
                        found++;
                        if (found <= MOST_FINDINGS) {
                            findings.add(finding);
                        }
                    }
                }
            } catch (CelEvaluationException failure) {
                if (failure.getErrorCode() != CelErrorCode.ATTRIBUTE_NOT_FOUND
                        || evaluation.missed().isEmpty()) {
                    error = error == null ? Expressions.told(failure) : error;
                } else {
                    missing.addAll(evaluation.missed());
                }
            } catch (RuntimeException failure) {
                // whatever an expression ends with is its own matter; what it cost is told below
                error = error == null ? "it failed with " + failure.getClass().getSimpleName() : error;
            }
            if (evaluation.isSpent()) {
                // what looks like an answer may be one that a step too many was taken for
                error = evaluation.isLate()
                        ? "it was not run, as the rules of the house before it took all the time that they may take together"
                        : "it takes longer than a rule of the house may, and was stopped";
                break;
            }
        }
        if (found > MOST_FINDINGS) {
            error = "it finds " + found + " things, of which the first " + MOST_FINDINGS + " are listed";
        }
        Result result = found > 0
                ? Result.FAILED
                : error != null || !missing.isEmpty()
                        ? Result.NOT_CHECKED
                        : subjects.isEmpty() ? Result.NOT_APPLICABLE : Result.PASSED;
        return new Outcome(
                rule.code(),
                rule.severity(),
                result,
                missing.stream().limit(MOST_MISSING).toList(),
                List.of(),
                error);
    }

    /** The outcome of a rule that was taken once and is refused today; it may have been one of errors, and leaves doubt. */
    public static Outcome unusable(String code, String why) {
        return new Outcome(
                code,
                Severity.ERROR,
                Result.NOT_CHECKED,
                List.of(),
                List.of(),
                "it was taken when less was checked, and is refused today: " + why);
    }

    private static Finding finding(Compiled compiled, Fact it, Variables variables, Evaluation evaluation)
            throws CelEvaluationException {
        HouseRule rule = compiled.rule();
        evaluation.begin(true);
        compiled.when.evaluate(variables, evaluation);
        List<String> read = evaluation.read();
        evaluation.begin(false);
        return Finding.of(
                rule.code(),
                rule.severity(),
                compiled.message.fill(variables, evaluation),
                rule.help(),
                terminals(it),
                connections(it),
                fingerprint(rule, it, read));
    }

    private static List<String> terminals(Fact it) {
        return switch (it.kind()) {
            case TERMINAL -> List.of(ref(it));
            case CONNECTION ->
                Stream.of("from", "to")
                        .map(end -> it.fields().get(end))
                        .filter(Fact.class::isInstance)
                        .map(end -> ref((Fact) end))
                        .toList();
            case NET ->
                FactValue.facts(it, "terminals").stream().map(HouseRules::ref).toList();
            case FINDING -> texts(it.fields().get("terminals"));
            default -> List.of();
        };
    }

    private static List<String> connections(Fact it) {
        return switch (it.kind()) {
            case CONNECTION -> List.of(ref(it));
            case NET ->
                FactValue.facts(it, "connections").stream().map(HouseRules::ref).toList();
            case FINDING -> texts(it.fields().get("connections"));
            default -> List.of();
        };
    }

    private static String ref(Fact fact) {
        return String.valueOf(fact.fields().get("ref"));
    }

    private static List<String> texts(@Nullable Object list) {
        return list instanceof List<?> texts
                ? texts.stream().map(Object::toString).toList()
                : List.of();
    }

    /** Of the rule and its severity, of what is known of the thing but its names, and of what else the rule read. */
    private static String fingerprint(HouseRule rule, Fact it, List<String> read) {
        List<String> facts = new ArrayList<>(
                List.of(rule.code(), rule.severity().name(), rule.each().name(), rule.when(), it.text()));
        facts.addAll(read);
        return Fingerprint.hash(String.join("\n", facts));
    }
}
