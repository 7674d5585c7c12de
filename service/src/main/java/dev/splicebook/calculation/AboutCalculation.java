package dev.splicebook.calculation;

import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;

/** What the catalogue says of a calculation. Every text is for the person in the bay. */
@Retention(RetentionPolicy.RUNTIME)
@Target(ElementType.TYPE)
public @interface AboutCalculation {

    /** Kebab-case; never changes. */
    String name();

    /** What it is for, one sentence. */
    String purpose();

    /** How it goes about it, and what it leaves out. */
    String method();

    /** Published sources, or "common practice, no source", or what is from memory; at least one. */
    String[] sources();

    /** Cautions that every answer carries, of {@link Cautions}; the general one need not be named. */
    String[] cautions() default {};
}
