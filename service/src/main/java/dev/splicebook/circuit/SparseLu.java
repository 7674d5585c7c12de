package dev.splicebook.circuit;

import java.util.Arrays;

/**
 * Factors L·U of a sparse matrix, column by column in a given order, after J. R. Gilbert and T. Peierls, "Sparse partial
 * pivoting in time proportional to arithmetic operations", SIAM J. Sci. Stat. Comput. 9 (1988), in the form of T. A.
 * Davis, "Direct Methods for Sparse Linear Systems" (2006) (both from memory). The diagonal is the pivot unless it is
 * below a tenth of the column's largest.
 *
 * <p>A matrix is the sum of stamps: a row, a column and a value that may change from one factoring to the next. A pivot
 * below 1e-14 of what its column was summed from is rounding, and the matrix singular.
 */
final class SparseLu {

    private static final double DIAGONAL_SHARE = 0.1;
    private static final double ROUNDING_SHARE = 1e-14;

    private final int size;
    private final double[] weights;
    private final boolean paired;
    private final int[] order;
    private final int[] placeOfRow;
    private final int[] slotOfStamp;
    private final int[] rowOfStamp;
    private final int[] columnOfStamp;
    private final int[] columnStart;
    private final int[] rowOfSlot;
    private final double[] valueOfSlot;
    private final double[] columnSum;

    private final int[] lowerStart;
    private int[] lowerRow;
    private double[] lowerValue;
    private final int[] upperStart;
    private int[] upperStep;
    private double[] upperValue;
    /** Step at which a row was the pivot, or −1. */
    private final int[] stepOfRow;

    private final double[] column;
    private final int[] reach;
    private final int[] path;
    private final int[] pathNext;
    private final int[] mark;
    private int stamp;
    private int singularStep = -1;

    /**
     * @param weights of the rows, to choose pivots by; powers of two
     * @param rows of the stamps
     * @param columns of the stamps
     * @param placeOfRow the column whose diagonal a row is to be; a permutation
     * @param order of the columns; a permutation
     * @param paired whether numbers 2k and 2k + 1 are the two parts of a complex one, so that a pivot on the other part
     *     fills in no more than one on the diagonal
     */
    SparseLu(double[] weights, int[] rows, int[] columns, int[] placeOfRow, int[] order, boolean paired) {
        size = weights.length;
        this.weights = weights;
        this.paired = paired;
        this.order = order;
        this.placeOfRow = placeOfRow;
        rowOfStamp = rows;
        columnOfStamp = columns;
        slotOfStamp = new int[rows.length];
        columnStart = new int[size + 1];
        rowOfSlot = new int[rows.length];
        int slots = fillSlots(rows, columns);
        valueOfSlot = new double[slots];
        columnSum = new double[size];
        lowerStart = new int[size + 1];
        upperStart = new int[size + 1];
        lowerRow = new int[2 * slots + size];
        lowerValue = new double[lowerRow.length];
        upperStep = new int[2 * slots + size];
        upperValue = new double[upperStep.length];
        stepOfRow = new int[size];
        column = new double[size];
        reach = new int[size];
        path = new int[size];
        pathNext = new int[size];
        mark = new int[size];
    }

    /** Sorts the stamps by column and lets those of one place share a slot, in time linear in their number. */
    private int fillSlots(int[] rows, int[] columns) {
        int[] start = new int[size + 1];
        for (int at : columns) {
            start[at + 1]++;
        }
        for (int at = 0; at < size; at++) {
            start[at + 1] += start[at];
        }
        int[] sorted = new int[columns.length];
        int[] place = start.clone();
        for (int entry = 0; entry < columns.length; entry++) {
            sorted[place[columns[entry]]++] = entry;
        }
        int[] slotOfRow = new int[size];
        Arrays.fill(slotOfRow, -1);
        int slots = 0;
        for (int at = 0; at < size; at++) {
            columnStart[at] = slots;
            for (int from = start[at]; from < start[at + 1]; from++) {
                int row = placeOfRow[rows[sorted[from]]];
                if (slotOfRow[row] < columnStart[at]) {
                    slotOfRow[row] = slots;
                    rowOfSlot[slots++] = row;
                }
                slotOfStamp[sorted[from]] = slotOfRow[row];
            }
        }
        columnStart[size] = slots;
        return slots;
    }

