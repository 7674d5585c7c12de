package dev.splicebook.calculation.trade;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.calculation.Asked;
import dev.splicebook.electrics.ConductorSize;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tools.jackson.databind.JsonNode;

class VoltageDropCalculationTest {

    @Test
    void dropsEighteenAmpsOverTwentyFeet() {
        JsonNode answer = Asked.answer("voltage-drop", """
                {"currentAmps": 18, "conductor": {"size": "8 AWG"}, "length": {"value": 20, "unit": "ft"},
                 "returnPath": "conductor", "supplyVolts": 12.6, "temperatureCelsius": 20}""");

        // 0.6282 Ω per 1000 ft at 20 °C (Floyd's table) over 40 ft: 0.4523 V
        assertThat(answer.path("dropVolts").doubleValue()).isCloseTo(0.4523, within(0.0005));
        assertThat(answer.path("dropPercent").doubleValue()).isCloseTo(3.590, within(0.004));
        assertThat(answer.path("loadVolts").doubleValue()).isCloseTo(12.1477, within(0.0005));
        assertThat(answer.path("lossWatts").doubleValue()).isCloseTo(8.142, within(0.01));
        assertThat(answer.path("conductorCelsius").doubleValue()).isEqualTo(20);
        assertThat(answer.path("shortCircuitAmps").doubleValue()).isCloseTo(501.4, within(0.5));
    }

    // FAA AC 43.13-1B table 11-7: 20 A in tin-plated copper of table 11-9, given here by its resistivity over the area
    // of
    // the gauge. The row of 12 AWG prints 3.60 V; its own figures give 3.555 V
    @ParameterizedTest
    @CsvSource({
        "6 AWG, 0.44, 107, 0.942",
        "4 AWG, 0.28, 90, 0.504",
        "12 AWG, 2.02, 88, 3.555",
        "14 AWG, 3.06, 100, 6.12"
    })
    void findsWhatTheFiguresOfAHandbookGive(String size, double ohmsPer1000Feet, double feet, double volts) {
        double area = new ConductorSize(size).areaMm2();
        JsonNode answer = Asked.answer("voltage-drop", """
                {"currentAmps": 20, "conductor": {"size": "%s", "resistivityOhmMm2PerMetre": %s},
                 "length": {"value": %s, "unit": "ft"}, "returnPath": "none", "temperatureCelsius": 20}""".formatted(size, ohmsPer1000Feet / 304.8 * area, feet));

        assertThat(answer.path("dropVolts").doubleValue()).isCloseTo(volts, within(0.0005));
    }

    @Test
    void reckonsWithTheConductorsOwnHeat() {
        JsonNode answer = Asked.answer("voltage-drop", """
                {"currentAmps": 40, "conductor": {"size": "8 AWG", "material": "copper"},
                 "length": {"value": 2, "unit": "m"}, "returnPath": "chassis", "ambientCelsius": 30}""");

        // 33 CFR 183.425 table 5: 80 A at 105 °C; half of it warms by a quarter of 75 K
        assertThat(answer.path("allowableAmps").doubleValue()).isEqualTo(80);
        assertThat(answer.path("conductorCelsius").doubleValue()).isCloseTo(48.75, within(1e-9));
        assertThat(answer.path("dropVolts").doubleValue())
                .isCloseTo(40 * 2 * 0.017241 / 8.366 * (234.5 + 48.75) / 254.5, within(0.0001));
        assertThat(answer.path("assumptions").findValuesAsString("name"))
                .contains("supplyVolts", "chassisOhms", "insulationCelsius")
                .doesNotContain("ambientCelsius", "material");
    }

    @Test
    void countsTheBody() {
        JsonNode answer = Asked.answer("voltage-drop", """
                {"currentAmps": 50, "conductor": {"size": "16 mm2"}, "length": {"value": 5, "unit": "m"},
                 "returnPath": "chassis", "chassisOhms": 0.004, "temperatureCelsius": 20}""");

        // IEC 60228 class 5 (secondary copy): 1.21 Ω/km
        assertThat(answer.path("dropVolts").doubleValue()).isCloseTo(50 * (0.00605 + 0.004), within(1e-9));
    }

    @Test
    void warnsOfAConductorThatIsTooThin() {
        JsonNode answer = Asked.answer("voltage-drop", """
                {"currentAmps": 30, "conductor": {"size": "16 AWG"}, "length": {"value": 1, "unit": "m"},
                 "returnPath": "none"}""");

        // 33 CFR 183.425 table 5: 25 A at 105 °C
        assertThat(answer.path("cautions").toString()).contains("30 A is above the 25 A that 16 AWG bears");
    }

    @Test
    void hasNoAnswerBeyondTheSupplyOrInAFire() {
        assertThat(Asked.noAnswer("voltage-drop", """
                {"currentAmps": 18, "conductor": {"size": "22 AWG"}, "length": {"value": 50, "unit": "m"},
                 "returnPath": "conductor", "supplyVolts": 12, "temperatureCelsius": 20}""")).containsExactly("/currentAmps beyond-supply");
        assertThat(Asked.noAnswer("voltage-drop", """
                {"currentAmps": 200, "conductor": {"size": "18 AWG"}, "length": {"value": 10, "unit": "cm"},
                 "returnPath": "none"}""")).containsExactly("/currentAmps overheats");
    }

    @Test
    void refusesWhatIsWrong() {
        assertThat(Asked.faults("voltage-drop", "{}"))
                .containsExactlyInAnyOrder(
                        "/currentAmps missing-field",
                        "/conductor missing-field",
                        "/length missing-field",
                        "/returnPath missing-field");
        assertThat(Asked.faults("voltage-drop", """
                {"currentAmps": 10, "conductor": {"size": "8 AWG"}, "length": {"value": 1, "unit": "m"},
                 "returnPath": "conductor", "temperatureCelsius": 20, "ambientCelsius": 30, "chassisOhms": 0.001}"""))
                .containsExactlyInAnyOrder("/ambientCelsius either-or", "/chassisOhms inconsistent");
        assertThat(Asked.faults("voltage-drop", """
                {"currentAmps": -10, "conductor": {"size": "8 gauge"}, "length": {"value": 0, "unit": "m"},
                 "returnPath": "wireless", "supplyVolts": 1e9}"""))
                .hasSize(5)
                .contains("/currentAmps out-of-range", "/conductor/size unknown-size", "/supplyVolts out-of-range");
        assertThat(Asked.faults("voltage-drop", """
                {"currentAmps": 10, "conductor": {"size": "8 AWG"}, "length": {"value": 0.5, "unit": "mm"},
                 "returnPath": "none", "ambientCelsius": 105}"""))
                .containsExactlyInAnyOrder("/ambientCelsius inconsistent", "/length out-of-range");
    }
}
