package dev.splicebook.hookup.rule;

import static dev.splicebook.hookup.rule.Bench.device;
import static dev.splicebook.hookup.rule.Bench.inside;
import static dev.splicebook.hookup.rule.Bench.load;
import static dev.splicebook.hookup.rule.Bench.members;
import static dev.splicebook.hookup.rule.Bench.only;
import static dev.splicebook.hookup.rule.Bench.relay;
import static dev.splicebook.hookup.rule.Bench.wire;
import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.Finding;
import dev.splicebook.hookup.Hookups;
import dev.splicebook.hookup.Report;
import dev.splicebook.hookup.Severity;
import org.junit.jupiter.api.Test;

// common practice, no source
class BatterySensorBypassedTest {

    private static final String RULE = "battery-sensor-bypassed";
    private static final String AMP = members("AMP", device(load("constant", 20, 50)));
    private static final String AT_THE_POST = members("W1", wire("AMP.minus", "CAR.battery-minus"));

    @Test
    void reportsAReturnAtThePostItself() {
        Finding finding = only(check("'batterySensor': true,", AMP, AT_THE_POST), RULE);

        assertThat(finding.message())
                .isEqualTo(
                        "AMP.minus returns at CAR.battery-minus itself, past the sensor there that counts the battery's"
                                + " current");
        assertThat(finding.severity()).isEqualTo(Severity.WARNING);
        assertThat(finding.terminals()).containsExactlyInAnyOrder("AMP.minus", "CAR.battery-minus");
        assertThat(finding.connections()).containsExactly("W1");
    }

    @Test
    void acceptsItWithoutASensor() {
        Bench.assertPassed(check("'batterySensor': false,", AMP, AT_THE_POST), RULE);
    }

    @Test
    void doesNotApplyToAReturnAtTheChassis() {
        String chassis = members("W1", wire("AMP.minus", "CAR.chassis"));
        Bench.assertNotApplicable(check("'batterySensor': true,", AMP, chassis), RULE);
        Bench.assertNotApplicable(check("", AMP, chassis), RULE);
    }

    @Test
    void isNotCheckedWhereNobodyKnowsOfASensor() {
        Bench.assertNotChecked(check("", AMP, AT_THE_POST), RULE, "CAR.batterySensor");
    }

    @Test
    void seesAStrapToTheChassisAndACoil() {
        assertThat(only(
                                check(
                                        "'batterySensor': true,",
                                        "",
                                        members("W1", wire("CAR.battery-minus", "CAR.chassis"))),
                                RULE)
                        .message())
                .startsWith("CAR.chassis returns at CAR.battery-minus itself");
        only(
                check(
                        "'batterySensor': true,",
                        members("K", relay()),
                        members("W1", wire("CAR.battery-minus", "K.85"))),
                RULE);
    }

    @Test
    void seesThroughAnAdapterAndNotBeyondTheChassis() {
        Finding finding = only(
                check(
                        "'batterySensor': true,",
                        AMP + ", "
                                + members(
                                        "HU",
                                        device(load("constant", 1, 2)),
                                        "S",
                                        inside("'conducts': [['a', 'b', 'c']]")),
                        members(
                                "W1", wire("AMP.minus", "S.a"),
                                "W2", wire("S.b", "CAR.battery-minus"),
                                "W3", wire("S.c", "CAR.chassis"),
                                "W4", wire("CAR.chassis", "HU.minus"))),
                RULE);
        assertThat(finding.terminals()).containsExactlyInAnyOrder("AMP.minus", "CAR.battery-minus", "CAR.chassis");
    }

    private static Report check(String map, String parts, String connections) {
        return Hookups.check(("{'vehicle': {'inline': {" + map + " 'circuits': {}}}, 'parts': {" + parts
                        + "}, 'connections': {" + connections + "}}")
                .replace('\'', '"'));
    }
}
