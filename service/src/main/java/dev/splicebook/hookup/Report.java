package dev.splicebook.hookup;

import com.fasterxml.jackson.annotation.JsonProperty;
import dev.splicebook.function.Colour;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What the check of a hookup found.
 *
 * @param findings worst first
 * @param outcomes one for each rule of the running version
 * @param meterFirst the few terminals whose missing facts hold up most, that first; at most 5
 * @param order the connections as they should be made
 * @param assumptions every default that was used
 * @param cautions what to heed while doing it
 */
public record Report(
        Verdict verdict,
        List<Finding> findings,
        List<Outcome> outcomes,
        List<Metering> meterFirst,
        List<Step> order,
        List<Assumption> assumptions,
        List<String> cautions) {

    /** The same with these findings, worst first, and these outcomes, and with the verdict that follows from them. */
    public Report with(List<Finding> newFindings, List<Outcome> newOutcomes) {
        return new Report(
                Verdict.of(newFindings, newOutcomes),
                List.copyOf(newFindings),
                List.copyOf(newOutcomes),
                meterFirst,
                order,
                assumptions,
                cautions);
    }

    /** What follows from the findings. */
    public enum Verdict {
        READY,
        READY_WITH_CAUTIONS,
        NOT_READY;

        /** Not ready by a danger or an error; with cautions by a warning, or by a rule of weight that was not checked. */
        public static Verdict of(List<Finding> findings, List<Outcome> outcomes) {
            if (findings.stream().anyMatch(finding -> finding.severity().compareTo(Severity.ERROR) <= 0)) {
                return NOT_READY;
            }
            boolean warned = findings.stream().anyMatch(finding -> finding.severity() == Severity.WARNING);
            return warned || outcomes.stream().anyMatch(Outcome::leavesDoubt) ? READY_WITH_CAUTIONS : READY;
        }
    }

    /** How a rule ended. */
    public enum Result {
        PASSED,
        FAILED,
        NOT_APPLICABLE,
        NOT_CHECKED
    }

    /**
     * How one rule ended.
     *
     * @param missing the facts it lacked, like {@code CAR.C1-7.maxAmps}
     * @param meterFirst the few of them worth metering first
     * @param error what went wrong in the rule itself; absent for the rules of the service
     */
    public record Outcome(
            String rule,
            Severity severity,
            @JsonProperty("outcome") Result result,
            List<String> missing,
            List<String> meterFirst,
            @Nullable String error) {

        /** Whether it could have found a danger or an error, and was not checked. */
        boolean leavesDoubt() {
            return result == Result.NOT_CHECKED && severity.compareTo(Severity.ERROR) <= 0;
        }
    }

    /**
     * A terminal worth metering.
     *
     * @param facts that are missing, like {@code maxAmps}; {@code electrical} where nothing is known
     * @param rules that wait for them
     * @param test how to go about it
     */
    public record Metering(
            String terminal, @Nullable Colour colour, List<String> facts, List<String> rules, String test) {}

    /** A connection to be made, and why at this point. */
    public record Step(String connection, List<String> ends, String why) {}

    /**
     * A default that was used.
     *
     * @param name like {@code insulationCelsius}
     * @param value of the default, absent if it is no figure
     * @param about what it was used for, and where it comes from
     */
    public record Assumption(
            String name, @Nullable Double value, @Nullable String unit, String about) {}
}
