package dev.splicebook.database;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.testing.Calls;
import dev.splicebook.testing.ServiceIntegrationTest;
import java.net.http.HttpResponse;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;

class DryRunIntegrationTest extends ServiceIntegrationTest {

    private final String code = "D-" + UUID.randomUUID();
    private final String device = "{\"code\":\"" + code + "\",\"kind\":\"relay\"}";
    private final String map = "{\"maker\":\"" + code + "\",\"circuits\":{\"C1-1\":{}}}";

    @Autowired
    private JdbcClient rows;

    @Test
    void judgesANewVehicleAndStoresNothing() {
        HttpResponse<String> judged = calls().with("Idempotency-Key", code).post("/v1/vehicles?dryRun=true", map);

        assertThat(judged.statusCode()).as(judged.body()).isEqualTo(200);
        assertThat(judged.body()).isEqualTo("{\"dryRun\":true,\"document\":" + map + "}");
        assertThat(countRevisions()).isZero();
        assertThat(calls().with("Idempotency-Key", code)
                        .post("/v1/vehicles", map)
                        .statusCode())
                .isEqualTo(201);
        assertThat(calls().post("/v1/vehicles?dryRun=true", "{\"circuits\": {\"C1/1\": {}}}")
                        .statusCode())
                .isEqualTo(400);
    }

    @Test
    void storesNothingWhereItIsMisspelt() {
        HttpResponse<String> refused = calls().post("/v1/vehicles?dryrun=true", map);

        assertThat(refused.statusCode()).isEqualTo(400);
        assertThat(refused.body()).contains("there is no parameter \\\"dryrun\\\" here; the nearest are dryRun");
        assertThat(countRevisions()).isZero();
    }

    @Test
    void judgesANewRevisionByItsIfMatch() {
        String id = Calls.json(calls().post("/v1/vehicles", map)).path("id").asString();
        String path = "/v1/vehicles/" + id + "/revisions?dryRun=true";

        assertThat(calls().post(path, map).statusCode()).isEqualTo(428);
        assertThat(calls().with("If-Match", "\"2\"").post(path, map).statusCode())
                .isEqualTo(412);
        assertThat(calls().with("If-Match", "\"1\"").post(path, map).statusCode())
                .isEqualTo(200);
        assertThat(countRevisions()).isEqualTo(1);
        assertThat(calls().with("If-Match", "\"1\"")
                        .post("/v1/vehicles/" + UUID.randomUUID() + "/revisions?dryRun=true", map)
                        .statusCode())
                .isEqualTo(404);
    }

    @Test
    void judgesADeviceByItsCode() {
        assertThat(calls().post("/v1/devices?dryRun=true", device).statusCode()).isEqualTo(200);
        assertThat(calls().get("/v1/devices/" + code).statusCode()).isEqualTo(404);
        calls().post("/v1/devices", device);

        assertThat(calls().post("/v1/devices?dryRun=true", device).statusCode()).isEqualTo(409);
        assertThat(calls().post("/v1/devices?dryRun=true", "{}").statusCode()).isEqualTo(400);
        String path = "/v1/devices/" + code + "/revisions?dryRun=true";
        assertThat(calls().with("If-Match", "\"1\"").post(path, device).statusCode())
                .isEqualTo(200);
        assertThat(calls().with("If-Match", "\"1\"")
                        .post(path, "{\"code\": \"OTHER\"}")
                        .statusCode())
                .isEqualTo(400);
        assertThat(Calls.json(calls().get("/v1/devices/" + code))
                        .path("revision")
                        .asInt())
                .isEqualTo(1);
    }

    @Test
    void storesUnlessToldOtherwise() {
        assertThat(calls().post("/v1/vehicles?dryRun=false", map).statusCode()).isEqualTo(201);
        HttpResponse<String> unclear = calls().post("/v1/vehicles?dryRun=perhaps", map);

        assertThat(unclear.statusCode()).isEqualTo(400);
        assertThat(Calls.json(unclear).at("/errors/0/parameter").asString()).isEqualTo("dryRun");
    }

    private long countRevisions() {
        return rows.sql("select count(*) from vehicle_revisions where maker = :maker")
                .param("maker", code)
                .query(Long.class)
                .single();
    }
}
