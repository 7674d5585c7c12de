package dev.splicebook.vehicle.web;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.testing.Calls;
import dev.splicebook.testing.ServiceIntegrationTest;
import java.net.http.HttpResponse;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;
import tools.jackson.databind.JsonNode;

class VehiclesIntegrationTest extends ServiceIntegrationTest {

    private static final String MAP = """
            {"model": "Quarrel", "maker": "Ondrake %s", "modelYears": {"from": 2020},
             "circuits": {"C1-8": {"function": "power.accessory", "colour": "RD/BU", "electrical": {"kind": "supply", "maxAmps": 1.50}},
                          "C1-2": {"whenPlugged": {"kind": "speaker-out", "side": "plus"}, "whenUnplugged": {"kind": "speaker-in"}}}}
            """;

    @Autowired
    private JdbcClient rows;

    @Test
    void givesBackTheDocumentAsItWasSent() {
        HttpResponse<String> created = create("as sent");
        String id = Calls.json(created).path("id").asString();

        assertThat(created.statusCode()).isEqualTo(201);
        assertThat(Calls.header(created, "ETag")).isEqualTo("\"1\"");
        assertThat(Calls.header(created, "Location")).isEqualTo("/v1/vehicles/" + id);
        HttpResponse<String> read = calls().get("/v1/vehicles/" + id);
        assertThat(Calls.json(read)).isEqualTo(Calls.json(created));
        String document = Calls.json(read).path("document").toString();
        assertThat(document).startsWith("{\"model\":\"Quarrel\",\"maker\":\"Ondrake as sent\"");
        HttpResponse<String> again = calls().post("/v1/vehicles", document);
        assertThat(Calls.json(again).path("document").toString()).isEqualTo(document);
    }

    @Test
    void addsARevisionOnlyToTheLatest() {
        String id = Calls.json(create("revised")).path("id").asString();
        String path = "/v1/vehicles/" + id + "/revisions";

        assertThat(calls().post(path, MAP.formatted("two")).statusCode()).isEqualTo(428);
        assertThat(calls().with("If-Match", "\"7\"")
                        .post(path, MAP.formatted("two"))
                        .statusCode())
                .isEqualTo(412);
        HttpResponse<String> added = calls().with("If-Match", "\"1\"").post(path, MAP.formatted("two"));
        assertThat(added.statusCode()).isEqualTo(201);
        assertThat(Calls.header(added, "ETag")).isEqualTo("\"2\"");
        assertThat(calls().with("If-Match", "\"1\"")
                        .post(path, MAP.formatted("three"))
                        .statusCode())
                .isEqualTo(412);

        assertThat(Calls.json(calls().get("/v1/vehicles/" + id))
                        .path("revision")
                        .asInt())
                .isEqualTo(2);
        assertThat(Calls.json(calls().get(path + "/1")).at("/document/maker").asString())
                .isEqualTo("Ondrake revised");
        assertThat(calls().get(path + "/3").statusCode()).isEqualTo(404);
        assertThat(Calls.json(calls().get(path))
                        .path("items")
                        .valueStream()
                        .map(item -> item.path("revision").asInt()))
                .containsExactly(2, 1);
    }

    @Test
    void letsOneOfManyWinTheSameRevision() throws Exception {
        String id = Calls.json(create("contended")).path("id").asString();
        ExecutorService threads = Executors.newFixedThreadPool(4);
        try {
            Callable<Integer> add = () -> calls().with("If-Match", "\"1\"")
                    .post("/v1/vehicles/" + id + "/revisions", MAP.formatted("winner"))
                    .statusCode();
            int won = 0;
            for (Future<Integer> status : threads.invokeAll(List.of(add, add, add, add, add, add))) {
                assertThat(status.get()).isIn(201, 412);
                won += status.get() == 201 ? 1 : 0;
            }
            assertThat(won).isEqualTo(1);
        } finally {
            threads.shutdownNow();
        }
    }

