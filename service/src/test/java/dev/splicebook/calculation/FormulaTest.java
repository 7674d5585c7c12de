package dev.splicebook.calculation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FormulaTest {

    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            value = {
                "x = 1 + 2 × 3; 7",
                "x = (1 + 2) × 3; 9",
                "x = 2^3^2; 512",
                "x = -2^2; -4",
                "x = 8 / 2 / 2; 2",
                "x = 10 - 4 − 3; 3",
                "x = sqrt(16) + min(3, 2, 5); 6",
                "x = 1.5e-3 × 2e3; 3",
                "x = 2 × π; 6.283185307"
            })
    void worksOut(String formula, double value) {
        assertThat(Formula.value(formula, Map.of())).isCloseTo(value, within(1e-9));
    }

    @Test
    void putsNumbersIn() {
        assertThat(Formula.value("U = I × R20", Map.of("I", 2.0, "R20", 3.0))).isEqualTo(6);
    }

    @Test
    void refusesWhatIsNoFormula() {
        for (String text :
                List.of("U", "U = ", "U = 2 +", "U = (2", "U = 2 2", "U = a", "U = tangens(2)", "U = 1 = 2")) {
            assertThatIllegalArgumentException().as(text).isThrownBy(() -> Formula.value(text, Map.of()));
        }
    }

    @Test
    void refusesANumberThatIsNotUsed() {
        assertThatIllegalArgumentException().isThrownBy(() -> Formula.value("U = 2", Map.of("I", 2.0)));
    }

    @Test
    void catchesAStepThatIsWrong() {
        Step wrong = new Step("twice", "U = 2 × I", List.of(Worksheet.given("I", 2, "A")), 4.001, "V");

        org.assertj.core.api.Assertions.assertThatThrownBy(() -> Asked.recompute(wrong))
                .isInstanceOf(AssertionError.class);
    }
}
