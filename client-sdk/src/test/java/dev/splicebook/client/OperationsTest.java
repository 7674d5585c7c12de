package dev.splicebook.client;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** What holds for every operation alike: what is sent, and what becomes of a problem and of a connection that breaks. */
class OperationsTest {

    private static final UUID ID = UUID.fromString("5f0c6c1e-0d0e-4b6e-9a55-2a40cb1f3d10");
    private static final String VEHICLES = "/v1/vehicles/" + ID;
    private static final String FUNCTION = """
            {"id": "power.battery", "kind": "power", "what": "w", "test": "t"}""";
    private static final String RULE = """
            {"code": "returns-tied", "severity": "error", "since": "0.1", "condition": "c", "checks": "k", "why": "w",
             "mend": "m", "source": "s", "parameters": [], "fails": {}, "passes": {}}""";
    private static final String PROBLEM_PAGE = """
            {"code": "bad-body", "type": "/problems/bad-body", "title": "t", "status": 400, "cause": "c", "mend": "m",
             "example": {"type": "/problems/bad-body", "detail": "d"}}""";
    private static final String REPORT = """
            {"verdict": "ready", "revisions": {"devices": {}}}""";
    private static final String PAIRING = "{\"hookup\": {}, \"cost\": 1, \"report\": " + REPORT + "}";
    private static final String CALCULATION = """
            {"name": "voltage-drop", "purpose": "p", "method": "m", "inputs": [], "results": [], "sources": ["s"],
             "cautions": ["c"], "example": {"currentAmps": 18}}""";
    private static final String ANSWER = """
            {"dropVolts": 0.45, "assumptions": [], "working": [], "sources": ["s"], "cautions": ["c"]}""";
    private static final String VEHICLE = """
            {"id": "5f0c6c1e-0d0e-4b6e-9a55-2a40cb1f3d10", "revision": 4, "latestRevision": 5, "shared": false,
             "createdAt": "2026-11-25T10:00:00Z", "document": {"circuits": {}}}""";
    private static final String DEVICE = """
            {"code": "REL", "revision": 4, "latestRevision": 5, "shared": false, "createdAt": "2026-11-25T10:00:00Z",
             "document": {"code": "REL"}}""";
    private static final String PAGE = "{\"items\": [], \"next\": null}";
    private static final String VIN_PAGE = """
            {"items": [], "next": null, "vin": {"vin": "V", "wmi": "W", "modelYears": [2020], "checkDigit": "right"}}""";
    private static final String CHANGES = "{\"from\": 1, \"to\": 2, \"changes\": []}";
    private static final String DRY_RUN = "{\"dryRun\": true, \"document\": {}}";
    private static final String IMPORT = """
            {"id": "5f0c6c1e-0d0e-4b6e-9a55-2a40cb1f3d10", "state": "done", "dryRun": false, "lines": 2, "vehicles": 1,
             "devices": 1, "circuits": 25, "unchanged": 0, "bytes": 4000, "startedAt": "2026-11-25T10:00:00Z", "faults": 0}""";
    private static final String ENTRY = "{\"kind\": \"device\", \"document\": {\"code\": \"REL\"}}\n";

    private static final String HOOKUPS = "/v1/hookups/" + ID;
    private static final String HOOKUP = """
            {"id": "5f0c6c1e-0d0e-4b6e-9a55-2a40cb1f3d10", "revision": 4, "latestRevision": 4,
             "createdAt": "2026-11-25T10:00:00Z", "document": {}}""";
    private static final String FINDINGS_CHANGES = "{\"from\": 1, \"to\": 2}";
    private static final String WAIVER = """
            {"fingerprint": "09af5c3de81b7246", "author": "a", "reason": "r", "rule": "wish-unmet", "message": "m",
             "createdAt": "2026-11-25T10:00:00Z"}""";
    private static final String HOUSE_RULE = """
            {"code": "house-fuse", "revision": 4, "createdAt": "2026-11-25T10:00:00Z", "document": {"code": "house-fuse"}}""";

    private static final String THRESHOLDS = "{\"revision\": 1, \"items\": []}";

