package dev.splicebook.calculation.trade;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.calculation.Asked;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

class BatteryReserveCalculationTest {

    @Test
    void givesTheAmpereHoursOfAReserve() {
        JsonNode answer = Asked.answer("battery-reserve", """
                {"reserveMinutes": 100, "ampereHours20": 60, "loadAmps": 25}""");

        // SAE J537: minutes at 25 A; 100 min are 41.67 Ah
        assertNumber(answer, "reserveAmpereHours", 41.67, 0.005);
        assertNumber(answer, "loadAmpereHours", 41.67, 0.005);
        assertNumber(answer, "loadMinutes", 100, 1e-9);
        // Peukert's law by hand: ln(1200/100) / ln(25/3)
        assertNumber(answer, "exponent", 1.17198, 0.000_01);
    }

    @Test
    void givesBackTheTwentyHourRateAndLastsLongerAtLess() {
        JsonNode answer = Asked.answer("battery-reserve", """
                {"reserveMinutes": 100, "ampereHours20": 60, "loadAmps": 3}""");

        assertNumber(answer, "loadMinutes", 1200, 1e-6);
        assertNumber(answer, "ampereHours20", 60, 1e-12);
    }

    @Test
    void takesAnyTwoPoints() {
        JsonNode capacities = Asked.answer("battery-reserve", """
                {"reserveMinutes": 100, "ampereHours20": 60, "loadAmps": 10}""");
        JsonNode points = Asked.answer("battery-reserve", """
                {"points": [{"amps": 3, "minutes": 1200}, {"amps": 25, "minutes": 100}], "loadAmps": 10}""");
        JsonNode mixed = Asked.answer("battery-reserve", """
                {"reserveMinutes": 100, "points": [{"amps": 3, "minutes": 1200}], "loadAmps": 10}""");

        for (String field : new String[] {"exponent", "loadMinutes", "reserveMinutes", "ampereHours20"}) {
            double expected = capacities.path(field).doubleValue();
            assertNumber(points, field, expected, 1e-9);
            assertNumber(mixed, field, expected, 1e-9);
        }
    }

    @Test
    void givesTheExponentWithoutALoad() {
        JsonNode answer = Asked.answer("battery-reserve", """
                {"reserveMinutes": 120, "ampereHours20": 70}""");

        assertThat(answer.path("exponent").doubleValue()).isGreaterThan(1);
        assertThat(answer.has("loadMinutes")).isFalse();
    }

    @Test
    void warnsFarFromThePoints() {
        String question = """
                {"reserveMinutes": 100, "ampereHours20": 60, "loadAmps": %s}""";

        assertThat(Asked.answer("battery-reserve", question.formatted(300))
                        .path("cautions")
                        .toString())
                .contains("far outside");
        assertThat(Asked.answer("battery-reserve", question.formatted(20))
                        .path("cautions")
                        .toString())
                .doesNotContain("far outside");
    }

    @Test
    void knowsNoBatteryThatGivesMoreTheHarderItIsDrawnUpon() {
        // 25 A for 100 min are 41.67 Ah, more than 40 Ah at 2 A
        assertThat(Asked.noAnswer("battery-reserve", """
                {"reserveMinutes": 100, "ampereHours20": 40}"""))
                .containsExactly("/reserveMinutes no-such-battery", "/ampereHours20 no-such-battery");
        assertThat(Asked.noAnswer("battery-reserve", """
                {"points": [{"amps": 5, "minutes": 600}, {"amps": 5, "minutes": 500}]}"""))
                .containsExactly("/points/0 no-such-battery", "/points/1 no-such-battery");
        assertThat(Asked.noAnswer("battery-reserve", """
                {"points": [{"amps": 5, "minutes": 600}, {"amps": 6, "minutes": 5}]}""")).hasSize(2);
    }

    @Test
    void wantsTwoPoints() {
        assertThat(Asked.faults("battery-reserve", "{}")).containsExactly("/reserveMinutes missing-field");
        assertThat(Asked.faults("battery-reserve", """
                {"reserveMinutes": 100}""")).containsExactly("/ampereHours20 missing-field");
        assertThat(Asked.faults("battery-reserve", """
                {"reserveMinutes": 100, "ampereHours20": 60, "points": [{"amps": 5, "minutes": 600}]}""")).containsExactly("/points either-or");
    }

    @Test
    void refusesWhatLiesOutside() {
        assertThat(Asked.faults("battery-reserve", """
                {"reserveMinutes": -5, "ampereHours20": 1e9, "loadAmps": 0}"""))
                .containsExactly(
                        "/reserveMinutes out-of-range", "/ampereHours20 out-of-range", "/loadAmps out-of-range");
        assertThat(Asked.faults("battery-reserve", """
                {"reserveMinutes": "100 min", "ampereHours20": 60, "load": 5}"""))
                .containsExactly("/reserveMinutes wrong-type", "/load unknown-field");
    }

    private static void assertNumber(JsonNode answer, String field, double expected, double tolerance) {
        assertThat(answer.path(field).doubleValue()).as(field).isCloseTo(expected, within(tolerance));
    }
}