    /** Factors the sum of stamps of these values, in the order of the stamps; false if that is singular. */
    boolean factor(double[] values) {
        Arrays.fill(valueOfSlot, 0);
        Arrays.fill(columnSum, 0);
        for (int entry = 0; entry < slotOfStamp.length; entry++) {
            valueOfSlot[slotOfStamp[entry]] += weights[rowOfStamp[entry]] * values[entry];
            columnSum[columnOfStamp[entry]] += Math.abs(values[entry]);
        }
        Arrays.fill(stepOfRow, -1);
        int lowerCount = 0;
        int upperCount = 0;
        for (int step = 0; step < size; step++) {
            int at = order[step];
            lowerStart[step] = lowerCount;
            upperStart[step] = upperCount;
            makeRoom(lowerCount + size, upperCount + size);
            int top = eliminate(at, step);
            int pivot = -1;
            double most = 0;
            for (int place = top; place < size; place++) {
                int row = reach[place];
                if (stepOfRow[row] < 0) {
                    if (Math.abs(column[row]) > most) {
                        most = Math.abs(column[row]);
                        pivot = row;
                    }
                } else {
                    upperStep[upperCount] = stepOfRow[row];
                    upperValue[upperCount++] = column[row];
                }
            }
            if (!(most > ROUNDING_SHARE * columnSum[at] && most < Double.POSITIVE_INFINITY)) {
                singularStep = step;
                upperStart[step + 1] = upperCount;
                clear(top);
                return false;
            }
            if (stepOfRow[at] < 0 && Math.abs(column[at]) >= DIAGONAL_SHARE * most) {
                pivot = at;
            } else if (paired && stepOfRow[at ^ 1] < 0 && Math.abs(column[at ^ 1]) >= DIAGONAL_SHARE * most) {
                pivot = at ^ 1;
            }
            double diagonal = column[pivot];
            upperStep[upperCount] = step;
            upperValue[upperCount++] = diagonal;
            stepOfRow[pivot] = step;
            for (int place = top; place < size; place++) {
                int row = reach[place];
                if (stepOfRow[row] < 0 && column[row] != 0) {
                    lowerRow[lowerCount] = row;
                    lowerValue[lowerCount++] = column[row] / diagonal;
                }
            }
            clear(top);
        }
        lowerStart[size] = lowerCount;
        upperStart[size] = upperCount;
        singularStep = -1;
        return true;
    }

    private void clear(int top) {
        for (int place = top; place < size; place++) {
            column[reach[place]] = 0;
        }
    }

    private void makeRoom(int lowerMost, int upperMost) {
        if (lowerMost > lowerRow.length) {
            int length = Math.max(lowerMost, 2 * lowerRow.length);
            lowerRow = Arrays.copyOf(lowerRow, length);
            lowerValue = Arrays.copyOf(lowerValue, length);
        }
        if (upperMost > upperStep.length) {
            int length = Math.max(upperMost, 2 * upperStep.length);
            upperStep = Arrays.copyOf(upperStep, length);
            upperValue = Arrays.copyOf(upperValue, length);
        }
    }

    /** Puts the column, less what the earlier pivots take from it, into {@link #column}; its rows from the answer on. */
    private int eliminate(int at, int step) {
        stamp++;
        int top = size;
        for (int slot = columnStart[at]; slot < columnStart[at + 1]; slot++) {
            if (mark[rowOfSlot[slot]] != stamp) {
                top = follow(rowOfSlot[slot], top, step);
            }
        }
        for (int slot = columnStart[at]; slot < columnStart[at + 1]; slot++) {
            column[rowOfSlot[slot]] = valueOfSlot[slot];
        }
        for (int place = top; place < size; place++) {
            int pivotStep = stepOfRow[reach[place]];
            double value = column[reach[place]];
            if (pivotStep >= 0 && value != 0) {
                int end = lowerStart[pivotStep + 1];
                for (int entry = lowerStart[pivotStep]; entry < end; entry++) {
                    column[lowerRow[entry]] -= lowerValue[entry] * value;
                }
            }
        }
        return top;
    }

