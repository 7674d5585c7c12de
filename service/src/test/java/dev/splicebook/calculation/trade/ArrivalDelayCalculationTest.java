package dev.splicebook.calculation.trade;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.calculation.Asked;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

class ArrivalDelayCalculationTest {

    @Test
    void letsAllArriveWithTheFarthest() {
        JsonNode answer = Asked.answer("arrival-delay", """
                {"distances": {"left": {"value": 1, "unit": "m"}, "right": {"value": 2.2, "unit": "m"}}, "airCelsius": 20}""");

        // computed: 1.2 m at 343.2 m/s, the handbook speed at 20 °C (from memory), are 3.496 ms, 167.8 samples of 48
        // kHz
        JsonNode left = answer.path("delays").path("left");
        assertThat(left.path("milliseconds").doubleValue()).isCloseTo(3.496, within(0.001));
        assertThat(left.path("samples").doubleValue()).isCloseTo(167.8, within(0.05));
        assertThat(left.path("wholeSamples").intValue()).isEqualTo(168);
        assertThat(answer.path("delays").path("right").path("milliseconds").doubleValue())
                .isZero();
        assertThat(answer.path("farthest").stringValue()).isEqualTo("right");
        assertThat(answer.path("assumptions").findValuesAsString("name")).containsExactly("sampleHertz");
    }

    @Test
    void saysWhatItAssumes() {
        JsonNode answer = Asked.answer("arrival-delay", """
                {"distances": {"one": {"value": 3, "unit": "ft"}}}""");

        assertThat(answer.path("assumptions").findValuesAsString("name")).containsExactly("airCelsius", "sampleHertz");
        assertThat(answer.path("soundMetresPerSecond").doubleValue()).isCloseTo(343.2, within(0.1));
    }

    @Test
    void refusesWhatIsNoDistance() {
        assertThat(Asked.faults("arrival-delay", "{}")).containsExactly("/distances missing-field");
        assertThat(Asked.faults("arrival-delay", """
                {"distances": {}}""")).containsExactly("/distances too-few");
        assertThat(Asked.faults("arrival-delay", """
                {"distances": {"a": {"value": 101, "unit": "m"}}}""")).containsExactly("/distances/a out-of-range");
        assertThat(Asked.faults("arrival-delay", """
                {"distances": {"a": {"value": -1, "unit": "m"}}}""")).containsExactly("/distances/a/value out-of-range");
        assertThat(Asked.faults("arrival-delay", """
                {"distances": {"a": {"value": 1, "unit": "m"}}, "airCelsius": 91, "sampleHertz": 0}"""))
                .containsExactly("/airCelsius out-of-range", "/sampleHertz out-of-range");
    }
}
