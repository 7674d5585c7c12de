package dev.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.test.context.TestPropertySource;
import tools.jackson.databind.JsonNode;

@SpringBootTest(classes = SampleService.class, webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT)
@TestPropertySource(
        properties = {
            "server.address=127.0.0.1",
            "spring.mvc.problemdetails.enabled=true",
            "management.endpoint.health.validate-group-membership=false"
        })
class OpenApiIntegrationTest {

    @LocalServerPort
    private int port;

    @Test
    void describesEveryOperationInFull() throws IOException {
        JsonNode document = document();

        assertThat(document.path("openapi").stringValue()).startsWith("3.1");
        assertThat(document.path("servers").path(0).path("url").stringValue()).isEqualTo("/");
        WrittenApi.assertInFull(document);
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
                    Sample/required                          | ["name"]
                    Sample/additionalProperties              | false
                    Sample/properties/name/x-extensible-enum | ["left","right"]
                    Sample/properties/below                  | {"$ref":"#/components/schemas/Sample"}
                    Sample/properties/extra                  | {}
                    Sample/properties/states/anyOf/0         | {"$ref":"#/components/schemas/SampleState"}
                    Sample/properties/tints/uniqueItems      | true
                    Sample/properties/feeds/additionalProperties | {"$ref":"#/components/schemas/Feed"}
                    SampleState                              | {"type":"string","enum":["asleep","parking-brake","12V"]}
                    Tint/pattern                             | "[A-Z]{2}"
                    Tint/type                                | "string"
                    Feed/oneOf                               | [{"$ref":"#/components/schemas/Battery"},{"$ref":"#/components/schemas/Mains"}]
                    Feed/discriminator/mapping/mains         | "#/components/schemas/Mains"
                    Battery/properties/kind                  | {"type":"string","enum":["battery"]}
                    Battery/required                         | ["kind","volts"]
                    Battery/type                             | "object"
                    PageOfLine/required                      | ["items","next"]
                    PageOfLine/properties/next/type          | ["string","null"]
                    """)
    void writesSchemasAsBodiesAreRead(String place, String json) throws IOException {
        assertThat(document().at("/components/schemas/" + place)).hasToString(json);
    }

    @Test
    void leavesAnswersOpenForFurtherFields() throws IOException {
        assertThat(document().at("/components/schemas/Line").has("additionalProperties"))
                .isFalse();
    }

    @Test
    void saysTheProblemsThatAnEndpointAddsItself() throws IOException {
        assertThat(document().at("/paths/~1v1~1samples/post/responses").has("409"))
                .isTrue();
        assertThat(document().at("/paths/~1v1~1samples~1{id}/put/responses").has("409"))
                .isFalse();
    }

    @Test
    void saysOfEveryEndpointWhatHoldsForAll() throws IOException {
        JsonNode document = document();
        JsonNode read = document.at("/paths/~1v1~1samples~1{id}/get");
        JsonNode replace = document.at("/paths/~1v1~1samples~1{id}/put");

        assertThat(read.at("/responses/304").has("content")).isFalse();
        assertThat(read.at("/responses/200/headers").has("ETag")).isTrue();
        assertThat(read.at("/parameters/0/description").asString()).isEqualTo("The id, as listed at /v1/samples.");
        assertThat(replace.at("/parameters/1/name").asString()).isEqualTo("If-Match");
        assertThat(replace.at("/parameters/1/required").asBoolean()).isTrue();
        assertThat(replace.path("description").asString()).startsWith("Replaces a sample. `If-Match` names");
        assertThat(document.at("/paths/~1v1~1lines/get/description").asString())
                .contains("`cursor` of the page behind");
        assertThat(document.at("/tags/0/name").asString()).isEqualTo("problems");
        assertThat(document.path("tags").size()).isEqualTo(2);
    }

    @Test
    void writesTheSameDocumentEveryTime() throws IOException {
        assertThat(get("/v3/api-docs", "application/json").body())
                .isEqualTo(get("/v3/api-docs", "application/json").body());
    }

    @Test
    void showsTheInterfaceForPeople() throws IOException {
        assertThat(get("/swagger-ui/index.html", "text/html").body()).contains("swagger-ui");
    }

    @ParameterizedTest
    @EnumSource(ProblemType.class)
    void hasAPageForEveryProblem(ProblemType type) throws IOException {
        HttpExchange page = get("/problems/" + type.code(), "*/*");
        HttpExchange html = get("/problems/" + type.code(), "text/html,application/xhtml+xml,*/*;q=0.8");

        assertThat(page.status()).isEqualTo(200);
        assertThat(page.headers().get("content-type")).isEqualTo("application/json");
        assertThat(page.json().path("status").intValue()).isEqualTo(type.status());
        for (String part : List.of("title", "cause", "mend")) {
            assertThat(page.json().path(part).stringValue()).isNotBlank();
        }
        assertThat(page.json().at("/example/type").stringValue()).isEqualTo("/problems/" + type.code());
        assertThat(html.headers().get("content-type")).startsWith("text/html");
        assertThat(html.body()).contains(type.title(), "Status " + type.status(), "width=device-width");
    }

    @Test
    void listsEveryProblem() throws IOException {
        assertThat(get("/problems", "application/json").json().path("items").size())
                .isEqualTo(ProblemType.values().length);
        assertThat(get("/problems", "text/html").body()).contains("href=\"/problems/bad-body\"");
    }

    private JsonNode document() throws IOException {
        return get("/v3/api-docs", "application/json").json();
    }

    private HttpExchange get(String target, String accept) throws IOException {
        return HttpExchange.send(
                port, "GET " + target + " HTTP/1.1\r\nHost: a\r\nAccept: " + accept + "\r\nConnection: close\r\n\r\n");
    }
}
