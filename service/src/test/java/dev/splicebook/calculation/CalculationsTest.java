package dev.splicebook.calculation;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.annotation.JsonSubTypes;
import dev.splicebook.web.Fact;
import dev.splicebook.web.ProblemException;
import dev.splicebook.web.StrictReader;
import java.io.IOException;
import java.lang.reflect.ParameterizedType;
import java.lang.reflect.RecordComponent;
import java.lang.reflect.Type;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tools.jackson.databind.JsonNode;

/** What holds of every calculation, those added later too. */
class CalculationsTest {

    private static final Calculations CALCULATIONS = new Calculations();
    private static final Path EXAMPLES = Path.of("..", "api-examples", "calculations");
    private static final int QUESTIONS = 400;

    /** The ends of a name that say a unit, and its symbol. */
    private static final Map<String, String> UNITS = units();

    private static Map<String, String> units() {
        Map<String, String> units = new LinkedHashMap<>();
        units.put("OhmsPerMetre", "Ω/m");
        units.put("Per1000Feet", "Ω/1000 ft");
        units.put("OhmMm2PerMetre", "Ω·mm²/m");
        units.put("Microfarads", "µF");
        units.put("Millihenries", "mH");
        units.put("Millivolts", "mV");
        units.put("Milliamps", "mA");
        units.put("Milliohms", "mΩ");
        units.put("Microseconds", "µs");
        units.put("Milliseconds", "ms");
        units.put("Nanoseconds", "ns");
        units.put("Decibels", "dB");
        units.put("AmpereHours", "Ah");
        units.put("Volts", "V");
        units.put("Amps", "A");
        units.put("Watts", "W");
        units.put("Ohms", "Ω");
        units.put("Hertz", "Hz");
        units.put("Farads", "F");
        units.put("Henries", "H");
        units.put("Celsius", "°C");
        units.put("Mm2", "mm²");
        units.put("Mm", "mm");
        units.put("Metres", "m");
        units.put("Percent", "%");
        units.put("Seconds", "s");
        units.put("Minutes", "min");
        units.put("Hours", "h");
        units.put("Days", "d");
        units.put("Degrees", "°");
        return units;
    }

    static Stream<String> names() {
        return CALCULATIONS.listPages().stream().map(CalculationPage::name);
    }

    static Stream<Path> examples() throws IOException {
        try (Stream<Path> files = Files.list(EXAMPLES)) {
            return files.filter(file -> file.toString().endsWith(".json")).sorted().toList().stream();
        }
    }

    @ParameterizedTest
    @MethodSource("examples")
    void answersEachExample(Path example) throws IOException {
        String name = example.getFileName().toString().replaceFirst("\\..*", "");

        JsonNode answer = Asked.answer(name, StrictReader.parse(Files.readAllBytes(example)));

        assertThat(answer.path("working").size()).as("steps of " + example).isPositive();
    }

    @ParameterizedTest
    @MethodSource("names")
    void saysWhatItIs(String name) {
        CalculationPage page = CALCULATIONS.findPage(name).orElseThrow();

        assertThat(name).matches("[a-z0-9]+(-[a-z0-9]+)*");
        assertThat(page.purpose()).endsWith(".");
        assertThat(page.method()).endsWith(".");
        assertThat(page.sources()).isNotEmpty().noneMatch(String::isBlank);
        assertThat(page.inputs()).isNotEmpty();
        assertThat(page.results()).isNotEmpty();
        assertThat(CALCULATIONS.example(name).isObject()).isTrue();
    }

    @ParameterizedTest
    @MethodSource("names")
    void declaresEveryField(String name) {
        Calculation calculation = CALCULATIONS.findCalculation(name).orElseThrow();
        List<String> lacking = new ArrayList<>();

        judge(calculation.question(), name, true, lacking);
        judge(calculation.answer(), name, false, lacking);

        assertThat(lacking).as("see @Fact").isEmpty();
    }

