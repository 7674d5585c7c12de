package dev.splicebook.calculation.trade;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.calculation.Asked;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

class WireSizeCalculationTest {

    @Test
    void choosesByTheDrop() {
        JsonNode answer = Asked.answer("wire-size", """
                {"currentAmps": 18, "length": {"value": 20, "unit": "ft"}, "returnPath": "conductor",
                 "supplyVolts": 12.6, "maxDropPercent": 3}""");

        assertThat(answer.path("size").stringValue()).isEqualTo("6 AWG");
        assertThat(answer.path("governedBy").stringValue()).isEqualTo("drop");
        assertThat(answer.path("neighbours").findValuesAsString("size")).containsExactly("8 AWG", "6 AWG", "4 AWG");
        assertThat(answer.path("neighbours").get(0).path("passes").booleanValue())
                .isFalse();
        assertThat(answer.path("maxDropVolts").doubleValue()).isCloseTo(0.378, within(1e-12));
        assertThat(answer.path("assumptions").findValuesAsString("name"))
                .containsExactly("insulationCelsius", "ambientCelsius", "bundledConductors", "series", "material");
    }

    @Test
    void choosesByTheAmpacityInABundle() {
        JsonNode answer = Asked.answer("wire-size", """
                {"currentAmps": 60, "length": {"value": 30, "unit": "cm"}, "returnPath": "none", "maxDropVolts": 1,
                 "bundledConductors": 3}""");

        // 33 CFR 183.425 table 5 and note 2 (secondary copy): 6 AWG at 105 °C 120 A × 0.70, 8 AWG 80 A × 0.70
        assertThat(answer.path("size").stringValue()).isEqualTo("6 AWG");
        assertThat(answer.path("governedBy").stringValue()).isEqualTo("ampacity");
        assertThat(answer.path("allowableAmps").doubleValue()).isCloseTo(84, within(1e-9));
        assertThat(answer.path("assumptions").toString()).contains("bundleFactor", "50 V", "choice");
    }

    @Test
    void triesMetricSizes() {
        JsonNode answer = Asked.answer("wire-size", """
                {"currentAmps": 10, "length": {"value": 4, "unit": "m"}, "returnPath": "conductor", "maxDropVolts": 0.5,
                 "temperatureCelsius": 20, "series": "metric", "material": "copper"}""");

        // IEC 60228 class 5 (secondary copy): 4 mm² 4.95, 2.5 mm² 7.98 Ω/km over 8 m: 0.396 and 0.638 V
        assertThat(answer.path("size").stringValue()).isEqualTo("4 mm2");
        assertThat(answer.path("dropVolts").doubleValue()).isCloseTo(0.396, within(1e-9));
    }

    @Test
    void hasNoAnswerWhereNoSizeSuffices() {
        assertThat(Asked.noAnswer("wire-size", """
                {"currentAmps": 400, "length": {"value": 10, "unit": "m"}, "returnPath": "conductor",
                 "maxDropVolts": 0.1}""")).containsExactly("/maxDropVolts no-size-suffices");
        assertThat(Asked.noAnswer("wire-size", """
                {"currentAmps": 1000, "length": {"value": 10, "unit": "m"}, "returnPath": "conductor",
                 "maxDropPercent": 1}"""))
                .containsExactly("/maxDropPercent no-size-suffices", "/currentAmps no-size-suffices");
    }

    @Test
    void refusesWhatIsWrong() {
        assertThat(Asked.faults("wire-size", """
                {"currentAmps": 10, "length": {"value": 4, "unit": "m"}, "returnPath": "conductor"}""")).containsExactly("/maxDropVolts missing-field");
        assertThat(Asked.faults("wire-size", """
                {"currentAmps": 10, "length": {"value": 4, "unit": "m"}, "returnPath": "conductor", "maxDropVolts": 0.5,
                 "maxDropPercent": 3}""")).containsExactly("/maxDropPercent either-or");
        assertThat(Asked.faults("wire-size", """
                {"currentAmps": 10, "length": {"value": 4, "unit": "m"}, "returnPath": "conductor", "maxDropVolts": 12.6}""")).containsExactly("/maxDropVolts inconsistent");
        assertThat(Asked.faults("wire-size", """
                {"currentAmps": 0, "length": {"value": 4, "unit": "yd"}, "returnPath": "conductor", "maxDropVolts": -1,
                 "bundledConductors": 0, "insulationCelsius": 50, "gauge": "8"}"""))
                .hasSize(6)
                .contains("/currentAmps out-of-range", "/maxDropVolts out-of-range", "/insulationCelsius out-of-range");
    }
}
