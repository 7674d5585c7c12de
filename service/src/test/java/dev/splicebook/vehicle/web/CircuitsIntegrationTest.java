package dev.splicebook.vehicle.web;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.testing.Calls;
import dev.splicebook.testing.ServiceIntegrationTest;
import jakarta.persistence.EntityManagerFactory;
import java.net.URLEncoder;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.stream.Stream;
import org.hibernate.SessionFactory;
import org.hibernate.stat.Statistics;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;
import tools.jackson.databind.JsonNode;

class CircuitsIntegrationTest extends ServiceIntegrationTest {

    private static final String MAP = """
            {"maker": "%s", "model": "Quarrel", "modelYears": {"from": 2020, "to": 2022},
             "connectors": {"C1": {"name": "radio plug", "location": "behind the radio"},
                            "DOOR-2": {"location": "Left door, rear edge"}},
             "circuits": {
               "C1-8": {"function": "audio.speaker.front-left.plus", "colour": "WH", "carries": ["Chimes", "hands-free"],
                        "whenPlugged": {"kind": "speaker-out", "side": "plus", "maxVolts": 7.5}},
               "chassis": {"note": "bolt M8 at the left kick panel"},
               "DOOR-2-A1": {"function": "audio.speaker.front-left.minus", "colour": "WH/BK", "loadEnd": "left front speaker"},
               "C1-10": {"function": "power.battery", "colour": "YE/RD", "source": "fuse F12/15A", "test": "12V at any time"},
               "C1-9": {}}}
            """;

    @Autowired
    private JdbcClient rows;

    @Autowired
    private EntityManagerFactory entities;

