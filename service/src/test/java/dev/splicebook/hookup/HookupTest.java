package dev.splicebook.hookup;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.splicebook.guard.Invalid;
import dev.splicebook.guard.InvalidValueException;
import dev.splicebook.web.ProblemException;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.assertj.core.api.InstanceOfAssertFactories;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** A hookup that refers to what is not there is refused, with every fault, where it is and what is known instead. */
class HookupTest {

    private static final String VEHICLE = """
            "vehicle": {"inline": {"connectors": {"C9": {}}, "circuits": {"C1-7": {}, "C1-8": {}, "C2-4": {}}}%s}
            """;

    private static final String PARTS = """
            "parts": {"HU": {"inline": {"terminals": {"memory": {}, "C1-7": {}},
                       "settings": {"maker": {"choices": {"3": "third"}}, "name": {}},
                       "modes": {"bridged": {"terminals": {"memory": {"electrical": {"kind": "passive"}}}}}}},
                      "D": {"inline": {"diodes": [{"anode": "a", "cathode": "c"}]}}}
            """;

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '`',
            value = {
                "\"connections\": {\"W1\": {\"ends\": [\"CAR.C1-9\", \"HU.memory\"]}} | /connections/W1/ends/0 | unknown-terminal",
                "\"connections\": {\"W1\": {\"ends\": [\"CAR.C1-7\", \"HU.memry\"]}} | /connections/W1/ends/1 | unknown-terminal",
                "\"connections\": {\"W1\": {\"ends\": [\"CAR.C1-7\", \"AMP.plus\"]}} | /connections/W1/ends/1 | unknown-part",
                "\"connections\": {\"W1\": {\"ends\": [\"CAR.C1-7\", \"memory\"]}} | /connections/W1/ends/1 | bad-form",
                "\"connections\": {\"W1\": {\"ends\": [\"CAR.C1-7/unit\", \"HU.memory\"]}} | /connections/W1/ends/0 | not-cut",
                "\"connections\": {\"W1\": {\"ends\": [\"CAR.C9-1/harness\", \"HU.memory\"]}} | /connections/W1/ends/0 | unknown-terminal",
                "\"plugs\": [[\"CAR.C7\", \"HU.C1\"]] | /plugs/0/0 | unknown-connector",
                "\"plugs\": [[\"CAR.C1\", \"HU.C7\"]] | /plugs/0/1 | unknown-connector",
                "\"plugs\": [[\"CAR.C1\", \"AMP.C1\"]] | /plugs/0/1 | unknown-part",
                "\"plugs\": [[\"CAR.C1\", \"HU.C1\"], [\"CAR.C1\", \"HU.C1\"]] | /plugs/1/0 | mated-twice",
                "\"unused\": {\"HU.camera\": {\"as\": \"capped\"}} | /unused/HU.camera | unknown-terminal",
                "\"unused\": {\"AMP.camera\": {\"as\": \"capped\"}} | /unused/AMP.camera | unknown-part",
                "\"unused\": {\"CAR.C1-7/unit\": {\"as\": \"capped\"}} | /unused/CAR.C1-7~1unit | not-cut",
                "\"settings\": {\"AMP\": {}} | /settings/AMP | unknown-part",
                "\"settings\": {\"HU\": {\"marker\": \"3\"}} | /settings/HU/marker | unknown-setting",
                "\"settings\": {\"HU\": {\"maker\": \"4\"}} | /settings/HU/maker | unknown-choice",
            })
    void refusesAReferenceToWhatIsNotThere(String body, String pointer, String code) {
        assertThat(faults(body, "").get(0)).isEqualTo(pointer + " " + code);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '`',
            value = {
                ", \"unplugged\": [\"C1\", \"C7\"] | /vehicle/unplugged/1 | unknown-connector",
                ", \"cuts\": [\"C1-7\", \"C1-9\"] | /vehicle/cuts/1 | unknown-circuit",
                ", \"cuts\": [\"battery-plus\"] | /vehicle/cuts/0 | unknown-circuit",
                ", \"cuts\": [\"chassis\"] | /vehicle/cuts/0 | unknown-circuit",
            })
    void refusesToUnplugOrCutWhatTheMapHasNot(String vehicle, String pointer, String code) {
        assertThat(faults("\"connections\": {}", vehicle)).containsExactly(pointer + " " + code);
    }

    @Test
    void refusesTheWholeCircuitWhereItIsCut() {
        assertThat(faults(
                        "\"connections\": {\"W1\": {\"ends\": [\"CAR.C2-4\", \"HU.memory\"]}}",
                        ", \"cuts\": [\"C2-4\"]"))
                .containsExactly("/connections/W1/ends/0 cut");
    }

    @Test
    void refusesAModeThatTheDeviceHasNot() {
        assertThatThrownBy(() -> Hookups.hookup("""
                        {"parts": {"AMP": {"inline": {"terminals": {"a": {}}}, "mode": "bridged"}}}
                        """))
                .isInstanceOf(InvalidValueException.class)
                .hasMessageContaining("AMP has no mode \"bridged\"; there are none at all");
    }

    @Test
    void namesWhatIsKnownInstead() {
        assertThatThrownBy(() -> hookup("\"connections\": {\"W1\": {\"ends\": [\"CAR.C1-7\", \"HU.memry\"]}}", ""))
                .hasMessageContaining("HU has no terminal \"memry\"; known are C1-7, memory");
    }

    @Test
    void saysEveryFaultAtOnce() {
        assertThat(faults("""
                "connections": {"W1": {"ends": ["CAR.C1-9", "AMP.a"]}, "W2": {"ends": ["HU.x", "D.a"]}},
                "plugs": [["CAR.C8", "HU.C8"]], "unused": {"D.x": {"as": "capped"}}, "settings": {"HU": {"maker": "9"}}
                """, ", \"cuts\": [\"C8-1\"]"))
                .containsExactlyInAnyOrder(
                        "/vehicle/cuts/0 unknown-circuit",
                        "/connections/W1/ends/0 unknown-terminal",
                        "/connections/W1/ends/1 unknown-part",
                        "/connections/W2/ends/0 unknown-terminal",
                        "/plugs/0/0 unknown-connector",
                        "/plugs/0/1 unknown-connector",
                        "/unused/D.x unknown-terminal",
                        "/settings/HU/maker unknown-choice");
    }

    @ParameterizedTest
    @ValueSource(strings = {"CAR.battery-plus", "CAR.battery-minus", "CAR.chassis", "CAR.C1-7", "D.c"})
    void takesWhatEveryVehicleHasAndWhatIsOnlyUsedInsideAPart(String terminal) {
        assertThat(hookup("\"connections\": {\"W1\": {\"ends\": [\"" + terminal + "\", \"HU.memory\"]}}", ""))
                .isNotNull();
    }

    @Test
    void takesTheTwoEndsOfACutCircuit() {
        Hookup hookup = hookup("""
                "connections": {"W1": {"ends": ["CAR.C2-4/unit", "D.a"]}, "W2": {"ends": ["CAR.C2-4/harness", "HU.memory"]}}
                """, ", \"cuts\": [\"C2-4\"]");

        assertThat(hookup.cuts()).containsExactly("C2-4");
    }

    @Test
    void takesAnyValueOfASettingWithoutChoices() {
        assertThat(hookup("\"settings\": {\"HU\": {\"name\": \"anything\", \"maker\": \"3\"}}", ""))
                .isNotNull();
    }

    @Test
    void countsAConnectorThatIsMatedWithAnotherAsOffItsUnit() {
        Hookup hookup = hookup("\"plugs\": [[\"CAR.C1\", \"HU.C1\"]]", ", \"unplugged\": [\"C9\"]");

        assertThat(hookup.unplugged()).containsExactlyInAnyOrder("C1", "C9");
    }

    @Test
    void replacesTheTerminalsThatAModeChanges() {
        Hookup hookup = Hookups.hookup("{" + PARTS.replaceFirst("}}}}}}},", "}}}}}}, \"mode\": \"bridged\"},") + "}");

        assertThat(Objects.requireNonNull(hookup.terminalsOf("HU").get("memory"))
                        .electrical())
                .isInstanceOf(Electrical.Passive.class);
        assertThat(Objects.requireNonNull(hookup.terminalsOf("HU").get("C1-7")).electrical())
                .isNull();
    }

    @Test
    void leavesReferencesUnjudgedToWhatCouldNotBeLookedUp() {
        HookupDocument document = Hookups.document("""
                {"vehicle": {"id": "5e0a2c1e-0000-4000-8000-000000000000"}, "parts": {"HU": {"device": "GONE"}},
                 "connections": {"W1": {"ends": ["CAR.C1-7", "HU.memory"]}}, "plugs": [["CAR.C2", "HU.C2"]],
                 "settings": {"HU": {"maker": "3"}}}
                """);
        Invalid gone = new Invalid("/parts/HU/device", "unknown-device", "there is no device GONE");

        assertThatThrownBy(() -> Hookup.resolve(document, null, Map.of(), List.of(gone)))
                .asInstanceOf(InstanceOfAssertFactories.type(InvalidValueException.class))
                .satisfies(refusal -> assertThat(refusal.invalids()).containsExactly(gone));
    }

    @Test
    void refusesReferencesWhereThereIsNothingToLookThemUpIn() {
        HookupDocument document = Hookups.document("""
                {"vehicle": {"id": "5e0a2c1e-0000-4000-8000-000000000000"}, "parts": {"HU": {"device": "GONE"}}}
                """);

        assertThatThrownBy(() -> Hookup.resolve(document))
                .asInstanceOf(InstanceOfAssertFactories.type(InvalidValueException.class))
                .satisfies(refusal -> assertThat(refusal.invalids())
                        .extracting(Invalid::pointer)
                        .containsExactlyInAnyOrder("/vehicle/id", "/parts/HU/device"));
    }

    @Test
    void takesAHookupWithoutAVehicle() {
        Hookup hookup =
                Hookups.hookup("{" + PARTS + ", \"connections\": {\"W1\": {\"ends\": [\"CAR.chassis\", \"D.c\"]}}}");

        assertThat(hookup.map().circuits()).isEmpty();
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '`',
            value = {
                "{\"vehicle\": {}} | /vehicle | required",
                "{\"vehicle\": {\"id\": \"x\", \"inline\": {}}} | /vehicle | inconsistent",
                "{\"vehicle\": {\"inline\": {}, \"revision\": 1}} | /vehicle/revision | inconsistent",
                "{\"vehicle\": {\"id\": \"x\", \"revision\": 0}} | /vehicle/revision | out-of-range",
                "{\"parts\": {\"HU\": {}}} | /parts/HU | required",
                "{\"parts\": {\"HU\": {\"device\": \"A\", \"inline\": {}}}} | /parts/HU | inconsistent",
                "{\"parts\": {\"CAR\": {\"inline\": {}}}} | /parts/CAR | reserved",
                "{\"parts\": {\"H.U\": {\"inline\": {}}}} | /parts/H.U | bad-form",
                "{\"connections\": {\"W/1\": {\"ends\": [\"A.a\", \"B.b\"]}}} | /connections/W~11 | bad-form",
                "{\"connections\": {\"W1\": {\"ends\": [\"A.a\"]}}} | /connections/W1/ends | bad-pair",
                "{\"connections\": {\"W1\": {\"ends\": [\"A.a\", \"A.a\"]}}} | /connections/W1/ends | same-ends",
                "{\"connections\": {\"W1\": {\"ends\": [\"A.a\", \"B.b\"], \"fuse\": {\"ratingAmps\": 0}}}} | /connections/W1/fuse/ratingAmps | out-of-range",
                "{\"connections\": {\"W1\": {\"ends\": [\"A.a\", \"B.b\"], \"length\": {\"value\": 1, \"unit\": \"m\"}, \"fuse\": {\"ratingAmps\": 5, \"fromSource\": {\"value\": 2, \"unit\": \"m\"}}}}} | /connections/W1/fuse/fromSource | inconsistent",
                "{\"plugs\": [[\"A.C1\"]]} | /plugs/0 | bad-pair",
                "{\"plugs\": [[\"A.C1\", \"A.C1\"]]} | /plugs/0 | bad-pair",
            })
    void refusesADocumentThatCannotBe(String json, String pointer, String code) {
        assertThatThrownBy(() -> Hookups.document(json))
                .asInstanceOf(InstanceOfAssertFactories.type(ProblemException.class))
                .satisfies(problem -> assertThat(problem.errors())
                        .extracting(error -> error.pointer() + " " + error.code())
                        .containsExactly(pointer + " " + code));
    }

    private static List<String> faults(String body, String vehicle) {
        try {
            hookup(body, vehicle);
        } catch (InvalidValueException refusal) {
            return refusal.invalids().stream()
                    .map(invalid -> invalid.pointer() + " " + invalid.code())
                    .toList();
        }
        return List.of();
    }

    private static Hookup hookup(String body, String vehicle) {
        return Hookups.hookup("{" + VEHICLE.formatted(vehicle) + "," + PARTS + "," + body + "}");
    }
}
