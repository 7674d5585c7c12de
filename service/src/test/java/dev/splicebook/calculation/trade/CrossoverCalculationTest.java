package dev.splicebook.calculation.trade;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.calculation.Asked;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tools.jackson.databind.JsonNode;

class CrossoverCalculationTest {

    // 8 Ω, 2 kHz; computed from published factors
    @ParameterizedTest
    @CsvSource({"2, butterworth, 7.034, 0.9003, 6.8, 0.91", "2, linkwitz-riley, 4.974, 1.273, 5.1, 1.3"})
    void givesBothComponents(
            int order,
            String alignment,
            double microfarads,
            double millihenries,
            double e24Microfarads,
            double e24Millihenries) {
        JsonNode answer = Asked.answer("crossover", """
                {"order": %d, "alignment": "%s", "ohms": 8, "hertz": 2000, "side": "high-pass"}""".formatted(order, alignment));

        JsonNode capacitor = answer.path("components").get(0);
        assertThat(capacitor.path("kind").stringValue()).isEqualTo("capacitor");
        assertThat(capacitor.path("place").stringValue()).isEqualTo("series");
        assertThat(capacitor.path("microfarads").doubleValue()).isCloseTo(microfarads, within(0.0005));
        assertThat(capacitor.path("e24Microfarads").doubleValue()).isEqualTo(e24Microfarads);
        assertThat(capacitor.has("millihenries")).isFalse();
        JsonNode inductor = answer.path("components").get(1);
        assertThat(inductor.path("kind").stringValue()).isEqualTo("inductor");
        assertThat(inductor.path("place").stringValue()).isEqualTo("shunt");
        assertThat(inductor.path("millihenries").doubleValue()).isCloseTo(millihenries, within(0.0005));
        assertThat(inductor.path("e24Millihenries").doubleValue()).isEqualTo(e24Millihenries);
        assertThat(answer.path("e24").path("cornerHertz").doubleValue()).isBetween(1900.0, 2100.0);
    }

    @Test
    void saysWhatCornerABoughtCapacitorGives() {
        // first order: 9.947 µF; 10 µF put the corner at 2000 · 9.947/10 Hz
        JsonNode answer = Asked.answer("crossover", """
                {"order": 1, "ohms": 8, "hertz": 2000, "side": "high-pass"}""");

        assertThat(answer.path("e12").path("cornerHertz").doubleValue()).isCloseTo(1989.4, within(0.05));
        assertThat(answer.path("e12").path("cornerErrorPercent").doubleValue()).isCloseTo(-0.53, within(0.005));
        assertThat(answer.path("cornerDecibels").doubleValue()).isCloseTo(-3.01, within(0.005));
        assertThat(answer.path("assumptions").findValuesAsString("name")).containsExactly("alignment", "driver");
    }

    @Test
    void addsABassBlockAndAPad() {
        JsonNode answer = Asked.answer("crossover", """
                {"order": 1, "ohms": 8, "hertz": 2000, "side": "low-pass", "bassBlockHertz": 100, "lPadDecibels": 20}""");

        // computed: 1/(2π · 100 · 8)
        assertThat(answer.path("bassBlock").path("microfarads").doubleValue()).isCloseTo(198.9, within(0.05));
        assertThat(answer.path("bassBlock").path("e12Microfarads").doubleValue())
                .isEqualTo(180);
        // 20 dB at 8 Ω, published: 7.20 and 0.89 Ω, 45 of 50 W in the first
        JsonNode pad = answer.path("lPad");
        assertThat(pad.path("seriesOhms").doubleValue()).isCloseTo(7.20, within(0.005));
        assertThat(pad.path("shuntOhms").doubleValue()).isCloseTo(0.89, within(0.005));
        assertThat(pad.path("seriesPowerPercent").doubleValue()).isCloseTo(90, within(0.05));
        assertThat(pad.path("e24SeriesOhms").doubleValue()).isEqualTo(7.5);
        assertThat(pad.path("e24ShuntOhms").doubleValue()).isEqualTo(0.91);
    }

    @Test
    void refusesWhatIsNoCrossover() {
        assertThat(Asked.faults("crossover", """
                {"order": 3, "alignment": "linkwitz-riley", "ohms": 8, "hertz": 2000, "side": "low-pass"}""")).containsExactly("/order inconsistent");
        assertThat(Asked.faults("crossover", """
                {"order": 5, "ohms": -8, "hertz": 1e6, "side": "low-pass"}"""))
                .containsExactly("/order out-of-range", "/ohms out-of-range", "/hertz out-of-range");
        assertThat(Asked.faults("crossover", """
                {"order": 2, "ohms": 8, "hertz": 2000, "side": "band-pass"}""")).hasSize(1).first().asString().startsWith("/side ");
        assertThat(Asked.faults("crossover", """
                {"order": 2.5, "ohms": 8, "hertz": 2000}""")).hasSize(2);
    }
}
