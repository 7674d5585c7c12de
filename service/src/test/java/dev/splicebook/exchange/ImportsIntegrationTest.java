package dev.splicebook.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import dev.splicebook.testing.Calls;
import dev.splicebook.testing.OtherFirm;
import dev.splicebook.testing.ServiceIntegrationTest;
import java.io.ByteArrayOutputStream;
import java.net.InetAddress;
import java.net.Socket;
import java.net.URI;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.List;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.system.CapturedOutput;
import org.springframework.boot.test.system.OutputCaptureExtension;
import org.springframework.jdbc.core.simple.JdbcClient;
import tools.jackson.databind.JsonNode;

@ExtendWith(OutputCaptureExtension.class)
class ImportsIntegrationTest extends ServiceIntegrationTest {

    private static final Duration PATIENCE = Duration.ofSeconds(30);

    private final UUID id = UUID.randomUUID();
    private final String maker = "Ondrake " + id;

    @Autowired
    private JdbcClient rows;

    private OtherFirm firm;
    private Exchange exchange;

    @BeforeEach
    void openAFirm() {
        firm = OtherFirm.open(rows);
        exchange = new Exchange(anonymousCalls().withKey(firm.key()));
    }

    @Test
    void storesEveryLineWithTheRowsThatItIsFoundBy() {
        UUID vehicle = UUID.randomUUID();
        String document = "{\"maker\":\"" + maker + "\",\"circuits\":{\"C1-7\":{\"function\":\"power.battery\","
                + "\"electrical\":{\"kind\":\"supply\",\"volts\":12.60}},\"C1-8\":{}}}";
        HttpResponse<String> answer = exchange.put(
                id,
                device("A") + "\r\n\n  \n{\"document\": " + document + " ,\"id\":\"" + vehicle
                        + "\", \"kind\":\"vehicle\"}");

        assertThat(answer.statusCode()).as(answer.body()).isEqualTo(200);
        assertCounts(answer, "done", 1, 1, 2, 0);
        assertThat(Calls.json(answer).path("lines").asInt()).isEqualTo(4);
        assertThat(Calls.json(answer)).isEqualTo(exchange.view(id));
        JsonNode stored = Calls.json(exchange.calls().get("/v1/vehicles/" + vehicle));
        assertThat(stored.path("revision").asInt()).isEqualTo(1);
        assertThat(rows.sql("select document from vehicle_revisions where vehicle_id = :id")
                        .param("id", vehicle)
                        .query(String.class)
                        .single())
                .as("figures and order stay as they were sent")
                .isEqualTo(document);
        assertThat(count("vehicle_circuits")).isEqualTo(2);
        assertThat(Calls.json(exchange.calls().get("/v1/devices/A"))
                        .at("/document/kind")
                        .asString())
                .isEqualTo("relay");
    }

    @Test
    void tellsEveryFaultByLineAndPointerAndStoresNothing() throws Exception {
        UUID own = UUID.randomUUID();
        UUID twice = UUID.randomUUID();
        exchange.put(UUID.randomUUID(), vehicle(own, "own"));
        UUID foreign = UUID.fromString(Calls.json(calls().post("/v1/vehicles", "{\"circuits\":{}}"))
                .path("id")
                .asString());
        long before = count("vehicle_revisions");
        ByteArrayOutputStream body = new ByteArrayOutputStream();
        for (String line : List.of(
                vehicle(twice, "good"),
                "{\"kind\":\"vehicle\",\"document\":{\"circuits\":{\"C1-7\":{\"function\":\"power.batery\"}}}}",
                "{\"kind\":\"vehicle\",",
                "",
                "{\"kind\":\"boat\",\"document\":{}}",
                vehicle(twice, "twice"),
                device("A"),
                device("A"),
                "{\"kind\":\"device\",\"document\":{\"kind\":\"relay\"}}",
                "{\"kind\":\"device\",\"document\":{\"code\":\"B\"},\"extra\":1}",
                vehicle(foreign, "foreign"),
                "{\"kind\":\"vehicle\",\"id\":\"" + own + "\",\"revision\":2,\"document\":{\"circuits\":{}}}",
                "{\"kind\":\"device\",\"document\":{\"code\":\"" + "x".repeat(9_000_000) + "\"}}")) {
            body.write(line.getBytes(StandardCharsets.UTF_8));
            body.write('\n');
        }
        body.write("{\"kind\":\"device\",\"document\":{\"code\":\"\u00e9\"}}\n".getBytes(StandardCharsets.ISO_8859_1));
        body.write(device("LAST").getBytes(StandardCharsets.UTF_8));
        HttpResponse<String> refused = exchange.put(id, "", BodyPublishers.ofByteArray(body.toByteArray()));

        assertThat(refused.statusCode()).isEqualTo(400);
        assertThat(Calls.json(refused).path("type").asString()).isEqualTo("/problems/bad-body");
        List<String> faults = Calls.json(refused)
                .path("errors")
                .valueStream()
                .map(error ->
                        error.path("line").asInt() + " " + error.path("code").asString() + " "
                                + error.path("pointer").asString())
                .toList();
        assertThat(faults)
                .containsExactly(
                        "2 unknown-function /document/circuits/C1-7/function",
                        "3 malformed-json ",
                        "5 unknown-value /kind",
                        "6 duplicate-id /id",
                        "8 duplicate-code /document/code",
                        "9 required /document/code",
                        "10 unknown-field /extra",
                        "11 id-taken /id",
                        "12 revision-changed /revision",
                        "13 line-too-long ",
                        "14 bad-encoding ");
        assertThat(refused.body())
                .contains("(line 3, column ", "stands in line 1 already", "stands in line 7 already", "the latest");
        assertThat(exchange.view(id).path("state").asString()).isEqualTo("refused");
        assertThat(exchange.view(id).path("faults").asInt()).isEqualTo(11);
        assertThat(exchange.view(id).path("errors"))
                .isEqualTo(Calls.json(refused).path("errors"));
        assertThat(exchange.view(id).path("lines").asInt()).isEqualTo(15);
        assertThat(count("vehicle_revisions")).isEqualTo(before);
        assertThat(count("device_revisions")).isZero();
    }

