package dev.splicebook.device.web;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.testing.Calls;
import dev.splicebook.testing.OtherFirm;
import dev.splicebook.testing.ServiceIntegrationTest;
import java.net.http.HttpResponse;
import java.util.List;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;

class DeviceRevisionsIntegrationTest extends ServiceIntegrationTest {

    private final String code = "R-" + UUID.randomUUID();
    private final String device = "/v1/devices/" + code;

    @Autowired
    private JdbcClient rows;

    @BeforeEach
    void addTwoRevisions() {
        assertThat(calls().post("/v1/devices", "{\"code\":\"" + code + "\",\"name\":\"Relay\",\"notes\":\"old\"}")
                        .statusCode())
                .isEqualTo(201);
        assertThat(calls().with("If-Match", "\"1\"")
                        .post(
                                device + "/revisions",
                                "{\"kind\":\"relay\",\"name\":\"Relay, 30 A\",\"code\":\"" + code + "\"}")
                        .statusCode())
                .isEqualTo(201);
    }

    @Test
    void comparesRevisions() {
        assertThat(told("/revisions/2/changes")).containsExactly("added /kind", "changed /name", "removed /notes");
        assertThat(told("/revisions/1/changes?from=2"))
                .containsExactly("removed /kind", "changed /name", "added /notes");
        assertThat(told("/revisions/1/changes")).containsExactly("added /code", "added /name", "added /notes");
        assertThat(told("/revisions/2/changes?from=2")).isEmpty();
    }

    @ParameterizedTest
    @CsvSource({"2, -1, 400", "2, x, 400", "2, 3, 404", "3, 1, 404", "0, 1, 404", "x, 1, 400"})
    void answersAProblemToBadRevisions(String revision, String from, int status) {
        assertProblem(calls().get(device + "/revisions/" + revision + "/changes?from=" + from), status);
    }

    @Test
    void restoresARevision() {
        HttpResponse<String> restored = calls().with("If-Match", "\"2\"").post(device + "/revisions/1/restore");

        assertThat(restored.statusCode()).as(restored.body()).isEqualTo(201);
        assertThat(Calls.header(restored, "ETag")).isEqualTo("\"3\"");
        assertThat(Calls.header(restored, "Location")).isEqualTo(device + "/revisions/3");
        assertThat(Calls.json(restored).at("/document/notes").asString()).isEqualTo("old");
        assertThat(told("/revisions/3/changes?from=1")).isEmpty();
        assertThat(calls().with("If-Match", "\"3\"")
                        .post(device + "/revisions/3/restore")
                        .statusCode())
                .isEqualTo(201);
    }

    @Test
    void restoresOnlyOntoTheLatest() {
        assertProblem(calls().post(device + "/revisions/1/restore"), 428);
        assertProblem(calls().with("If-Match", "\"1\"").post(device + "/revisions/1/restore"), 412);
        assertProblem(calls().with("If-Match", "\"2\"").post(device + "/revisions/9/restore"), 404);
    }

    @Test
    void hidesWhatIsAnotherFirms() {
        Calls other = anonymousCalls().withKey(OtherFirm.open(rows).key());

        for (String path : List.of(device, device + "x")) {
            assertProblem(other.get(path + "/revisions/2/changes"), 404);
            assertProblem(other.with("If-Match", "\"2\"").post(path + "/revisions/1/restore"), 404);
        }
        String shared = "/v1/devices/REL-30/revisions/1";
        assertThat(other.get(shared + "/changes").statusCode()).isEqualTo(200);
        assertProblem(other.with("If-Match", "\"1\"").post(shared + "/restore"), 404);
    }

    @Test
    void namesWhatIsRefusedTodayOfAnOldDocument() {
        String old = "OLD-" + UUID.randomUUID();
        UUID id = UUID.randomUUID();
        rows.sql("""
                        with firm as (select owner_firm as id from devices where code = :known),
                        added as (insert into devices (id, owner_firm, code, latest_revision)
                                  select :id, id, :code, 1 from firm)
                        insert into device_revisions (device_id, revision, owner_firm, document)
                        select :id, 1, id, :document from firm""")
                .param("known", code)
                .param("id", id)
                .param("code", old)
                .param(
                        "document",
                        "{\"code\":\"" + old
                                + "\",\"connectors\":{\"P1\":{\"pinCount\":2}},\"terminals\":{\"P1-9\":{}}}")
                .update();

        HttpResponse<String> refused =
                calls().with("If-Match", "\"1\"").post("/v1/devices/" + old + "/revisions/1/restore");

        assertProblem(refused, 422);
        assertThat(Calls.json(refused).at("/errors/0/pointer").asString()).isEqualTo("/terminals/P1-9");
        assertProblem(
                calls().post(
                                "/v1/checks",
                                "{\"vehicle\":{\"inline\":{\"circuits\":{}}},\"parts\":{\"A\":{\"device\":\"" + old
                                        + "\"}},\"connections\":{}}"),
                422);
        assertThat(calls().get("/v1/devices/" + old).statusCode()).isEqualTo(200);
    }

    private List<String> told(String path) {
        HttpResponse<String> answer = calls().get(device + path);
        assertThat(answer.statusCode()).as(answer.body()).isEqualTo(200);
        return Calls.json(answer)
                .path("changes")
                .valueStream()
                .map(change -> change.path("op").asString() + " "
                        + change.path("pointer").asString())
                .toList();
    }

    private static void assertProblem(HttpResponse<String> answer, int status) {
        assertThat(answer.statusCode()).as(answer.body()).isEqualTo(status);
        assertThat(Calls.header(answer, "Content-Type")).startsWith("application/problem+json");
    }
}
