package dev.splicebook.calculation.trade;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.calculation.Asked;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

class ParasiticDrawCalculationTest {

    @Test
    void tellsTheCurrentThroughATenAmpereFuse() {
        // blade fuse cold resistance from a secondary copy: a 10 A fuse that shows 0.77 mV carries 100 mA, a 20 A fuse
        // 3.38 mΩ
        JsonNode answer = Asked.answer("parasitic-draw", """
                {"fuses": [{"ratingAmps": 10, "millivolts": 0.77}, {"name": "audio", "ratingAmps": 20, "millivolts": 0.0338}]}""");

        assertThat(answer.path("entries").path(0).path("milliamps").doubleValue())
                .isCloseTo(100, within(1e-9));
        assertThat(answer.path("entries").path(1).path("milliamps").doubleValue())
                .isCloseTo(10, within(1e-9));
        assertThat(answer.path("milliamps").doubleValue()).isCloseTo(110, within(1e-9));
        assertThat(answer.path("verdict").stringValue()).isEqualTo("excessive");
        assertThat(answer.path("outOfOrdinary").toString()).isEqualTo("[\"fuse 1\"]");
    }

    @Test
    void saysThatOtherFusesAreEstimated() {
        String question = """
                {"fuses": [{"ratingAmps": %s, "millivolts": 0.1}]}""";

        JsonNode estimated = Asked.answer("parasitic-draw", question.formatted(15));
        JsonNode published = Asked.answer("parasitic-draw", question.formatted(10));

        assertThat(estimated.path("assumptions").toString()).contains("fuses[0].milliohms", "estimated");
        assertThat(estimated.path("cautions").toString()).contains("estimate");
        assertThat(published.path("assumptions").toString()).contains("fuses[0].milliohms", "published");
        assertThat(published.path("cautions").toString()).doesNotContain("estimate");
    }

    @Test
    void takesAResistanceThatIsGiven() {
        JsonNode answer = Asked.answer("parasitic-draw", """
                {"fuses": [{"ratingAmps": 15, "millivolts": 0.1, "milliohms": 5}]}""");

        assertThat(answer.path("milliamps").doubleValue()).isCloseTo(20, within(1e-9));
        assertThat(answer.path("assumptions").toString()).doesNotContain("milliohms");
    }

    @Test
    void countsTheDays() {
        // half of 48 Ah at 50 mA: 24 Ah / 1.2 Ah a day
        JsonNode answer = Asked.answer("parasitic-draw", """
                {"loads": [{"name": "all", "milliamps": 50}], "ampereHours": 48, "selfDischargePerMonth": 0, "celsius": 27}""");

        assertThat(answer.path("days").doubleValue()).isCloseTo(20, within(1e-9));
        assertThat(answer.path("verdict").stringValue()).isEqualTo("usual");
        assertThat(answer.path("leastCharge").doubleValue()).isCloseTo(0.5, within(1e-12));
    }

    @Test
    void countsReserveMinutesAsAmpereHours() {
        JsonNode answer = Asked.answer("parasitic-draw", """
                {"loads": [{"name": "all", "milliamps": 30}], "reserveMinutes": 100}""");

        // SAE J537: 100 min at 25 A are 41.67 Ah
        assertThat(answer.path("ampereHours").doubleValue()).isCloseTo(41.67, within(0.005));
    }

    @Test
    void lastsShorterInTheColdAndWithMoreDraw() {
        String question = """
                {"loads": [{"name": "all", "milliamps": %s}], "celsius": %s}""";
        double usual = days(question.formatted(40, 20));

        assertThat(days(question.formatted(80, 20))).isLessThan(usual);
        assertThat(days(question.formatted(40, -20))).isLessThan(usual);
    }

    private static double days(String question) {
        return Asked.answer("parasitic-draw", question).path("days").doubleValue();
    }

    @Test
    void namesEveryDefault() {
        JsonNode answer = Asked.answer("parasitic-draw", """
                {"loads": [{"name": "all", "milliamps": 30}]}""");

        assertThat(answer.path("assumptions")
                        .valueStream()
                        .map(each -> each.path("name").stringValue()))
                .containsExactlyInAnyOrder(
                        "ampereHours", "celsius", "allowedDischargeShare", "startCharge", "selfDischargePerMonth");
    }

    @Test
    void saysWhenTheBatteryIsTooLowAlreadyAndWhenNothingDraws() {
        JsonNode low = Asked.answer("parasitic-draw", """
                {"loads": [{"name": "all", "milliamps": 30}], "startCharge": 0.3}""");
        JsonNode nothing = Asked.answer("parasitic-draw", """
                {"loads": [{"name": "all", "milliamps": 0}], "selfDischargePerMonth": 0}""");

        assertThat(low.path("days").doubleValue()).isZero();
        assertThat(low.path("cautions").toString()).contains("too low");
        assertThat(nothing.has("days")).isFalse();
        assertThat(nothing.path("verdict").stringValue()).isEqualTo("below-usual");
    }

    @Test
    void takesLoadsOrFuses() {
        assertThat(Asked.faults("parasitic-draw", "{}")).containsExactly("/loads missing-field");
        assertThat(Asked.faults("parasitic-draw", """
                {"loads": [{"name": "a", "milliamps": 1}], "fuses": [{"ratingAmps": 10, "millivolts": 1}],
                 "reserveMinutes": 100, "ampereHours": 60}""")).containsExactly("/fuses either-or", "/ampereHours either-or");
    }

    @Test
    void refusesWhatLiesOutside() {
        assertThat(Asked.faults("parasitic-draw", """
                {"loads": [{"name": " ", "milliamps": -1}], "startCharge": 2, "celsius": 500}"""))
                .containsExactly(
                        "/loads/0/name bad-text",
                        "/loads/0/milliamps out-of-range",
                        "/startCharge out-of-range",
                        "/celsius out-of-range");
        assertThat(Asked.faults("parasitic-draw", """
                {"fuses": [{"ratingAmps": 0, "millivolts": "0.77"}]}"""))
                .containsExactly("/fuses/0/ratingAmps out-of-range", "/fuses/0/millivolts wrong-type");
    }
}
