package dev.splicebook.circuit;

import org.jspecify.annotations.Nullable;

/**
 * An element as the equations see it; complex figures are a real and an imaginary part, the latter zero at DC. Its amps
 * are an unknown of their own, and {@code re}, {@code im} its ohms and {@code sourceRe}, {@code sourceIm} its volts,
 * where {@code current} is not {@link #NONE}; else they are siemens and amps.
 *
 * @param from number of a node, or {@link #NONE} for ground; likewise the others
 * @param current number of the unknown
 * @param winding the secondary of a transformer
 */
record Edge(
        Element element,
        int from,
        int to,
        int current,
        double re,
        double im,
        double sourceRe,
        double sourceIm,
        @Nullable Law law,
        @Nullable Winding winding) {

    static final int NONE = -1;

    record Winding(int from, int to, double ratio) {}

    boolean hasCurrent() {
        return current != NONE;
    }

    /** Whether its amps are an unknown and its volts depend on them. */
    boolean hasOhms() {
        return hasCurrent() && (re != 0 || im != 0);
    }

    /** Whether it ties its two nodes together. */
    boolean conducts() {
        return hasCurrent() || (law != null ? law.conducts() : re != 0 || im != 0);
    }

    /** Whether it takes watts whatever the volts. */
    boolean takesPower() {
        return law instanceof Law.SteadyPower load && load.watts() > 0;
    }

    /** Whether it holds its two nodes a number of volts apart, whatever flows. */
    boolean rigid() {
        return hasCurrent() && winding == null && !hasOhms();
    }
}
