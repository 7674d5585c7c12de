package dev.splicebook.circuit;

/** A sinusoid of known frequency as a complex number, in the unit of its quantity, rms. */
public record Phasor(double real, double imaginary) {

    public double magnitude() {
        return Math.hypot(real, imaginary);
    }

    /** Above −180 to 180; 0 where nothing swings. */
    public double phaseDegrees() {
        // adding zero makes −0 to 0, which would turn nothing by 180°
        return Math.toDegrees(Math.atan2(imaginary + 0.0, real + 0.0));
    }
}