    @Test
    void listsTheFirstHundredFaultsAndCountsTheRest() {
        String bad = IntStream.range(0, 150)
                .mapToObj(at -> "{\"kind\":\"device\",\"document\":{}}\n")
                .collect(Collectors.joining());
        HttpResponse<String> refused = exchange.put(id, bad);

        assertThat(Calls.json(refused).path("errors")).hasSize(100);
        assertThat(Calls.json(refused).path("detail").asString()).contains("150");
        assertThat(exchange.view(id).path("faults").asInt()).isEqualTo(150);
    }

    @Test
    void countsEveryFaultOfALine() {
        String fields =
                IntStream.range(0, 150).mapToObj(at -> ",\"x" + at + "\":1").collect(Collectors.joining());
        HttpResponse<String> refused =
                exchange.put(id, "{\"kind\":\"device\",\"document\":{\"code\":\"A\"" + fields + "}}");

        assertThat(Calls.json(refused).path("errors")).hasSize(100);
        assertThat(exchange.view(id).path("faults").asInt()).isEqualTo(150);
    }

    @Test
    void countsNothingAsStoredThatWasRefused() {
        exchange.put(id, vehicle(null, "good") + "\n" + device("A") + "\n{}");

        JsonNode view = exchange.view(id);
        assertThat(view.path("state").asString()).isEqualTo("refused");
        assertThat(view.path("faults").asInt()).isPositive();
        for (String count : List.of("vehicles", "devices", "circuits", "unchanged")) {
            assertThat(view.path(count).asInt(-1)).as(count).isZero();
        }
    }

    @Test
    void rollsBackWhatWasWrittenBeforeALateFault() {
        String good =
                IntStream.range(0, 250).mapToObj(at -> device("D" + at) + "\n").collect(Collectors.joining());

        assertThat(exchange.put(id, good + "{}").statusCode()).isEqualTo(400);
        assertThat(count("device_revisions")).isZero();
        assertThat(exchange.put(id, good).statusCode()).isEqualTo(200);
        assertThat(count("device_revisions")).isEqualTo(250);
    }

    @Test
    void revisesWhatExistsAndPassesOverWhatMeansTheSame() {
        UUID vehicle = UUID.randomUUID();
        exchange.put(
                UUID.randomUUID(),
                "{\"kind\":\"vehicle\",\"id\":\"" + vehicle
                        + "\",\"document\":{\"equipment\":[\"a\",\"b\"],\"circuits\":{\"C1-1\":{\"electrical\":"
                        + "{\"kind\":\"supply\",\"volts\":12.60}}}}}\n"
                        + device("A") + "\n" + device("B"));
        HttpResponse<String> again = exchange.put(
                id,
                "{\"kind\":\"vehicle\",\"id\":\"" + vehicle
                        + "\",\"revision\":1,\"document\":{\"circuits\":{\"C1-1\":{\"electrical\":"
                        + "{\"volts\":12.6,\"kind\":\"supply\"}}},\"equipment\":[\"b\",\"a\"]}}\n"
                        + device("A").replace("relay", "switch") + "\n" + device("B"));

        assertCounts(again, "done", 0, 1, 0, 2);
        assertThat(Calls.json(exchange.calls().get("/v1/vehicles/" + vehicle))
                        .path("revision")
                        .asInt())
                .isEqualTo(1);
        JsonNode revised = Calls.json(exchange.calls().get("/v1/devices/A"));
        assertThat(revised.path("revision").asInt()).isEqualTo(2);
        assertThat(revised.at("/document/kind").asString()).isEqualTo("switch");
    }

