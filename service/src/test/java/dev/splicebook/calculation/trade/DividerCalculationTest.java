package dev.splicebook.calculation.trade;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.calculation.Asked;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

class DividerCalculationTest {

    @Test
    void dividesUnderLoad() {
        // worked by hand: 5 kΩ beside 5 kΩ below 10 kΩ
        JsonNode answer = Asked.answer("divider", """
                {"supplyVolts": 12, "r1Ohms": 10000, "r2Ohms": 5000, "loadOhms": 5000}""");

        assertNumber(answer, "outVolts", 2.4, 1e-12);
        assertNumber(answer, "supplyAmps", 0.00096, 1e-15);
        assertNumber(answer, "r1Watts", 0.009216, 1e-12);
        assertNumber(answer, "r2Watts", 0.001152, 1e-12);
        assertNumber(answer, "sourceOhms", 10_000 / 3.0, 1e-9);
        assertThat(answer.path("leastOutVolts").doubleValue()).isLessThan(2.4);
        assertThat(answer.path("mostOutVolts").doubleValue()).isGreaterThan(2.4);
        assertThat(answer.has("errorShare")).isFalse();
    }

    @Test
    void accountsForAllOfThePower() {
        JsonNode answer = Asked.answer("divider", """
                {"supplyVolts": 13.8, "r1Ohms": 47, "r2Ohms": 33, "loadOhms": 100}""");

        double parts = 0;
        for (String part : new String[] {"r1Watts", "r2Watts", "loadWatts"}) {
            parts += answer.path(part).doubleValue();
        }
        assertThat(parts).isCloseTo(13.8 * answer.path("supplyAmps").doubleValue(), within(1e-12));
        assertThat(answer.path("cautions").toString()).contains("quarter watt");
    }

    @Test
    void findsThePair() {
        JsonNode answer = Asked.answer("divider", """
                {"supplyVolts": 12, "wantedVolts": 6, "leastTotalOhms": 1000, "mostTotalOhms": 100000}""");

        assertNumber(answer, "r1Ohms", 5100, 0);
        assertNumber(answer, "r2Ohms", 5100, 0);
        assertNumber(answer, "errorShare", 0, 1e-12);
        assertThat(answer.path("assumptions").findValuesAsString("name")).containsExactly("series", "toleranceShare");
    }

    @Test
    void undoesWhatItChose() {
        JsonNode chosen = Asked.answer("divider", """
                {"supplyVolts": 14.4, "wantedRatio": 0.2, "loadOhms": 22000, "series": "e96"}""");
        JsonNode given = Asked.answer("divider", """
                {"supplyVolts": 14.4, "r1Ohms": %s, "r2Ohms": %s, "loadOhms": 22000}""".formatted(chosen.path("r1Ohms"), chosen.path("r2Ohms")));

        assertThat(given.path("ratio")).isEqualTo(chosen.path("ratio"));
        assertThat(chosen.path("errorShare").doubleValue()).isBetween(-0.005, 0.005);
    }

    @Test
    void hasNoAnswerOutsideItsBounds() {
        assertThat(Asked.noAnswer("divider", """
                {"supplyVolts": 12, "wantedVolts": 14}""")).containsExactly("/wantedVolts outside-supply");
        assertThat(Asked.noAnswer("divider", """
                {"supplyVolts": 12, "wantedVolts": 5, "leastTotalOhms": 10301, "mostTotalOhms": 10305}""")).containsExactly("/leastTotalOhms no-pair");
    }

    @Test
    void takesResistorsOrWhatIsWanted() {
        assertThat(Asked.faults("divider", """
                {"supplyVolts": 12}""")).containsExactly("/r1Ohms missing-field");
        assertThat(Asked.faults("divider", """
                {"supplyVolts": 12, "r1Ohms": 100}""")).containsExactly("/r2Ohms missing-field");
        assertThat(Asked.faults("divider", """
                {"supplyVolts": 12, "r1Ohms": 100, "r2Ohms": 100, "wantedRatio": 0.5}""")).containsExactly("/wantedRatio either-or");
        assertThat(Asked.faults("divider", """
                {"supplyVolts": 12, "wantedRatio": 0.5, "wantedVolts": 6}""")).containsExactly("/wantedVolts either-or");
    }

    @Test
    void refusesWhatLiesOutside() {
        assertThat(Asked.faults("divider", """
                {"supplyVolts": 0, "r1Ohms": -1, "r2Ohms": "10k"}"""))
                .containsExactly("/supplyVolts out-of-range", "/r1Ohms out-of-range", "/r2Ohms wrong-type");
        assertThat(Asked.faults("divider", """
                {"supplyVolts": 12, "wantedRatio": 0.5, "leastTotalOhms": 500, "mostTotalOhms": 100}""")).containsExactly("/leastTotalOhms inconsistent");
    }

    private static void assertNumber(JsonNode answer, String field, double expected, double tolerance) {
        assertThat(answer.path(field).doubleValue()).as(field).isCloseTo(expected, within(tolerance));
    }
}
