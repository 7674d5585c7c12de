package dev.splicebook.job.web;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.testing.Calls;
import dev.splicebook.testing.OtherFirm;
import dev.splicebook.testing.ServiceIntegrationTest;
import java.net.http.HttpResponse;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.StringJoiner;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;
import tools.jackson.databind.JsonNode;

class HookupsIntegrationTest extends ServiceIntegrationTest {

    /** Two unmet wishes, which are warnings, and nothing else. */
    private static final String TWO_WISHES = """
            {"name": "%s", "wishes": [{"function": "audio.microphone", "want": "keep"},\
            {"function": "video.camera-rear", "want": "add"}]}""";

    private static final String ONE_WISH = """
            {"name": "%s", "wishes": [{"function": "audio.microphone", "want": "keep"}]}""";

    /** The battery on the chassis, which is a danger. */
    private static final String SHORTED = """
            {"connections": {"W1": {"ends": ["CAR.battery-plus", "CAR.chassis"]}}}""";

    @Autowired
    private JdbcClient rows;

    private String create(String document) {
        HttpResponse<String> created = calls().post("/v1/hookups", document);
        assertThat(created.statusCode()).as(created.body()).isEqualTo(201);
        return "/v1/hookups/" + Calls.json(created).path("id").asString();
    }

    private void add(String hookup, int latest, String document) {
        HttpResponse<String> added =
                calls().with("If-Match", "\"" + latest + "\"").post(hookup + "/revisions", document);
        assertThat(added.statusCode()).as(added.body()).isEqualTo(201);
    }

    private JsonNode read(String path) {
        HttpResponse<String> answer = calls().get(path);
        assertThat(answer.statusCode()).as(answer.body()).isEqualTo(200);
        return Calls.json(answer);
    }

    private static List<String> texts(JsonNode list, String pointer) {
        return list.valueStream().map(each -> each.at(pointer).asString()).toList();
    }

    private static void assertProblem(HttpResponse<String> answer, int status) {
        assertThat(answer.statusCode()).as(answer.body()).isEqualTo(status);
        assertThat(Calls.header(answer, "Content-Type")).startsWith("application/problem+json");
    }

    private HttpResponse<String> waive(String hookup, int revision, String fingerprint, String waiver) {
        return calls().with("Content-Type", "application/json")
                .with("If-Match", "\"" + revision + "\"")
                .send("PUT", hookup + "/waivers/" + fingerprint, waiver);
    }

    private HttpResponse<String> withdraw(String hookup, int revision, String fingerprint) {
        return calls().with("If-Match", "\"" + revision + "\"").send("DELETE", hookup + "/waivers/" + fingerprint, "");
    }

    private static final String WAIVER = "{\"author\": \"Bench 2\", \"reason\": \"no microphone fitted\"}";

    @Test
    void keepsAHookupAsItWasSent() {
        String document = TWO_WISHES.formatted("Order 4711");
        String hookup = create(document);

        HttpResponse<String> got = calls().get(hookup);

        assertThat(Calls.json(got).path("document"))
                .isEqualTo(Calls.json(calls().get(hookup + "/revisions/1")).path("document"));
        assertThat(Calls.json(got).path("document").toString()).isEqualTo(document.replaceAll("(?<=[:,]) ", ""));
        assertThat(Calls.header(got, "ETag")).isEqualTo("\"1\"");
        assertThat(calls().with("If-None-Match", "\"1\"").get(hookup).statusCode())
                .isEqualTo(304);
    }

