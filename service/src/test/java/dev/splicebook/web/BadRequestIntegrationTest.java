package dev.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.test.context.TestPropertySource;

@SpringBootTest(classes = SampleService.class, webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT)
@TestPropertySource(
        properties = {
            "server.address=127.0.0.1",
            "spring.mvc.problemdetails.enabled=true",
            "management.endpoint.health.validate-group-membership=false"
        })
class BadRequestIntegrationTest {

    private static final int MEGABYTE = 1 << 20;

    private static final String CHUNKED = String.join(
            "\r\n",
            "POST /v1/samples HTTP/1.1",
            "Host: a",
            "Content-Type: application/json",
            "Transfer-Encoding: chunked",
            "",
            "");

    @LocalServerPort
    private int port;

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
                    {"name": "a", "nmae": 1}                  | unknown-field       | /nmae
                    {"name": "a", "name": "b"}                | duplicate-key       | /name
                    {"name": "a", "count": "12"}              | wrong-type          | /count
                    {"name": "a", "count": NaN}               | not-a-number        | /count
                    {"name": "a", "count": 1e400}             | number-out-of-range | /count
                    {"name": "a\\u0000"}                       | bad-character       | /name
                    {"name": "a\\ud800"}                       | bad-character       | /name
                    {"name": "a", "states": "awake"}          | unknown-value       | /states
                    {"name": "a", "feeds": {"A": {"kind": "battery", "volts": -1}}} | out-of-range | /feeds/A/volts
                    {"name": "a", "battery": {"kind": "battery", "volts": 1e300}}   | out-of-range | /battery/volts
                    {"name": "a"                              | malformed-json      | ''
                    """)
    void refusesABadBody(String body, String code, String pointer) throws IOException {
        HttpExchange exchange = post("/v1/samples", "application/json", body).assertProblem(400, "bad-body");

        assertThat(exchange.json().path("errors").path(0).path("code").stringValue())
                .isEqualTo(code);
        assertThat(exchange.json().path("errors").path(0).path("pointer").stringValue())
                .isEqualTo(pointer);
    }

    @Test
    void tellsAllFaultsOfABodyAtOnce() throws IOException {
        HttpExchange exchange = post("/v1/samples", "application/json", "{\"count\": \"12\", \"lit\": 1, \"x\": 2}")
                .assertProblem(400, "bad-body");

        assertThat(exchange.json().path("errors").size()).isEqualTo(4);
        assertThat(exchange.json().path("detail").stringValue()).isEqualTo("the body has 4 faults");
        assertThat(exchange.json().path("instance").stringValue()).isEqualTo("/v1/samples");
    }

    @Test
    void refusesABodyNestedTwoThousandDeep() throws IOException {
        post("/v1/samples", "application/json", "{\"extra\":".repeat(2000) + "1" + "}".repeat(2000))
                .assertProblem(400, "bad-body");
    }

    @ParameterizedTest
    @ValueSource(strings = {"/v1/samples", "/v1/samples/123e4567-e89b-42d3-a456-426614174000"})
    void refusesNoBodyAtAll(String path) throws IOException {
        String method = path.equals("/v1/samples") ? "POST " : "PUT ";
        HttpExchange.send(
                        port,
                        method + path
                                + " HTTP/1.1\r\nHost: a\r\nContent-Type: application/json\r\nContent-Length: 0\r\n\r\n")
                .assertProblem(400, "bad-body");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "text/plain",
                "application/xml",
                "application/x-www-form-urlencoded",
                "application/merge-patch+json",
                "application/problem+json",
                "rubbish",
                "*/*"
            })
    void refusesOtherMediaTypes(String type) throws IOException {
        post("/v1/samples", type, "{\"name\": \"a\"}").assertProblem(415, "unsupported-media-type");
    }

    @Test
    void takesJsonWithACharset() throws IOException {
        assertThat(post("/v1/samples", "application/json;charset=UTF-8", "{\"name\": \"ä\"}")
                        .body())
                .isEqualTo("{\"name\":\"ä\",\"states\":[],\"tints\":[],\"feeds\":{},\"counts\":{},\"pairs\":[]}");
    }

    @Test
    void refusesAnAcceptHeaderThatCannotBeMet() throws IOException {
        get("/v1/lines?tint=RD", "Accept: image/png").assertProblem(406, "not-acceptable");
        get("/v1/nowhere", "Accept: text/html").assertProblem(404, "not-found");
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
                    /v1/nowhere                 | 404 | not-found
                    /                           | 404 | not-found
                    /error                      | 404 | not-found
                    /problems/nothing           | 404 | not-found
                    /v1/samples/7               | 400 | bad-parameter
                    /v1/samples/00000000-0000-0000-0000-000000000001 | 404 | not-found
                    /v1/lines                   | 400 | bad-parameter
                    /v1/lines?tint=red          | 400 | bad-parameter
                    /v1/lines?tint=RD&limit=0   | 400 | bad-parameter
                    /v1/lines?tint=RD&colour=RD | 400 | bad-parameter
                    /v1/lines?tint=RD&TINT=RD   | 400 | bad-parameter
                    /v1/lines?tint=RD&tint=GN   | 400 | bad-parameter
                    /v1/lines?tint=RD&limit=    | 400 | bad-parameter
                    /v1/lines?tint=RD&limit     | 400 | bad-parameter
                    /v1/lines?tint=RD&limit=201 | 400 | bad-parameter
                    /v1/lines?tint=RD&limit=all | 400 | bad-parameter
                    /v1/lines?tint=RD&cursor=%21| 400 | bad-parameter
                    /v1/lines?tint=RD&cursor=WyJhIiwiYiJd | 400 | bad-parameter
                    /v1/lines?tint=%ff%00       | 400 | bad-parameter
                    /v1/failures                | 500 | internal
                    """)
    void answersEveryFailureWithAProblem(String target, int status, String code) throws IOException {
        get(target).assertProblem(status, code);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "/v1/..%2fsecrets",
                "/v1/%2e%2e/secrets",
                "/v1/%2e%2e%2fsecrets",
                "/..%2f..%2fetc",
                "/../etc",
                "/v1/samples/%00",
                "/v1/samples%",
                "/v1/%zz",
                "/v1/samples;a=b",
                "/v1//samples",
                "/v1/%5c..%5c",
                "/v1/a\\b",
                "/v1/<script>",
                "/v1/%ff",
                "/v1/a%0d%0ab",
                "/v1/lines?tint=<>"
            })
    void answersOddPathsWithAProblem(String target) throws IOException {
        HttpExchange exchange = get(target);

        exchange.assertProblem(exchange.status(), exchange.status() == 404 ? "not-found" : "bad-request");
        assertThat(exchange.status()).isIn(400, 404);
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
                    DELETE /v1/samples HTTP/1.1\\r\\nHost: a  | 405 | method-not-allowed
                    TRACE /v1/samples HTTP/1.1\\r\\nHost: a   | 405 | method-not-allowed
                    FOO /v1/samples HTTP/1.1\\r\\nHost: a     | 405 | method-not-allowed
                    GET /v1/samples HTTP/1.1                | 400 | bad-request
                    GET /v1/samples HTTP/1.1\\r\\nHost: a b   | 400 | bad-request
                    GET /v1/samples HTTP/1.1\\r\\nHost: a\\r\\nHost: b | 400 | bad-request
                    GET /v1/samples HTTP/9.9\\r\\nHost: a     | 505 | version-not-supported
                    GET /v1/sam ples HTTP/1.1\\r\\nHost: a    | 400 | bad-request
                    G@T /v1/samples HTTP/1.1\\r\\nHost: a     | 400 | bad-request
                    GET                                     | 400 | bad-request
                    rubbish                                 | 400 | bad-request
                    GET /v1/samples HTTP/1.1\\r\\nHost: a\\r\\nExpect: miracles                        | 417 | expectation-failed
                    POST /v1/samples HTTP/1.1\\r\\nHost: a\\r\\nTransfer-Encoding: gzip               | 501 | not-implemented
                    POST /v1/samples HTTP/1.1\\r\\nHost: a\\r\\nContent-Length: -4                    | 400 | bad-request
                    POST /v1/samples HTTP/1.1\\r\\nHost: a\\r\\nContent-Length: 4\\r\\nContent-Length: 5 | 400 | bad-request
                    """)
    void answersOddRequestsWithAProblem(String head, int status, String code) throws IOException {
        HttpExchange exchange =
                HttpExchange.send(port, head.replace("\\r\\n", "\r\n") + "\r\nConnection: close\r\n\r\n");

        exchange.assertProblem(status, code);
        if (status == 405) {
            assertThat(exchange.headers().get("allow")).contains("POST");
        }
    }

    @Test
    void answersHeadersOf64KilobytesWithAProblem() throws IOException {
        for (int i = 0; i < 20; i++) {
            HttpExchange exchange = get("/v1/lines?tint=RD", "X-Long: " + "x".repeat(65_536));

            exchange.assertProblem(exchange.status(), exchange.status() == 431 ? "headers-too-large" : "bad-request");
        }
        HttpExchange exchange = get("/v1/" + "x".repeat(65_536));
        exchange.assertProblem(exchange.status(), exchange.status() == 414 ? "uri-too-long" : "bad-request");
    }

    @Test
    void refusesABodyOf30MegabytesByItsLength() throws IOException {
        post("/v1/samples", "application/json", "[" + " ".repeat(30 * MEGABYTE)).assertProblem(413, "body-too-large");
        post("/v1/samples", "text/plain", "[" + " ".repeat(30 * MEGABYTE)).assertProblem(413, "body-too-large");
    }

    @Test
    void refusesABodyOf30MegabytesThatComesInChunks() throws IOException {
        ByteArrayOutputStream chunks = new ByteArrayOutputStream();
        for (int i = 0; i < 30; i++) {
            chunks.write("100000\r\n".getBytes(StandardCharsets.US_ASCII));
            chunks.write(" ".repeat(MEGABYTE).getBytes(StandardCharsets.US_ASCII));
            chunks.write("\r\n".getBytes(StandardCharsets.US_ASCII));
        }
        chunks.write("0\r\n\r\n".getBytes(StandardCharsets.US_ASCII));

        HttpExchange.send(port, CHUNKED, chunks.toByteArray()).assertProblem(413, "body-too-large");
    }

    @Test
    void refusesABrokenChunkedBody() throws IOException {
        HttpExchange.send(port, CHUNKED + "zz\r\n{}\r\n").assertProblem(400, "bad-request");
    }

    @Test
    void keepsASafeRequestIdAndReplacesAnother() throws IOException {
        assertThat(get("/v1/nowhere", "X-Request-Id: shop-7.4711").headers())
                .containsEntry("x-request-id", "shop-7.4711");
        assertThat(get("/v1/lines?tint=RD", "X-Request-Id: shop-7.4711").headers())
                .containsEntry("x-request-id", "shop-7.4711");
        assertThat(get("/v1/nowhere", "X-Request-Id: <b>").headers().get("x-request-id"))
                .matches("[0-9a-f-]{36}");
    }

    @Test
    void demandsTheRevisionThatAChangeIsMadeTo() throws IOException {
        put(null).assertProblem(428, "precondition-required");
        put("\"2\"").assertProblem(412, "precondition-failed");
        put("W/\"3\"").assertProblem(412, "precondition-failed");
        put("rubbish").assertProblem(412, "precondition-failed");
        assertThat(put("\"3\"").status()).isEqualTo(200);
        assertThat(put("\"2\", \"3\"").status()).isEqualTo(200);
        assertThat(put("*").json().path("json").stringValue()).isEqualTo("{\"name\":\"a\",\"count\":2.0}");
    }

    @Test
    void answersWithoutABodyWhatTheCallerHasAlready() throws IOException {
        String target = "/v1/samples/123e4567-e89b-42d3-a456-426614174000";

        assertThat(get(target).headers()).containsEntry("etag", "\"3\"");
        assertThat(get(target, "If-None-Match: \"2\"").status()).isEqualTo(200);
        assertThat(get(target, "If-None-Match: \"2\", W/\"3\"").status()).isEqualTo(304);
        assertThat(get(target, "If-None-Match: \"3\"").body()).isEmpty();
    }

    @Test
    void walksAListPageByPage() throws IOException {
        int lines = 0;
        int pages = 0;
        String cursor = "";
        while (cursor != null) {
            HttpExchange page = get("/v1/lines?tint=RD" + cursor);
            lines += page.json().path("items").size();
            pages++;
            assertThat(page.json().path("items").path(0).path("tint").stringValue())
                    .isEqualTo("RD");
            assertThat(page.json().has("next")).isTrue();
            cursor = page.json().path("next").isNull()
                    ? null
                    : "&cursor=" + page.json().path("next").stringValue();
        }

        assertThat(lines).isEqualTo(120);
        assertThat(pages).isEqualTo(3);
        assertThat(get("/v1/lines?tint=RD&limit=120").json().path("next").isNull())
                .isTrue();
    }

    private HttpExchange get(String target, String... headers) throws IOException {
        StringBuilder head =
                new StringBuilder("GET ").append(target).append(" HTTP/1.1\r\nHost: a\r\nConnection: close\r\n");
        for (String header : headers) {
            head.append(header).append("\r\n");
        }
        return HttpExchange.send(port, head + "\r\n");
    }

    private HttpExchange post(String target, String type, String body) throws IOException {
        byte[] bytes = body.getBytes(StandardCharsets.UTF_8);
        return HttpExchange.send(
                port,
                "POST " + target + " HTTP/1.1\r\nHost: a\r\nContent-Type: " + type + "\r\nContent-Length: "
                        + bytes.length + "\r\n\r\n",
                bytes);
    }

    private HttpExchange put(@org.jspecify.annotations.Nullable String ifMatch) throws IOException {
        byte[] bytes = "{\"name\": \"a\", \"count\": 2.0}".getBytes(StandardCharsets.UTF_8);
        return HttpExchange.send(
                port,
                "PUT /v1/samples/123e4567-e89b-42d3-a456-426614174000 HTTP/1.1\r\nHost: a\r\n"
                        + (ifMatch == null ? "" : "If-Match: " + ifMatch + "\r\n")
                        + "Content-Type: application/json\r\nContent-Length: " + bytes.length + "\r\n\r\n",
                bytes);
    }

    @Test
    void namesEachParameterThatIsNotTakenAndTheNearest() throws IOException {
        HttpExchange exchange = get("/v1/lines?tint=RD&limt=5&curser=x&y=1").assertProblem(400, "bad-parameter");

        assertThat(exchange.json().path("errors").size()).isEqualTo(3);
        assertThat(exchange.json().at("/errors/0/parameter").asString()).isEqualTo("limt");
        assertThat(exchange.json().at("/errors/0/detail").asString())
                .isEqualTo("there is no parameter \"limt\" here; the nearest are limit, tint, cursor");
        assertThat(exchange.json().at("/errors/1/detail").asString()).contains("the nearest are cursor");
    }
}
