package dev.splicebook.function;

import java.util.Locale;

/** The branch of the vocabulary that a function stands in: the first part of its id. */
public enum FunctionKind {
    POWER,
    GROUND,
    CONTROL,
    AUDIO,
    VIDEO,
    DATA,
    ANTENNA,
    LIGHTING,
    LOCK,
    PARKING_AID,
    TELEPHONE,
    SAFETY;

    static FunctionKind of(String name) {
        return valueOf(name.toUpperCase(Locale.ROOT).replace('-', '_'));
    }
}
