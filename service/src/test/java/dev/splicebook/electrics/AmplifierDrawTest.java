package dev.splicebook.electrics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class AmplifierDrawTest {

    @Test
    void drawsTheOutputByTheEfficiency() {
        // 4 × 50 W at 50 % and 14.4 V, by P = U·I
        AmplifierDraw draw = AmplifierDraw.of(200, Programme.SINE, 0.5, 14.4);
        assertThat(draw.supplyAmps()).isCloseTo(400 / 14.4, within(1e-9));
        assertThat(draw.heatWatts()).isCloseTo(200, within(1e-9));
    }

    @Test
    void playsMusicAtAnEighth() {
        // EN 60065: one eighth of rated power, −9.03 dB
        assertThat(10 * Math.log10(Programme.ONE_EIGHTH.share())).isCloseTo(-9.03, within(0.005));
        assertThat(AmplifierDraw.of(400, Programme.ONE_EIGHTH, 0.5, 12).outputWatts())
                .isEqualTo(50);
    }

    @Test
    void isAsEfficientAsItsClassAtFullPower() {
        // class A 25 %, B about 50 % (78.5 % at most), D at least 90 % near full power, as textbooks publish
        assertThat(efficiency(AmplifierClass.A, Programme.SINE)).isCloseTo(0.25, within(1e-12));
        assertThat(efficiency(AmplifierClass.AB, Programme.SINE)).isCloseTo(0.5, within(1e-12));
        assertThat(efficiency(AmplifierClass.D, Programme.SINE)).isCloseTo(0.9, within(1e-12));
        assertThat(AmplifierClass.B.fullPowerEfficiency()).isLessThan(Math.PI / 4);
    }

    @Test
    void wastesMoreTheLessItPlays() {
        for (AmplifierClass amplifierClass : AmplifierClass.values()) {
            assertThat(efficiency(amplifierClass, Programme.ONE_EIGHTH))
                    .isLessThan(efficiency(amplifierClass, Programme.ONE_THIRD))
                    .isLessThan(efficiency(amplifierClass, Programme.SINE));
        }
        assertThat(AmplifierClass.A.supplyWatts(100, 0.125)).isEqualTo(AmplifierClass.A.supplyWatts(100, 1));
        // the mean current of class B goes by the amplitude, so efficiency does too
        assertThat(efficiency(AmplifierClass.B, Programme.ONE_EIGHTH)).isCloseTo(0.5 * Math.sqrt(0.125), within(1e-12));
        assertThat(AmplifierClass.D.supplyWatts(100, 0)).isCloseTo(3, within(1e-12));
    }

    @ParameterizedTest
    @EnumSource
    void balancesItsEnergy(Programme programme) {
        for (AmplifierClass amplifierClass : AmplifierClass.values()) {
            AmplifierDraw draw = AmplifierDraw.of(750, programme, amplifierClass, 13.8);
            assertThat(draw.outputWatts() + draw.heatWatts()).isCloseTo(draw.supplyAmps() * 13.8, within(1e-9));
            assertThat(draw.heatWatts()).isPositive();
        }
    }

    private static double efficiency(AmplifierClass amplifierClass, Programme programme) {
        return AmplifierDraw.of(500, programme, amplifierClass, 14.4).efficiency();
    }
}
