package dev.splicebook.electrics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class SpreadSumTest {

    @Test
    void givesTheNormalDistribution() {
        // figures of the normal table, from memory
        assertThat(SpreadSum.normalBelow(0)).isCloseTo(0.5, within(1e-7));
        assertThat(SpreadSum.normalBelow(-1)).isCloseTo(0.1586553, within(1e-7));
        assertThat(SpreadSum.normalBelow(1.96)).isCloseTo(0.9750021, within(1e-7));
        assertThat(SpreadSum.normalBelow(-6)).isCloseTo(9.866e-10, within(1e-12));
    }

    @Test
    void addsUniformsExactly() {
        // one: a ramp; two alike: a triangle; three alike: parabolas (Irwin and Hall, worked by hand)
        assertThat(SpreadSum.of(0, new double[] {2}).below(1)).isCloseTo(0.75, within(1e-9));
        assertThat(SpreadSum.of(0, new double[] {1, 1}).below(-1)).isCloseTo(0.125, within(1e-6));
        assertThat(SpreadSum.of(0, new double[] {1, 1, 1}).below(-2)).isCloseTo(1 / 48.0, within(1e-6));
        assertThat(SpreadSum.of(0, new double[] {1, 1, 1}).below(-3)).isZero();
        assertThat(SpreadSum.of(0, new double[] {1, 1, 1}).below(4)).isEqualTo(1);
    }

    @Test
    void barelyMovesForANarrowPart() {
        SpreadSum wide = SpreadSum.of(0, new double[] {1});
        SpreadSum both = SpreadSum.of(0, new double[] {1, 1e-9, 0});
        for (double x = -0.9; x < 1; x += 0.1) {
            assertThat(both.below(x)).as("at " + x).isCloseTo(wide.below(x), within(1e-6));
        }
        assertThat(SpreadSum.of(1, new double[] {1e-6}).below(-2)).isCloseTo(0.0227501, within(1e-6));
    }

    @Test
    void isEvenAboutNothing() {
        SpreadSum sum = SpreadSum.of(0.3, new double[] {1, 0.2, 0.05});
        for (double x = 0; x < 3; x += 0.1) {
            assertThat(sum.below(x) + sum.below(-x)).as("at " + x).isCloseTo(1, within(1e-6));
        }
    }

    @Test
    void refusesToSpreadNothing() {
        assertThatIllegalArgumentException().isThrownBy(() -> SpreadSum.of(0, new double[] {0}));
    }
}
