package dev.splicebook.vehicle.web;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.testing.Calls;
import dev.splicebook.testing.ServiceIntegrationTest;
import java.net.http.HttpResponse;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.Test;
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

    @Test
    void servesTheVocabulary() {
        JsonNode functions = Calls.json(calls().get("/v1/functions"));

        assertThat(functions.path("items").size()).isGreaterThanOrEqualTo(100);
        JsonNode battery = Calls.json(calls().get("/v1/functions/power.battery"));
        assertThat(battery.path("din72552").asString()).isEqualTo("30");
        assertThat(battery.path("leadColour").asString()).isEqualTo("YE");
        assertThat(calls().get("/v1/functions/power.nothing").statusCode()).isEqualTo(404);
    }

    private HttpResponse<String> create(String name) {
        return calls().post("/v1/vehicles", MAP.formatted(name));
    }
}