    @Test
    void reportsWhatACheckReports() {
        String document = TWO_WISHES.formatted("Order 1");
        JsonNode checked = Calls.json(calls().post("/v1/checks?remedies=false", document));
        String hookup = create(document);

        JsonNode report = read(hookup + "/report");

        for (String field : List.of(
                "verdict",
                "findings",
                "outcomes",
                "order",
                "power",
                "speakerLoads",
                "assumptions",
                "cautions",
                "revisions")) {
            assertThat(report.path(field)).as(field).isEqualTo(checked.path(field));
        }
        assertThat(report.at("/stored/revision").asInt()).isEqualTo(1);
        assertThat(report.at("/stored/id").asString()).isEqualTo(hookup.substring("/v1/hookups/".length()));
        assertThat(report.path("waived")).isEmpty();
        assertThat(read(hookup + "/report?fresh=true").path("findings"))
                .isEqualTo(Calls.json(calls().post("/v1/checks", document)).path("findings"));
        assertThat(checked.has("stored")).isFalse();
    }

    @Test
    void tellsWhatBecameOfFindings() {
        String hookup = create(TWO_WISHES.formatted("Order 2"));
        add(hookup, 1, ONE_WISH.formatted("Order 2"));
        add(hookup, 2, TWO_WISHES.formatted("Order 2, again"));

        JsonNode mended = read(hookup + "/revisions/2/findings-changes");
        JsonNode back = read(hookup + "/revisions/3/findings-changes?from=2&fresh=true");
        JsonNode all = read(hookup + "/revisions/1/findings-changes");
        JsonNode same = read(hookup + "/revisions/3/findings-changes?from=1");

        assertThat(mended.path("gone").size()).isEqualTo(1);
        assertThat(mended.at("/gone/0/message").asString()).contains("video.camera-rear");
        assertThat(mended.path("stayed").size()).isEqualTo(1);
        assertThat(mended.path("appeared")).isEmpty();
        assertThat(back.path("appeared")).isEqualTo(mended.path("gone"));
        assertThat(all.path("from").asInt()).isZero();
        assertThat(all.path("appeared").size()).isEqualTo(2);
        assertThat(same.path("stayed").size()).isEqualTo(2);
        assertThat(same.path("appeared").size() + same.path("gone").size()).isZero();
        assertProblem(calls().get(hookup + "/revisions/3/findings-changes?from=4"), 404);
        assertProblem(calls().get(hookup + "/revisions/3/findings-changes?from=-1"), 400);
        assertThat(texts(read(hookup + "/revisions").path("items"), "/revision"))
                .containsExactly("3", "2", "1");
    }

    @Test
    void leavesWaivedFindingsOutOfTheVerdict() {
        String hookup = create(ONE_WISH.formatted("Waiver " + UUID.randomUUID()));
        JsonNode before = read(hookup + "/report");
        String fingerprint = before.at("/findings/0/fingerprint").asString();
        assertThat(before.path("verdict").asString()).isEqualTo("ready-with-cautions");

        HttpResponse<String> waived = waive(hookup, 1, fingerprint, WAIVER);

        assertThat(waived.statusCode()).as(waived.body()).isEqualTo(200);
        assertThat(Calls.json(waived).path("rule").asString()).isEqualTo("wish-unmet");
        JsonNode after = read(hookup + "/report");
        assertThat(after.path("verdict").asString()).isEqualTo("ready");
        assertThat(after.path("findings")).isEmpty();
        assertThat(after.at("/waived/0/finding")).isEqualTo(before.at("/findings/0"));
        assertThat(after.at("/waived/0/waiver/author").asString()).isEqualTo("Bench 2");
        assertThat(read(hookup + "/report?fresh=true").path("verdict").asString())
                .isEqualTo("ready");
        assertThat(texts(read(hookup + "/waivers").path("items"), "/fingerprint"))
                .containsExactly(fingerprint);

        // another fact, another finding: the waiver lapses by itself, and holds again for what it was given for
        add(hookup, 1, ONE_WISH.formatted("Other").replace("audio.microphone", "video.camera-rear"));
        JsonNode lapsed = read(hookup + "/report");
        assertThat(lapsed.path("verdict").asString()).isEqualTo("ready-with-cautions");
        assertThat(lapsed.at("/lapsedWaivers/0/why").asString()).isEqualTo("no-such-finding");
        assertThat(read(hookup + "/revisions/1/report").path("verdict").asString())
                .isEqualTo("ready");

        assertThat(withdraw(hookup, 2, fingerprint).statusCode()).isEqualTo(204);
        assertProblem(withdraw(hookup, 2, fingerprint), 404);
        assertThat(read(hookup + "/revisions/1/report").path("verdict").asString())
                .isEqualTo("ready-with-cautions");
        assertThat(read(hookup + "/waivers").path("items")).isEmpty();
    }

