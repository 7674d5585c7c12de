package dev.splicebook.hookup;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.splicebook.web.ProblemException;
import dev.splicebook.web.StrictReader;
import java.nio.charset.StandardCharsets;
import java.util.Objects;
import org.assertj.core.api.InstanceOfAssertFactories;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** A function map that could not be is refused, with the place and the kind of each fault. */
class FunctionMapTest {

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '`',
            value = {
                "{\"circuits\": {\"C1\": {}}} | /circuits/C1 | bad-form",
                "{\"circuits\": {\"C1-\": {}}} | /circuits/C1- | bad-form",
                "{\"circuits\": {\"-7\": {}}} | /circuits/-7 | bad-form",
                "{\"circuits\": {\"C.1-7\": {}}} | /circuits/C.1-7 | bad-form",
                "{\"circuits\": {\"C1-7/unit\": {}}} | /circuits/C1-7~1unit | bad-form",
                "{\"connectors\": {\"battery\": {}}} | /connectors/battery | reserved",
                "{\"connectors\": {\"C 1\": {}}} | /connectors/C 1 | bad-form",
                "{\"connectors\": {\"C1\": {\"pinCount\": 0}}} | /connectors/C1/pinCount | out-of-range",
                "{\"connectors\": {\"C1\": {\"pinCount\": 501}}} | /connectors/C1/pinCount | out-of-range",
                "{\"maker\": \"\"} | /maker | bad-text",
                "{\"runningVolts\": {\"min\": 15, \"max\": 13}} | /runningVolts/min | inconsistent",
                "{\"runningVolts\": {\"min\": 13, \"max\": 61}} | /runningVolts/max | out-of-range",
                "{\"runningVolts\": {\"min\": 0, \"max\": 14}} | /runningVolts/min | out-of-range",
                "{\"modelYears\": {\"from\": 2012, \"to\": 2011}} | /modelYears/to | inconsistent",
                "{\"modelYears\": {\"from\": 1949}} | /modelYears/from | out-of-range",
                "{\"circuits\": {\"C1-7\": {\"electrical\": {\"kind\": \"passive\"}, \"whenPlugged\": {\"kind\": \"passive\"}}}} | /circuits/C1-7/electrical | inconsistent",
                "{\"circuits\": {\"C1-7\": {\"function\": \"power.batery\"}}} | /circuits/C1-7/function | unknown-function",
                "{\"circuits\": {\"C1-7\": {\"electrical\": {\"kind\": \"supply\", \"fuseAmps\": -1}}}} | /circuits/C1-7/electrical/fuseAmps | out-of-range",
            })
    void refusesWhatCannotBe(String json, String pointer, String code) {
        assertThatThrownBy(() -> map(json))
                .asInstanceOf(InstanceOfAssertFactories.type(ProblemException.class))
                .satisfies(problem -> assertThat(problem.errors())
                        .extracting(error -> error.pointer() + " " + error.code())
                        .containsExactly(pointer + " " + code));
    }

    @ParameterizedTest
    @ValueSource(strings = {"C1-7", "C1-A7", "DOOR-FRONT-12", "battery-plus", "battery-minus", "chassis", "C2+-1"})
    void takesACircuitOfAConnectorAndThoseThatEveryVehicleHas(String circuit) {
        assertThat(map("{\"circuits\": {\"" + circuit + "\": {}}}").circuits()).containsOnlyKeys(circuit);
    }

    @Test
    void takesAModelYearRangeOfOneYearAndARangeOfOneVoltage() {
        FunctionMap map = map("""
                {"modelYears": {"from": 2012, "to": 2012}, "runningVolts": {"min": 14.2, "max": 14.2}}
                """);

        assertThat(map.modelYears()).isEqualTo(new ModelYears(2012, 2012));
        assertThat(map.runningVolts()).isEqualTo(new VoltRange(14.2, 14.2));
    }

    @Test
    void tellsTheFactsOfAPluggedAndAnUnpluggedCircuitApart() {
        Circuit circuit = Objects.requireNonNull(map("""
                {"circuits": {"C1-7": {"whenPlugged": {"kind": "speaker-out"}, "whenUnplugged": {"kind": "speaker-in"}}}}
                """).circuits().get("C1-7"));

        assertThat(circuit.factsWhen(true)).isInstanceOf(Electrical.SpeakerOut.class);
        assertThat(circuit.factsWhen(false)).isInstanceOf(Electrical.SpeakerIn.class);
    }

    @Test
    void leavesTheFactsUnknownOfAnUnpluggedCircuitOfWhichOnlyThePluggedOnesAreGiven() {
        Circuit circuit =
                Objects.requireNonNull(map("{\"circuits\": {\"C1-7\": {\"whenPlugged\": {\"kind\": \"speaker-out\"}}}}")
                        .circuits()
                        .get("C1-7"));

        assertThat(circuit.factsWhen(false)).isNull();
    }

    private static FunctionMap map(String json) {
        return StrictReader.read(json.getBytes(StandardCharsets.UTF_8), FunctionMap.class);
    }
}
