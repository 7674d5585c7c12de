package dev.splicebook.calculation.trade;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.calculation.Asked;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tools.jackson.databind.JsonNode;

class BusTerminationCalculationTest {

    // two 120 Ω terminators read 60 Ω (ISO 11898-2); one missing, 120 Ω (computed); the others by the same law
    @ParameterizedTest
    @CsvSource({
        "60, both-fitted",
        "120, one-terminator",
        "40, three-terminators",
        "0.3, shorted",
        "24, too-many-terminators",
        "85, between-bands",
        "2600, no-terminator",
        "2000000, open"
    })
    void tellsWhatIsFitted(double ohms, String verdict) {
        JsonNode answer = Asked.answer("bus-termination", "{\"ohms\": " + ohms + "}");

        assertThat(answer.path("verdict").stringValue()).isEqualTo(verdict);
        assertThat(answer.path("meaning").stringValue()).endsWith(".");
        assertThat(answer.path("valid").booleanValue()).isTrue();
    }

    @Test
    void takesAMeterOverItsRangeForOpen() {
        JsonNode answer = Asked.answer("bus-termination", """
                {"overRange": true}""");

        assertThat(answer.path("verdict").stringValue()).isEqualTo("open");
        assertThat(answer.has("equivalentTerminators")).isFalse();
    }

    @Test
    void distrustsAPoweredBus() {
        JsonNode answer = Asked.answer("bus-termination", """
                {"ohms": 60, "supplyOn": true}""");

        assertThat(answer.path("valid").booleanValue()).isFalse();
        assertThat(answer.path("cautions").toString()).contains("powered bus");
    }

    @Test
    void givesItsBands() {
        JsonNode two = Asked.answer("bus-termination", """
                {"ohms": 60, "nodes": 0, "toleranceShare": 0.01}""").path("bands").path(1);

        assertThat(two.path("idealOhms").doubleValue()).isEqualTo(60);
        assertThat(two.path("leastOhms").doubleValue()).isCloseTo(59.4, within(1e-9));
        // and 1 Ω of leads
        assertThat(two.path("mostOhms").doubleValue()).isCloseTo(61.6, within(1e-9));
    }

    @Test
    void judgesEachLine() {
        JsonNode lines = Asked.answer("bus-termination", """
                {"ohms": 60, "highToGroundOhms": 0.4, "lowToGroundOhms": 60.4, "highToBatteryOhms": 9000,
                 "lowToBatteryOhms": 4000}""").path("lines");

        assertThat(lines.findValuesAsString("state")).containsExactly("shorted", "leaking", "sound", "sound");
        assertThat(lines.path(2).path("meaning").stringValue()).contains("differ");
    }

    @Test
    void judgesTheVoltsOfABusAtWork() {
        // ISO 11898-2: dominant from 0.9 V, recessive up to 0.5 V
        String question = """
                {"ohms": 60, "canHighVolts": %s, "canLowVolts": %s}""";

        assertThat(level(question.formatted(3.5, 1.5))).isEqualTo("dominant");
        assertThat(level(question.formatted(2.9, 2.0))).isEqualTo("dominant");
        assertThat(level(question.formatted(2.5, 2.5))).isEqualTo("recessive");
        assertThat(level(question.formatted(2.7, 2.0))).isEqualTo("undefined");
    }

    private static String level(String question) {
        return Asked.answer("bus-termination", question).path("level").stringValue();
    }

    @Test
    void wantsOneReading() {
        assertThat(Asked.faults("bus-termination", "{}")).containsExactly("/ohms missing-field");
        assertThat(Asked.faults("bus-termination", """
                {"overRange": false}""")).containsExactly("/ohms missing-field");
        assertThat(Asked.faults("bus-termination", """
                {"ohms": 60, "overRange": true, "canHighVolts": 2}"""))
                .containsExactly("/overRange either-or", "/canLowVolts missing-field");
    }

    @Test
    void refusesWhatLiesOutside() {
        assertThat(Asked.faults("bus-termination", """
                {"ohms": -60, "nodes": 400, "toleranceShare": 0.5, "lowToGroundOhms": "OL"}"""))
                .containsExactly(
                        "/ohms out-of-range",
                        "/lowToGroundOhms wrong-type",
                        "/toleranceShare out-of-range",
                        "/nodes out-of-range");
    }
}