    @Test
    void letsAWaiverExpire() {
        String hookup = create(ONE_WISH.formatted("Expiring"));
        String fingerprint =
                read(hookup + "/report").at("/findings/0/fingerprint").asString();
        String today = WAIVER.replace(
                "}",
                ", \"expiresOn\": \"" + LocalDate.now(java.time.ZoneOffset.UTC).plusDays(1) + "\"}");
        assertThat(waive(hookup, 1, fingerprint, today).statusCode()).isEqualTo(200);
        assertThat(read(hookup + "/report").path("verdict").asString()).isEqualTo("ready");
        assertProblem(waive(hookup, 1, fingerprint, WAIVER.replace("}", ", \"expiresOn\": \"2020-01-01\"}")), 422);

        rows.sql(
                        "insert into hookup_waivers (hookup_id, fingerprint, version, owner_firm, rule, message, author, reason,"
                                + " expires_on) select hookup_id, fingerprint, version + 1, owner_firm, rule, message, author, reason,"
                                + " date '2026-01-01' from hookup_waivers where hookup_id = :id")
                .param("id", UUID.fromString(hookup.substring("/v1/hookups/".length())))
                .update();

        JsonNode report = read(hookup + "/report");
        assertThat(report.path("verdict").asString()).isEqualTo("ready-with-cautions");
        assertThat(report.at("/lapsedWaivers/0/why").asString()).isEqualTo("expired");
    }

    @Test
    void neverWaivesADanger() {
        String hookup = create(SHORTED);
        JsonNode report = read(hookup + "/report");
        String fingerprint = report.at("/findings/0/fingerprint").asString();
        assertThat(report.at("/findings/0/severity").asString()).isEqualTo("danger");

        HttpResponse<String> refused = waive(hookup, 1, fingerprint, WAIVER);

        assertProblem(refused, 422);
        assertThat(Calls.json(refused).path("detail").asString()).startsWith("a danger cannot be waived");
        String inline = SHORTED.replaceFirst(
                "\\{",
                "{\"waivers\": [{\"fingerprint\": \"" + fingerprint + "\", \"author\": \"a\", \"reason\": \"r\"}], ");
        JsonNode checked = Calls.json(calls().post("/v1/checks", inline));
        assertThat(checked.path("verdict").asString()).isEqualTo("not-ready");
        assertThat(checked.path("waived")).isEmpty();
        assertThat(checked.at("/lapsedWaivers/0/why").asString()).isEqualTo("danger");
    }

    @Test
    void takesWaiversInTheDocumentToo() {
        String document = ONE_WISH.formatted("Inline");
        String fingerprint = Calls.json(calls().post("/v1/checks", document))
                .at("/findings/0/fingerprint")
                .asString();
        String waived = document.replaceFirst(
                "\\{",
                "{\"waivers\": [{\"fingerprint\": \"" + fingerprint + "\", \"author\": \"a\", \"reason\": \"r\"}], ");

        JsonNode checked = Calls.json(calls().post("/v1/checks", waived));
        String hookup = create(waived);

        assertThat(checked.path("verdict").asString()).isEqualTo("ready");
        assertThat(checked.path("waived").size()).isEqualTo(1);
        assertThat(read(hookup + "/report").path("verdict").asString()).isEqualTo("ready");
        assertThat(texts(read(hookup + "/revisions").path("items"), "/verdict")).containsExactly("ready");

        HttpResponse<String> refused = withdraw(hookup, 1, fingerprint);
        assertProblem(refused, 422);
        assertThat(Calls.json(refused).path("detail").asString())
                .contains("stands in the document of revision 1")
                .endsWith("add a revision without it");
    }

