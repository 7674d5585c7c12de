package dev.splicebook.check.web;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.testing.Calls;
import dev.splicebook.testing.OtherFirm;
import dev.splicebook.testing.ServiceIntegrationTest;
import java.net.http.HttpResponse;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;
import tools.jackson.databind.JsonNode;

/** Each test has a firm of its own, as what it sets counts in every check of the firm. */
class ThresholdsIntegrationTest extends ServiceIntegrationTest {

    private static final String NAME = "fuse-too-far.mostMetres";

    /** The fuse sits 40 cm from the battery. */
    private static final String HOOKUP = """
            {"parts": {"AMP": {"inline": {"terminals": {
               "plus": {"electrical": {"kind": "load", "typicalAmps": 20, "maxAmps": 30, "needs": "constant"}}}}}},
             "connections": {"W1": {"ends": ["CAR.battery-plus", "AMP.plus"], "conductor": {"size": "8 AWG"},
               "length": {"value": 5, "unit": "m"},
               "fuse": {"ratingAmps": 60, "fromSource": {"value": 40, "unit": "cm"}}}}}""";

    @Autowired
    private JdbcClient rows;

    private OtherFirm opened;
    private Calls firm;

    @BeforeEach
    void openFirm() {
        opened = OtherFirm.open(rows);
        firm = anonymousCalls().withKey(opened.key());
    }

    private HttpResponse<String> put(String ifMatch, String values) {
        return firm.with("Content-Type", "application/json")
                .with("If-Match", ifMatch)
                .send("PUT", "/v1/thresholds", "{\"values\": " + values + "}");
    }

    private JsonNode threshold() {
        return Calls.json(firm.get("/v1/thresholds"))
                .path("items")
                .valueStream()
                .filter(each -> each.path("name").asString().equals(NAME))
                .findFirst()
                .orElseThrow();
    }

    private JsonNode check() {
        return Calls.json(firm.post("/v1/checks", HOOKUP));
    }

    private static void assertProblem(HttpResponse<String> answer, int status) {
        assertThat(answer.statusCode()).as(answer.body()).isEqualTo(status);
        assertThat(Calls.header(answer, "Content-Type")).startsWith("application/problem+json");
    }

    @Test
    void countInEveryCheckOfTheFirm() {
        assertThat(check().path("findings").toString()).doesNotContain("fuse-too-far");
        assertThat(threshold().path("isSet").asBoolean()).isFalse();

        HttpResponse<String> set = put("\"1\"", "{\"" + NAME + "\": 0.3}");

        assertThat(set.statusCode()).as(set.body()).isEqualTo(200);
        assertThat(Calls.header(set, "ETag")).isEqualTo("\"2\"");
        assertThat(threshold().path("value").asDouble()).isEqualTo(0.3);
        assertThat(threshold().path("isSet").asBoolean()).isTrue();
        JsonNode checked = check();
        assertThat(checked.path("findings").toString()).contains("fuse-too-far");
        assertThat(checked.path("assumptions").toString()).contains(NAME);
        assertThat(Calls.json(calls().post("/v1/checks", HOOKUP))
                        .path("findings")
                        .toString())
                .doesNotContain("fuse-too-far");

        assertThat(put("\"2\"", "{}").statusCode()).isEqualTo(200);
        assertThat(check().path("findings").toString()).doesNotContain("fuse-too-far");
    }

    @Test
    void areRefusedOutsideTheirRangeAndWithoutARule() {
        HttpResponse<String> refused = put("\"1\"", "{\"" + NAME + "\": 500, \"fuse-too-far.moons\": 3}");

        assertProblem(refused, 400);
        assertThat(Calls.json(refused)
                        .path("errors")
                        .valueStream()
                        .map(fault -> fault.path("pointer").asString()))
                .containsExactlyInAnyOrder("/values/" + NAME, "/values/fuse-too-far.moons");
        assertProblem(put("\"2\"", "{}"), 412);
        assertProblem(
                firm.with("Content-Type", "application/json").send("PUT", "/v1/thresholds", "{\"values\": {}}"), 428);
        assertThat(Calls.json(firm.get("/v1/thresholds")).path("revision").asInt())
                .isEqualTo(1);
        assertThat(firm.with("If-None-Match", "\"1\"").get("/v1/thresholds").statusCode())
                .isEqualTo(304);
    }

    @Test
    void leaveChecksAloneWhereTheirRuleTakesThemNoMore() {
        rows.sql("insert into thresholds (owner_firm, revision, document) values (:firm, 2, cast(:document as text))")
                .param("firm", opened.id())
                .param("document", "{\"values\": {\"some-rule.gone\": 3, \"" + NAME + "\": 500}}")
                .update();

        assertThat(firm.post("/v1/checks", HOOKUP).statusCode()).isEqualTo(200);
        assertThat(threshold().path("isSet").asBoolean()).isFalse();
    }
}
