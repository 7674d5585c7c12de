package dev.splicebook.client;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.tuple;

import dev.splicebook.testing.ServiceIntegrationTest;
import dev.splicebook.testing.TestDatabase;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** Every operation of the client, on the running service. */
class ClientIntegrationTest extends ServiceIntegrationTest {

    private static final Document MAP = map("Ondrake", "Called");

    private Splicebook client() {
        return Splicebook.builder()
                .baseUrl(anonymousCalls().base())
                .key(TestDatabase.key())
                .timeout(Duration.ofSeconds(20))
                .build();
    }

    private static Document map(String maker, String model) {
        return Document.parse("""
                {"maker": "%s", "model": "%s", "modelYears": {"from": 2020, "to": 2024},
                 "circuits": {"C1-7": {"function": "power.battery", "colour": "YE/RD", "electrical":
                   {"kind": "supply", "maxAmps": 10.50, "fuseAmps": 10,
                    "live": ["asleep", "accessory", "ignition", "cranking", "running", "restarting"]}}}}
                """.formatted(maker, model));
    }

    private static Document lamp(String code, String maker) {
        return Document.parse("""
                {"code": "%s", "maker": "%s", "name": "Lamp", "kind": "called-lamp", "terminals": {
                  "plus": {"electrical": {"kind": "load", "typicalAmps": 1, "maxAmps": 1, "needs": "either"}},
                  "minus": {"electrical": {"kind": "ground"}}}}
                """.formatted(code, maker));
    }

    @Test
    void readsTheVocabulary() {
        List<Function> functions = client().functions().list();

        assertThat(functions).hasSizeGreaterThanOrEqualTo(100);
        assertThat(client().functions().get("power.battery"))
                .isEqualTo(functions.stream()
                        .filter(function -> function.id().equals("power.battery"))
                        .findFirst()
                        .orElseThrow());
        assertThat(client().functions().get("power.battery").din72552()).isEqualTo("30");
        assertThatExceptionOfType(NotFoundException.class)
                .isThrownBy(() -> client().functions().get("power.nothing"))
                .withMessageContaining("power.nothing")
                .satisfies(problem -> assertThat(problem.requestId()).isPresent());
    }

    @Test
    void checksTheExamplesOfEveryRule() {
        List<RuleSummary> rules = client().rules().list();

        assertThat(rules).hasSizeGreaterThanOrEqualTo(30);
        assertThat(rules).allSatisfy(summary -> {
            Rule rule = client().rules().get(summary.code());
            assertThat(rule.condition()).isEqualTo(summary.condition());
            assertThat(client().checks().check(rule.fails()).findingsOf(rule.code()))
                    .isNotEmpty();
            assertThat(client().checks().check(rule.passes()).findingsOf(rule.code()))
                    .isEmpty();
        });
        assertThatExceptionOfType(NotFoundException.class)
                .isThrownBy(() -> client().rules().get("wire-too-shy"));
    }

    @Test
    void keepsVehiclesInRevisions() {
        Vehicle created = client().vehicles().create(MAP);

        assertThat(created.revision()).isEqualTo(1);
        assertThat(created.latestRevision()).isEqualTo(1);
        assertThat(created.shared()).isFalse();
        assertThat(created.document()).isEqualTo(MAP);
        assertThat(client().vehicles().get(created.id())).isEqualTo(created);

        Document changed = map("Ondrake", "Called again");
        Vehicle added = client().vehicles().addRevision(created.id(), created.revision(), changed);

        assertThat(added.revision()).isEqualTo(2);
        assertThat(client().vehicles().get(created.id())).isEqualTo(added);
        Vehicle first = client().vehicles().getRevision(created.id(), 1);
        assertThat(first.document()).isEqualTo(MAP);
        assertThat(first.latestRevision()).isEqualTo(2);
        assertThat(client().vehicles().listRevisions(created.id()).stream().map(VehicleSummary::revision))
                .containsExactly(2, 1);
        assertThat(client()
                        .vehicles()
                        .listRevisions(created.id(), Paging.start().limit(1))
                        .stream()
                        .map(VehicleSummary::model))
                .containsExactly("Called again", "Called");
    }

