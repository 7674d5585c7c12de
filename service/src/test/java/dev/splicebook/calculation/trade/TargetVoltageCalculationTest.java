package dev.splicebook.calculation.trade;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.calculation.Asked;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tools.jackson.databind.JsonNode;

class TargetVoltageCalculationTest {

    // V = √(P·R), a law
    @ParameterizedTest
    @CsvSource({"100, 4, 20.00", "50, 4, 14.14", "100, 2, 14.14", "75, 4, 17.32"})
    void givesTheVoltsOfWattsIntoOhms(double watts, double ohms, double volts) {
        JsonNode answer = Asked.answer("target-voltage", "{\"watts\": %s, \"ohms\": %s}".formatted(watts, ohms));

        assertThat(answer.path("rmsVolts").doubleValue()).isCloseTo(volts, within(0.005));
        assertThat(answer.path("peakVolts").doubleValue()).isCloseTo(volts * Math.sqrt(2), within(0.01));
        assertThat(answer.path("peakToPeakVolts").doubleValue()).isCloseTo(volts * 2 * Math.sqrt(2), within(0.02));
        assertThat(answer.path("rmsAmps").doubleValue()).isCloseTo(volts / ohms, within(0.005));
        assertThat(answer.has("decibels")).isFalse();
    }

    @Test
    void givesTheWattsOfVolts() {
        JsonNode answer = Asked.answer("target-voltage", """
                {"rmsVolts": 20, "ohms": 4}""");

        assertThat(answer.path("watts").doubleValue()).isCloseTo(100, within(1e-9));
    }

    @Test
    void givesTheDecibelsBetweenTwo() {
        // +4 dBu, 1.228 V, against −10 dBV, 0.3162 V: published as 11.78 dB
        JsonNode answer = Asked.answer("target-voltage", """
                {"rmsVolts": 1.2277, "ohms": 10000, "referenceRmsVolts": 0.3162278}""");
        assertThat(answer.path("decibels").doubleValue()).isCloseTo(11.78, within(0.005));
        assertThat(answer.path("dbu").doubleValue()).isCloseTo(4, within(0.001));
        assertThat(answer.path("dbv").doubleValue()).isCloseTo(1.78, within(0.005));

        // an eighth of the power, computed: −9.03 dB
        assertThat(Asked.answer("target-voltage", """
                        {"watts": 12.5, "ohms": 4, "referenceWatts": 100}""").path("decibels").doubleValue())
                .isCloseTo(-9.03, within(0.005));
    }

    @Test
    void takesOneOfWattsAndVolts() {
        assertThat(Asked.faults("target-voltage", """
                {"watts": 100, "rmsVolts": 20, "ohms": 4}""")).containsExactly("/rmsVolts either-or");
        assertThat(Asked.faults("target-voltage", """
                {"ohms": 4}""")).containsExactly("/watts missing-field");
        assertThat(Asked.faults("target-voltage", """
                {"watts": 100, "ohms": 4, "referenceWatts": 1, "referenceRmsVolts": 1}""")).containsExactly("/referenceRmsVolts either-or");
    }

    @Test
    void refusesWhatLiesOutside() {
        assertThat(Asked.faults("target-voltage", """
                {"watts": -1, "ohms": 0}""")).containsExactly("/watts out-of-range", "/ohms out-of-range");
        assertThat(Asked.faults("target-voltage", """
                {"watts": 1e9}"""))
                .containsExactlyInAnyOrder("/watts out-of-range", "/ohms missing-field");
        assertThat(Asked.faults("target-voltage", """
                {"watts": "100 W", "ohms": 4}""")).containsExactly("/watts wrong-type");
    }
}
