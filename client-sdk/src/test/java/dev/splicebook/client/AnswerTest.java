package dev.splicebook.client;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.util.List;
import org.junit.jupiter.api.Test;

class AnswerTest {

    private static final Answer ANSWER = Json.MAPPER.readValue("""
            {"size": "8 AWG", "dropVolts": 0.453, "fits": true, "nodes": {"a": {"volts": 12.6}},
             "assumptions": [{"name": "material", "choice": "copper", "about": "none was given"}],
             "working": [{"words": "the drop", "formula": "U = I × R", "value": 0.453, "unit": "V", "later": 1,
                          "numbers": [{"symbol": "I", "value": 18, "unit": "A"}]}],
             "sources": ["a law"], "cautions": ["mind the battery"]}""", Answer.class);

    /** Some of the results, as a caller may want them. */
    record Drop(String size, double dropVolts) {}

    @Test
    void givesResultsByName() {
        assertThat(ANSWER.number("dropVolts")).isEqualTo(0.453);
        assertThat(ANSWER.number("/nodes/a/volts")).isEqualTo(12.6);
        assertThat(ANSWER.text("size")).isEqualTo("8 AWG");
        assertThat(ANSWER.truth("fits")).isTrue();
        assertThat(ANSWER.findNumber("size")).isEmpty();
        assertThat(ANSWER.findText("size")).contains("8 AWG");
        assertThat(ANSWER.as(Drop.class)).isEqualTo(new Drop("8 AWG", 0.453));
    }

    @Test
    void saysWhatItHasInstead() {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> ANSWER.number("dropOhms"))
                .withMessageContaining("dropVolts");
        assertThatIllegalArgumentException().isThrownBy(() -> ANSWER.text("dropVolts"));
        assertThatIllegalArgumentException().isThrownBy(() -> ANSWER.truth("size"));
        assertThatIllegalArgumentException().isThrownBy(() -> ANSWER.as(Length.class));
    }

    @Test
    void tellsHowItCameAbout() {
        assertThat(ANSWER.working().get(0)).hasToString("the drop: U = I × R = 0.453 V");
        assertThat(ANSWER.working().get(0).more()).containsOnlyKeys("later");
        assertThat(ANSWER.assumptions().get(0).choice()).isEqualTo("copper");
        assertThat(ANSWER.sources()).containsExactly("a law");
        assertThat(ANSWER.cautions()).containsExactly("mind the battery");
    }

    @Test
    void sendsItsInputs() {
        Question question = Question.of("voltage-drop")
                .with("currentAmps", 18)
                .with("returnPath", "chassis")
                .with("length", Length.feet(20))
                .with("conductor", Wire.of("8 AWG").madeOf(Material.CCA_10))
                .with("sizes", List.of("8 AWG"));

        assertThat(question.inputs()).isEqualTo(Json.parseObject("inputs", """
                {"currentAmps": 18.0, "returnPath": "chassis", "length": {"value": 20.0, "unit": "ft"},
                 "conductor": {"size": "8 AWG", "material": "cca-10"}, "sizes": ["8 AWG"]}"""));
        assertThat(question).hasToString("voltage-drop " + question.inputs());
    }

    @Test
    void leavesAQuestionAsItIs() {
        Question bare = Question.of("voltage-drop");

        assertThat(bare.with("currentAmps", 18).inputs()).isNotEmpty();
        assertThat(bare.inputs()).isEmpty();
    }
}
