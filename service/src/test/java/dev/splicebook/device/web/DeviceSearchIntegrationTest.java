package dev.splicebook.device.web;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.testing.Calls;
import dev.splicebook.testing.OtherFirm;
import dev.splicebook.testing.ServiceIntegrationTest;
import java.net.URLEncoder;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;
import tools.jackson.databind.JsonNode;

/** Each test searches among devices of a firm of its own, and those that all firms share. */
class DeviceSearchIntegrationTest extends ServiceIntegrationTest {

    @Autowired
    private JdbcClient rows;

    private Calls own;

    @BeforeEach
    void fillACatalogue() {
        own = anonymousCalls().withKey(OtherFirm.open(rows).key());
        add("""
                {"code": "ZQ-HARNESS", "maker": "Wendlebury", "name": "Radio harness", "kind": "zq-harness",
                 "notes": "For the grey 16-way plug; 7.5 A at most.",
                 "terminals": {"P1-1": {"function": "audio.speaker.front-left.plus"}},
                 "connectors": {"P1": {"mates": ["ZQ-F16", "ZQ-F8"]}, "P2": {"mates": ["ZQ-M16"]}},
                 "accessories": [{"device": "ZQ_RELAY"}, {"device": "ZQ-NONE"}]}""");
        add("""
                {"code": "ZQ_RELAY", "maker": "wendlebury", "name": "Relay 100%", "kind": "zq-relay",
                 "terminals": {"30": {"function": "power.battery"}},
                 "connectors": {"S1": {"mates": ["ZQ-M16"]}}}""");
        add("{\"code\": \"ZQ-SOCKET\", \"maker\": \"Wendle & Sons\", \"name\": \"Socket\", \"kind\": \"zq-socket\"}");
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
                    code=zq                                  | ZQ-HARNESS ZQ-SOCKET ZQ_RELAY
                    code=zq_                                 | ZQ_RELAY
                    code=Q-                                  |
                    maker=WENDLEB                            | ZQ-HARNESS ZQ_RELAY
                    name=relay 100%                          | ZQ_RELAY
                    name=relay%                              |
                    kind=zq-relay                            | ZQ_RELAY
                    kind=ZQ-RELAY                            |
                    code=zq&function=audio.speaker           | ZQ-HARNESS
                    code=zq&function=audio.speaker.front-left.plus | ZQ-HARNESS
                    code=zq&function=power.battery           | ZQ_RELAY
                    code=zq&function=power                   | ZQ_RELAY
                    code=zq&function=power.accessory         |
                    text=wendle sock                         | ZQ-SOCKET
                    text=SOCKET zq                           | ZQ-SOCKET
                    text=wendlebury grey plug                | ZQ-HARNESS
                    text=wendlebury lug                      |
                    text=wendlebury 7.5                      | ZQ-HARNESS
                    text=zq-rel                              | ZQ_RELAY
                    text=wendlebury ' & !(:*                 | ZQ-HARNESS ZQ_RELAY
                    mates=ZQ-F8                              | ZQ-HARNESS
                    mates=ZQ-M16                             | ZQ-HARNESS ZQ_RELAY
                    mates=ZQ-F                               |
                    mates=ZQ-M16&kind=zq-relay               | ZQ_RELAY
                    accessoryOf=ZQ-HARNESS                   | ZQ_RELAY
                    accessoryOf=ZQ-SOCKET                    |
                    """)
    void findsByEachFilterAndAllTogether(String query, String codes) {
        assertThat(String.join(" ", found(query))).isEqualTo(codes == null ? "" : codes);
    }

    @Test
    void findsWhatFitsAVehicle() {
        String vehicle = Calls.json(
                        own.post(
                                "/v1/vehicles",
                                "{\"connectors\": {\"C1\": {\"mates\": [\"ZQ-F16\", \"ZQ-X\"]}, \"C2\": {}}, \"circuits\": {}}"))
                .path("id")
                .asString();

        assertThat(found("fits=" + vehicle)).containsExactly("ZQ-HARNESS");

        own.with("If-Match", "\"1\"").post("/v1/vehicles/" + vehicle + "/revisions", "{\"circuits\": {}}");
        assertThat(found("fits=" + vehicle)).isEmpty();
        own.with("If-Match", "\"2\"").post("/v1/vehicles/" + vehicle + "/revisions/1/restore");
        assertThat(found("fits=" + vehicle)).containsExactly("ZQ-HARNESS");
    }

    @Test
    void searchesTheLatestRevisionOnly() {
        HttpResponse<String> revised = own.with("If-Match", "\"1\"")
                .post("/v1/devices/ZQ-HARNESS/revisions", "{\"code\": \"ZQ-HARNESS\", \"name\": \"Adapter\"}");
        assertThat(revised.statusCode()).isEqualTo(201);

        assertThat(found("code=zq&function=audio")).isEmpty();
        assertThat(found("mates=ZQ-F8")).isEmpty();
        assertThat(found("text=wendlebury grey")).isEmpty();
        assertThat(found("accessoryOf=ZQ-HARNESS")).isEmpty();
        assertThat(found("text=zq adapter")).containsExactly("ZQ-HARNESS");
    }

    @Test
    void walksWhatItFoundPageByPage() {
        for (int at = 0; at < 5; at++) {
            add(
                    "{\"code\": \"ZP-%d\", \"connectors\": {\"A\": {\"mates\": [\"ZP-F\"]}, \"B\": {\"mates\": [\"ZP-F\"]}}}"
                            .formatted(at));
        }
        List<String> met = new ArrayList<>();
        String next = "";
        for (int page = 0; page < 3; page++) {
            JsonNode list = Calls.json(own.get("/v1/devices?mates=ZP-F&text=zp&limit=2" + next));
            list.path("items").forEach(item -> met.add(item.path("code").asString()));
            assertThat(list.path("next").isNull()).isEqualTo(page == 2);
            next = "&cursor=" + list.path("next").asString("");
        }

        assertThat(met).containsExactly("ZP-0", "ZP-1", "ZP-2", "ZP-3", "ZP-4");
    }

    @Test
    void showsNothingOfAnotherFirms() {
        Calls other = anonymousCalls().withKey(OtherFirm.open(rows).key());
        String vehicle = Calls.json(own.post(
                        "/v1/vehicles", "{\"connectors\": {\"C1\": {\"mates\": [\"ZQ-F16\"]}}, \"circuits\": {}}"))
                .path("id")
                .asString();

        for (String query : List.of("code=zq", "text=zq", "mates=ZQ-M16", "kind=zq-relay", "maker=wendle")) {
            HttpResponse<String> answer = other.get("/v1/devices?" + query);
            assertThat(Calls.json(answer).path("items")).as(query).isEmpty();
        }
        for (String query : List.of("fits=" + vehicle, "accessoryOf=ZQ-HARNESS", "accessoryOf=ZQ-NOWHERE")) {
            assertProblem(other.get("/v1/devices?" + query), 404);
        }
        assertProblem(own.get("/v1/devices?fits=" + UUID.randomUUID()), 404);
        assertProblem(own.get("/v1/devices?accessoryOf=ZQ-NOWHERE"), 404);
    }

    @Test
    void findsWhatIsShared() {
        assertThat(found("code=rel-30&kind=relay")).contains("REL-30");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "code=",
                "code=%00",
                "maker=%00a",
                "name=%20",
                "kind=%0a",
                "function=audio.speker",
                "function=",
                "text=",
                "text=...",
                "text=a%00b",
                "mates=%00",
                "fits=none",
                "fits=1",
                "accessoryOf=%00",
                "cursor=x",
                "cursor=WyJhIl0",
                "cursor=WyJhIiwiYiJd",
                "limit=0",
            })
    void answersAProblemToABadFilter(String query) {
        assertProblem(own.get("/v1/devices?" + query), 400);
    }

    @Test
    void takesTextsOfAnyLengthThatAnAddressHas() {
        assertProblem(own.get("/v1/devices?text=" + "a".repeat(3000)), 400);
        assertProblem(own.get("/v1/devices?code=" + "a".repeat(3000)), 400);
        assertThat(own.get("/v1/devices?text=" + "a".repeat(200)).statusCode()).isEqualTo(200);
    }

    @Test
    void namesTheNearestFunction() {
        assertThat(own.get("/v1/devices?function=power.batery").body()).contains("power.battery");
    }

    private void add(String document) {
        HttpResponse<String> added = own.post("/v1/devices", document);
        assertThat(added.statusCode()).as(added.body()).isEqualTo(201);
    }

    private List<String> found(String query) {
        List<String> parts = new ArrayList<>();
        for (String part : query.split("&(?=[a-zA-Z]+=)", -1)) {
            int at = part.indexOf('=');
            parts.add(part.substring(0, at + 1) + URLEncoder.encode(part.substring(at + 1), StandardCharsets.UTF_8));
        }
        HttpResponse<String> answer = own.get("/v1/devices?" + String.join("&", parts));
        assertThat(answer.statusCode()).as(answer.body()).isEqualTo(200);
        return Calls.json(answer)
                .path("items")
                .valueStream()
                .map(item -> item.path("code").asString())
                .toList();
    }

    private static void assertProblem(HttpResponse<String> answer, int status) {
        assertThat(answer.statusCode()).as(answer.body()).isEqualTo(status);
        assertThat(Calls.header(answer, "Content-Type")).startsWith("application/problem+json");
    }

    @Test
    void listsOneDeviceOfACode() {
        add("{\"code\": \"REL-30\", \"maker\": \"Wendlebury\", \"kind\": \"relay\"}");
        add("{\"code\": \"ZQ-MAIN\", \"accessories\": [{\"device\": \"REL-30\"}]}");

        assertThat(found("code=rel-30&kind=relay")).containsOnlyOnce("REL-30");
        assertThat(found("accessoryOf=ZQ-MAIN")).containsExactly("REL-30");
        assertThat(found("maker=wendlebury&kind=relay")).containsExactly("REL-30");
    }
}
