package dev.splicebook.electrics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.guard.InvalidValueException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class LengthTest {

    // the inch is 25.4 mm and the foot 12 inches by definition
    @ParameterizedTest
    @CsvSource({"1, M, 1", "45, CM, 0.45", "100, MM, 0.1", "18, FT, 5.4864", "18, IN, 0.4572", "7, IN, 0.1778"})
    void knowsItsMetres(double value, LengthUnit unit, double metres) {
        assertThat(new Length(value, unit).metres()).isCloseTo(metres, within(1e-9));
    }

    @Test
    void isSaidAsItWasMeasured() {
        assertThat(new Length(18, LengthUnit.FT)).hasToString("18 ft");
        assertThat(new Length(2.5, LengthUnit.M)).hasToString("2.5 m");
    }

    @Test
    void reachesAThousandMetresInAnyUnit() {
        assertThat(new Length(1000, LengthUnit.M).metres()).isEqualTo(1000);
        assertThat(new Length(1_000_000, LengthUnit.MM).metres()).isCloseTo(1000, within(1e-9));
        assertRefused(1000.1, LengthUnit.M);
        assertRefused(3281, LengthUnit.FT);
    }

    @ParameterizedTest
    @ValueSource(doubles = {0, -1, Double.NaN, Double.POSITIVE_INFINITY})
    void refusesWhatIsNoLength(double value) {
        assertRefused(value, LengthUnit.M);
    }

    private static void assertRefused(double value, LengthUnit unit) {
        assertThatExceptionOfType(InvalidValueException.class)
                .isThrownBy(() -> new Length(value, unit))
                .satisfies(refusal -> assertThat(refusal.invalids())
                        .singleElement()
                        .satisfies(fault -> assertThat(fault.pointer()).isEqualTo("/value")));
    }
}
