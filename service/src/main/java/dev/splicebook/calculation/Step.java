package dev.splicebook.calculation;

import dev.splicebook.web.Fact;
import io.swagger.v3.oas.annotations.media.Schema;
import java.math.BigDecimal;
import java.math.MathContext;
import java.util.List;

/**
 * One printed step, rounded for reading: whoever puts the numbers into the formula gets the value.
 *
 * @param words like "the drop is the current times the resistance"
 * @param formula symbol, equals sign, expression: numbers, π, symbols, {@code + - × / ^}, brackets, and the functions
 *     sqrt, exp, ln, log10, sin, cos, tan, atan, abs, min, max, floor, ceil, round
 * @param numbers what was put in, one for each symbol of the expression
 * @param value of the symbol before the equals sign
 */
@Schema(name = "CalculationStep", description = "One step of the working, rounded for reading.")
public record Step(
        @Fact("the formula in words") String words,
        @Fact("the formula in symbols") String formula,
        @Fact("what was put in, by symbol") List<Given> numbers,
        @Fact("what came out") double value,
        @Fact("its unit") String unit) {

    private static final MathContext READABLE = new MathContext(7);

    public Step {
        numbers = List.copyOf(numbers);
        value = readable(value);
    }

    /** A number that was put in, by the symbol that stands for it. */
    @Schema(name = "CalculationNumber", description = "A number that was put into a step.")
    public record Given(
            @Fact("symbol in the formula") String symbol,
            @Fact("the number, rounded for reading") double value,
            @Fact("its unit") String unit) {

        public Given {
            value = readable(value);
        }
    }

    private static double readable(double value) {
        return Double.isFinite(value) ? new BigDecimal(value).round(READABLE).doubleValue() : value;
    }
}
