package dev.splicebook.web;

import java.lang.annotation.ElementType;
import java.lang.annotation.Repeatable;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;

/** An example of what an endpoint answers when all is well, shown in the written API; may be shortened. */
@Target(ElementType.METHOD)
@Retention(RetentionPolicy.RUNTIME)
@Repeatable(ExampleAnswers.class)
public @interface ExampleAnswer {

    /** A JSON file on the class path, or a file of text; its name names the example. */
    String value();

    /** The HTTP status that it is an answer of; 0 for every success. */
    int status() default 0;
}
