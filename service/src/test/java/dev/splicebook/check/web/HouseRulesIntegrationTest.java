package dev.splicebook.check.web;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.testing.Calls;
import dev.splicebook.testing.OtherFirm;
import dev.splicebook.testing.ServiceIntegrationTest;
import java.io.IOException;
import java.io.InputStream;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.Objects;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;
import tools.jackson.databind.JsonNode;

/** Each test has a firm of its own, as a rule of the house has its say in every check of the firm. */
class HouseRulesIntegrationTest extends ServiceIntegrationTest {

    private static final String HOOKUP = """
            {"parts": {"AMP": {"inline": {"terminals": {
               "plus": {"electrical": {"kind": "load", "maxAmps": 30, "needs": "constant"}}}}}},
             "connections": {"W1": {"ends": ["CAR.battery-plus", "AMP.plus"], "conductor": {"size": "8 AWG"},
               "fuse": {"ratingAmps": 60}}}}""";

    @Autowired
    private JdbcClient rows;

    private Calls firm;
    private String rule;

    @BeforeEach
    void openFirm() throws IOException {
        firm = anonymousCalls().withKey(OtherFirm.open(rows).key());
        try (InputStream in = getClass().getResourceAsStream("/dev/splicebook/check/web/house-rule.json")) {
            rule = new String(in.readAllBytes(), StandardCharsets.UTF_8);
        }
    }

    private HttpResponse<String> put(String ifMatch, String body) {
        return firm.with("Content-Type", "application/json")
                .with("If-Match", ifMatch)
                .send("PUT", "/v1/house-rules/house-fuse-named", body);
    }

    private JsonNode check() {
        HttpResponse<String> checked = firm.post("/v1/checks", HOOKUP);
        assertThat(checked.statusCode()).as(checked.body()).isEqualTo(200);
        return Calls.json(checked);
    }

    private static JsonNode ofRule(JsonNode list) {
        return list.valueStream()
                .filter(each -> each.path("rule").asString().equals("house-fuse-named"))
                .findFirst()
                .orElseThrow();
    }

    private static void assertProblem(HttpResponse<String> answer, int status) {
        assertThat(answer.statusCode()).as(answer.body()).isEqualTo(status);
        assertThat(Calls.header(answer, "Content-Type")).startsWith("application/problem+json");
    }

    @Test
    void hasItsSayInEveryCheckOfTheFirm() {
        JsonNode without = check();
        HttpResponse<String> created = firm.post("/v1/house-rules", rule);

        assertThat(created.statusCode()).as(created.body()).isEqualTo(201);
        assertThat(Calls.header(created, "Location")).isEqualTo("/v1/house-rules/house-fuse-named");
        assertThat(Calls.header(created, "ETag")).isEqualTo("\"1\"");
        JsonNode checked = check();
        assertThat(ofRule(checked.path("findings")).path("message").asString())
                .isEqualTo("connection W1 leaves the battery, and nobody wrote down how far from it the fuse sits");
        assertThat(ofRule(checked.path("outcomes")).path("outcome").asString()).isEqualTo("failed");
        assertThat(checked.path("findings").size())
                .isEqualTo(without.path("findings").size() + 1);
        JsonNode others = Calls.json(calls().post("/v1/checks", HOOKUP));
        assertThat(others.path("findings")).isEqualTo(without.path("findings"));
    }

    @Test
    void isKeptReplacedAndWithdrawn() {
        assertThat(firm.post("/v1/house-rules", rule).statusCode()).isEqualTo(201);
        assertProblem(firm.post("/v1/house-rules", rule), 409);
        assertProblem(put("\"2\"", rule), 412);
        assertProblem(
                firm.with("Content-Type", "application/json").send("PUT", "/v1/house-rules/house-fuse-named", rule),
                428);
        assertProblem(put("\"1\"", rule.replace("house-fuse-named", "house-other")), 400);

        HttpResponse<String> replaced = put("\"1\"", rule.replace("\"warning\"", "\"note\""));
        assertThat(replaced.statusCode()).as(replaced.body()).isEqualTo(200);
        assertThat(Calls.header(replaced, "ETag")).isEqualTo("\"2\"");
        assertThat(ofRule(check().path("findings")).path("severity").asString()).isEqualTo("note");
        HttpResponse<String> got = firm.get("/v1/house-rules/house-fuse-named");
        assertThat(Calls.json(got)).isEqualTo(Calls.json(replaced));
        assertThat(Calls.json(firm.get("/v1/house-rules")).path("items").size()).isEqualTo(1);

        Calls second = firm.with("If-Match", "\"2\"");
        assertThat(second.send("DELETE", "/v1/house-rules/house-fuse-named", "").statusCode())
                .isEqualTo(204);
        assertProblem(firm.get("/v1/house-rules/house-fuse-named"), 404);
        assertThat(check().toString()).doesNotContain("house-fuse-named");
        assertThat(Calls.json(firm.get("/v1/house-rules")).path("items")).isEmpty();
        HttpResponse<String> again = firm.post("/v1/house-rules", rule);
        assertThat(Calls.header(again, "ETag")).isEqualTo("\"4\"");
    }

