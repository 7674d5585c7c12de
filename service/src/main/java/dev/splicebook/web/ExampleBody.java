package dev.splicebook.web;

import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;

/** Examples of the body that an endpoint takes, shown in the written API. */
@Target(ElementType.METHOD)
@Retention(RetentionPolicy.RUNTIME)
public @interface ExampleBody {

    /**
     * Files on the class path, like {@code /dev/splicebook/check/web/first-draft.json}; the name names the example. One that
     * is not called {@code .json} shows a body of text.
     */
    String[] value();
}