    /** Depth first from a row to all rows that it changes, which come before {@code top} in an order to eliminate in. */
    private int follow(int from, int top, int step) {
        int place = top;
        int depth = 0;
        path[0] = from;
        mark[from] = stamp;
        pathNext[0] = stepOfRow[from] < 0 ? 0 : lowerStart[stepOfRow[from]];
        while (depth >= 0) {
            int row = path[depth];
            int pivotStep = stepOfRow[row];
            int end = pivotStep < 0 || pivotStep >= step ? 0 : lowerStart[pivotStep + 1];
            int entry = pathNext[depth];
            while (entry < end && mark[lowerRow[entry]] == stamp) {
                entry++;
            }
            if (entry < end) {
                pathNext[depth] = entry + 1;
                int child = lowerRow[entry];
                mark[child] = stamp;
                depth++;
                path[depth] = child;
                pathNext[depth] = stepOfRow[child] < 0 ? 0 : lowerStart[stepOfRow[child]];
            } else {
                reach[--place] = row;
                depth--;
            }
        }
        return place;
    }

    /** Solves in place: right sides by row in, unknowns by column out. */
    void solve(double[] values) {
        double[] work = new double[size];
        for (int row = 0; row < size; row++) {
            work[stepOfRow[placeOfRow[row]]] = weights[row] * values[row];
        }
        for (int step = 0; step < size; step++) {
            double value = work[step];
            if (value != 0) {
                for (int entry = lowerStart[step]; entry < lowerStart[step + 1]; entry++) {
                    work[stepOfRow[lowerRow[entry]]] -= lowerValue[entry] * value;
                }
            }
        }
        back(work, size);
        for (int step = 0; step < size; step++) {
            values[order[step]] = work[step];
        }
    }

    private void back(double[] work, int steps) {
        for (int step = steps - 1; step >= 0; step--) {
            int diagonal = upperStart[step + 1] - 1;
            double value = work[step] / upperValue[diagonal];
            work[step] = value;
            for (int entry = upperStart[step]; entry < diagonal; entry++) {
                work[upperStep[entry]] -= upperValue[entry] * value;
            }
        }
    }

    /** Unknowns, not all zero, that the singular matrix takes to zero. */
    double[] nullVector() {
        if (singularStep < 0) {
            throw new IllegalStateException("the matrix is not singular");
        }
        double[] work = new double[size];
        for (int entry = upperStart[singularStep]; entry < upperStart[singularStep + 1]; entry++) {
            work[upperStep[entry]] = -upperValue[entry];
        }
        back(work, singularStep);
        work[singularStep] = 1;
        double[] vector = new double[size];
        for (int step = 0; step <= singularStep; step++) {
            vector[order[step]] = work[step];
        }
        return vector;
    }

    /** Sign of the determinant, 1 or −1, up to one factor that all matrices of this pattern share. */
    int sign() {
        boolean negative = false;
        for (int step = 0; step < size; step++) {
            negative ^= upperValue[upperStart[step + 1] - 1] < 0;
        }
        boolean[] seen = new boolean[size];
        for (int row = 0; row < size; row++) {
            int length = 0;
            for (int at = row; !seen[at]; at = stepOfRow[at]) {
                seen[at] = true;
                length++;
            }
            negative ^= length > 0 && length % 2 == 0;
        }
        return negative ? -1 : 1;
    }

    /** Entries of both factors: what a fill-reducing order keeps low. */
    int fill() {
        return lowerStart[size] + upperStart[size];
    }
}
