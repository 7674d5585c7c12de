package dev.splicebook.circuit;

/**
 * By how much a network is made easier on the way to its solution.
 *
 * @param drive scales what sources give, 0 to 1
 * @param share scales what constant-power loads take, 0 to 1
 */
record Easing(double drive, double share) {

    /** The network as it is. */
    static final Easing NONE = new Easing(1, 1);

    Easing withDrive(double other) {
        return new Easing(other, share);
    }

    Easing withShare(double other) {
        return new Easing(drive, other);
    }
}
