package dev.splicebook.web;

import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;

/**
 * What a field of a question or an answer is, declared once: the reader refuses what lies outside, and the written API and
 * lists of inputs say it. A range holds for a number, and for each number of a list or a map. A text that is so described
 * is not blank and has at most 100 characters.
 */
@Target({ElementType.RECORD_COMPONENT, ElementType.METHOD})
@Retention(RetentionPolicy.RUNTIME)
public @interface Fact {

    /** What it is, a part of a sentence, like "steady current". */
    String value();

    /** Symbol of the unit that its name ends with; empty for what has none. */
    String unit() default "";

    double least() default Double.NEGATIVE_INFINITY;

    double most() default Double.POSITIVE_INFINITY;

    /** Whether {@link #least} itself lies outside. */
    boolean aboveLeast() default false;

    /** How few entries a list or map may have; more than none makes it required. */
    int leastEntries() default 0;

    /** How many entries a list or map may have. */
    int mostEntries() default Integer.MAX_VALUE;

    /** What is taken where it is left out, in words, like "20" or "copper"; empty if nothing is. */
    String usual() default "";
}
