package dev.splicebook.calculation.trade;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.calculation.Asked;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

class LevelMatchCalculationTest {

    @Test
    void keepsABridgedOutputOffAChassisInput() {
        // 18 W into 4 Ω are 8.485 V by Ohm's law
        JsonNode answer = Asked.answer("level-match", """
                {"source": {"watts": 18, "ohms": 4, "floating": true, "biasVolts": 6.6},
                 "input": {"maxVolts": 9, "inputOhms": 20000, "returnSide": "chassis"}}""");

        assertThat(answer.path("sourceVolts").doubleValue()).isCloseTo(8.485, within(0.001));
        assertThat(answer.path("converterNeeded").booleanValue()).isTrue();
        assertThat(answer.path("obstacles").get(0).stringValue()).isEqualTo("floating-into-chassis");
        assertThat(answer.path("obstacles").size()).isEqualTo(1);
        assertThat(answer.path("reasons").get(0).stringValue()).contains("shorted");
        assertThat(answer.path("clippingMarginDecibels").doubleValue()).isCloseTo(0.511, within(0.001));
        assertThat(answer.has("divider")).isFalse();
    }

    @Test
    void dividesWhatIsTooLoud() {
        JsonNode answer = Asked.answer("level-match", """
                {"source": {"volts": 20, "floating": false}, "input": {"maxVolts": 4, "inputOhms": 10000}}""");

        assertThat(answer.path("level").stringValue()).isEqualTo("too-high");
        // 20 V by 4 V are 13.98 dB
        assertThat(answer.path("ratioDecibels").doubleValue()).isCloseTo(13.98, within(0.005));
        assertThat(answer.path("dividerSuffices").booleanValue()).isTrue();
        JsonNode divider = answer.path("divider");
        double behind = 1 / (1 / divider.path("shuntOhms").doubleValue() + 1 / 10_000.0);
        double volts = 20 * behind / (behind + divider.path("seriesOhms").doubleValue());
        assertThat(divider.path("deliveredVolts").doubleValue()).isCloseTo(volts, within(1e-9));
        assertThat(volts).isBetween(3.96, 4.0);
        assertThat(answer.path("assumptions").findValuesAsString("name"))
                .containsExactly("biasVolts", "outputOhms", "returnSide", "dcCoupled", "targetVolts", "resistorWatts");
    }

    @Test
    void takesAPowerOutputForBridgedAndALineOutputForNot() {
        assertThat(Asked.answer("level-match", """
                        {"source": {"watts": 1, "ohms": 4}, "input": {"maxVolts": 4}}""").path("obstacles").size()).isEqualTo(1);
        JsonNode line = Asked.answer("level-match", """
                {"source": {"volts": 2}, "input": {"maxVolts": 4}}""");
        assertThat(line.path("converterNeeded").booleanValue()).isFalse();
        assertThat(line.path("verdict").stringValue()).isEqualTo("Both can be wired straight.");
        assertThat(line.path("assumptions").findValuesAsString("name")).contains("floating", "inputOhms");
    }

    @Test
    void refusesWhatIsMissingOrDouble() {
        assertThat(Asked.faults("level-match", """
                {"source": {}, "input": {"maxVolts": 4}}""")).containsExactly("/source/volts missing-field");
        assertThat(Asked.faults("level-match", """
                {"source": {"volts": 1, "watts": 1, "ohms": 4}, "input": {"maxVolts": 4}}"""))
                .containsExactly("/source/watts either-or", "/source/ohms either-or");
        assertThat(Asked.faults("level-match", """
                {"source": {"watts": 1}, "input": {"maxVolts": 4}}""")).containsExactly("/source/ohms missing-field");
        assertThat(Asked.faults("level-match", """
                {"source": {"volts": -1}, "input": {"maxVolts": 0, "inputOhms": -5}}"""))
                .containsExactly(
                        "/source/volts out-of-range", "/input/maxVolts out-of-range", "/input/inputOhms out-of-range");
        assertThat(Asked.faults("level-match", """
                {"source": {"watts": 10000, "ohms": 1000}, "input": {"maxVolts": 1, "minVolts": 2}}"""))
                .containsExactly("/source/watts out-of-range", "/input/minVolts inconsistent");
        assertThat(Asked.faults("level-match", """
                {"source": {"volts": 1}, "input": {"maxVolts": 4}, "targetVolts": 5}""")).containsExactly("/targetVolts inconsistent");
    }
}
