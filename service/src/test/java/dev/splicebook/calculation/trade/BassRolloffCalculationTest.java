package dev.splicebook.calculation.trade;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.calculation.Asked;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

class BassRolloffCalculationTest {

    @Test
    void findsAFadingSubwoofer() {
        // made of 0, 0, 0, −3 and −6 dB relative to the reference: 3 dB are a factor of 1.41254
        JsonNode answer = Asked.answer("bass-rolloff", """
                {"readings": [
                  {"step": 10, "bassVolts": 1, "referenceVolts": 1}, {"step": 15, "bassVolts": 2, "referenceVolts": 2},
                  {"step": 30, "bassVolts": 4.009498, "referenceVolts": 8},
                  {"step": 20, "bassVolts": 4, "referenceVolts": 4},
                  {"step": 25, "bassVolts": 4.247676, "referenceVolts": 6}]}""");

        assertThat(answer.path("kneeStep").doubleValue()).isCloseTo(20, within(0.001));
        assertThat(answer.path("slopeDecibelsPerStep").doubleValue()).isCloseTo(-0.6, within(0.001));
        assertThat(answer.path("totalLossDecibels").doubleValue()).isCloseTo(6, within(0.001));
        assertThat(answer.path("subwooferFades").booleanValue()).isTrue();
        assertThat(answer.path("verdict").stringValue()).contains("step 20", "0.60 dB", "6.0 dB", "fades");
        assertThat(answer.path("remedies").size()).isPositive();
        assertThat(answer.path("steps").get(4).path("changeDecibels").doubleValue())
                .isCloseTo(-6, within(0.001));
        assertThat(answer.path("assumptions").findValuesAsString("name"))
                .containsExactly("noiseDecibels", "fadeDecibels");
    }

    @Test
    void findsNothingWhereNothingFalls() {
        JsonNode answer = Asked.answer("bass-rolloff", """
                {"readings": [{"step": 1, "bassVolts": 1, "referenceVolts": 1},
                  {"step": 30, "bassVolts": 9.8, "referenceVolts": 10}]}""");

        assertThat(answer.has("kneeStep")).isFalse();
        assertThat(answer.path("subwooferFades").booleanValue()).isFalse();
        assertThat(answer.path("remedies").size()).isZero();
        assertThat(answer.path("verdict").stringValue()).contains("keeps up");
    }

    @Test
    void refusesWhatShowsNoCourse() {
        assertThat(Asked.faults("bass-rolloff", """
                {"readings": [{"step": 1, "bassVolts": 1, "referenceVolts": 1}]}""")).containsExactly("/readings too-few");
        assertThat(Asked.faults("bass-rolloff", """
                {"readings": [{"step": 1, "bassVolts": 1, "referenceVolts": 1},
                  {"step": 1, "bassVolts": 2, "referenceVolts": 2}]}""")).containsExactly("/readings/1/step duplicate");
        assertThat(Asked.faults("bass-rolloff", """
                {"readings": [{"step": -1, "bassVolts": 0, "referenceVolts": 1000},
                  {"step": 1, "bassVolts": 2}]}"""))
                .containsExactlyInAnyOrder(
                        "/readings/0/step out-of-range",
                        "/readings/0/bassVolts out-of-range",
                        "/readings/0/referenceVolts out-of-range",
                        "/readings/1/referenceVolts missing-field");
    }
}
