package dev.splicebook.function;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import dev.splicebook.guard.Invalid;
import dev.splicebook.guard.InvalidValueException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class ColourTest {

    /** The letters of IEC 60757, from memory. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "BK", "BN", "RD", "OG", "YE", "GN", "BU", "VT", "GY", "WH", "PK", "GD", "TQ", "SR", "GNYE", "WH/BK"
            })
    void takesTheLettersOfTheStandard(String text) {
        assertThat(new Colour(text)).hasToString(text);
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "/", "WH/", "/BK", "WH BK", "WH-BK", "bk", "WH/BK/RD", "YELLOW", "XX"})
    void refusesAnythingElse(String text) {
        assertThatExceptionOfType(InvalidValueException.class)
                .isThrownBy(() -> new Colour(text))
                .withMessageContaining("BK BN RD OG YE GN BU VT GY WH PK GD TQ SR GNYE")
                .satisfies(refused ->
                        assertThat(refused.invalids()).extracting(Invalid::code).containsOnly("unknown-colour"));
    }

    @Test
    void saysWhichLettersStandForAWord() {
        assertThatExceptionOfType(InvalidValueException.class)
                .isThrownBy(() -> new Colour("blue/BK"))
                .withMessageContaining("colour \"blue\" is no letter code of IEC 60757, BU stands for blue");
        assertThatExceptionOfType(InvalidValueException.class)
                .isThrownBy(() -> new Colour("WH/Gray"))
                .withMessageContaining("GY stands for grey");
    }

    @Test
    void namesEachWrongPart() {
        assertThatExceptionOfType(InvalidValueException.class)
                .isThrownBy(() -> new Colour("red/white"))
                .satisfies(refused -> assertThat(refused.invalids()).hasSize(2));
    }

    @Test
    void speaksOfBaseAndStripe() {
        assertThat(new Colour("WH/BK").words()).isEqualTo("white with black stripe");
        assertThat(new Colour("GNYE").words()).isEqualTo("green and yellow");
    }
}