    /** Random questions: an answer in finite figures whose steps can be recomputed, a 400 or a 422. */
    @ParameterizedTest
    @MethodSource("names")
    void answersOrRefusesWhateverIsAsked(String name) {
        Calculation calculation = CALCULATIONS.findCalculation(name).orElseThrow();
        RandomQuestion random = new RandomQuestion(new Random(name.hashCode()));
        for (int i = 0; i < QUESTIONS; i++) {
            JsonNode question = random.of(calculation.question());
            try {
                JsonNode answer = Asked.answer(name, question);
                assertThat(nulls(answer, "")).as(name + " " + question).isEmpty();
            } catch (ProblemException refused) {
                assertThat(refused.type().status()).as(refused.getMessage()).isIn(400, 422);
                assertThat(refused.errors()).as(name + " " + question).isNotEmpty();
            } catch (RuntimeException | AssertionError failed) {
                throw new AssertionError(name + " fails on " + question, failed);
            }
        }
    }

    @Test
    void knowsNoOther() {
        assertThat(CALCULATIONS.findCalculation("astrology")).isEmpty();
    }

    /** Where an answer holds null, which is what is written for what is no number. */
    private static List<String> nulls(JsonNode node, String at) {
        List<String> found = new ArrayList<>();
        if (node.isNull()) {
            found.add(at);
        } else if (node.isNumber() && !Double.isFinite(node.doubleValue())) {
            found.add(at);
        }
        node.properties().forEach(entry -> found.addAll(nulls(entry.getValue(), at + "/" + entry.getKey())));
        for (int i = 0; node.isArray() && i < node.size(); i++) {
            found.addAll(nulls(node.get(i), at + "/" + i));
        }
        return found;
    }

    private static void judge(Class<?> type, String at, boolean asked, List<String> lacking) {
        JsonSubTypes kinds = type.getAnnotation(JsonSubTypes.class);
        if (kinds != null) {
            for (JsonSubTypes.Type kind : kinds.value()) {
                judge(kind.value(), at + "/" + kind.name(), asked, lacking);
            }
            return;
        }
        if (!type.isRecord() || !type.getName().startsWith("dev.splicebook.calculation")) {
            return;
        }
        for (RecordComponent component : type.getRecordComponents()) {
            String name = component.getName();
            if (Answer.class.isAssignableFrom(type)
                    && Set.of("assumptions", "working", "sources", "cautions").contains(name)) {
                continue;
            }
            String place = at + "/" + name;
            Fact fact = component.getAccessor().getAnnotation(Fact.class);
            if (fact == null) {
                lacking.add(place + " says nothing of itself");
                continue;
            }
            boolean number = isNumber(component.getGenericType());
            UNITS.entrySet().stream()
                    .filter(unit -> number && endsWith(name, unit.getKey()))
                    .findFirst()
                    .filter(unit -> !fact.unit().equals(unit.getValue()))
                    .ifPresent(
                            unit -> lacking.add(place + " has the unit " + fact.unit() + ", not " + unit.getValue()));
            if (number && asked && (Double.isInfinite(fact.least()) || Double.isInfinite(fact.most()))) {
                lacking.add(place + " has no range");
            }
            if (asked && isMany(component.getGenericType()) && fact.mostEntries() == Integer.MAX_VALUE) {
                lacking.add(place + " may have any number of entries");
            }
            below(component.getGenericType()).forEach(each -> judge(each, place, asked, lacking));
        }
    }

    private static boolean endsWith(String name, String unit) {
        return name.endsWith(unit) || name.equals(Character.toLowerCase(unit.charAt(0)) + unit.substring(1));
    }

    private static boolean isNumber(Type type) {
        if (type instanceof ParameterizedType generic) {
            Type[] entries = generic.getActualTypeArguments();
            return isNumber(entries[entries.length - 1]);
        }
        return Set.of(double.class, Double.class, int.class, Integer.class).contains(type);
    }

    private static boolean isMany(Type type) {
        return type instanceof ParameterizedType;
    }

    private static Stream<Class<?>> below(Type type) {
        if (type instanceof ParameterizedType generic) {
            Type[] entries = generic.getActualTypeArguments();
            return below(entries[entries.length - 1]);
        }
        return Stream.of((Class<?>) type);
    }
}
