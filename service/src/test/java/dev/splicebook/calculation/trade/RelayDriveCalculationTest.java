package dev.splicebook.calculation.trade;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.calculation.Asked;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

class RelayDriveCalculationTest {

    @Test
    void decaysThroughADiode() {
        JsonNode answer = Asked.answer("relay-drive", """
                {"coilVolts": 12, "coilOhms": 80, "supplyVolts": 12, "inductanceHenries": 0.2, "clamp": "diode",
                 "driverLimitAmps": 0.5}""");

        // simulated, with a plain diode: 150.0 mA at opening, 49.06 mA after one time constant of 2.5 ms
        assertThat(answer.path("tauMilliseconds").doubleValue()).isCloseTo(2.5, within(1e-12));
        JsonNode diode = answer.path("flyback").path(0);
        assertThat(diode.path("clamp").stringValue()).isEqualTo("diode");
        assertThat(amps(diode, 0)).isCloseTo(0.1500, within(1e-9));
        assertThat(amps(diode, 1)).isCloseTo(0.04906, within(0.0001));
        assertThat(diode.path("driverVolts").doubleValue()).isBetween(12.6, 12.9);
        assertThat(answer.path("canDrive").booleanValue()).isTrue();
        assertThat(answer.path("driverMargin").doubleValue()).isCloseTo(0.5 / 0.15, within(1e-9));
    }

    @Test
    void takesADiodesDropThatIsGiven() {
        JsonNode answer = Asked.answer("relay-drive", """
                {"coilOhms": 80, "supplyVolts": 12, "inductanceHenries": 0.2, "clamp": "diode", "diodeVolts": 0.7}""");

        // (I + v/R)/e − v/R, worked by hand
        assertThat(amps(answer.path("flyback").path(0), 1)).isCloseTo(0.0496509, within(1e-7));
        assertThat(answer.path("assumptions").toString()).doesNotContain("diodeVolts");
    }

    @Test
    void flashesOverWithoutAClamp() {
        JsonNode answer = Asked.answer("relay-drive", """
                {"coilOhms": 80, "supplyVolts": 12, "inductanceHenries": 0.2, "clamp": "none"}""");

        // published: 1000 to 1500 V for an unsuppressed 12 V relay coil
        assertThat(answer.path("flyback").path(0).path("coilVolts").doubleValue())
                .isBetween(1000.0, 1500.0 + 1e-9);
        assertThat(answer.path("cautions").toString()).contains("diode across the coil");
    }

    @Test
    void letsGoFasterWithAResistorThanWithADiode() {
        JsonNode answer = Asked.answer("relay-drive", """
                {"coilOhms": 80, "supplyVolts": 12, "clamp": "resistor", "resistorOhms": 400}""");

        JsonNode resistor = answer.path("flyback").path(0);
        // 150 mA along 400 Ω, on top of 12 V; 12/80 + 12/400 A through the output
        assertThat(resistor.path("driverVolts").doubleValue()).isCloseTo(72, within(1e-9));
        assertThat(answer.path("driverAmps").doubleValue()).isCloseTo(0.18, within(1e-12));
        JsonNode diode = answer.path("flyback").path(2);
        assertThat(diode.path("clamp").stringValue()).isEqualTo("diode");
        assertThat(resistor.path("releaseMilliseconds").doubleValue())
                .isLessThan(diode.path("releaseMilliseconds").doubleValue() / 3);
        assertThat(answer.path("assumptions").toString()).contains("inductanceHenries");
    }

    @Test
    void cannotDriveMoreThanItsLimit() {
        JsonNode answer = Asked.answer("relay-drive", """
                {"coilOhms": 80, "driverLimitAmps": 0.15}""");

        // 14.2 V across 80 Ω: 177.5 mA
        assertThat(answer.path("coilAmps").doubleValue()).isCloseTo(0.1775, within(1e-12));
        assertThat(answer.path("canDrive").booleanValue()).isFalse();
    }

    @Test
    void pullsInLateWhenHot() {
        String question = """
                {"coilOhms": 80, "coilCelsius": %s, "lowSupplyVolts": 9}""";

        assertThat(Asked.answer("relay-drive", question.formatted(20))
                        .path("pullInVolts")
                        .doubleValue())
                .isCloseTo(7.2, within(1e-9));
        assertThat(Asked.answer("relay-drive", question.formatted(20))
                        .path("pullsIn")
                        .booleanValue())
                .isTrue();
        // zero-resistance offset of 234.5 °C: FAA AC 43.13-1B chapter 11
        assertThat(Asked.answer("relay-drive", question.formatted(120))
                        .path("pullInVolts")
                        .doubleValue())
                .isCloseTo(7.2 * 354.5 / 254.5, within(1e-9));
        assertThat(Asked.answer("relay-drive", question.formatted(120))
                        .path("pullsIn")
                        .booleanValue())
                .isFalse();
    }

    @Test
    void judgesTheContact() {
        // half of a contact's rating for lamps: common practice, no source
        String question = """
                {"coilOhms": 80, "contactLoad": "lamp", "contactLoadAmps": %s, "contactRatingAmps": 30}""";

        JsonNode fits = Asked.answer("relay-drive", question.formatted(15));
        assertThat(fits.path("contactBears").booleanValue()).isTrue();
        assertThat(fits.path("contactMargin").doubleValue()).isCloseTo(1, within(1e-12));
        assertThat(fits.path("contactInrushAmps").doubleValue()).isCloseTo(150, within(1e-9));
        assertThat(Asked.answer("relay-drive", question.formatted(15.1))
                        .path("contactBears")
                        .booleanValue())
                .isFalse();
        assertThat(Asked.answer("relay-drive", """
                {"coilOhms": 80}""").has("contactBears")).isFalse();
    }

    @Test
    void wantsLoadAndRatingTogether() {
        assertThat(Asked.faults("relay-drive", """
                {"coilOhms": 80, "contactLoadAmps": 5}""")).containsExactly("/contactRatingAmps missing-field");
        assertThat(Asked.faults("relay-drive", """
                {"coilOhms": 80, "contactRatingAmps": 5}""")).containsExactly("/contactLoadAmps missing-field");
    }

    @Test
    void refusesWhatLiesOutside() {
        assertThat(Asked.faults("relay-drive", """
                {"coilOhms": -80, "supplyVolts": 5000, "clamp": "varistor"}"""))
                .containsExactly("/coilOhms out-of-range", "/supplyVolts out-of-range", "/clamp unknown-value");
        assertThat(Asked.faults("relay-drive", "{}")).containsExactly("/coilOhms missing-field");
    }

    private static double amps(JsonNode flyback, int taus) {
        return flyback.path("decay").path(taus).path("amps").doubleValue();
    }
}
