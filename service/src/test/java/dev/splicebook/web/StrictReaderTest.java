package dev.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Assertions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;

class StrictReaderTest {

    @Test
    void readsOneOfEverything() {
        Sample read = StrictReader.read("""
                {"name": "left", "count": 2, "lit": true, "states": ["asleep", "parking-brake", "12V"], "tints": ["RD", "BK"],
                 "feeds": {"A": {"kind": "battery", "volts": 12}, "B": {"volts": 1.5, "maxAmps": 3, "kind": "battery"},
                           "C": {"kind": "mains", "plug": "flat"}},
                 "counts": {"GN": 3}, "pairs": [[1, 2], []], "below": {"name": "lower"}, "extra": {"any": [null]},
                 "battery": {"kind": "battery", "volts": 6}}""", Sample.class);

        assertThat(read.name()).isEqualTo("left");
        assertThat(read.states())
                .containsExactly(
                        Sample.SampleState.ASLEEP, Sample.SampleState.PARKING_BRAKE, Sample.SampleState.TWELVE_VOLTS);
        assertThat(read.tints()).isEqualTo(Set.of(new Sample.Tint("RD"), new Sample.Tint("BK")));
        assertThat(read.feeds())
                .isEqualTo(Map.of(
                        "A",
                        new Sample.Battery(12, null),
                        "B",
                        new Sample.Battery(1.5, 3.0),
                        "C",
                        new Sample.Mains("flat")));
        assertThat(read.counts()).isEqualTo(Map.of(new Sample.Tint("GN"), 3));
        assertThat(read.pairs()).isEqualTo(List.of(List.of(1, 2), List.of()));
        assertThat(read.below())
                .isEqualTo(new Sample(
                        "lower", null, null, List.of(), Set.of(), Map.of(), Map.of(), List.of(), null, null, null));
        assertThat(read.extra()).hasToString("{\"any\":[null]}");
        assertThat(read.battery()).isEqualTo(new Sample.Battery(6, null));
    }

    @Test
    void takesABareValueForAListWhereTheComponentSaysSo() {
        assertThat(StrictReader.read("{\"name\": \"a\", \"states\": \"asleep\"}", Sample.class)
                        .states())
                .containsExactly(Sample.SampleState.ASLEEP);
    }

    @Test
    void tellsAllFaultsOfShapeAtOnce() {
        assertThat(faultsOf("""
                        {"count": "12", "lit": 1, "states": ["awake"], "tints": ["RD", "RD", "red"], "nam": "x",
                         "feeds": {"A": {"kind": "battery", "volts": -1, "maxAmps": 5000}, "B": {"kind": "sun"}, "C": {}, "D": {"kind": 3},
                                   "E": {"kind": "mains", "plug": "round"}, "F": 7, "a/b~c": {"kind": "battery"}},
                         "counts": {"green": 1}, "pairs": [[1.5], 2], "below": {"name": null, "lit": "true"}}"""))
                .extracting(Fault::pointer, Fault::code)
                .containsExactlyInAnyOrder(
                        tuple("/name", "missing-field"),
                        tuple("/nam", "unknown-field"),
                        tuple("/count", "wrong-type"),
                        tuple("/lit", "wrong-type"),
                        tuple("/states/0", "unknown-value"),
                        tuple("/tints/2", "bad-form"),
                        tuple("/feeds/A/volts", "out-of-range"),
                        tuple("/feeds/A/maxAmps", "out-of-range"),
                        tuple("/feeds/B/kind", "unknown-value"),
                        tuple("/feeds/C/kind", "missing-field"),
                        tuple("/feeds/D/kind", "wrong-type"),
                        tuple("/feeds/E", "invalid"),
                        tuple("/feeds/F", "wrong-type"),
                        tuple("/feeds/a~1b~0c/volts", "missing-field"),
                        tuple("/counts/green", "bad-form"),
                        tuple("/pairs/0/0", "wrong-type"),
                        tuple("/pairs/1", "wrong-type"),
                        tuple("/below/name", "null-value"),
                        tuple("/below/lit", "wrong-type"));
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
                    {"name": 5}                          | name is the number 5, where text belongs
                    {"name": "a", "count": "12"}         | count is the text "12", where a whole number from -2147483648 to 2147483647 belongs
                    {"name": "a", "lit": null}           | lit is null, where true or false belongs
                    {"name": "a", "nmae": 1}             | nmae is not a field here; the nearest are name, lit, states
                    {"name": "a", "states": ["awake"]}   | entry 0 of states is "awake", which is not one of asleep, parking-brake, 12V
                    {"name": "a", "tints": ["RD", "RD"]} | entry 1 of tints repeats the text "RD"
                    []                                   | the body is a list, where an object belongs
                    "a"                                  | the body is the text "a", where an object belongs
                    """)
    void saysWhatIsWrongWithTheValue(String body, String detail) {
        assertThat(faultsOf(body)).extracting(Fault::detail).containsExactly(detail);
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', nullValues = "-", textBlock = """
                    {"name": "a", "below": {"name": "b", "name": "c"}} | /below/name | duplicate-key
                    {"name": NaN}                                     | /name       | not-a-number
                    [1, -Infinity]                                    | /1          | not-a-number
                    {"count": 1e400}                                  | /count      | number-out-of-range
                    {"count": -1e1000000000}                          | /count      | number-out-of-range
                    {"name": "a\\u0000b"}                              | /name       | bad-character
                    {"name": "a\\ud800b"}                              | /name       | bad-character
                    {"name": "\\udc00"}                                | /name       | bad-character
                    {"a\\udc00": 1}                                    | /a?         | bad-character
                    {"name": "a"                                      | ''          | malformed-json
                    {"name": "a",}                                    | ''          | malformed-json
                    {name: "a"}                                       | ''          | malformed-json
                    {'name': "a"}                                     | ''          | malformed-json
                    {"name": 012}                                     | ''          | malformed-json
                    {"name": +1}                                      | ''          | malformed-json
                    {"name": .5}                                      | ''          | malformed-json
                    {"name": tru}                                     | ''          | malformed-json
                    {"name": "a\\x"}                                   | ''          | malformed-json
                    {"name": "a"} {}                                  | ''          | trailing-content
                    {"name": "a"} ]                                   | ''          | malformed-json
                    /* a */ {"name": "a"}                             | ''          | malformed-json
                    ''                                                | ''          | empty-body
                    '  '                                              | ''          | empty-body
                    """)
    void refusesWhatIsNotJsonWithItsPlace(String body, String pointer, String code) {
        Fault fault = onlyFaultOf(body.getBytes(StandardCharsets.UTF_8));

        assertThat(fault.code()).isEqualTo(code);
        assertThat(String.valueOf(fault.pointer()).replaceAll("\\p{Cs}", "?")).isEqualTo(pointer);
        if (!code.equals("empty-body")) {
            assertThat(fault.detail()).containsPattern("\\(line 1, column \\d+\\)");
        }
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
                    [tru]    | the body is not well-formed JSON (line 1, column 2): Unrecognized token 'tru': was expecting a value
                    [1,]     | the body is not well-formed JSON (line 1, column 4): Unexpected character (']'): expected a value
                    [+1]     | the body is not well-formed JSON (line 1, column 3): Unexpected character ('+') in numeric value: JSON spec does not allow numbers to have plus signs
                    // note  | the body is not well-formed JSON (line 1, column 1): Unexpected character ('/')
                    [1       | the body ends before its JSON does (line 1, column 3)
                    """)
    void saysWhatIsMalformedWithoutHintsAtTheParser(String body, String detail) {
        assertThat(faultsOf(body)).extracting(Fault::detail).containsExactly(detail);
    }

