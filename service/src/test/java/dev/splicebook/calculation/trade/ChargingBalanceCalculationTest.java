package dev.splicebook.calculation.trade;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.splicebook.calculation.Asked;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

class ChargingBalanceCalculationTest {

    @Test
    void balancesOutputAndLoads() {
        JsonNode answer = Asked.answer("charging-balance", """
                {"idleAmps": 40, "cruiseAmps": 90, "idlingShare": 0.25,
                 "loads": [{"name": "vehicle", "amps": 30}, {"name": "blower", "amps": 20, "duty": 0.5}]}""");

        assertNumber(answer, "loadAmps", 40);
        assertNumber(answer, "idleBalanceAmps", 0);
        assertNumber(answer, "cruiseBalanceAmps", 50);
        assertNumber(answer, "meanBalanceAmps", 37.5);
        assertThat(answer.path("verdict").stringValue()).isEqualTo("surplus");
        assertThat(answer.path("shed").size()).isZero();
    }

    @Test
    void countsTheMinutesOfADeficit() {
        // 12 A out of 60 Ah from 80 % to 60 %: one hour
        JsonNode answer = Asked.answer("charging-balance", """
                {"idleAmps": 28, "cruiseAmps": 28, "loads": [{"name": "vehicle", "amps": 40}],
                 "batteryAmpereHours": 60, "charge": 0.8, "targetCharge": 0.6}""");

        assertNumber(answer, "minutes", 60);
        assertNumber(answer, "idlingMinutes", 60);
        assertNumber(answer, "storedAmps", -12);
        assertThat(answer.path("verdict").stringValue()).isEqualTo("deficit");
        assertNumber(answer, "remainingDeficitAmps", 12);
    }

    @Test
    void countsTheMinutesToAVoltage() {
        // 12.24 V are half a charge: common practice, no source
        JsonNode answer = Asked.answer("charging-balance", """
                {"idleAmps": 28, "cruiseAmps": 28, "loads": [{"name": "vehicle", "amps": 40}],
                 "batteryAmpereHours": 60, "charge": 0.8, "targetVolts": 12.24}""");

        assertNumber(answer, "targetCharge", 0.5);
        assertNumber(answer, "minutes", 90);
    }

    @Test
    void countsTheMinutesUntilFull() {
        // accepted 15 A at 85 %: 12.75 A from 60 % to 80 %, then the tail to 99 %, worked by hand
        JsonNode answer = Asked.answer("charging-balance", """
                {"idleAmps": 80, "cruiseAmps": 80, "loads": [{"name": "vehicle", "amps": 40}],
                 "batteryAmpereHours": 60, "charge": 0.6, "acceptanceAmps": 15, "targetCharge": 1}""");

        assertNumber(answer, "minutes", 60 * (12 / 12.75 + 12 / 12.75 * Math.log(20)));
        assertNumber(answer, "targetCharge", 0.99);
    }

    @Test
    void seesThatIdlingIsMadeGood() {
        JsonNode answer = Asked.answer("charging-balance", """
                {"idleAmps": 35, "cruiseAmps": 90, "loads": [{"name": "vehicle", "amps": 40}], "charge": 0.7}""");

        assertThat(answer.path("verdict").stringValue()).isEqualTo("deficit-at-idle");
        // from 70 % to half a charge at 5 A: 12 Ah
        assertNumber(answer, "idlingMinutes", 144);
        // 15 A accepted, 85 % stored, 70 % of the time: meets 1.5 A lost at 96.64 %, and does not get to 99 %
        assertNumber(answer, "restingCharge", 1 - 0.2 * 1.5 / (0.7 * 0.85 * 15));
        assertThat(answer.has("minutes")).isFalse();
    }

    @Test
    void shedsTheLeastImportantThatCloseTheDeficit() {
        JsonNode answer = Asked.answer("charging-balance", """
                {"idleAmps": 40, "cruiseAmps": 40, "loads": [
                 {"name": "vehicle", "amps": 30},
                 {"name": "fan", "amps": 10, "priority": 3},
                 {"name": "rear screen", "amps": 15, "priority": 2},
                 {"name": "seat heater", "amps": 5, "priority": 1}]}""");

        // 20 A too much: the seat heater's 5 A and the rear screen's 15 A
        assertThat(answer.path("shed").findValuesAsString("name")).containsExactly("seat heater", "rear screen");
        assertNumber(answer, "remainingDeficitAmps", 0);
        assertThat(answer.path("shedAtIdle")).isEqualTo(answer.path("shed"));
    }

    @Test
    void answersForAChargingControl() {
        JsonNode answer = Asked.answer("charging-balance", """
                {"smartCharging": {"leastAmps": 10, "mostAmps": 110, "leastVolts": 12.4, "mostVolts": 15, "shareAtMost": 0.5},
                 "loads": [{"name": "vehicle", "amps": 40}]}""");

        assertNumber(answer, "leastBalanceAmps", -30);
        assertNumber(answer, "mostBalanceAmps", 70);
        assertNumber(answer, "meanBalanceAmps", 20);
        assertThat(answer.has("idleBalanceAmps")).isFalse();
        assertThat(answer.path("cautions").toString()).contains("lowest setpoint");
        // 15 A of 60 Ah are taken at most, 85 % stored, half of the time: less than 15 A lost the other half
        assertThat(answer.path("verdict").stringValue()).isEqualTo("deficit");
        assertThat(answer.path("cautions").toString()).contains("does not take it fast enough");
    }

    @Test
    void takesOutputsOrAControl() {
        assertThat(Asked.faults("charging-balance", """
                {"loads": [{"name": "a", "amps": 1}]}""")).containsExactly("/idleAmps missing-field");
        assertThat(Asked.faults("charging-balance", """
                {"idleAmps": 40, "loads": [{"name": "a", "amps": 1}]}""")).containsExactly("/cruiseAmps missing-field");
        assertThat(Asked.faults("charging-balance", """
                {"idleAmps": 40, "cruiseAmps": 50, "targetCharge": 0.5, "targetVolts": 12.3,
                 "smartCharging": {"leastAmps": 10, "mostAmps": 110, "leastVolts": 12.4, "mostVolts": 15},
                 "loads": [{"name": "a", "amps": 1}]}"""))
                .containsExactly("/smartCharging either-or", "/targetVolts either-or");
    }

    @Test
    void refusesWhatLiesOutside() {
        assertThat(Asked.faults("charging-balance", """
                {"idleAmps": -1, "cruiseAmps": 1e6, "loads": []}"""))
                .containsExactly("/idleAmps out-of-range", "/cruiseAmps out-of-range", "/loads too-few");
        assertThat(Asked.faults("charging-balance", """
                {"smartCharging": {"leastAmps": 120, "mostAmps": 110, "leastVolts": 15, "mostVolts": 12.4},
                 "loads": [{"name": "a", "amps": 1, "duty": 1.5}]}"""))
                .containsExactly(
                        "/smartCharging/leastAmps inconsistent",
                        "/smartCharging/leastVolts inconsistent",
                        "/loads/0/duty out-of-range");
    }

    private static void assertNumber(JsonNode answer, String field, double expected) {
        assertThat(answer.path(field).doubleValue()).as(field).isCloseTo(expected, within(1e-6));
    }
}
