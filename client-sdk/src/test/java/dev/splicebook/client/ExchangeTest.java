package dev.splicebook.client;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.SequenceInputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicReference;
import java.util.concurrent.locks.LockSupport;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Spreadsheets, imports and exports: what is sent and read in pieces. */
class ExchangeTest {

    private static final UUID ID = UUID.fromString("5f0c6c1e-0d0e-4b6e-9a55-2a40cb1f3d10");
    private static final String VEHICLE = """
            {"id": "5f0c6c1e-0d0e-4b6e-9a55-2a40cb1f3d10", "revision": 3, "latestRevision": 3, "shared": false,
             "createdAt": "2026-11-25T10:00:00Z", "document": {"circuits": {}}}""";
    private static final String IMPORT = """
            {"id": "5f0c6c1e-0d0e-4b6e-9a55-2a40cb1f3d10", "state": "%s", "dryRun": false, "lines": 2, "vehicles": 1,
             "devices": 1, "circuits": 25, "unchanged": 1, "bytes": 4000, "startedAt": "2026-11-25T10:00:00Z",
             "endedAt": null, "errors": [], "faults": 0, "newer": 1}""";
    private static final String SHEET = "connector,pin,colour\nC1,7,GELB Ü\n";
    private static final Vehicle HELD = Json.MAPPER.readValue(VEHICLE, Vehicle.class);
    private static final VehicleDescription ABOUT = VehicleDescription.of("Corvane", "Tessick");

    @TempDir
    private Path folder;

    private final FakeService service = new FakeService();

    @AfterEach
    void closeService() {
        service.close();
    }

    private Spreadsheets spreadsheets() {
        return service.client().build().spreadsheets();
    }

    private Imports imports() {
        return service.client().build().imports();
    }

    private Exports exports() {
        return service.client().build().exports();
    }

    private static Entry device(int at) {
        return Entry.device(Document.parse("{\"code\": \"D" + at + "\"}"));
    }

    private static String line(int at) {
        return "{\"kind\":\"device\",\"document\":{\"code\":\"D" + at + "\"}}\n";
    }

    private static InputStream failingAfter(String beginning) {
        InputStream failing = new InputStream() {
            @Override
            public int read() throws IOException {
                throw new IOException("the disk is gone");
            }

            @Override
            public int read(byte[] bytes, int offset, int length) throws IOException {
                throw new IOException("the disk is gone");
            }
        };
        return new SequenceInputStream(new ByteArrayInputStream(beginning.getBytes(StandardCharsets.UTF_8)), failing);
    }

    @Test
    void sendsASpreadsheetFromAFileTextOrStream() throws IOException {
        Path file = Files.writeString(folder.resolve("sheet.csv"), SHEET);
        Stream.of(
                        Source.file(file),
                        Source.text(SHEET),
                        Source.stream(new ByteArrayInputStream(SHEET.getBytes(StandardCharsets.UTF_8))))
                .forEach(source -> {
                    service.answers(201, VEHICLE);
                    assertThat(spreadsheets().create(ABOUT, source).id()).isEqualTo(ID);
                });

        assertThat(service.requests()).hasSize(3).allSatisfy(request -> {
            assertThat(request.body()).isEqualTo(SHEET);
            assertThat(request.header("Content-type")).isEqualTo("text/csv");
        });
        assertThat(service.requests().get(0).header("Content-length")).isEqualTo("34");
    }

    @Test
    void sendsWhatIsSaidOfTheVehicle() {
        service.answers(201, VEHICLE);

        spreadsheets()
                .create(
                        ABOUT.modelYears(2019, 2023)
                                .market("EU")
                                .leftHandDrive()
                                .rightHandDrive()
                                .equipment("navigation")
                                .equipment("rear-entertainment")
                                .vinPattern("9BW?")
                                .vinPattern("9BX"),
                        Source.text(SHEET));

        assertThat(service.requests().get(0).path())
                .isEqualTo("/v1/spreadsheets?maker=Corvane&model=Tessick&modelYearFrom=2019&modelYearTo=2023&market=EU"
                        + "&steeringSide=right&equipment=navigation&equipment=rear-entertainment&vinPattern=9BW%3F"
                        + "&vinPattern=9BX");
    }

    @Test
    void replacesOnlyWhatIsHeld() {
        service.answers(201, VEHICLE);

        spreadsheets().replace(HELD, Source.text(SHEET));

        assertThat(service.requests().get(0).header("If-match")).isEqualTo("\"3\"");
    }

