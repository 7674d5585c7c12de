package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonValue;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.node.ObjectNode;

/**
 * What a pairing starts from: vehicle, parts, wishes and settings of a hookup, and what the shop likes to use. Connectors
 * that are unplugged in the hookup are, and no others; where none is, what to unplug is proposed.
 */
public final class PairingQuestion {

    private static final String[] TAKEN = {"vehicle", "parts", "wishes", "settings"};

    private final ObjectNode json;

    private PairingQuestion(ObjectNode json) {
        this.json = json;
    }

    /**
     * Vehicle, parts, wishes and settings of a hookup. What is joined in it already is left out, and so are its plugs and
     * its unused leads.
     */
    public static PairingQuestion of(Hookup hookup) {
        ObjectNode question = Json.emptyObject();
        for (String field : TAKEN) {
            if (hookup.json().has(field)) {
                question.set(field, hookup.json().get(field));
            }
        }
        return new PairingQuestion(question);
    }

    /** The same with what the shop likes to use. */
    public PairingQuestion preferring(Preferences preferences) {
        ObjectNode question = json.deepCopy();
        question.set("preferences", Json.tree(preferences));
        return new PairingQuestion(question);
    }

    /** A copy of the tree. */
    @JsonValue
    public ObjectNode json() {
        return json.deepCopy();
    }

    /** The question as JSON. */
    @Override
    public String toString() {
        return json.toString();
    }

    /**
     * What the shop likes to use.
     *
     * @param leastConductor the thinnest that is proposed for power, control lines and loudspeakers; absent for 18 AWG copper
     * @param spliceLength behind a panel, from lead to lead; absent for 25 cm
     * @param tapLength to a connector elsewhere; absent for 1.5 m
     * @param powerRunLength from the battery; absent for 5 m
     * @param alternatives how many are looked for, 0 to 5; absent for 3
     */
    @JsonInclude(JsonInclude.Include.NON_NULL)
    public record Preferences(
            Wire.@Nullable Conductor leastConductor,
            @Nullable Length spliceLength,
            @Nullable Length tapLength,
            @Nullable Length powerRunLength,
            @Nullable Integer alternatives) {}
}
