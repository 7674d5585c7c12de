package dev.splicebook.calculation.trade;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.calculation.Asked;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

class FuseCalculationTest {

    @Test
    void fitsBetweenLoadAndConductor() {
        JsonNode answer = Asked.answer("fuse", """
                {"continuousAmps": 15, "conductor": {"size": "12 AWG", "material": "copper"}, "body": "regular"}""");

        // continuous load of 75 %, as makers publish: 20 A, which is yellow; 33 CFR 183.425 table 5: 45 A, 183.455:
        // half more
        assertThat(answer.path("ratingAmps").doubleValue()).isEqualTo(20);
        assertThat(answer.path("colour").stringValue()).isEqualTo("yellow");
        assertThat(answer.path("leastAmps").doubleValue()).isCloseTo(20, within(1e-9));
        assertThat(answer.path("mostAmps").doubleValue()).isEqualTo(45);
        assertThat(answer.path("regulationMostAmps").doubleValue()).isEqualTo(67.5);
        assertThat(answer.path("opensAtOnceAmps").doubleValue()).isEqualTo(120);
        assertThat(answer.path("options").size()).isEqualTo(4);
        assertThat(answer.path("placement").toString())
                .contains("\"value\":7,\"unit\":\"in\"", "\"value\":40", "common practice, no source");
        assertThat(answer.path("assumptions").findValuesAsString("name"))
                .contains("ambientCelsius", "reratingPercentPerKelvin", "peakAmps", "limit", "insulationCelsius");
    }

    @Test
    void callsOneColourDifferentlyInAnotherBody() {
        JsonNode answer = Asked.answer("fuse", """
                {"continuousAmps": 35, "conductor": {"size": "8 AWG"}, "body": "maxi"}""");

        // maxi colours from memory: 50 A red, where the regular body's red is 10 A
        assertThat(answer.path("ratingAmps").doubleValue()).isEqualTo(50);
        assertThat(answer.path("colour").stringValue()).isEqualTo("red");
        assertThat(answer.has("opensAtOnceAmps")).isFalse();
    }

    @Test
    void knowsNoColourOfABoltDownFuse() {
        JsonNode answer = Asked.answer("fuse", """
                {"continuousAmps": 90, "conductor": {"size": "2 AWG"}, "body": "bolt-down"}""");

        assertThat(answer.path("ratingAmps").doubleValue()).isEqualTo(125);
        assertThat(answer.has("colour")).isFalse();
    }

    @Test
    void bearsLessWhereItIsHot() {
        JsonNode answer = Asked.answer("fuse", """
                {"continuousAmps": 15, "conductor": {"size": "10 AWG"}, "ambientCelsius": 85, "body": "regular"}""");

        // 0.15 % a kelvin, from memory
        assertThat(answer.path("reratingFactor").doubleValue()).isCloseTo(0.91, within(1e-12));
        assertThat(answer.path("ratingAmps").doubleValue()).isEqualTo(25);
        // the conductor is as warm: √(20/75) of the 60 A of 33 CFR 183.425 table 5, and 12 AWG would bear too little
        assertThat(answer.path("mostAmps").doubleValue()).isCloseTo(60 * Math.sqrt(20.0 / 75), within(1e-9));
        assertThat(Asked.noAnswer("fuse", """
                {"continuousAmps": 15, "conductor": {"size": "12 AWG"}, "ambientCelsius": 85, "body": "regular"}""")).contains("/conductor/size no-fuse-fits");
    }

    @Test
    void holdsAnInrushAgainstTheGates() {
        JsonNode answer = Asked.answer("fuse", """
                {"continuousAmps": 6, "conductor": {"size": "12 AWG"}, "body": "mini",
                 "inrush": {"amps": 30, "seconds": 0.1}}""");

        // ISO 8820-3 gates (secondary copy): 300 % of 10 A falls between gates, 200 % of 15 A holds 0.15 s
        assertThat(answer.path("ratingAmps").doubleValue()).isEqualTo(15);
        assertThat(answer.path("inrush").stringValue()).isEqualTo("holds");
        assertThat(answer.path("options").get(0).path("inrush").stringValue()).isEqualTo("may-open");
    }

    @Test
    void saysWhyNoneFitsAndWhatWould() {
        assertThat(Asked.noAnswer("fuse", """
                {"continuousAmps": 16, "conductor": {"size": "18 AWG"}, "body": "regular"}"""))
                .containsExactly("/continuousAmps no-fuse-fits", "/conductor/size no-fuse-fits", "/body no-fuse-fits");
        assertThat(Asked.noAnswer("fuse", """
                {"continuousAmps": 6, "conductor": {"size": "18 AWG"}, "body": "mini",
                 "inrush": {"amps": 100, "seconds": 1}}""")).contains("/inrush no-fuse-fits");
    }

    @Test
    void allowsHalfMoreWhereAsked() {
        JsonNode answer = Asked.answer("fuse", """
                {"continuousAmps": 20, "conductor": {"size": "18 AWG"}, "body": "regular", "limit": "regulation"}""");

        assertThat(answer.path("ratingAmps").doubleValue()).isEqualTo(30);
    }

    @Test
    void refusesWhatIsWrong() {
        assertThat(Asked.faults("fuse", """
                {"continuousAmps": 10, "peakAmps": 5, "conductor": {"size": "8 AWG"}, "body": "regular",
                 "conductorAmbientCelsius": 120}"""))
                .containsExactlyInAnyOrder("/peakAmps inconsistent", "/conductorAmbientCelsius inconsistent");
        assertThat(Asked.faults("fuse", """
                {"continuousAmps": -1, "conductor": {"size": "8 gauge"}, "body": "glass",
                 "inrush": {"amps": 0}}"""))
                .hasSize(5)
                .contains("/continuousAmps out-of-range", "/conductor/size unknown-size", "/inrush/amps out-of-range");
        assertThat(Asked.faults("fuse", "{}"))
                .containsExactlyInAnyOrder("/continuousAmps missing-field", "/conductor missing-field");
    }
}
