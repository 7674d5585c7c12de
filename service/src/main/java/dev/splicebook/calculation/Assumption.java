package dev.splicebook.calculation;

import dev.splicebook.web.Fact;
import io.swagger.v3.oas.annotations.media.Schema;
import org.jspecify.annotations.Nullable;

/** A default that was used because the question left it open. */
@Schema(name = "CalculationAssumption", description = "A default that was used because the question left it open.")
public record Assumption(
        @Fact("the input it stands for, or what was taken for granted")
        String name,

        @Fact("the figure taken, where it is one") @Nullable Double value,
        @Fact("its unit") @Nullable String unit,

        @Fact("the choice taken, where it is none of numbers") @Nullable
        String choice,

        @Fact("what it was used for, and where it comes from")
        String about) {}
