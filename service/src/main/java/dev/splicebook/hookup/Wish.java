package dev.splicebook.hookup;

import dev.splicebook.function.FunctionId;

/** What the customer wants kept or added: a function and all below it. */
public record Wish(FunctionId function, Want want) {

    /** Whether it is there already. */
    public enum Want {
        KEEP,
        ADD
    }
}
