package dev.splicebook.electrics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.electrics.VoltageDivider.Pair;
import java.util.Random;
import org.junit.jupiter.api.Test;

class VoltageDividerTest {

    @Test
    void dividesWithAndWithoutALoad() {
        // worked by hand: 12 V, 10 kΩ over 5 kΩ, and with 5 kΩ of load
        assertThat(12 * VoltageDivider.ratio(10_000, 5000, null)).isCloseTo(4, within(1e-12));
        assertThat(12 * VoltageDivider.ratio(10_000, 5000, 5000.0)).isCloseTo(2.4, within(1e-12));
        assertThat(VoltageDivider.sourceOhms(10_000, 5000)).isCloseTo(3333.333, within(0.001));
        assertThat(VoltageDivider.watts(8, 10_000)).isCloseTo(0.0064, within(1e-15));
    }

    @Test
    void holdsEveryMakeWithinItsExtremes() {
        Random random = new Random(9);
        for (int round = 0; round < 1000; round++) {
            double r1 = 100 + 10_000 * random.nextDouble();
            double r2 = 100 + 10_000 * random.nextDouble();
            double load = 100 + 10_000 * random.nextDouble();
            double tolerance = 0.1 * random.nextDouble();
            double made1 = r1 * (1 + tolerance * (2 * random.nextDouble() - 1));
            double made2 = r2 * (1 + tolerance * (2 * random.nextDouble() - 1));

            assertThat(VoltageDivider.ratio(made1, made2, load))
                    .isBetween(
                            VoltageDivider.leastRatio(r1, r2, load, tolerance),
                            VoltageDivider.mostRatio(r1, r2, load, tolerance));
        }
    }

    @Test
    void findsAPairThatNoOtherBeats() {
        Random random = new Random(5);
        for (int round = 0; round < 40; round++) {
            double ratio = 0.05 + 0.9 * random.nextDouble();
            PreferredValues series = random.nextBoolean() ? PreferredValues.E24 : PreferredValues.E96;
            Double load = random.nextBoolean() ? 100_000 * random.nextDouble() + 1000 : null;
            Pair pair = VoltageDivider.nearestPair(ratio, 5000, 50_000, series, load)
                    .orElseThrow();

            assertThat(pair.r1Ohms() + pair.r2Ohms()).isBetween(5000.0, 50_000.0);
            assertThat(VoltageDivider.ratio(pair.r1Ohms(), pair.r2Ohms(), load)).isEqualTo(pair.ratio());
            assertThat(pair.errorShare()).isCloseTo(pair.ratio() / ratio - 1, within(1e-12));
            double best = Double.POSITIVE_INFINITY;
            for (double r1 : series.between(1, 50_000)) {
                for (double r2 : series.between(1, 50_000)) {
                    if (r1 + r2 >= 5000 && r1 + r2 <= 50_000) {
                        best = Math.min(best, Math.abs(VoltageDivider.ratio(r1, r2, load) / ratio - 1));
                    }
                }
            }
            assertThat(Math.abs(pair.errorShare())).as("error at " + ratio).isCloseTo(best, within(1e-12));
        }
    }

    @Test
    void takesTheMiddleOfEquallyGoodOnes() {
        Pair half = VoltageDivider.nearestPair(0.5, 1000, 100_000, PreferredValues.E24, null)
                .orElseThrow();

        assertThat(half).isEqualTo(new Pair(5100, 5100, 0.5, 0));
    }

    @Test
    void findsNoneWhereTheBoundsHoldNone() {
        assertThat(VoltageDivider.nearestPair(0.5, 10_301, 10_305, PreferredValues.E24, null))
                .isEmpty();
    }
}
