package dev.splicebook.electrics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ArrivalDelayTest {

    // speed of sound in dry air: 343.2 m/s at 20 °C, 346.1 at 25, 319 at −20 (handbook figures, from memory)
    @ParameterizedTest
    @CsvSource({"0, 331.3", "20, 343.2", "25, 346.1", "-20, 318.9"})
    void knowsTheSpeedOfSound(double celsius, double metresPerSecond) {
        assertThat(ArrivalDelay.soundMetresPerSecond(celsius)).isCloseTo(metresPerSecond, within(0.1));
    }

    @Test
    void letsAllArriveWithTheFarthest() {
        // computed: 1.2 m at 343.2 m/s are 3.496 ms, at 48 kHz 167.8 samples
        List<Double> delays = ArrivalDelay.delaysMilliseconds(List.of(1.0, 2.2, 1.6), 20);
        assertThat(delays.get(0)).as("ms").isCloseTo(3.496, within(0.001));
        assertThat(delays.get(1)).as("ms").isZero();
        assertThat(delays.get(2)).as("ms").isCloseTo(1.748, within(0.001));
        assertThat(ArrivalDelay.samples(delays.get(0), 48_000)).as("samples").isCloseTo(167.8, within(0.05));
    }

    @Test
    void makesEveryTravelTheSame() {
        Random random = new Random(3);
        for (int each = 0; each < 100; each++) {
            List<Double> metres = new ArrayList<>();
            for (int speaker = 0; speaker <= each % 8; speaker++) {
                metres.add(0.2 + 5 * random.nextDouble());
            }
            double celsius = random.nextDouble() * 100 - 40;
            List<Double> delays = ArrivalDelay.delaysMilliseconds(metres, celsius);
            double latest = ArrivalDelay.travelMilliseconds(Collections.max(metres), celsius);
            for (int speaker = 0; speaker < metres.size(); speaker++) {
                assertThat(delays.get(speaker) + ArrivalDelay.travelMilliseconds(metres.get(speaker), celsius))
                        .as("ms until speaker %d is heard", speaker)
                        .isCloseTo(latest, within(1e-9));
            }
        }
    }
}
