package dev.splicebook.check.web;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.testing.Calls;
import dev.splicebook.testing.ServiceIntegrationTest;
import java.net.http.HttpResponse;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

class CheckIntegrationTest extends ServiceIntegrationTest {

    private static final String MAP = """
            {"maker": "Ondrake", "model": "Pelling", "circuits": {"C1-7": {"function": "power.battery", "electrical":
              {"kind": "supply", "maxAmps": 10, "fuseAmps": 10,
               "live": ["asleep", "accessory", "ignition", "cranking", "running", "restarting"]}}}}
            """;

    @Test
    void checksAHookupThatNeedsNothingStored() {
        JsonNode report = check("""
                {"parts": {
                   "PLUG": {"inline": {"conducts": [["sleeve", "left-return", "right-return"]]}},
                   "UNIT": {"inline": {"terminals": {
                     "left-return": {"electrical": {"kind": "line-out", "channel": "left", "side": "return", "return": "driven"}},
                     "right-return": {"electrical": {"kind": "line-out", "channel": "right", "side": "return", "return": "driven"}}}}}},
                 "connections": {"W1": {"ends": ["UNIT.left-return", "PLUG.left-return"]},
                                 "W2": {"ends": ["UNIT.right-return", "PLUG.right-return"]}}}
                """, 200);

        assertThat(report.path("verdict").asString()).isEqualTo("not-ready");
        assertThat(report.path("findings")).hasSize(1);
        JsonNode finding = report.at("/findings/0");
        assertThat(finding.path("rule").asString()).isEqualTo("returns-tied");
        assertThat(finding.path("severity").asString()).isEqualTo("error");
        assertThat(texts(finding.path("terminals"))).containsExactly("UNIT.left-return", "UNIT.right-return");
        assertThat(texts(finding.path("connections"))).containsExactly("W1", "W2");
        assertThat(report.path("outcomes").size()).isGreaterThanOrEqualTo(30);
        assertThat(texts(report.path("cautions"))).isNotEmpty();
        assertThat(report.path("revisions").path("devices")).isEmpty();
    }

    @Test
    void namesTheRevisionsThatItUsed() {
        String vehicle =
                Calls.json(calls().post("/v1/vehicles", MAP)).path("id").asString();
        calls().post("/v1/devices", """
                {"code": "CHECKED-LAMP", "terminals": {
                  "plus": {"electrical": {"kind": "load", "typicalAmps": 1, "maxAmps": 1, "needs": "either", "sleepAmps": 0}},
                  "minus": {"electrical": {"kind": "ground"}}}}
                """);

        JsonNode report = check("""
                {"vehicle": {"id": "%s"}, "parts": {"L": {"device": "CHECKED-LAMP", "revision": 1}},
                 "connections": {"W1": {"ends": ["CAR.C1-7", "L.plus"], "conductor": {"size": "16 AWG"}},
                                 "W2": {"ends": ["CAR.chassis", "L.minus"], "conductor": {"size": "16 AWG"}}}}
                """.formatted(vehicle), 200);

        assertThat(report.path("verdict").asString()).isEqualTo("ready");
        assertThat(report.at("/revisions/vehicle/id").asString()).isEqualTo(vehicle);
        assertThat(report.at("/revisions/vehicle/revision").asInt()).isEqualTo(1);
        assertThat(report.at("/revisions/devices/L/id").asString()).isEqualTo("CHECKED-LAMP");
    }

    @Test
    void namesEveryReferenceThatLeadsNowhere() {
        JsonNode problem = check("""
                {"vehicle": {"id": "00000000-0000-4000-8000-000000000000"},
                 "parts": {"A": {"device": "NO-SUCH-DEVICE"}, "B": {"inline": {"terminals": {"x": {}}}}},
                 "connections": {"W1": {"ends": ["B.y", "C.z"]}}, "plugs": [["B.c", "D.c"]],
                 "unused": {"B.q": {"as": "capped"}}, "settings": {"B": {"s": "1"}}}
                """, 400);

        assertThat(problem.path("type").asString()).isEqualTo("/problems/bad-body");
        assertThat(problem.path("errors")
                        .valueStream()
                        .map(error -> error.path("pointer").asString() + " "
                                + error.path("code").asString()))
                .containsExactlyInAnyOrder(
                        "/vehicle/id unknown-vehicle",
                        "/parts/A/device unknown-device",
                        "/connections/W1/ends/0 unknown-terminal",
                        "/connections/W1/ends/1 unknown-part",
                        "/plugs/0/0 unknown-connector",
                        "/plugs/0/1 unknown-part",
                        "/unused/B.q unknown-terminal",
                        "/settings/B/s unknown-setting");
    }