    @Test
    void tellsTheFaultsOfASpreadsheetByLineAndColumn() {
        service.answers(400, """
                {"type": "/problems/bad-body", "title": "t", "status": 400, "detail": "the spreadsheet has 2 faults",
                 "errors": [{"pointer": "/circuits/C1-7/colour", "code": "bad-colour", "detail": "GELB is no colour; YE is",
                             "line": 2, "column": 3, "columnName": "colour", "sheet": "1"},
                            {"pointer": "", "code": "unclosed-quote", "detail": "the quote is not closed", "line": 9}],
                 "requestId": "r-7"}""");

        assertThatExceptionOfType(BadRequestException.class)
                .isThrownBy(() -> spreadsheets().create(ABOUT, Source.text(SHEET)))
                .withMessageContaining("; line 2, column 3 (colour), /circuits/C1-7/colour: GELB is no colour; YE is")
                .withMessageContaining("; line 9: the quote is not closed")
                .satisfies(problem -> {
                    Problem.Fault fault = problem.errors().get(0);
                    assertThat(fault.line()).isEqualTo(2);
                    assertThat(fault.column()).isEqualTo(3);
                    assertThat(fault.columnName()).isEqualTo("colour");
                    assertThat(fault.more()).containsOnlyKeys("sheet");
                    assertThat(problem.problem().more()).containsOnlyKeys("title", "status");
                });
    }

    @Test
    void exportsASpreadsheetToTextFileAndStream() throws IOException {
        service.answers(200, SHEET).answers(200, SHEET).answers(200, SHEET);
        Path file = Files.writeString(folder.resolve("sheet.csv"), "what was there before");
        ByteArrayOutputStream stream = new ByteArrayOutputStream();

        assertThat(spreadsheets().export(ID)).isEqualTo(SHEET);
        spreadsheets().export(ID, file);
        spreadsheets().export(ID, stream);

        assertThat(file).hasContent(SHEET);
        assertThat(stream.toString(StandardCharsets.UTF_8)).isEqualTo(SHEET);
        assertThat(service.requests())
                .allSatisfy(request ->
                        assertThat(request.header("Accept")).isEqualTo("text/csv, application/problem+json"));
    }

    @Test
    void leavesAFileAsItWasIfTheAnswerBreaksOff() throws IOException {
        Path file = Files.writeString(folder.resolve("sheet.csv"), "what was there before");
        service.breaksOffWithin(SHEET).breaksOffWithin(SHEET).breaksOffWithin(SHEET);

        assertThatExceptionOfType(ConnectionException.class)
                .isThrownBy(() -> spreadsheets().export(ID, file))
                .withMessageContaining("was not answered: ");

        assertThat(file).hasContent("what was there before");
        assertThat(folder).isDirectoryContaining(path -> path.equals(file));
        assertThat(folder.toFile().list()).hasSize(1);
    }

    @Test
    void saysThatAFileCannotBeWritten() {
        service.answers(200, SHEET);

        assertThatExceptionOfType(NoSuchFileException.class)
                .isThrownBy(() ->
                        spreadsheets().export(ID, folder.resolve("nowhere").resolve("sheet.csv")));

        assertThat(service.requests()).hasSize(1);
    }

    @Test
    void saysThatAFileCannotBeRead() {
        assertThatExceptionOfType(UncheckedIOException.class)
                .isThrownBy(() -> imports().run(ID, folder.resolve("nowhere.ndjson")))
                .withCauseInstanceOf(NoSuchFileException.class);

        assertThat(service.requests()).isEmpty();
    }

    @Test
    void sendsAnEmptyFile() throws IOException {
        service.answers(200, IMPORT.formatted("done"));

        imports().run(ID, Files.createFile(folder.resolve("empty.ndjson")));

        assertThat(service.requests().get(0).body()).isEmpty();
    }

    /** A body that ends where reading failed would be taken for a whole one, and half of a book imported. */
    @Test
    void neverSendsTheBeginningOfASourceAsIfItWereTheWhole() {
        assertThatExceptionOfType(UncheckedIOException.class)
                .isThrownBy(() -> imports().run(ID, Source.stream(failingAfter(line(1).repeat(10_000)))))
                .withStackTraceContaining("the disk is gone");

        awaitUnfinishedRequest();
        assertThat(service.requests()).isEmpty();
        assertThat(service.waits()).isEmpty();
    }

