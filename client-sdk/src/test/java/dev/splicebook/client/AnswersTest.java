package dev.splicebook.client;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.UUID;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;

/** What a newer service may answer, and an older client reads all the same. */
class AnswersTest {

    private static final String IMPORT = """
            {"id": "5f0c6c1e-0d0e-4b6e-9a55-2a40cb1f3d10", "state": "done", "dryRun": false, "lines": 2, "vehicles": 1,
             "devices": 1, "circuits": 25, "unchanged": 0, "bytes": 4000, "startedAt": "2026-11-25T10:00:00Z", "faults": 0}""";

    private final FakeService service = new FakeService();

    @AfterEach
    void closeService() {
        service.close();
    }

    @Test
    void readsAReportWithValuesAndFieldsThatAreNew() {
        service.answers(200, """
                {"verdict": "ready-after-rest", "newer": [12.60, null],
                 "meterFirst": [{"terminal": "CAR.C1-7", "facts": ["maxAmps"], "rules": ["supply-overloaded"]},
                   {"terminal": "CAR.C1-4", "facts": [], "rules": [], "test": "t", "volts": 12}],
                 "findings": [{"rule": "wire-too-shy", "severity": "curiosity", "message": "m", "help": "h",
                   "terminals": ["A.x"], "connections": ["W1"], "measured": 68.0, "limit": 60, "unit": "A",
                   "states": ["towed"], "weather": "wet", "fingerprint": "f", "remedies": [{"what": "Cap A.x.",
                     "patch": [{"op": "add", "path": "/unused/A.x", "value": {"as": "capped"}},
                               {"op": "remove", "path": "/connections/W1"}],
                     "adds": [{"part": "REL", "device": "REL-30D", "what": "relay", "watts": 2}], "removes": ["f"]}]}],
                 "waived": [{"finding": {"rule": "wish-unmet", "severity": "warning", "message": "m", "help": "h",
                     "fingerprint": "09af5c3de81b7246"},
                   "waiver": {"fingerprint": "09af5c3de81b7246", "author": "a", "reason": "r", "expiresOn": "2027-01-31"}}],
                 "lapsedWaivers": [{"waiver": {"fingerprint": "19af5c3de81b7246", "author": "a", "reason": "r"},
                   "why": "forgotten"}],
                 "stored": {"id": "5f0c6c1e-0d0e-4b6e-9a55-2a40cb1f3d10", "revision": 3,
                   "checkedAt": "2026-11-25T10:00:00Z"},
                 "remediesBound": "ended after 60 checks",
                 "fix": {"ready": true, "what": ["Cap A.x."], "patch": [], "adds": [], "checks": 7,
                         "report": {"verdict": "ready"}},
                 "outcomes": [{"rule": "wire-too-shy", "severity": "curiosity", "outcome": "pondered"},
                   {"rule": "house-fuse", "severity": "note", "outcome": "not-checked", "error": "/ by zero"}],
                 "order": [{"connection": "W1", "ends": ["A.x", "B.y"], "why": "first"}],
                 "power": {"leftOut": ["connection W3.length"], "cases": [{"states": ["running", "towed"], "conditions": ["reverse"],
                   "typicalVolts": 14.2, "worstVolts": 14.2,
                   "loads": [{"terminal": "A.x", "typicalVolts": 14.1, "worstVolts": 13.9, "worstAmps": 42}],
                   "conductors": [{"connection": "W1", "typicalAmps": 8, "typicalLossWatts": 0.1, "worstAmps": 42,
                                   "worstLossWatts": 3, "worstCelsius": 35, "ohms": 0.001}],
                   "fuses": [{"at": ["W1"], "ratingAmps": 60, "typicalAmps": 8, "worstAmps": 42}],
                   "grounds": [{"part": "A", "worstVolts": 0.02}, {"part": "B", "worstVolts": 0}],
                   "largestOffset": {"parts": ["B", "A"], "worstVolts": 0.02}}]},
                 "speakerLoads": [{"output": ["AMP.plus", "AMP.minus"], "ohms": 4.0, "minOhms": 2.0, "heard": true,
                   "coils": [{"terminals": ["SUB.plus", "SUB.minus"], "ratedOhms": 4, "watts": 250,
                     "polarity": "sideways"}]}],
                 "assumptions": [{"name": "insulationCelsius", "value": 105, "unit": "°C", "about": "a"}],
                 "cautions": ["c"],
                 "revisions": {"vehicle": {"id": "5f0c6c1e-0d0e-4b6e-9a55-2a40cb1f3d10", "revision": 2},
                               "devices": {"HU": {"id": "HU-A", "revision": 1}}}}""");

        Report report = service.client().build().checks().check(Hookup.builder().build());

        assertThat(report.verdict()).isEqualTo(new Verdict("ready-after-rest"));
        assertThat(report.isReady()).isFalse();
        assertThat(report.more()).containsOnlyKeys("newer");
        assertThat(report.more().get("newer")).hasToString("[12.60,null]");
        assertThat(report.meterFirst()).extracting(Report.Reading::terminal).containsExactly("CAR.C1-7", "CAR.C1-4");
        assertThat(report.meterFirst().get(0).facts()).containsExactly("maxAmps");
        assertThat(report.meterFirst().get(0).rules()).containsExactly("supply-overloaded");
        assertThat(report.meterFirst().get(0).test()).isNull();
        assertThat(report.meterFirst().get(1).test()).isEqualTo("t");
        assertThat(report.meterFirst().get(1).more()).containsOnlyKeys("volts");
        assertThat(report.speakerLoads()).hasSize(1).first().satisfies(load -> {
            assertThat(load.output()).containsExactly("AMP.plus", "AMP.minus");
            assertThat(load.ohms()).isEqualTo(4);
            assertThat(load.maxVolts()).isNull();
            assertThat(load.states()).isEmpty();
            assertThat(load.more()).containsOnlyKeys("heard");
            assertThat(load.coils()).hasSize(1).first().satisfies(coil -> {
                assertThat(coil.watts()).isEqualTo(250);
                assertThat(coil.amps()).isNull();
                assertThat(coil.polarity()).isEqualTo(new Polarity("sideways"));
            });
        });
        assertThat(report.findingsOf("wire-too-shy")).hasSize(1).first().satisfies(finding -> {
            assertThat(finding.severity()).isEqualTo(new Severity("curiosity"));
            assertThat(finding.measured()).isEqualTo(68);
            assertThat(finding.limit()).isEqualTo(60);
            assertThat(finding.states()).containsExactly(new State("towed"));
            assertThat(finding.more()).containsOnlyKeys("weather");
            assertThat(finding.remedies()).hasSize(1).first().satisfies(remedy -> {
                assertThat(remedy.what()).isEqualTo("Cap A.x.");
                assertThat(remedy.patch().get(0).value()).hasToString("{\"as\":\"capped\"}");
                assertThat(remedy.patch().get(1))
                        .isEqualTo(new Report.Operation("remove", "/connections/W1", null, Map.of()));
                assertThat(remedy.adds().get(0).device()).isEqualTo("REL-30D");
                assertThat(remedy.adds().get(0).connection()).isNull();
                assertThat(remedy.adds().get(0).more()).containsOnlyKeys("watts");
                assertThat(remedy.removes()).containsExactly("f");
            });
        });
        assertThat(report.remediesBound()).isEqualTo("ended after 60 checks");
        assertThat(report.fix()).isNotNull().satisfies(fix -> {
            assertThat(fix.ready()).isTrue();
            assertThat(fix.what()).containsExactly("Cap A.x.");
            assertThat(fix.checks()).isEqualTo(7);
            assertThat(fix.bound()).isNull();
            assertThat(fix.report().verdict()).isEqualTo(Verdict.READY);
        });
        assertThat(report.findingsOf("returns-tied")).isEmpty();
        assertThat(report.outcomes().get(0).outcome()).hasToString("pondered");
        assertThat(report.outcomes().get(0).missing()).isEmpty();
        assertThat(report.outcomes().get(0).error()).isNull();
        assertThat(report.outcomes().get(1).error()).isEqualTo("/ by zero");
        assertThat(report.waived().get(0).waiver())
                .isEqualTo(Waiver.of("09af5c3de81b7246", "a", "r").until(LocalDate.of(2027, 1, 31)));
        assertThat(report.waived().get(0).finding().rule()).isEqualTo("wish-unmet");
        assertThat(report.lapsedWaivers().get(0).why()).isEqualTo(new LapseReason("forgotten"));
        assertThat(report.stored()).extracting(Report.Stored::revision).isEqualTo(3);
        assertThat(report.order().get(0).ends()).containsExactly("A.x", "B.y");
        Report.Power solved = Objects.requireNonNull(report.power());
        Report.PowerCase power = solved.cases().get(0);
        assertThat(solved.leftOut()).containsExactly("connection W3.length");
        assertThat(power.states()).containsExactly(State.RUNNING, new State("towed"));
        assertThat(power.loads().get(0).typicalAmps()).isNull();
        assertThat(power.loads().get(0).worstVolts()).isEqualTo(13.9);
        assertThat(power.conductors().get(0).more()).containsOnlyKeys("ohms");
        assertThat(power.fuses().get(0).at()).containsExactly("W1");
        assertThat(power.grounds()).extracting(Report.GroundOffset::part).containsExactly("A", "B");
        assertThat(power.largestOffset()).isEqualTo(new Report.OffsetBetween(List.of("B", "A"), 0.02, Map.of()));
        assertThat(report.assumptions().get(0).value()).isEqualTo(105);
        assertThat(report.revisions().vehicle())
                .isEqualTo(
                        new Report.UsedVehicle(UUID.fromString("5f0c6c1e-0d0e-4b6e-9a55-2a40cb1f3d10"), 2, Map.of()));
        assertThat(report.revisions().devices()).containsEntry("HU", new Report.UsedDevice("HU-A", 1, Map.of()));
    }