    private static final Document DOCUMENT = Document.parse("{}");
    private static final Vehicle HELD_VEHICLE = Json.MAPPER.readValue(VEHICLE, Vehicle.class);
    private static final Device HELD_DEVICE = Json.MAPPER.readValue(DEVICE, Device.class);
    private static final StoredHookup HELD_HOOKUP = Json.MAPPER.readValue(HOOKUP, StoredHookup.class);
    private static final HouseRule HELD_RULE = Json.MAPPER.readValue(HOUSE_RULE, HouseRule.class);
    private static final ThresholdList HELD_THRESHOLDS = Json.MAPPER.readValue(THRESHOLDS, ThresholdList.class);
    private static final Hookup EMPTY = Hookup.builder().build();
    private static final VehicleDescription ABOUT = VehicleDescription.of("Corvane", "Tessick");
    private static final Source SHEET = Source.text("connector,pin\nC1,7\n");

    @TempDir
    private static Path folder;

    private final FakeService service = new FakeService();

    @AfterEach
    void closeService() {
        service.close();
    }

    /** Calls something with a client. */
    @FunctionalInterface
    private interface Calling {
        void on(Splicebook client) throws IOException;
    }

    private enum SentAgain {
        ALWAYS,
        WITH_A_KEY,
        NEVER
    }

    /** A call, what it is to send, and what it is answered. */
    private record Operation(String request, SentAgain sentAgain, String answer, Calling calling) {

        @Override
        public String toString() {
            return request;
        }
    }

    private static Operation read(String path, String answer, Calling calling) {
        return new Operation("GET " + path, SentAgain.ALWAYS, answer, calling);
    }

    private static Operation harmless(String request, String answer, Calling calling) {
        return new Operation(request, SentAgain.ALWAYS, answer, calling);
    }

    private static Operation creating(String path, String answer, Calling calling) {
        return new Operation("POST " + path, SentAgain.WITH_A_KEY, answer, calling);
    }