    @Test
    void fixesWhatIsStoredButForWhatIsWaived() {
        String hookup = create(ONE_WISH.formatted("Order 12"));
        String fingerprint =
                read(hookup + "/report").at("/findings/0/fingerprint").asString();

        JsonNode before = read(hookup + "/report?fix=true");
        waive(hookup, 1, fingerprint, WAIVER);
        JsonNode after = read(hookup + "/report?fix=true");

        assertThat(before.at("/fix/ready").asBoolean()).isFalse();
        assertThat(texts(before.at("/fix/report/findings"), "/rule")).containsExactly("wish-unmet");
        assertThat(before.at("/stored/revision").asInt()).isEqualTo(1);
        assertThat(after.path("verdict").asString()).isEqualTo("ready");
        assertThat(after.at("/fix/ready").asBoolean()).isTrue();
        assertThat(after.at("/fix/what")).isEmpty();
        assertThat(read(hookup + "/revisions/1/report?fix=true").path("fix")).isEqualTo(after.path("fix"));
        assertThat(read(hookup + "/report").has("fix")).isFalse();
    }

    @Test
    void tellsThatALaterRevisionOfADeviceCameOut() {
        String code = "X-" + UUID.randomUUID();
        String device = "{\"code\": \"" + code + "\", \"name\": \"%s\", \"terminals\": {\"grey\": {}}}";
        calls().post("/v1/devices", device.formatted("Lead"));
        String document = "{\"parts\": {\"X\": {\"device\": \"" + code + "\", \"revision\": 1}},"
                + " \"unused\": {\"X.grey\": {\"as\": \"capped\", \"why\": \"a spare\"}}}";
        String hookup = create(document);
        assertThat(texts(read(hookup + "/report?fresh=true").path("findings"), "/rule"))
                .isEmpty();

        calls().with("If-Match", "\"1\"").post("/v1/devices/" + code + "/revisions", device.formatted("Lead, longer"));

        assertThat(texts(read(hookup + "/report").path("findings"), "/rule")).isEmpty();
        JsonNode findings = read(hookup + "/report?fresh=true").path("findings");
        assertThat(texts(findings, "/rule")).containsExactly("map-outdated");
        assertThat(findings.at("/0/message").asString())
                .isEqualTo(
                        "the hookup takes revision 1 of the device " + code + " for X, and revision 2 is the latest");
        assertThat(findings.at("/0/remedies/0/what").asString())
                .isEqualTo("Take revision 2 of the device " + code + ".");
        assertThat(findings.at("/0/remedies/0/patch/0/value/revision").asInt()).isEqualTo(2);
        assertThat(texts(
                        Calls.json(calls().post("/v1/checks?remedies=false", document))
                                .path("findings"),
                        "/rule"))
                .containsExactly("map-outdated");
    }

    @Test
    void tellsThatADeviceHasLostSinceWhatAHookupConnects() {
        String code = "X-" + UUID.randomUUID();
        String device = "{\"code\": \"" + code + "\", \"name\": \"Lead\", \"terminals\": {\"%s\": {}}}";
        calls().post("/v1/devices", device.formatted("grey"));
        String hookup = create("{\"parts\": {\"X\": {\"device\": \"" + code + "\"}},"
                + " \"unused\": {\"X.grey\": {\"as\": \"capped\", \"why\": \"a spare\"}}}");

        calls().with("If-Match", "\"1\"").post("/v1/devices/" + code + "/revisions", device.formatted("blue"));

        assertThat(texts(read(hookup + "/report").path("findings"), "/rule")).isEmpty();
        HttpResponse<String> refused = calls().get(hookup + "/report?fresh=true");
        assertProblem(refused, 422);
        assertThat(Calls.json(refused).path("detail").asString())
                .startsWith("revision 1 of hookup ")
                .contains("cannot be checked anew, as the vehicle or a device has changed since: at /unused/X.grey");
    }

