package dev.splicebook.check.web;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.testing.Calls;
import dev.splicebook.testing.ServiceIntegrationTest;
import dev.splicebook.web.WrittenApi;
import java.net.http.HttpResponse;
import java.util.ArrayList;
import java.util.List;
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
    void showsAnAnswerOfEveryOperationThatSuitsItsSchema() {
        JsonNode document = Calls.json(anonymousCalls().get("/v3/api-docs"));
        List<String> lacking = new ArrayList<>();
        document.path("paths")
                .forEach(path -> path.forEach(operation -> {
                    String id = operation.path("operationId").asString();
                    JsonNode responses = operation.path("responses");
                    for (String status : List.of("200", "201")) {
                        responses
                                .path(status)
                                .path("content")
                                .forEach(content -> judge(document, id + ", " + status, content, lacking));
                    }
                }));

        assertThat(lacking).as("see @ExampleAnswer").isEmpty();
    }

    private static void judge(JsonNode document, String subject, JsonNode content, List<String> lacking) {
        if (content.path("examples").isEmpty()) {
            lacking.add(subject + " shows no answer");
        }
        JsonNode schema =
                document.at(content.at("/schema/$ref").asString("#/none").substring(1));
        content.path("examples").forEach(example -> {
            JsonNode value = example.path("value");
            schema.path("required").forEach(field -> {
                if (!value.has(field.asString())) {
                    lacking.add(subject + " shows an answer without " + field.asString());
                }
            });
            value.propertyNames().forEach(field -> {
                if (!schema.path("properties").has(field)) {
                    lacking.add(subject + " shows an answer with " + field + ", which its schema has not");
                }
            });
        });
    }

    @Test
    void showsSwaggerUi() {
        HttpResponse<String> page = anonymousCalls().get("/swagger-ui/index.html");

        assertThat(page.statusCode()).isEqualTo(200);
        assertThat(page.body()).contains("swagger-ui");
    }
}
