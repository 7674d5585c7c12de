package dev.splicebook.calculation.trade;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.calculation.Asked;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

class KeyLadderCalculationTest {

    private static final String SET = """
            {"arrangement": "parallel", "pullUpOhms": 10000, "readAcross": "fixed", "supplyVolts": 5, "toleranceShare": 0.01,
             "keys": [{"name": "A", "ohms": 2200}, {"name": "B", "ohms": 3300}, {"name": "C", "ohms": 5600},
                      {"name": "D", "ohms": 10000}], "readings": [%s]}""";

    @Test
    void readsASetAcrossItsPullDown() {
        JsonNode answer = Asked.answer("key-ladder", SET.formatted(""));

        // published (secondary copy): 5 V, 2.2, 3.3, 5.6 and 10 kΩ into 10 kΩ, read across the 10 kΩ
        assertThat(volts(answer, "A")).isCloseTo(4.10, within(0.005));
        assertThat(volts(answer, "B")).isCloseTo(3.76, within(0.005));
        assertThat(volts(answer, "C")).isCloseTo(3.205, within(0.0005));
        assertThat(volts(answer, "D")).isCloseTo(2.50, within(0.005));
        assertThat(volts(answer, "none")).isZero();
        assertThat(answer.path("confusions").size()).isZero();
        assertThat(answer.path("leastMarginCounts").doubleValue()).isPositive();
    }

    @Test
    void countsAChainOfEqualResistors() {
        JsonNode answer = Asked.answer("key-ladder", """
                {"arrangement": "series", "pullUpOhms": 1000, "adcBits": 10, "toleranceShare": 0.1, "keys": [
                 {"name": "1", "ohms": 0}, {"name": "2", "ohms": 1000}, {"name": "3", "ohms": 1000},
                 {"name": "4", "ohms": 1000}, {"name": "5", "ohms": 1000}]}""");

        // published (secondary copy): equal 1 kΩ chain, 10 bit
        assertThat(answer.path("levels")
                        .valueStream()
                        .limit(5)
                        .map(level -> level.path("counts").intValue()))
                .containsExactly(0, 512, 683, 768, 819);
        assertThat(level(answer, "none").has("ohms")).isFalse();
        // 3300 Ω above 900 Ω read 0.786 of the supply, above the 0.775 halfway from 768 to 819
        assertThat(answer.path("confusions")
                        .valueStream()
                        .filter(each -> each.path("withinTolerance").booleanValue())
                        .map(each -> each.path("pressed").stringValue() + ">"
                                + each.path("readAs").stringValue()))
                .contains("4>5");
    }

    @Test
    void tellsTheKeyOfEachReading() {
        JsonNode readings = Asked.answer("key-ladder", SET.formatted("""
                        {"volts": 4.1}, {"counts": 512}, {"ohms": 5600}, {"volts": 3.0}, {"counts": 0}""")).path("readings");

        assertThat(readings.path(0).path("keys").toString()).isEqualTo("[\"A\"]");
        assertThat(readings.path(1).path("keys").toString()).isEqualTo("[\"D\"]");
        assertThat(readings.path(2).path("keys").toString()).isEqualTo("[\"C\"]");
        assertThat(readings.path(3).path("match").stringValue()).isEqualTo("no-key-fits");
        assertThat(readings.path(3).path("nearest").stringValue()).isEqualTo("C");
        assertThat(readings.path(4).path("keys").toString()).isEqualTo("[\"none\"]");
    }

    @Test
    void namesAmbiguousKeys() {
        JsonNode answer = Asked.answer("key-ladder", """
                {"pullUpOhms": 1000, "toleranceShare": 0.1, "keys": [{"name": "up", "ohms": 1000}, {"name": "down", "ohms": 1150}],
                 "readings": [{"ohms": 1060}]}""");

        assertThat(answer.path("readings").path(0).path("match").stringValue()).isEqualTo("ambiguous");
        assertThat(answer.path("readings").path(0).path("keys").size()).isEqualTo(2);
        JsonNode worst = answer.path("confusions").path(0);
        assertThat(worst.path("probability").doubleValue()).isBetween(0.001, 0.5);
        assertThat(worst.path("withinTolerance").booleanValue()).isTrue();
        assertThat(answer.path("cautions").toString()).contains("likely to be taken");
    }

    @Test
    void hasNoWindowForWhatTheConverterCannotTellApart() {
        JsonNode answer = Asked.answer("key-ladder", """
                {"pullUpOhms": 1000, "adcBits": 4, "keys": [{"name": "a", "ohms": 1000}, {"name": "b", "ohms": 1001},
                 {"name": "c", "ohms": 1002}]}""");

        assertThat(level(answer, "b").has("windowFromCounts")).isFalse();
        assertThat(level(answer, "none").has("windowFromCounts")).isTrue();
    }

    @Test
    void addsTheContact() {
        JsonNode answer = Asked.answer("key-ladder", """
                {"pullUpOhms": 1000, "contactOhms": 200, "endOhms": 1200, "keys": [{"name": "a", "ohms": 1000}]}""");

        // 1200 Ω beside 1200 Ω
        assertThat(level(answer, "a").path("ohms").doubleValue()).isCloseTo(600, within(1e-9));
        assertThat(level(answer, "none").path("ohms").doubleValue()).isCloseTo(1200, within(1e-9));
    }

    @Test
    void namesEveryDefault() {
        JsonNode answer = Asked.answer("key-ladder", """
                {"pullUpOhms": 1000, "keys": [{"name": "a", "ohms": 1000}]}""");

        assertThat(answer.path("assumptions").findValuesAsString("name"))
                .containsExactlyInAnyOrder(
                        "supplyVolts",
                        "toleranceShare",
                        "arrangement",
                        "readAcross",
                        "contactOhms",
                        "pullUpToleranceShare",
                        "spread",
                        "adcBits");
    }

    @Test
    void refusesWhatIsNoLadderOrReading() {
        assertThat(Asked.faults("key-ladder", """
                {"pullUpOhms": 0, "keys": [{"name": "none", "ohms": 5}, {"name": "b", "ohms": -5}], "adcBits": 40}"""))
                .containsExactly(
                        "/keys/0/name reserved",
                        "/keys/1/ohms out-of-range",
                        "/pullUpOhms out-of-range",
                        "/adcBits out-of-range");
        assertThat(Asked.faults("key-ladder", """
                {"pullUpOhms": 1000, "keys": [{"name": "a", "ohms": 5}, {"name": "a", "ohms": 6}],
                 "readings": [{"counts": 1024}, {"volts": 6}]}"""))
                .containsExactly(
                        "/keys/1/name duplicate", "/readings/0/counts out-of-range", "/readings/1/volts out-of-range");
        assertThat(Asked.faults("key-ladder", """
                {"pullUpOhms": 1000, "keys": [], "readings": [{}, {"volts": 1, "ohms": 5}]}"""))
                .containsExactly("/keys too-few", "/readings/0/volts missing-field", "/readings/1/ohms either-or");
        assertThat(Asked.faults("key-ladder", "{}"))
                .containsExactly("/keys missing-field", "/pullUpOhms missing-field");
    }

    private static double volts(JsonNode answer, String key) {
        return level(answer, key).path("volts").doubleValue();
    }

    private static JsonNode level(JsonNode answer, String key) {
        return answer.path("levels")
                .valueStream()
                .filter(level -> level.path("key").stringValue().equals(key))
                .findFirst()
                .orElseThrow();
    }
}
