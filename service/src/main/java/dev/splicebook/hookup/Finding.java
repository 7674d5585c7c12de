package dev.splicebook.hookup;

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
