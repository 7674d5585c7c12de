package dev.splicebook.hookup.rule;

/**
 * Something that a hookup must not have. An implementation is found by {@code @AutoService(Rule.class)} and described by
 * {@link About}; its thresholds are static fields of type {@link Threshold}.
 */
public interface Rule {

    /** Reads the hookup and reports each violation; keeps no state. */
    void check(Examination examination);
}
