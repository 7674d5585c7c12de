package dev.splicebook.hookup;

import java.util.List;

/**
 * What is told of a rule, from what stands in its file.
 *
 * @param rank who speaks first of a net; 0 if the rule neither claims nor yields
 * @param condition the bad condition
 * @param parameters the figures it compares with
 * @param fails a hookup, as JSON, that it reports
 * @param passes the same hookup mended
 */
public record RulePage(
        String code,
        Severity severity,
        String since,
        int rank,
        String condition,
        String checks,
        String why,
        String mend,
        String source,
        List<Parameter> parameters,
        String fails,
        String passes) {

    /**
     * A figure that the rule compares with.
     *
     * @param unit empty for a ratio
     * @param least that a shop may set in its place
     * @param most that a shop may set in its place
     */
    public record Parameter(String name, double value, String unit, String reason, double least, double most) {}
}
