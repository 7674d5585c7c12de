package dev.splicebook.circuit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class SparseLuTest {

    /** A matrix as stamps. */
    private static final class Stamped {

        private final int size;
        private final int[] rows;
        private final int[] columns;
        private final double[] values;

        Stamped(int size, int[] rows, int[] columns, double[] values) {
            this.size = size;
            this.rows = rows;
            this.columns = columns;
            this.values = values;
        }

        SparseLu factors(int[] order) {
            double[] weights = new double[size];
            Arrays.fill(weights, 1);
            int[] places = IntStream.range(0, size).toArray();
            return new SparseLu(weights, rows, columns, places, order, false);
        }

        double[] times(double[] vector) {
            double[] product = new double[size];
            for (int entry = 0; entry < rows.length; entry++) {
                product[rows[entry]] += values[entry] * vector[columns[entry]];
            }
            return product;
        }
    }

    private static Stamped random(Random random, int size) {
        int count = 4 * size;
        int[] rows = new int[count];
        int[] columns = new int[count];
        double[] values = new double[count];
        for (int entry = 0; entry < count; entry++) {
            // two for each place of a shifted diagonal, so that pivots must be sought elsewhere; the rest anywhere
            rows[entry] = entry < 2 * size ? entry / 2 : random.nextInt(size);
            columns[entry] = entry < 2 * size ? (entry / 2 + 1) % size : random.nextInt(size);
            values[entry] = random.nextGaussian() + (entry < 2 * size ? 3 : 0);
        }
        return new Stamped(size, rows, columns, values);
    }

    @Test
    void solvesMatricesWithoutAUsableDiagonal() {
        Random random = new Random(5);
        for (int round = 0; round < 300; round++) {
            int size = 1 + random.nextInt(60);
            Stamped matrix = random(random, size);
            double[] expected = random.doubles(size, -1, 1).toArray();
            SparseLu lu = matrix.factors(MinimumDegree.order(size, matrix.rows, matrix.columns));

            assertThat(lu.factor(matrix.values)).as("round %s factors", round).isTrue();
            double[] solution = matrix.times(expected);
            lu.solve(solution);

            assertThat(solution).as("round %s", round).containsExactly(expected, within(1e-6));
        }
    }

    @Test
    void findsWhatASingularMatrixTakesToZero() {
        Random random = new Random(6);
        for (int round = 0; round < 100; round++) {
            int size = 3 + random.nextInt(30);
            Stamped regular = random(random, size);
            // its last column is the sum of two others: where those are, the last gets their stamps too
            int one = random.nextInt(size - 1);
            int other = random.nextInt(size - 1);
            int count = regular.rows.length;
            int[] rows = Arrays.copyOf(regular.rows, 3 * count);
            int[] columns = Arrays.copyOf(regular.columns, 3 * count);
            double[] values = Arrays.copyOf(regular.values, 3 * count);
            int next = count;
            for (int entry = 0; entry < count; entry++) {
                if (columns[entry] == size - 1) {
                    values[entry] = 0;
                }
                for (int source : new int[] {one, other}) {
                    if (columns[entry] == source) {
                        rows[next] = rows[entry];
                        columns[next] = size - 1;
                        values[next++] = values[entry];
                    }
                }
            }
            Stamped singular = new Stamped(
                    size, Arrays.copyOf(rows, next), Arrays.copyOf(columns, next), Arrays.copyOf(values, next));
            SparseLu lu = singular.factors(IntStream.range(0, size).toArray());

            assertThat(lu.factor(singular.values)).as("round %s factors", round).isFalse();
            double[] nothing = singular.times(lu.nullVector());

            assertThat(Arrays.stream(lu.nullVector()).map(Math::abs).max().orElse(0))
                    .isGreaterThan(0.1);
            assertThat(nothing).as("round %s", round).containsExactly(new double[size], within(1e-7));
        }
    }

    @Test
    void keepsTheSignOfTheDeterminant() {
        Random random = new Random(7);
        for (int round = 0; round < 200; round++) {
            int size = 2 + random.nextInt(10);
            Stamped matrix = random(random, size);
            SparseLu lu = matrix.factors(IntStream.range(0, size).toArray());
            double[] turned = matrix.values.clone();
            int row = random.nextInt(size);
            for (int entry = 0; entry < turned.length; entry++) {
                turned[entry] = matrix.rows[entry] == row ? -turned[entry] : turned[entry];
            }
            double[] scaled =
                    Arrays.stream(matrix.values).map(value -> 3 * value).toArray();

            lu.factor(matrix.values);
            int sign = lu.sign();
            lu.factor(turned);
            int turnedSign = lu.sign();
            lu.factor(scaled);

            assertThat(Math.abs(sign)).isEqualTo(1);
            assertThat(turnedSign).as("sign with a row turned").isEqualTo(-sign);
            assertThat(lu.sign()).as("sign three times as large").isEqualTo(sign);
        }
    }

    @Test
    void ordersEveryNumberOnce() {
        Random random = new Random(8);
        for (int round = 0; round < 200; round++) {
            int size = 1 + random.nextInt(80);
            Stamped matrix = random(random, size);

            int[] order = MinimumDegree.order(size, matrix.rows, matrix.columns);

            assertThat(Arrays.stream(order).sorted().toArray())
                    .isEqualTo(IntStream.range(0, size).toArray());
        }
    }

    // a ladder has an order without any fill: its own; names that are shuffled must not hide it
    @Test
    void fillsNothingInAShuffledLadder() {
        for (int size : new int[] {10, 500, 1000}) {
            Stamped ladder = grid(size, 1, new Random(size));
            SparseLu lu = ladder.factors(MinimumDegree.order(size, ladder.rows, ladder.columns));

            assertThat(lu.factor(ladder.values)).isTrue();

            assertThat(lu.fill()).as("entries of both factors").isEqualTo(size + 2 * (size - 1));
        }
    }

    // nested dissection, by A. George in 1973 (from memory), fills 31/4 n² log2 n of an n × n grid in one factor
    @Test
    void fillsAGridNoMoreThanDissectionDoes() {
        for (int side : new int[] {16, 32, 71}) {
            Stamped grid = grid(side, side, new Random(side));
            SparseLu lu = grid.factors(MinimumDegree.order(side * side, grid.rows, grid.columns));

            assertThat(lu.factor(grid.values)).isTrue();

            assertThat(lu.fill() / 2.0)
                    .as("entries of one factor")
                    .isLessThan(7.75 * side * side * Math.log(side) / Math.log(2));
        }
    }

    /** A grid of equal conductances with a leak at every node, its numbers shuffled. */
    private static Stamped grid(int width, int height, Random random) {
        int size = width * height;
        int[] numbers = IntStream.range(0, size).toArray();
        for (int at = size - 1; at > 0; at--) {
            int other = random.nextInt(at + 1);
            int number = numbers[at];
            numbers[at] = numbers[other];
            numbers[other] = number;
        }
        int[] rows = new int[9 * size];
        int[] columns = new int[9 * size];
        double[] values = new double[9 * size];
        int count = 0;
        for (int at = 0; at < size; at++) {
            rows[count] = numbers[at];
            columns[count] = numbers[at];
            values[count++] = 0.1;
            for (int next : new int[] {at % width + 1 < width ? at + 1 : -1, at + width < size ? at + width : -1}) {
                if (next >= 0) {
                    for (int corner = 0; corner < 4; corner++) {
                        rows[count] = numbers[corner < 2 ? at : next];
                        columns[count] = numbers[corner % 2 == 0 ? at : next];
                        values[count++] = corner == 0 || corner == 3 ? 1 : -1;
                    }
                }
            }
        }
        return new Stamped(
                size, Arrays.copyOf(rows, count), Arrays.copyOf(columns, count), Arrays.copyOf(values, count));
    }
}
