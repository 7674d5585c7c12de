package dev.splicebook.check.web;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.DemoFiles;
import dev.splicebook.testing.Calls;
import dev.splicebook.testing.ServiceIntegrationTest;
import dev.splicebook.testing.TestDatabase;
import dev.splicebook.web.StrictReader;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.DisabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import tools.jackson.databind.JsonNode;

/** The examples run as they stand, from a folder of no meaning, against the running service. */
@DisabledOnOs(value = OS.WINDOWS, disabledReason = "the examples are POSIX shell scripts")
class ApiExamplesIntegrationTest extends ServiceIntegrationTest {

    private static final int MOST_SECONDS = 60;

    /** Their output is no single answer. */
    private static final List<String> SEVERAL_CALLS =
            List.of("spreadsheet/04-export.sh", "bulk/04-export.sh", "calculations/02-calculate.sh", "jobs/01-keep.sh");

    private record Ran(int exitCode, List<String> lines) {

        /** What follows the two lines that say what was done. */
        JsonNode answer() {
            String json = String.join("\n", lines.subList(2, lines.size()));
            return StrictReader.parse(json.getBytes(StandardCharsets.UTF_8));
        }
    }

    static Stream<String> scripts() throws IOException {
        Path examples = DemoFiles.examples();
        try (Stream<Path> files = Files.walk(examples)) {
            return files
                    .filter(file -> file.getFileName().toString().matches("[0-9]+-.*\\.sh"))
                    .map(file -> examples.relativize(file).toString())
                    .sorted()
                    .toList()
                    .stream();
        }
    }

    @ParameterizedTest
    @MethodSource("scripts")
    void succeeds(String script) throws IOException, InterruptedException {
        Ran ran = run(script, TestDatabase.key());

        assertThat(ran.exitCode()).as(String.join("\n", ran.lines())).isZero();
        assertThat(ran.lines().get(0)).startsWith("# ");
        if (!SEVERAL_CALLS.contains(script)) {
            assertThat(ran.answer().isObject()).isTrue();
        }
    }

    @Test
    void mendsASpreadsheetAndTakesItOutAgain() throws IOException, InterruptedException {
        JsonNode refused = run("spreadsheet/01-faulty.sh", TestDatabase.key()).answer();
        JsonNode created = run("spreadsheet/02-mended.sh", TestDatabase.key()).answer();
        JsonNode found = run("spreadsheet/03-by-vin.sh", TestDatabase.key()).answer();
        Ran exported = run("spreadsheet/04-export.sh", TestDatabase.key());

        assertThat(refused.path("errors").size()).isEqualTo(1);
        assertThat(refused.at("/errors/0/detail").asString())
                .contains("line 20, column 4 (colour)", "PK stands for pink");
        assertThat(created.at("/document/circuits").size()).isEqualTo(25);
        assertThat(found.path("items")
                        .valueStream()
                        .map(item -> item.path("model").asString()))
                .contains("Hauler");
        assertThat(exported.lines().stream().filter(line -> line.startsWith("C1,")))
                .hasSize(25);
    }

    @Test
    void findsAVehicleByVinAndAFunctionAcrossVehicles() throws IOException, InterruptedException {
        JsonNode byVin = run("book/07-by-vin.sh", TestDatabase.key()).answer();
        JsonNode reverse = run("book/09-across-vehicles.sh", TestDatabase.key()).answer();
        JsonNode fitting = run("book/10-what-fits.sh", TestDatabase.key()).answer();

        assertThat(byVin.at("/items/0/model").asString()).isEqualTo("Tessick");
        assertThat(byVin.at("/vin/modelYears/0").asInt()).isEqualTo(2021);
        assertThat(reverse.path("items")
                        .valueStream()
                        .map(item -> item.path("vehicle").asString())
                        .distinct())
                .hasSizeGreaterThanOrEqualTo(4);
        assertThat(fitting.path("items")
                        .valueStream()
                        .map(item -> item.path("code").asString()))
                .containsExactly("HAR-T1", "IFC-T7");
    }

    @Test
    void importsAFileOnceAndTakesItOutAgain() throws IOException, InterruptedException {
        JsonNode tried = run("bulk/01-try.sh", TestDatabase.key()).answer();
        JsonNode imported = run("bulk/02-import.sh", TestDatabase.key()).answer();
        JsonNode again = run("bulk/02-import.sh", TestDatabase.key()).answer();
        Ran exported = run("bulk/04-export.sh", TestDatabase.key());

        assertThat(tried.path("dryRun").asBoolean()).isTrue();
        assertThat(imported.path("state").asString()).isEqualTo("done");
        assertThat(imported.path("lines").asInt()).isEqualTo(2);
        assertThat(again).isEqualTo(imported);
        assertThat(exported.lines()).anyMatch(line -> line.contains("FUSE-5"));
    }

