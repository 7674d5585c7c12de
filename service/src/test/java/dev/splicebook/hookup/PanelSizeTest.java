package dev.splicebook.hookup;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.splicebook.electrics.Length;
import dev.splicebook.electrics.LengthUnit;
import dev.splicebook.web.ProblemException;
import dev.splicebook.web.StrictReader;
import org.assertj.core.api.InstanceOfAssertFactories;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class PanelSizeTest {

    @Test
    void takesAFormWithOrWithoutItsDepth() {
        assertThat(StrictReader.read("{\"form\": \"iso-7736\"}", PanelSize.class))
                .isEqualTo(new PanelSize(PanelSize.Form.ISO_7736, null, null, null));
        assertThat(StrictReader.read(
                        "{\"form\": \"iso-7736-double\", \"depth\": {\"value\": 16, \"unit\": \"cm\"}}",
                        PanelSize.class))
                .isEqualTo(new PanelSize(PanelSize.Form.ISO_7736_DOUBLE, null, null, new Length(16, LengthUnit.CM)));
    }

    @Test
    void takesWhatWasMeasured() {
        PanelSize measured = new PanelSize(
                PanelSize.Form.MEASURED, new Length(20, LengthUnit.CM), new Length(4, LengthUnit.IN), null);

        assertThat(StrictReader.read("""
                        {"form": "measured", "width": {"value": 20, "unit": "cm"}, "height": {"value": 4, "unit": "in"}}
                        """, PanelSize.class)).isEqualTo(measured);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '`',
            value = {
                "{\"form\": \"measured\", \"width\": {\"value\": 20, \"unit\": \"cm\"}} | /height | required",
                "{\"form\": \"measured\", \"height\": {\"value\": 20, \"unit\": \"cm\"}} | /width | required",
                "{\"form\": \"iso-7736\", \"width\": {\"value\": 18, \"unit\": \"cm\"}} | /width | inconsistent",
                "{\"form\": \"iso-7736-double\", \"height\": {\"value\": 10, \"unit\": \"cm\"}} | /height | inconsistent",
                "{\"form\": \"iso-7736\", \"depth\": {\"value\": 0, \"unit\": \"cm\"}} | /depth/value | out-of-range",
                "{\"form\": \"huge\"} | /form | unknown-value",
            })
    void refusesWhatCannotBe(String json, String pointer, String code) {
        assertThatThrownBy(() -> StrictReader.read(json, PanelSize.class))
                .asInstanceOf(InstanceOfAssertFactories.type(ProblemException.class))
                .satisfies(problem -> assertThat(problem.errors())
                        .extracting(error -> error.pointer() + " " + error.code())
                        .containsExactly(pointer + " " + code));
    }
}
