package dev.splicebook.calculation.trade;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.calculation.Asked;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

class GroundNoiseCalculationTest {

    @Test
    void addsShieldResistanceTimesShieldCurrent() {
        JsonNode answer = Asked.answer("ground-noise", """
                {"loopAmps": 0.1, "shieldOhms": 0.05, "signalVolts": 2}""");

        assertNumber(answer, "noiseVolts", 0.005, 1e-15);
        // 20·log10(400)
        assertNumber(answer, "belowSignalDecibels", 52.0412, 1e-4);
        assertThat(answer.path("audible").booleanValue()).isTrue();
    }

    @Test
    void givesThePublishedLoop() {
        // published RG-58 shield of 14 mΩ/m in a loop of 5 m radius: 0.440 Ω, 51.5 µH, corner 1.36 kHz (computed from
        // it)
        JsonNode answer = Asked.answer("ground-noise", """
                {"groundOffsetVolts": 0.05, "shieldMilliohmsPerMetre": 14, "shieldLength": {"value": 31.41593, "unit": "m"},
                 "loopRadius": {"value": 5, "unit": "m"}, "shieldRadius": {"value": 1.49, "unit": "mm"}, "signalVolts": 2}""");

        assertNumber(answer, "shieldOhms", 0.440, 0.0005);
        assertNumber(answer, "loopMicrohenries", 51.5, 0.05);
        assertNumber(answer, "cornerHertz", 1360, 5);
        // the whole offset stands along the shield where the shield is all the loop has
        assertNumber(answer, "noiseVolts", 0.05, 1e-12);
    }

    @Test
    void isHeldBackByInductance() {
        String question = """
                {"groundOffsetVolts": 0.05, "shieldOhms": 0.44, "loopRadius": {"value": 5, "unit": "m"},
                 "shieldRadius": {"value": 1.49, "unit": "mm"}, "noiseHertz": %s, "signalVolts": 2}""";
        JsonNode hum = Asked.answer("ground-noise", question.formatted(50));
        JsonNode whine = Asked.answer("ground-noise", question.formatted(13_600));

        assertNumber(hum, "noiseVolts", 0.05, 0.0001);
        assertNumber(whine, "noiseVolts", 0.005, 0.0001);
    }

    @Test
    void isRejectedByADifferentialInput() {
        JsonNode answer = Asked.answer("ground-noise", """
                {"loopAmps": 0.1, "shieldOhms": 0.05, "signalVolts": 2, "rejectionDecibels": 40}""");

        assertNumber(answer, "noiseVolts", 0.00005, 1e-15);
        assertThat(answer.path("audible").booleanValue()).isFalse();
    }

    @Test
    void ranksTheFixes() {
        JsonNode answer = Asked.answer("ground-noise", """
                {"loopAmps": 0.1, "shieldOhms": 0.05, "signalVolts": 2, "groundAreaTimes": 4}""");

        assertThat(answer.path("fixes").findValuesAsString("fix"))
                .containsExactly("isolator", "differential-input", "single-point-ground", "thicker-ground");
        // 5 mV behind 60 and 40 dB, a twentieth of it, a quarter of it
        double[] expected = {0.000_005, 0.000_05, 0.000_25, 0.001_25};
        for (int fix = 0; fix < expected.length; fix++) {
            assertNumber(answer.path("fixes").path(fix), "noiseVolts", expected[fix], 1e-12);
            assertThat(answer.path("fixes")
                            .path(fix)
                            .path("belowSignalDecibels")
                            .doubleValue())
                    .isGreaterThan(answer.path("belowSignalDecibels").doubleValue());
        }
        assertThat(answer.path("fixes").path(0).path("audible").booleanValue()).isFalse();
        assertThat(answer.path("assumptions").findValuesAsString("name"))
                .containsExactlyInAnyOrder(
                        "rejectionDecibels",
                        "audibleDecibels",
                        "isolatorDecibels",
                        "differentialDecibels",
                        "singlePointShare");
    }

    @Test
    void takesEitherOfWhatBelongsTogether() {
        assertThat(Asked.faults("ground-noise", """
                {"signalVolts": 2}"""))
                .containsExactly("/groundOffsetVolts missing-field", "/shieldOhms missing-field");
        assertThat(Asked.faults("ground-noise", """
                {"groundOffsetVolts": 0.1, "loopAmps": 1, "shieldOhms": 0.1, "shieldMilliohmsPerMetre": 14, "signalVolts": 2}"""))
                .containsExactly(
                        "/loopAmps either-or", "/shieldMilliohmsPerMetre either-or", "/shieldLength missing-field");
        assertThat(Asked.faults("ground-noise", """
                {"groundOffsetVolts": 0.1, "shieldOhms": 0.1, "noiseHertz": 1000, "signalVolts": 2}""")).containsExactly("/loopRadius missing-field");
        assertThat(Asked.faults("ground-noise", """
                {"groundOffsetVolts": 0.1, "shieldOhms": 0.1, "loopRadius": {"value": 1, "unit": "mm"},
                 "shieldRadius": {"value": 1, "unit": "mm"}, "signalVolts": 2}""")).containsExactly("/loopRadius inconsistent");
    }

    @Test
    void refusesWhatLiesOutside() {
        assertThat(Asked.faults("ground-noise", """
                {"loopAmps": -1, "shieldOhms": 0, "signalVolts": 1e9, "shieldLength": {"value": 0, "unit": "m"}}"""))
                .containsExactly(
                        "/loopAmps out-of-range",
                        "/shieldOhms out-of-range",
                        "/shieldLength/value out-of-range",
                        "/signalVolts out-of-range");
    }

    private static void assertNumber(JsonNode answer, String field, double expected, double tolerance) {
        assertThat(answer.path(field).doubleValue()).as(field).isCloseTo(expected, within(tolerance));
    }
}