    @Test
    void keepsAJobAndTellsWhatARevisionMended() throws IOException, InterruptedException {
        List<String> lines = run("jobs/01-keep.sh", TestDatabase.key()).lines();
        JsonNode report = StrictReader.parse(after(lines, "# Its report").getBytes(StandardCharsets.UTF_8));
        JsonNode changes = StrictReader.parse(after(lines, "# What that mended").getBytes(StandardCharsets.UTF_8));

        assertThat(report.path("verdict").asString()).isEqualTo("not-ready");
        assertThat(changes.path("gone").size())
                .isEqualTo(report.path("findings").size());
        assertThat(changes.path("appeared").size()).isZero();
    }

    /** The answer of one of several calls. */
    private static String after(List<String> lines, String what) {
        return lines.get(lines.indexOf(what) + 2);
    }

    @Test
    void calculatesWhateverQuestionThereIs() throws IOException, InterruptedException {
        List<String> questions;
        try (Stream<Path> files = Files.list(DemoFiles.examples().resolve("calculations"))) {
            questions = files.map(file -> file.getFileName().toString())
                    .filter(file -> file.endsWith(".json"))
                    .sorted()
                    .toList();
        }
        Ran ran = run("calculations/02-calculate.sh", TestDatabase.key());

        assertThat(questions).isNotEmpty();
        assertThat(ran.lines().stream().filter(line -> line.startsWith("# The question ")))
                .hasSameSizeAs(questions);
        assertThat(ran.lines().stream().filter(line -> line.contains("\"working\":[{")))
                .hasSameSizeAs(questions);
    }

    @ParameterizedTest
    @CsvSource({
        "rear-entertainment/01-first-draft.sh, not-ready",
        "rear-entertainment/02-isolator-after-sleeve.sh, not-ready",
        "rear-entertainment/03-ready.sh, ready",
        "amplifier-and-subwoofers/01-first-draft.sh, not-ready",
        "amplifier-and-subwoofers/02-ready.sh, ready"
    })
    void getsTheVerdict(String script, String verdict) throws IOException, InterruptedException {
        JsonNode answer = run(script, TestDatabase.key()).answer();

        assertThat(answer.path("verdict").asString()).isEqualTo(verdict);
        assertThat(answer.path("revisions").path("vehicle").path("revision").asInt())
                .isEqualTo(1);
    }

    @ParameterizedTest
    @CsvSource({"rear-entertainment/04-fix.sh, ISO-2", "amplifier-and-subwoofers/03-fix.sh, 50 A fuse"})
    void mendsAFirstDraft(String script, String added) throws IOException, InterruptedException {
        JsonNode answer = run(script, TestDatabase.key()).answer();

        assertThat(answer.path("verdict").asString()).isEqualTo("not-ready");
        assertThat(answer.at("/fix/ready").asBoolean()).isTrue();
        assertThat(answer.at("/fix/report/verdict").asString()).isEqualTo("ready");
        assertThat(answer.at("/fix/patch").size()).isGreaterThan(1);
        assertThat(answer.at("/fix/adds").toString()).contains(added);
    }

    @ParameterizedTest
    @CsvSource({"rear-entertainment/05-pairing.sh, 38", "amplifier-and-subwoofers/04-pairing.sh, 22"})
    void proposesAHookupThatIsReady(String script, int connections) throws IOException, InterruptedException {
        JsonNode answer = run(script, TestDatabase.key()).answer();

        assertThat(answer.at("/report/verdict").asString()).isEqualTo("ready");
        assertThat(answer.at("/report/revisions/vehicle/revision").asInt()).isEqualTo(1);
        assertThat(answer.at("/report/power").isObject()).isTrue();
        assertThat(answer.at("/hookup/connections").size()).isEqualTo(connections);
        assertThat(answer.path("choices").isEmpty()).isFalse();
    }

    @Test
    void failsWhereTheStatusIsAnother() throws IOException, InterruptedException {
        Ran ran = run("book/02-vehicles.sh", "no-such-key");

        assertThat(ran.exitCode()).isNotZero();
        assertThat(ran.lines()).anyMatch(line -> line.contains("expected HTTP status 200 and got 401"));
    }

    private Ran run(String script, String key) throws IOException, InterruptedException {
        Calls calls = calls();
        ProcessBuilder builder = new ProcessBuilder(
                        "sh", DemoFiles.examples().resolve(script).toString())
                .directory(TestDatabase.newFolder().toFile())
                .redirectErrorStream(true);
        builder.environment().put("SPLICEBOOK_URL", calls.base());
        builder.environment().put("SPLICEBOOK_KEY", key);
        Process process = builder.start();
        String output = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assertThat(process.waitFor(MOST_SECONDS, TimeUnit.SECONDS)).isTrue();
        return new Ran(process.exitValue(), output.lines().toList());
    }
}