    static List<Operation> operations() {
        return List.of(
                read("/v1/functions", PAGE, client -> client.functions().list()),
                read(
                        "/v1/functions/power.battery",
                        FUNCTION,
                        client -> client.functions().get("power.battery")),
                read("/v1/rules", PAGE, client -> client.rules().list()),
                read("/v1/rules/returns-tied", RULE, client -> client.rules().get("returns-tied")),
                read("/problems", PAGE, client -> client.problems().list()),
                read(
                        "/problems/bad-body",
                        PROBLEM_PAGE,
                        client -> client.problems().get("bad-body")),
                harmless(
                        "POST /v1/checks",
                        REPORT,
                        client -> client.checks().check(Hookup.builder().build())),
                creating("/v1/hookups", HOOKUP, client -> client.hookups().create(EMPTY)),
                harmless(
                        "POST /v1/hookups?dryRun=true",
                        DRY_RUN,
                        client -> client.hookups().dryRunCreate(EMPTY)),
                read(HOOKUPS, HOOKUP, client -> client.hookups().get(ID)),
                read(HOOKUPS, HOOKUP, client -> client.hookups().refresh(HELD_HOOKUP)),
                read(
                        HOOKUPS + "/revisions/2",
                        HOOKUP,
                        client -> client.hookups().getRevision(ID, 2)),
                read("/v1/hookups", PAGE, client -> client.hookups().list()),
                read(
                        "/v1/hookups?vehicle=" + ID + "&verdict=not-ready&text=order%204711&limit=5",
                        PAGE,
                        client -> client.hookups()
                                .list(HookupQuery.all()
                                        .vehicle(ID)
                                        .verdict(Verdict.NOT_READY)
                                        .text("order 4711")
                                        .paging(Paging.start().limit(5)))),
                read(HOOKUPS + "/revisions", PAGE, client -> client.hookups().listRevisions(ID)),
                creating(
                        HOOKUPS + "/revisions",
                        HOOKUP,
                        client -> client.hookups().addRevision(HELD_HOOKUP, EMPTY)),
                harmless(
                        "POST " + HOOKUPS + "/revisions?dryRun=true",
                        DRY_RUN,
                        client -> client.hookups().dryRunAddRevision(HELD_HOOKUP, EMPTY)),
                read(HOOKUPS + "/report", REPORT, client -> client.hookups().report(ID)),
                read(
                        HOOKUPS + "/revisions/2/report",
                        REPORT,
                        client -> client.hookups().report(ID, 2)),
                read(
                        HOOKUPS + "/report?fresh=true",
                        REPORT,
                        client -> client.hookups().freshReport(ID)),
                read(
                        HOOKUPS + "/revisions/2/report?fresh=true",
                        REPORT,
                        client -> client.hookups().freshReport(ID, 2)),
                read(
                        HOOKUPS + "/report?fix=true",
                        REPORT,
                        client -> client.hookups().fix(ID)),
                read(
                        HOOKUPS + "/revisions/2/report?fix=true",
                        REPORT,
                        client -> client.hookups().fix(ID, 2)),
                read(
                        HOOKUPS + "/revisions/2/findings-changes",
                        FINDINGS_CHANGES,
                        client -> client.hookups().compareFindings(ID, 2)),
                read(
                        HOOKUPS + "/revisions/2/findings-changes?from=0",
                        FINDINGS_CHANGES,
                        client -> client.hookups().compareFindings(ID, 0, 2)),
                read(
                        HOOKUPS + "/revisions/2/findings-changes?from=0&fresh=true",
                        FINDINGS_CHANGES,
                        client -> client.hookups().compareFreshFindings(ID, 0, 2)),
                read(HOOKUPS + "/waivers", PAGE, client -> client.hookups().listWaivers(ID)),
                new Operation(
                        "PUT " + HOOKUPS + "/waivers/09af5c3de81b7246",
                        SentAgain.NEVER,
                        WAIVER,
                        client -> client.hookups().waive(HELD_HOOKUP, Waiver.of("09af5c3de81b7246", "a", "r"))),
                new Operation(
                        "DELETE " + HOOKUPS + "/waivers/09af5c3de81b7246",
                        SentAgain.NEVER,
                        "{}",
                        client -> client.hookups().withdrawWaiver(HELD_HOOKUP, "09af5c3de81b7246")),
                read("/v1/thresholds", THRESHOLDS, client -> client.thresholds().list()),
                new Operation(
                        "PUT /v1/thresholds",
                        SentAgain.NEVER,
                        THRESHOLDS,
                        client -> client.thresholds().set(HELD_THRESHOLDS, Map.of("fuse-too-far.mostMetres", 0.3))),
                read("/v1/house-rules", PAGE, client -> client.houseRules().list()),
                read(
                        "/v1/house-rules/house-fuse",
                        HOUSE_RULE,
                        client -> client.houseRules().get("house-fuse")),
                read(
                        "/v1/house-rules/house-fuse",
                        HOUSE_RULE,
                        client -> client.houseRules().refresh(HELD_RULE)),
                creating(
                        "/v1/house-rules",
                        HOUSE_RULE,
                        client -> client.houseRules().create(DOCUMENT)),
                harmless(
                        "POST /v1/house-rules?dryRun=true",
                        DRY_RUN,
                        client -> client.houseRules().dryRunCreate(DOCUMENT)),
                new Operation(
                        "PUT /v1/house-rules/house-fuse",
                        SentAgain.NEVER,
                        HOUSE_RULE,
                        client -> client.houseRules().replace(HELD_RULE, DOCUMENT)),
                new Operation(
                        "DELETE /v1/house-rules/house-fuse",
                        SentAgain.NEVER,
                        "{}",
                        client -> client.houseRules().withdraw(HELD_RULE)),
                harmless(
                        "POST /v1/checks?fix=true",
                        REPORT,
                        client -> client.checks().fix(Hookup.builder().build())),
                harmless(
                        "POST /v1/pairings",
                        PAIRING,
                        client -> client.pairings()
                                .propose(PairingQuestion.of(Hookup.builder().build()))),
                read("/v1/calculations", PAGE, client -> client.calculations().list()),
                read(
                        "/v1/calculations/voltage-drop",
                        CALCULATION,
                        client -> client.calculations().get("voltage-drop")),
                harmless(
                        "POST /v1/calculations/voltage-drop",
                        ANSWER,
                        client -> client.calculations().calculate(Question.of("voltage-drop"))),
                creating("/v1/vehicles", VEHICLE, client -> client.vehicles().create(DOCUMENT)),
                harmless(
                        "POST /v1/vehicles?dryRun=true",
                        DRY_RUN,
                        client -> client.vehicles().dryRunCreate(DOCUMENT)),
                read(VEHICLES, VEHICLE, client -> client.vehicles().get(ID)),
                read(VEHICLES, VEHICLE, client -> client.vehicles().refresh(HELD_VEHICLE)),
                read(
                        VEHICLES + "/revisions/2",
                        VEHICLE,
                        client -> client.vehicles().getRevision(ID, 2)),
                read("/v1/vehicles", PAGE, client -> client.vehicles().list()),
                read(
                        "/v1/vehicles?maker=Cor&model=Tess&year=2020&equipment=a&equipment=b&text=back%20seat&limit=5",
                        PAGE,
                        client -> client.vehicles()
                                .list(VehicleQuery.all()
                                        .maker("Cor")
                                        .model("Tess")
                                        .year(2020)
                                        .equipment("a")
                                        .equipment("b")
                                        .text("back seat")
                                        .paging(Paging.start().limit(5)))),
                read(
                        "/v1/vehicles?vin=1ab",
                        VIN_PAGE,
                        client -> client.vehicles().listByVin("1ab")),
                read(
                        "/v1/vehicles?maker=Cor&vin=1ab",
                        VIN_PAGE,
                        client -> client.vehicles()
                                .listByVin("1ab", VehicleQuery.all().maker("Cor"))),
                read(VEHICLES + "/circuits", PAGE, client -> client.vehicles().listCircuits(ID)),
                read(
                        VEHICLES + "/circuits?function=audio.speaker&colour=WH%2FBK&connector=C1&text=door"
                                + "&revision=2",
                        PAGE,
                        client -> client.vehicles()
                                .listCircuits(
                                        ID,
                                        CircuitQuery.all()
                                                .function("audio.speaker")
                                                .colour("WH/BK")
                                                .connector("C1")
                                                .text("door")
                                                .revision(2))),
                read("/v1/circuits", PAGE, client -> client.circuits().list(CircuitQuery.all())),
                read(
                        "/v1/circuits?function=power&maker=Cor&model=Tess&year=2020&limit=2&cursor=c",
                        PAGE,
                        client -> client.circuits()
                                .list(CircuitQuery.all()
                                        .function("power")
                                        .maker("Cor")
                                        .model("Tess")
                                        .year(2020)
                                        .paging(Paging.from("c").limit(2)))),
                read(VEHICLES + "/revisions", PAGE, client -> client.vehicles().listRevisions(ID)),
                read(
                        VEHICLES + "/revisions/2/changes",
                        CHANGES,
                        client -> client.vehicles().compare(ID, 2)),
                read(
                        VEHICLES + "/revisions/2/changes?from=0",
                        CHANGES,
                        client -> client.vehicles().compare(ID, 0, 2)),
                creating(
                        VEHICLES + "/revisions",
                        VEHICLE,
                        client -> client.vehicles().addRevision(ID, 4, DOCUMENT)),
                creating(
                        VEHICLES + "/revisions",
                        VEHICLE,
                        client -> client.vehicles().addRevision(HELD_VEHICLE, DOCUMENT)),
                harmless(
                        "POST " + VEHICLES + "/revisions?dryRun=true",
                        DRY_RUN,
                        client -> client.vehicles().dryRunAddRevision(HELD_VEHICLE, DOCUMENT)),
                creating(
                        VEHICLES + "/revisions/2/restore",
                        VEHICLE,
                        client -> client.vehicles().restore(HELD_VEHICLE, 2)),
                creating("/v1/devices", DEVICE, client -> client.devices().create(DOCUMENT)),
                harmless(
                        "POST /v1/devices?dryRun=true",
                        DRY_RUN,
                        client -> client.devices().dryRunCreate(DOCUMENT)),
                read("/v1/devices/REL", DEVICE, client -> client.devices().get("REL")),
                read("/v1/devices/REL", DEVICE, client -> client.devices().refresh(HELD_DEVICE)),
                read(
                        "/v1/devices/REL/revisions/2",
                        DEVICE,
                        client -> client.devices().getRevision("REL", 2)),
                read("/v1/devices", PAGE, client -> client.devices().list()),
                read(
                        "/v1/devices?code=R&maker=Cor&name=Rel&kind=relay&function=power&text=amp&mates=H1&fits=" + ID
                                + "&accessoryOf=HU-A",
                        PAGE,
                        client -> client.devices()
                                .list(DeviceQuery.all()
                                        .code("R")
                                        .maker("Cor")
                                        .name("Rel")
                                        .kind("relay")
                                        .function("power")
                                        .text("amp")
                                        .mates("H1")
                                        .fits(ID)
                                        .accessoryOf("HU-A"))),
                read(
                        "/v1/devices/REL/revisions",
                        PAGE,
                        client -> client.devices().listRevisions("REL")),
                read(
                        "/v1/devices/REL/revisions/2/changes",
                        CHANGES,
                        client -> client.devices().compare("REL", 2)),
                read(
                        "/v1/devices/REL/revisions/2/changes?from=1",
                        CHANGES,
                        client -> client.devices().compare("REL", 1, 2)),
                creating(
                        "/v1/devices/REL/revisions",
                        DEVICE,
                        client -> client.devices().addRevision("REL", 4, DOCUMENT)),
                creating(
                        "/v1/devices/REL/revisions",
                        DEVICE,
                        client -> client.devices().addRevision(HELD_DEVICE, DOCUMENT)),
                harmless(
                        "POST /v1/devices/REL/revisions?dryRun=true",
                        DRY_RUN,
                        client -> client.devices().dryRunAddRevision(HELD_DEVICE, DOCUMENT)),
                creating(
                        "/v1/devices/REL/revisions/2/restore",
                        DEVICE,
                        client -> client.devices().restore(HELD_DEVICE, 2)),
                creating(
                        "/v1/spreadsheets?maker=Corvane&model=Tessick",
                        VEHICLE,
                        client -> client.spreadsheets().create(ABOUT, SHEET)),
                harmless(
                        "POST /v1/spreadsheets?maker=Corvane&model=Tessick&dryRun=true",
                        DRY_RUN,
                        client -> client.spreadsheets().dryRunCreate(ABOUT, SHEET)),
                new Operation(
                        "PUT " + VEHICLES + "/spreadsheet",
                        SentAgain.NEVER,
                        VEHICLE,
                        client -> client.spreadsheets().replace(HELD_VEHICLE, SHEET)),
                harmless(
                        "PUT " + VEHICLES + "/spreadsheet?dryRun=true",
                        DRY_RUN,
                        client -> client.spreadsheets().dryRunReplace(HELD_VEHICLE, SHEET)),
                read(
                        VEHICLES + "/spreadsheet",
                        "connector,pin",
                        client -> client.spreadsheets().export(ID)),
                read(
                        VEHICLES + "/spreadsheet?revision=2",
                        "connector,pin",
                        client -> client.spreadsheets().export(ID, 2)),
                read(
                        VEHICLES + "/spreadsheet",
                        "connector,pin",
                        client -> client.spreadsheets().export(ID, folder.resolve("sheet.csv"))),
                harmless(
                        "PUT /v1/imports/" + ID,
                        IMPORT,
                        client -> client.imports().run(ID, Source.text(ENTRY))),
                harmless(
                        "PUT /v1/imports/" + ID + "?dryRun=true",
                        IMPORT,
                        client -> client.imports().dryRun(ID, Source.text(ENTRY))),
                read("/v1/imports/" + ID, IMPORT, client -> client.imports().get(ID)),
                read("/v1/imports", PAGE, client -> client.imports().list()),
                read(
                        "/v1/export?what=devices&mine=true",
                        ENTRY,
                        client -> client.exports()
                                .save(ExportQuery.all().devices().mine(), folder.resolve("export.ndjson"))));
    }