    @Test
    void readsTheReportOfNearlyAsManyConnectionsAsMayBe() {
        StringJoiner terminals = new StringJoiner(", ");
        StringJoiner parts = new StringJoiner(", ");
        StringJoiner connections = new StringJoiner(", ");
        for (int load = 0; load < 900; load++) {
            terminals.add("\"l" + load
                    + "\": {\"electrical\": {\"kind\": \"load\", \"typicalAmps\": 0.01, \"maxAmps\": 0.02}}");
        }
        for (int part = 0; part < 5; part++) {
            parts.add("\"P" + part
                    + "\": {\"inline\": {\"terminals\": {\"minus\": {\"electrical\": {\"kind\": \"ground\"}}, "
                    + terminals + "}}}");
            connections.add("\"G" + part + "\": {\"ends\": [\"CAR.chassis\", \"P" + part + ".minus\"]}");
            for (int load = 0; load < 900; load++) {
                connections.add(
                        "\"W" + part + "-" + load + "\": {\"ends\": [\"CAR.battery-plus\", \"P" + part + ".l" + load
                                + "\"], \"length\": {\"value\": 1, \"unit\": \"m\"}, \"conductor\": {\"size\": \"16 AWG\"}}");
            }
        }
        String hookup = create("{\"parts\": {" + parts + "}, \"connections\": {" + connections + "}}");

        JsonNode report = read(hookup + "/report");
        assertThat(report.at("/power/cases/0/loads").size()).isEqualTo(4500);
    }

    @Test
    void refusesWaiversOfWhatIsNotFoundOrSeen() {
        String hookup = create(ONE_WISH.formatted("Refused"));
        String fingerprint =
                read(hookup + "/report").at("/findings/0/fingerprint").asString();
        add(hookup, 1, ONE_WISH.formatted("Refused"));

        assertProblem(waive(hookup, 2, "0123456789abcdef", WAIVER), 422);
        assertProblem(waive(hookup, 2, "nonsense", WAIVER), 404);
        assertProblem(waive(hookup, 1, fingerprint, WAIVER), 412);
        assertProblem(waive(hookup, 2, fingerprint, "{\"author\": \" \", \"reason\": \"r\"}"), 400);
        assertProblem(
                calls().with("Content-Type", "application/json")
                        .send("PUT", hookup + "/waivers/" + fingerprint, WAIVER),
                428);
        assertProblem(withdraw(hookup, 2, fingerprint), 404);
    }

    @Test
    void findsHookupsByVehicleVerdictAndName() {
        String vehicle = Calls.json(calls().post("/v1/vehicles", "{\"maker\":\"Ondrake\",\"circuits\":{\"C1-7\":{}}}"))
                .path("id")
                .asString();
        String of = "{\"vehicle\": {\"id\": \"" + vehicle + "\"}, \"name\": \"%s\"%s}";
        String wish = ", \"wishes\": [{\"function\": \"audio.microphone\", \"want\": \"keep\"}]";
        String ready = create(of.formatted("Quillon van", ""));
        String cautioned = create(of.formatted("Quillon coupé", wish));
        List<String> ids = List.of(ready, cautioned).stream()
                .map(path -> path.substring("/v1/hookups/".length()))
                .toList();
        String list = "/v1/hookups?vehicle=" + vehicle;

        assertThat(texts(read(list).path("items"), "/id")).containsExactlyElementsOf(ids);
        assertThat(texts(read(list + "&verdict=ready").path("items"), "/id")).containsExactly(ids.get(0));
        assertThat(texts(read(list + "&verdict=ready-with-cautions").path("items"), "/id"))
                .containsExactly(ids.get(1));
        assertThat(texts(read(list + "&text=quill%20VAN").path("items"), "/id")).containsExactly(ids.get(0));
        assertThat(read(list + "&text=sedan").path("items")).isEmpty();
        assertThat(read("/v1/hookups?vehicle=" + UUID.randomUUID()).path("items"))
                .isEmpty();
        List<String> walked = new ArrayList<>();
        String cursor = "";
        do {
            JsonNode page = read(list + "&limit=1" + cursor);
            walked.addAll(texts(page.path("items"), "/id"));
            cursor = page.path("next").isNull()
                    ? ""
                    : "&cursor=" + page.path("next").asString();
        } while (!cursor.isEmpty());
        assertThat(walked).isEqualTo(ids);

        String fingerprint =
                read(cautioned + "/report").at("/findings/0/fingerprint").asString();
        assertThat(waive(cautioned, 1, fingerprint, WAIVER).statusCode()).isEqualTo(200);
        assertThat(texts(read(list + "&verdict=ready").path("items"), "/id")).containsExactlyElementsOf(ids);
    }

