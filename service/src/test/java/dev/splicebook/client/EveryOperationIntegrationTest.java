package dev.splicebook.client;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.catchThrowable;

import dev.splicebook.testing.Calls;
import dev.splicebook.testing.ServiceIntegrationTest;
import dev.splicebook.testing.TestDatabase;
import java.io.IOException;
import java.io.RandomAccessFile;
import java.lang.reflect.RecordComponent;
import java.net.Authenticator;
import java.net.CookieHandler;
import java.net.ProxySelector;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandler;
import java.net.http.HttpResponse.PushPromiseHandler;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.UUID;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.Executor;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import javax.net.ssl.SSLContext;
import javax.net.ssl.SSLParameters;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/**
 * Every operation of the written API, called through the client: once with success and once with a problem. What counts
 * is the request that went out, compared with the method and path of the operation, so that an operation without a method
 * of the client cannot pass, whatever is written here.
 */
class EveryOperationIntegrationTest extends ServiceIntegrationTest {

    /** It needs no key and takes no argument, so that nothing can be wrong with it. */
    private static final Set<String> WITHOUT_PROBLEM = Set.of("listProblems");

    private static final UUID NOBODY = new UUID(0, 0);
    private static final String VIN = "9zrAA11A0MA000001";
    private static final Document MAP = map("Everything");
    private static final Document RELAY = device("EVERY-RELAY", "");
    private static final Document LAMP = device("EVERY-LAMP", """
            , "connectors": {"A": {"mates": ["EVERY-16"]}}, "accessories": [{"device": "EVERY-RELAY", "why": "w"}]""");
    private static final Source SHEET = Source.text("""
            connector,pin,function,colour,connectorName,electrical.kind,electrical.maxAmps
            C1,7,power.battery,YE/RD,radio,supply,10.5
            C1,8,ground.chassis,BK,,ground,
            """);
    private static final Source NO_SHEET = Source.text("connector,pin,colour\nC1,7,purplish\n");
    private static final VehicleDescription ABOUT =
            VehicleDescription.of("Ondrake", "Spread").modelYears(2020, 2022).equipment("navigation");

    private final Recording sent = new Recording();

    private static Document map(String model) {
        return Document.parse("""
                {"maker": "Ondrake", "model": "%s", "modelYears": {"from": 2020, "to": 2024}, "market": "EU",
                 "equipment": ["rear-entertainment"], "vinPatterns": ["9ZR"],
                 "connectors": {"C1": {"name": "radio", "location": "behind the radio", "mates": ["EVERY-16"]}},
                 "circuits": {"C1-7": {"function": "power.battery", "colour": "YE/RD", "electrical":
                   {"kind": "supply", "maxAmps": 10.50, "fuseAmps": 10,
                    "live": ["asleep", "accessory", "ignition", "cranking", "running", "restarting"]}}}}
                """.formatted(model));
    }

    private static Document device(String code, String more) {
        return Document.parse("""
                {"code": "%s", "maker": "Ondrake", "name": "Thing", "kind": "every-thing", "terminals": {
                  "plus": {"function": "power.battery",
                           "electrical": {"kind": "load", "typicalAmps": 1, "maxAmps": 1, "needs": "either"}},
                  "minus": {"electrical": {"kind": "ground"}}}%s}""".formatted(code, more));
    }

    private Splicebook client(String key) {
        return Splicebook.builder()
                .baseUrl(anonymousCalls().base())
                .key(key)
                .timeout(Duration.ofSeconds(30))
                .httpClient(sent)
                .build();
    }

    /** Calls something and gives its answer. */
    @FunctionalInterface
    private interface Calling {
        Object call() throws Exception;
    }

