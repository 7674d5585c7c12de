package dev.splicebook.electrics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class GroundNoiseTest {

    @Test
    void givesThePublishedLoop() {
        // published RG-58 shield of 14 mΩ/m in a loop of 5 m radius; computed from it 0.440 Ω, 51.5 µH and 1.36 kHz,
        // with
        // the loop's wire taken as the shield's 1.49 mm radius
        double ohms = GroundNoise.shieldOhms(0.014, 2 * Math.PI * 5);
        double henries = GroundNoise.loopHenries(5, 0.00149);

        assertThat(ohms).isCloseTo(0.440, within(0.0005));
        assertThat(henries).isCloseTo(51.5e-6, within(0.05e-6));
        assertThat(GroundNoise.cornerHertz(ohms, henries)).isCloseTo(1360, within(5.0));
    }

    @Test
    void addsShieldResistanceTimesShieldCurrent() {
        // published low-resistance coaxial shield of 2.6 mΩ/ft: 100 mA along 20 ft
        double ohms = GroundNoise.shieldOhms(0.0026 / 0.3048, 20 * 0.3048);

        assertThat(GroundNoise.noiseVolts(0.1, ohms)).isCloseTo(0.0052, within(1e-12));
        // the whole offset stands along the shield where the shield is all the loop has
        assertThat(GroundNoise.noiseVolts(GroundNoise.loopAmps(0.05, ohms), ohms))
                .isCloseTo(0.05, within(1e-15));
    }

    @Test
    void countsInDecibels() {
        assertThat(GroundNoise.belowDecibels(2, 0.002)).isCloseTo(60, within(1e-9));
        assertThat(GroundNoise.rejectedVolts(1, 40)).isCloseTo(0.01, within(1e-15));
        assertThat(GroundNoise.rejectionDecibels(0.5)).isCloseTo(6.0206, within(1e-4));
        for (double decibels = 0; decibels <= 120; decibels += 10) {
            assertThat(GroundNoise.rejectionDecibels(GroundNoise.rejectedVolts(1, decibels)))
                    .isCloseTo(decibels, within(1e-9));
        }
    }

    @Test
    void isHeldBackByInductanceAboveItsCorner() {
        assertThat(GroundNoise.inductiveShare(0, 1360)).isEqualTo(1);
        assertThat(GroundNoise.inductiveShare(1360, 1360)).isCloseTo(Math.sqrt(0.5), within(1e-12));
        assertThat(GroundNoise.inductiveShare(13_600, 1360)).isLessThan(0.1);
    }
}
