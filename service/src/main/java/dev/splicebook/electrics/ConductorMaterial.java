package dev.splicebook.electrics;

import java.util.Locale;

/**
 * What a conductor is made of, with its conductivity relative to annealed copper. Copper-clad aluminium by its copper
 * share of volume (ASTM B566 classes: 10 % copper at least 62.9 % IACS, 15 % at least 64.4 %); tinned copper is taken as
 * copper for ampacity.
 */
public enum ConductorMaterial {
    COPPER(1),
    TINNED_COPPER(1),
    CCA_10(0.629),
    CCA_15(0.644);

    private final double relativeConductivity;

    ConductorMaterial(double relativeConductivity) {
        this.relativeConductivity = relativeConductivity;
    }

    double relativeConductivity() {
        return relativeConductivity;
    }

    @Override
    public String toString() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