    @Test
    void refusesBytesThatAreNotUtf8() {
        byte[] latin = "{\n\"name\": \"é\"}".getBytes(StandardCharsets.ISO_8859_1);
        assertThat(onlyFaultOf(latin).detail()).isEqualTo("the body is not UTF-8 (line 2, column 10)");

        byte[] halfPair = {'"', (byte) 0xed, (byte) 0xa0, (byte) 0x80, '"'};
        assertThat(onlyFaultOf(halfPair).code()).isEqualTo("bad-encoding");

        byte[] cutShort = {'"', (byte) 0xc3};
        assertThat(onlyFaultOf(cutShort).code()).isEqualTo("bad-encoding");

        byte[] wide = "{\"name\": \"a\"}".getBytes(StandardCharsets.UTF_16);
        assertThat(onlyFaultOf(wide).code()).isEqualTo("bad-encoding");
    }

    @Test
    void passesWhatIsOnlyUnusual() {
        assertThat(StrictReader.read("\ufeff{\"name\": \"\\ud83d\\ude00 😀\", \"count\": 2.0}", Sample.class))
                .extracting(Sample::name, Sample::count)
                .containsExactly("😀 😀", 2);
    }

    @Test
    void refusesWhatIsTooLargeWithoutDelay() {
        Assertions.assertTimeout(Duration.ofSeconds(60), () -> {
            assertThat(onlyFaultOf(("[".repeat(2000) + "]".repeat(2000)).getBytes(StandardCharsets.UTF_8)))
                    .extracting(Fault::code)
                    .isEqualTo("too-deep");
            assertThat(onlyFaultOf("[".repeat(1_000_000).getBytes(StandardCharsets.UTF_8)))
                    .extracting(Fault::code)
                    .isEqualTo("too-deep");
            assertThat(onlyFaultOf("{\"a\":".repeat(2000).getBytes(StandardCharsets.UTF_8)))
                    .extracting(Fault::code)
                    .isEqualTo("too-deep");
            assertThat(onlyFaultOf("9".repeat(1_000_000).getBytes(StandardCharsets.UTF_8)))
                    .extracting(Fault::code)
                    .isEqualTo("too-long");
            assertThat(onlyFaultOf(("{\"a\": {\"b\": " + "9".repeat(5000) + "}}").getBytes(StandardCharsets.UTF_8)))
                    .satisfies(fault -> assertThat(fault.code()).isEqualTo("too-long"))
                    .satisfies(fault -> assertThat(fault.pointer()).isEqualTo("/a/b"));
            assertThat(onlyFaultOf("9".repeat(400).getBytes(StandardCharsets.UTF_8)))
                    .extracting(Fault::code)
                    .isEqualTo("number-out-of-range");
            assertThat(onlyFaultOf(("\"" + "x".repeat(2_000_000) + "\"").getBytes(StandardCharsets.UTF_8)))
                    .extracting(Fault::code)
                    .isEqualTo("text-too-long");
            assertThat(onlyFaultOf(("{\"" + "x".repeat(300) + "\": 1}").getBytes(StandardCharsets.UTF_8)))
                    .extracting(Fault::code)
                    .isEqualTo("name-too-long");
            assertThat(onlyFaultOf(("[{}" + ",{}".repeat(600_000) + "]").getBytes(StandardCharsets.UTF_8)))
                    .extracting(Fault::code)
                    .isEqualTo("too-many-values");
        });
    }

