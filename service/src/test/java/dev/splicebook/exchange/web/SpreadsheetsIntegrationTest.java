package dev.splicebook.exchange.web;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.testing.Calls;
import dev.splicebook.testing.ServiceIntegrationTest;
import dev.splicebook.testing.TestDatabase;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.OutputStream;
import java.net.Socket;
import java.net.URI;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;
import tools.jackson.databind.JsonNode;

class SpreadsheetsIntegrationTest extends ServiceIntegrationTest {

    private static final String SHEET = """
            connector,pin,function,colour,electrical.kind,electrical.volts,connectorName
            C1,7,power.battery,YE/RD,supply,12.60,radio
            C1,8,power.accessory,RD/BU,,,
            """;

    @Autowired
    private JdbcClient rows;

    private HttpResponse<String> send(String method, String path, String type, String sheet) {
        return calls().with("Content-Type", type).send(method, path, sheet);
    }

    private HttpResponse<String> create(String query, String sheet) {
        return send("POST", "/v1/spreadsheets" + query, "text/csv; charset=utf-8", sheet);
    }

    private HttpResponse<String> replace(String id, String query, String tag, String sheet) {
        return calls().with("Content-Type", "text/csv")
                .with("If-Match", tag)
                .send("PUT", "/v1/vehicles/" + id + "/spreadsheet" + query, sheet);
    }

    private long vehicles() {
        return rows.sql("select count(*) from vehicles").query(Long.class).single();
    }

    @Test
    void createsAVehicle() {
        HttpResponse<String> created = create(
                "?maker=Vandry&model=Hauler%20L2&modelYearFrom=2021&modelYearTo=2024&market=EU&steeringSide=left"
                        + "&equipment=navigation&equipment=factory-amplifier&vinPattern=S0V%3F%3FL2",
                SHEET);

        assertThat(created.statusCode()).as(created.body()).isEqualTo(201);
        JsonNode view = Calls.json(created);
        String id = view.path("id").asString();
        assertThat(Calls.header(created, "Location")).isEqualTo("/v1/vehicles/" + id);
        assertThat(Calls.header(created, "ETag")).isEqualTo("\"1\"");
        assertThat(view.path("document").toString())
                .isEqualTo("{\"maker\":\"Vandry\",\"model\":\"Hauler L2\",\"modelYears\":{\"from\":2021,\"to\":2024},"
                        + "\"market\":\"EU\",\"steeringSide\":\"left\",\"equipment\":[\"navigation\","
                        + "\"factory-amplifier\"],\"vinPatterns\":[\"S0V??L2\"],\"connectors\":{\"C1\":{\"name\":"
                        + "\"radio\"}},\"circuits\":{\"C1-7\":{\"function\":\"power.battery\",\"colour\":\"YE/RD\","
                        + "\"electrical\":{\"kind\":\"supply\",\"volts\":12.6}},\"C1-8\":{\"function\":"
                        + "\"power.accessory\",\"colour\":\"RD/BU\"}}}");
        assertThat(Calls.json(calls().get("/v1/vehicles/" + id))).isEqualTo(view);
    }

    @Test
    void givesBackASheetThatMakesTheSameCircuits() {
        String id = Calls.json(create("?maker=Vandry", SHEET)).path("id").asString();

        HttpResponse<String> sheet = calls().get("/v1/vehicles/" + id + "/spreadsheet");

        assertThat(sheet.statusCode()).isEqualTo(200);
        assertThat(Calls.header(sheet, "Content-Type")).isEqualToIgnoringCase("text/csv;charset=UTF-8");
        assertThat(Calls.header(sheet, "Content-Disposition"))
                .isEqualTo("attachment; filename=\"vehicle-" + id + "-1.csv\"");
        assertThat(Calls.header(sheet, "ETag")).isEqualTo("\"1\"");
        assertThat(sheet.body()).isEqualTo(SHEET.replace("\n", "\r\n"));
        assertThat(calls().with("If-None-Match", "\"1\"")
                        .get("/v1/vehicles/" + id + "/spreadsheet")
                        .statusCode())
                .isEqualTo(304);
        HttpResponse<String> replaced = replace(id, "", "\"1\"", sheet.body());
        assertThat(replaced.statusCode()).isEqualTo(201);
        assertThat(Calls.json(replaced).path("document"))
                .isEqualTo(Calls.json(calls().get("/v1/vehicles/" + id + "/revisions/1"))
                        .path("document"));
    }