    @Test
    void readsAPairingAndSendsWhatItStartsFrom() {
        service.answers(200, """
                {"hookup": {"parts": {"HU": {"device": "HU-A"}}}, "cost": 61.5, "newer": true,
                 "report": {"verdict": "ready", "revisions": {"devices": {}}},
                 "choices": [{"terminals": ["HU.memory"], "to": ["CAR.C1-1"], "through": [], "why": "w", "against": "a"}],
                 "settingsToMake": [{"part": "IFC", "setting": "maker", "choices": {"1": "Hexhollow"}, "required": true}],
                 "gaveUp": [{"wish": {"function": "audio.line.auxiliary", "want": "keep"}, "why": "w", "instead": "i"}],
                 "added": ["ISO1"],
                 "alternatives": [{"differs": ["d"], "hookup": {}, "verdict": "ready-with-cautions", "cost": 70}],
                 "assumptions": [{"name": "tapLength", "value": 1.5, "unit": "m", "about": "a"}]}""");
        Hookup start = Hookup.builder()
                .part("HU", "HU-A")
                .connect("W1", "CAR.C1-1", "HU.memory")
                .keep("audio.line.auxiliary")
                .build();
        PairingQuestion question = PairingQuestion.of(start)
                .preferring(new PairingQuestion.Preferences(
                        new Wire.Conductor(new ConductorSize("16 AWG"), null, null), null, Length.metres(2), null, 1));

        Pairing pairing = service.client().build().pairings().propose(question);

        assertThat(question.json().propertyNames()).containsExactlyInAnyOrder("parts", "wishes", "preferences");
        assertThat(question.json().at("/preferences/leastConductor/size").asString())
                .isEqualTo("16 AWG");
        assertThat(pairing.hookup().json().at("/parts/HU/device").asString()).isEqualTo("HU-A");
        assertThat(pairing.report().isReady()).isTrue();
        assertThat(pairing.cost()).isEqualTo(61.5);
        assertThat(pairing.choices().get(0).to()).containsExactly("CAR.C1-1");
        assertThat(pairing.settingsToMake().get(0).value()).isNull();
        assertThat(pairing.gaveUp().get(0).wish().want()).isEqualTo(Want.KEEP);
        assertThat(pairing.added()).containsExactly("ISO1");
        assertThat(pairing.alternatives().get(0).verdict()).isEqualTo(Verdict.READY_WITH_CAUTIONS);
        assertThat(pairing.assumptions().get(0).value()).isEqualTo(1.5);
        assertThat(pairing.more()).containsOnlyKeys("newer");
    }

