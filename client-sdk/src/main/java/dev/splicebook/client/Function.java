package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonAnySetter;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/**
 * What a wire can be for: one entry of the vocabulary.
 *
 * @param id dotted, like {@code audio.line.front-left.signal}
 * @param kind the branch it stands in; more may come
 * @param what what such a wire is for, one sentence
 * @param test how it is usually tested with a meter; for what is never probed, that it is left alone
 * @param din72552 its terminal number in DIN 72552, like {@code 58d}; absent where it has none
 * @param iso10487 its pin in an ISO 10487 connector, like {@code A4}, to be metered; absent where it has none
 * @param leadColour the customary aftermarket lead colour, like {@code WH/BK}; absent where there is no custom
 * @param caution what to beware of; absent where there is nothing of its own
 * @param fedBy the functions that may feed this one besides itself and what stands above and below it; empty means no
 *     other, absent means that nothing is stated
 * @param more fields that this version does not know
 */
public record Function(
        String id,
        String kind,
        String what,
        String test,
        @Nullable String din72552,
        @Nullable String iso10487,
        @Nullable String leadColour,
        @Nullable String caution,
        @Nullable List<String> fedBy,
        @JsonAnySetter Map<String, JsonNode> more) {

    public Function {
        Require.text("id", id);
        Require.text("kind", kind);
        Require.present("what", what);
        Require.present("test", test);
        fedBy = fedBy == null ? null : List.copyOf(fedBy);
        more = Require.mapOrEmpty(more);
    }
}