    @Test
    void tellsWhatIsWrongWithAVehicle() {
        Vehicle created = client().vehicles().create(MAP);

        assertThatExceptionOfType(PreconditionFailedException.class)
                .isThrownBy(() -> client().vehicles().addRevision(created.id(), 2, MAP))
                .withMessageContaining("412 precondition-failed: ")
                .withMessageContaining("\"1\"");
        assertThatExceptionOfType(BadRequestException.class)
                .isThrownBy(() -> client().vehicles().create(Document.parse("""
                        {"circuits": {"C1-7": {"electrical": {"kind": "supply", "maxAmps": -1}}}, "wheels": 4}""")))
                .satisfies(problem -> assertThat(problem.errors())
                        .extracting(Problem.Fault::pointer)
                        .containsExactlyInAnyOrder("/circuits/C1-7/electrical/maxAmps", "/wheels"));
        UUID nowhere = new UUID(0, 0);
        assertThatExceptionOfType(NotFoundException.class)
                .isThrownBy(() -> client().vehicles().get(nowhere));
        assertThatExceptionOfType(NotFoundException.class)
                .isThrownBy(() -> client().vehicles().getRevision(created.id(), 2));
        assertThatExceptionOfType(NotFoundException.class)
                .isThrownBy(() -> client().vehicles().listRevisions(nowhere));
        assertThatExceptionOfType(NotFoundException.class)
                .isThrownBy(() -> client().vehicles().addRevision(nowhere, 1, MAP));
    }

    @Test
    void listsVehiclesPageByPage() {
        List<UUID> ids = IntStream.range(0, 5)
                .mapToObj(at -> client().vehicles()
                        .create(map("Pälzow & Söhne", "Model " + at))
                        .id())
                .toList();
        VehicleQuery query =
                VehicleQuery.all().maker("pälzow &").paging(Paging.start().limit(2));

        Page<VehicleSummary> first = client().vehicles().list(query);

        assertThat(first.items()).extracting(VehicleSummary::id).containsExactlyElementsOf(ids.subList(0, 2));
        assertThat(first.items().get(0).yearFrom()).isEqualTo(2020);
        assertThat(first.stream().map(VehicleSummary::id)).containsExactlyElementsOf(ids);
        assertThat(client()
                        .vehicles()
                        .list(query.paging(Paging.from(first.nextCursor().orElseThrow())))
                        .stream()
                        .map(VehicleSummary::id))
                .containsExactlyElementsOf(ids.subList(2, 5));
        assertThat(client().vehicles().list(query.model("model 3")).items())
                .extracting(VehicleSummary::id)
                .containsExactly(ids.get(3));
        assertThat(client().vehicles().list()).extracting(VehicleSummary::id).containsAll(ids);
        assertThatExceptionOfType(BadRequestException.class)
                .isThrownBy(() -> client().vehicles().list(query.paging(Paging.from("no cursor of theirs"))))
                .satisfies(problem ->
                        assertThat(problem.errors().get(0).parameter()).isEqualTo("cursor"));
    }

    @Test
    void keepsDevicesInRevisions() {
        Document lamp = lamp("CALLED-LAMP", "Ondrake");
        Device created = client().devices().create(lamp);

        assertThat(created.code()).isEqualTo("CALLED-LAMP");
        assertThat(created.document()).isEqualTo(lamp);
        assertThat(client().devices().get("CALLED-LAMP")).isEqualTo(created);

        Document changed = lamp("CALLED-LAMP", "Ondrake Second");
        Device added = client().devices().addRevision("CALLED-LAMP", 1, changed);

        assertThat(added.revision()).isEqualTo(2);
        assertThat(client().devices().getRevision("CALLED-LAMP", 1).document()).isEqualTo(lamp);
        assertThat(client()
                        .devices()
                        .listRevisions("CALLED-LAMP", Paging.start().limit(1))
                        .stream()
                        .map(DeviceSummary::maker))
                .containsExactly("Ondrake Second", "Ondrake");
        assertThat(client().devices()
                        .list(DeviceQuery.all().kind("called-lamp").maker("ondrake"))
                        .items())
                .extracting(DeviceSummary::code)
                .containsExactly("CALLED-LAMP");
        assertThat(client().devices().list()).extracting(DeviceSummary::code).contains("CALLED-LAMP");
    }

    @Test
    void tellsWhatIsWrongWithADevice() {
        client().devices().create(lamp("CALLED-TWICE", "Ondrake"));

        assertThatExceptionOfType(ConflictException.class)
                .isThrownBy(() -> client().devices().create(lamp("CALLED-TWICE", "Ondrake")))
                .withMessageContaining("CALLED-TWICE");
        assertThatExceptionOfType(PreconditionFailedException.class)
                .isThrownBy(() -> client().devices().addRevision("CALLED-TWICE", 2, lamp("CALLED-TWICE", "Ondrake")));
        assertThatExceptionOfType(BadRequestException.class)
                .isThrownBy(() -> client().devices().create(Document.parse("{}")))
                .satisfies(
                        problem -> assertThat(problem.errors().get(0).pointer()).isEqualTo("/code"));
        assertThatExceptionOfType(NotFoundException.class)
                .isThrownBy(() -> client().devices().get("CALLED-NEVER"));
        assertThatExceptionOfType(NotFoundException.class)
                .isThrownBy(() -> client().devices().getRevision("CALLED-TWICE", 2));
        assertThatExceptionOfType(NotFoundException.class)
                .isThrownBy(() -> client().devices().listRevisions("CALLED-NEVER"));
    }