    @Test
    void keepsARowForEachCircuit() {
        UUID id = UUID.fromString(Calls.json(create("in rows")).path("id").asString());

        List<String> circuits = rows.sql("select connector || '-' || pin || ' ' || coalesce(function, '?') || ' '"
                        + " || coalesce(kind_plugged, '?') || ' ' || coalesce(kind_unplugged, '?')"
                        + " from vehicle_circuits where vehicle_id = :id order by pin")
                .param("id", id)
                .query(String.class)
                .list();

        assertThat(circuits).containsExactly("C1-2 ? speaker-out speaker-in", "C1-8 power.accessory supply supply");
    }

    @Test
    void walksTheListPageByPage() {
        String maker = "Walker " + UUID.randomUUID();
        Set<String> made = new HashSet<>();
        for (int at = 0; at < 5; at++) {
            made.add(Calls.json(calls().post("/v1/vehicles", "{\"maker\": \"" + maker + "\", \"circuits\": {}}"))
                    .path("id")
                    .asString());
        }
        Set<String> met = new HashSet<>();
        String query = "/v1/vehicles?limit=2&maker="
                + maker.toLowerCase(java.util.Locale.ROOT).replace(" ", "%20");
        String next = "";
        for (int page = 0; page < 3; page++) {
            JsonNode list = Calls.json(calls().get(query + next));
            list.path("items").forEach(item -> met.add(item.path("id").asString()));
            next = "&cursor=" + list.path("next").asString("");
            assertThat(list.path("next").isNull()).isEqualTo(page == 2);
        }
        assertThat(met).isEqualTo(made);
        assertThat(calls().get("/v1/vehicles?cursor=nonsense").statusCode()).isEqualTo(400);
        assertThat(calls().get("/v1/vehicles?limit=0").statusCode()).isEqualTo(400);
    }

    @Test
    void answersTheSameForWhatIsNotThere() {
        assertThat(calls().get("/v1/vehicles/" + UUID.randomUUID()).statusCode())
                .isEqualTo(404);
        assertThat(calls().get("/v1/vehicles/not-an-id").statusCode()).isIn(400, 404);
        assertThat(calls().with("If-Match", "\"1\"")
                        .post("/v1/vehicles/" + UUID.randomUUID() + "/revisions", MAP.formatted("x"))
                        .statusCode())
                .isEqualTo(404);
    }