    @Test
    void listsAHundredFaultsAndCountsTheRest() {
        StringBuilder body = new StringBuilder("{\"name\": \"a\"");
        for (int i = 0; i < 150_000; i++) {
            body.append(",\"field").append(i).append("\":1");
        }
        ProblemException problem = problemOf(body.append('}').toString().getBytes(StandardCharsets.UTF_8));

        assertThat(problem.errors()).hasSize(100);
        assertThat(problem.detail())
                .isEqualTo("the body has 150000 faults, of which the first 100 are listed; 149900 more are not");
    }

    @ParameterizedTest
    @ValueSource(strings = {"2147483648", "-2147483649", "1e300", "1.5"})
    void refusesNumbersThatAreNoInteger(String number) {
        assertThat(faultsOf("{\"name\": \"a\", \"count\": " + number + "}"))
                .extracting(Fault::code)
                .containsExactly("wrong-type");
    }

    @Test
    void keepsTheDocumentAsItWasSent() {
        Sent<Sample> sent = StrictReader.readSent(
                "{ \"name\" : \"a \\\" \\\\\" ,\n\t\"extra\": [1.50, 1e3, \"\\u00e9 é\"],\r\n \"count\": 2.0 }"
                        .getBytes(StandardCharsets.UTF_8),
                Sample.class);

        assertThat(sent.json())
                .isEqualTo("{\"name\":\"a \\\" \\\\\",\"extra\":[1.50,1e3,\"\\u00e9 é\"],\"count\":2.0}");
        assertThat(sent.value().count()).isEqualTo(2);
    }

    @Test
    void readsWhatIsWritten() {
        Sample sample = new Sample(
                "left",
                4,
                null,
                List.of(Sample.SampleState.PARKING_BRAKE, Sample.SampleState.TWELVE_VOLTS),
                Set.of(new Sample.Tint("BK")),
                Map.of("A", new Sample.Battery(4.0, 0.25)),
                Map.of(new Sample.Tint("GN"), 3),
                List.of(),
                null,
                null,
                new Sample.Battery(1e-9, null));

        String written = JsonWriting.mapper().writeValueAsString(sample);

        assertThat(written)
                .isEqualTo("{\"name\":\"left\",\"count\":4,\"states\":[\"parking-brake\",\"12V\"],\"tints\":[\"BK\"],"
                        + "\"feeds\":{\"A\":{\"kind\":\"battery\",\"volts\":4,\"maxAmps\":0.25}},\"counts\":{\"GN\":3},"
                        + "\"pairs\":[],\"battery\":{\"kind\":\"battery\",\"volts\":1.0E-9}}");
        assertThat(StrictReader.read(written, Sample.class)).isEqualTo(sample);
    }

    @Test
    void writesTheLastPageWithoutACursorAsNull() {
        assertThat(JsonWriting.mapper().writeValueAsString(new PageOf<>(List.of(1), null)))
                .isEqualTo("{\"items\":[1],\"next\":null}");
    }

    @Test
    void readsATreeToo() {
        JsonNode tree = StrictReader.parse("{\"volts\": 6, \"kind\": \"battery\"}".getBytes(StandardCharsets.UTF_8));

        assertThat(StrictReader.shape(tree, Sample.Feed.class)).isEqualTo(new Sample.Battery(6, null));
    }

    private static org.assertj.core.groups.Tuple tuple(Object... values) {
        return org.assertj.core.api.Assertions.tuple(values);
    }

    private static List<Fault> faultsOf(String body) {
        return problemOf(body.getBytes(StandardCharsets.UTF_8)).errors();
    }

    private static Fault onlyFaultOf(byte[] body) {
        List<Fault> faults = problemOf(body).errors();
        assertThat(faults).hasSize(1);
        return faults.get(0);
    }

    private static ProblemException problemOf(byte[] body) {
        ProblemException problem =
                catchThrowableOfType(ProblemException.class, () -> StrictReader.read(body, Sample.class));
        assertThat(problem).isNotNull();
        assertThat(problem.type()).isEqualTo(ProblemType.BAD_BODY);
        return problem;
    }
}
