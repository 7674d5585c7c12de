package dev.splicebook.electrics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class LevelsTest {

    // V = √(P·R), computed from the law
    @ParameterizedTest
    @CsvSource({"100, 4, 20.00", "50, 4, 14.14", "100, 2, 14.14", "75, 4, 17.32"})
    void knowsTheVoltsToSetAnAmplifierTo(double watts, double ohms, double volts) {
        assertThat(Levels.rmsVolts(watts, ohms)).as("volts").isCloseTo(volts, within(0.005));
        assertThat(Levels.watts(Levels.rmsVolts(watts, ohms), ohms)).as("watts").isCloseTo(watts, within(1e-9));
    }

    @Test
    void knowsTheCrestOfASine() {
        // √2, by integrating the sine: the mean square of samples over one turn is half of the peak's
        double squares = 0;
        int samples = 1000;
        for (int each = 0; each < samples; each++) {
            double volts = Levels.peakVolts(20) * Math.sin(2 * Math.PI * each / samples);
            squares += volts * volts;
        }
        assertThat(Math.sqrt(squares / samples)).as("rms volts").isCloseTo(20, within(1e-9));
        assertThat(Levels.peakToPeakVolts(20)).as("volts").isCloseTo(56.569, within(0.0005));
    }

    @Test
    void knowsTheReferencesOfLineLevel() {
        // published: 0 dBu = 0.7746 V, +4 dBu = 1.228 V, −10 dBV = 0.3162 V, 11.78 dB between the last two
        assertThat(Levels.DBU_REFERENCE_VOLTS).isCloseTo(0.7746, within(0.00005));
        assertThat(Levels.dbuVolts(4)).isCloseTo(1.228, within(0.0005));
        assertThat(Levels.dbvVolts(-10)).isCloseTo(0.3162, within(0.00005));
        assertThat(Levels.decibelsOfVolts(Levels.dbuVolts(4), Levels.dbvVolts(-10)))
                .isCloseTo(11.78, within(0.005));
    }

    @Test
    void knowsAnEighthOfThePowerInDecibels() {
        // programme is one eighth of the rated power (EN 60065), computed: −9.03 dB
        assertThat(Levels.decibelsOfWatts(1, 8)).isCloseTo(-9.03, within(0.005));
    }

    @Test
    void undoesWhatItDid() {
        Random random = new Random(1);
        for (int each = 0; each < 200; each++) {
            double volts = Math.exp(random.nextDouble() * 12 - 6);
            double otherVolts = Math.exp(random.nextDouble() * 12 - 6);
            double decibels = Levels.decibelsOfVolts(volts, otherVolts);
            assertThat(Levels.voltRatio(decibels) * otherVolts).isCloseTo(volts, within(volts * 1e-12));
            assertThat(Levels.dbuVolts(Levels.dbu(volts))).isCloseTo(volts, within(volts * 1e-12));
            assertThat(Levels.dbvVolts(Levels.dbv(volts))).isCloseTo(volts, within(volts * 1e-12));
            // into one load, decibels of volts and of watts are the same
            assertThat(Levels.decibelsOfWatts(Levels.watts(volts, 4), Levels.watts(otherVolts, 4)))
                    .isCloseTo(decibels, within(1e-9));
            double watts = Levels.watts(volts, 4);
            assertThat(Levels.rmsAmps(watts, 4) * volts).as("watts").isCloseTo(watts, within(watts * 1e-12));
        }
    }
}