    @Test
    void storesNothingOfABadMap() {
        long before =
                rows.sql("select count(*) from vehicles").query(Long.class).single();

        HttpResponse<String> refused = calls().post("/v1/vehicles", """
                {"circuits": {"C1-1": {"function": "power.batery"}, "C1/2": {}, "C1-3": {"electrical": {"kind": "supply", "fuseAmps": 0}}}}
                """);

        assertThat(refused.statusCode()).isEqualTo(400);
        assertThat(refused.body()).contains("/circuits/C1-1/function", "power.battery", "fuseAmps");
        assertThat(rows.sql("select count(*) from vehicles").query(Long.class).single())
                .isEqualTo(before);
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', quoteCharacter = '`', textBlock = """
                    ``                                                     | a b c d
                    &model=quar                                            | a b c
                    &model=QUARREL&year=2020                               | a b
                    &year=2022                                             | b c
                    &year=2023                                             | ``
                    &equipment=navigation                                  | a b
                    &equipment=navigation&equipment=factory-amplifier      | b
                    &equipment=factory-amplifier,navigation                | b
                    &equipment=Navigation                                  | ``
                    &equipment=navi                                        | ``
                    &text=navi                                             | a b
                    &text=NAV%20AMPL                                       | b
                    &text=quarrel%20estate                                 | c
                    &text=estate                                           | c d
                    &text=Norway                                           | d
                    &text=orway                                            | ``
                    &text=amplifier&year=2021&model=q&equipment=navigation | b
                    """)
    void findsVehiclesByEverythingThatIsGiven(String query, String names) {
        String maker = "Ondrake" + UUID.randomUUID();
        Map<String, String> idsByName = new HashMap<>();
        Map<String, String> maps = new LinkedHashMap<>();
        maps.put("a", """
                "model": "Quarrel", "modelYears": {"from": 2020}, "equipment": ["navigation"]
                """);
        maps.put("b", """
                "model": "Quarrel S", "modelYears": {"from": 2020, "to": 2022},
                "equipment": ["navigation", "factory-amplifier"]
                """);
        maps.put("c", """
                "model": "quarrel", "modelYears": {"from": 2021, "to": 2022}, "notes": "The estate: another tail-gate."
                """);
        maps.put("d", """
                "model": "Estate", "market": "Norway"
                """);
        maps.forEach((name, fields) -> idsByName.put(
                Calls.json(calls().post("/v1/vehicles", "{\"maker\": \"" + maker + "\", " + fields + "}"))
                        .path("id")
                        .asString(),
                name));

        JsonNode list = Calls.json(calls().get("/v1/vehicles?maker=" + maker + query));

        assertThat(list.path("items")
                        .valueStream()
                        .map(item -> idsByName.get(item.path("id").asString())))
                .containsExactlyElementsOf(names.isEmpty() ? List.of() : List.of(names.split(" ")));
        assertThat(list.has("vin")).isFalse();
    }

    @Test
    void tellsInListsWhatSetsAVehicleApart() {
        String id = Calls.json(calls().post("/v1/vehicles", """
                        {"market": "Norway", "equipment": ["b-pillar-camera", "amplifier"], "circuits": {"C1-1": {}, "C1-2": {}}}
                        """)).path("id").asString();

        JsonNode summary = Calls.json(calls().get("/v1/vehicles/" + id + "/revisions"))
                .path("items")
                .path(0);

        assertThat(summary.path("market").asString()).isEqualTo("Norway");
        assertThat(summary.path("equipment").toString()).isEqualTo("[\"b-pillar-camera\",\"amplifier\"]");
        assertThat(summary.path("circuits").asInt()).isEqualTo(2);
    }

    @Test
    void findsVehiclesByVin() {
        String maker = "Ondrake" + UUID.randomUUID();
        String inPattern = createWith(maker, "\"vinPatterns\": [\"5ZX\", \"5ZZAA1?A\"]");
        String inYear = createWith(maker, "\"vinPatterns\": [\"5ZZ\"], \"modelYears\": {\"from\": 2019, \"to\": 2020}");
        createWith(maker, "\"vinPatterns\": [\"5ZZ\"], \"modelYears\": {\"from\": 1990}");
        createWith(maker, "\"vinPatterns\": [\"5ZZAA2\"]");
        createWith(maker, "\"modelYears\": {\"from\": 2020}");

        JsonNode list = Calls.json(calls().get("/v1/vehicles?vin=5zzaa1ka7l0000017&maker=" + maker));

        assertThat(list.path("items").valueStream().map(item -> item.path("id").asString()))
                .containsExactly(inPattern, inYear);
        assertThat(list.path("vin").toString())
                .isEqualTo("{\"vin\":\"5ZZAA1KA7L0000017\",\"wmi\":\"5ZZ\","
                        + "\"region\":\"North America\",\"modelYears\":[2020],\"checkDigit\":\"right\"}");
    }

    @Test
    void findsVehiclesOfEitherCycleByAVinFromElsewhere() {
        String maker = "Ondrake" + UUID.randomUUID();
        String early = createWith(maker, "\"vinPatterns\": [\"WZZ\"], \"modelYears\": {\"from\": 1990}");
        String late = createWith(maker, "\"vinPatterns\": [\"WZZ\"], \"modelYears\": {\"from\": 2018, \"to\": 2020}");
        String never = createWith(maker, "\"vinPatterns\": [\"WZZ\"], \"modelYears\": {\"from\": 1991, \"to\": 2019}");

        JsonNode bothCycles = Calls.json(calls().get("/v1/vehicles?vin=WZZAA1KA1L0000017&maker=" + maker));
        JsonNode noCode = Calls.json(calls().get("/v1/vehicles?vin=WZZAA1KA100000017&maker=" + maker));

        assertThat(bothCycles
                        .path("items")
                        .valueStream()
                        .map(item -> item.path("id").asString()))
                .containsExactly(early, late);
        assertThat(bothCycles.at("/vin/modelYears").toString()).isEqualTo("[1990,2020]");
        assertThat(bothCycles.at("/vin/checkDigit").asString()).isEqualTo("not-used");
        assertThat(noCode.path("items")
                        .valueStream()
                        .map(item -> item.path("id").asString()))
                .containsExactly(early, late, never);
        assertThat(noCode.at("/vin/modelYears").toString()).isEqualTo("[]");
    }

    @Test
    void findsByVinOnlyWhatTheLatestRevisionSays() {
        String maker = "Ondrake" + UUID.randomUUID();
        String id = createWith(maker, "\"vinPatterns\": [\"5ZZ\"]");
        calls().with("If-Match", "\"1\"").post("/v1/vehicles/" + id + "/revisions", "{\"maker\": \"" + maker + "\"}");

        assertThat(Calls.json(calls().get("/v1/vehicles?vin=5ZZAA1KA7L0000017&maker=" + maker))
                        .path("items"))
                .isEmpty();
    }

    @Test
    void saysEachFaultOfAVin() {
        JsonNode problem = Calls.json(calls().get("/v1/vehicles?vin=5ZZAA1KA2U000001"));
        JsonNode wrongDigit = Calls.json(calls().get("/v1/vehicles?vin=5ZZAA1KA2L0000017"));
        JsonNode both = Calls.json(calls().get("/v1/vehicles?vin=IZZAA1KA2L000001"));

        assertThat(problem.at("/errors/0/code").asString()).isEqualTo("bad-length");
        assertThat(wrongDigit.path("detail").asString())
                .isEqualTo("character 9 of the VIN is 2; the check digit reckoned from the others is 7");
        assertThat(both.path("errors")
                        .valueStream()
                        .map(error -> error.path("parameter").asString() + " "
                                + error.path("code").asString()))
                .containsExactly("vin bad-length", "vin bad-character");
        assertThat(both.path("type").asString()).isEqualTo("/problems/bad-parameter");
    }

    @ParameterizedTest
    @CsvSource({
        "maker, ''",
        "maker, %00",
        "maker, %20",
        "model, a%00b",
        "year, 1949",
        "year, 2101",
        "year, abc",
        "year, 2020.5",
        "year, 99999999999999",
        "equipment, %00",
        "equipment, %20",
        "text, ''",
        "text, %20%09",
        "text, %00",
        "text, %26%7C!()%3A*%27%22%5C",
        "vin, ''",
        "vin, %20",
        "vin, %205ZZAA1KA7L0000017",
        "vin, 5ZZAA1KA7L00000%00",
        "vin, 5ZZAA1KA7L000001%25",
        "cursor, WyIrMTAwMDAwMDAwMC0xMi0zMVQyMzo1OTo1OVoiLCI1YjBjNmYwZS03YTQxLTRkNWMtOWQzYS02MWYyYzhlNGE3MDEiXQ",
    })
    void refusesWhatCannotBeAskedFor(String parameter, String value) {
        HttpResponse<String> refused = calls().get("/v1/vehicles?" + parameter + "=" + value);

        assertThat(refused.statusCode()).as(refused.body()).isEqualTo(400);
        assertThat(Calls.json(refused).path("type").asString()).isEqualTo("/problems/bad-parameter");
        assertThat(Calls.json(refused).at("/errors/0/parameter").asString()).isEqualTo(parameter);
    }

    @Test
    void servesTheVocabulary() {
        JsonNode functions = Calls.json(calls().get("/v1/functions"));

        assertThat(functions.path("items").size()).isGreaterThanOrEqualTo(100);
        JsonNode battery = Calls.json(calls().get("/v1/functions/power.battery"));
        assertThat(battery.path("din72552").asString()).isEqualTo("30");
        assertThat(battery.path("leadColour").asString()).isEqualTo("YE");
        assertThat(calls().get("/v1/functions/power.nothing").statusCode()).isEqualTo(404);
    }

    private String createWith(String maker, String fields) {
        return Calls.json(calls().post("/v1/vehicles", "{\"maker\": \"" + maker + "\", " + fields + "}"))
                .path("id")
                .asString();
    }

    private HttpResponse<String> create(String name) {
        return calls().post("/v1/vehicles", MAP.formatted(name));
    }
}
