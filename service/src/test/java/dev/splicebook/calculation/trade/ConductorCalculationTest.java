package dev.splicebook.calculation.trade;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.calculation.Asked;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tools.jackson.databind.JsonNode;

class ConductorCalculationTest {

    @Test
    void measuresAGauge() {
        JsonNode answer = Asked.answer("conductor", """
                {"conductor": {"size": "8 AWG", "material": "copper"}, "length": {"value": 100, "unit": "ft"},
                 "temperatureCelsius": 20}""");

        // Floyd's table, after NBS Handbook 100: 0.6282 Ω per 1000 ft; mm and mm² by the law of ASTM B258, from memory
        assertThat(answer.path("ohmsPer1000Feet").doubleValue()).isCloseTo(0.6282, within(0.0005));
        assertThat(answer.path("ohms").doubleValue()).isCloseTo(0.06282, within(0.00005));
        assertThat(answer.path("areaMm2").doubleValue()).isCloseTo(8.366, within(0.002));
        assertThat(answer.path("diameterMm").doubleValue()).isCloseTo(3.264, within(0.001));
    }

    // IEC 60228 class 5 maxima (secondary copy), ASTM B566 minima of conductivity, and an area by its resistivity
    @ParameterizedTest
    @CsvSource({
        "2.5 mm2, copper, 20, 7.98",
        "2.5 mm2, tinned-copper, 20, 8.21",
        "25 mm2, copper, 20, 0.780",
        "0.35 mm2, copper, 20, 49.26",
        "2.5 mm2, copper, 75, 9.7046",
        "10 AWG, cca-10, 20, 5.210",
        "10 AWG, cca-15, 20, 5.089"
    })
    void knowsMaterialsAndTemperatures(String size, String material, double celsius, double ohmsPerKm) {
        JsonNode answer = Asked.answer("conductor", """
                {"conductor": {"size": "%s", "material": "%s"}, "temperatureCelsius": %s}""".formatted(size, material, celsius));

        assertThat(answer.path("ohmsPerMetre").doubleValue() * 1000).isCloseTo(ohmsPerKm, within(ohmsPerKm * 0.0005));
        assertThat(answer.has("ohms")).as("without a length").isFalse();
    }

    @Test
    void takesAResistivityAndStrands() {
        JsonNode answer = Asked.answer("conductor", """
                {"conductor": {"size": "10 mm2", "resistivityOhmMm2PerMetre": 0.02, "strandingPercent": 2},
                 "temperatureCelsius": 20}""");

        assertThat(answer.path("ohmsPerMetre").doubleValue()).isCloseTo(0.00204, within(1e-12));
        assertThat(answer.path("assumptions").findValuesAsString("name")).containsExactly("material");
    }

    @Test
    void namesWhatItAssumes() {
        JsonNode answer = Asked.answer("conductor", """
                {"conductor": {"size": "8 AWG"}, "temperatureCelsius": 20}""");

        assertThat(answer.path("assumptions").findValuesAsString("name"))
                .containsExactly("material", "resistivityOhmMm2PerMetre", "strandingPercent");
    }

    @Test
    void refusesWhatIsWrong() {
        assertThat(Asked.faults("conductor", """
                {"conductor": {"size": "8 gauge", "resistivityOhmMm2PerMetre": -1}, "temperatureCelsius": 1000}"""))
                .containsExactlyInAnyOrder(
                        "/conductor/size unknown-size",
                        "/conductor/resistivityOhmMm2PerMetre out-of-range",
                        "/temperatureCelsius out-of-range");
        assertThat(Asked.faults("conductor", "{}"))
                .containsExactlyInAnyOrder("/conductor missing-field", "/temperatureCelsius missing-field");
        assertThat(Asked.faults("conductor", """
                {"conductor": {"size": "8 AWG", "material": "gold"}, "length": {"value": -1, "unit": "m"},
                 "temperatureCelsius": "warm"}""")).hasSize(3);
    }
}