    @Test
    void listsTheCircuitsOfAVehicleInTheOrderOfItsMap() {
        String maker = maker();
        String id = create(maker);

        List<JsonNode> items = items("/v1/vehicles/" + id + "/circuits").toList();

        assertThat(items)
                .extracting(CircuitsIntegrationTest::name)
                .containsExactly("C1-8", "chassis", "DOOR-2-A1", "C1-10", "C1-9");
        JsonNode first = items.get(0);
        assertThat(first.path("vehicle").asString()).isEqualTo(id);
        assertThat(first.path("revision").asInt()).isEqualTo(1);
        assertThat(first.path("maker").asString()).isEqualTo(maker);
        assertThat(first.path("yearFrom").asInt()).isEqualTo(2020);
        assertThat(first.path("yearTo").asInt()).isEqualTo(2022);
        assertThat(first.path("connector").asString()).isEqualTo("C1");
        assertThat(first.path("pin").asString()).isEqualTo("8");
        assertThat(first.path("connectorName").asString()).isEqualTo("radio plug");
        assertThat(first.path("location").asString()).isEqualTo("behind the radio");
        assertThat(first.path("circuit").toString())
                .isEqualTo("{\"function\":\"audio.speaker.front-left.plus\","
                        + "\"colour\":\"WH\",\"carries\":[\"Chimes\",\"hands-free\"],"
                        + "\"whenPlugged\":{\"kind\":\"speaker-out\",\"side\":\"plus\",\"maxVolts\":7.5}}");
        assertThat(items.get(1).has("connector")).isFalse();
        assertThat(items.get(1).has("location")).isFalse();
        assertThat(items.get(1).path("pin").asString()).isEqualTo("chassis");
        assertThat(items.get(2).path("connector").asString()).isEqualTo("DOOR-2");
        assertThat(items.get(2).path("pin").asString()).isEqualTo("A1");
        assertThat(items.get(2).has("connectorName")).isFalse();
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
                    function=audio.speaker.front-left.plus             | C1-8
                    function=audio.speaker.front-left                  | C1-8 DOOR-2-A1
                    function=audio                                     | C1-8 DOOR-2-A1
                    function=audio.line                                | ''
                    function=power                                     | C1-10
                    colour=WH                                          | C1-8
                    colour=WH/BK                                       | DOOR-2-A1
                    colour=BK                                          | ''
                    connector=C1                                       | C1-8 C1-10 C1-9
                    connector=DOOR-2                                   | DOOR-2-A1
                    connector=DOOR                                     | ''
                    connector=c1                                       | ''
                    text=radio                                         | C1-8 C1-10 C1-9
                    text=RADIO PLUG                                    | C1-8 C1-10 C1-9
                    text=plug behind                                   | C1-8 C1-10 C1-9
                    text=left                                          | chassis DOOR-2-A1
                    text=left spea                                     | DOOR-2-A1
                    text=f12                                           | C1-10
                    text=15a                                           | C1-10
                    text=F12/15A                                       | C1-10
                    text=12v                                           | C1-10
                    text=chim                                          | C1-8
                    text=hands-free                                    | C1-8
                    text=free                                          | C1-8
                    text=m8 kick                                       | chassis
                    text=adio                                          | ''
                    text=radio&colour=YE/RD                            | C1-10
                    text=radio&connector=C1&function=audio&colour=WH   | C1-8
                    """)
    void findsWhatIsAskedFor(String query, String names) {
        String maker = maker();
        String id = create(maker);
        String encoded = encodeValues(query);

        assertThat(items("/v1/vehicles/" + id + "/circuits?" + encoded)
                        .map(CircuitsIntegrationTest::name)
                        .toList())
                .containsExactlyElementsOf(split(names));
        assertThat(items("/v1/circuits?maker=" + maker + "&" + encoded)
                        .map(CircuitsIntegrationTest::name)
                        .toList())
                .containsExactlyElementsOf(split(names));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "radio & plug", "radio | plug", "!radio", "radio:*", "(radio", "radio)", "radio <-> plug", "'radio'",
                "\"radio\"", "radio\\", "radio:Q", "radio''plug", "radio%", "_radio", "$$radio$$", ":text radio?",
            })
    void takesWhatMeansSomethingToTheDatabaseForBlanks(String text) {
        String id = create(maker());
        List<String> found = items("/v1/vehicles/" + id + "/circuits?text=" + encode(text))
                .map(CircuitsIntegrationTest::name)
                .toList();

        // the last two have words more, which are nowhere
        boolean aWordTooMany = text.contains(":Q") || text.startsWith(":text");
        assertThat(found).isEqualTo(aWordTooMany ? List.of() : List.of("C1-8", "C1-10", "C1-9"));
    }

    @Test
    void searchesEveryVehicleByItsMakerModelAndYear() {
        String maker = maker();
        String id = create(maker);
        String other = create(maker + "2");

        assertThat(vehicles("maker=" + maker)).containsOnly(id, other);
        assertThat(vehicles("maker=" + maker + "2&model=quar")).containsOnly(other);
        assertThat(vehicles("maker=" + maker + "&year=2022")).containsOnly(id, other);
        assertThat(vehicles("maker=" + maker + "&year=2023")).isEmpty();
        assertThat(vehicles("maker=" + maker + "&model=uarrel")).isEmpty();
    }

    @Test
    void findsOnlyWhatTheLatestRevisionHas() {
        String maker = maker();
        String id = create(maker);
        HttpResponse<String> added = calls().with("If-Match", "\"1\"")
                .post(
                        "/v1/vehicles/" + id + "/revisions",
                        "{\"maker\": \"" + maker + "\", \"circuits\": {\"C1-8\": {\"colour\": \"GN\"}}}");
        assertThat(added.statusCode()).isEqualTo(201);

        JsonNode only = items("/v1/circuits?maker=" + maker).findFirst().orElseThrow();
        assertThat(only.path("revision").asInt()).isEqualTo(2);
        assertThat(items("/v1/circuits?colour=WH&maker=" + maker)).isEmpty();
        assertThat(items("/v1/vehicles/" + id + "/circuits")).hasSize(1);
        assertThat(items("/v1/vehicles/" + id + "/circuits?revision=2")).hasSize(1);
        assertThat(items("/v1/vehicles/" + id + "/circuits?revision=1")).hasSize(5);
        assertThat(items("/v1/vehicles/" + id + "/circuits?revision=1&colour=WH"))
                .hasSize(1);
        for (String revision : List.of("0", "3", "-1")) {
            assertThat(calls().get("/v1/vehicles/" + id + "/circuits?revision=" + revision)
                            .statusCode())
                    .isEqualTo(404);
        }
    }

    @Test
    void walksTheCircuitsOfSeveralVehiclesPageByPage() {
        String maker = maker();
        List<String> expected = new ArrayList<>();
        for (int at = 0; at < 3; at++) {
            String id = create(maker);
            for (String name : List.of("C1-8", "chassis", "DOOR-2-A1", "C1-10", "C1-9")) {
                expected.add(id + " " + name);
            }
        }
        for (int limit : List.of(1, 2, 5, 7, 14, 15, 200)) {
            assertThat(walk("/v1/circuits?maker=" + maker + "&limit=" + limit)).isEqualTo(expected);
        }
        assertThat(walk("/v1/circuits?function=audio&limit=1&maker=" + maker)).hasSize(6);
    }

    @Test
    void staysWithTheRevisionThatItsFirstPageIsOf() {
        String maker = maker();
        String id = create(maker);
        String path = "/v1/vehicles/" + id + "/circuits?limit=2";
        JsonNode first = Calls.json(calls().get(path));
        calls().with("If-Match", "\"1\"")
                .post(
                        "/v1/vehicles/" + id + "/revisions",
                        "{\"circuits\": {\"C1-8\": {}, \"C1-9\": {}, \"C1-10\": {}}}");

        JsonNode second =
                Calls.json(calls().get(path + "&cursor=" + first.path("next").asString()));

        assertThat(second.path("items").valueStream().map(CircuitsIntegrationTest::name))
                .containsExactly("DOOR-2-A1", "C1-10");
        assertThat(walk(path)).hasSize(3);
    }

    @Test
    void neverShowsAnotherFirmsPrivateVehicle() {
        String maker = maker();
        String id = create(maker);
        Calls stranger = anonymousCalls().withKey(anotherFirm());

        assertThat(Calls.json(stranger.get("/v1/circuits?maker=" + maker)).path("items"))
                .isEmpty();
        assertThat(Calls.json(stranger.get("/v1/vehicles?maker=" + maker)).path("items"))
                .isEmpty();
        assertThat(stranger.get("/v1/vehicles/" + id + "/circuits").statusCode())
                .isEqualTo(404);
        assertThat(stranger.get("/v1/vehicles/" + UUID.randomUUID() + "/circuits")
                        .statusCode())
                .isEqualTo(404);

        rows.sql("update vehicles set shared = true where id = :id")
                .param("id", UUID.fromString(id))
                .update();

        assertThat(Calls.json(stranger.get("/v1/circuits?maker=" + maker)).path("items"))
                .hasSize(5);
        assertThat(stranger.get("/v1/vehicles/" + id + "/circuits").statusCode())
                .isEqualTo(200);
    }

    @Test
    void namesTheNearestFunctionsForAnUnknownOne() {
        HttpResponse<String> refused = calls().get("/v1/circuits?function=power.batery");

        assertBadParameter(refused, "function");
        assertThat(Calls.json(refused).path("detail").asString()).contains("power.batery", "power.battery");
    }

    @ParameterizedTest
    @CsvSource({
        "function, ''",
        "function, POWER.BATTERY",
        "function, power.*",
        "function, %00",
        "colour, white",
        "colour, ''",
        "colour, WH/BK/RD",
        "colour, %00",
        "connector, ''",
        "connector, %00",
        "connector, %20%20",
        "text, ''",
        "text, %20",
        "text, %00",
        "text, radio%00",
        "text, radio%0Aplug",
        "text, &%7C",
        "text, !():*%27%22%26",
        "text, \u2026",
        "limit, 0",
        "cursor, x",
        "cursor, W10",
        "cursor, WyIxIl0",
        "cursor, WyJhIiwiYiIsImMiXQ",
        "cursor, WyIxIiwiMiIsIjMiLCI0Il0",
    })
    void refusesWhatCannotBeAskedFor(String parameter, String value) {
        String query = "?" + parameter + "=" + value.replace("&", "%26").replace("\u2026", "%E2%80%A6");
        String id = create(maker());

        assertBadParameter(calls().get("/v1/circuits" + query), parameter);
        assertBadParameter(calls().get("/v1/vehicles/" + id + "/circuits" + query), parameter);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "maker=%00",
                "maker=%20",
                "model=%07",
                "year=1949",
                "year=2101",
                "year=x",
                "year=99999999999",
                "year=2020.5",
            })
    void refusesWhatNoVehicleCanBe(String query) {
        assertBadParameter(calls().get("/v1/circuits?" + query), query.substring(0, query.indexOf('=')));
    }

    @ParameterizedTest
    @ValueSource(strings = {"x", "1.5", "99999999999"})
    void refusesWhatIsNoRevision(String revision) {
        assertBadParameter(
                calls().get("/v1/vehicles/" + create(maker()) + "/circuits?revision=" + revision), "revision");
    }

    @Test
    void refusesAHugeText() {
        for (String parameter : List.of("text", "connector", "maker", "model", "function", "colour")) {
            assertBadParameter(calls().get("/v1/circuits?" + parameter + "=" + "a".repeat(2000)), parameter);
            HttpResponse<String> beyond = calls().get("/v1/circuits?" + parameter + "=" + "a".repeat(10_000));
            assertThat(beyond.statusCode()).isIn(400, 414, 431);
            assertThat(Calls.header(beyond, "Content-Type")).startsWith("application/problem+json");
        }
    }

    @Test
    void takesALongWordByItsBeginning() {
        String maker = maker();
        String word = "x".repeat(1500);
        calls().post(
                        "/v1/vehicles",
                        "{\"maker\": \"" + maker + "\", \"circuits\": {\"C1-1\": {\"note\": \"" + word + " end\"}}}");

        assertThat(items("/v1/circuits?maker=" + maker + "&text=xxx%20end")).hasSize(1);
        assertThat(items("/v1/circuits?maker=" + maker + "&text=" + "x".repeat(200)))
                .hasSize(1);
        assertThat(items("/v1/circuits?maker=" + maker + "&text=" + "x".repeat(50) + "y"))
                .isEmpty();
    }

    @Test
    void writesTheRowsOfALargeMapInBatches() {
        StringBuilder map = new StringBuilder("{\"circuits\": {");
        for (int pin = 1; pin <= 2000; pin++) {
            map.append(pin == 1 ? "" : ",").append("\"C1-" + pin + "\": {\"note\": \"a wire to count\"}");
        }
        Statistics statistics = entities.unwrap(SessionFactory.class).getStatistics();
        statistics.setStatisticsEnabled(true);
        try {
            long before = statistics.getPrepareStatementCount();

            assertThat(calls().post("/v1/vehicles", map.append("}}").toString()).statusCode())
                    .isEqualTo(201);

            // other tests do not run meanwhile; without batches there would be one statement a circuit
            assertThat(statistics.getPrepareStatementCount() - before).isLessThan(100);
        } finally {
            statistics.setStatisticsEnabled(false);
        }
    }

    private List<String> vehicles(String query) {
        return items("/v1/circuits?" + query)
                .map(item -> item.path("vehicle").asString())
                .toList();
    }

    private List<String> walk(String path) {
        List<String> met = new ArrayList<>();
        String next = "";
        do {
            JsonNode page = Calls.json(calls().get(path + next));
            page.path("items").forEach(item -> met.add(item.path("vehicle").asString() + " " + name(item)));
            next = page.path("next").isNull()
                    ? ""
                    : "&cursor=" + page.path("next").asString();
        } while (!next.isEmpty());
        return met;
    }

    private Stream<JsonNode> items(String path) {
        HttpResponse<String> answer = calls().get(path);
        assertThat(answer.statusCode()).as(path + " " + answer.body()).isEqualTo(200);
        return Calls.json(answer).path("items").valueStream();
    }

    private static void assertBadParameter(HttpResponse<String> answer, String parameter) {
        assertThat(answer.statusCode()).as(answer.body()).isEqualTo(400);
        assertThat(Calls.header(answer, "Content-Type")).startsWith("application/problem+json");
        assertThat(Calls.json(answer).path("type").asString()).isEqualTo("/problems/bad-parameter");
        assertThat(Calls.json(answer).at("/errors/0/parameter").asString()).isEqualTo(parameter);
    }

    private static String name(JsonNode item) {
        return item.path("name").asString();
    }

    private static List<String> split(String names) {
        return names.isEmpty() ? List.of() : List.of(names.split(" "));
    }

    private static String encodeValues(String query) {
        return Stream.of(query.split("&"))
                .map(pair -> pair.substring(0, pair.indexOf('=') + 1) + encode(pair.substring(pair.indexOf('=') + 1)))
                .reduce((one, other) -> one + "&" + other)
                .orElseThrow();
    }

    private static String encode(String value) {
        return URLEncoder.encode(value, StandardCharsets.UTF_8).replace("+", "%20");
    }

    private String create(String maker) {
        return Calls.json(calls().post("/v1/vehicles", MAP.formatted(maker)))
                .path("id")
                .asString();
    }

    /** A name that no other test's vehicle has. */
    private static String maker() {
        return "Ondrake" + UUID.randomUUID().toString().substring(0, 13);
    }

    /** The key of a firm of its own. */
    private String anotherFirm() {
        String key = "key-" + UUID.randomUUID();
        UUID firm = UUID.randomUUID();
        UUID shop = UUID.randomUUID();
        rows.sql("insert into firms (id, name) values (:firm, 'Another')")
                .param("firm", firm)
                .update();
        rows.sql("insert into shops (id, owner_firm, name) values (:shop, :firm, 'Another')")
                .param("shop", shop)
                .param("firm", firm)
                .update();
        rows.sql("insert into api_keys (id, owner_firm, shop, name, sha256)"
                        + " values (gen_random_uuid(), :firm, :shop, 'first', sha256(cast(:key as bytea)))")
                .param("firm", firm)
                .param("shop", shop)
                .param("key", key.getBytes(StandardCharsets.UTF_8))
                .update();
        return key;
    }
}
