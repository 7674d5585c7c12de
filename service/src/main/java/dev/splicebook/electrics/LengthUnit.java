package dev.splicebook.electrics;

/** A unit of length, by its usual symbol. */
public enum LengthUnit {
    M(1),
    CM(0.01),
    MM(0.001),
    FT(0.3048),
    IN(0.0254);

    private final double metres;

    LengthUnit(double metres) {
        this.metres = metres;
    }

    double metres() {
        return metres;
    }
}
