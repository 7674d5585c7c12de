package dev.splicebook.circuit;

import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/**
 * Newton's method on the equations of a network. A linear network takes one factoring, and further rounds only refine.
 * For others, sources step up from nothing, where the direct way fails, and constant-power loads grow from nothing along
 * the branch of solutions that the unloaded network lies on, until they have their watts or the branch turns back.
 */
final class Newton {

    /** Rounds in which one Newton iteration has to settle. */
    private static final int MOST_ROUNDS = 150;

    private static final int MOST_REFINEMENTS = 10;

    /** Below this, a residual is not worth another round. */
    private static final double FINE_RESIDUAL = 1e-13;

    private static final Easing UNLOADED = Easing.NONE.withShare(0);

    private static final double FIRST_DRIVE_STEP = 0.125;
    private static final double LEAST_DRIVE_STEP = 1e-7;
    private static final double FIRST_SHARE_STEP = 0.25;

    /** How near the share is followed to where it turns back, relative. */
    private static final double LEAST_SHARE_STEP = 1e-9;

    /** At the turn, the last of the share moves volts by its root, and so by far more than in proportion. */
    private static final double TURNING_SENSITIVITY = 10;

    private final Equations equations;
    private final Jacobian jacobian;
    private final int mostIterations;

    private double[] x;
    private double share;
    private double[] sensitivity;
    private int iterations;
    private double leastResidual = Double.POSITIVE_INFINITY;
    private boolean singular;

    Newton(Equations equations, boolean careful, int mostIterations) {
        this.equations = equations;
        this.mostIterations = mostIterations;
        jacobian = equations.jacobian(careful);
        x = new double[equations.length()];
        sensitivity = new double[x.length];
    }

    /** Solves with constant-power loads taking nothing. */
    boolean settleUnloaded() {
        return settleFrom(x, UNLOADED) || (!singular && !equations.linear() && stepUp());
    }

    /** Solves from sources that give nothing on. */
    boolean stepUp() {
        x = new double[x.length];
        double drive = 0;
        double step = FIRST_DRIVE_STEP;
        while (drive < 1 && step >= LEAST_DRIVE_STEP && !exhausted()) {
            double next = Math.min(1, drive + step);
            if (settleFrom(x, UNLOADED.withDrive(next))) {
                drive = next;
                step *= 2;
            } else {
                step /= 8;
            }
        }
        return drive == 1;
    }

    private boolean settleFrom(double[] guess, Easing easing) {
        equations.ease(easing);
        double[] settled = settle(guess, 0);
        if (settled != null) {
            x = settled;
        }
        return settled != null;
    }

    /** Grows constant-power loads to their watts, from the unloaded solution on. */
    boolean settleLoaded() {
        int sign = factorAt(x) ? jacobian.sign() : 0;
        equations.ease(Easing.NONE);
        double[] settled = settle(x, sign);
        // a determinant that kept its sign has not passed a turn; all loads at once is then a step like any other
        if (settled != null && sign != 0 && factorAt(settled) && jacobian.sign() == sign) {
            x = settled;
            return true;
        }
        return grow(sign);
    }

    /**
     * Grows constant-power loads step by step.
     *
     * @param sign that the determinant has all the way; 0 for any
     */
    boolean grow(int sign) {
        double step = FIRST_SHARE_STEP;
        boolean grew = true;
        follow();
        while (share < 1 && step > LEAST_SHARE_STEP * share + Double.MIN_NORMAL && !exhausted()) {
            double next = Math.min(1, share + step);
            double[] guess = x.clone();
            for (int at = 0; at < guess.length; at++) {
                guess[at] += (next - share) * sensitivity[at];
            }
            equations.ease(Easing.NONE.withShare(next));
            double[] settled = settle(guess, sign);
            if (settled != null) {
                x = settled;
                share = next;
                follow();
                step = grew ? 2 * step : step;
            } else {
                step /= 2;
            }
            grew = settled != null;
        }
        return share == 1;
    }

    /** How the unknowns move as the share grows, at the present solution. */
    private void follow() {
        equations.ease(Easing.NONE.withShare(share));
        sensitivity = equations.growth(x);
        if (factorAt(x)) {
            jacobian.solve(sensitivity);
            Arrays.setAll(sensitivity, at -> -sensitivity[at]);
        } else {
            Arrays.fill(sensitivity, 0);
        }
    }

    private boolean factorAt(double[] at) {
        equations.bias(at);
        return jacobian.factor(equations.slopes());
    }

    /**
     * One Newton iteration at the present drive and share.
     *
     * @param wantedSign of the determinant, which another ends the iteration; 0 for any
     * @return the best that was found, if Kirchhoff's laws hold there
     */
    private double @Nullable [] settle(double[] guess, int wantedSign) {
        double[] at = guess.clone();
        double[] best = at;
        double residual = Double.POSITIVE_INFINITY;
        double[] missing = new double[at.length];
        int rounds = equations.linear() ? MOST_REFINEMENTS : MOST_ROUNDS;
        equations.bias(at);
        for (int round = 0; round < rounds && !exhausted(); round++) {
            if (round == 0 || !equations.linear()) {
                equations.limitBias(at);
                if (!jacobian.factor(equations.slopes())) {
                    singular |= iterations == 0;
                    break;
                }
                if (wantedSign != 0 && jacobian.sign() != wantedSign) {
                    break;
                }
            }
            iterations++;
            equations.linearMiss(at, missing);
            jacobian.solve(missing);
            for (int unknown = 0; unknown < at.length; unknown++) {
                at[unknown] -= missing[unknown];
            }
            double now = equations.residual(at, missing);
            boolean better = now < residual / 2;
            if (now < residual) {
                residual = now;
                best = at.clone();
            }
            if (residual <= Solver.MOST_RESIDUAL && (residual <= FINE_RESIDUAL || !better)) {
                break;
            }
        }
        if (equations.whole()) {
            leastResidual = Math.min(leastResidual, residual);
        }
        return residual <= Solver.MOST_RESIDUAL ? best : null;
    }

    private boolean exhausted() {
        return iterations >= mostIterations;
    }

    /** The load whose volts give way first, if that is what kept the loads from growing; else null. */
    @Nullable
    NoOperatingPoint turn() {
        Edge weakest = null;
        double most = 0;
        for (Edge edge : equations.edges()) {
            if (edge.takesPower()) {
                double relative = Math.abs(equations.voltsAcross(sensitivity, edge) / equations.voltsAcross(x, edge));
                if (weakest == null || relative > most) {
                    weakest = edge;
                    most = relative;
                }
            }
        }
        return weakest == null || exhausted() || share * most < TURNING_SENSITIVITY
                ? null
                : new NoOperatingPoint(weakest.element().name(), share, equations.voltsAcross(x, weakest));
    }

    double[] unknowns() {
        return x;
    }

    int iterations() {
        return iterations;
    }

    /** The least that was left of the whole equations, not of those on the way to them. */
    double leastResidual() {
        return leastResidual;
    }

    /** Whether the very first equations had no one solution, which makes {@link #nullVector()} tell why. */
    boolean singular() {
        return singular;
    }

    double[] nullVector() {
        return jacobian.nullVector();
    }
}
