package dev.splicebook.electrics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.guard.InvalidValueException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class ConductorSizeTest {

    // areas of ASTM B258 gauges: the law from memory, the figures computed from it
    @ParameterizedTest
    @CsvSource({
        "4/0 AWG, 107.22",
        "2/0 AWG, 67.43",
        "1/0 AWG, 53.48",
        "2 AWG, 33.63",
        "4 AWG, 21.15",
        "6 AWG, 13.30",
        "8 AWG, 8.366",
        "10 AWG, 5.261",
        "12 AWG, 3.309",
        "14 AWG, 2.081",
        "16 AWG, 1.309",
        "18 AWG, 0.8230",
        "20 AWG, 0.5176",
        "22 AWG, 0.3255",
        "24 AWG, 0.2047"
    })
    void knowsTheAreaOfAGauge(String size, double mm2) {
        assertMm2(new ConductorSize(size), mm2);
    }

    @Test
    void countsGaugesAboveZeroBackwards() {
        // by definition 0 AWG and 1/0 AWG are one size, and three gauges thicker is about twice the area
        assertThat(new ConductorSize("0 AWG").areaMm2()).isEqualTo(new ConductorSize("1/0 AWG").areaMm2());
        assertThat(new ConductorSize("4/0 AWG").areaMm2() / new ConductorSize("1/0 AWG").areaMm2())
                .isCloseTo(2.005, within(0.001));
    }

    @Test
    void takesMetricSizesAsTheyAreWritten() {
        assertMm2(new ConductorSize("2.5 mm2"), 2.5);
        assertMm2(new ConductorSize("0.35 mm2"), 0.35);
        assertMm2(new ConductorSize("25 mm2"), 25);
    }

    @ParameterizedTest
    @ValueSource(strings = {"40 AWG", "0.01 mm2", "200 mm2"})
    void acceptsTheEndsOfItsRange(String size) {
        assertThat(new ConductorSize(size)).hasToString(size);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "8",
                "8AWG",
                "8 awg",
                "AWG 8",
                "41 AWG",
                "-1 AWG",
                "5/0 AWG",
                "0/0 AWG",
                "08 AWG",
                "8.5 AWG",
                "0 mm2",
                "0.009 mm2",
                "200.1 mm2",
                "2,5 mm2",
                "2.5 mm²",
                "2.5mm2",
                "NaN mm2",
                "1e1 mm2",
                " 8 AWG"
            })
    void refusesWhatIsNoSize(String text) {
        assertThatExceptionOfType(InvalidValueException.class)
                .isThrownBy(() -> new ConductorSize(text))
                .satisfies(refusal -> assertThat(refusal.invalids())
                        .singleElement()
                        .satisfies(fault -> assertThat(fault.code()).isEqualTo("unknown-size")));
    }

    private static void assertMm2(ConductorSize size, double mm2) {
        assertThat(size.areaMm2()).as("mm² of %s", size).isCloseTo(mm2, within(mm2 * 0.0005));
    }
}
