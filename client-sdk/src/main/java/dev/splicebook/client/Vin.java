package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonAnySetter;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/**
 * What a vehicle identification number says by itself.
 *
 * @param vin the number, 17 characters in capitals
 * @param wmi the world manufacturer identifier, its first three characters
 * @param region where the manufacturer is, like {@code North America}; absent if its first character stands for none
 * @param modelYears those that its tenth character may stand for; may be empty
 * @param checkDigit what its ninth character says
 * @param more fields that this version does not know
 */
public record Vin(
        String vin,
        String wmi,
        @Nullable String region,
        List<Integer> modelYears,
        CheckDigit checkDigit,
        @JsonAnySetter Map<String, JsonNode> more) {

    public Vin {
        Require.text("vin", vin);
        Require.text("wmi", wmi);
        modelYears = Require.listOrEmpty(modelYears);
        Require.present("checkDigit", checkDigit);
        more = Require.mapOrEmpty(more);
    }
}