    @Test
    void isServedByTheClient() throws Exception {
        Map<String, Pattern> operations = operations();

        Set<String> answered = new TreeSet<>();
        for (Calling calling : successes(client(TestDatabase.key()))) {
            sent.requests.clear();
            knowAll(calling.call());
            sent.requests.forEach(request -> answered.add(operationOf(request, operations)));
        }
        Set<String> refused = new TreeSet<>();
        for (Calling calling : problems(client(TestDatabase.key()), client("not-a-key-of-this-service"))) {
            sent.requests.clear();
            Throwable end = catchThrowable(calling::call);
            assertThat(sent.requests).hasSize(1);
            String operation = operationOf(sent.requests.get(0), operations);
            assertThat(end).as(operation).isInstanceOf(ApiException.class);
            ApiException problem = (ApiException) end;
            assertThat(problem.status()).as(problem.getMessage()).isBetween(400, 499);
            assertThat(problem.code()).isNotEqualTo(Problem.UNKNOWN_TYPE);
            assertThat(problem.requestId()).isPresent();
            refused.add(operation);
        }

        assertThat(answered)
                .as("operations that the client serves; one that is missing needs a method there, and a call here")
                .containsExactlyInAnyOrderElementsOf(operations.keySet());
        refused.addAll(WITHOUT_PROBLEM);
        assertThat(refused)
                .as("operations that end with a problem through the client; one that is missing needs a call here")
                .containsExactlyInAnyOrderElementsOf(operations.keySet());
    }

    /** The service answers before it has read the file, and the client hears it while it sends. */
    @Test
    void tellsThatAFileIsTooLarge() throws IOException {
        Path file = TestDatabase.newFolder().resolve("large.csv");
        try (RandomAccessFile large = new RandomAccessFile(file.toFile(), "rw")) {
            large.setLength(200_000_000);
        }

        assertThatExceptionOfType(ApiException.class)
                .isThrownBy(() -> client(TestDatabase.key()).spreadsheets().create(ABOUT, Source.file(file)))
                .satisfies(problem -> assertThat(problem.status()).isEqualTo(413));
    }

    /** Method and path of each operation, as a pattern. */
    private Map<String, Pattern> operations() {
        JsonNode document = Calls.json(anonymousCalls().get("/v3/api-docs"));
        Map<String, Pattern> operations = document.path("paths").properties().stream()
                .flatMap(path -> path.getValue().properties().stream()
                        .filter(method -> method.getValue().has("operationId"))
                        .map(method -> Map.entry(
                                method.getValue().path("operationId").stringValue(),
                                Pattern.compile("(?i)" + method.getKey() + " \\Q"
                                        + path.getKey().replaceAll("\\{[^/}]+}", "\\\\E[^/]+\\\\Q") + "\\E"))))
                .collect(Collectors.toMap(Map.Entry::getKey, Map.Entry::getValue));
        assertThat(operations).hasSizeGreaterThan(20).containsKey("checkHookup");
        return operations;
    }

    private static String operationOf(String request, Map<String, Pattern> operations) {
        List<String> found = operations.entrySet().stream()
                .filter(operation -> operation.getValue().matcher(request).matches())
                .map(Map.Entry::getKey)
                .toList();
        assertThat(found).as("operations that are " + request).hasSize(1);
        return found.get(0);
    }

    /** The service says nothing that this version of the client does not know. */
    private static void knowAll(@Nullable Object answer) throws ReflectiveOperationException {
        if (answer instanceof Problem) {
            return;
        }
        if (answer instanceof Page<?> page) {
            assertThat(page.more().keySet()).isSubsetOf("vin");
            knowAll(page.items());
        } else if (answer instanceof Collection<?> answers) {
            for (Object each : answers) {
                knowAll(each);
            }
        } else if (answer instanceof Record record) {
            for (RecordComponent component : record.getClass().getRecordComponents()) {
                if (component.getName().equals("more")) {
                    assertThat((Map<?, ?>) component.getAccessor().invoke(record))
                            .as("fields of " + record + " that the client does not know")
                            .isEmpty();
                } else {
                    knowAll(component.getAccessor().invoke(record));
                }
            }
        }
    }