    @Test
    void storesNothingThatACheckRefuses() {
        assertProblem(calls().post("/v1/hookups", "{\"vehicle\": {\"id\": \"" + UUID.randomUUID() + "\"}}"), 400);
        assertProblem(calls().post("/v1/hookups", "{\"wheels\": 4}"), 400);
        long before = count();
        HttpResponse<String> judged = calls().post("/v1/hookups?dryRun=true", ONE_WISH.formatted("Never"));
        assertThat(judged.statusCode()).isEqualTo(200);
        assertThat(Calls.json(judged).path("dryRun").asBoolean()).isTrue();
        assertThat(count()).isEqualTo(before);
    }

    private long count() {
        return rows.sql("select count(*) from hookups").query(Long.class).single();
    }

    @Test
    void addsARevisionOnlyToTheLatestAndOnceUnderAKey() {
        Calls keyed = calls().with("Idempotency-Key", "hookup-" + UUID.randomUUID());
        HttpResponse<String> first = keyed.post("/v1/hookups", ONE_WISH.formatted("Once"));
        HttpResponse<String> again = keyed.post("/v1/hookups", ONE_WISH.formatted("Once"));
        assertThat(again.body()).isEqualTo(first.body());
        String hookup = "/v1/hookups/" + Calls.json(first).path("id").asString();

        assertProblem(calls().post(hookup + "/revisions", ONE_WISH.formatted("b")), 428);
        assertProblem(calls().with("If-Match", "\"2\"").post(hookup + "/revisions", ONE_WISH.formatted("b")), 412);
        HttpResponse<String> judged =
                calls().with("If-Match", "\"1\"").post(hookup + "/revisions?dryRun=true", ONE_WISH.formatted("b"));
        assertThat(judged.statusCode()).isEqualTo(200);
        assertThat(read(hookup).path("revision").asInt()).isEqualTo(1);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "/revisions",
                "/revisions/1",
                "/report",
                "/revisions/1/report",
                "/revisions/1/findings-changes",
                "/waivers"
            })
    void hidesWhatIsAnotherFirms(String below) {
        String hookup = create(ONE_WISH.formatted("Ours"));
        Calls other = anonymousCalls().withKey(OtherFirm.open(rows).key());

        assertProblem(other.get(hookup + below), 404);
        assertProblem(other.get("/v1/hookups/" + UUID.randomUUID() + below), 404);
        assertThat(Calls.json(other.get("/v1/hookups")).path("items")).isEmpty();
    }

    @Test
    void letsNoOtherFirmChangeAnything() {
        String hookup = create(ONE_WISH.formatted("Ours"));
        String fingerprint =
                read(hookup + "/report").at("/findings/0/fingerprint").asString();
        Calls other = anonymousCalls()
                .withKey(OtherFirm.open(rows).key())
                .with("If-Match", "\"1\"")
                .with("Content-Type", "application/json");

        assertProblem(other.send("POST", hookup + "/revisions", ONE_WISH.formatted("Theirs")), 404);
        assertProblem(other.send("PUT", hookup + "/waivers/" + fingerprint, WAIVER), 404);
        assertProblem(other.send("DELETE", hookup + "/waivers/" + fingerprint, ""), 404);
    }
}