    private static String told(FakeService.Request request) {
        return request.method() + " " + request.path();
    }

    @ParameterizedTest
    @MethodSource("operations")
    void isSentAndAnswered(Operation operation) throws IOException {
        service.answers(200, operation.answer());

        operation.calling().on(service.client().build());

        assertThat(service.requests()).extracting(OperationsTest::told).containsExactly(operation.request());
        assertThat(service.requests().get(0).header("Accept")).endsWith(", application/problem+json");
    }

    @ParameterizedTest
    @MethodSource("operations")
    void endsWithTheProblemThatItIsAnswered(Operation operation) {
        service.answersProblem(404, "not-found", Map.of());

        assertThatExceptionOfType(NotFoundException.class)
                .isThrownBy(() -> operation.calling().on(service.client().build()))
                .satisfies(problem -> assertThat(problem.requestId()).hasValue("r-1"));

        assertThat(service.requests()).hasSize(1);
    }

    /** What may be sent again is, for an answer that breaks off too, and what may not is sent once. */
    @ParameterizedTest
    @MethodSource("operations")
    void isSentAgainOnlyIfItMay(Operation operation) throws IOException {
        Splicebook client = service.client().build();
        service.answersProblem(503, "database-away", Map.of());
        if (operation.sentAgain() == SentAgain.ALWAYS) {
            service.breaksOffWithin(operation.answer()).answers(200, operation.answer());

            operation.calling().on(client);

            assertThat(service.requests()).extracting(OperationsTest::told).containsOnly(operation.request());
            assertThat(service.requests()).hasSize(3);
        } else {
            assertThatExceptionOfType(UnavailableException.class)
                    .isThrownBy(() -> operation.calling().on(client));
            service.breaksOffWithin(operation.answer());
            assertThatExceptionOfType(ConnectionException.class)
                    .isThrownBy(() -> operation.calling().on(client));

            assertThat(service.waits()).isEmpty();
        }
    }

