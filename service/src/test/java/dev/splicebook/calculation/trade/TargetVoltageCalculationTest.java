package dev.splicebook.calculation.trade;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.calculation.Asked;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

class TargetVoltageCalculationTest {

    @Test
    void givesTheVoltsOfAHundredWattsIntoFourOhms() {
        JsonNode answer = Asked.answer("target-voltage", """
                {"watts": 100, "ohms": 4}""");

        // V = √(P·R), a law
        assertThat(answer.path("rmsVolts").doubleValue()).isCloseTo(20.00, within(1e-12));
    }

    @Test
    void takesOneOfWattsAndVolts() {
        assertThat(Asked.faults("target-voltage", """
                {"watts": 100, "rmsVolts": 20, "ohms": 4}""")).containsExactly("/rmsVolts either-or");
        assertThat(Asked.faults("target-voltage", """
                {"ohms": 4}""")).containsExactly("/watts missing-field");
    }

    @Test
    void refusesWhatLiesOutside() {
        assertThat(Asked.faults("target-voltage", """
                {"watts": -1, "ohms": 0}""")).containsExactly("/watts out-of-range", "/ohms out-of-range");
    }
}