    private List<Calling> successes(Splicebook client) throws Exception {
        Vehicle vehicle = client.vehicles().create(MAP);
        Vehicle later = client.vehicles().addRevision(vehicle, map("Everything else"));
        Device relay = client.devices().create(RELAY);
        Device lamp = client.devices().create(LAMP);
        Device laterLamp = client.devices()
                .addRevision(lamp, Document.of(lamp.document().json().put("notes", "n")));
        UUID id = vehicle.id();
        Path folder = TestDatabase.newFolder();
        UUID imported = UUID.randomUUID();
        Entry entry = Entry.vehicle(UUID.randomUUID(), map("Everything imported"));
        Hookup hookup = Hookup.builder()
                .vehicle(id)
                .part("L", "EVERY-LAMP")
                .connect("W1", "CAR.C1-7", "L.plus", Wire.of("16 AWG").withLength(Length.metres(1)))
                .connect("W2", "CAR.chassis", "L.minus")
                .build();
        Hookup grounded =
                hookup.toBuilder().connect("W3", "CAR.C1-7", "CAR.chassis").build();
        IdempotencyKey key = IdempotencyKey.random();
        return List.of(
                () -> client.functions().list(),
                () -> client.functions().get("power.battery"),
                () -> client.rules().list(),
                () -> client.rules().get("returns-tied"),
                () -> client.problems().list(),
                () -> client.problems().get("bad-body"),
                () -> client.checks().check(hookup),
                () -> keepAJob(client, hookup),
                () -> keepAHouseRule(client),
                () -> setThresholds(client),
                () -> client.checks().fix(grounded),
                () -> client.pairings().propose(PairingQuestion.of(hookup)),
                () -> client.calculations().list(),
                () -> answerAll(client),
                () -> same(
                        client.with(CallOptions.defaults().idempotencyKey(key))
                                .vehicles()
                                .create(map("Once")),
                        client.with(CallOptions.defaults().idempotencyKey(key))
                                .vehicles()
                                .create(map("Once"))),
                () -> same(MAP, client.vehicles().dryRunCreate(MAP).document()),
                () -> same(later, client.vehicles().get(id)),
                () -> {
                    assertThat(client.vehicles().refresh(later)).isSameAs(later);
                    return same(later, client.vehicles().refresh(vehicle));
                },
                () -> same(MAP, client.vehicles().getRevision(id, 1).document()),
                () -> containing(
                        id,
                        client.vehicles()
                                .list(VehicleQuery.all()
                                        .maker("ondr")
                                        .model("everything e")
                                        .year(2021)
                                        .equipment("rear-entertainment")
                                        .text("ondr eu"))),
                () -> {
                    VinMatches matches =
                            client.vehicles().listByVin(VIN, VehicleQuery.all().maker("Ondrake"));
                    assertThat(matches.vin().vin()).isEqualTo("9ZRAA11A0MA000001");
                    assertThat(matches.vin().modelYears()).contains(2021);
                    containing(id, matches.vehicles());
                    return List.of(matches.vin(), matches.vehicles());
                },
                () -> client.vehicles().listRevisions(id),
                () -> {
                    Changes changes = client.vehicles().compare(id, 2);
                    assertThat(changes.changes())
                            .extracting(Changes.Change::pointer)
                            .containsExactly("/model");
                    assertThat(changes.changes().get(0).op()).isEqualTo(ChangeKind.CHANGED);
                    return same(changes, client.vehicles().compare(id, 1, 2));
                },
                () -> {
                    Page<CircuitEntry> circuits = client.vehicles()
                            .listCircuits(
                                    id,
                                    CircuitQuery.all()
                                            .function("power")
                                            .colour("YE/RD")
                                            .connector("C1")
                                            .revision(1));
                    assertThat(circuits).extracting(CircuitEntry::terminal).containsExactly("CAR.C1-7");
                    return circuits;
                },
                () -> {
                    Page<CircuitEntry> circuits = client.circuits()
                            .list(CircuitQuery.all()
                                    .function("power")
                                    .text("behind")
                                    .maker("Ondrake")
                                    .year(2021));
                    assertThat(circuits).extracting(CircuitEntry::vehicle).contains(id);
                    return circuits;
                },
                () -> same(MAP, client.vehicles().dryRunAddRevision(later, MAP).document()),
                () -> same(
                        MAP, client.vehicles().restore(vehicle(client, id), 1).document()),
                () -> client.vehicles().addRevision(vehicle(client, id), map("Everything again")),
                () -> client.devices().create(device("EVERY-OTHER", "")),
                () -> client.devices().dryRunCreate(device("EVERY-NEVER", "")),
                () -> same(laterLamp, client.devices().get("EVERY-LAMP")),
                () -> {
                    assertThat(client.devices().refresh(relay)).isSameAs(relay);
                    return relay;
                },
                () -> same(LAMP, client.devices().getRevision("EVERY-LAMP", 1).document()),
                () -> {
                    DeviceQuery query = DeviceQuery.all()
                            .code("every-")
                            .maker("ond")
                            .name("thi")
                            .kind("every-thing")
                            .function("power")
                            .text("thing");
                    assertThat(client.devices().list(query.accessoryOf("EVERY-LAMP")))
                            .extracting(DeviceSummary::code)
                            .containsExactly("EVERY-RELAY");
                    assertThat(client.devices().list(query.mates("EVERY-16").fits(id)))
                            .extracting(DeviceSummary::code)
                            .containsExactly("EVERY-LAMP");
                    return client.devices().list(query);
                },
                () -> client.devices().listRevisions("EVERY-LAMP"),
                () -> client.devices().compare("EVERY-LAMP", 2),
                () -> client.devices().dryRunAddRevision(laterLamp, LAMP),
                () -> client.devices().restore(laterLamp, 1),
                () -> client.devices().addRevision("EVERY-RELAY", 1, RELAY),
                () -> {
                    DryRun dryRun = client.spreadsheets().dryRunCreate(ABOUT, SHEET);
                    assertThat(dryRun.circuits()).isEqualTo(2);
                    Vehicle created = client.spreadsheets().create(ABOUT, SHEET);
                    assertThat(created.document()).isEqualTo(dryRun.document());
                    String sheet = client.spreadsheets().export(created.id());
                    Path file = folder.resolve("sheet.csv");
                    client.spreadsheets().export(created.id(), file);
                    assertThat(file).hasContent(sheet);
                    client.spreadsheets().dryRunReplace(created, Source.file(file));
                    Vehicle replaced = client.spreadsheets().replace(created, Source.text(sheet));
                    assertThat(replaced.revision()).isEqualTo(2);
                    assertThat(client.vehicles().compare(created.id(), 2).changes())
                            .isEmpty();
                    return List.of(dryRun, created, replaced);
                },
                () -> {
                    Import judged = client.imports().dryRun(UUID.randomUUID(), Source.entries(List.of(entry)));
                    assertThat(judged.dryRun()).isTrue();
                    Import done = client.imports().run(imported, Source.entries(List.of(entry)));
                    assertThat(done.state()).isEqualTo(ImportState.DONE);
                    assertThat(done.vehicles()).isEqualTo(1);
                    assertThat(client.vehicles()
                                    .get(entry.id() == null ? NOBODY : entry.id())
                                    .document())
                            .isEqualTo(entry.document());
                    assertThat(client.imports().get(imported)).isEqualTo(done);
                    return containing(imported, client.imports().list());
                },
                () -> {
                    List<Entry> entries;
                    try (Stream<Entry> stream =
                            client.exports().stream(ExportQuery.all().vehicles().mine())) {
                        entries = stream.toList();
                    }
                    assertThat(entries).extracting(Entry::id).contains(id, entry.id());
                    Path file = folder.resolve("devices.ndjson");
                    client.exports().save(ExportQuery.all().devices(), file);
                    assertThat(Files.readAllLines(file)).anyMatch(line -> line.contains("EVERY-LAMP"));
                    assertThat(client.imports()
                                    .dryRun(UUID.randomUUID(), Source.entries(entries))
                                    .unchanged())
                            .isEqualTo(entries.size());
                    return entries;
                });
    }

