package dev.splicebook.vehicle.web;

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
import tools.jackson.databind.JsonNode;

class VehicleRevisionsIntegrationTest extends ServiceIntegrationTest {

    private static final String FIRST = """
            {"maker":"Ondrake","equipment":["sunroof","navigation"],"connectors":{"C1":{"mates":["QF-16"]}},\
            "circuits":{"C1-7":{"colour":"YE","electrical":{"kind":"supply","volts":12.60}},"C1-8":{}}}""";
    private static final String SAME = """
            {"equipment":["navigation","sunroof"],"circuits":{"C1-8":{},\
            "C1-7":{"electrical":{"volts":12.6,"kind":"supply"},"colour":"YE"}},"maker":"Ondrake",\
            "connectors":{"C1":{"mates":["QF-16"]}}}""";
    private static final String THIRD = """
            {"maker":"Ondrake","model":"Quarrel","equipment":["sunroof","navigation"],\
            "circuits":{"C1-7":{"colour":"YE/RD","electrical":{"kind":"supply","volts":12.6}}}}""";

    @Autowired
    private JdbcClient rows;

    private String vehicle;

    @BeforeEach
    void addThreeRevisions() {
        HttpResponse<String> created = calls().post("/v1/vehicles", FIRST);
        assertThat(created.statusCode()).as(created.body()).isEqualTo(201);
        vehicle = "/v1/vehicles/" + Calls.json(created).path("id").asString();
        add("\"1\"", SAME);
        add("\"2\"", THIRD);
    }

    @Test
    void tellsNoChangeOfADocumentThatMeansTheSame() {
        JsonNode changes = Calls.json(calls().get(vehicle + "/revisions/2/changes"));

        assertThat(changes).hasToString("{\"from\":1,\"to\":2,\"changes\":[]}");
    }

    @Test
    void comparesWithAnyRevisionForwardsAndBackwards() {
        assertThat(told("/revisions/3/changes"))
                .containsExactly(
                        "removed /connectors",
                        "added /model",
                        "removed /circuits/C1-8",
                        "changed /circuits/C1-7/colour");
        assertThat(told("/revisions/1/changes?from=3"))
                .containsExactly(
                        "removed /model", "added /connectors", "changed /circuits/C1-7/colour", "added /circuits/C1-8");
        assertThat(told("/revisions/3/changes?from=3")).isEmpty();
        JsonNode one = Calls.json(calls().get(vehicle + "/revisions/3/changes?from=2"));
        assertThat(one.at("/from").asInt()).isEqualTo(2);
        assertThat(one.path("changes")
                        .valueStream()
                        .filter(each -> each.path("pointer").asString().endsWith("colour")))
                .singleElement()
                .hasToString(
                        "{\"op\":\"changed\",\"pointer\":\"/circuits/C1-7/colour\",\"was\":\"YE\",\"is\":\"YE/RD\"}");
    }

    @Test
    void comparesTheFirstWithNothing() {
        assertThat(told("/revisions/1/changes"))
                .containsExactly("added /maker", "added /equipment", "added /connectors", "added /circuits");
        assertThat(told("/revisions/1/changes?from=0")).isEqualTo(told("/revisions/1/changes"));
    }

    @ParameterizedTest
    @CsvSource({
        "3, -1, 400",
        "3, x, 400",
        "3, 1.5, 400",
        "3, 99999999999, 400",
        "3, 4, 404",
        "4, 3, 404",
        "0, 1, 404",
        "-1, 1, 404",
        "x, 1, 400",
    })
    void answersAProblemToBadRevisions(String revision, String from, int status) {
        HttpResponse<String> answer = calls().get(vehicle + "/revisions/" + revision + "/changes?from=" + from);

        assertProblem(answer, status);
    }

    @Test
    void hidesWhatIsAnotherFirms() {
        Calls other = anonymousCalls().withKey(OtherFirm.open(rows).key());
        String absent = "/v1/vehicles/" + UUID.randomUUID();

        for (String path : List.of(vehicle, absent)) {
            assertProblem(other.get(path + "/revisions/2/changes"), 404);
            assertProblem(other.with("If-Match", "\"3\"").post(path + "/revisions/1/restore"), 404);
            assertProblem(other.post(path + "/revisions/1/restore"), 404);
        }
    }

