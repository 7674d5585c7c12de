package dev.splicebook.electrics;

import static dev.splicebook.electrics.ConductorMaterial.CCA_10;
import static dev.splicebook.electrics.ConductorMaterial.CCA_15;
import static dev.splicebook.electrics.ConductorMaterial.COPPER;
import static dev.splicebook.electrics.ConductorMaterial.TINNED_COPPER;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class AmpacityTest {

    // 33 CFR 183.425 table 5: amperes for insulation of 60, 75, 80, 90, 105, 125 and 200 °C at 30 °C ambient
    @ParameterizedTest
    @CsvSource({
        "18 AWG, 10, 10, 15, 20, 20, 25, 25",
        "16 AWG, 15, 15, 20, 25, 25, 30, 35",
        "14 AWG, 20, 20, 25, 30, 35, 40, 45",
        "12 AWG, 25, 25, 35, 40, 45, 50, 55",
        "10 AWG, 40, 40, 50, 55, 60, 70, 70",
        "8 AWG, 55, 65, 70, 70, 80, 90, 100",
        "6 AWG, 80, 95, 100, 100, 120, 125, 135",
        "4 AWG, 105, 125, 130, 135, 160, 170, 180",
        "3 AWG, 120, 145, 150, 155, 180, 195, 210",
        "2 AWG, 140, 170, 175, 180, 210, 225, 240",
        "1 AWG, 165, 195, 210, 210, 245, 265, 280",
        "0 AWG, 195, 230, 245, 245, 285, 305, 325",
        "2/0 AWG, 225, 265, 285, 285, 330, 355, 370",
        "3/0 AWG, 260, 310, 330, 330, 385, 410, 430",
        "4/0 AWG, 300, 360, 385, 385, 445, 475, 510"
    })
    void givesThePublishedTable(
            String size, double at60, double at75, double at80, double at90, double at105, double at125, double at200) {
        assertAmps(amps(size, 60), at60);
        assertAmps(amps(size, 75), at75);
        assertAmps(amps(size, 80), at80);
        assertAmps(amps(size, 90), at90);
        assertAmps(amps(size, 105), at105);
        assertAmps(amps(size, 125), at125);
        assertAmps(amps(size, 200), at200);
    }

    // factors of NEC 310.15(B)(1), from a secondary copy, each at the upper end of its range
    @ParameterizedTest
    @CsvSource({
        "60, 35, 0.91",
        "60, 40, 0.82",
        "60, 45, 0.71",
        "60, 50, 0.58",
        "60, 55, 0.41",
        "75, 35, 0.94",
        "75, 40, 0.88",
        "75, 45, 0.82",
        "75, 50, 0.75",
        "75, 55, 0.67",
        "75, 60, 0.58",
        "90, 35, 0.96",
        "90, 40, 0.91",
        "90, 45, 0.87",
        "90, 50, 0.82",
        "90, 55, 0.76",
        "90, 60, 0.71"
    })
    void correctsForTheAmbient(double insulationCelsius, double ambientCelsius, double factor) {
        assertThat(Ampacity.ambientFactor(insulationCelsius, ambientCelsius)).isCloseTo(factor, within(0.006));
    }

    @Test
    void correctsForAnEngineSpace() {
        // 33 CFR 183.425 note 1, 50 °C: 0.85 for 105 °C insulation (secondary copy); 0.58, 0.75, 0.82 and 0.89 for 60,
        // 75,
        // 90 and 125 °C (from memory)
        assertThat(Ampacity.ambientFactor(105, 50)).isCloseTo(0.85, within(0.01));
        assertThat(Ampacity.ambientFactor(60, 50)).isCloseTo(0.58, within(0.01));
        assertThat(Ampacity.ambientFactor(75, 50)).isCloseTo(0.75, within(0.01));
        assertThat(Ampacity.ambientFactor(90, 50)).isCloseTo(0.82, within(0.01));
        assertThat(Ampacity.ambientFactor(125, 50)).isCloseTo(0.89, within(0.01));
        assertAmps(Ampacity.allowableAmps(new ConductorSize("8 AWG"), COPPER, 105, 50), 68.51);
    }

    @Test
    void bearsNothingWhereTheAmbientReachesTheInsulation() {
        assertAmps(Ampacity.allowableAmps(new ConductorSize("8 AWG"), COPPER, 105, 105), 0);
        assertAmps(Ampacity.allowableAmps(new ConductorSize("8 AWG"), COPPER, 105, 130), 0);
    }

    @Test
    void takesTheThinnerRowForASizeBetweenTwo() {
        // 2.5 mm² lies between 14 AWG (2.08) and 12 AWG (3.31), 10 mm² between 8 AWG (8.37) and 6 AWG (13.30)
        assertAmps(amps("2.5 mm2", 105), 35);
        assertAmps(amps("10 mm2", 105), 80);
        assertAmps(amps("5 AWG", 105), 120);
        assertAmps(amps("150 mm2", 105), 445);
    }

    @Test
    void takesTheLowerColumnForInsulationBetweenTwo() {
        assertAmps(amps("10 AWG", 104.9), 55);
        assertAmps(amps("10 AWG", 110), 60);
        assertAmps(amps("10 AWG", 250), 70);
    }

    @Test
    void neverGivesAThinnerConductorMore() {
        double before = 0;
        for (double mm2 = 0.05; mm2 < 120; mm2 += 0.05) {
            double amps = amps("%.2f mm2".formatted(mm2), 105);
            assertThat(amps).as("amperes of %.2f mm²", mm2).isGreaterThanOrEqualTo(before);
            before = amps;
        }
    }

    @Test
    void scalesBelowTheTableByArea() {
        // the table ends at 18 AWG, 20 A with 105 °C insulation; 0.5176 of 0.8230 mm² is 62.9 % of it (ASTM B258 areas)
        assertAmps(amps("20 AWG", 105), 12.58);
    }

    @Test
    void givesCopperCladAluminiumLess() {
        // ASTM B566 classes, 62.9 and 64.4 % IACS; for equal heat the current goes by the root of the conductivity
        assertAmps(Ampacity.allowableAmps(new ConductorSize("8 AWG"), CCA_10, 105, 30), 63.45);
        assertAmps(Ampacity.allowableAmps(new ConductorSize("8 AWG"), CCA_15, 105, 30), 64.20);
        assertAmps(Ampacity.allowableAmps(new ConductorSize("8 AWG"), TINNED_COPPER, 105, 30), 80);
    }

    @Test
    void refusesInsulationBelowTheTable() {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> amps("8 AWG", 59.9))
                .withMessageContaining("59.9");
        assertThatIllegalArgumentException().isThrownBy(() -> amps("8 AWG", Double.NaN));
    }

    @Test
    void heatsByTheSquareOfTheCurrent() {
        // worked example of FAA AC 43.13-1B chapter 11: 20 A in a wire that bears 26 A at 50 °C with 200 °C insulation.
        // Its
        // formula, with the root of the current (root from memory), would give 181.6 °C, and the handbook itself says
        // that
        // it is quite conservative; heat goes by I²·R, so it is 138.8 °C
        double celsius = Ampacity.conductorCelsius(50, 200, 20, 26);
        assertThat(celsius).isCloseTo(138.76, within(0.01));
        assertThat(50 + 150 * Math.sqrt(20.0 / 26))
                .isCloseTo(181.6, within(0.05))
                .isGreaterThan(celsius);
        assertThat(Ampacity.conductorCelsius(50, 200, 26, 26)).as("full load").isEqualTo(200);
        assertThat(Ampacity.conductorCelsius(50, 200, 0, 26)).as("no load").isEqualTo(50);
    }

    @Test
    void comesToTheSameHeatByTheTableAndByTheAmbientsAmpacity() {
        // the closed form of the ambient factors rests on the same law: what the corrected ampacity says of the
        // temperature,
        // the rise at 30 °C says too
        for (double ambient = -20; ambient < 100; ambient += 7) {
            double amps = amps("8 AWG", 105);
            double here = Ampacity.allowableAmps(new ConductorSize("8 AWG"), COPPER, 105, ambient);
            assertThat(Ampacity.conductorCelsius(ambient, 105, 25, here) - ambient)
                    .isCloseTo(Ampacity.conductorCelsius(30, 105, 25, amps) - 30, within(1e-9));
        }
    }

    @Test
    void knowsBundles() {
        // 33 CFR 183.425 note 2 (secondary copy), which it applies from 50 V on only
        assertThat(Ampacity.bundleFactor(1)).isEqualTo(1);
        assertThat(Ampacity.bundleFactor(2)).isEqualTo(1);
        assertThat(Ampacity.bundleFactor(3)).isEqualTo(0.70);
        assertThat(Ampacity.bundleFactor(4)).isEqualTo(0.60);
        assertThat(Ampacity.bundleFactor(6)).isEqualTo(0.60);
        assertThat(Ampacity.bundleFactor(7)).isEqualTo(0.50);
        assertThat(Ampacity.bundleFactor(24)).isEqualTo(0.50);
        assertThat(Ampacity.bundleFactor(25)).isEqualTo(0.40);
    }

    @Test
    void takesARatingAsTheColumnBelowIt() {
        assertThat(Ampacity.ratedCelsius(105)).isEqualTo(105);
        assertThat(Ampacity.ratedCelsius(110)).isEqualTo(105);
        assertThat(Ampacity.ratedCelsius(250)).isEqualTo(200);
    }

    private static double amps(String size, double insulationCelsius) {
        return Ampacity.allowableAmps(
                new ConductorSize(size), COPPER, insulationCelsius, Ampacity.TABLE_AMBIENT_CELSIUS);
    }

    private static void assertAmps(double amps, double expected) {
        assertThat(amps).as("amperes").isCloseTo(expected, within(0.02));
    }
}