    /** A hookup with an unmet wish, which is waived; the wish is another one in the second revision. */
    private static Object keepAJob(Splicebook client, Hookup plain) {
        Hookup hookup = plain.toBuilder()
                .name("Order of everything")
                .keep("audio.microphone")
                .build();
        Hookup other = plain.toBuilder().keep("video.camera-rear").build();
        StoredHookup job = client.hookups().create(hookup);
        UUID id = job.id();
        Report report = client.hookups().report(id);
        Waiver waiver = Waiver.of(report.findingsOf("wish-unmet").get(0).fingerprint(), "Bench 2", "none fitted")
                .until(LocalDate.now(ZoneOffset.UTC).plusYears(1));
        StoredWaiver given = client.hookups().waive(job, waiver);
        assertThat(client.hookups().report(id).waived())
                .extracting(Report.Waived::waiver)
                .containsExactly(waiver);
        assertThat(client.checks()
                        .check(hookup.toBuilder().waive(waiver).build())
                        .waived())
                .hasSize(1);
        DryRun judged = client.hookups().dryRunAddRevision(job, other);
        StoredHookup later = client.hookups().addRevision(job, other);
        assertThat(client.hookups().refresh(later)).isSameAs(later);
        assertThat(client.hookups().refresh(job)).isEqualTo(later);
        FindingsChanges changes = client.hookups().compareFindings(id, 2);
        assertThat(changes.appeared()).hasSize(1);
        assertThat(changes.gone()).hasSize(1);
        assertThat(client.hookups().compareFreshFindings(id, 1, 2).appeared()).hasSize(1);
        assertThat(client.hookups().freshReport(id, 1).waived()).hasSize(1);
        assertThat(client.hookups().fix(id, 1).fix()).isNotNull();
        Report lapsed = client.hookups().fix(id);
        assertThat(lapsed.lapsedWaivers())
                .extracting(Report.LapsedWaiver::why)
                .containsExactly(LapseReason.NO_SUCH_FINDING);
        Page<StoredWaiver> waivers = client.hookups().listWaivers(id);
        client.hookups().withdrawWaiver(later, waiver.fingerprint());
        assertThat(client.hookups().listWaivers(id).items()).isEmpty();
        return List.of(
                job,
                report,
                given,
                judged,
                later,
                changes,
                lapsed,
                waivers,
                client.hookups().dryRunCreate(hookup),
                client.hookups().get(id),
                client.hookups().getRevision(id, 1),
                client.hookups().report(id, 1),
                client.hookups().listRevisions(id),
                client.hookups()
                        .list(HookupQuery.all()
                                .verdict(later(client, id))
                                .paging(Paging.start().limit(200))));
    }

