package dev.splicebook.hookup;

import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * One violation of a rule.
 *
 * @param rule code of the rule
 * @param message what is wrong, standing alone
 * @param help what to do
 * @param terminals involved
 * @param connections involved, by ref
 * @param measured what was found, in {@code unit}
 * @param limit what is allowed, in {@code unit}
 * @param states in which it holds; empty if in all or if states do not matter
 * @param fingerprint of the rule and the facts, the same whatever the names are
 * @param remedies that were found, least costly first; absent if none were looked for
 */
public record Finding(
        String rule,
        Severity severity,
        String message,
        String help,
        List<String> terminals,
        List<String> connections,
        @Nullable Double measured,
        @Nullable Double limit,
        @Nullable String unit,
        List<State> states,
        String fingerprint,
        @Nullable List<Remedy> remedies) {

    /** The order of a report: by severity, then by rule. */
    public static final Comparator<Finding> WORST_FIRST = Comparator.comparing(Finding::severity)
            .thenComparing(Finding::rule)
            .thenComparing(Finding::fingerprint)
            .thenComparing(finding -> String.join(" ", finding.terminals()))
            .thenComparing(Finding::message);

    /** A finding without a figure that holds in all states. */
    public static Finding of(
            String rule,
            Severity severity,
            String message,
            String help,
            List<String> terminals,
            List<String> connections,
            String fingerprint) {
        return new Finding(
                rule, severity, message, help, terminals, connections, null, null, null, List.of(), fingerprint, null);
    }

    Finding with(List<Remedy> found) {
        return new Finding(
                rule,
                severity,
                message,
                help,
                terminals,
                connections,
                measured,
                limit,
                unit,
                states,
                fingerprint,
                found);
    }
}
