package dev.splicebook.hookup;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import dev.splicebook.guard.InvalidValueException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class VinPatternTest {

    @ParameterizedTest
    @CsvSource({
        "5ZZ, 5ZZAA1KA7L0000017, true",
        "5ZZAA1KA7L0000017, 5ZZAA1KA7L0000017, true",
        "5ZZAA1KA7L0000018, 5ZZAA1KA7L0000017, false",
        "5ZZ??1?A, 5ZZAA1KA7L0000017, true",
        "5ZZ??2?A, 5ZZAA1KA7L0000017, false",
        "?ZZA, 5ZZAA1KA7L0000017, true",
        "5ZZA????????????7, 5ZZAA1KA7L0000017, true",
        "5ZZA????????????8, 5ZZAA1KA7L0000017, false",
        "ZZA, 5ZZAA1KA7L0000017, false",
        "5ZZA, 5ZZ, false",
    })
    void matchesWhatBeginsSo(String pattern, String vin, boolean matches) {
        assertThat(new VinPattern(pattern).matches(vin)).isEqualTo(matches);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {"", "5Z", "5ZZAA1KA7L0000017X", "5zz", "5Z-", "5ZI", "5ZO", "5ZQ", "5Z ", "???", "5Z???", "%ZZZ"
            })
    void refusesWhatIsNone(String text) {
        assertThatExceptionOfType(InvalidValueException.class)
                .isThrownBy(() -> new VinPattern(text))
                .satisfies(
                        refused -> assertThat(refused.invalids().get(0).code()).isEqualTo("bad-form"));
    }

    @Test
    void quotesOnlyTheBeginningOfALongText() {
        assertThatExceptionOfType(InvalidValueException.class)
                .isThrownBy(() -> new VinPattern("A".repeat(5000)))
                .satisfies(refused -> assertThat(refused.getMessage()).hasSizeLessThan(200));
    }
}
