package dev.splicebook.electrics;

import dev.splicebook.guard.Guard;

/**
 * A wiring of voice coils as it is written, like {@code "(A.1 + A.2) | (B.1 + B.2)"}; {@link Wiring} says how.
 *
 * @param value not blank, at most 500 characters, which also bounds how deep it nests
 */
public record WiringText(String value) {

    public WiringText {
        new Guard().text("", value, 500).check();
    }

    @Override
    public String toString() {
        return value;
    }
}
