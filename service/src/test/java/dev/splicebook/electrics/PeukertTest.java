package dev.splicebook.electrics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;

class PeukertTest {

    @Test
    void findsTheExponentOfReserveAndTwentyHourRate() {
        // worked by hand: 60 Ah over 20 h are 3 A for 1200 min, beside 25 A for 100 min: ln 12 / ln 8.3333
        assertThat(Peukert.exponent(3, 1200, 25, 100)).isCloseTo(1.17198, within(1e-6));
    }

    @Test
    void givesBothPointsBackAndOneBetween() {
        Random random = new Random(20);
        for (int round = 0; round < 500; round++) {
            double amps1 = 0.5 + 10 * random.nextDouble();
            double amps2 = amps1 * (1.1 + 20 * random.nextDouble());
            double minutes1 = 60 + 3000 * random.nextDouble();
            double exponent = 1 + 0.5 * random.nextDouble();
            double minutes2 = Peukert.minutes(amps2, amps1, minutes1, exponent);

            assertThat(Peukert.exponent(amps1, minutes1, amps2, minutes2)).isCloseTo(exponent, within(1e-9));
            assertThat(Peukert.exponent(amps2, minutes2, amps1, minutes1)).isCloseTo(exponent, within(1e-9));
            double between = Peukert.minutes((amps1 + amps2) / 2, amps1, minutes1, exponent);
            assertThat(between).isBetween(minutes2, minutes1);
            // never more ampere-hours out of the harder draw
            assertThat(amps2 * minutes2).isLessThanOrEqualTo(amps1 * minutes1 * (1 + 1e-12));
        }
    }

    @Test
    void knowsNoBatteryBelowOne() {
        // 25 A for 100 min are 41.67 Ah: no 20-hour rate can be less
        assertThat(Peukert.isPossible(Peukert.exponent(2, 1200, 25, 100))).isFalse();
        assertThat(Peukert.isPossible(1)).isTrue();
        assertThat(Peukert.isPossible(Peukert.exponent(10, 60, 7, 600 / 7.0))).isTrue();
        assertThat(Peukert.isPossible(3.1)).isFalse();
    }

    @Test
    void findsTheTwentyHourRateBack() {
        assertThat(Peukert.ampereHours20(25, 100, Peukert.exponent(3, 1200, 25, 100)))
                .isCloseTo(60, within(1e-9));
    }

    @Test
    void refusesTwoPointsAtOneCurrent() {
        assertThatIllegalArgumentException().isThrownBy(() -> Peukert.exponent(5, 100, 5, 90));
    }
}
