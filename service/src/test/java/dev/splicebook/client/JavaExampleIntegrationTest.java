package dev.splicebook.client;

import static org.assertj.core.api.Assertions.assertThat;

import dev.splicebook.hookup.DemoFiles;
import dev.splicebook.testing.ServiceIntegrationTest;
import dev.splicebook.testing.TestDatabase;
import java.io.File;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

/** Each example in Java runs from its source file, with nothing on its class path but the client and Jackson. */
class JavaExampleIntegrationTest extends ServiceIntegrationTest {

    private static final int MOST_SECONDS = 60;

    @Test
    void goesFromTheFirstDraftToReady() throws IOException, InterruptedException {
        List<String> lines = run("RearEntertainment.java");

        assertThat(findings(lines, "first draft: not-ready"))
                .containsExactlyInAnyOrder("error returns-tied", "error interlock-defeated");
        assertThat(findings(lines, "isolator behind the sleeve: not-ready")).containsExactly("error returns-tied");
        assertThat(lines).contains("isolator before the sleeve: ready");
        // what its colour says is another lead: it is made first, while there is room to look
        assertThat(lines.get(lines.indexOf("isolator before the sleeve: ready") + 1))
                .startsWith("  IFC.reverse to HU.reverse: ");
    }

    @Test
    void makesFiveMistakesAndNoneInTheEnd() throws IOException, InterruptedException {
        List<String> lines = run("AmplifierAndSubwoofers.java");

        assertThat(findings(lines, "first draft: not-ready"))
                .containsExactlyInAnyOrder(
                        "danger fuse-missing",
                        "error level-too-high",
                        "error polarity-reversed",
                        "error speaker-minus-grounded",
                        "warning control-always-active");
        assertThat(lines).contains("corrected: ready");
    }

    @Test
    void goesThroughAFirstHourAndThroughItAgain() throws IOException, InterruptedException {
        String spreadsheet = DemoFiles.examples()
                .resolve(Path.of("spreadsheet", "circuits.csv"))
                .toString();

        List<String> lines = run("FirstHour.java", spreadsheet);

        assertThat(lines.get(0)).startsWith("line 20, column 4: ").contains("pink", "PK");
        assertThat(lines.get(1)).isEqualTo("Vandry Hauler, 25 circuits");
        assertThat(lines).anyMatch(line -> line.startsWith("  CAR.C1-9 YE/RD {\"function\":\"power.battery\""));
        assertThat(lines).anyMatch(line -> line.equals("ready") || line.equals("ready-with-cautions"));
        assertThat(lines).anyMatch(line -> line.startsWith("  CAR.C1-10 to USB.power: "));
        assertThat(run("FirstHour.java", spreadsheet)).isEqualTo(lines);
    }

    @Test
    void worksOutAPowerRunAndEveryCalculation() throws IOException, InterruptedException {
        List<String> lines = run("PowerRun.java");

        assertThat(lines.get(0)).matches("draws [0-9.]+ A");
        assertThat(lines).anyMatch(line -> line.matches("takes .* AWG, governed by (drop|ampacity)"));
        assertThat(lines).anyMatch(line -> line.matches("fused at [0-9]+ A"));
        assertThat(lines).anyMatch(line -> line.matches("422: .*0\\.01 V.*"));
        assertThat(lines).anyMatch(line -> line.startsWith("voltage-drop: "));
        assertThat(lines.stream().filter(line -> line.matches("[a-z]+(-[a-z]+)*: .* = .*")))
                .hasSameSizeAs(new dev.splicebook.calculation.Calculations().listPages());
    }

    /** What an example prints that runs to its end. */
    private List<String> run(String example, String... arguments) throws IOException, InterruptedException {
        List<String> command = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Dfile.encoding=UTF-8",
                "-cp",
                classPathOfTheClient(),
                DemoFiles.examples().resolve(Path.of("java", example)).toString()));
        command.addAll(Arrays.asList(arguments));
        ProcessBuilder builder = new ProcessBuilder(command)
                .directory(TestDatabase.newFolder().toFile())
                .redirectErrorStream(true);
        builder.environment().put("SPLICEBOOK_URL", anonymousCalls().base());
        builder.environment().put("SPLICEBOOK_KEY", TestDatabase.key());
        Process process = builder.start();
        String output = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assertThat(process.waitFor(MOST_SECONDS, TimeUnit.SECONDS)).isTrue();
        assertThat(process.exitValue()).as(output).isZero();
        return output.lines().toList();
    }

    /** Severity and rule of each finding that is printed below a heading. */
    private static List<String> findings(List<String> lines, String heading) {
        assertThat(lines).contains(heading);
        return lines.subList(lines.indexOf(heading) + 1, lines.size()).stream()
                .takeWhile(line -> line.startsWith(" "))
                .filter(line -> !line.startsWith("   "))
                .map(line -> line.substring(2, line.indexOf(':')))
                .toList();
    }

    private static String classPathOfTheClient() {
        String whole = System.getProperty("surefire.test.class.path", System.getProperty("java.class.path"));
        return Arrays.stream(whole.split(File.pathSeparator, -1))
                .filter(entry -> entry.matches(
                        ".*(client-sdk|splicebook-client|jackson-(core|databind)-3|jackson-annotations).*"))
                .collect(Collectors.joining(File.pathSeparator));
    }
}
