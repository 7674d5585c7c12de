package dev.splicebook.function;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * One entry of the vocabulary.
 *
 * @param id its id
 * @param kind the branch it stands in
 * @param what what such a wire is for, one sentence
 * @param test how it is usually tested with a meter; for what is never probed, that it is left alone
 * @param din72552 its terminal number in DIN 72552, like {@code 58d}; null where it has none
 * @param iso10487 its pin in an ISO 10487 car-radio connector, like {@code A4}; by convention, to be metered. Null where
 *     it has none
 * @param leadColour the customary aftermarket lead colour, common practice; null where there is no custom
 * @param caution what to beware of; null where there is nothing of its own
 * @param fedBy the functions that may feed this one besides itself and what stands above and below it, each with all
 *     below it; empty means no other, null means that nothing is stated
 */
public record Function(
        FunctionId id,
        FunctionKind kind,
        String what,
        String test,
        @Nullable String din72552,
        @Nullable String iso10487,
        @Nullable Colour leadColour,
        @Nullable String caution,
        @Nullable List<FunctionId> fedBy) {

    public Function {
        fedBy = fedBy == null ? null : List.copyOf(fedBy);
    }
}
