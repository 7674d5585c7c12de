package dev.splicebook.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import dev.splicebook.testing.Calls;
import dev.splicebook.testing.OtherFirm;
import dev.splicebook.testing.ServiceIntegrationTest;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.net.SocketException;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

class ExportIntegrationTest extends ServiceIntegrationTest {

    private static final JsonMapper MAPPER = JsonMapper.builder().build();

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
    void isTakenBackByItsOwnBookAsUnchanged() {
        UUID vehicle = UUID.randomUUID();
        String map =
                "{\"maker\":\"Ondrake\",\"circuits\":{\"C1-1\":{\"electrical\":{\"kind\":\"supply\",\"volts\":12.60}}}}";
        exchange.put(
                UUID.randomUUID(),
                "{\"kind\":\"vehicle\",\"id\":\"" + vehicle + "\",\"document\":{\"circuits\":{}}}\n"
                        + "{\"kind\":\"device\",\"document\":{\"code\":\"B\"}}\n"
                        + "{\"kind\":\"device\",\"document\":{\"code\":\"A\"}}\n");
        exchange.calls().with("If-Match", "\"1\"").post("/v1/vehicles/" + vehicle + "/revisions", map);
        String export = exchange.export("");

        assertThat(export)
                .isEqualTo("{\"kind\":\"device\",\"revision\":1,\"document\":{\"code\":\"A\"}}\n"
                        + "{\"kind\":\"device\",\"revision\":1,\"document\":{\"code\":\"B\"}}\n"
                        + "{\"kind\":\"vehicle\",\"id\":\"" + vehicle + "\",\"revision\":2,\"document\":" + map
                        + "}\n");
        JsonNode view = Calls.json(exchange.put(UUID.randomUUID(), export));
        assertThat(view.path("unchanged").asInt()).isEqualTo(3);
        assertThat(exchange.export("?what=devices").lines()).hasSize(2);
        assertThat(exchange.export("?what=vehicles").lines()).hasSize(1);
        assertThat(exchange.calls().get("/v1/export?what=boats").statusCode()).isEqualTo(400);
    }

    @Test
    void copiesWhatOthersShareIntoABookOfOnesOwn() {
        assertThat(exchange.export("")).isEmpty();
        String shared = exchange.export("?mine=false");
        assertThat(shared.lines())
                .hasSizeGreaterThan(10)
                .noneMatch(line ->
                        MAPPER.readTree(line).has("id") || MAPPER.readTree(line).has("revision"));
        JsonNode view = Calls.json(exchange.put(UUID.randomUUID(), shared));

        assertThat(view.path("vehicles").asInt() + view.path("devices").asInt())
                .isEqualTo(shared.lines().count());
        String own = exchange.export("");
        assertThat(documents(own)).isEqualTo(documents(shared));
        assertThat(documents(exchange.export("?mine=false&what=devices")))
                .as("a code leads to one's own device")
                .isEqualTo(documents(exchange.export("?what=devices")));
        JsonNode again = Calls.json(exchange.put(UUID.randomUUID(), own));
        assertThat(again.path("unchanged").asInt()).isEqualTo((int) own.lines().count());
    }

    @Test
    void breaksTheConnectionWhenItFailsHalfway() throws Exception {
        String note = "n".repeat(2000);
        String circuits = IntStream.range(0, 25)
                .mapToObj(at -> "\"C1-" + at + "\":{\"note\":\"" + note + "\"}")
                .collect(Collectors.joining(","));
        String lines = ("{\"kind\":\"vehicle\",\"document\":{\"circuits\":{" + circuits + "}}}\n").repeat(400);
        exchange.put(UUID.randomUUID(), lines);
        URI base = URI.create(exchange.calls().base());
        try (Socket socket = new Socket()) {
            socket.setReceiveBufferSize(64 * 1024);
            socket.connect(new InetSocketAddress(InetAddress.getLoopbackAddress(), base.getPort()));
            socket.setSoTimeout(30_000);
            socket.getOutputStream()
                    .write(("GET /v1/export HTTP/1.1\r\nHost: a\r\nAuthorization: Bearer " + firm.key() + "\r\n\r\n")
                            .getBytes(StandardCharsets.UTF_8));
            InputStream answer = socket.getInputStream();
            assertThat(new String(answer.readNBytes(12), StandardCharsets.UTF_8))
                    .isEqualTo("HTTP/1.1 200");
            await().atMost(Duration.ofSeconds(30))
                    .until(() -> !rows.sql("select pg_terminate_backend(pid) from pg_stat_activity"
                                    + " where usename = current_user and pid <> pg_backend_pid()"
                                    + " and state = 'idle in transaction'")
                            .query(Boolean.class)
                            .list()
                            .isEmpty());
            byte[] rest = readToEnd(answer);

            assertThat(rest.length).isLessThan(lines.length());
            assertThat(new String(rest, Math.max(0, rest.length - 7), Math.min(7, rest.length), StandardCharsets.UTF_8))
                    .as("the last chunk of a whole answer is an empty one")
                    .doesNotEndWith("0\r\n\r\n");
        }
    }

    private static byte[] readToEnd(InputStream answer) {
        ByteArrayOutputStream rest = new ByteArrayOutputStream();
        byte[] buffer = new byte[64 * 1024];
        try {
            for (int read = answer.read(buffer); read >= 0; read = answer.read(buffer)) {
                rest.write(buffer, 0, read);
            }
        } catch (SocketException reset) {
            assertThat(reset).as("a way to break a connection").isNotNull();
        } catch (IOException other) {
            throw new UncheckedIOException(other);
        }
        return rest.toByteArray();
    }

    private static Set<JsonNode> documents(String lines) {
        List<String> all = lines.lines().toList();
        return all.stream().map(line -> MAPPER.readTree(line).path("document")).collect(Collectors.toSet());
    }
}