    private static Verdict later(Splicebook client, UUID id) {
        return client.hookups().listRevisions(id).items().get(0).verdict();
    }

    /** Withdrawn in the end, as every check of the firm heeds it. */
    private static Object keepAHouseRule(Splicebook client) {
        Document document = houseRule("house-everything", "false");
        DryRun judged = client.houseRules().dryRunCreate(document);
        HouseRule rule = client.houseRules().create(document);
        HouseRule replaced = client.houseRules().replace(rule, houseRule("house-everything", "1 > 2"));
        assertThat(client.houseRules().refresh(replaced)).isSameAs(replaced);
        Page<HouseRule> rules = client.houseRules().list();
        HouseRule got = client.houseRules().get("house-everything");
        client.houseRules().withdraw(replaced);
        return List.of(judged, rule, replaced, rules, got);
    }

    /** Set to what they are, as every check of the firm heeds them. */
    private static Object setThresholds(Splicebook client) {
        ThresholdList before = client.thresholds().list();
        Threshold first = before.items().get(0);
        ThresholdList set = client.thresholds().set(before, Map.of(first.name(), first.ownValue()));
        assertThat(set.items().get(0).isSet()).isTrue();
        ThresholdList after = client.thresholds().set(set, Map.of());
        assertThat(after.items()).isEqualTo(before.items());
        return List.of(before, set, after);
    }

    /** What gives no answer, as a call that has one. */
    private static Object withdraw(Runnable call) {
        call.run();
        return List.of();
    }

