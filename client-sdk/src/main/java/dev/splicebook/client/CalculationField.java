package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonAnySetter;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/**
 * An input or a result of a calculation.
 *
 * @param name its path, like {@code conductor.size}, {@code loads[].amps} or {@code nodes{}.volts}
 * @param about what it is
 * @param type number, whole-number, text, choice, truth, length, size, object, list or map; more may come
 * @param unit symbol of the unit; absent where it has none
 * @param least least value; absent if there is none
 * @param aboveLeast whether the least value itself is refused
 * @param most greatest value; absent if there is none
 * @param leastEntries fewest entries of a list or map; absent if it may be empty
 * @param mostEntries most entries of a list or map; absent for any other
 * @param required whether it must be given
 * @param usual what is taken where it is left out; absent if nothing is
 * @param choices what it may be, where it is a choice
 * @param kind the kind of entry that has it, where entries differ by kind
 * @param more fields that this version does not know
 */
public record CalculationField(
        String name,
        String about,
        String type,
        @Nullable String unit,
        @Nullable Double least,
        @Nullable Boolean aboveLeast,
        @Nullable Double most,
        @Nullable Integer leastEntries,
        @Nullable Integer mostEntries,
        boolean required,
        @Nullable String usual,
        List<String> choices,
        @Nullable String kind,
        @JsonAnySetter Map<String, JsonNode> more) {

    public CalculationField {
        Require.text("name", name);
        Require.present("about", about);
        Require.text("type", type);
        choices = Require.listOrEmpty(choices);
        more = Require.mapOrEmpty(more);
    }
}
