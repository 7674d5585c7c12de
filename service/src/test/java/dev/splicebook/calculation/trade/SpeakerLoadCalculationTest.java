package dev.splicebook.calculation.trade;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.calculation.Asked;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

class SpeakerLoadCalculationTest {

    private static final String TWO_DUALS = """
            "drivers": [{"name": "A", "coils": [{"ohms": 4}, {"ohms": 4}]},
              {"name": "B", "coils": [{"ohms": 4}, {"ohms": 4}]}]""";

    @Test
    void findsOneFourAndSixteenOhms() {
        JsonNode answer = Asked.answer("speaker-load", """
                {%s, "amplifier": {"minOhms": 1, "wattsByLoad": [{"ohms": 1, "watts": 1000}, {"ohms": 4, "watts": 350}],
                  "bridged": {"minOhms": 4, "wattsByLoad": [{"ohms": 4, "watts": 1200}]}}}""".formatted(TWO_DUALS));

        assertThat(answer.path("total").intValue()).isEqualTo(10);
        List<Long> milliohms = new ArrayList<>();
        answer.path("wirings")
                .forEach(each -> milliohms.add(Math.round(each.path("ohms").doubleValue() * 1000)));
        assertThat(milliohms)
                .containsExactlyInAnyOrder(1000L, 1600L, 2400L, 3000L, 4000L, 4000L, 5333L, 6667L, 10_000L, 16_000L);
        JsonNode best = answer.path("best");
        assertThat(best.path("wiring").stringValue()).isEqualTo("A.1 | A.2 | B.1 | B.2");
        assertThat(best.path("joins").get(0).stringValue()).isEqualTo("amplifier+ to A.1+, A.2+, B.1+, B.2+");
        assertThat(best.path("coils").get(0).path("powerPercent").doubleValue()).isCloseTo(25, within(1e-9));
        // 250 W in 4 Ω are 7.906 A by Ohm's law
        assertThat(best.path("single").path("coils").get(0).path("amps").doubleValue())
                .isCloseTo(7.906, within(0.001));
        assertThat(answer.path("bestBridged").path("ohms").doubleValue()).isEqualTo(4);
        assertThat(answer.path("assumptions").findValuesAsString("name")).contains("listed", "coils", "ratedWatts");
    }

    @Test
    void judgesAGivenWiring() {
        JsonNode answer = Asked.answer("speaker-load", """
                {%s, "amplifier": {"minOhms": 2}, "wiring": "(A.1 + -A.2) | B.1", "listed": 1}""".formatted(TWO_DUALS));

        JsonNode given = answer.path("given");
        // 8 Ω beside 4 Ω
        assertThat(given.path("ohms").doubleValue()).isCloseTo(8 / 3.0, within(1e-12));
        assertThat(given.path("safe").booleanValue()).isFalse();
        assertThat(given.path("polarityFaults").size()).isEqualTo(1);
        assertThat(given.path("unusedCoils").get(0).stringValue()).isEqualTo("B.2");
        List<String> hazards = new ArrayList<>();
        given.path("single").path("hazards").forEach(each -> hazards.add(each.stringValue()));
        assertThat(hazards).containsExactly("coil-left-open", "polarity");
        assertThat(answer.path("wirings").size()).isEqualTo(1);
        assertThat(answer.path("total").intValue()).isEqualTo(10);
        assertThat(answer.path("verdict").stringValue()).contains("not safe", "polarity");
    }

    @Test
    void saysWhenNoneIsSafe() {
        JsonNode answer = Asked.answer("speaker-load", """
                {"drivers": [{"name": "A", "coils": [{"ohms": 2}]}], "amplifier": {"minOhms": 4}}""");

        assertThat(answer.has("best")).isFalse();
        assertThat(answer.path("wirings")
                        .get(0)
                        .path("single")
                        .path("hazards")
                        .get(0)
                        .stringValue())
                .isEqualTo("load-too-low");
        assertThat(answer.path("verdict").stringValue()).contains("None of the 1", "4.00 Ω");
    }

