package dev.splicebook.electrics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

class PreferredValuesTest {

    // figures of IEC 60063, from memory
    @ParameterizedTest
    @CsvSource({
        "E12, 9.947, 10",
        "E12, 0.6366, 0.68",
        "E12, 7.034, 6.8",
        "E24, 7.034, 6.8",
        "E24, 7.2, 7.5",
        "E24, 0.89, 0.91",
        "E24, 9.6, 10",
        "E24, 9.4, 9.1",
        "E24, 4700, 4700",
        "E24, 0.001, 0.001",
        "E96, 0.889, 0.887",
        "E96, 1490, 1500",
        "E96, 9900, 10000"
    })
    void findsTheNearest(PreferredValues series, double value, double nearest) {
        assertThat(series.nearest(value)).isEqualTo(nearest);
    }

    @ParameterizedTest
    @EnumSource
    void findsNoneNearerThanTheNearest(PreferredValues series) {
        Random random = new Random(2);
        for (int each = 0; each < 500; each++) {
            double value = Math.exp(random.nextDouble() * 20 - 10);
            double nearest = series.nearest(value);
            double away = Math.abs(Math.log(nearest / value));
            assertThat(series.between(value / 1.3, value * 1.3))
                    .contains(nearest)
                    .allSatisfy(other ->
                            assertThat(Math.abs(Math.log(other / value))).isGreaterThanOrEqualTo(away));
        }
    }

    @Test
    void countsItsValuesByDecade() {
        assertThat(PreferredValues.E12.between(1, 9.99))
                .hasSize(12)
                .startsWith(1.0, 1.2)
                .endsWith(8.2);
        assertThat(PreferredValues.E24.between(100, 999))
                .hasSize(24)
                .contains(330.0)
                .endsWith(910.0);
        // 1 % resistors of the series: 105, 118, 140, 365, 825 and 976 (from memory)
        assertThat(PreferredValues.E96.between(100, 999))
                .hasSize(96)
                .contains(105.0, 118.0, 140.0, 365.0, 825.0)
                .endsWith(976.0);
    }

    @Test
    void refusesWhatHasNoNeighbour() {
        assertThatIllegalArgumentException().isThrownBy(() -> PreferredValues.E24.nearest(0));
        assertThatIllegalArgumentException().isThrownBy(() -> PreferredValues.E24.nearest(Double.NaN));
        assertThatIllegalArgumentException().isThrownBy(() -> PreferredValues.E24.nearest(Double.POSITIVE_INFINITY));
    }
}
