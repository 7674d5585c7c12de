package dev.splicebook.calculation.trade;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.calculation.Asked;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

class AmplifierDrawCalculationTest {

    @Test
    void drawsByTheEfficiency() {
        JsonNode answer = Asked.answer("amplifier-draw", """
                {"channels": [{"count": 2, "watts": 100}], "efficiency": 0.5, "supplyVolts": 12.5}""");

        // P = U·I: 200 W given, 400 W drawn
        assertThat(answer.path("currentAmps").doubleValue()).isCloseTo(32, within(1e-9));
        assertThat(answer.path("heatWatts").doubleValue()).isCloseTo(200, within(1e-9));
        assertThat(answer.path("assumptions").findValuesAsString("name"))
                .contains("programme", "length", "series", "material", "body", "ambientCelsius");
    }

    @Test
    void drawsByTheClassAndProgramme() {
        JsonNode d = Asked.answer("amplifier-draw", """
                {"channels": [{"count": 1, "watts": 500}], "class": "d", "programme": "sine", "supplyVolts": 14.4}""");
        // class D at least 90 % near full power, as textbooks publish
        assertThat(d.path("currentAmps").doubleValue()).isCloseTo(500 / 0.9 / 14.4, within(1e-9));

        JsonNode music = Asked.answer("amplifier-draw", """
                {"channels": [{"count": 1, "watts": 500}], "class": "d", "programme": "one-eighth"}""");
        assertThat(music.path("efficiency").doubleValue()).isBetween(0.5, 0.8);
        assertThat(music.path("assumptions").findValuesAsString("name"))
                .contains("idleShare", "fullPowerEfficiency", "supplyVolts");
        assertThat(music.path("sineAmps").doubleValue()).isCloseTo(500 / 0.9 / 14.4, within(1e-9));

        JsonNode a = Asked.answer("amplifier-draw", """
                {"channels": [{"count": 4, "watts": 20}], "class": "a", "programme": "one-eighth"}""");
        assertThat(a.path("supplyWatts").doubleValue()).isCloseTo(320, within(1e-9));
    }

    @Test
    void hasAWireAndAFuseFollow() {
        JsonNode answer = Asked.answer("amplifier-draw", """
                {"channels": [{"count": 4, "watts": 75}, {"count": 1, "watts": 300}], "class": "d", "supplyVolts": 13.8,
                 "length": {"value": 5, "unit": "m"}, "returnPath": "chassis"}""");

        double amps = answer.path("currentAmps").doubleValue();
        assertThat(amps).isCloseTo(600 / 0.9 / 13.8, within(1e-9));
        double fuse = answer.path("fuse").path("ratingAmps").doubleValue();
        assertThat(fuse * 0.75).isGreaterThan(amps);
        assertThat(fuse)
                .isLessThanOrEqualTo(answer.path("wire").path("allowableAmps").doubleValue());
        assertThat(answer.path("wire").path("dropVolts").doubleValue()).isLessThan(0.03 * 13.8);
        assertThat(answer.path("wire").path("size").stringValue()).isEqualTo("6 AWG");
        assertThat(answer.path("fuse").path("body").stringValue()).isEqualTo("maxi");
    }

    @Test
    void fusesMusicForAFullNote() {
        JsonNode answer = Asked.answer("amplifier-draw", """
                {"channels": [{"count": 1, "watts": 600}], "class": "ab", "programme": "one-eighth",
                 "supplyVolts": 12}""");

        // class B about 50 % at full power, as textbooks publish: 100 A in a note, and the root of an eighth of it on
        // average
        assertThat(answer.path("sineAmps").doubleValue()).isCloseTo(100, within(1e-9));
        assertThat(answer.path("currentAmps").doubleValue()).isCloseTo(100 * Math.sqrt(0.125), within(1e-9));
        assertThat(answer.path("fuse").path("ratingAmps").doubleValue()).isGreaterThanOrEqualTo(100);
        assertThat(answer.path("wire").path("allowableAmps").doubleValue())
                .isGreaterThanOrEqualTo(answer.path("fuse").path("ratingAmps").doubleValue());
    }

    @Test
    void saysThatNoSingleWireServes() {
        JsonNode answer = Asked.answer("amplifier-draw", """
                {"channels": [{"count": 2, "watts": 5000}], "class": "ab"}""");

        assertThat(answer.has("wire")).isFalse();
        assertThat(answer.has("fuse")).isFalse();
        assertThat(answer.path("cautions").toString()).contains("No single wire");
    }

    @Test
    void refusesWhatIsWrong() {
        assertThat(Asked.faults("amplifier-draw", """
                {"channels": [{"count": 2, "watts": 100}]}""")).containsExactly("/class missing-field");
        assertThat(Asked.faults("amplifier-draw", """
                {"channels": [{"count": 2, "watts": 100}], "class": "ab", "efficiency": 0.6}""")).containsExactly("/efficiency either-or");
        assertThat(Asked.faults("amplifier-draw", """
                {"channels": [{"count": 0, "watts": -5}], "efficiency": 1.2, "class": "z"}"""))
                .hasSize(4)
                .contains("/channels/0/count out-of-range", "/channels/0/watts out-of-range");
        assertThat(Asked.faults("amplifier-draw", """
                {"channels": [], "class": "ab"}""")).containsExactly("/channels too-few");
    }
}
