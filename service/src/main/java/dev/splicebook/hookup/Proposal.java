package dev.splicebook.hookup;

import dev.splicebook.hookup.Report.Assumption;
import dev.splicebook.hookup.Report.Verdict;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * A hookup that the pairing proposes.
 *
 * @param hookup whole: it can be checked as it is
 * @param report of its check
 * @param cost in points: what work, parts and quality it takes; only to compare proposals of one question
 * @param choices why each terminal goes where it goes
 * @param settingsToMake that are still to be made or to be decided
 * @param gaveUp wishes that it does not meet
 * @param added refs of the parts that it adds to those of the question
 * @param alternatives that differ in substance, best first
 * @param assumptions lengths and sizes that were used for want of better ones
 */
public record Proposal(
        HookupDocument hookup,
        Report report,
        double cost,
        List<Choice> choices,
        List<SettingToMake> settingsToMake,
        List<GivenUp> gaveUp,
        List<String> added,
        List<Alternative> alternatives,
        List<Assumption> assumptions) {

    /**
     * One decision.
     *
     * @param terminals what wanted something
     * @param to what serves it; empty where nothing does
     * @param through parts between the two
     * @param why it was chosen
     * @param against what speaks against the next best; absent where there is none
     */
    public record Choice(
            List<String> terminals,
            List<String> to,
            List<String> through,
            String why,
            @Nullable String against) {}

    /**
     * A setting of a part.
     *
     * @param choices that it has, and what they mean; empty for any value
     * @param value that the proposal gives it; absent where it is to be decided
     * @param why that value
     */
    public record SettingToMake(
            String part,
            String setting,
            @Nullable String what,
            Map<String, String> choices,
            boolean required,
            @Nullable String value,
            @Nullable String why) {}

    /** A wish that the proposal does not meet, why, and what would serve the customer {@code instead}. */
    public record GivenUp(Wish wish, String why, @Nullable String instead) {}

    /** Another hookup, and in what it differs. */
    public record Alternative(List<String> differs, HookupDocument hookup, Verdict verdict, double cost) {}
}
