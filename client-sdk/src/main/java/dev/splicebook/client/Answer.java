package dev.splicebook.client;

import com.fasterxml.jackson.annotation.JsonAnySetter;
import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * What a calculation answers: results by name, and how they came about. A result inside another is named by a JSON
 * pointer, like {@code /nodes/a/volts}.
 */
public final class Answer {

    private final ObjectNode json;
    private final List<Assumption> assumptions;
    private final List<Step> working;
    private final List<String> sources;
    private final List<String> cautions;

    private Answer(ObjectNode json) {
        this.json = json;
        this.assumptions = list("assumptions", Assumption.class);
        this.working = list("working", Step.class);
        this.sources = list("sources", String.class);
        this.cautions = list("cautions", String.class);
    }

    @JsonCreator(mode = JsonCreator.Mode.DELEGATING)
    static Answer of(JsonNode json) {
        return new Answer(Json.object("an answer", json));
    }

    private <T> List<T> list(String field, Class<T> type) {
        return json.path(field)
                .valueStream()
                .map(each -> Json.MAPPER.treeToValue(each, type))
                .toList();
    }

    /**
     * A result that is a number, in the unit that its name ends with.
     *
     * @throws IllegalArgumentException if there is no such result, or it is no number
     */
    public double number(String result) {
        JsonNode value = value(result);
        if (!value.isNumber()) {
            throw missing(result, "number");
        }
        return value.doubleValue();
    }

    /** As {@link #number}; empty if the result is absent or no number. */
    public Optional<Double> findNumber(String result) {
        JsonNode value = value(result);
        return value.isNumber() ? Optional.of(value.doubleValue()) : Optional.empty();
    }

    /**
     * A result that is a text, like a conductor size.
     *
     * @throws IllegalArgumentException if there is no such result, or it is no text
     */
    public String text(String result) {
        JsonNode value = value(result);
        if (!value.isString()) {
            throw missing(result, "text");
        }
        return value.stringValue();
    }

    /** As {@link #text}; empty if the result is absent or no text. */
    public Optional<String> findText(String result) {
        JsonNode value = value(result);
        return value.isString() ? Optional.of(value.stringValue()) : Optional.empty();
    }

    /**
     * A result that is true or false.
     *
     * @throws IllegalArgumentException if there is no such result, or it is neither
     */
    public boolean truth(String result) {
        JsonNode value = value(result);
        if (!value.isBoolean()) {
            throw missing(result, "true or false");
        }
        return value.booleanValue();
    }

    /**
     * All results in a type of the caller's, like a record with some of them as components; what it does not name is left
     * out.
     *
     * @throws IllegalArgumentException if the results do not fit the type
     */
    public <T> T as(Class<T> type) {
        try {
            return Json.MAPPER.treeToValue(json, type);
        } catch (tools.jackson.core.JacksonException e) {
            throw new IllegalArgumentException(
                    "the answer is no " + type.getSimpleName() + ": " + e.getOriginalMessage(), e);
        }
    }

    /** A copy of the whole answer. */
    @JsonValue
    public ObjectNode json() {
        return json.deepCopy();
    }

    /** Every default that was used, by name. */
    public List<Assumption> assumptions() {
        return assumptions;
    }

    /** How the results came about, step by step, rounded for reading. */
    public List<Step> working() {
        return working;
    }

    /** Where formulas and tables come from. */
    public List<String> sources() {
        return sources;
    }

    /** What to mind before acting on the figures. */
    public List<String> cautions() {
        return cautions;
    }

    private JsonNode value(String result) {
        Require.text("result", result);
        return result.startsWith("/") ? json.at(result) : json.path(result);
    }

    private IllegalArgumentException missing(String result, String wanted) {
        return new IllegalArgumentException(
                result + " is no " + wanted + " of this answer; its fields are " + json.propertyNames());
    }

    /** Equal if both say the same. */
    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof Answer answer && Json.meaning(json).equals(Json.meaning(answer.json));
    }

    @Override
    public int hashCode() {
        return Json.meaning(json).hashCode();
    }

    /** The answer as JSON. */
    @Override
    public String toString() {
        return json.toString();
    }

    /**
     * A default that was used because the question left it open.
     *
     * @param name the input it stands for, or what was taken for granted
     * @param value the figure taken; absent if it is a choice
     * @param unit of the figure; absent where it has none
     * @param choice the choice taken; absent if it is a figure
     * @param about what it was used for, and where it comes from
     * @param more fields that this version does not know
     */
    public record Assumption(
            String name,
            @Nullable Double value,
            @Nullable String unit,
            @Nullable String choice,
            String about,
            @JsonAnySetter Map<String, JsonNode> more) {

        public Assumption {
            Require.text("name", name);
            Require.present("about", about);
            more = Require.mapOrEmpty(more);
        }
    }

    /**
     * One step: whoever puts the numbers into the formula gets the value.
     *
     * @param words the formula in words
     * @param formula the formula in symbols
     * @param numbers what was put in
     * @param value what came out
     * @param unit of the value; empty where it has none
     * @param more fields that this version does not know
     */
    public record Step(
            String words,
            String formula,
            List<Given> numbers,
            double value,
            String unit,
            @JsonAnySetter Map<String, JsonNode> more) {

        public Step {
            Require.present("words", words);
            Require.present("formula", formula);
            numbers = Require.listOrEmpty(numbers);
            Require.present("unit", unit);
            more = Require.mapOrEmpty(more);
        }

        /** The step on one line, to print. */
        @Override
        public String toString() {
            return words + ": " + formula + " = " + value + (unit.isEmpty() ? "" : " " + unit);
        }
    }

    /**
     * A number that was put into a step.
     *
     * @param symbol in the formula
     * @param value rounded for reading
     * @param unit empty where it has none
     * @param more fields that this version does not know
     */
    public record Given(
            String symbol,
            double value,
            String unit,
            @JsonAnySetter Map<String, JsonNode> more) {

        public Given {
            Require.text("symbol", symbol);
            Require.present("unit", unit);
            more = Require.mapOrEmpty(more);
        }
    }
}
