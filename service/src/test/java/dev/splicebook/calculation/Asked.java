package dev.splicebook.calculation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.web.JsonWriting;
import dev.splicebook.web.ProblemException;
import dev.splicebook.web.StrictReader;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Questions to calculations as they come over HTTP, without the HTTP; every answer's working is worked out anew. */
public final class Asked {

    private static final Calculations CALCULATIONS = new Calculations();
    private static final JsonMapper MAPPER = JsonWriting.mapper();

    private Asked() {}

    /** The answer as JSON, after its printed steps were recomputed. */
    public static JsonNode answer(String name, String question) {
        return answer(name, StrictReader.parse(question.getBytes(StandardCharsets.UTF_8)));
    }

    static JsonNode answer(String name, JsonNode question) {
        Answer answer = CALCULATIONS.answer(name, question);
        answer.working().forEach(Asked::recompute);
        assertThat(answer.sources()).as("sources of " + name).isNotEmpty();
        assertThat(answer.cautions()).as("cautions of " + name).contains(Cautions.GENERAL);
        return MAPPER.valueToTree(answer);
    }

    /** Pointers and codes of what is wrong with a question, like {@code "/ohms out-of-range"}, after status 400. */
    public static List<String> faults(String name, String question) {
        return refused(name, question, 400);
    }

    /** Pointers and codes of the figures that show why a good question has no answer, after status 422. */
    public static List<String> noAnswer(String name, String question) {
        return refused(name, question, 422);
    }

    private static List<String> refused(String name, String question, int status) {
        try {
            Answer answer = CALCULATIONS.answer(name, StrictReader.parse(question.getBytes(StandardCharsets.UTF_8)));
            throw new AssertionError("answered, and not refused: " + MAPPER.writeValueAsString(answer));
        } catch (ProblemException problem) {
            assertThat(problem.type().status()).as(problem.getMessage()).isEqualTo(status);
            assertThat(problem.detail()).isNotBlank();
            return problem.errors().stream()
                    .map(fault -> fault.pointer() + " " + fault.code())
                    .toList();
        }
    }

    /** Puts the printed numbers into the printed formula; they are rounded to seven digits, so the value may be off by that. */
    static void recompute(Step step) {
        Map<String, Double> numbers = new LinkedHashMap<>();
        step.numbers().forEach(number -> numbers.put(number.symbol(), number.value()));
        assertThat(numbers).as("symbols of " + step).hasSameSizeAs(step.numbers());
        double value = Formula.value(step.formula(), numbers);
        double tolerance = 1e-6 * Math.abs(step.value()) + 1e-12;
        for (Map.Entry<String, Double> number : numbers.entrySet()) {
            Map<String, Double> shifted = new LinkedHashMap<>(numbers);
            shifted.put(number.getKey(), number.getValue() * (1 + 1e-6));
            tolerance += Math.abs(Formula.value(step.formula(), shifted) - value);
        }
        assertThat(step.value()).as("recomputed " + step).isCloseTo(value, within(tolerance));
        assertThat(step.words()).as("words of " + step).isNotBlank();
    }
}