    @Test
    void isRefusedWhereItDoesNotDoWhatItsTestsSay() {
        HttpResponse<String> refused = firm.post("/v1/house-rules", rule.replace("\"finds\": 0", "\"finds\": 3"));

        assertProblem(refused, 422);
        assertThat(Calls.json(refused).at("/errors/0/pointer").asString()).isEqualTo("/tests/1/finds");
        assertThat(Calls.json(refused).at("/errors/0/detail").asString())
                .isEqualTo("the rule finds 0 in \"with its distance\", where 3 belong");
        HttpResponse<String> failing = firm.post(
                "/v1/house-rules?dryRun=true", rule.replace("it.from.ref ==", "1 / 0 == 1 && it.from.ref =="));
        assertProblem(failing, 422);
        assertThat(Calls.json(failing).at("/errors/0/detail").asString()).contains("/ by zero");
        assertThat(Calls.json(firm.get("/v1/house-rules")).path("items")).isEmpty();
    }

    @Test
    void isRefusedWhereATestCouldJudgeNothing() {
        HttpResponse<String> refused = firm.post("/v1/house-rules", """
                {"code": "house-unjudged", "severity": "warning", "each": "connections", "when": "it.fuseAmps > 5.0",
                 "message": "{it.ref} is fused high", "help": "fuse it lower.",
                 "tests": [{"name": "without a fuse", "finds": 0, "hookup": {
                   "parts": {"P": {"inline": {"terminals": {"t": {"electrical": {"kind": "passive"}}}}}},
                   "connections": {"W1": {"ends": ["CAR.chassis", "P.t"]}}}}]}
                """);

        assertProblem(refused, 422);
        assertThat(Calls.json(refused).at("/errors/0/detail").asString())
                .isEqualTo("the rule finds nothing in \"without a fuse\" because it cannot tell without W1.fuseAmps;"
                        + " give the facts, or ask for them with has(…)");
    }

    @Test
    void isRefusedWithThePlaceOfEachFault() {
        HttpResponse<String> misspelt = firm.post(
                "/v1/house-rules", rule.replace("has(it.fuse", "has(it.fuze").replace("{it.ref}", "{it.rev}"));
        HttpResponse<String> dangerous = firm.post("/v1/house-rules", rule.replace("\"warning\"", "\"danger\""));
        HttpResponse<String> unknown = firm.post("/v1/house-rules", rule.replaceFirst("AMP.plus", "AMP.minus"));

        assertProblem(misspelt, 400);
        assertThat(Calls.json(misspelt)
                        .path("errors")
                        .valueStream()
                        .map(fault -> fault.path("pointer").asString()))
                .containsExactly("/when", "/message");
        assertProblem(dangerous, 400);
        assertThat(Calls.json(dangerous).at("/errors/0/pointer").asString()).isEqualTo("/severity");
        assertProblem(unknown, 400);
        assertThat(Calls.json(unknown).at("/errors/0/pointer").asString())
                .isEqualTo("/tests/0/hookup/connections/W1/ends/1");
    }

    @Test
    void failsAloneInACheck() {
        String failing = rule.replaceFirst("(?s)\"tests\".*", "\"tests\": []}")
                .replace("it.from.ref == 'CAR.battery-plus' && !has(it.fuseFromSourceMetres)", "1 / size(wishes) > 0");
        JsonNode without = check();
        assertThat(firm.post("/v1/house-rules", failing).statusCode()).isEqualTo(201);

        JsonNode checked = check();

        assertThat(ofRule(checked.path("outcomes")).path("outcome").asString()).isEqualTo("not-checked");
        assertThat(ofRule(checked.path("outcomes")).path("error").asString()).isEqualTo("/ by zero");
        assertThat(checked.path("findings")).isEqualTo(without.path("findings"));
        assertThat(checked.path("verdict")).isEqualTo(without.path("verdict"));
    }

    @Test
    void isNotCheckedWhereItIsRefusedToday() {
        assertThat(firm.post("/v1/house-rules", rule).statusCode()).isEqualTo(201);
        rows.sql("insert into house_rules (owner_firm, code, revision, document) select owner_firm, code, 2,"
                        + " '{\"when\": 1}' from house_rules where owner_firm = (select owner_firm from api_keys"
                        + " where sha256 = sha256(cast(:key as bytea)))")
                .param(
                        "key",
                        Objects.requireNonNull(firm.headers().get("Authorization"))
                                .substring("Bearer ".length())
                                .getBytes(StandardCharsets.UTF_8))
                .update();

        JsonNode outcome = ofRule(check().path("outcomes"));

        assertThat(outcome.path("outcome").asString()).isEqualTo("not-checked");
        assertThat(outcome.path("error").asString()).startsWith("it was taken when less was checked");
    }

    @Test
    void belongsToItsFirm() {
        assertThat(firm.post("/v1/house-rules", rule).statusCode()).isEqualTo(201);
        Calls other = anonymousCalls()
                .withKey(OtherFirm.open(rows).key())
                .with("If-Match", "\"1\"")
                .with("Content-Type", "application/json");

        assertProblem(other.get("/v1/house-rules/house-fuse-named"), 404);
        assertProblem(other.send("PUT", "/v1/house-rules/house-fuse-named", rule), 404);
        assertProblem(other.send("DELETE", "/v1/house-rules/house-fuse-named", ""), 404);
        assertThat(Calls.json(other.get("/v1/house-rules")).path("items")).isEmpty();
    }
}
