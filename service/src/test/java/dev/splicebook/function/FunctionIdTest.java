package dev.splicebook.function;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import dev.splicebook.guard.Invalid;
import dev.splicebook.guard.InvalidValueException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class FunctionIdTest {

    @ParameterizedTest
    @ValueSource(strings = {"power.battery", "audio.line.rear-entertainment", "lighting", "audio.speaker.centre.minus"})
    void takesIdsAndGroups(String text) {
        assertThat(new FunctionId(text)).hasToString(text);
    }

    @ParameterizedTest
    @ValueSource(strings = {"", " power.battery", "Power.battery", "power.", "power.bat", "audio.line.rear", "x\u0000"})
    void refusesWhatTheVocabularyLacks(String text) {
        assertThatExceptionOfType(InvalidValueException.class)
                .isThrownBy(() -> new FunctionId(text))
                .satisfies(refused ->
                        assertThat(refused.invalids()).extracting(Invalid::code).containsExactly("unknown-function"));
    }

    @Test
    void namesTheNearestFirst() {
        assertThatExceptionOfType(InvalidValueException.class)
                .isThrownBy(() -> new FunctionId("power.accesory"))
                .withMessageContaining("nearest: power.accessory");
        assertThatExceptionOfType(InvalidValueException.class)
                .isThrownBy(() -> new FunctionId("speaker.front-left.plus"))
                .withMessageContaining("nearest: audio.speaker.front-left.plus");
    }

    @Test
    void namesAtMostThreeAndNoneForWhatIsNearNothing() {
        assertThat(Vocabulary.nearestTo("audio.speaker.front-left.pluss")).hasSize(3);
        assertThat(Vocabulary.nearestTo("0123456789")).isEmpty();
        assertThat(Vocabulary.nearestTo("power.battery".repeat(100_000))).isEmpty();
    }

    @Test
    void quotesALongTextShortened() {
        assertThatExceptionOfType(InvalidValueException.class)
                .isThrownBy(() -> new FunctionId("z".repeat(1_000_000)))
                .satisfies(refused -> assertThat(refused.getMessage()).hasSizeLessThan(200));
    }

    @Test
    void standsBelowItsGroupAndNotBelowALikeName() {
        FunctionId id = new FunctionId("control.steering-wheel");
        assertThat(id.isAtOrBelow(id)).isTrue();
        assertThat(id.isAtOrBelow(new FunctionId("control"))).isTrue();
        assertThat(new FunctionId("control").isAtOrBelow(id)).isFalse();
        assertThat(new FunctionId("control.steering-wheel-return").isAtOrBelow(id))
                .isFalse();
    }
}
