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
     * JSON files on the class path, like {@code /dev/splicebook/check/web/first-draft.json}, or files of text; the name
     * names the example.
     */
    String[] value();
}