    @Test
    void checksAHookupByReferenceAndInline() {
        UUID vehicle = client().vehicles().create(MAP).id();
        client().devices().create(lamp("CALLED-IN", "Ondrake"));
        Hookup hookup = Hookup.builder()
                .vehicle(vehicle)
                .unplug("C1")
                .part("L1", "CALLED-IN", 1)
                .part("L2", lamp("INLINE", "Ondrake"))
                .connect("W1", "CAR.C1-7", "L1.plus", Wire.of("16 AWG").withLength(Length.metres(1)))
                .connect("W2", "CAR.chassis", "L1.minus", Wire.of(ConductorSize.squareMillimetres(1.5)))
                .connect(
                        "W3",
                        "CAR.battery-plus",
                        "L2.plus",
                        Wire.of(ConductorSize.awg(16))
                                .madeOf(Material.TINNED_COPPER)
                                .insulated(105)
                                .withLength(Length.feet(10))
                                .fused(5, Length.inches(6)))
                .connect("W4", "CAR.battery-minus", "L2.minus", Wire.of("16 AWG"))
                .build();

        Report report = client().checks().check(hookup);

        assertThat(report.verdict()).isEqualTo(Verdict.READY);
        assertThat(report.isReady()).isTrue();
        assertThat(report.outcomes()).hasSizeGreaterThanOrEqualTo(30);
        assertThat(report.order())
                .extracting(Report.Step::connection)
                .containsExactlyInAnyOrder("W1", "W2", "W3", "W4");
        assertThat(report.cautions()).isNotEmpty();
        assertThat(report.revisions().vehicle()).isEqualTo(new Report.UsedVehicle(vehicle, 1, Map.of()));
        assertThat(report.revisions().devices())
                .containsOnly(Map.entry("L1", new Report.UsedDevice("CALLED-IN", 1, Map.of())));
    }

    @Test
    void tellsWhatACheckFound() {
        Hookup hookup = Hookup.builder()
                .vehicle(MAP)
                .part("L", lamp("INLINE", "Ondrake"))
                .connect("W1", "CAR.C1-7", "CAR.chassis", Wire.of("16 AWG"))
                .connect("W2", "CAR.C1-7", "L.plus")
                .unused("L.minus", Fate.CAPPED, "forgotten")
                .build();

        Report report = client().checks().check(hookup);

        assertThat(report.verdict()).isEqualTo(Verdict.NOT_READY);
        Report.Finding worst = report.findings().get(0);
        assertThat(worst.rule()).isEqualTo("supply-shorted-to-ground");
        assertThat(worst.severity()).isEqualTo(Severity.DANGER);
        assertThat(worst.connections()).contains("W1");
        assertThat(worst.help()).isNotBlank();
        assertThat(report.outcomes())
                .filteredOn(outcome -> outcome.rule().equals("supply-shorted-to-ground"))
                .extracting(Report.Outcome::outcome)
                .containsExactly(Result.FAILED);
    }

    @Test
    void tellsWhatIsWrongWithAHookup() {
        Hookup hookup = Hookup.builder()
                .vehicle(new UUID(0, 0))
                .part("A", "CALLED-NEVER")
                .connect("W1", "B.x", "CAR.chassis")
                .build();

        assertThatExceptionOfType(BadRequestException.class)
                .isThrownBy(() -> client().checks().check(hookup))
                .satisfies(problem -> {
                    assertThat(problem.code()).isEqualTo("bad-body");
                    assertThat(problem.errors())
                            .extracting(Problem.Fault::pointer, Problem.Fault::code)
                            .contains(
                                    tuple("/vehicle/id", "unknown-vehicle"),
                                    tuple("/parts/A/device", "unknown-device"),
                                    tuple("/connections/W1/ends/0", "unknown-part"));
                });
    }

    @Test
    void isLetInWithAKeyOnly() {
        Splicebook stranger = Splicebook.builder()
                .baseUrl(anonymousCalls().base())
                .key("not-a-key-of-this-service")
                .build();

        assertThatExceptionOfType(UnauthorizedException.class)
                .isThrownBy(() -> stranger.checks().check(Hookup.builder().build()))
                .satisfies(problem -> {
                    assertThat(problem.status()).isEqualTo(401);
                    assertThat(problem).hasMessageNotContaining("not-a-key-of-this-service");
                });
    }
}