    @Test
    void namesEveryFaultOfShapeAtOnce() {
        JsonNode problem = check("""
                {"vehicle": {"inline": {"circuits": {"C1-1": {"electrical": {"kind": "suply"}},
                     "C1-2": {"colour": "blue", "electrical": {"kind": "supply", "maxAmps": -3, "volts": "12"}}}}},
                 "parts": {"CAR": {"inline": {}}, "HU": {}},
                 "connections": {"W1": {"ends": ["CAR.C1-1", "CAR.C1-1"]}, "W2": {"ends": ["CAR.C1-1"], "fuze": 1}},
                 "unused": {"HU.x": {"as": "thrown-away"}}, "wishes": [{"function": "audio.line.rear-entertainmnet", "want": "keep"}]}
                """, 400);

        assertThat(problem.path("errors")
                        .valueStream()
                        .map(error -> error.path("pointer").asString()))
                .contains(
                        "/vehicle/inline/circuits/C1-1/electrical/kind",
                        "/vehicle/inline/circuits/C1-2/colour",
                        "/vehicle/inline/circuits/C1-2/electrical/volts",
                        "/parts/HU",
                        "/connections/W1/ends",
                        "/connections/W2/fuze",
                        "/unused/HU.x/as",
                        "/wishes/0/function");
        assertThat(problem.toString()).contains("audio.line.rear-entertainment");
    }

    @Test
    void refusesMoreConnectionsThanItChecks() {
        StringBuilder connections = new StringBuilder();
        for (int at = 0; at <= 5000; at++) {
            connections
                    .append(at == 0 ? "" : ",")
                    .append("\"W%d\": {\"ends\": [\"CAR.chassis\", \"CAR.battery-minus\"]}".formatted(at));
        }

        JsonNode problem = check("{\"connections\": {" + connections + "}}", 400);

        assertThat(problem.at("/errors/0/code").asString()).isEqualTo("too-many");
        assertThat(problem.at("/errors/0/detail").asString()).contains("5001", "5000");
    }

    @Test
    void offersRemediesThatCanBeSentBack() {
        String loose = """
                {"parts": {"HU": {"inline": {"terminals": {"camera": {"electrical": {"kind": "video-in", "side": "signal"}}}}}}}
                """;
        JsonNode finding = check(loose, 200).at("/findings/0");
        JsonNode remedy = finding.at("/remedies/0");

        assertThat(remedy.path("what").asString()).isEqualTo("Cap HU.camera and list it as unused.");
        assertThat(texts(remedy.path("removes")))
                .containsExactly(finding.path("fingerprint").asString());
        assertThat(remedy.at("/patch/0/op").asString()).isEqualTo("add");
        assertThat(remedy.at("/patch/0/path").asString()).isEqualTo("/unused");
        String mended = loose.strip().replaceFirst("}$", ", \"unused\": " + remedy.at("/patch/0/value") + "}");
        assertThat(check(mended, 200).path("verdict").asString()).isEqualTo("ready");
    }

    @Test
    void leavesRemediesOutWhereTheyAreNotWanted() {
        HttpResponse<String> response = calls().post("/v1/checks?remedies=false", """
                {"parts": {"HU": {"inline": {"terminals": {"camera": {"electrical": {"kind": "video-in"}}}}}}}
                """);

        assertThat(Calls.json(response).at("/findings/0/rule").asString()).isEqualTo("lead-unaccounted");
        assertThat(Calls.json(response).at("/findings/0").has("remedies")).isFalse();
        assertThat(Calls.json(response).has("fix")).isFalse();
    }

    @Test
    void listsRulesAndShowsTheirPages() {
        JsonNode list = Calls.json(calls().get("/v1/rules"));
        assertThat(list.path("items").size()).isGreaterThanOrEqualTo(30);

        JsonNode page = Calls.json(calls().get("/v1/rules/fuse-below-load"));
        assertThat(page.path("severity").asString()).isEqualTo("warning");
        assertThat(page.at("/parameters/0/value").asDouble()).isEqualTo(0.75);
        assertThat(page.at("/fails/connections/W1/fuse/ratingAmps").asInt()).isEqualTo(10);

        HttpResponse<String> html = calls().with("Accept", "text/html").get("/v1/rules/fuse-below-load");
        assertThat(Calls.header(html, "Content-Type")).startsWith("text/html");
        assertThat(html.body()).contains("<h1>fuse-below-load</h1>", "continuousShare = 0.75");

        assertThat(calls().get("/v1/rules/no-such-rule").statusCode()).isEqualTo(404);
    }

    @Test
    void reportsItsOwnExampleOfTheWrittenApi() {
        JsonNode document = Calls.json(anonymousCalls().get("/v3/api-docs"));
        JsonNode example =
                document.at("/paths/~1v1~1checks/post/requestBody/content/application~1json/examples/head-unit/value");

        JsonNode report = check(example.toString(), 200);

        assertThat(report.path("findings")
                        .valueStream()
                        .map(finding -> finding.path("rule").asString()))
                .containsExactly("constant-load-on-switched-supply", "switched-load-on-constant-supply");
    }

    private JsonNode check(String hookup, int status) {
        HttpResponse<String> response = calls().post("/v1/checks", hookup);
        assertThat(response.statusCode()).as(response.body()).isEqualTo(status);
        return Calls.json(response);
    }

    private static List<String> texts(JsonNode array) {
        List<String> texts = new ArrayList<>();
        array.forEach(item -> texts.add(item.asString()));
        return texts;
    }
}
