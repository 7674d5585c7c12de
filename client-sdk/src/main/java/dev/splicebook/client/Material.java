package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;

/**
 * What a conductor is made of.
 *
 * @param value as it stands in JSON; one that this version does not know is kept as it came
 */
public record Material(@JsonValue String value) {

    /** Bare copper. */
    public static final Material COPPER = new Material("copper");

    /** Tinned copper. */
    public static final Material TINNED_COPPER = new Material("tinned-copper");

    /** Copper-clad aluminium, 10 % copper by volume. */
    public static final Material CCA_10 = new Material("cca-10");

    /** Copper-clad aluminium, 15 % copper by volume. */
    public static final Material CCA_15 = new Material("cca-15");

    @JsonCreator(mode = JsonCreator.Mode.DELEGATING)
    public Material {
        Require.text("Material", value);
    }

    @Override
    public String toString() {
        return value;
    }
}
