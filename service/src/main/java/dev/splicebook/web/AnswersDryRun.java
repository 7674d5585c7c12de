package dev.splicebook.web;

import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;

/** An endpoint that creates, and with {@code ?dryRun=true} only judges and answers 200 with a {@link DryRun}. */
@Target(ElementType.METHOD)
@Retention(RetentionPolicy.RUNTIME)
public @interface AnswersDryRun {

    /** What it answers with 201 when it creates. */
    Class<?> created();
}
