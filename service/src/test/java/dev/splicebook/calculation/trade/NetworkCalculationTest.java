package dev.splicebook.calculation.trade;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.calculation.Asked;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

class NetworkCalculationTest {

    /** Kuphaldt, Lessons in Electric Circuits, volume I: 28 V through 4 Ω and 7 V through 1 Ω into 2 Ω: 8 V; 5, 4 and 1 A. */
    @Test
    void solvesTwoSourcesAtOneNode() {
        JsonNode answer = Asked.answer("network", """
                {"elements": [
                   {"name": "B1", "kind": "voltage-source", "from": "one", "to": "0", "volts": 28},
                   {"name": "R1", "kind": "resistor", "from": "one", "to": "a", "ohms": 4},
                   {"name": "R2", "kind": "resistor", "from": "a", "to": "0", "ohms": 2},
                   {"name": "R3", "kind": "resistor", "from": "two", "to": "a", "ohms": 1},
                   {"name": "B2", "kind": "voltage-source", "from": "two", "to": "0", "volts": 7}],
                 "ground": "0"}""");

        assertThat(answer.at("/nodes/a/volts").doubleValue()).isCloseTo(8, within(1e-9));
        assertThat(answer.at("/branches/R1/amps").doubleValue()).isCloseTo(5, within(1e-9));
        assertThat(answer.at("/branches/R2/amps").doubleValue()).isCloseTo(4, within(1e-9));
        assertThat(answer.at("/branches/R3/amps").doubleValue()).isCloseTo(-1, within(1e-9));
        assertThat(answer.at("/branches/B2/watts").doubleValue()).isCloseTo(7, within(1e-9));
        assertThat(answer.path("frequencies").isEmpty()).isTrue();
        assertThat(answer.path("residual").doubleValue()).isLessThan(1e-9);
    }

    /** An RC corner: 1 kΩ and 1 µF pass 1/√2 at 1/(2πRC), 45° behind; a law. */
    @Test
    void solvesAcornerAtOneFrequency() {
        JsonNode answer = Asked.answer("network", """
                {"elements": [
                   {"name": "V", "kind": "voltage-source", "from": "in", "to": "0", "volts": 2},
                   {"name": "R", "kind": "resistor", "from": "in", "to": "out", "ohms": 1000},
                   {"name": "C", "kind": "capacitor", "from": "out", "to": "0", "microfarads": 1}],
                 "ground": "0", "frequenciesHertz": [159.15494309189535]}""");

        assertThat(answer.at("/nodes/out/volts").doubleValue()).isCloseTo(Math.sqrt(2), within(1e-9));
        assertThat(answer.at("/nodes/out/phaseDegrees").doubleValue()).isCloseTo(-45, within(1e-9));
        assertThat(answer.at("/frequencies/0/nodes")).isEqualTo(answer.path("nodes"));
    }

    @Test
    void takesANegativeAmplitudeAsHalfATurn() {
        String question = """
                {"elements": [{"name": "V", "kind": "voltage-source", "from": "a", "to": "0", "volts": %s},
                              {"name": "R", "kind": "resistor", "from": "a", "to": "0", "ohms": 5}],
                 "ground": "0", "frequenciesHertz": [50, 60]}""";

        JsonNode answer = Asked.answer("network", question.formatted("-10, \"phaseDegrees\": 30"));

        assertThat(answer.at("/frequencies/0/nodes/a/phaseDegrees").doubleValue())
                .isCloseTo(-150, within(1e-9));
        assertThat(answer.at("/frequencies/1/branches/R/watts").doubleValue()).isCloseTo(20, within(1e-9));
        assertThat(answer.has("nodes")).isFalse();
    }

    @Test
    void namesWhatADiodeIsTakenFor() {
        JsonNode answer = Asked.answer("network", """
                {"elements": [{"name": "V", "kind": "voltage-source", "from": "a", "to": "0", "volts": 12},
                              {"name": "D", "kind": "diode", "from": "a", "to": "b"},
                              {"name": "R", "kind": "resistor", "from": "b", "to": "0", "ohms": 100}],
                 "ground": "0"}""");

        assertThat(answer.path("assumptions")
                        .valueStream()
                        .map(each -> each.path("name").stringValue()))
                .containsExactly("saturationAmps", "emission", "junctionCelsius");
        assertThat(answer.at("/nodes/b/volts").doubleValue()).isBetween(11.1, 11.5);
    }

