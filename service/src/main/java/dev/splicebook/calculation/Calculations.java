package dev.splicebook.calculation;

import dev.splicebook.web.Fault;
import dev.splicebook.web.Problems;
import dev.splicebook.web.StrictReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.ServiceLoader;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.springframework.stereotype.Service;
import tools.jackson.databind.JsonNode;

/** Every calculation of the running version. */
@Service
public class Calculations {

    private static final Set<String> BESIDE_RESULTS = Set.of("assumptions", "working", "sources", "cautions");

    private final Map<String, Calculation> byName;

    public Calculations() {
        byName = ServiceLoader.load(Calculation.class, Calculation.class.getClassLoader()).stream()
                .map(ServiceLoader.Provider::get)
                .collect(Collectors.toMap(
                        calculation -> about(calculation).name(),
                        calculation -> calculation,
                        (one, other) -> {
                            throw new IllegalStateException(
                                    "two calculations are called " + about(one).name());
                        },
                        TreeMap::new));
        if (byName.isEmpty()) {
            throw new IllegalStateException("no calculation is registered");
        }
    }

    /** By name. */
    public List<CalculationPage> listPages() {
        return byName.values().stream().map(Calculations::page).toList();
    }

    public Optional<CalculationPage> findPage(String name) {
        return findCalculation(name).map(Calculations::page);
    }

    public Optional<Calculation> findCalculation(String name) {
        return Optional.ofNullable(byName.get(name));
    }

    /**
     * The answer to a question as it was sent.
     *
     * @throws dev.splicebook.web.ProblemException 404 for a name that is none, 400 for a body that is no such question, 422
     *     for a question without an answer
     */
    public Answer answer(String name, JsonNode question) {
        Calculation calculation = findCalculation(name).orElseThrow(() -> Problems.notFound("calculation " + name));
        try {
            return calculation.answer(StrictReader.shape(question, calculation.question()));
        } catch (NoAnswerException none) {
            throw Problems.unprocessable(
                    none.detail(),
                    none.figures().stream()
                            .map(figure -> Fault.at(figure.pointer(), figure.code(), figure.detail()))
                            .toList());
        }
    }

    /**
     * A question that can be sent as it is.
     *
     * @throws IllegalStateException if the calculation has none
     */
    public JsonNode example(String name) {
        String file = "examples/" + name + ".json";
        try (InputStream in = Calculations.class.getResourceAsStream(file)) {
            if (in == null) {
                throw new IllegalStateException("the calculation " + name + " has no " + file);
            }
            return StrictReader.parse(in.readAllBytes());
        } catch (IOException unreadable) {
            throw new UncheckedIOException(unreadable);
        }
    }

    private static CalculationPage page(Calculation calculation) {
        AboutCalculation about = about(calculation);
        List<String> cautions = new ArrayList<>(Arrays.asList(about.cautions()));
        cautions.add(Cautions.GENERAL);
        return new CalculationPage(
                about.name(),
                about.purpose(),
                about.method(),
                FieldPage.of(calculation.question()),
                FieldPage.of(calculation.answer()).stream()
                        .filter(field -> BESIDE_RESULTS.stream()
                                .noneMatch(name -> field.name().equals(name)
                                        || field.name().startsWith(name + "[]")))
                        .toList(),
                Arrays.asList(about.sources()),
                cautions);
    }

    private static AboutCalculation about(Calculation calculation) {
        AboutCalculation about = calculation.getClass().getAnnotation(AboutCalculation.class);
        if (about == null) {
            throw new IllegalStateException(calculation.getClass() + " says nothing of itself: annotate it");
        }
        return about;
    }
}