    @Test
    void givesADocumentBackAsItCame() {
        service.answers(200, """
                {"code": "REL", "revision": 1, "latestRevision": 2, "shared": true, "createdAt": "2026-11-25T10:00:00Z",
                 "document": {"code": "REL", "newer": {"maxAmps": 12.60, "grams": 1e3}}}""");

        Device device = service.client().build().devices().get("REL");

        assertThat(device.document().json().at("/newer/maxAmps").decimalValue()).isEqualByComparingTo("12.6");
        assertThat(device.document().toString()).contains("\"maxAmps\":12.60");
    }

    @Test
    void keepsADocumentFromBeingChangedThroughItsTree() {
        Document document = Document.parse("{\"a\": 1}");

        document.json().put("a", 2);

        assertThat(document).isEqualTo(Document.parse("{\"a\":1}")).hasSameHashCodeAs(Document.parse("{\"a\":1}"));
    }

    @Test
    void takesDocumentsForEqualThatSayTheSame() {
        assertThat(Document.parse("{\"a\": 12.60, \"b\": [1, null, \"x\"]}"))
                .isEqualTo(Document.parse("{\"b\": [1.0, null, \"x\"], \"a\": 12.6}"))
                .hasSameHashCodeAs(Document.parse("{\"b\": [1.0, null, \"x\"], \"a\": 12.6}"))
                .isNotEqualTo(Document.parse("{\"a\": 12.61, \"b\": [1, null, \"x\"]}"))
                .isNotEqualTo(Document.parse("{\"a\": \"12.6\", \"b\": [1, null, \"x\"]}"));
    }

