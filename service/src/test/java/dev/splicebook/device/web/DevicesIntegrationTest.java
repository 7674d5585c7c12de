package dev.splicebook.device.web;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.testing.Calls;
import dev.splicebook.testing.ServiceIntegrationTest;
import java.net.http.HttpResponse;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

class DevicesIntegrationTest extends ServiceIntegrationTest {

    private final String code = "T-" + UUID.randomUUID();

    @Test
    void givesBackTheDocumentAsItWasSent() {
        String document = document("relay");
        HttpResponse<String> created = calls().post("/v1/devices", document);

        assertThat(created.statusCode()).as(created.body()).isEqualTo(201);
        assertThat(Calls.header(created, "Location")).isEqualTo("/v1/devices/" + code);
        assertThat(Calls.json(calls().get("/v1/devices/" + code))
                        .path("document")
                        .toString())
                .isEqualTo(document);
    }

    @Test
    void takesEachCodeOnce() {
        calls().post("/v1/devices", document("relay"));
        HttpResponse<String> second = calls().post("/v1/devices", document("relay"));

        assertThat(second.statusCode()).isEqualTo(409);
        assertThat(Calls.json(second).path("detail").asString()).contains(code);
    }

    @Test
    void needsACodeInTheCatalogue() {
        HttpResponse<String> refused = calls().post("/v1/devices", "{\"name\": \"nameless\"}");

        assertThat(refused.statusCode()).isEqualTo(400);
        assertThat(Calls.json(refused).at("/errors/0/pointer").asString()).isEqualTo("/code");
    }

    @Test
    void addsARevisionOnlyToTheLatestAndUnderTheSameCode() {
        calls().post("/v1/devices", document("relay"));
        String path = "/v1/devices/" + code + "/revisions";

        assertThat(calls().post(path, document("relay")).statusCode()).isEqualTo(428);
        assertThat(calls().with("If-Match", "\"2\"")
                        .post(path, document("relay"))
                        .statusCode())
                .isEqualTo(412);
        assertThat(calls().with("If-Match", "\"1\"")
                        .post(path, "{\"code\": \"OTHER\"}")
                        .statusCode())
                .isEqualTo(400);
        assertThat(calls().with("If-Match", "\"1\"")
                        .post(path, document("switch"))
                        .statusCode())
                .isEqualTo(201);
        assertThat(Calls.json(calls().get(path + "/1")).at("/document/kind").asString())
                .isEqualTo("relay");
        assertThat(Calls.json(calls().get("/v1/devices/" + code))
                        .at("/document/kind")
                        .asString())
                .isEqualTo("switch");
        assertThat(calls().get("/v1/devices/" + code + "x").statusCode()).isEqualTo(404);
    }

    @Test
    void listsByKind() {
        String kind = "kind-" + UUID.randomUUID();
        calls().post("/v1/devices", document(kind));

        JsonNode list = Calls.json(calls().get("/v1/devices?kind=" + kind));

        assertThat(list.path("items")).hasSize(1);
        assertThat(list.at("/items/0/code").asString()).isEqualTo(code);
    }

    private String document(String kind) {
        return "{\"kind\":\"%s\",\"code\":\"%s\",\"relays\":[{\"coil\":[\"85\",\"86\"],\"common\":\"30\",\"open\":\"87\"}],\"terminals\":{\"30\":{\"colour\":\"RD\"}}}"
                .formatted(kind, code);
    }
}