    @Test
    void passesOnWhatTheEntriesEndWith() {
        Stream<Entry> entries = IntStream.range(0, 50_000).mapToObj(at -> {
            if (at == 40_000) {
                throw new IllegalStateException("no entry " + at);
            }
            return device(at);
        });

        assertThatExceptionOfType(IllegalStateException.class)
                .isThrownBy(() -> imports().run(ID, Source.entries(entries)))
                .withMessage("no entry 40000");

        awaitUnfinishedRequest();
        assertThat(service.requests()).isEmpty();
    }

    private void awaitUnfinishedRequest() {
        long until = System.nanoTime() + Duration.ofSeconds(10).toNanos();
        while (service.unfinishedRequests() == 0 && System.nanoTime() < until) {
            LockSupport.parkNanos(1_000_000);
        }
        assertThat(service.unfinishedRequests()).isEqualTo(1);
    }

    @Test
    void sendsEntriesOneByOne() {
        service.answers(200, IMPORT.formatted("done"));
        Entry vehicle = Entry.vehicle(ID, Document.parse("{\"circuits\": {}}")).expecting(3);

        Import done =
                imports().run(ID, Source.entries(Stream.of(vehicle, Entry.vehicle(Document.parse("{}")), device(1))));

        FakeService.Request request = service.requests().get(0);
        assertThat(request.header("Content-type")).isEqualTo("application/x-ndjson");
        assertThat(request.body())
                .isEqualTo("{\"kind\":\"vehicle\",\"id\":\"" + ID + "\",\"revision\":3,"
                        + "\"document\":{\"circuits\":{}}}\n{\"kind\":\"vehicle\",\"document\":{}}\n" + line(1));
        assertThat(done.state()).isEqualTo(ImportState.DONE);
        assertThat(done.circuits()).isEqualTo(25);
        assertThat(done.endedAt()).isNull();
        assertThat(done.more()).containsOnlyKeys("newer");
    }

    @Test
    void sendsAnImportAgainIfItsSourceCanBeReadAgain() {
        service.breaksTheConnection().answers(200, IMPORT.formatted("done"));

        imports().run(ID, Source.entries(List.of(device(1), device(2))));

        assertThat(service.requests())
                .hasSize(2)
                .allSatisfy(request -> assertThat(request.body()).isEqualTo(line(1) + line(2)));
    }

    @Test
    void sendsAnImportOnceIfItsSourceIsGone() {
        service.breaksTheConnection().breaksTheConnection();

        assertThatExceptionOfType(ConnectionException.class)
                .isThrownBy(() -> imports().run(ID, Source.entries(Stream.of(device(1)))));
        assertThatExceptionOfType(ConnectionException.class)
                .isThrownBy(() -> imports().run(ID, Source.stream(new ByteArrayInputStream(new byte[] {'\n'}))));

        assertThat(service.requests()).hasSize(2);
        assertThat(service.waits()).isEmpty();
    }

    @Test
    void readsHowFarAnImportIs() {
        service.answers(200, IMPORT.formatted("running")).answers(200, """
                {"items": [%s], "next": null}""".formatted(IMPORT.formatted("paused")));

        assertThat(imports().get(ID).isRunning()).isTrue();
        assertThat(imports().list(Paging.start().limit(1)).items())
                .extracting(Import::state)
                .containsExactly(new ImportState("paused"));
    }

    @Test
    void tellsTheFaultsOfAnImportByLineAndPointer() {
        service.answers(400, """
                {"type": "/problems/bad-body", "detail": "2 lines have faults", "errors": [
                   {"line": 3, "pointer": "/document/code", "code": "missing", "detail": "code is missing"},
                   {"line": 7, "pointer": "", "code": "malformed-json", "detail": "the line ends early"}]}""");

        assertThatExceptionOfType(BadRequestException.class)
                .isThrownBy(() -> imports().run(ID, Source.text("{}\n")))
                .withMessageContaining("line 3, /document/code: code is missing; line 7: the line ends early");
    }

