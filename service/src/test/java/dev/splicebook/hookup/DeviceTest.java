package dev.splicebook.hookup;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.splicebook.web.Fault;
import dev.splicebook.web.ProblemException;
import dev.splicebook.web.StrictReader;
import java.nio.charset.StandardCharsets;
import java.util.Objects;
import org.assertj.core.api.InstanceOfAssertFactories;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A device that could not exist is refused, with the place and the kind of each fault. */
class DeviceTest {

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '`',
            value = {
                "{\"code\": \"a.b\"} | /code | bad-form",
                "{\"code\": \"-a\"} | /code | bad-form",
                "{\"kind\": \"two words\"} | /kind | bad-form",
                "{\"name\": \" \"} | /name | bad-text",
                "{\"terminals\": {\"a.b\": {}}} | /terminals/a.b | bad-form",
                "{\"terminals\": {\"a/b\": {}}} | /terminals/a~1b | bad-form",
                "{\"settings\": {\"a b\": {}}} | /settings/a b | bad-form",
                "{\"modes\": {\"a~\": {}}} | /modes/a~0 | bad-form",
                "{\"connectors\": {\"C.1\": {}}} | /connectors/C.1 | bad-form",
                "{\"conducts\": [[\"a\"]]} | /conducts/0 | bad-group",
                "{\"conducts\": [[\"a\", \"b\"], [\"c\", \"d\", \"c\"]]} | /conducts/1 | bad-group",
                "{\"fuses\": [{\"between\": [\"a\", \"a\"], \"ratingAmps\": 5}]} | /fuses/0/between | bad-pair",
                "{\"fuses\": [{\"between\": [\"a\", \"b\", \"c\"], \"ratingAmps\": 5}]} | /fuses/0/between | bad-pair",
                "{\"fuses\": [{\"between\": [\"a\", \"b\"], \"ratingAmps\": 0}]} | /fuses/0/ratingAmps | out-of-range",
                "{\"diodes\": [{\"anode\": \"a\", \"cathode\": \"a\"}]} | /diodes/0/cathode | inconsistent",
                "{\"diodes\": [{\"anode\": \"a\", \"cathode\": \"c\", \"amps\": -1}]} | /diodes/0/amps | out-of-range",
                "{\"resistors\": [{\"between\": [\"a\", \"b\"], \"ohms\": 0}]} | /resistors/0/ohms | out-of-range",
                "{\"resistors\": [{\"between\": [\"a\"], \"ohms\": 1}]} | /resistors/0/between | bad-pair",
                "{\"couples\": [{\"from\": [\"a\", \"a\"], \"to\": [\"c\", \"d\"]}]} | /couples/0/from | bad-pair",
                "{\"couples\": [{\"from\": [\"a\", \"b\"], \"to\": [\"c\"]}]} | /couples/0/to | bad-pair",
                "{\"couples\": [{\"from\": [\"a\", \"b\"], \"to\": [\"c\", \"d\"], \"gain\": 0}]} | /couples/0/gain | out-of-range",
                "{\"relays\": [{\"coil\": [\"1\", \"1\"], \"common\": \"30\", \"open\": \"87\"}]} | /relays/0/coil | bad-pair",
                "{\"relays\": [{\"coil\": [\"1\", \"2\"], \"common\": \"30\"}]} | /relays/0/open | required",
                "{\"relays\": [{\"coil\": [\"1\", \"2\"], \"common\": \"30\", \"open\": \"30\"}]} | /relays/0/common | inconsistent",
                "{\"relays\": [{\"coil\": [\"1\", \"2\"], \"common\": \"30\", \"open\": \"87\", \"closed\": \"87\"}]} | /relays/0/common | inconsistent",
                "{\"relays\": [{\"coil\": [\"1\", \"2\"], \"coilOhms\": 0, \"common\": \"30\", \"open\": \"87\"}]} | /relays/0/coilOhms | out-of-range",
                "{\"terminals\": {\"r\": {\"electrical\": {\"kind\": \"control-out\", \"follows\": \"x\"}}}} | /terminals/r/electrical/follows | unknown-terminal",
                "{\"modes\": {\"bridged\": {\"terminals\": {\"x\": {}}}}} | /modes/bridged/terminals/x | unknown-terminal",
                "{\"terminals\": {\"a\": {}, \"b\": {}}, \"modes\": {\"bridged\": {\"couples\": [{\"from\": [\"a\", \"b\"], \"to\": [\"x\", \"b\"]}]}}} | /modes/bridged/couples/0 | unknown-terminal",
                "{\"terminals\": {\"a\": {\"electrical\": {\"kind\": \"load\", \"typicalAmps\": 5, \"maxAmps\": 4}}}} | /terminals/a/electrical/typicalAmps | inconsistent",
                "{\"terminals\": {\"a\": {\"electrical\": {\"kind\": \"load\", \"maxAmps\": -0.1}}}} | /terminals/a/electrical/maxAmps | out-of-range",
                "{\"terminals\": {\"a\": {\"electrical\": {\"kind\": \"supply\", \"maxAmps\": 0}}}} | /terminals/a/electrical/maxAmps | out-of-range",
                "{\"terminals\": {\"a\": {\"electrical\": {\"kind\": \"supply\", \"maxAmps\": 2001}}}} | /terminals/a/electrical/maxAmps | out-of-range",
                "{\"terminals\": {\"a\": {\"electrical\": {\"kind\": \"speaker-out\", \"side\": \"signal\"}}}} | /terminals/a/electrical/side | unknown-value",
                "{\"terminals\": {\"a\": {\"electrical\": {\"kind\": \"line-in\", \"side\": \"plus\"}}}} | /terminals/a/electrical/side | unknown-value",
            })
    void refusesWhatCannotBe(String json, String pointer, String code) {
        assertThatThrownBy(() -> device(json))
                .asInstanceOf(InstanceOfAssertFactories.type(ProblemException.class))
                .satisfies(problem -> assertThat(problem.errors())
                        .extracting(error -> error.pointer() + " " + error.code())
                        .containsExactly(pointer + " " + code));
    }

    @Test
    void saysEveryFaultOfADeviceAtOnce() {
        assertThatThrownBy(() -> device("""
                        {"code": "a b", "name": "", "conducts": [["a"]], "terminals": {"x y": {}}}
                        """))
                .asInstanceOf(InstanceOfAssertFactories.type(ProblemException.class))
                .satisfies(problem -> assertThat(problem.errors())
                        .extracting(Fault::pointer)
                        .containsExactlyInAnyOrder("/code", "/name", "/conducts/0", "/terminals/x y"));
    }

    @Test
    void takesTheGreatestAndTheLeastThatMayBe() {
        assertThat(device("""
                {"terminals": {"a": {"electrical": {"kind": "supply", "maxAmps": 2000}},
                               "b": {"electrical": {"kind": "load", "typicalAmps": 0, "maxAmps": 0}},
                               "c": {"electrical": {"kind": "load", "typicalAmps": 4, "maxAmps": 4}}}}
                """).terminals()).hasSize(3);
    }

    @Test
    void countsANameThatIsUsedInsideAndNotDeclaredAsAPassiveTerminal() {
        Device device = device("""
                {"terminals": {"30": {"electrical": {"kind": "load"}}},
                 "relays": [{"coil": ["85", "86"], "common": "30", "open": "87"}],
                 "fuses": [{"between": ["f1", "f2"], "ratingAmps": 5}], "conducts": [["c1", "c2"]],
                 "diodes": [{"anode": "d1", "cathode": "d2"}], "resistors": [{"between": ["r1", "r2"], "ohms": 1}],
                 "couples": [{"from": ["i1", "i2"], "to": ["o1", "o2"]}]}
                """);

        assertThat(device.allTerminals().keySet())
                .containsExactlyInAnyOrder(
                        "30", "85", "86", "87", "f1", "f2", "c1", "c2", "d1", "d2", "r1", "r2", "i1", "i2", "o1", "o2");
        assertThat(Objects.requireNonNull(device.allTerminals().get("86")).electrical())
                .isInstanceOf(Electrical.Passive.class);
        assertThat(Objects.requireNonNull(device.allTerminals().get("30")).electrical())
                .isInstanceOf(Electrical.Load.class);
        assertThat(device.terminals()).containsOnlyKeys("30");
    }

    @Test
    void letsAnOutputFollowATerminalThatIsOnlyUsedInside() {
        assertThat(device("""
                {"terminals": {"remote": {"electrical": {"kind": "control-out", "follows": "in"}}},
                 "couples": [{"from": ["in", "in-return"], "to": ["out", "out-return"]}]}
                """).terminals()).containsKey("remote");
    }

    private static Device device(String json) {
        return StrictReader.read(json.getBytes(StandardCharsets.UTF_8), Device.class);
    }
}