    @ParameterizedTest
    @MethodSource("operations")
    void sendsAKeyAndIsSentAgainIfItCreates(Operation operation) throws IOException {
        Splicebook client =
                service.client().build().with(CallOptions.defaults().idempotencyKey(new IdempotencyKey("order-7")));
        service.breaksOffWithin(operation.answer()).answers(200, operation.answer());
        if (operation.sentAgain() == SentAgain.NEVER) {
            assertThatExceptionOfType(ConnectionException.class)
                    .isThrownBy(() -> operation.calling().on(client));
        } else {
            operation.calling().on(client);
        }

        String key = operation.sentAgain() == SentAgain.WITH_A_KEY ? "order-7" : "";
        assertThat(service.requests())
                .hasSize(operation.sentAgain() == SentAgain.NEVER ? 1 : 2)
                .allSatisfy(
                        request -> assertThat(request.header("Idempotency-key")).isEqualTo(key));
    }

    @ParameterizedTest
    @MethodSource("operations")
    void neverComesBackAfterAConflict(Operation operation) {
        service.answersProblem(409, "conflict", Map.of("Retry-After", "1"));

        assertThatExceptionOfType(ConflictException.class)
                .isThrownBy(() -> operation
                        .calling()
                        .on(service.client()
                                .idempotencyKeys(IdempotencyKey::random)
                                .build()));

        assertThat(service.requests()).hasSize(1);
        assertThat(service.waits()).isEmpty();
    }

    @ParameterizedTest
    @MethodSource("operations")
    void isNotTriedAgainOnceItsTimeIsUp(Operation operation) {
        service.neverAnswers();
        Splicebook client = service.client().build().with(CallOptions.defaults().timeout(Duration.ofMillis(150)));

        assertThatExceptionOfType(ConnectionException.class)
                .isThrownBy(() -> operation.calling().on(client))
                .withMessageEndingWith("was not answered within 150 ms");

        assertThat(service.waits()).isEmpty();
    }
}