    @Test
    void replacesTheCircuitsOfTheLatestRevisionOnly() {
        String id = Calls.json(create("?maker=Vandry", SHEET)).path("id").asString();
        String sheet = "connector;pin;colour\r\nC1;9;BN\r\n";

        assertThat(send("PUT", "/v1/vehicles/" + id + "/spreadsheet", "text/csv", sheet)
                        .statusCode())
                .isEqualTo(428);
        assertThat(replace(id, "", "\"2\"", sheet).statusCode()).isEqualTo(412);
        assertThat(replace(UUID.randomUUID().toString(), "", "\"1\"", sheet).statusCode())
                .isEqualTo(404);
        HttpResponse<String> replaced = replace(id, "", "\"1\"", sheet);

        assertThat(replaced.statusCode()).as(replaced.body()).isEqualTo(201);
        assertThat(Calls.header(replaced, "Location")).isEqualTo("/v1/vehicles/" + id + "/revisions/2");
        assertThat(Calls.header(replaced, "ETag")).isEqualTo("\"2\"");
        assertThat(Calls.json(replaced).path("document").toString())
                .isEqualTo("{\"maker\":\"Vandry\",\"connectors\":{\"C1\":{\"name\":\"radio\"}},"
                        + "\"circuits\":{\"C1-9\":{\"colour\":\"BN\"}}}");
        assertThat(calls().get("/v1/vehicles/" + id + "/spreadsheet?revision=1").body())
                .contains("power.battery");
        assertThat(calls().get("/v1/vehicles/" + id + "/spreadsheet?revision=3").statusCode())
                .isEqualTo(404);
    }

    @Test
    void storesNothingOfADryRun() {
        String id = Calls.json(create("?maker=Vandry", SHEET)).path("id").asString();
        long before = vehicles();

        JsonNode created = Calls.json(create("?maker=Vandry&dryRun=true", SHEET));
        HttpResponse<String> replaced = replace(id, "?dryRun=true", "\"1\"", "connector,pin\nC2,1\n");

        assertThat(created.path("dryRun").asBoolean()).isTrue();
        assertThat(created.path("circuits").asInt()).isEqualTo(2);
        assertThat(created.path("connectors").asInt()).isEqualTo(1);
        assertThat(created.at("/document/maker").asString()).isEqualTo("Vandry");
        assertThat(replaced.statusCode()).isEqualTo(200);
        assertThat(Calls.json(replaced).at("/document/circuits").propertyNames())
                .containsExactly("C2-1");
        assertThat(replace(id, "?dryRun=true", "\"2\"", "connector,pin\nC2,1\n").statusCode())
                .isEqualTo(412);
        assertThat(create("?dryRun=true", "connector,pin\nC1,x y\n").statusCode())
                .isEqualTo(400);
        assertThat(vehicles()).isEqualTo(before);
        assertThat(Calls.json(calls().get("/v1/vehicles/" + id))
                        .path("revision")
                        .asInt())
                .isEqualTo(1);
    }

    @Test
    void tellsEveryFaultByLineAndColumnAndStoresNothing() {
        long before = vehicles();

        HttpResponse<String> refused = create("", """
                connector,pin,function,colour,note
                C1,7,power.batery,yellow,
                C1,7,,,=1+1
                """);

        assertThat(refused.statusCode()).isEqualTo(400);
        JsonNode problem = Calls.json(refused);
        assertThat(problem.path("type").asString()).isEqualTo("/problems/bad-body");
        assertThat(problem.path("detail").asString()).isEqualTo("the body has 4 faults");
        assertThat(problem.path("errors")
                        .valueStream()
                        .map(error -> error.path("line").asInt() + " "
                                + error.path("column").asInt() + " "
                                + error.path("columnName").asString() + " "
                                + error.path("code").asString() + " "
                                + error.path("pointer").asString()))
                .containsExactly(
                        "2 3 function unknown-function /circuits/C1-7/function",
                        "2 4 colour unknown-colour /circuits/C1-7/colour",
                        "3 2 pin duplicate-pin /circuits/C1-7",
                        "3 5 note formula-like /circuits/C1-7/note");
        assertThat(vehicles()).isEqualTo(before);
    }