    @Test
    void letsOthersReadWhatIsSharedAndNotRestoreIt() {
        rows.sql("update vehicles set shared = true where id = :id")
                .param("id", UUID.fromString(vehicle.substring("/v1/vehicles/".length())))
                .update();
        Calls other = anonymousCalls().withKey(OtherFirm.open(rows).key());

        assertThat(other.get(vehicle + "/revisions/3/changes").statusCode()).isEqualTo(200);
        assertProblem(other.with("If-Match", "\"3\"").post(vehicle + "/revisions/1/restore"), 404);
    }

    @Test
    void restoresARevisionAsItWasStored() {
        HttpResponse<String> restored = calls().with("If-Match", "\"3\"").post(vehicle + "/revisions/1/restore");

        assertThat(restored.statusCode()).as(restored.body()).isEqualTo(201);
        assertThat(Calls.header(restored, "ETag")).isEqualTo("\"4\"");
        assertThat(Calls.header(restored, "Location")).isEqualTo(vehicle + "/revisions/4");
        assertThat(Calls.json(restored).path("document"))
                .isEqualTo(Calls.json(calls().get(vehicle + "/revisions/1")).path("document"));
        assertThat(rows.sql("select count(distinct document) from vehicle_revisions"
                                + " where vehicle_id = :id and revision in (1, 4)")
                        .param("id", UUID.fromString(vehicle.substring("/v1/vehicles/".length())))
                        .query(Long.class)
                        .single())
                .isEqualTo(1);
        assertThat(told("/revisions/4/changes?from=1")).isEmpty();
        HttpResponse<String> latest = calls().with("If-Match", "\"4\"").post(vehicle + "/revisions/4/restore");
        assertThat(latest.statusCode()).isEqualTo(201);
        assertThat(Calls.json(calls().get(vehicle)).path("revision").asInt()).isEqualTo(5);
    }

    @Test
    void restoresOnlyOntoTheLatest() {
        assertProblem(calls().post(vehicle + "/revisions/1/restore"), 428);
        assertProblem(calls().with("If-Match", "\"2\"").post(vehicle + "/revisions/1/restore"), 412);
        assertProblem(calls().with("If-Match", "\"3\"").post(vehicle + "/revisions/4/restore"), 404);
        assertProblem(calls().with("If-Match", "\"3\"").post(vehicle + "/revisions/x/restore"), 400);
        assertThat(Calls.json(calls().get(vehicle)).path("revision").asInt()).isEqualTo(3);
    }

    @Test
    void namesWhatIsRefusedTodayOfAnOldDocument() {
        UUID id = UUID.randomUUID();
        String document =
                "{\"connectors\":{\"C1\":{\"pinCount\":2}},\"circuits\":{\"C1-9\":{},\"C1-1\":{},\"C1-01\":{}}}";
        rows.sql("""
                        with firm as (select owner_firm as id from vehicles where id = :known),
                        added as (insert into vehicles (id, owner_firm, latest_revision) select :id, id, 1 from firm)
                        insert into vehicle_revisions (vehicle_id, revision, owner_firm, document)
                        select :id, 1, id, :document from firm""")
                .param("known", UUID.fromString(vehicle.substring("/v1/vehicles/".length())))
                .param("id", id)
                .param("document", document)
                .update();
        String old = "/v1/vehicles/" + id;

        assertThat(Calls.json(calls().get(old)).path("document")).hasToString(document);
        assertThat(calls().get(old + "/revisions/1/changes").statusCode()).isEqualTo(200);
        HttpResponse<String> refused = calls().with("If-Match", "\"1\"").post(old + "/revisions/1/restore");
        assertProblem(refused, 422);
        assertThat(Calls.json(refused)
                        .path("errors")
                        .valueStream()
                        .map(fault -> fault.path("pointer").asString()))
                .contains("/circuits/C1-9");
        HttpResponse<String> check =
                calls().post("/v1/checks", "{\"vehicle\":{\"id\":\"" + id + "\"},\"parts\":{},\"connections\":{}}");
        assertProblem(check, 422);
        assertThat(Calls.json(check).path("detail").asString()).contains("revision 1 of vehicle " + id);
    }

    private void add(String ifMatch, String document) {
        HttpResponse<String> added = calls().with("If-Match", ifMatch).post(vehicle + "/revisions", document);
        assertThat(added.statusCode()).as(added.body()).isEqualTo(201);
    }

    private List<String> told(String path) {
        HttpResponse<String> answer = calls().get(vehicle + path);
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
