package dev.splicebook.circuit;

import java.util.Arrays;

/**
 * An order of elimination that keeps a sparse matrix sparse: always next what has the fewest neighbours, by the
 * approximate degree of P. R. Amestoy, T. A. Davis and I. S. Duff, "An approximate minimum degree ordering algorithm",
 * SIAM J. Matrix Anal. Appl. 17 (1996), without its supervariables (from memory). What is eliminated becomes a clique of
 * its neighbours, kept as one list, the "front", which absorbs the fronts that it was part of.
 */
final class MinimumDegree {

    private final int size;
    /** Neighbours of what is not eliminated, else the members of its front. */
    private final int[][] members;

    private final int[] memberCount;
    /** The fronts that what is not eliminated belongs to. */
    private final int[][] fronts;

    private final int[] frontCount;
    private final boolean[] absorbed;

    private final int[] degree;
    private final int[] first;
    private final int[] next;
    private final int[] previous;

    private final int[] mark;
    private int stamp;

    private MinimumDegree(int size, int[][] neighbours, int[] neighbourCount) {
        this.size = size;
        members = neighbours;
        memberCount = neighbourCount;
        fronts = new int[size][4];
        frontCount = new int[size];
        absorbed = new boolean[size];
        degree = new int[size];
        first = new int[size];
        next = new int[size];
        previous = new int[size];
        mark = new int[size];
        Arrays.fill(first, -1);
    }

    /**
     * The order for a matrix with the pattern of the given entries, taken as symmetric.
     *
     * @param size rows and columns
     * @param rows of the entries; an entry may stand more than once
     * @param columns of the entries
     * @return each number below {@code size} once
     */
    static int[] order(int size, int[] rows, int[] columns) {
        int[] count = new int[size];
        for (int entry = 0; entry < rows.length; entry++) {
            if (rows[entry] != columns[entry]) {
                count[rows[entry]]++;
                count[columns[entry]]++;
            }
        }
        int[][] neighbours = new int[size][];
        for (int at = 0; at < size; at++) {
            neighbours[at] = new int[count[at]];
        }
        Arrays.fill(count, 0);
        for (int entry = 0; entry < rows.length; entry++) {
            int row = rows[entry];
            int column = columns[entry];
            if (row != column) {
                neighbours[row][count[row]++] = column;
                neighbours[column][count[column]++] = row;
            }
        }
        int[] seenFrom = new int[size];
        for (int at = 0; at < size; at++) {
            int kept = 0;
            for (int place = 0; place < count[at]; place++) {
                int neighbour = neighbours[at][place];
                if (seenFrom[neighbour] != at + 1) {
                    seenFrom[neighbour] = at + 1;
                    neighbours[at][kept++] = neighbour;
                }
            }
            count[at] = kept;
        }
        return new MinimumDegree(size, neighbours, count).order();
    }

    private int[] order() {
        for (int at = size - 1; at >= 0; at--) {
            file(at, memberCount[at]);
        }
        int[] order = new int[size];
        int[] outside = new int[size];
        int[] outsideSeen = new int[size];
        int least = 0;
        for (int done = 0; done < size; done++) {
            while (first[least] < 0) {
                least++;
            }
            int pivot = first[least];
            unfile(pivot);
            order[done] = pivot;
            gather(pivot);
            int[] front = members[pivot];
            int frontSize = memberCount[pivot];

            // how much of each other front lies outside the new one
            for (int place = 0; place < frontSize; place++) {
                int at = front[place];
                for (int slot = 0; slot < frontCount[at]; slot++) {
                    int other = fronts[at][slot];
                    if (!absorbed[other]) {
                        if (outsideSeen[other] != pivot + 1) {
                            outsideSeen[other] = pivot + 1;
                            outside[other] = memberCount[other];
                        }
                        outside[other]--;
                    }
                }
            }
            for (int place = 0; place < frontSize; place++) {
                int at = front[place];
                unfile(at);
                int others = keepFronts(at, outside);
                int plain = keepNeighbours(at, pivot);
                addFront(at, pivot);
                file(at, Math.min(size - done - 2, plain + frontSize - 1 + others));
                least = Math.min(least, degree[at]);
            }
        }
        return order;
    }

    /** Makes the pivot the front of all that it touches, and absorbs the fronts that it belonged to. */
    private void gather(int pivot) {
        stamp++;
        mark[pivot] = stamp;
        int most = memberCount[pivot];
        for (int slot = 0; slot < frontCount[pivot]; slot++) {
            most += memberCount[fronts[pivot][slot]];
        }
        int[] gathered = new int[most];
        int count = collect(pivot, gathered, 0);
        for (int slot = 0; slot < frontCount[pivot]; slot++) {
            int other = fronts[pivot][slot];
            if (!absorbed[other]) {
                count = collect(other, gathered, count);
                absorbed[other] = true;
            }
        }
        members[pivot] = gathered;
        memberCount[pivot] = count;
    }

    private int collect(int of, int[] into, int from) {
        int count = from;
        for (int place = 0; place < memberCount[of]; place++) {
            int at = members[of][place];
            if (mark[at] != stamp) {
                mark[at] = stamp;
                into[count++] = at;
            }
        }
        return count;
    }

    /** Drops fronts that are absorbed, or lie wholly in the new one; gives how many are outside it in the others. */
    private int keepFronts(int at, int[] outside) {
        int kept = 0;
        int others = 0;
        for (int slot = 0; slot < frontCount[at]; slot++) {
            int other = fronts[at][slot];
            if (!absorbed[other]) {
                if (outside[other] == 0) {
                    absorbed[other] = true;
                } else {
                    fronts[at][kept++] = other;
                    others += outside[other];
                }
            }
        }
        frontCount[at] = kept;
        return others;
    }

    /** Drops neighbours that the new front, whose members are marked, joins anyway; gives how many are left. */
    private int keepNeighbours(int at, int pivot) {
        int kept = 0;
        for (int place = 0; place < memberCount[at]; place++) {
            int neighbour = members[at][place];
            if (mark[neighbour] != stamp && neighbour != pivot) {
                members[at][kept++] = neighbour;
            }
        }
        memberCount[at] = kept;
        return kept;
    }

    private void addFront(int at, int front) {
        if (frontCount[at] == fronts[at].length) {
            fronts[at] = Arrays.copyOf(fronts[at], 2 * frontCount[at]);
        }
        fronts[at][frontCount[at]++] = front;
    }

    private void file(int at, int under) {
        degree[at] = under;
        next[at] = first[under];
        previous[at] = -1;
        if (first[under] >= 0) {
            previous[first[under]] = at;
        }
        first[under] = at;
    }

    private void unfile(int at) {
        if (previous[at] >= 0) {
            next[previous[at]] = next[at];
        } else {
            first[degree[at]] = next[at];
        }
        if (next[at] >= 0) {
            previous[next[at]] = previous[at];
        }
    }
}