    @Test
    void answersInFiguresAtTheEndsOfItsRanges() {
        Random random = new Random(9);
        double[] ohms = {0.1, 2, 4, 1000};
        double[] watts = {0.01, 50, 100_000};
        for (int round = 0; round < 150; round++) {
            List<String> drivers = new ArrayList<>();
            for (int driver = 0; driver <= round % 3; driver++) {
                String coil = "{\"ohms\": %s, \"ratedWatts\": %s}".formatted(pick(ohms, random), pick(watts, random));
                String other = random.nextBoolean() ? coil : "{\"ohms\": %s}".formatted(pick(ohms, random));
                drivers.add("{\"name\": \"D%d\", \"coils\": [%s]}"
                        .formatted(driver, random.nextInt(3) == 0 ? coil : coil + ", " + other));
            }
            JsonNode answer = Asked.answer("speaker-load", """
                    {"drivers": [%s], "amplifier": {"minOhms": %s, "wattsByLoad": [{"ohms": %s, "watts": %s}],
                      "bridged": {"minOhms": %s}}}""".formatted(
                            String.join(", ", drivers),
                            pick(ohms, random),
                            pick(ohms, random),
                            pick(watts, random),
                            pick(ohms, random)));
            answer.path("wirings").forEach(each -> {
                double percent = 0;
                for (JsonNode coil : each.path("coils")) {
                    percent += coil.path("powerPercent").doubleValue();
                }
                assertThat(percent).as("%% of the power in %s", each).isCloseTo(100, within(1e-9));
                assertThat(each.path("single").path("usableWatts").doubleValue())
                        .isLessThanOrEqualTo(
                                each.path("single").path("mostWatts").doubleValue() * (1 + 1e-12));
                assertThat(each.path("bridged").has("leastWatts")).isFalse();
            });
            boolean anySafe = false;
            for (JsonNode each : answer.path("wirings")) {
                anySafe |= each.path("safe").booleanValue();
            }
            assertThat(answer.has("best")).isEqualTo(anySafe);
        }
    }

    private static double pick(double[] from, Random random) {
        return from[random.nextInt(from.length)];
    }

    @Test
    void refusesWhatCannotBeWired() {
        assertThat(Asked.faults("speaker-load", """
                {%s, "amplifier": {"minOhms": 2}, "wiring": "A.1 + A.2 | B.1"}""".formatted(TWO_DUALS))).containsExactly("/wiring bad-wiring");
        assertThat(Asked.faults("speaker-load", """
                {"drivers": [{"name": "A", "coils": [{"ohms": 4}]}, {"name": "A", "coils": [{"ohms": 4}]}],
                 "amplifier": {"minOhms": 2}}""")).containsExactly("/drivers/1/name duplicate");
        assertThat(Asked.faults("speaker-load", """
                {"drivers": [{"name": "A B", "coils": []}], "amplifier": {"minOhms": 0}}"""))
                .containsExactlyInAnyOrder("/drivers/0/coils too-few", "/amplifier/minOhms out-of-range");
        assertThat(Asked.faults("speaker-load", """
                {"drivers": [{"name": "A B", "coils": [{"ohms": 4}]}], "amplifier": {"minOhms": 1,
                  "wattsByLoad": [{"ohms": 4, "watts": 1}, {"ohms": 4, "watts": 2}]}}"""))
                .containsExactlyInAnyOrder("/drivers/0/name bad-form", "/amplifier/wattsByLoad duplicate");
        String five = "{\"name\": \"%s\", \"coils\": [{\"ohms\": 4}, {\"ohms\": 4}]}";
        List<String> drivers = new ArrayList<>();
        for (char name = 'A'; name <= 'E'; name++) {
            drivers.add(five.formatted(name));
        }
        assertThat(Asked.faults("speaker-load", """
                {"drivers": [%s], "amplifier": {"minOhms": 1}}""".formatted(String.join(", ", drivers))))
                .containsExactly("/drivers out-of-range");
    }
}
