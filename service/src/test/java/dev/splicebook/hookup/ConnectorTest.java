package dev.splicebook.hookup;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.splicebook.web.ProblemException;
import dev.splicebook.web.StrictReader;
import java.util.List;
import java.util.Objects;
import org.assertj.core.api.InstanceOfAssertFactories;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Connectors of vehicles and of devices alike, and the pins that they have. */
class ConnectorTest {

    private static final String FOUR_PINS = "{\"pinCount\": 4}";
    private static final String FACE_OF_FOUR =
            "{\"face\": {\"seenFrom\": \"wire-side\", \"rows\": 2, \"columns\": 2, \"numbering\": \"along-rows\"}}";
    private static final String LETTERED_FACE = """
            {"pinCount": 2, "face": {"seenFrom": "mating-side", "rows": 1, "columns": 3, "numbering": "listed",
                                     "pins": [["A", "", "9"]]}}
            """;

    @ParameterizedTest
    @ValueSource(strings = {"C1-1", "C1-4", "C1-04", "C1-0", "C1-A7", "C2-99"})
    void takesPinsUpToThePinCountAndThoseOfLettersAndOfOtherConnectors(String name) {
        assertThat(map(FOUR_PINS, name).circuits()).containsOnlyKeys(name);
        assertThat(device(FOUR_PINS, name).terminals()).containsOnlyKeys(name);
    }

    @ParameterizedTest
    @ValueSource(strings = {"C1-5", "C1-05", "C1-1000", "C1-12345678901234567890"})
    void refusesAPinBeyondThePinCount(String name) {
        assertRefused(FOUR_PINS, name, "beyond-pin-count");
    }

    @ParameterizedTest
    @ValueSource(strings = {"C1-5", "C1-A", "C1-01"})
    void refusesAPinThatTheFaceDoesNotHave(String name) {
        assertRefused(FACE_OF_FOUR, name, "not-on-face");
    }

    @Test
    void takesANumberBeyondThePinCountThatStandsOnTheFace() {
        assertThat(map(LETTERED_FACE, "C1-9").circuits()).containsOnlyKeys("C1-9");
        assertRefused(LETTERED_FACE, "C1-B", "not-on-face");
        assertRefused(LETTERED_FACE, "C1-3", "beyond-pin-count");
    }

    @Test
    void refusesTwoNamesOfOnePin() {
        assertThatThrownBy(() -> map("{}", "C1-7", "C1-07", "C1-007", "C1-70", "C2-7"))
                .asInstanceOf(InstanceOfAssertFactories.type(ProblemException.class))
                .satisfies(problem -> assertThat(problem.errors())
                        .extracting(error -> error.pointer() + " " + error.code())
                        .containsExactly("/circuits/C1-07 duplicate-pin", "/circuits/C1-007 duplicate-pin"));
        assertThatThrownBy(() -> device("{}", "C1-0", "C1-00"))
                .asInstanceOf(InstanceOfAssertFactories.type(ProblemException.class))
                .satisfies(problem -> assertThat(problem.errors())
                        .extracting(error -> error.pointer() + " " + error.code() + " " + error.detail())
                        .containsExactly("/terminals/C1-00 duplicate-pin C1-00 and C1-0 are one pin"));
    }

    @Test
    void takesTerminalsThatAreNumbersWithoutAConnector() {
        assertThat(device("{}", "30", "030", "86").terminals()).hasSize(3);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '`',
            value = {
                "{\"pinCount\": 5, \"face\": {\"seenFrom\": \"wire-side\", \"rows\": 2, \"columns\": 2, \"numbering\": \"along-rows\"}} | /pinCount | inconsistent",
                "{\"mates\": [\"two words\"]} | /mates | bad-form",
                "{\"location\": \"\"} | /location | bad-text",
                "{\"name\": \"\"} | /name | bad-text",
                "{\"access\": [{\"panel\": \" \"}]} | /access/0/panel | bad-text",
                "{\"access\": [{\"panel\": \"trim\", \"clips\": -1}]} | /access/0/clips | out-of-range",
                "{\"access\": [{\"panel\": \"trim\", \"clips\": 101}]} | /access/0/clips | out-of-range",
                "{\"access\": [{\"panel\": \"trim\", \"screws\": 101}]} | /access/0/screws | out-of-range",
                "{\"access\": [{\"panel\": \"trim\"}, {\"panel\": \"shroud\", \"caution\": \"\"}]} | /access/1/caution | bad-text",
                "{\"access\": [{\"panel\": \"trim\", \"how\": \"\"}]} | /access/0/how | bad-text",
            })
    void refusesWhatCannotBe(String json, String pointer, String code) {
        assertThatThrownBy(() -> StrictReader.read(json, Connector.class))
                .asInstanceOf(InstanceOfAssertFactories.type(ProblemException.class))
                .satisfies(problem -> assertThat(problem.errors())
                        .extracting(error -> error.pointer() + " " + error.code())
                        .containsExactly(pointer + " " + code));
    }

    @Test
    void keepsTheStepsOnTheWayToItInOrder() {
        Connector connector = StrictReader.read("""
                {"access": [{"panel": "ashtray", "clips": 0, "screws": 100},
                            {"panel": "centre trim", "clips": 100, "how": "towards you", "caution": "brittle when cold"}]}
                """, Connector.class);

        assertThat(connector.access())
                .isEqualTo(List.of(
                        new AccessStep("ashtray", 0, 100, null, null),
                        new AccessStep("centre trim", 100, null, "towards you", "brittle when cold")));
    }

    @Test
    void takesAsManyPinsAsTheFaceHasCavities() {
        Connector connector =
                Objects.requireNonNull(map(LETTERED_FACE).connectors().get("C1"));

        assertThat(connector.pinCount()).isEqualTo(2);
        assertThat(Objects.requireNonNull(connector.face()).cavities()).isEqualTo(2);
    }

    private static void assertRefused(String connector, String name, String code) {
        assertThatThrownBy(() -> map(connector, name))
                .asInstanceOf(InstanceOfAssertFactories.type(ProblemException.class))
                .satisfies(problem -> assertThat(problem.errors())
                        .extracting(error -> error.pointer() + " " + error.code())
                        .containsExactly("/circuits/" + name + " " + code));
        assertThatThrownBy(() -> device(connector, name))
                .asInstanceOf(InstanceOfAssertFactories.type(ProblemException.class))
                .satisfies(problem -> assertThat(problem.errors())
                        .extracting(error -> error.pointer() + " " + error.code())
                        .containsExactly("/terminals/" + name + " " + code));
    }

    private static FunctionMap map(String connector, String... circuits) {
        return StrictReader.read(document(connector, "circuits", circuits), FunctionMap.class);
    }

    private static Device device(String connector, String... terminals) {
        return StrictReader.read(document(connector, "terminals", terminals), Device.class);
    }

    private static String document(String connector, String field, String... names) {
        StringBuilder document =
                new StringBuilder("{\"connectors\": {\"C1\": " + connector + "}, \"" + field + "\": {");
        for (int at = 0; at < names.length; at++) {
            document.append(at == 0 ? "" : ", ").append('"').append(names[at]).append("\": {}");
        }
        return document.append("}}").toString();
    }
}
