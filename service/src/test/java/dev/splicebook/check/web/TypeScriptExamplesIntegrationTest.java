package dev.splicebook.check.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assertions.fail;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import dev.splicebook.hookup.DemoFiles;
import dev.splicebook.testing.ServiceIntegrationTest;
import dev.splicebook.testing.TestDatabase;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/**
 * The examples in TypeScript, with types made from the committed API, against the running service. They need Node and the
 * packages that {@code npm ci} brings, and are passed over without, unless {@code SPLICEBOOK_REQUIRE_NODE} is set.
 */
class TypeScriptExamplesIntegrationTest extends ServiceIntegrationTest {

    private static final Path FOLDER = DemoFiles.examples().resolve("typescript");
    private static final int MOST_SECONDS = 180;

    private record Ran(int exitCode, List<String> lines) {

        Ran succeeded() {
            assertThat(exitCode).as(String.join("\n", lines)).isZero();
            return this;
        }
    }

    @BeforeAll
    static void compile() throws IOException, InterruptedException {
        String lacking = lacking();
        if (!lacking.isEmpty() && System.getenv("SPLICEBOOK_REQUIRE_NODE") != null) {
            fail("SPLICEBOOK_REQUIRE_NODE is set, and " + lacking);
        }
        assumeTrue(lacking.isEmpty(), "the examples in TypeScript are passed over: " + lacking);

        run(
                        Map.of(),
                        "node_modules/openapi-typescript/bin/cli.js",
                        "../openapi.json",
                        "--output",
                        "src/generated/api.d.ts")
                .succeeded();
        run(Map.of(), "node_modules/typescript/bin/tsc").succeeded();
    }

    @Test
    void swapsMemoryAndAccessoryAndIsReady() throws IOException, InterruptedException {
        List<String> lines = example("first-check");

        assertThat(lines)
                .contains(
                        "memory and accessory mixed up: not-ready",
                        "the two swapped: ready",
                        "    feed HU.memory from a constant supply.")
                .anyMatch(line -> line.startsWith("  error constant-load-on-switched-supply: HU.memory (YE) needs"))
                .anyMatch(line -> line.startsWith("  warning switched-load-on-constant-supply: HU.accessory (RD)"));
    }

    @Test
    void takesTheRearEntertainmentFromTheFirstDraftToReady() throws IOException, InterruptedException {
        List<String> lines = example("rear-entertainment");

        assertThat(headings(lines))
                .containsExactly(
                        "first draft: not-ready",
                        "isolator behind the sleeve: not-ready",
                        "isolator before the sleeve: ready");
        assertThat(lines)
                .anyMatch(line -> line.startsWith("  error returns-tied: "))
                .anyMatch(line -> line.startsWith("  error interlock-defeated: "))
                .contains("  CAR.C11-1 to HU.antenna: at connector C11");
    }

    @Test
    void takesTheAmplifierFromFiveMistakesToReady() throws IOException, InterruptedException {
        List<String> lines = example("amplifier-and-subwoofers");

        assertThat(headings(lines)).containsExactly("first draft: not-ready", "corrected: ready");
        assertThat(lines)
                .filteredOn(line -> line.matches("  (danger|error|warning) .*"))
                .hasSize(5);
    }

    @Test
    void goesThroughAFirstHour() throws IOException, InterruptedException {
        List<String> lines = example("first-hour");

        assertThat(lines.get(0)).startsWith("line 20, column 4: ").contains("PK stands for pink");
        assertThat(lines.get(1)).isEqualTo("Vandry Hauler, 25 circuits");
        assertThat(lines).filteredOn(line -> line.startsWith("  C1-")).hasSize(25);
        assertThat(lines)
                .filteredOn(line -> line.startsWith("reverse: "))
                .hasSizeGreaterThan(3)
                .anyMatch(line -> line.startsWith("reverse: Corvane Tessick, C2-12 BU/WH"));
    }

    @Test
    void saysWhyTheServiceRefuses() throws IOException, InterruptedException {
        Ran ran = run(
                Map.of("SPLICEBOOK_URL", anonymousCalls().base(), "SPLICEBOOK_KEY", "no-such-key"),
                "dist/first-check.js");

        assertThat(ran.exitCode()).isNotZero();
        assertThat(ran.lines()).anyMatch(line -> line.startsWith("Error: 401 "));
    }

    private List<String> example(String name) throws IOException, InterruptedException {
        return run(
                        Map.of("SPLICEBOOK_URL", anonymousCalls().base(), "SPLICEBOOK_KEY", TestDatabase.key()),
                        "dist/" + name + ".js")
                .succeeded()
                .lines();
    }

    private static List<String> headings(List<String> lines) {
        return lines.stream().filter(line -> !line.startsWith(" ")).toList();
    }

    /** What there would have to be, or an empty text. */
    private static String lacking() throws InterruptedException {
        try {
            run(Map.of(), "--version");
        } catch (IOException absent) {
            return "there is no node on the path";
        }
        return Files.isDirectory(FOLDER.resolve("node_modules"))
                ? ""
                : "api-examples/typescript has no node_modules; run: npm --prefix api-examples/typescript ci";
    }

    private static Ran run(Map<String, String> environment, String... arguments)
            throws IOException, InterruptedException {
        ProcessBuilder builder =
                new ProcessBuilder("node").directory(FOLDER.toFile()).redirectErrorStream(true);
        builder.command().addAll(List.of(arguments));
        builder.environment().putAll(environment);
        Process process = builder.start();
        process.getOutputStream().close();
        String output = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assertThat(process.waitFor(MOST_SECONDS, TimeUnit.SECONDS)).isTrue();
        return new Ran(process.exitValue(), output.lines().toList());
    }
}
