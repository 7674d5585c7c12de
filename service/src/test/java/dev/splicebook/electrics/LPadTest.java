package dev.splicebook.electrics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.guard.InvalidValueException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class LPadTest {

    // 8 Ω: 20 dB is a published pair, 3 and 6 dB are computed from R1 = Z(1 − k), R2 = Zk/(1 − k)
    @ParameterizedTest
    @CsvSource({"20, 7.20, 0.89", "3, 2.34, 19.39", "6, 3.99, 8.04"})
    void knowsItsResistors(double decibels, double seriesOhms, double shuntOhms) {
        LPad pad = new LPad(8, decibels);
        assertThat(pad.seriesOhms()).as("series ohms").isCloseTo(seriesOhms, within(0.005));
        assertThat(pad.shuntOhms()).as("shunt ohms").isCloseTo(shuntOhms, within(0.005));
    }

    @Test
    void turnsMostOfThePowerToHeat() {
        // published: of 50 W into 20 dB, 45 W go into the series resistor
        assertThat(50 * new LPad(8, 20).seriesPowerShare()).as("watts").isCloseTo(45, within(0.005));
    }

    @ParameterizedTest
    @CsvSource({"8, 0.5", "8, 3", "4, 6", "4, 10", "2, 20", "6, 60"})
    void leavesTheLoadAsItWas(double ohms, double decibels) {
        LPad pad = new LPad(ohms, decibels);
        assertThat(pad.loadOhmsWith(pad.seriesOhms(), pad.shuntOhms())).isCloseTo(ohms, within(1e-9));
        assertThat(pad.decibelsWith(pad.seriesOhms(), pad.shuntOhms())).isCloseTo(decibels, within(1e-9));
        assertThat(pad.seriesPowerShare() + pad.shuntPowerShare() + pad.driverPowerShare())
                .isCloseTo(1, within(1e-12));
        assertThat(Levels.decibelsOfWatts(pad.driverPowerShare(), 1)).isCloseTo(-decibels, within(1e-9));
    }

    @ParameterizedTest
    @CsvSource({"0, 3", "1001, 3", "8, 0", "8, -3", "8, 61", "NaN, 3", "8, NaN"})
    void refusesWhatIsOutOfRange(double ohms, double decibels) {
        assertThatExceptionOfType(InvalidValueException.class).isThrownBy(() -> new LPad(ohms, decibels));
    }
}