    @ParameterizedTest
    @CsvSource({
        "?modelYearFrom=1900, modelYearFrom",
        "?modelYearTo=2020, modelYearTo",
        "?modelYearFrom=soon, modelYearFrom",
        "?vinPattern=QQQ, vinPattern",
        "?equipment=a%20b, equipment",
        "?steeringSide=middle, steeringSide",
        "?maker=, maker",
        "?model=a%00b, model",
        "?dryRun=perhaps, dryRun"
    })
    void refusesABadParameter(String query, String parameter) {
        HttpResponse<String> refused = create(query, SHEET);

        assertThat(refused.statusCode()).as(refused.body()).isEqualTo(400);
        assertThat(Calls.json(refused).path("type").asString()).isEqualTo("/problems/bad-parameter");
        assertThat(Calls.json(refused).at("/errors/0/parameter").asString()).isEqualTo(parameter);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {"application/json", "text/plain", "application/vnd.ms-excel", "text/csv;charset=windows-1252"})
    void readsNothingButCsvInUtf8(String type) {
        HttpResponse<String> refused = send("POST", "/v1/spreadsheets", type, SHEET);

        assertThat(refused.statusCode()).isEqualTo(415);
        assertThat(Calls.json(refused).path("detail").asString()).contains("text/csv");
        assertThat(Calls.header(refused, "Accept")).startsWith("text/csv");
    }

    @Test
    void saysThatAFileIsEmpty() {
        HttpResponse<String> refused = create("", "");

        assertThat(refused.statusCode()).isEqualTo(400);
        assertThat(Calls.json(refused).at("/errors/0/code").asString()).isEqualTo("empty-body");
    }

    @Test
    void answersInNothingButItsOwnForm() {
        String id = Calls.json(create("", SHEET)).path("id").asString();

        assertThat(calls().with("Accept", "application/json")
                        .get("/v1/vehicles/" + id + "/spreadsheet")
                        .statusCode())
                .isEqualTo(406);
        assertThat(calls().with("Accept", "text/csv")
                        .get("/v1/vehicles/" + UUID.randomUUID() + "/spreadsheet")
                        .statusCode())
                .isEqualTo(404);
    }

    @Test
    void refuses200MegabytesByTheirLengthAlone() throws IOException {
        try (Socket socket = open()) {
            socket.getOutputStream()
                    .write(head("Content-Length: " + (200L << 20)).getBytes(StandardCharsets.US_ASCII));

            assertThat(statusLine(socket)).contains(" 413 ");
        }
    }

    @Test
    void refusesChunksAsSoonAsTheyAreTooMany() throws IOException {
        try (Socket socket = open()) {
            OutputStream out = socket.getOutputStream();
            out.write(head("Transfer-Encoding: chunked").getBytes(StandardCharsets.US_ASCII));
            byte[] chunk = new byte[1 << 20];
            Arrays.fill(chunk, (byte) ',');
            for (int sent = 0; sent < 9; sent++) {
                out.write("100000\r\n".getBytes(StandardCharsets.US_ASCII));
                out.write(chunk);
                out.write("\r\n".getBytes(StandardCharsets.US_ASCII));
            }
            out.flush();

            // the body is not at its end, so that an answer can only be about what has come so far
            assertThat(statusLine(socket)).contains(" 413 ");
        }
    }

    private Socket open() throws IOException {
        URI base = URI.create(calls().base());
        Socket socket = new Socket(base.getHost(), base.getPort());
        socket.setSoTimeout(20_000);
        return socket;
    }

    private static String head(String length) {
        return String.join(
                "\r\n",
                "POST /v1/spreadsheets HTTP/1.1",
                "Host: a",
                "Authorization: Bearer " + TestDatabase.key(),
                "Content-Type: text/csv",
                length,
                "",
                "");
    }

    private static String statusLine(Socket socket) throws IOException {
        return new BufferedReader(new InputStreamReader(socket.getInputStream(), StandardCharsets.US_ASCII)).readLine();
    }

    @Test
    void describesItsColumns() {
        JsonNode document = Calls.json(anonymousCalls().get("/v3/api-docs"));

        JsonNode operation = document.at("/paths/~1v1~1spreadsheets/post");
        assertThat(operation.path("description").asString())
                .contains("`connector` and `pin` are needed", "`connectorPinCount`", "`untouchable`: `reason`");
        assertThat(operation.at("/requestBody/content").propertyNames()).containsExactly("text/csv");
        assertThat(operation
                        .at("/responses/201/content/application~1json/schema/$ref")
                        .asString())
                .endsWith("/VehicleView");
        assertThat(operation
                        .at("/responses/200/content/application~1json/schema/$ref")
                        .asString())
                .endsWith("/SpreadsheetDryRun");
        assertThat(document.at("/paths/~1v1~1vehicles~1{id}~1spreadsheet/get/responses/200/content")
                        .propertyNames())
                .containsExactly("text/csv");
    }
}