    @Test
    void judgesADryRunAndStoresNothing() {
        HttpResponse<String> judged = exchange.put(id, "?dryRun=true", device("A") + "\n" + vehicle(null, "dry"));

        assertCounts(judged, "done", 1, 1, 1, 0);
        assertThat(Calls.json(judged).path("dryRun").asBoolean()).isTrue();
        assertThat(count("device_revisions")).isZero();
        assertThat(exchange.put(id, "?dryRun=true", device("A") + "\n{}").statusCode())
                .isEqualTo(400);
        assertThat(exchange.put(id, device("A")).statusCode())
                .as("the id is free for the import itself")
                .isEqualTo(200);
        assertThat(count("device_revisions")).isEqualTo(1);
    }

    @Test
    void tellsADoneImportAgainAndRefusesAnotherBodyUnderItsId() {
        HttpResponse<String> done = exchange.put(id, vehicle(null, "once"));
        HttpResponse<String> again = exchange.put(id, vehicle(null, "once"));

        assertThat(again.statusCode()).isEqualTo(200);
        assertThat(again.body()).isEqualTo(done.body());
        assertThat(count("vehicle_revisions")).isEqualTo(1);
        assertThat(exchange.put(id, vehicle(null, "other")).statusCode()).isEqualTo(422);
        assertThat(exchange.put(id, "?dryRun=true", vehicle(null, "once")).statusCode())
                .isEqualTo(422);
    }

