package dev.splicebook.hookup;

import static dev.splicebook.hookup.Wiring.constant;
import static dev.splicebook.hookup.Wiring.facts;
import static dev.splicebook.hookup.Wiring.supply;
import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A fingerprint is of the rule and the facts: names do not change it, and each fact does. */
class FingerprintTest {

    private static final String WIRE =
            "\"conductor\": {\"size\": \"18 AWG\"}, \"length\": {\"value\": 1, \"unit\": \"m\"}, \"fuse\": {\"ratingAmps\": 30}";

    /** A fuse above what its conductor takes: 18 AWG with 105 °C insulation takes 20 A (33 CFR 183.425 table 5). */
    private static String ofFuse(String part, String facts, String wire) {
        Report report = new Wiring()
                .lead(part, "plus", facts)
                .joinBy("CAR.battery-plus " + part + ".plus", wire)
                .check();
        return Hookups.findings(report, "fuse-exceeds-conductor").get(0).fingerprint();
    }

    private static final String LOAD = facts("power.amplifier", "RD", "\"kind\": \"load\", \"maxAmps\": 10");

    @Test
    void staysTheSameUnderOtherNames() {
        assertThat(ofFuse("AMP", LOAD, WIRE))
                .isEqualTo(ofFuse("X1", LOAD, WIRE))
                .matches("[0-9a-f]{16}");
    }

    @Test
    void doesNotReadTheNameOfTheTerminalThatAnOutputFollows() {
        assertThat(ofTurnOn("left-plus")).isEqualTo(ofTurnOn("b"));
    }

    private static String ofTurnOn(String input) {
        Report report = new Wiring()
                .lead("LOC", input, facts(Wiring.speakerIn("left", "plus")))
                .lead(
                        "LOC",
                        "on",
                        facts("\"kind\": \"control-out\", \"active\": \"12V\", \"follows\": \"" + input + "\""))
                .lead("HU", "on", facts("\"kind\": \"control-out\", \"active\": \"12V\""))
                .join("LOC.on HU.on")
                .check();
        return Hookups.findings(report, "outputs-tied").get(0).fingerprint();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "\"conductor\": {\"size\": \"20 AWG\"}, \"length\": {\"value\": 1, \"unit\": \"m\"}, \"fuse\": {\"ratingAmps\": 30}",
                "\"conductor\": {\"size\": \"18 AWG\"}, \"length\": {\"value\": 2, \"unit\": \"m\"}, \"fuse\": {\"ratingAmps\": 30}",
                "\"conductor\": {\"size\": \"18 AWG\"}, \"length\": {\"value\": 1, \"unit\": \"m\"}, \"fuse\": {\"ratingAmps\": 40}",
                "\"conductor\": {\"size\": \"18 AWG\", \"material\": \"copper\"}, \"length\": {\"value\": 1, \"unit\": \"m\"}, \"fuse\": {\"ratingAmps\": 30}"
            })
    void changesWithEachFactOfTheConnection(String wire) {
        assertThat(ofFuse("AMP", LOAD, wire)).isNotEqualTo(ofFuse("AMP", LOAD, WIRE));
    }

    @Test
    void changesWithFunctionColourAndElectricalFactsOfATerminal() {
        String brake = facts("control.brake", "RD", "\"kind\": \"control-in\", \"amps\": 0.01");
        List<String> others = List.of(
                facts("control.brake", "YE", "\"kind\": \"control-in\", \"amps\": 0.01"),
                facts("control.door", "RD", "\"kind\": \"control-in\", \"amps\": 0.01"),
                facts("control.brake", "RD", "\"kind\": \"control-in\", \"amps\": 0.02"));

        assertThat(others)
                .extracting(FingerprintTest::ofLoose)
                .doesNotHaveDuplicates()
                .doesNotContain(ofLoose(brake));
    }

    private static String ofLoose(String lead) {
        Report report = new Wiring().lead("HU", "in", lead).check();
        return Hookups.findings(report, "lead-unaccounted").get(0).fingerprint();
    }

    @Test
    void changesWithTheStates() {
        assertThat(ofUncapped(supply("running"))).isNotEqualTo(ofUncapped(constant()));
    }

    private static String ofUncapped(String supply) {
        Report report = new Wiring()
                .car("C1-8", facts(supply))
                .unplug("C1")
                .unused("CAR.C1-8", "taped-back")
                .check();
        return Hookups.findings(report, "live-lead-uncapped").get(0).fingerprint();
    }
}