    private static Document houseRule(String code, String when) {
        return Document.parse("""
                {"code": "%s", "severity": "note", "each": "connections", "when": "%s", "message": "m", "help": "h"}""".formatted(code, when));
    }

    /** Every calculation's own example, sent as it is. */
    private static List<Object> answerAll(Splicebook client) {
        List<Object> answers = new ArrayList<>();
        for (CalculationSummary summary : client.calculations().list()) {
            Calculation page = client.calculations().get(summary.name());
            answers.add(page);
            Answer answer = client.calculations().calculate(Question.of(page.name(), page.example()));
            assertThat(answer.cautions()).as(page.name()).isNotEmpty();
            answers.addAll(answer.assumptions());
            answers.addAll(answer.working());
        }
        return answers;
    }

    private List<Calling> problems(Splicebook client, Splicebook stranger) {
        Vehicle vehicle = client.vehicles().create(map("Everything wrong"));
        client.vehicles().addRevision(vehicle, map("Everything wrong again"));
        Device device = client.devices().create(device("EVERY-WRONG", ""));
        Document wrong = Document.parse("{\"wheels\": 4}");
        UUID id = vehicle.id();
        StoredHookup job = client.hookups().create(Hookup.builder().build());
        StoredHookup stale = job;
        client.hookups().addRevision(job, Hookup.builder().build());
        Hookup nowhere = Hookup.builder().part("A", "EVERY-NEVER").build();
        HouseRule absent = Json.MAPPER.readValue(
                "{\"code\": \"house-never\", \"revision\": 1, \"createdAt\": \"2026-11-25T10:00:00Z\", \"document\": {}}",
                HouseRule.class);
        ThresholdList figures = client.thresholds().list();
        Stream<Calling> calculations = client.calculations().list().stream()
                .map(summary -> () -> client.calculations()
                        .calculate(Question.of(summary.name()).with("wheels", 4)));
        Stream<Calling> others = Stream.of(
                () -> stranger.calculations().list(),
                () -> client.calculations().get("astrology"),
                () -> stranger.functions().list(),
                () -> client.functions().get("power.nothing"),
                () -> stranger.rules().list(),
                () -> client.rules().get("wire-too-shy"),
                () -> client.problems().get("no-problem"),
                () -> client.checks()
                        .check(Hookup.builder().part("A", "EVERY-NEVER").build()),
                () -> client.hookups().create(nowhere),
                () -> client.hookups().dryRunCreate(nowhere),
                () -> client.hookups().get(NOBODY),
                () -> client.hookups().getRevision(job.id(), 9),
                () -> client.hookups().list(HookupQuery.all().verdict(new Verdict("splendid"))),
                () -> client.hookups().listRevisions(NOBODY),
                () -> client.hookups().addRevision(stale, Hookup.builder().build()),
                () -> client.hookups().dryRunAddRevision(stale, Hookup.builder().build()),
                () -> client.hookups().report(NOBODY),
                () -> client.hookups().report(job.id(), 9),
                () -> client.hookups().compareFindings(job.id(), 9),
                () -> client.hookups().listWaivers(NOBODY),
                () -> client.hookups().waive(stale, Waiver.of("09af5c3de81b7246", "a", "r")),
                () -> withdraw(() -> client.hookups().withdrawWaiver(stale, "09af5c3de81b7246")),
                () -> stranger.thresholds().list(),
                () -> client.thresholds().set(figures, Map.of("fuse-too-far.moons", 3.0)),
                () -> stranger.houseRules().list(),
                () -> client.houseRules().get("house-never"),
                () -> client.houseRules().create(houseRule("house-never", "maybe")),
                () -> client.houseRules().replace(absent, houseRule("house-never", "true")),
                () -> withdraw(() -> client.houseRules().withdraw(absent)),
                () -> client.pairings()
                        .propose(PairingQuestion.of(Hookup.builder()
                                .vehicle(id)
                                .part("A", "EVERY-NEVER")
                                .build())),
                () -> client.vehicles().create(wrong),
                () -> client.vehicles().dryRunCreate(wrong),
                () -> client.vehicles().get(NOBODY),
                () -> client.vehicles().getRevision(id, 9),
                () -> client.vehicles().list(VehicleQuery.all().year(20)),
                () -> client.vehicles().listByVin("9ZRAA11A0MA00000O"),
                () -> client.vehicles().listRevisions(NOBODY),
                () -> client.vehicles().compare(id, 9),
                () -> client.vehicles().listCircuits(id, CircuitQuery.all().function("power.nothing")),
                () -> client.circuits().list(CircuitQuery.all().colour("purplish")),
                () -> client.vehicles().addRevision(vehicle, map("Too late")),
                () -> client.vehicles().dryRunAddRevision(vehicle, map("Too late")),
                () -> client.vehicles().restore(vehicle, 1),
                () -> client.devices().create(device("EVERY-WRONG", "")),
                () -> client.devices().get("EVERY-NEVER"),
                () -> client.devices().getRevision("EVERY-WRONG", 9),
                () -> client.devices().list(DeviceQuery.all().fits(NOBODY)),
                () -> client.devices().listRevisions("EVERY-NEVER"),
                () -> client.devices().compare("EVERY-WRONG", 9),
                () -> client.devices().addRevision(device, wrong),
                () -> client.devices().restore(device, 9),
                () -> client.spreadsheets().create(ABOUT, NO_SHEET),
                () -> client.spreadsheets().replace(vehicle, SHEET),
                () -> client.spreadsheets().export(NOBODY),
                () -> client.imports().run(UUID.randomUUID(), Source.text("{\"kind\": \"wheel\"}\n")),
                () -> client.imports().get(NOBODY),
                () -> client.imports().list(Paging.from("no cursor of theirs")),
                () -> stranger.exports().stream(ExportQuery.all()));
        return Stream.concat(calculations, others).toList();
    }

