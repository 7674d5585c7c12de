package dev.splicebook.electrics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class FuseResistanceTest {

    @Test
    void givesThePublishedFigures() {
        // blade fuse cold resistance, from a secondary copy of a maker's table
        assertThat(FuseResistance.coldOhms(10)).isEqualTo(0.00770);
        assertThat(FuseResistance.coldOhms(20)).isEqualTo(0.00338);
        assertThat(FuseResistance.isPublished(10)).isTrue();
        assertThat(FuseResistance.isPublished(20)).isTrue();
    }

    @Test
    void tellsTheCurrentThroughATenAmpereFuse() {
        // the same secondary copy: 100 mA through a 10 A fuse reads 0.77 mV across it
        assertThat(FuseResistance.amps(0.77e-3, FuseResistance.coldOhms(10))).isCloseTo(0.100, within(1e-12));
    }

    @Test
    void marksEveryOtherRatingAsAnEstimate() {
        for (double rating : new double[] {1, 2, 3, 5, 7.5, 15, 25, 30, 40}) {
            assertThat(FuseResistance.isPublished(rating)).as(rating + " A").isFalse();
        }
    }

    @Test
    void fallsWithTheRating() {
        double above = Double.POSITIVE_INFINITY;
        for (double rating = 1; rating <= 100; rating += 0.5) {
            double ohms = FuseResistance.coldOhms(rating);
            assertThat(ohms).as(rating + " A").isPositive().isLessThan(above);
            above = ohms;
        }
        // the estimate runs through both published points
        assertThat(FuseResistance.coldOhms(19.999999)).isCloseTo(0.00338, within(1e-9));
    }

    @Test
    void refusesWhatIsNoRating() {
        assertThatIllegalArgumentException().isThrownBy(() -> FuseResistance.coldOhms(0));
        assertThatIllegalArgumentException().isThrownBy(() -> FuseResistance.coldOhms(Double.NaN));
    }
}
