package dev.splicebook.calculation.trade;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.calculation.Asked;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tools.jackson.databind.JsonNode;

class UsbCableCalculationTest {

    // USB 2.0, longest cable by gauge of the power pair (secondary copy); a tenth more fails
    @ParameterizedTest
    @CsvSource({"28, 0.81", "26, 1.31", "24, 2.08", "22, 3.33", "20, 5.00"})
    void passesTheLongestCableAndNoMore(String gauge, double metres) {
        JsonNode longest = ask(gauge, metres);
        assertThat(longest.path("verdict").stringValue()).isEqualTo("passes");
        assertThat(longest.has("shorten")).isFalse();

        JsonNode longer = ask(gauge, metres * 1.1);
        assertThat(longer.path("verdict").stringValue()).isEqualTo("fails");
        assertThat(longer.path("shorten").path("toMetres").doubleValue()).isCloseTo(metres, within(1e-9));
    }

    private static JsonNode ask(String gauge, double metres) {
        return Asked.answer("usb-cable", """
                {"segments": [{"gauge": "%s AWG", "length": {"value": %s, "unit": "m"}}], "currentAmps": 0.5}""".formatted(gauge, metres));
    }

    @Test
    void losesVoltsInBothLines() {
        JsonNode answer = Asked.answer("usb-cable", """
                {"segments": [{"gauge": "28 AWG", "length": {"value": 0.81, "unit": "m"}}], "currentAmps": 0.5,
                 "contacts": 2, "contactOhms": 0.03, "portVolts": 5}""");

        // 86 mV in each wire by the AWG law; contacts of 30 mΩ (from memory), two in each line
        assertThat(answer.path("wireDropVolts").doubleValue()).isCloseTo(2 * 0.086, within(0.001));
        assertThat(answer.path("contactDropVolts").doubleValue()).isCloseTo(0.06, within(1e-12));
        assertThat(answer.path("deviceVolts").doubleValue()).isCloseTo(5 - 0.06 - 2 * 0.0862, within(0.001));
        assertThat(answer.path("delayNs").doubleValue()).isCloseTo(0.81 * 5.2, within(1e-9));
    }

    @Test
    void saysWhatToShorten() {
        JsonNode answer = Asked.answer("usb-cable", """
                {"segments": [{"gauge": "24 AWG", "length": {"value": 1, "unit": "m"}},
                              {"gauge": "28 AWG", "length": {"value": 2, "unit": "m"}}], "currentAmps": 0.5}""");

        assertThat(answer.path("verdict").stringValue()).isEqualTo("fails");
        assertThat(answer.path("reasons").size()).isEqualTo(2);
        assertThat(answer.path("shorten").path("segment").intValue()).isEqualTo(1);
        // what 1 m of 24 AWG leaves of the table: 0.81 m × (1 − 1/2.08), unless the volts ask for less
        assertThat(answer.path("shorten").path("toMetres").doubleValue())
                .isLessThanOrEqualTo(0.81 * (1 - 1 / 2.08) + 1e-9);
        // 1 m of 2.08 and 2 m of 3.33 (22 AWG) would be 108 %
        assertThat(answer.path("shorten").path("orGauge").stringValue()).isEqualTo("20 AWG");
        assertThat(answer.path("assumptions").findValuesAsString("name"))
                .contains("portVolts", "leastDeviceVolts", "contacts", "contactOhms", "temperatureCelsius");
    }

    @Test
    void failsByDelayAndByATooThinPair() {
        JsonNode late = Asked.answer("usb-cable", """
                {"segments": [{"gauge": "18 AWG", "length": {"value": 5.5, "unit": "m"}}], "currentAmps": 0.1}""");
        assertThat(late.path("reasons").toString()).contains("28.6 ns, above 26 ns");

        JsonNode thin = Asked.answer("usb-cable", """
                {"segments": [{"gauge": "30 AWG", "length": {"value": 30, "unit": "cm"}}], "currentAmps": 0.1}""");
        assertThat(thin.path("reasons").toString()).contains("thinner than 28 AWG");
        assertThat(thin.path("shorten").has("toMetres")).isFalse();
        assertThat(thin.path("shorten").path("orGauge").stringValue()).isEqualTo("28 AWG");
    }

    @Test
    void hasNoAnswerBeyondThePort() {
        assertThat(Asked.noAnswer("usb-cable", """
                {"segments": [{"gauge": "30 AWG", "length": {"value": 100, "unit": "m"}}], "currentAmps": 2}""")).containsExactly("/currentAmps beyond-supply");
    }

    @Test
    void refusesWhatIsWrong() {
        assertThat(Asked.faults("usb-cable", """
                {"segments": [{"gauge": "28 gauge", "length": {"value": -1, "unit": "m"}}], "currentAmps": 0}"""))
                .hasSize(3)
                .contains("/segments/0/gauge unknown-size", "/currentAmps out-of-range");
        assertThat(Asked.faults("usb-cable", """
                {"segments": [], "currentAmps": 0.5}""")).containsExactly("/segments too-few");
        assertThat(Asked.faults("usb-cable", """
                {"segments": [{"gauge": "28 AWG", "length": {"value": 1, "unit": "m"}}], "currentAmps": 0.5,
                 "leastDeviceVolts": 5}""")).containsExactly("/leastDeviceVolts inconsistent");
    }
}