    private static Vehicle vehicle(Splicebook client, UUID id) {
        return client.vehicles().get(id);
    }

    private static <T> T same(T expected, T actual) {
        assertThat(actual).isEqualTo(expected);
        return actual;
    }

    /** The list, whose entries must hold one of an id. */
    private static <T> Page<T> containing(UUID id, Page<T> page) {
        assertThat(page.items())
                .anyMatch(item ->
                        (item instanceof VehicleSummary vehicle && vehicle.id().equals(id))
                                || (item instanceof Import done && done.id().equals(id)));
        return page;
    }

    /** Tells method and path of every request that goes out. */
    private static final class Recording extends HttpClient {

        private final HttpClient http = HttpClient.newHttpClient();
        private final List<String> requests = new CopyOnWriteArrayList<>();

        @Override
        public <T> CompletableFuture<HttpResponse<T>> sendAsync(HttpRequest request, BodyHandler<T> handler) {
            requests.add(request.method() + " " + request.uri().getRawPath());
            return http.sendAsync(request, handler);
        }

        @Override
        public <T> CompletableFuture<HttpResponse<T>> sendAsync(
                HttpRequest request, BodyHandler<T> handler, @Nullable PushPromiseHandler<T> pushed) {
            throw new UnsupportedOperationException("the client sends otherwise");
        }

        @Override
        public <T> HttpResponse<T> send(HttpRequest request, BodyHandler<T> handler) {
            throw new UnsupportedOperationException("the client sends otherwise");
        }

        @Override
        public Optional<CookieHandler> cookieHandler() {
            return http.cookieHandler();
        }

        @Override
        public Optional<Duration> connectTimeout() {
            return http.connectTimeout();
        }

        @Override
        public Redirect followRedirects() {
            return http.followRedirects();
        }

        @Override
        public Optional<ProxySelector> proxy() {
            return http.proxy();
        }

        @Override
        public SSLContext sslContext() {
            return http.sslContext();
        }

        @Override
        public SSLParameters sslParameters() {
            return http.sslParameters();
        }

        @Override
        public Optional<Authenticator> authenticator() {
            return http.authenticator();
        }

        @Override
        public Version version() {
            return http.version();
        }

        @Override
        public Optional<Executor> executor() {
            return http.executor();
        }
    }
}
