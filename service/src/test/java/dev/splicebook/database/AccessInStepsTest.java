package dev.splicebook.database;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.AccessStep;
import dev.splicebook.hookup.Device;
import dev.splicebook.web.StrictReader;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class AccessInStepsTest {

    @ParameterizedTest
    @CsvSource(delimiter = '|', quoteCharacter = '\u0000', textBlock = """
                    {"connectors":{"C1":{"access":"Pull the \\"trim\\" \\u00e4","pinCount":16}},"x":1.50} | {"connectors":{"C1":{"access":[{"panel":"Pull the \\"trim\\" \\u00e4"}],"pinCount":16}},"x":1.50}
                    {"connectors":{"A":{"access":"one"},"access":{"access":"two"}}}                       | {"connectors":{"A":{"access":[{"panel":"one"}]},"access":{"access":[{"panel":"two"}]}}}
                    """)
    void makesTheTextOneStep(String old, String now) {
        assertThat(AccessInSteps.inSteps(old)).isEqualTo(now);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "{\"connectors\":{\"C1\":{\"access\":[{\"panel\":\"trim\"}]}}}",
                "{\"settings\":{\"connectors\":{\"choices\":{\"access\":\"yes\"}}},\"notes\":\"\\\"access\\\":\\\"x\\\"\"}",
                "{\"access\":\"x\",\"connectors\":{\"C1\":{\"name\":\"access\",\"face\":{\"access\":\"x\"}}}}",
                "{}",
            })
    void leavesEverythingElse(String document) {
        assertThat(AccessInSteps.inSteps(document)).isEqualTo(document);
    }

    @Test
    void putsALongTextWhereThereIsRoom() {
        String text = "Undo the clip. ".repeat(20).strip();

        assertThat(stepsOf(text)).containsExactly(new AccessStep("see how", null, null, text, null));
    }

    @Test
    void dividesTheLongestTextsBetweenWords() {
        String text = "Undo the clip \ud83d\udd27 twice. ".repeat(160).strip();

        List<AccessStep> steps = stepsOf(text);

        assertThat(steps).hasSizeBetween(4, 8).allMatch(step -> step.panel().equals("see how"));
        assertThat(String.join(
                        " ",
                        steps.stream()
                                .map(step -> Objects.requireNonNull(step.how()))
                                .toList()))
                .isEqualTo(text);
    }

    @Test
    void dividesATextWithoutWordsBetweenCharacters() {
        String text = "a" + "\ud83d\udd27".repeat(1900);

        assertThat(String.join(
                        "",
                        stepsOf(text).stream()
                                .map(step -> Objects.requireNonNull(step.how()))
                                .toList()))
                .isEqualTo(text);
    }

    @Test
    void findsThePlacesInADocumentOfAnyLength() {
        String notes = "\"notes\":\"" + "long \u00e4 ".repeat(1400) + "\"";
        String terminals = "\"terminals\":{" + "\"T\":{\"note\":\"" + "n".repeat(1900) + "\"}";
        StringBuilder many = new StringBuilder(terminals);
        for (int i = 0; i < 60; i++) {
            many.append(",\"T")
                    .append(i)
                    .append("\":{\"note\":\"")
                    .append("\u00f6".repeat(1900))
                    .append("\"}");
        }
        String old = "{" + many + "}," + notes
                + ",\"connectors\":{\"C1\":{\"access\":\"trim\"},\"C2\":{\"access\":\"lid\"}}}";

        assertThat(AccessInSteps.inSteps(old))
                .isEqualTo(
                        old.replace("\"trim\"", "[{\"panel\":\"trim\"}]").replace("\"lid\"", "[{\"panel\":\"lid\"}]"));
    }

    private static List<AccessStep> stepsOf(String text) {
        String old = "{\"connectors\":{\"C1\":{\"access\":\"" + text + "\"}}}";
        Device device = StrictReader.read(AccessInSteps.inSteps(old), Device.class);
        return Objects.requireNonNull(device.connectors().get("C1")).access();
    }
}
