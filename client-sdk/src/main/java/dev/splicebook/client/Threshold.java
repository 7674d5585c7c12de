package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonAnySetter;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/**
 * A figure that a rule compares with, and that a firm may set.
 *
 * @param name of rule and figure, like {@code fuse-too-far.mostMetres}
 * @param rule code of the rule
 * @param value in force, in {@code unit}
 * @param isSet whether the firm has set it
 * @param ownValue what the rule comes with
 * @param unit absent for a ratio
 * @param least that may be set
 * @param most that may be set
 * @param reason why the rule comes with its figure
 * @param more fields that this version does not know
 */
public record Threshold(
        String name,
        String rule,
        double value,
        boolean isSet,
        double ownValue,
        @Nullable String unit,
        double least,
        double most,
        String reason,
        @JsonAnySetter Map<String, JsonNode> more) {

    public Threshold {
        Require.text("name", name);
        Require.text("rule", rule);
        Require.present("reason", reason);
        more = Require.mapOrEmpty(more);
    }
}
