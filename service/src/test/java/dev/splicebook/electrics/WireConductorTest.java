package dev.splicebook.electrics;

import static dev.splicebook.electrics.ConductorMaterial.CCA_10;
import static dev.splicebook.electrics.ConductorMaterial.CCA_15;
import static dev.splicebook.electrics.ConductorMaterial.COPPER;
import static dev.splicebook.electrics.ConductorMaterial.TINNED_COPPER;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.electrics.WireConductor.Basis;
import dev.splicebook.guard.InvalidValueException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class WireConductorTest {

    // diameters and areas computed from the law of ASTM B258 (from memory); ohms per 1000 ft of solid copper at 20 °C
    // as
    // Floyd's table prints them, after NBS Handbook 100; those at 25, 50 and 75 °C computed by the 234.5 °C offset
    @ParameterizedTest
    @CsvSource({
        "4/0, 11.684, 107.22, 0.0490, 0.04998, 0.05479, 0.05961",
        "2/0, 9.266, 67.43, 0.0780, 0.07947, 0.08712, 0.09478",
        "1/0, 8.252, 53.48, 0.0983, 0.1002, 0.1099, 0.1195",
        "2, 6.544, 33.63, 0.1563, 0.1593, 0.1747, 0.1900",
        "4, 5.189, 21.15, 0.2485, 0.2534, 0.2778, 0.3022",
        "6, 4.115, 13.30, 0.3951, 0.4028, 0.4417, 0.4805",
        "8, 3.264, 8.366, 0.6282, 0.6405, 0.7023, 0.7640",
        "10, 2.588, 5.261, 0.9989, 1.018, 1.117, 1.215",
        "12, 2.053, 3.309, 1.588, 1.619, 1.776, 1.932",
        "14, 1.628, 2.081, 2.525, 2.575, 2.823, 3.071",
        "16, 1.291, 1.309, 4.016, 4.094, 4.489, 4.884",
        "18, 1.024, 0.8230, 6.385, 6.510, 7.138, 7.765",
        "20, 0.8118, 0.5176, 10.15, 10.35, 11.35, 12.35",
        "22, 0.6438, 0.3255, 16.14, 16.46, 18.05, 19.63",
        "24, 0.5106, 0.2047, 25.67, 26.17, 28.70, 31.22"
    })
    void reproducesTheTypedTable(
            String gauge, double mm, double mm2, double at20, double at25, double at50, double at75) {
        WireConductor wire = copper(gauge + " AWG");
        assertThat(wire.size().diameterMm()).as("mm of %s", gauge).isCloseTo(mm, within(mm * 0.0005));
        assertThat(wire.size().areaMm2()).as("mm² of %s", gauge).isCloseTo(mm2, within(mm2 * 0.0005));
        // the table's three or four digits, of which the last is not always rounded by the same figures
        assertKft(wire, 20, at20, 0.001);
        assertKft(wire, 25, at25, 0.001);
        assertKft(wire, 50, at50, 0.001);
        assertKft(wire, 75, at75, 0.001);
        // a public table heads the 20 °C column "25 °C"; whoever believed it would be 2 % off
        assertThat(wire.ohmsPer1000Feet(25)).as("ohms of %s at 25 °C", gauge).isGreaterThan(at20 * 1.015);
    }

    // NEC chapter 9 table 8 (secondary copy): stranded uncoated copper at 75 °C, ohms per 1000 ft
    @ParameterizedTest
    @CsvSource({
        "18, 7.95",
        "16, 4.99",
        "14, 3.14",
        "12, 1.98",
        "10, 1.24",
        "8, 0.778",
        "6, 0.491",
        "4, 0.308",
        "2, 0.194",
        "1/0, 0.122",
        "2/0, 0.0967",
        "4/0, 0.0608"
    })
    void comesToStrandedWireByTwoPercent(String gauge, double ohmsPer1000Feet) {
        ConductorSize size = new ConductorSize(gauge + " AWG");
        // the table's third digit is worth 0.5 % where it begins with 1 or 2
        assertKft(new WireConductor(size, COPPER, null, 2.0), 75, ohmsPer1000Feet, 0.007);
        assertThat(ohmsPer1000Feet / copper(gauge + " AWG").ohmsPer1000Feet(75))
                .as("stranded to solid")
                .isBetween(1.014, 1.026);
    }

    // FAA AC 43.13-1B table 11-9: greatest ohms per 1000 ft of tin-plated copper at 20 °C, with the circular mils that
    // the
    // table gives its wires, which are not those of the AWG law
    @ParameterizedTest
    @CsvSource({
        "24, 28.40, 475",
        "22, 16.20, 755",
        "20, 9.88, 1216",
        "18, 6.23, 1900",
        "16, 4.81, 2426",
        "14, 3.06, 3831",
        "12, 2.02, 5874",
        "10, 1.26, 9354",
        "8, 0.70, 16983",
        "6, 0.44, 26818",
        "4, 0.28, 42615",
        "2, 0.18, 66500",
        "0, 0.12, 104500"
    })
    void staysBelowThePublishedMaximaOfTinnedWire(String gauge, double maximum, double circularMils) {
        double mm2 = circularMils * Math.PI / 4 * 0.0254 * 0.0254;
        double resistivity = maximum / 304.8 * mm2;
        // a maximum holds the tin, the lay and the maker's tolerance: up to 13 % for the thinnest wire
        double share = resistivity / (TINNED_COPPER.resistivityOhmMm2PerMetre() * 1.02);
        assertThat(share).as("maximum to tinned %s AWG", gauge).isBetween(0.999, 1.27);
    }

    // IEC 60228 class 5 (secondary copy): greatest Ω/km at 20 °C of plain and tinned copper; one rendering calls them
    // minima
    @ParameterizedTest
    @CsvSource({
        "0.5, 39.0, 40.1",
        "0.75, 26.0, 26.7",
        "1, 19.5, 20.0",
        "1.5, 13.3, 13.7",
        "2.5, 7.98, 8.21",
        "4, 4.95, 5.09",
        "6, 3.30, 3.39",
        "10, 1.91, 1.95",
        "16, 1.21, 1.24",
        "25, 0.780, 0.795",
        "35, 0.554, 0.565",
        "50, 0.386, 0.393",
        "70, 0.272, 0.277",
        "95, 0.206, 0.210",
        "120, 0.161, 0.164",
        "150, 0.129, 0.132",
        "185, 0.106, 0.108"
    })
    void takesMetricSizesByTheirMaxima(double mm2, double plain, double tinned) {
        String size = mm2 == Math.rint(mm2) ? (int) mm2 + " mm2" : mm2 + " mm2";
        assertThat(copper(size).ohmsPerMetre(20) * 1000).as("Ω/km").isCloseTo(plain, within(1e-9));
        assertThat(of(size, TINNED_COPPER).ohmsPerMetre(20) * 1000).as("Ω/km").isCloseTo(tinned, within(1e-9));
        assertThat(copper(size).basis()).isEqualTo(Basis.IEC_60228);
        // what they are called matters: solid copper of the area resists less, so they can only be maxima
        assertThat(plain / 1000).isGreaterThan(WireConductor.ohmsPerMetre(0.017241, mm2));
    }

    // ISO 6722-1, greatest mΩ/m at 20 °C, from memory: another standard for wire of vehicles, within 6 % of ours
    @ParameterizedTest
    @CsvSource({
        "0.35, 52.0",
        "0.5, 37.1",
        "0.75, 24.7",
        "1, 18.5",
        "1.5, 12.7",
        "2.5, 7.60",
        "4, 4.71",
        "6, 3.14",
        "10, 1.82",
        "16, 1.16",
        "25, 0.743"
    })
    void agreesWithWireOfVehicles(String mm2, double milliohmsPerMetre) {
        double ours = copper(mm2 + " mm2").ohmsPerMetre(20) * 1000;
        assertThat(ours).as("mΩ/m of %s mm²", mm2).isCloseTo(milliohmsPerMetre, within(milliohmsPerMetre * 0.06));
    }

    // SAE J1128 least areas in mm², from memory: automotive gauges may be up to 15 % thinner than the law
    @ParameterizedTest
    @CsvSource({"20, 0.508", "18, 0.760", "16, 1.12", "14, 1.85", "12, 2.91", "10, 4.65", "8, 7.23"})
    void isThickerThanTheLeastOfAutomotiveWire(String gauge, double leastMm2) {
        assertThat(leastMm2 / new ConductorSize(gauge + " AWG").areaMm2())
                .as("least to law")
                .isBetween(0.85, 0.99);
    }

    @Test
    void takesOtherMetricSizesByTheirArea() {
        assertThat(copper("0.35 mm2").ohmsPerMetre(20)).isCloseTo(0.017241 / 0.35, within(1e-12));
        assertThat(copper("0.35 mm2").basis()).isEqualTo(Basis.AREA);
        assertThat(copper("8 AWG").basis()).isEqualTo(Basis.AREA);
        assertThat(new ConductorSize("2.5 mm2").diameterMm()).isCloseTo(1.784, within(0.001));
    }

    @Test
    void resistsMoreWhereAluminiumIsInside() {
        // ASTM B566: at least 62.9 and 64.4 % IACS; greatest resistivity from those minima, and from memory 0.02743 and
        // 0.02676 Ω·mm²/m
        assertThat(CCA_10.resistivityOhmMm2PerMetre()).isCloseTo(0.02741, within(5e-6));
        assertThat(CCA_15.resistivityOhmMm2PerMetre()).isCloseTo(0.02677, within(5e-6));
        assertThat(CCA_10.resistivityOhmMm2PerMetre()).isCloseTo(0.02743, within(3e-5));
        assertThat(CCA_15.resistivityOhmMm2PerMetre()).isCloseTo(0.02676, within(3e-5));
        assertThat(of("8 AWG", CCA_10).ohmsPerMetre(20) / copper("8 AWG").ohmsPerMetre(20))
                .isCloseTo(1 / 0.629, within(1e-9));
        assertThat(of("10 mm2", CCA_15).ohmsPerMetre(20) / copper("10 mm2").ohmsPerMetre(20))
                .isCloseTo(1 / 0.644, within(1e-9));
    }

    @Test
    void growsWithTemperatureByTheOffset() {
        // 254.5 °C and 234.5 °C + T2 (FAA AC 43.13-1B chapter 11); 0.00393 per kelvin at 20 °C (from memory) is the
        // same
        assertThat(COPPER.resistanceFactor(75)).isCloseTo((234.5 + 75) / 254.5, within(1e-12));
        assertThat(COPPER.resistanceFactor(21) - 1).isCloseTo(0.00393, within(5e-6));
        assertThat(COPPER.resistanceFactor(20)).isEqualTo(1);
        assertThat(CCA_10.resistanceFactor(100)).isGreaterThan(COPPER.resistanceFactor(100));
    }

    @Test
    void takesAResistivityOfItsOwn() {
        WireConductor wire = new WireConductor(new ConductorSize("10 mm2"), COPPER, 0.02, null);
        assertThat(wire.ohmsPerMetre(20)).isCloseTo(0.002, within(1e-12));
        assertThat(wire.basis()).isEqualTo(Basis.OWN_RESISTIVITY);
        // for equal heat the current goes by the root of the resistivity: 80 A for 10 mm² (row of 8 AWG) at 105 °C
        assertThat(wire.allowableAmps(105, 30)).isCloseTo(80 * Math.sqrt(0.017241 / 0.02), within(1e-9));
    }

    @Test
    void isLinearInLength() {
        WireConductor wire = copper("12 AWG");
        assertThat(wire.ohms(30, 40)).isCloseTo(3 * wire.ohms(10, 40), within(1e-12));
        assertThat(wire.ohmsPer1000Feet(40)).isCloseTo(wire.ohms(304.8, 40), within(1e-12));
    }

    @ParameterizedTest
    @ValueSource(doubles = {0, -0.02, 1.01, Double.NaN})
    void refusesAResistivityOutOfRange(double resistivity) {
        assertThatExceptionOfType(InvalidValueException.class)
                .isThrownBy(() -> new WireConductor(new ConductorSize("8 AWG"), null, resistivity, null));
    }

    private static WireConductor copper(String size) {
        return of(size, COPPER);
    }

    private static WireConductor of(String size, ConductorMaterial material) {
        return WireConductor.of(new ConductorSize(size), material);
    }

    private static void assertKft(WireConductor wire, double celsius, double expected, double share) {
        assertThat(wire.ohmsPer1000Feet(celsius))
                .as("ohms per 1000 ft of %s at %s °C", wire.size(), celsius)
                .isCloseTo(expected, within(expected * share));
    }
}
