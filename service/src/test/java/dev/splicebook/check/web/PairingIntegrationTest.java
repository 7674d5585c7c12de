package dev.splicebook.check.web;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.DemoFiles;
import dev.splicebook.testing.Calls;
import dev.splicebook.testing.OtherFirm;
import dev.splicebook.testing.ServiceIntegrationTest;
import java.io.IOException;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;
import tools.jackson.databind.JsonNode;

/** Pairings over HTTP. */
class PairingIntegrationTest extends ServiceIntegrationTest {

    @Autowired
    private JdbcClient rows;

    @ParameterizedTest
    @ValueSource(strings = {"rear-entertainment", "amplifier-and-subwoofers"})
    void proposesAHookupThatTheCheckTakesAsItIs(String job) throws IOException {
        String question = Files.readString(DemoFiles.examples().resolve(job + "/pairing.json"));

        JsonNode pairing = Calls.json(calls().post("/v1/pairings", question));
        JsonNode report =
                Calls.json(calls().post("/v1/checks", pairing.path("hookup").toString()));

        assertThat(pairing.at("/report/verdict").asString()).isEqualTo("ready");
        assertThat(report).isEqualTo(pairing.path("report"));
        assertThat(pairing.path("alternatives").valueStream())
                .allSatisfy(alternative -> assertThat(Calls.json(calls().post(
                                                "/v1/checks",
                                                alternative.path("hookup").toString()))
                                .path("verdict"))
                        .isEqualTo(alternative.path("verdict")));
    }

    @Test
    void isJudgedByTheThresholdsOfTheFirm() throws IOException {
        Calls firm = anonymousCalls().withKey(OtherFirm.open(rows).key());
        HttpResponse<String> set = firm.with("Content-Type", "application/json")
                .with("If-Match", "\"1\"")
                .send("PUT", "/v1/thresholds", "{\"values\": {\"fuse-too-far.mostMetres\": 0.05}}");
        String question = Files.readString(DemoFiles.examples().resolve("amplifier-and-subwoofers/pairing.json"));

        JsonNode pairing = Calls.json(firm.post("/v1/pairings", question));

        assertThat(set.statusCode()).as(set.body()).isEqualTo(200);
        // the kit's fuse is too far from the battery for this firm, so the search goes another way and says so
        assertThat(pairing.path("choices").toString()).contains("the check finds fuse-too-far");
        assertThat(pairing.path("alternatives").valueStream())
                .isNotEmpty()
                .allSatisfy(alternative -> assertThat(Calls.json(firm.post(
                                        "/v1/checks", alternative.path("hookup").toString()))
                                .path("verdict"))
                        .isEqualTo(alternative.path("verdict")));
    }

    @Test
    void addsWhatTheCatalogueHasHoweverManyBlankEntriesStandBefore() {
        Calls firm = anonymousCalls().withKey(OtherFirm.open(rows).key());
        for (int blank = 0; blank < 25; blank++) {
            firm.post("/v1/devices", "{\"code\": \"A-BLANK-%d\", \"kind\": \"relay\"}".formatted(blank));
        }

        JsonNode pairing = Calls.json(firm.post("/v1/pairings", """
                {"vehicle": {"inline": {"circuits": {
                   "P-1": {"function": "power.battery", "electrical": {"kind": "supply", "maxAmps": 15, "fuseAmps": 15,
                     "live": ["asleep", "accessory", "ignition", "cranking", "running"]}},
                   "P-2": {"function": "power.accessory", "electrical": {"kind": "supply", "maxAmps": 0.5, "limited": true,
                     "live": ["accessory", "ignition", "running"]}},
                   "P-3": {"function": "ground.chassis", "electrical": {"kind": "ground", "maxAmps": 15}}}}},
                 "parts": {"USB": {"device": "USB-2"}}}"""));

        assertThat(pairing.at("/added/0").asString()).as(pairing.toString()).isEqualTo("REL1");
        assertThat(pairing.at("/hookup/parts/REL1/device").asString()).isEqualTo("REL-30D");
        assertThat(pairing.at("/report/revisions/devices/REL1/revision").asInt())
                .isEqualTo(1);
        assertThat(pairing.at("/report/verdict").asString()).isEqualTo("ready");
    }

    @Test
    void refusesReferencesThatLeadNowhereAndPreferencesOutOfRange() {
        HttpResponse<String> absent = calls().post("/v1/pairings", """
                {"vehicle": {"id": "00000000-0000-4000-8000-000000000000"}, "parts": {"A": {"device": "NO-SUCH"}},
                 "settings": {"B": {"x": "1"}}}""");
        HttpResponse<String> outOfRange = calls().post("/v1/pairings", """
                {"vehicle": {"inline": {}}, "preferences": {"alternatives": 6}}""");
        HttpResponse<String> without = calls().post("/v1/pairings", "{}");

        assertThat(absent.statusCode()).isEqualTo(400);
        assertThat(Calls.json(absent)
                        .path("errors")
                        .valueStream()
                        .map(error -> error.path("pointer").asString()))
                .containsExactlyInAnyOrder("/vehicle/id", "/parts/A/device", "/settings/B");
        assertThat(outOfRange.statusCode()).isEqualTo(400);
        assertThat(Calls.json(outOfRange).at("/errors/0/pointer").asString()).isEqualTo("/preferences/alternatives");
        assertThat(without.statusCode()).isEqualTo(400);
        assertThat(Calls.json(without).at("/errors/0/pointer").asString()).isEqualTo("/vehicle");
    }
}