    @Test
    void showsItsProgressWhileTheBodyIsStillWritten() throws Exception {
        URI base = URI.create(exchange.calls().base());
        String line = vehicle(null, "in parts") + "\n";
        try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), base.getPort())) {
            String head = "PUT /v1/imports/" + id
                    + " HTTP/1.1\r\nHost: a\r\nConnection: close\r\nAuthorization: Bearer "
                    + firm.key() + "\r\nContent-Type: application/x-ndjson\r\nContent-Length: " + 200 * line.length()
                    + "\r\n\r\n";
            socket.getOutputStream().write((head + line.repeat(150)).getBytes(StandardCharsets.UTF_8));
            socket.getOutputStream().flush();

            await().atMost(PATIENCE).untilAsserted(() -> {
                JsonNode view = exchange.view(id);
                assertThat(view.path("state").asString()).isEqualTo("running");
                assertThat(view.path("vehicles").asInt()).isEqualTo(100);
                assertThat(view.path("lines").asInt()).isEqualTo(150);
                assertThat(view.has("endedAt")).isFalse();
            });
            assertThat(count("vehicle_revisions"))
                    .as("nothing is seen before all is stored")
                    .isZero();
            assertThat(exchange.put(id, vehicle(null, "meanwhile")).statusCode())
                    .isEqualTo(409);
            socket.getOutputStream().write(line.repeat(50).getBytes(StandardCharsets.UTF_8));
            socket.getOutputStream().flush();

            assertThat(new String(socket.getInputStream().readAllBytes(), StandardCharsets.UTF_8))
                    .startsWith("HTTP/1.1 200")
                    .contains("\"vehicles\":200");
        }
        assertThat(exchange.view(id).path("state").asString()).isEqualTo("done");
        assertThat(count("vehicle_revisions")).isEqualTo(200);
    }

    @Test
    void storesNothingOfASenderThatBreaksOff(CapturedOutput output) throws Exception {
        URI base = URI.create(exchange.calls().base());
        String line = vehicle(null, "broken") + "\n";
        try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), base.getPort())) {
            String head = "PUT /v1/imports/" + id + " HTTP/1.1\r\nHost: a\r\nAuthorization: Bearer " + firm.key()
                    + "\r\nContent-Type: application/x-ndjson\r\nContent-Length: 1000000\r\n\r\n";
            socket.getOutputStream().write((head + line.repeat(120)).getBytes(StandardCharsets.UTF_8));
            socket.getOutputStream().flush();
            await().atMost(PATIENCE)
                    .until(() -> exchange.view(id).path("vehicles").asInt() == 100);
        }

        await().atMost(PATIENCE)
                .until(() -> exchange.view(id).path("state").asString().equals("broken-off"));
        assertThat(exchange.view(id).has("endedAt")).isTrue();
        assertThat(count("vehicle_revisions")).isZero();
        assertCounts(exchange.put(id, line), "done", 1, 0, 1, 0);
        assertThat(output).as("it is no failure of the service").doesNotContain("failed unexpectedly");
    }

    @Test
    void takesOverFromAnInstanceThatDied() {
        exchange.put(id, "?dryRun=true", device("A"));
        rows.sql(
                        "update imports set state = 'running', ended_at = null, seen_at = now() - interval '31 seconds' where id = :id")
                .param("id", id)
                .update();

        assertThat(exchange.view(id).path("state").asString()).isEqualTo("broken-off");
        assertCounts(exchange.put(id, device("A")), "done", 0, 1, 0, 0);
    }

    @Test
    void keepsFirmsApart() {
        UUID vehicle = UUID.randomUUID();
        exchange.put(id, vehicle(vehicle, "ours") + "\n" + device("A"));
        Exchange others =
                new Exchange(anonymousCalls().withKey(OtherFirm.open(rows).key()));

        assertThat(others.calls().get("/v1/imports/" + id).statusCode()).isEqualTo(404);
        assertThat(Calls.json(others.calls().get("/v1/imports")).path("items")).isEmpty();
        assertThat(others.put(id, device("A")).statusCode())
                .as("ids of imports and codes are each firm's own")
                .isEqualTo(200);
        assertThat(others.put(UUID.randomUUID(), vehicle(vehicle, "theirs")).body())
                .contains("id-taken");
        assertThat(Calls.json(exchange.calls().get("/v1/vehicles/" + vehicle))
                        .at("/document/model")
                        .asString())
                .isEqualTo("ours");
    }

    @Test
    void listsTheLatestFirst() {
        List<String> ids = IntStream.range(0, 3)
                .mapToObj(at -> {
                    UUID each = UUID.randomUUID();
                    exchange.put(each, device("L" + at));
                    return each.toString();
                })
                .toList();
        JsonNode first = Calls.json(exchange.calls().get("/v1/imports?limit=2"));
        JsonNode second = Calls.json(exchange.calls()
                .get("/v1/imports?limit=2&cursor=" + first.path("next").asString()));

        assertThat(List.of(
                        first.at("/items/0/id").asString(),
                        first.at("/items/1/id").asString(),
                        second.at("/items/0/id").asString()))
                .containsExactly(ids.get(2), ids.get(1), ids.get(0));
        assertThat(second.path("next").isNull()).isTrue();
    }

    @Test
    void refusesWhatIsNoBodyOfLines() throws Exception {
        assertThat(exchange.put(id, "").body()).contains("empty-body");
        assertThat(exchange.put(id, "[]").statusCode()).isEqualTo(400);
        assertThat(exchange.calls().get("/v1/imports/" + UUID.randomUUID()).statusCode())
                .isEqualTo(404);
        URI base = URI.create(exchange.calls().base());
        try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), base.getPort())) {
            String head = "PUT /v1/imports/" + UUID.randomUUID() + " HTTP/1.1\r\nHost: a\r\nAuthorization: Bearer "
                    + firm.key() + "\r\nContent-Type: application/x-ndjson\r\nContent-Length: 268435457\r\n\r\n";
            socket.getOutputStream().write(head.getBytes(StandardCharsets.UTF_8));
            assertThat(new String(socket.getInputStream().readNBytes(12), StandardCharsets.UTF_8))
                    .isEqualTo("HTTP/1.1 413");
        }
    }

    private String vehicle(@Nullable UUID vehicle, String model) {
        return "{\"kind\":\"vehicle\"," + (vehicle == null ? "" : "\"id\":\"" + vehicle + "\",")
                + "\"document\":{\"maker\":\"" + maker + "\",\"model\":\"" + model + "\",\"circuits\":{\"C1-1\":{}}}}";
    }

    private static String device(String code) {
        return "{\"kind\":\"device\",\"document\":{\"code\":\"" + code + "\",\"kind\":\"relay\"}}";
    }

    private long count(String table) {
        return rows.sql("select count(*) from " + table + " where owner_firm = :firm")
                .param("firm", firm.id())
                .query(Long.class)
                .single();
    }

    private static void assertCounts(
            HttpResponse<String> answer, String state, int vehicles, int devices, int circuits, int unchanged) {
        assertThat(answer.statusCode()).as(answer.body()).isEqualTo(200);
        JsonNode view = Calls.json(answer);
        assertThat(view.path("state").asString()).isEqualTo(state);
        assertThat(view.path("vehicles").asInt()).as("vehicles").isEqualTo(vehicles);
        assertThat(view.path("devices").asInt()).as("devices").isEqualTo(devices);
        assertThat(view.path("circuits").asInt()).as("circuits").isEqualTo(circuits);
        assertThat(view.path("unchanged").asInt()).as("unchanged").isEqualTo(unchanged);
        assertThat(view.path("faults").asInt()).isZero();
        assertThat(view.has("endedAt")).isTrue();
    }
}
