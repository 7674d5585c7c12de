package dev.splicebook.check.web;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.testing.Calls;
import dev.splicebook.testing.ServiceIntegrationTest;
import dev.splicebook.web.WrittenApi;
import dev.splicebook.web.WrittenExamples;
import java.net.http.HttpResponse;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

class WrittenApiIntegrationTest extends ServiceIntegrationTest {

    @Test
    void describesEveryOperationInFull() {
        JsonNode document = Calls.json(anonymousCalls().get("/v3/api-docs"));

        assertThat(document.path("openapi").asString()).startsWith("3.1");
        WrittenApi.assertInFull(document);
    }

    @Test
    void letsReadersTolerateNewRules() {
        JsonNode document = Calls.json(anonymousCalls().get("/v3/api-docs"));

        assertThat(document.at("/components/schemas/Finding/properties/rule/x-extensible-enum")
                        .toString())
                .contains("fuse-missing");
    }

    @Test
    void showsBodiesAndAnswersThatSuitTheirSchemas() {
        assertThat(WrittenExamples.faults(Calls.json(anonymousCalls().get("/v3/api-docs"))))
                .isEmpty();
    }

    @Test
    void showsSwaggerUi() {
        HttpResponse<String> page = anonymousCalls().get("/swagger-ui/index.html");

        assertThat(page.statusCode()).isEqualTo(200);
        assertThat(page.body()).contains("swagger-ui");
    }
}
