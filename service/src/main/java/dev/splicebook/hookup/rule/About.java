package dev.splicebook.hookup.rule;

import dev.splicebook.hookup.Severity;
import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;

/** What a rule's page says. Every text is for the person in the bay. */
@Retention(RetentionPolicy.RUNTIME)
@Target(ElementType.TYPE)
public @interface About {

    /** Names the bad thing; never changes. */
    String code();

    Severity severity();

    /** Version that first had it. */
    String since();

    /** One of {@link Rank}. */
    int rank() default Rank.OUTSIDE;

    /** Whether it finds that a conductor, fuse or contact is of the wrong size for what flows, not that it is wrongly joined. */
    boolean sizes() default false;

    /** The bad condition, one sentence. */
    String condition();

    String checks();

    String why();

    String mend();

    /** A published source, or "Common practice, no source." */
    String source();

    /** A hookup, as JSON, that this rule reports. */
    String fails();

    /** The same hookup mended. */
    String passes();
}