    @Test
    void readsAnExportWhileItComes() {
        String rest = IntStream.range(2, 3000).mapToObj(ExchangeTest::line).reduce("", String::concat);
        service.stallsWithin(line(0) + line(1) + " ".repeat(rest.length()) + rest);

        try (Stream<Entry> entries = exports().stream(ExportQuery.all().vehicles())) {
            Iterator<Entry> walk = entries.iterator();

            assertThat(walk.next()).isEqualTo(device(0));
            assertThat(walk.next()).isEqualTo(device(1));
        }
        assertThat(service.requests().get(0).path()).isEqualTo("/v1/export?what=vehicles");
        assertThat(service.requests().get(0).header("Accept"))
                .isEqualTo("application/x-ndjson, application/problem+json");
    }

    @Test
    void readsAnExportToItsEnd() {
        String lines = IntStream.range(0, 5000).mapToObj(ExchangeTest::line).reduce("", String::concat);
        service.answers(200, lines + "\n").answers(200, "");

        try (Stream<Entry> entries = exports().stream(ExportQuery.all())) {
            assertThat(entries).hasSize(5000).endsWith(device(4999));
        }
        try (Stream<Entry> entries = exports().stream(ExportQuery.all())) {
            assertThat(entries).isEmpty();
        }
    }

    @Test
    void endsAnExportThatBreaksOffWithAnException() {
        service.breaksOffWithin(line(1).repeat(2));

        try (Stream<Entry> entries = exports().stream(ExportQuery.all())) {
            Iterator<Entry> walk = entries.iterator();
            assertThat(walk.next()).isEqualTo(device(1));
            assertThatExceptionOfType(ConnectionException.class)
                    .isThrownBy(walk::hasNext)
                    .withMessageStartingWith("GET /v1/export was not answered to the end: ");
        }
        assertThat(service.requests()).hasSize(1);
    }

    @Test
    void waitsForEachPieceOfAnExportNoLongerThanItMay() {
        service.stallsWithin(line(1).repeat(2));

        try (Stream<Entry> entries =
                service.client().timeout(Duration.ofMillis(300)).build().exports().stream(ExportQuery.all())) {
            Iterator<Entry> walk = entries.iterator();
            walk.next();
            assertThatExceptionOfType(ConnectionException.class)
                    .isThrownBy(walk::hasNext)
                    .withMessage("GET /v1/export was not answered within 300 ms");
        }
    }

    @Test
    void saysThatALineOfAnExportCannotBeRead() {
        service.answers(200, line(1) + "{\"kind\": \"device\"}\n").answers(200, "<html>");

        try (Stream<Entry> entries = exports().stream(ExportQuery.all())) {
            assertThatExceptionOfType(SplicebookException.class)
                    .isThrownBy(() -> entries.forEach(entry -> {}))
                    .withMessageStartingWith("GET /v1/export was answered with 200 and a body that cannot be read: ")
                    .withMessageContaining("document is missing");
        }
        try (Stream<Entry> entries = exports().stream(ExportQuery.all())) {
            assertThatExceptionOfType(SplicebookException.class).isThrownBy(() -> entries.forEach(entry -> {}));
        }
    }

    @Test
    void savesAnExport() throws IOException {
        String lines = line(1).repeat(50_000);
        service.breaksOffWithin(lines).answers(200, lines);
        Path file = folder.resolve("export.ndjson");

        exports().save(ExportQuery.all(), file);

        assertThat(file).hasContent(lines);
        assertThat(folder.toFile().list()).containsExactly("export.ndjson");
        assertThat(service.waits()).hasSize(1);
    }

    @Test
    void stopsReadingWhenItsThreadIsInterrupted() throws Exception {
        service.stallsWithin(line(1).repeat(2));
        AtomicReference<Throwable> end = new AtomicReference<>();
        AtomicBoolean interrupted = new AtomicBoolean();
        Thread reader = new Thread(() -> {
            try (Stream<Entry> entries = exports().stream(ExportQuery.all())) {
                Iterator<Entry> walk = entries.iterator();
                walk.next();
                Thread.currentThread().interrupt();
                end.set(catchThrowableOfType(ConnectionException.class, walk::hasNext));
                interrupted.set(Thread.interrupted());
            }
        });
        reader.start();
        reader.join();

        assertThat(end.get()).hasMessage("GET /v1/export was interrupted");
        assertThat(interrupted).isTrue();
    }

    @Test
    void passesOnAProblemBeforeAnythingIsRead() {
        service.answersProblem(401, "unauthorized", Map.of());

        assertThatExceptionOfType(UnauthorizedException.class).isThrownBy(() -> exports().stream(ExportQuery.all()));
    }
}
