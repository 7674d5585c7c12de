package dev.splicebook.web;

import java.lang.annotation.ElementType;
import java.lang.annotation.Repeatable;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;

/** An example of what an endpoint answers when all is well, shown in the written API; may be shortened. */
@Target(ElementType.METHOD)
@Retention(RetentionPolicy.RUNTIME)
@Repeatable(ExampleAnswer.All.class)
public @interface ExampleAnswer {

    /** A file on the class path, JSON if it is called so; its name names the example. */
    String value();

    /** The status of the answer, where an endpoint has several: 0 is 201 if it may answer that, and else 200. */
    int status() default 0;

    /** Several examples of one endpoint. */
    @Target(ElementType.METHOD)
    @Retention(RetentionPolicy.RUNTIME)
    @interface All {

        ExampleAnswer[] value();
    }
}