    @Test
    void saysWhichNodesFloat() {
        assertThat(Asked.noAnswer("network", """
                {"elements": [{"name": "V", "kind": "voltage-source", "from": "a", "to": "0", "volts": 12},
                              {"name": "R", "kind": "resistor", "from": "b", "to": "c", "ohms": 100}],
                 "ground": "0"}""")).containsExactly("/elements floating-nodes");
    }

    @Test
    void saysWhichSourcesFormALoop() {
        assertThat(Asked.noAnswer("network", """
                {"elements": [{"name": "V", "kind": "voltage-source", "from": "a", "to": "0", "volts": 12},
                              {"name": "L", "kind": "inductor", "from": "a", "to": "0", "millihenries": 1}],
                 "ground": "0"}""")).containsExactly("/elements source-loop");
    }

    /** 12 V behind 0.15 Ω give at most V²/4R = 240 W; a law. */
    @Test
    void saysThatALoadCannotBeFed() {
        String question = """
                {"elements": [{"name": "V", "kind": "voltage-source", "from": "a", "to": "0", "volts": 12},
                              {"name": "R", "kind": "resistor", "from": "a", "to": "b", "ohms": 0.15},
                              {"name": "P", "kind": "constant-power-load", "from": "b", "to": "0", "watts": %s}],
                 "ground": "0"}""";

        assertThat(Asked.noAnswer("network", question.formatted(241))).containsExactly("/elements no-operating-point");
        assertThat(Asked.answer("network", question.formatted(239))
                        .at("/nodes/b/volts")
                        .doubleValue())
                .isBetween(6.0, 6.5);
    }

    @Test
    void limitsANetworkThatIsSolvedManyTimes() {
        StringBuilder elements = new StringBuilder("""
                {"name": "V", "kind": "voltage-source", "from": "n0", "to": "0", "volts": 12},
                {"name": "P", "kind": "constant-power-load", "from": "n998", "to": "0", "watts": 1}""");
        for (int at = 0; at < 998; at++) {
            elements.append("""
                    , {"name": "R%d", "kind": "resistor", "from": "n%d", "to": "n%d", "ohms": 0.001}""".formatted(at, at, at + 1));
        }
        String thousand = "{\"ground\": \"0\", \"elements\": [" + elements;

        assertThat(Asked.answer("network", thousand + "]}")
                        .at("/branches/P/watts")
                        .doubleValue())
                .isCloseTo(1, within(1e-6));
        assertThat(Asked.faults("network", thousand + """
                , {"name": "X", "kind": "resistor", "from": "n1", "to": "0", "ohms": 1}]}""")).containsExactly("/elements too-many");
    }

    @Test
    void refusesWhatIsNoNetwork() {
        assertThat(Asked.faults("network", """
                {"elements": [{"name": "R", "kind": "resistor", "from": "a", "to": "0", "ohms": -1},
                              {"name": "S", "kind": "resistor", "from": "a", "to": "0"},
                              {"name": "T", "kind": "transistor", "from": "a", "to": "0"}],
                 "ground": "0"}"""))
                .containsExactly(
                        "/elements/0/ohms out-of-range",
                        "/elements/1/ohms missing-field",
                        "/elements/2/kind unknown-value");
        assertThat(Asked.faults("network", """
                {"elements": [{"name": "R", "kind": "resistor", "from": "a", "to": "0", "ohms": 1},
                              {"name": "R", "kind": "resistor", "from": "a", "to": "0", "ohms": 1}],
                 "ground": "earth"}"""))
                .containsExactly("/elements/1/name inconsistent", "/ground unknown-node");
        assertThat(Asked.faults("network", """
                {"elements": [{"name": "C", "kind": "capacitor", "from": "a", "to": "0"},
                              {"name": "D", "kind": "capacitor", "from": "a", "to": "0", "farads": 1, "microfarads": 1}],
                 "ground": "0"}"""))
                .containsExactly("/elements/0/farads missing-field", "/elements/1/microfarads either-or");
        assertThat(Asked.faults("network", """
                {"ground": "0"}""")).containsExactly("/elements missing-field");
    }
}
