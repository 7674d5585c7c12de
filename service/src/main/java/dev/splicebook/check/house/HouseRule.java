package dev.splicebook.check.house;

import dev.splicebook.guard.Guard;
import dev.splicebook.hookup.HookupDocument;
import dev.splicebook.hookup.Severity;
import java.util.List;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * A shop's own rule. For each of the things it is about, {@code it}, it asks {@code when}, and reports those for which
 * that is true.
 *
 * @param code kebab-case, beginning with {@code house-}, at most 60 characters
 * @param severity anything but danger, which is the service's to say
 * @param each what it is about
 * @param when an expression in CEL that is true or false, at most 1000 characters
 * @param message what is wrong, at most 1000 characters; {@code {it.ref}} stands for the value of that expression, and a
 *     doubled brace for a brace
 * @param help what to do, at most 1000 characters
 * @param tests hookups with how often the rule finds something in them
 */
public record HouseRule(
        String code, Severity severity, Subject each, String when, String message, String help, List<Case> tests) {

    static final int LONGEST = 1000;
    private static final Pattern CODE = Pattern.compile("house(-[a-z0-9]+)+");

    public HouseRule {
        new Guard()
                .text("code", code, 60)
                .matches("code", code, CODE, "house- and words of lower-case letters and digits, like house-fuse-close")
                .refuseIf(
                        severity == Severity.DANGER,
                        "severity",
                        "out-of-range",
                        () -> "severity is danger, which a rule of the house cannot have")
                .text("when", when, LONGEST)
                .text("message", message, LONGEST)
                .text("help", help, LONGEST)
                .atMost("tests", tests, 20)
                .check();
    }

    /**
     * A hookup with what the rule finds in it.
     *
     * @param name of the case, at most 200 characters
     * @param finds how many findings, 0 to {@value HouseRules#MOST_FINDINGS}
     */
    public record Case(@Nullable String name, HookupDocument hookup, int finds) {
        public Case {
            new Guard()
                    .text("name", name, 200)
                    .between("finds", finds, 0, HouseRules.MOST_FINDINGS)
                    .check();
        }
    }
}
