package dev.splicebook.database;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.testing.Calls;
import dev.splicebook.testing.OtherFirm;
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
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;

class IdempotencyIntegrationTest extends ServiceIntegrationTest {

    private static final String KEY = "Idempotency-Key";

    private final String key = UUID.randomUUID().toString();
    private final String maker = "Ondrake " + key;

    @Autowired
    private JdbcClient rows;

    @Test
    void tellsTheSameAnswerAgain() {
        HttpResponse<String> first = keyed().post("/v1/vehicles", map("one"));
        String id = Calls.json(first).path("id").asString();
        calls().with("If-Match", "\"1\"").post("/v1/vehicles/" + id + "/revisions", map("two"));
        HttpResponse<String> second = keyed().post("/v1/vehicles", map("one"));

        assertThat(first.statusCode()).as(first.body()).isEqualTo(201);
        assertThat(Calls.header(first, "Idempotency-Replayed")).isEmpty();
        assertThat(second.statusCode()).isEqualTo(201);
        assertThat(Calls.header(second, "Idempotency-Replayed")).isEqualTo("true");
        assertThat(second.body()).isEqualTo(first.body());
        for (String header : List.of("Location", "ETag")) {
            assertThat(Calls.header(second, header)).isEqualTo(Calls.header(first, header));
        }
        assertThat(countVehicles()).isEqualTo(2);
    }

    @Test
    void tellsARevisionAndADeviceAgain() {
        String code = "K-" + key;
        String device = "{\"code\": \"" + code + "\", \"name\": \"relay\"}";
        String path = "/v1/devices/" + code + "/revisions";

        assertThat(keyed().post("/v1/devices", device).statusCode()).isEqualTo(201);
        assertThat(keyed().post("/v1/devices", device).body())
                .isEqualTo(calls().get("/v1/devices/" + code).body());
        Calls revising = calls().with(KEY, "r" + key).with("If-Match", "\"1\"");
        HttpResponse<String> revised = revising.post(path, device);
        HttpResponse<String> again = revising.post(path, device);

        assertThat(revised.statusCode()).isEqualTo(201);
        assertThat(again.statusCode()).isEqualTo(201);
        assertThat(Calls.header(again, "ETag")).isEqualTo("\"2\"");
        assertThat(Calls.header(again, "Location")).isEqualTo(path + "/2");
        assertThat(again.body()).isEqualTo(revised.body());
    }

    @Test
    void refusesTheKeyForAnotherRequest() {
        String id =
                Calls.json(keyed().post("/v1/vehicles", map("one"))).path("id").asString();

        assertReused(keyed().post("/v1/vehicles", map("two")));
        assertReused(keyed().post("/v1/vehicles?dryRun=false", map("one")));
        assertReused(keyed().with("If-Match", "\"1\"").post("/v1/vehicles/" + id + "/revisions", map("one")));
        assertThat(countVehicles()).isEqualTo(1);
    }

    @Test
    void keepsTheKeysOfFirmsApart() {
        OtherFirm other = OtherFirm.open(rows);
        HttpResponse<String> ours = keyed().post("/v1/vehicles", map("one"));
        HttpResponse<String> theirs =
                anonymousCalls().withKey(other.key()).with(KEY, key).post("/v1/vehicles", map("one"));

        assertThat(theirs.statusCode()).isEqualTo(201);
        assertThat(Calls.header(theirs, "Idempotency-Replayed")).isEmpty();
        assertThat(Calls.header(theirs, "Location")).isNotEqualTo(Calls.header(ours, "Location"));
    }

    @Test
    void createsOnceForTwinsAtTheSameTime() throws Exception {
        ExecutorService threads = Executors.newFixedThreadPool(6);
        try {
            Callable<HttpResponse<String>> create = () -> keyed().post("/v1/vehicles", map("twin"));
            Set<String> bodies = new HashSet<>();
            int replayed = 0;
            for (Future<HttpResponse<String>> answer :
                    threads.invokeAll(List.of(create, create, create, create, create, create))) {
                assertThat(answer.get().statusCode()).as(answer.get().body()).isEqualTo(201);
                bodies.add(answer.get().body());
                replayed += Calls.header(answer.get(), "Idempotency-Replayed").isEmpty() ? 0 : 1;
            }
            assertThat(bodies).hasSize(1);
            assertThat(replayed).isEqualTo(5);
            assertThat(countVehicles()).isEqualTo(1);
        } finally {
            threads.shutdownNow();
        }
    }

    @Test
    void recordsNothingOfACallThatFailed() {
        String code = "F-" + key;
        String device = "{\"code\": \"" + code + "\"}";
        calls().post("/v1/devices", device);

        assertThat(keyed().post("/v1/devices", device).statusCode()).isEqualTo(409);
        assertThat(keyed().post("/v1/devices", "{}").statusCode()).isEqualTo(400);
        assertThat(countKeys()).isZero();
        HttpResponse<String> mended = keyed().post("/v1/devices", "{\"code\": \"" + code + "-2\"}");
        assertThat(mended.statusCode()).isEqualTo(201);
        assertThat(countKeys()).isEqualTo(1);
    }

    @Test
    void forgetsAKeyAfterSevenDays() {
        keyed().post("/v1/vehicles", map("one"));
        rows.sql("insert into idempotency_keys (owner_firm, key, fingerprint, outcome, created_at)"
                        + " select owner_firm, 'old' || key, fingerprint, outcome, now() - interval '8 days'"
                        + " from idempotency_keys where key = :key")
                .param("key", key)
                .update();

        assertThat(calls().with(KEY, "old" + key)
                        .post("/v1/vehicles", map("two"))
                        .statusCode())
                .isEqualTo(201);
        assertThat(countVehicles()).isEqualTo(2);
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "two words", "long"})
    void refusesAKeyOfAnotherForm(String bad) {
        HttpResponse<String> refused =
                calls().with(KEY, bad.equals("long") ? "k".repeat(101) : bad).post("/v1/vehicles", map("one"));

        assertThat(refused.statusCode()).isEqualTo(400);
        assertThat(Calls.json(refused).at("/errors/0/parameter").asString()).isEqualTo(KEY);
        assertThat(countVehicles()).isZero();
    }

    private Calls keyed() {
        return calls().with(KEY, key);
    }

    private String map(String model) {
        return "{\"maker\": \"" + maker + "\", \"model\": \"" + model + "\", \"circuits\": {\"C1-1\": {}}}";
    }

    private long countVehicles() {
        return rows.sql("select count(*) from vehicle_revisions where maker = :maker")
                .param("maker", maker)
                .query(Long.class)
                .single();
    }

    private long countKeys() {
        return rows.sql("select count(*) from idempotency_keys where key = :key")
                .param("key", key)
                .query(Long.class)
                .single();
    }

    private static void assertReused(HttpResponse<String> response) {
        assertThat(response.statusCode()).isEqualTo(422);
        assertThat(Calls.json(response).path("type").asString()).isEqualTo("/problems/idempotency-key-reused");
    }
}
