package dev.splicebook.hookup;

import static dev.splicebook.hookup.Wiring.facts;
import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.function.Function;
import dev.splicebook.function.FunctionId;
import dev.splicebook.function.Functions;
import dev.splicebook.hookup.Report.Metering;
import dev.splicebook.hookup.Report.Result;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** A map of which little is known is used all the same, and the report names the few places to meter first. */
class MeteringsTest {

    private static final String MEMORY = facts("\"kind\": \"load\", \"maxAmps\": 10, \"needs\": \"constant\"");
    private static final String ACCESSORY = facts("\"kind\": \"load\", \"maxAmps\": 0.3, \"needs\": \"switched\"");
    private static final String GROUND = facts("\"kind\": \"ground\"");

    /** Only the plug behind the radio, colours and functions alone. */
    private static Wiring thin() {
        return new Wiring()
                .car("R1-1", "{\"function\": \"power.battery\", \"colour\": \"YE\"}")
                .car(
                        "R1-2",
                        "{\"function\": \"power.accessory\", \"colour\": \"RD\", \"test\": \"12 V with the key at one.\"}")
                .car("R1-3", "{\"colour\": \"BK\"}")
                .unplug("R1")
                .lead("HU", "memory", MEMORY)
                .lead("HU", "accessory", ACCESSORY)
                .lead("HU", "ground", GROUND)
                .join("CAR.R1-1 HU.memory", "CAR.R1-2 HU.accessory", "CAR.R1-3 HU.ground");
    }

    @Test
    void namesWhatMostRulesWaitForFirst() {
        Report report = thin().check();

        assertThat(report.findings()).isEmpty();
        assertThat(report.verdict()).isEqualTo(Report.Verdict.READY_WITH_CAUTIONS);
        assertThat(report.meterFirst())
                .extracting(Metering::terminal)
                .containsExactly("CAR.R1-1", "CAR.R1-2", "CAR.R1-3");
        Metering first = report.meterFirst().get(0);
        assertThat(String.valueOf(first.colour())).isEqualTo("YE");
        assertThat(first.facts()).containsExactly("electrical");
        assertThat(first.rules())
                .contains("conductor-too-small", "constant-load-on-switched-supply", "load-without-supply");
    }

    @Test
    void saysHowTheMapDoesOrTheVocabularyOrElseInGeneral() {
        List<Metering> meterings = thin().check().meterFirst();
        String ofVocabulary = Functions.vocabulary()
                .findFunction(new FunctionId("power.battery"))
                .map(Function::test)
                .orElseThrow();

        assertThat(meterings.get(0).test()).isEqualTo(ofVocabulary);
        assertThat(meterings.get(1).test()).isEqualTo("12 V with the key at one.");
        assertThat(meterings.get(2).test()).contains("volts against bare chassis");
    }

    @Test
    void staysWithAFewHoweverMuchIsUnknown() {
        Wiring wiring = new Wiring().unplug("R1").lead("HU", "ground", GROUND).join("CAR.chassis HU.ground");
        IntStream.rangeClosed(1, 30)
                .forEach(pin -> wiring.car("R1-" + pin, "{\"colour\": \"WH\"}")
                        .lead("HU", "feed" + pin, MEMORY)
                        .join("CAR.R1-" + pin + " HU.feed" + pin));
        Report report = wiring.check();

        assertThat(report.meterFirst()).hasSize(5);
        assertThat(report.outcomes())
                .filteredOn(outcome -> outcome.result() == Result.NOT_CHECKED)
                .isNotEmpty()
                .allSatisfy(outcome -> assertThat(outcome.meterFirst()).hasSizeBetween(1, 3));
    }

    @Test
    void sendsNobodyToASafetyCircuit() {
        Report report = new Wiring()
                .car("X1-1", "{\"function\": \"safety.airbag\", \"colour\": \"YE\"}")
                .lead("HU", "memory", MEMORY)
                .lead("HU", "ground", GROUND)
                .join("CAR.X1-1 HU.memory", "CAR.chassis HU.ground")
                .check();

        assertThat(report.findings()).extracting(Finding::rule).contains("airbag-circuit-touched");
        assertThat(report.meterFirst()).extracting(Metering::terminal).doesNotContain("CAR.X1-1");
    }

    @Test
    void sendsToTheLabelForWhatAPartDoesNotState() {
        Report report = new Wiring()
                .lead("HU", "memory", facts("\"kind\": \"load\", \"maxAmps\": 10"))
                .lead("HU", "ground", GROUND)
                .join("CAR.battery-plus HU.memory", "CAR.chassis HU.ground")
                .check();

        assertThat(report.meterFirst()).anySatisfy(metering -> {
            assertThat(metering.terminal()).isEqualTo("HU.memory");
            assertThat(metering.facts()).contains("needs");
            assertThat(metering.test()).contains("label");
        });
    }

    @Test
    void isEmptyWhereNothingIsMissing() {
        assertThat(new Wiring()
                        .lead(
                                "HU",
                                "memory",
                                facts(
                                        "\"kind\": \"load\", \"typicalAmps\": 2, \"maxAmps\": 10, \"needs\": \"constant\","
                                                + " \"minVolts\": 6, \"sleepAmps\": 0.003"))
                        .lead("HU", "ground", GROUND)
                        .joinBy(
                                "CAR.battery-plus HU.memory",
                                "\"conductor\": {\"size\": \"14 AWG\"}, \"length\": {\"value\": 1, \"unit\": \"m\"},"
                                        + " \"fuse\": {\"ratingAmps\": 15}")
                        .joinBy(
                                "CAR.chassis HU.ground",
                                "\"conductor\": {\"size\": \"14 AWG\"}, \"length\": {\"value\": 1, \"unit\": \"m\"}")
                        .check()
                        .meterFirst())
                .isEmpty();
    }
}