    @Test
    void sendsAnEntryWithFieldsThatAreNewAsItCame() {
        String line = """
                {"kind":"wheel","revision":3,"document":{"inches":15.50},"newer":{"grams":1.0,"none":null}}""";
        service.answers(200, line).answers(200, IMPORT);
        Splicebook client = service.client().build();

        List<Entry> entries;
        try (Stream<Entry> stream = client.exports().stream(ExportQuery.all())) {
            entries = stream.toList();
        }
        client.imports().run(UUID.fromString("5f0c6c1e-0d0e-4b6e-9a55-2a40cb1f3d10"), Source.entries(entries));

        assertThat(entries).hasSize(1).first().satisfies(entry -> {
            assertThat(entry.kind()).isEqualTo(new EntryKind("wheel"));
            assertThat(entry.more()).containsOnlyKeys("newer");
        });
        assertThat(service.requests().get(1).body()).isEqualTo(line + "\n");
    }

    @Test
    void readsARulesPageWhoseExamplesCanBeChecked() {
        service.answers(200, """
                {"code": "returns-tied", "severity": "error", "since": "0.1", "condition": "c", "checks": "k", "why": "w",
                 "mend": "m", "source": "s", "parameters": [{"name": "n", "value": 0.75, "unit": "", "reason": "r", "least": 0.25, "most": 1}],
                 "fails": {"parts": {}}, "passes": {}}""");

        Rule rule = service.client().build().rules().get("returns-tied");

        assertThat(rule.parameters()).containsExactly(new Rule.Parameter("n", 0.75, "", "r", 0.25, 1, Map.of()));
        assertThat(rule.fails()).isEqualTo(Hookup.parse("{\"parts\": {}}"));
    }

    @Test
    void listsFunctionsAndRulesWhole() {
        service.answers(200, """
                        {"items": [{"id": "power.battery", "kind": "power", "what": "w", "test": "t", "leadColour": "YE",
                                    "din72552": "30", "fedBy": ["power.start"]}], "next": null}""").answers(200, """
                        {"items": [{"code": "returns-tied", "severity": "error", "since": "0.1", "condition": "c"}]}""");
        Splicebook client = service.client().build();

        assertThat(client.functions().list()).hasSize(1).first().satisfies(function -> {
            assertThat(function.leadColour()).isEqualTo("YE");
            assertThat(function.fedBy()).containsExactly("power.start");
        });
        assertThat(client.rules().list())
                .containsExactly(new RuleSummary("returns-tied", Severity.ERROR, "0.1", "c", Map.of()));
    }

    @Test
    void saysWhichFieldAnAnswerLacks() {
        service.answers(200, "{\"code\": \"returns-tied\"}");

        assertThatExceptionOfType(SplicebookException.class)
                .isThrownBy(() -> service.client().build().rules().get("returns-tied"))
                .withMessageContaining("severity is missing");
    }
}
